//! Strips sawn from what a layout leaves, which set distances at the bench that are else measured.
//!
//! The order says which strips would be of use and where each would lie; a layout has an offcut for some of them. Nothing
//! flows back: the order was found without them and counts their distances as measured. Another layout of the same job
//! gives the same strips from its own offcuts, or says that it has none for one.

use crate::cutting::CutRect;
use crate::order::Wanted;
use crate::plan::{
    CutSpacer, Cutting, Piece, Plan, SawCut, SawStep, SawTool, SawWork, SheetPlan, Spacer, Step,
};
use crate::units::Length;

use super::saw::{list, too_big};

/// Distances that differ by no more are set by one strip, 0.1 mm: nobody saws finer. Common practice, no source.
const ALIKE: i64 = 100;

/// An offcut, and how much of its longer side is left.
struct Left<'a> {
    sheet: &'a SheetPlan,
    id: &'a str,
    thickness: i64,
    /// What strips have taken off its longer side, kerfs included.
    taken: i64,
    size: [i64; 2],
}

/// How a strip comes out of an offcut: a piece off the end of its longer side, then the strip off that piece.
struct Way {
    /// Index of the offcut.
    offcut: usize,
    /// Along the longer side.
    first: i64,
    /// Along the shorter one; none if the piece is the strip.
    then: Option<i64>,
    /// What is there of the offcut before.
    rest: CutRect,
}

/// The strips that this layout has room for, each for all steps that measure its distance.
pub(super) fn choose(plan: &Plan, cutting: &Cutting, wanted: &[Wanted]) -> Vec<CutSpacer> {
    let mut left = left(cutting);
    let mut chosen: Vec<CutSpacer> = Vec::new();
    for one in wanted {
        let sizes = one.spacers.iter().filter_map(size).collect::<Vec<_>>();
        let same = |known: &&mut CutSpacer| sizes.iter().any(|s| serves(&known.size, s));
        if let Some(known) = chosen.iter_mut().find(same) {
            known.steps.push(one.step);
            continue;
        }
        let found = sizes.iter().find(|size| take(&mut left, **size, cutting.job.kerf).is_some());
        let Some(size) = found else { continue };
        let id = free_name(plan, chosen.len() + 1);
        chosen.push(CutSpacer { id, size: *size, steps: vec![one.step], from: None });
    }
    chosen
}

/// Whether a strip does for another of that size.
fn serves(strip: &[i64; 3], other: &[i64; 3]) -> bool {
    (strip[0] - other[0]).abs() <= ALIKE && strip[1..] == other[1..]
}

/// A name that nothing in the plan has.
fn free_name(plan: &Plan, n: usize) -> String {
    let mut name = format!("strip {n}");
    while plan.name_of(&name) != name || plan.workshop.offcuts.iter().any(|o| o.id == name) {
        name.push('\'');
    }
    name
}

/// Distance, length and thickness of a strip in its place.
fn size(spacer: &Spacer) -> Option<[i64; 3]> {
    let mut sides: Vec<i64> = (0..3).map(|axis| spacer.at.extent(axis)).collect();
    let distance = sides.iter().position(|s| *s == spacer.dimension)?;
    sides.remove(distance);
    sides.sort_unstable();
    Some([spacer.dimension, sides[1], sides[0]])
}

fn left(cutting: &Cutting) -> Vec<Left<'_>> {
    let thickness = |sheet: &SheetPlan| {
        let stock = cutting.job.stock.iter().position(|s| s.id == sheet.stock);
        stock.and_then(|s| cutting.stock.get(s)).map_or(0, |s| s.thickness)
    };
    let mut left = Vec::new();
    for sheet in &cutting.sheets {
        let thickness = thickness(sheet);
        left.extend(sheet.offcuts.iter().map(|o| Left {
            sheet,
            id: &o.id,
            thickness,
            taken: 0,
            size: o.size,
        }));
    }
    left
}

/// Takes a strip out of the smallest offcut that has room for it.
fn take(left: &mut [Left], [width, length, thickness]: [i64; 3], kerf: i64) -> Option<Way> {
    let ways = [[width, length], [length, width]];
    let mut best: Option<(i64, usize, [i64; 2])> = None;
    for (n, offcut) in left.iter().enumerate().filter(|(_, o)| o.thickness == thickness) {
        let [long, short] = offcut.rest();
        let fits = |way: &&[i64; 2]| way[0] <= long && (way[1] == short || way[1] + kerf <= short);
        let Some(way) = ways.iter().filter(fits).min_by_key(|way| way[0]) else { continue };
        let area = long * short;
        if best.is_none_or(|b| area < b.0) {
            best = Some((area, n, *way));
        }
    }
    let (_, n, [first, second]) = best?;
    let offcut = left.get_mut(n)?;
    let [long, short] = offcut.rest();
    let rest = CutRect { x: 0, y: 0, length: long, width: short };
    offcut.taken += first + kerf;
    Some(Way { offcut: n, first, then: (second != short).then_some(second), rest })
}

impl Left<'_> {
    /// What is left of the longer side, and the shorter one.
    fn rest(&self) -> [i64; 2] {
        let [a, b] = self.size;
        [a.max(b) - self.taken, a.min(b)]
    }
}

/// Says of each strip which offcut it comes from, of each offcut what it is for, and hands back how they are sawn.
pub(super) fn saw(plan: &Plan, cutting: &mut Cutting) -> Vec<SawStep> {
    let (mut steps, mut from) = (Vec::new(), Vec::new());
    let mut left = left(cutting);
    for spacer in &cutting.spacers {
        let way = take(&mut left, spacer.size, cutting.job.kerf);
        from.push(way.as_ref().and_then(|w| left.get(w.offcut)).map(|o| o.id.to_owned()));
        steps.push(match &way {
            Some(way) => step(plan, cutting, spacer, way, &left),
            None => step_without(plan, spacer),
        });
    }
    for (spacer, from) in cutting.spacers.iter_mut().zip(from) {
        spacer.from = from;
    }
    let spacers = &cutting.spacers;
    for offcut in cutting.sheets.iter_mut().flat_map(|s| &mut s.offcuts) {
        let of = spacers.iter().filter(|s| s.from.as_ref() == Some(&offcut.id));
        let names: Vec<String> = of.map(|s| s.id.clone()).collect();
        offcut.keep_for = (!names.is_empty()).then(|| list(&names, ", "));
    }
    steps
}

fn step(plan: &Plan, cutting: &Cutting, spacer: &CutSpacer, way: &Way, left: &[Left]) -> SawStep {
    let offcut = left.get(way.offcut);
    let (from, sheet) = offcut.map_or(("", None), |o| (o.id, Some(o.sheet)));
    let big = sheet.is_some_and(|s| too_big(cutting, s, way.rest));
    let print = |um: i64| plan.unit.finest().print(Length::um(um));
    let CutSpacer { id, size: [width, length, _], .. } = spacer;
    let first = print(way.first);
    let off = if big {
        format!("Track saw, {first} from one end of {from}.")
    } else {
        format!("Stop on the sled at {first}, one end of {from} against it.")
    };
    let then = match way.then {
        Some(then) if big => format!(" Of that piece, {} on the sled", print(then)),
        Some(then) => format!(" Of that piece, {}", print(then)),
        None => " That piece".to_owned(),
    };
    SawStep {
        n: 0,
        work: SawWork::Spacer,
        tool: if big { SawTool::TrackSaw } else { SawTool::Sled },
        text: format!(
            "{off}{then} is {id}, {} × {}. Write its name on it and keep it: its {} set a distance in {} at the bench.",
            print(*width),
            print(*length),
            print(*width),
            numbers(&spacer.steps)
        ),
        setting: way.first,
        along: None,
        cuts: vec![SawCut {
            from: from.to_owned(),
            gives: Piece::Spacer { mark: id.clone() },
            leaves: None,
        }],
        parts: Vec::new(),
        cautions: vec![
            "Small pieces: clamp them to the sled, and keep both hands out of the line of the cut."
                .to_owned(),
        ],
    }
}

fn step_without(plan: &Plan, spacer: &CutSpacer) -> SawStep {
    let print = |um: i64| plan.unit.finest().print(Length::um(um));
    let CutSpacer { id, size: [width, length, thickness], .. } = spacer;
    SawStep {
        n: 0,
        work: SawWork::Spacer,
        tool: SawTool::Sled,
        text: format!(
            "This layout leaves no offcut for {id}: saw it from any scrap, {} × {} and {} thick, or measure its {} by tape in {} at the bench.",
            print(*width),
            print(*length),
            print(*thickness),
            print(*width),
            numbers(&spacer.steps)
        ),
        setting: *width,
        along: None,
        cuts: Vec::new(),
        parts: Vec::new(),
        cautions: Vec::new(),
    }
}

/// `step 2`, or `steps 2, 5 and 9`.
fn numbers(steps: &[u32]) -> String {
    let names: Vec<String> = steps.iter().map(u32::to_string).collect();
    let word = if names.len() == 1 { "step" } else { "steps" };
    format!("{word} {}", list(&names, ", "))
}

/// Lays the strips that there are into the steps that want them.
pub fn lay(steps: &mut [Step], cutting: &Cutting, wanted: Vec<Wanted>) {
    for one in wanted {
        let used = |s: &&CutSpacer| s.steps.contains(&one.step);
        let Some(strip) = cutting.spacers.iter().find(used) else { continue };
        let place =
            one.spacers.into_iter().find(|s| size(s).is_some_and(|s| serves(&strip.size, &s)));
        let step = steps.iter_mut().find(|s| s.n == one.step && s.spacer.is_none());
        if let (Some(step), Some(place)) = (step, place) {
            step.spacer =
                Some(Spacer { part: strip.id.clone(), dimension: strip.size[0], ..place });
        }
    }
}
