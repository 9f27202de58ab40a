//! One material as numbers.
//!
//! Every part and every usable sheet is taken a kerf larger along x and y; the kerf is then forgotten. Two pieces are
//! always parted by a cut from edge to edge, so a kerf to the right of and behind each keeps all apart, and at the
//! far edges, where no cut is needed, the larger sheet has room for it.

use super::job::{Aim, GrainRule, Job, Keep};
use super::stock::Stock;
use super::worth::Worth;
use crate::assembly::Grain;

/// Length along x, width along y, or the other way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Straight,
    Turned,
}

/// The ways a part may lie on a sheet, as two bits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ways(u8);

impl Ways {
    pub const NONE: Ways = Ways(0);

    pub fn has(self, way: Way) -> bool {
        self.0 & (1 << way as u8) != 0
    }

    pub fn any(self) -> bool {
        self.0 != 0
    }

    fn with(self, way: Way, allowed: bool) -> Ways {
        Ways(self.0 | (u8::from(allowed) << way as u8))
    }
}

/// Parts that are alike to the search.
#[derive(Debug, Clone)]
pub(super) struct Kind {
    /// Length and width with the kerf.
    pub size: [i64; 2],
    /// How many, over all parts of the kind.
    pub count: u32,
    /// What leaving one out costs the search.
    pub weight: i64,
    /// Parts of the job, by index, with their counts.
    pub members: Vec<(usize, u32)>,
}

impl Kind {
    /// Length and width as it lies, with the kerf.
    pub fn lying(&self, way: Way) -> [i64; 2] {
        match way {
            Way::Straight => self.size,
            Way::Turned => [self.size[1], self.size[0]],
        }
    }

    pub fn area(&self) -> i64 {
        self.size[0] * self.size[1]
    }
}

/// Sheets that are alike.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    /// Usable length and width with the kerf.
    pub size: [i64; 2],
    pub cost: Cost,
    /// How many may be cut.
    pub count: u32,
    /// Index into the job's stock.
    pub stock: usize,
}

impl Sheet {
    pub fn area(&self) -> i64 {
        self.size[0] * self.size[1]
    }
}

/// What sheets cost: money or their number first, then the area of scraps in mm².
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    pub price: i64,
    pub scrap: i64,
}

impl Cost {
    pub const MOST: Cost = Cost { price: i64::MAX, scrap: i64::MAX };

    pub fn plus(self, other: Cost) -> Cost {
        Cost {
            price: self.price.saturating_add(other.price),
            scrap: self.scrap.saturating_add(other.scrap),
        }
    }

    pub fn minus(self, other: Cost) -> Cost {
        Cost { price: self.price - other.price, scrap: self.scrap - other.scrap }
    }
}

/// The parts and sheets of one material.
#[derive(Debug, Clone)]
pub(super) struct Problem {
    pub kinds: Vec<Kind>,
    pub sheets: Vec<Sheet>,
    /// By kind, then sheet.
    ways: Vec<Ways>,
    /// Brings values to the scale on which leftovers are valued.
    value_scale: i64,
    pub kerf: i64,
    /// What is left beside a piece is nothing or at least this.
    pub least_gap: i64,
    /// The deepest a part may lie in the cut tree.
    pub most_depth: u16,
    pub worth: Worth,
    pub aim: Aim,
    pub keep: Keep,
}

impl Problem {
    /// Those of the job's parts and stock that are named by index: checked, of one material. Parts that fit on none of
    /// the sheets come back beside it.
    pub fn new(job: &Job, parts: &[usize], stock: &[usize]) -> (Problem, Vec<usize>) {
        let wanted: u32 = parts.iter().fold(0, |n, p| n.saturating_add(job.parts[*p].count));
        let sheets: Vec<Sheet> =
            stock.iter().map(|s| sheet(job, &job.stock[*s], *s, wanted)).collect();
        let most = sheets.iter().map(Sheet::area).max().unwrap_or(1);
        let worth = Worth::new(most);
        let mut problem = Problem {
            kinds: Vec::new(),
            sheets,
            ways: Vec::new(),
            value_scale: (worth.of(most)
                / parts.iter().map(|p| job.parts[*p].value).max().unwrap_or(1).max(1))
            .max(1),
            kerf: job.kerf,
            least_gap: if job.least_cut > 0 { job.kerf + job.least_cut } else { 1 },
            most_depth: job.stages.most(),
            worth,
            aim: job.aim,
            keep: job.keep,
        };
        let mut unfit = Vec::new();
        for &p in parts {
            if !problem.add(job, p) {
                unfit.push(p);
            }
        }
        (problem, unfit)
    }

    /// False if the part fits on none of the sheets.
    fn add(&mut self, job: &Job, index: usize) -> bool {
        let part = &job.parts[index];
        let alike = self.kinds.iter_mut().find(|k| {
            let first = &job.parts[k.members[0].0];
            (first.length, first.width, first.grain, first.hidden, first.value)
                == (part.length, part.width, part.grain, part.hidden, part.value)
        });
        if let Some(kind) = alike {
            kind.count = kind.count.saturating_add(part.count);
            kind.members.push((index, part.count));
            return true;
        }
        let kind = Kind {
            size: [part.length + self.kerf, part.width + self.kerf],
            count: part.count,
            weight: 0,
            members: vec![(index, part.count)],
        };
        let ways: Vec<Ways> = self
            .sheets
            .iter()
            .map(|s| {
                let stock = &job.stock[s.stock];
                if stock.scrap && !part.hidden {
                    return Ways::NONE;
                }
                [Way::Straight, Way::Turned].into_iter().fold(Ways::NONE, |ways, way| {
                    let fits = self.fits(kind.lying(way), s.size);
                    ways.with(way, fits && grain_allows(part.grain, stock.grain, way))
                })
            })
            .collect();
        if !ways.iter().any(|w| w.any()) {
            return false;
        }
        let weight = match self.aim {
            Aim::MostValue => part.value.saturating_mul(self.value_scale),
            _ => self.worth.linear(kind.area()).max(1),
        };
        self.kinds.push(Kind { weight, ..kind });
        self.ways.extend(ways);
        true
    }

    /// How the parts of a kind may lie on a sheet.
    pub fn ways(&self, kind: usize, sheet: usize) -> Ways {
        self.ways[kind * self.sheets.len() + sheet]
    }

    /// Whether a piece fits into a leftover, what is left beside it being nothing or enough.
    pub fn fits(&self, piece: [i64; 2], room: [i64; 2]) -> bool {
        let ok = |rest: i64| rest == 0 || rest >= self.least_gap;
        ok(room[0] - piece[0]) && ok(room[1] - piece[1])
    }
}

fn sheet(job: &Job, stock: &Stock, index: usize, wanted: u32) -> Sheet {
    let usable = stock.usable();
    let size = usable.map(|side| side + job.kerf);
    let price = match job.aim {
        Aim::FewestSheets => i64::from(!stock.scrap),
        _ => stock.price,
    };
    // In mm², so that many scraps still add up; at least 1, so that an unused scrap is the better one.
    let scrap = if stock.scrap { (size[0] / 1000 * (size[1] / 1000)).max(1) } else { 0 };
    // One part a sheet is the worst there is.
    let count = stock.count.map_or(wanted, |n| n.min(wanted));
    Sheet { size, cost: Cost { price, scrap }, count, stock: index }
}

/// Whether a part that lies this way keeps its grain.
fn grain_allows(rule: GrainRule, grain: Grain, way: Way) -> bool {
    match (rule, grain) {
        (GrainRule::Free, _) | (GrainRule::Locked, Grain::None) => true,
        (GrainRule::Locked, Grain::Length) => way == Way::Straight,
        (GrainRule::Locked, Grain::Width) => way == Way::Turned,
    }
}
