//! Fronts and closed doors: can they touch each other, what stands beside, the carcass?

use crate::assembly::Role;
use crate::findings::{JobStage, Severity};
use crate::geometry::Box3;
use crate::measure::rectangle;
use crate::scenario::Neighbour;

use super::doors;
use super::facts::Facts;
use super::num;
use super::row::{CheckRow, Said, Theme};
use super::stack::{CUT, PLACED, SET, stack};

/// Two fronts whose gap is wider are no neighbours.
const FAR: i64 = 25_000;

const GAPS: &str = "each size ± 1/64 in or 0.5 mm, each front set ± 0.5 mm: common practice, no source; a gap of 1/16 in is custom grade (AWI, hardwoodinfo.com; read)";

pub fn check(f: &Facts, said: &mut Said) {
    let shown = |i: &usize| matches!(f.part(*i).role, Role::Front | Role::FalseFront | Role::Door);
    let fronts: Vec<usize> = (0..f.plan.parts.len()).filter(shown).collect();
    // Half the cut's tolerance at each edge, and what setting by hand adds.
    let edge = CUT / 2;
    let mut tightest: Option<(i64, [usize; 2])> = None;
    let mut rest = fronts.as_slice();
    while let Some((&a, others)) = rest.split_first() {
        rest = others;
        for (b, at) in around(f, a, others) {
            if let Some(gap) = gap(&f.bounds[a], &at)
                && tightest.is_none_or(|(least, _)| gap < least)
            {
                tightest = Some((gap, [a, b]));
            }
        }
    }
    if let Some((gap, [a, b])) = tightest {
        let names = format!("{} and {}", f.part(a).name, f.part(b).name);
        judge(
            f,
            "front-gap",
            format!("part {}", f.part(a).id),
            &names,
            gap,
            &[edge, edge, SET, SET],
            "build.front.reveal",
            said,
        );
    }
    beside(f, &fronts, said);
    doors::check(f, &fronts, said);
}

/// What may be near a front: other fronts, and what of the carcass lies at its depth when it is set in. Pins that
/// stand out of a side further back are no part of that.
pub(super) fn around<'a>(
    f: &'a Facts,
    front: usize,
    others: &'a [usize],
) -> impl Iterator<Item = (usize, Box3)> + 'a {
    let own = f.bounds[front];
    let carcass = f.standing().flat_map(|i| f.solids[i].boxes().iter().map(move |b| (i, *b)));
    let set_in = carcass.filter(move |(_, b)| b.overlap(&own, 1) > 0);
    others.iter().map(|&i| (i, f.bounds[i])).chain(set_in)
}

/// The gap between two fronts side by side or one over the other; none when they are no neighbours.
pub(super) fn gap(a: &Box3, b: &Box3) -> Option<i64> {
    let apart = |axis: usize| -a.overlap(b, axis);
    let beside = |axis: usize| a.overlap(b, axis) > 0;
    let near = |gap: i64| (0..FAR).contains(&gap).then_some(gap);
    match (beside(0), beside(2)) {
        (true, false) => near(apart(2)),
        (false, true) => near(apart(0)),
        _ => None,
    }
}

#[allow(clippy::too_many_arguments)]
fn judge(
    f: &Facts,
    rule: &str,
    place: String,
    names: &str,
    gap: i64,
    off: &[i64],
    field: &str,
    said: &mut Said,
) {
    let (worst, likely) = stack(off);
    let fine = |um: i64| num::fine(f.notation, i128::from(um));
    let row = CheckRow::new(rule, Theme::Fronts, JobStage::Size, place)
        .says(
            format!("Can these touch? {names}"),
            "gap − Σ tolerances (at worst); gap − √Σ tolerances² (likely)",
            GAPS,
        )
        .with("gap", fine(gap))
        .with("tolerances, at worst", num::fine(f.notation, i128::from(worst)))
        .with("tolerances, likely", fine(likely))
        .gives(
            format!("{} at worst, {} likely", fine(gap - worst), fine(gap - likely)),
            "more than 0",
        );
    said.judge(row, gap > worst, Severity::Caution, || {
        [
            format!(
                "The gap of {} between {names} can close: sizes and setting may be off by {}.",
                f.length(gap),
                f.length(worst)
            ),
            // What is printed is rounded: a step more than enough clears it.
            format!("Make the gap {} or more (`{field}`).", f.length(worst + 1_600)),
        ]
    });
}

/// What stands left and right of the opening, and what is above.
fn beside(f: &Facts, fronts: &[usize], said: &mut Said) {
    let Some(cabinet) = f.cabinet() else { return };
    let (space, Some(carcass)) = (&cabinet.space, f.around(f.standing())) else { return };
    let off = [CUT / 2, SET, PLACED];
    if let Some(opening) = rectangle::width(space) {
        let rest = (opening - carcass.extent(0)) / 2;
        for (side, neighbour) in [(0, space.left), (1, space.right)] {
            if neighbour == Neighbour::Open {
                continue;
            }
            let edge = |i: &usize| {
                let b = &f.bounds[*i];
                if side == 0 { b.min[0] - carcass.min[0] } else { carcass.max[0] - b.max[0] }
            };
            let Some(front) = fronts.iter().copied().min_by_key(edge) else { continue };
            let what = if neighbour == Neighbour::Wall { "wall" } else { "unit" };
            let names =
                format!("{} and the {what} on the {}", f.part(front).name, ["left", "right"][side]);
            let place = format!("part {}", f.part(front).id);
            judge(
                f,
                "front-neighbour",
                place.clone(),
                &names,
                edge(&front) + rest,
                &off,
                "build.carcass.side_gap",
                said,
            );
            if neighbour == Neighbour::Wall {
                doors::at_wall(f, fronts, side, edge(&front) + rest, said);
            }
        }
    }
    if let Some(front) = fronts.iter().copied().max_by_key(|&i| f.bounds[i].max[2]) {
        let gap = rectangle::height(space) - (f.bounds[front].max[2] - f.floor);
        let names = format!("{} and what is above", f.part(front).name);
        judge(
            f,
            "front-above",
            format!("part {}", f.part(front).id),
            &names,
            gap,
            &off,
            "build.carcass.top_gap",
            said,
        );
    }
}
