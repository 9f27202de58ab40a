//! What no layout can do better than: least money and fewest sheets.
//!
//! All bounds leave out that cuts go from edge to edge and how many stages there are, so they hold for every layout.

mod cover;
mod dual_feasible;
mod martello_vigo;

use super::problem::{Problem, Way};
use cover::Holds;
use dual_feasible::{Stretch, stretches};

/// Least money (or what stands for it) and fewest sheets. Grows while [`Bounding`] works.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Bound {
    pub price: i64,
    pub sheets: i64,
}

/// Bounds being worked out, a function of the sizes along x at a time, so that a search is not kept waiting.
#[derive(Debug, Clone)]
pub(super) struct Bounding {
    best: Bound,
    x: Side,
    y: Side,
    /// Next of the functions along x.
    next: usize,
    /// The pair that said most about the price.
    top: (usize, usize),
}

/// One direction: its functions with their images.
#[derive(Debug, Clone)]
struct Side {
    functions: Vec<Images>,
}

/// What a function makes of each kind's sizes and of each sheet's side.
#[derive(Debug, Clone)]
struct Images {
    /// Of length and width of each kind.
    kinds: Vec<[i64; 2]>,
    sheets: Vec<i64>,
    most: i64,
}

impl Bounding {
    pub fn new(problem: &Problem) -> Self {
        let mut bounding = Bounding {
            best: Bound::default(),
            x: side(problem, 0),
            y: side(problem, 1),
            next: 0,
            top: (0, 0),
        };
        if let [sheet] = &problem.sheets[..] {
            let may_turn = (0..problem.kinds.len()).any(|k| {
                let ways = problem.ways(k, 0);
                ways.has(Way::Straight) && ways.has(Way::Turned)
            });
            if !may_turn {
                let items: Vec<_> = (0..problem.kinds.len())
                    .map(|k| {
                        let way = if problem.ways(k, 0).has(Way::Turned) {
                            Way::Turned
                        } else {
                            Way::Straight
                        };
                        (problem.kinds[k].lying(way), i64::from(problem.kinds[k].count))
                    })
                    .collect();
                let sheets = martello_vigo::least_sheets(sheet.size, &items);
                bounding.best.sheets = sheets;
                bounding.best.price = sheets.saturating_mul(sheet.cost.price);
            }
        }
        // The area, at least, is known at once.
        bounding.step(problem);
        bounding
    }

    /// As far as it is known.
    pub fn best(&self) -> Bound {
        self.best
    }

    /// Works on; false when there is nothing left to do.
    pub fn step(&mut self, problem: &Problem) -> bool {
        if self.next >= self.x.functions.len() {
            return false;
        }
        for y in 0..self.y.functions.len() {
            self.pair(problem, self.next, y);
        }
        self.next += 1;
        if self.next == self.x.functions.len() && problem.sheets.len() > 1 {
            let tops = [(0, 0), self.top];
            for (x, y) in tops {
                self.exactly(problem, x, y);
            }
        }
        true
    }

    fn pair(&mut self, problem: &Problem, x: usize, y: usize) {
        let (f, g) = (&self.x.functions[x], &self.y.functions[y]);
        let wanted = wanted(problem, f, g);
        if let [sheet] = &problem.sheets[..] {
            let holds = i128::from(f.sheets[0]) * i128::from(g.sheets[0]);
            if holds == 0 {
                return;
            }
            let sheets = i64::try_from((wanted + holds - 1) / holds).unwrap_or(0);
            self.best.sheets = self.best.sheets.max(sheets);
            self.best.price = self.best.price.max(sheets.saturating_mul(sheet.cost.price));
            return;
        }
        let holds = holds(problem, f, g);
        if let Some(price) = cover::relaxed(&holds, wanted)
            && price > self.best.price
        {
            self.best.price = price;
            self.top = (x, y);
        }
        let each: Vec<Holds> = holds.iter().map(|h| Holds { price: 1, ..*h }).collect();
        if let Some(sheets) = cover::relaxed(&each, wanted) {
            self.best.sheets = self.best.sheets.max(sheets);
        }
    }

    fn exactly(&mut self, problem: &Problem, x: usize, y: usize) {
        let (f, g) = (&self.x.functions[x], &self.y.functions[y]);
        if let Some(price) = cover::least(&holds(problem, f, g), wanted(problem, f, g)) {
            self.best.price = self.best.price.max(price);
        }
    }
}

fn holds(problem: &Problem, f: &Images, g: &Images) -> Vec<Holds> {
    problem
        .sheets
        .iter()
        .enumerate()
        .map(|(s, sheet)| Holds {
            holds: i128::from(f.sheets[s]) * i128::from(g.sheets[s]),
            price: sheet.cost.price,
            count: sheet.count,
        })
        .collect()
}

/// What all parts take up at least, each lying the way that takes up less.
fn wanted(problem: &Problem, f: &Images, g: &Images) -> i128 {
    // A product of two images, summed over all parts, in 64 bits wherever it fits.
    let parts: i64 = problem.kinds.iter().map(|k| i64::from(k.count)).sum();
    let narrow = f.most.checked_mul(g.most).and_then(|p| p.checked_mul(parts.max(1))).is_some();
    let each = |k: usize| {
        let (a, b) = (f.kinds[k], g.kinds[k]);
        (a[0], b[1], a[1], b[0])
    };
    if narrow {
        let mut sum = 0i64;
        for (k, kind) in problem.kinds.iter().enumerate() {
            let (a, b, c, d) = each(k);
            sum += (a * b).min(c * d) * i64::from(kind.count);
        }
        return i128::from(sum);
    }
    let mut sum = 0i128;
    for (k, kind) in problem.kinds.iter().enumerate() {
        let (a, b, c, d) = each(k);
        let (a, b, c, d) = (i128::from(a), i128::from(b), i128::from(c), i128::from(d));
        sum += (a * b).min(c * d) * i128::from(kind.count);
    }
    sum
}

/// The functions along an axis: all of them for one size of sheet, those that also bound shorter sheets otherwise.
fn side(problem: &Problem, axis: usize) -> Side {
    let sheets: Vec<i64> = problem.sheets.iter().map(|s| s.size[axis]).collect();
    let longest = sheets.iter().copied().max().unwrap_or(0);
    let lengths: Vec<[i64; 2]> =
        (0..problem.kinds.len()).map(|k| along(problem, k, axis)).collect();
    let flat: Vec<i64> = lengths.iter().flatten().chain(&sheets).copied().collect();
    let image = |s: Stretch| {
        let kinds: Vec<[i64; 2]> =
            lengths.iter().map(|pair| pair.map(|x| s.of(longest, x))).collect();
        let sheets: Vec<i64> = sheets.iter().map(|x| s.of(longest, *x)).collect();
        let most = kinds.iter().flatten().chain(&sheets).copied().max().unwrap_or(0);
        Images { kinds, sheets, most }
    };
    let functions = stretches(longest, &flat, sheets.len() > 1).into_iter().map(image).collect();
    Side { functions }
}

/// A kind's length and width where either may lie along the axis; what does lie there twice if it may not turn.
fn along(problem: &Problem, kind: usize, axis: usize) -> [i64; 2] {
    let may = |way| (0..problem.sheets.len()).any(|s| problem.ways(kind, s).has(way));
    let size = problem.kinds[kind].size;
    match (may(Way::Straight), may(Way::Turned)) {
        (true, true) => size,
        (_, false) => [size[axis]; 2],
        (false, true) => [size[1 - axis]; 2],
    }
}
