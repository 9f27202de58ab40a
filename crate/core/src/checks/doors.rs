//! Doors on their way: past a wall, past what they meet, out of the way of what slides out behind them.

use crate::assembly::Role;
use crate::findings::{JobStage, Severity};
use crate::geometry::Box3;

use super::facts::{Facts, Moves};
use super::fronts::{around, gap};
use super::num;
use super::row::{CheckRow, Said, Theme};
use super::stack::{CUT, SET, stack};

/// Between what slides out and the open door beside it.
const CLEAR: i64 = 3_000;

const HANDLES: &str = "a handle stands out 40 mm unless you give yours: common practice, no source";
const SWEEP: &str = "worked out, as if the door turned about the outer face of its edge, which a concealed hinge betters; likely tolerances as of the gaps: common practice, no source";
const BEHIND: &str = "worked out, as if the open door stood on the edge it is hung by; 3 mm of air: common practice, no source; how far a hinge swings the door clear is on its sheet";

/// A door with its hinges, and whether it is hung by its left edge.
struct Hung {
    door: usize,
    hinges: Vec<usize>,
    left: bool,
}

fn middle(b: &Box3) -> i64 {
    i64::midpoint(b.min[0], b.max[0])
}

/// How a door is hung; none without hinges, or with hinges in its middle.
fn hung(f: &Facts, door: usize) -> Option<Hung> {
    let id = &f.part(door).id;
    let others = f.plan.joints.iter().filter(|j| j.parts.contains(id)).filter_map(|j| f.ends(j));
    let hinges: Vec<usize> =
        others.flatten().filter(|&other| f.part(other).role == Role::Hinge).collect();
    let off = middle(&f.bounds[*hinges.first()?]) - middle(&f.bounds[door]);
    (off != 0).then_some(Hung { door, hinges, left: off.is_negative() })
}

pub fn check(f: &Facts, fronts: &[usize], said: &mut Said) {
    let doors: Vec<Hung> = f.with_role(Role::Door).filter_map(|door| hung(f, door)).collect();
    meets(f, fronts, &doors, said);
    for door in &doors {
        before_drawer(f, door, said);
    }
}

/// The outermost door beside a wall opens only as far as its handle lets it, if it is hung on that side.
pub fn at_wall(f: &Facts, fronts: &[usize], side: usize, gap: i64, said: &mut Said) {
    let doors = fronts.iter().copied().filter(|&i| f.part(i).role == Role::Door);
    let outer = if side == 0 {
        doors.min_by_key(|&i| f.bounds[i].min[0])
    } else {
        doors.max_by_key(|&i| f.bounds[i].max[0])
    };
    let Some(hung) = outer.and_then(|door| hung(f, door)) else { return };
    let Some(front) = f.cabinet().and_then(|c| c.build.front.as_ref()) else { return };
    if hung.left != (side == 0) {
        return;
    }
    let (part, handle) = (f.part(hung.door), front.handle.get());
    let row =
        CheckRow::new("door-at-wall", Theme::Fronts, JobStage::Size, format!("part {}", part.id))
            .says(
                format!("Does the {} open past its handle?", part.name),
                "gap to the wall against what the handle stands out, at 90 degrees",
                HANDLES,
            )
            .with("gap to the wall", f.length(gap))
            .with("handle stands out", f.length(handle))
            .gives(f.length(gap), format!("at least {}", f.length(handle)));
    said.judge(row, gap >= handle, Severity::Caution, || {
        [
            format!("The {} is hung beside a wall: its handle meets the wall before it stands at 90 degrees.", part.name),
            format!(
                "Hang it on its other side, leave {} beside it with a filler, or give what your handle stands out (`build.front.handle`).",
                f.length(handle)
            ),
        ]
    });
}

/// How far the inner corner of a door's free edge comes out beyond it on its way.
fn sweep(b: &Box3) -> i64 {
    let [wide, thick] = [0, 1].map(|axis| i128::from(b.extent(axis)));
    num::small(num::root(wide * wide + thick * thick)) - b.extent(0)
}

/// The door that comes nearest to what stands beside its free edge: another front, or the carcass where it
/// is set in it.
fn meets(f: &Facts, fronts: &[usize], doors: &[Hung], said: &mut Said) {
    let mut nearest: Option<(i64, i64, usize, usize)> = None;
    for hung in doors {
        let b = &f.bounds[hung.door];
        for (other, o) in around(f, hung.door, fronts) {
            let beside = if hung.left { o.min[0] >= b.max[0] } else { o.max[0] <= b.min[0] };
            let Some(gap) = gap(b, &o).filter(|_| beside) else { continue };
            let air = gap - sweep(b);
            if nearest.is_none_or(|(least, ..)| air < least) {
                nearest = Some((air, gap, hung.door, other));
            }
        }
    }
    let Some((air, gap, door, other)) = nearest else { return };
    let (_, likely) = stack(&[CUT / 2, CUT / 2, SET, SET]);
    let fine = |um: i64| num::fine(f.notation, i128::from(um));
    let (part, theirs, b) = (f.part(door), &f.part(other).name, &f.bounds[door]);
    let row =
        CheckRow::new("door-meet", Theme::Fronts, JobStage::Size, format!("part {}", part.id))
            .says(
                format!("Does the {} swing past the {theirs}?", part.name),
                "gap − (√(width² + thickness²) − width), against the likely tolerances",
                SWEEP,
            )
            .with("gap", fine(gap))
            .with("width", f.length(b.extent(0)))
            .with("thickness", f.finest(b.extent(1)))
            .gives(fine(air), format!("at least {}", fine(likely)));
    said.judge(row, air >= likely, Severity::Caution, || {
        [
            format!(
                "The {} can catch on the {theirs} as it swings: its corner comes out by {}.",
                part.name,
                fine(gap - air)
            ),
            // What is printed is rounded: a step more than enough clears it.
            format!(
                "Make the gap {} or more (`build.front.reveal`), or bevel the door's edge.",
                f.length(gap - air + likely + 800)
            ),
        ]
    });
}

/// What slides out behind a door has to pass it and its hinges while it stands open at 90 degrees.
fn before_drawer(f: &Facts, hung: &Hung, said: &mut Said) {
    let (part, d) = (f.part(hung.door), &f.bounds[hung.door]);
    for set in f.sets.iter().filter(|s| s.moves == Moves::Slides) {
        let Some(b) = f.around(set.parts.iter().copied()) else { continue };
        if d.max[1] > b.min[1] || d.overlap(&b, 0) <= 0 || d.overlap(&b, 2) <= 0 {
            continue;
        }
        let hinges = || hung.hinges.iter().map(|&h| &f.bounds[h]).filter(|h| h.overlap(&b, 2) > 0);
        let air = if hung.left {
            let line = hinges().map(|h| h.max[0]).fold(d.min[0] + d.extent(1), i64::max);
            b.min[0] - line
        } else {
            let line = hinges().map(|h| h.min[0]).fold(d.max[0] - d.extent(1), i64::min);
            line - b.max[0]
        };
        let Some(body) = set.parts.first().map(|&i| f.part(i).group.clone()) else { continue };
        let name = f.plan.name_of(&body).to_owned();
        let row = CheckRow::new(
            "door-drawer",
            Theme::Fronts,
            JobStage::Size,
            format!("body {body}"),
        )
        .says(
            format!("Does the {name} pass the open {}?", part.name),
            "side of what slides − thickness of the door and reach of its hinges, at 90 degrees",
            BEHIND,
        )
        .with("thickness of the door", f.finest(d.extent(1)))
        .gives(f.length(air), format!("at least {}", f.length(CLEAR)));
        said.judge(row, air >= CLEAR, Severity::Caution, || {
            [
                format!("The {name} runs into the {} behind which it stands, or into its hinges, when the door stands open at 90 degrees.", part.name),
                format!(
                    "Set it in by {} more on the side of the hinges, with a strip behind its runner, or read on the hinge's sheet how far it swings the door clear.",
                    f.length(CLEAR - air)
                ),
            ]
        });
    }
}
