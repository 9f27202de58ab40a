//! How much each size may be off before something does not fit, and what to cut to one stop.

use std::collections::BTreeMap;

use crate::assembly::{JointKind, Kind, Role};
use crate::findings::JobStage;
use crate::measure::rectangle;
use crate::scenario::{MaterialKind, Subject};

use super::diagonals::sheet_allowance;
use super::facts::{Facts, Moves};
use super::num;
use super::row::{CheckRow, Said, Theme};
use super::stack::{CUT, stack};
use super::thickness::{CATEGORIES, in_category};

const STOP: &str =
    "parts that set the same distance are cut to one stop: common practice, no source";
const FREE: &str = "worked out from the design's own gaps";
const BOX: &str =
    "a box for side-mounted runners: 1/32 in narrower, not wider: common practice, no source";
const SHEETS: &str = "PS 1-19 performance categories: 1/4 0.219 to 0.281, 1/2 0.469 to 0.531, 23/32 0.688 to 0.750, 3/4 0.719 to 0.781 in (read)";
const SQUARE: &str = "1/64 in on each foot of the longest edge: PS 1, \"Tolerances\" (read)";

pub fn check(f: &Facts, said: &mut Said) {
    stops(f, said);
    captured(f, said);
    width(f, said);
    boxes(f, said);
    sheets(f, said);
}

fn row(rule: &str, place: String) -> CheckRow {
    CheckRow::new(rule, Theme::Tolerance, JobStage::Cut, place)
}

/// Panels of one length that lie between the same two others.
fn stops(f: &Facts, said: &mut Said) {
    let mut between: BTreeMap<(i64, Vec<&str>), Vec<usize>> = BTreeMap::new();
    for i in 0..f.plan.parts.len() {
        let part = f.part(i);
        if part.kind != Kind::Panel {
            continue;
        }
        let b = &f.bounds[i];
        let Some(axis) =
            (0..3).find(|&a| b.extent(a) == part.length && part.length != part.thickness)
        else {
            continue;
        };
        let mut ends: Vec<&str> = Vec::new();
        for joint in f
            .plan
            .joints
            .iter()
            .filter(|j| j.parts.contains(&part.id) && j.kind != JointKind::Slide)
        {
            let Some([a, c]) = f.ends(joint) else { continue };
            let other = if a == i { c } else { a };
            let o = &f.bounds[other];
            // It stands at one end: mostly before or behind it along the length.
            if o.extent(axis) == f.part(other).thickness
                && (o.min[axis] <= b.min[axis] || o.max[axis] >= b.max[axis])
            {
                ends.push(&f.part(other).id);
            }
        }
        ends.sort_unstable();
        ends.dedup();
        if ends.len() == 2 {
            between.entry((part.length, ends)).or_default().push(i);
        }
    }
    for ((length, ends), parts) in between.iter().filter(|(_, parts)| parts.len() > 1) {
        let names: Vec<&str> = parts.iter().map(|&i| f.part(i).name.as_str()).collect();
        let [a, b] = [0, 1].map(|n| ends.get(n).map_or("", |id| f.plan.name_of(id)));
        let row = row("one-stop", format!("part {}", f.part(parts[0]).id))
            .says(
                format!("Cut to one stop: {}", names.join(", ")),
                "they set the same distance: what one is off, the piece leans",
                STOP,
            )
            .with("between", format!("{a} and {b}"))
            .with("parts", parts.len().to_string())
            .gives(
                f.length(*length),
                format!("all alike within {}", num::fine(f.notation, i128::from(CUT))),
            );
        said.tell(row);
    }
}

/// Panels that lie in grooves: how much too big they may be.
fn captured(f: &Facts, said: &mut Said) {
    for i in 0..f.plan.parts.len() {
        let part = f.part(i);
        let grooves: Vec<usize> = f
            .plan
            .joints
            .iter()
            .filter(|j| j.kind == JointKind::Groove && j.parts.contains(&part.id))
            .filter_map(|j| f.ends(j))
            .map(|[a, b]| if a == i { b } else { a })
            .collect();
        let b = &f.bounds[i];
        for axis in 0..3 {
            // Opposite walls into which it is let along this axis, and the air behind its edges.
            let walls: Vec<usize> = grooves
                .iter()
                .copied()
                .filter(|&w| {
                    f.bounds[w].extent(axis) == f.part(w).thickness
                        && b.extent(axis) != part.thickness
                })
                .collect();
            let air = |positive: bool| {
                let edge = if positive { b.max[axis] } else { b.min[axis] };
                let ahead = walls
                    .iter()
                    .flat_map(|&w| f.solids[w].boxes())
                    .filter(|x| (0..3).all(|a| a == axis || x.overlap(b, a) > 0));
                let gaps =
                    ahead.map(|x| if positive { x.min[axis] - edge } else { edge - x.max[axis] });
                gaps.filter(|g| *g >= 0).min()
            };
            let (Some(low), Some(high)) = (air(false), air(true)) else { continue };
            let row = row("groove-play", format!("part {}", part.id))
                .says(
                    format!("How much too big may the {} be?", part.name),
                    "air behind its edges in both grooves",
                    FREE,
                )
                .with("cut to", f.length(b.extent(axis)))
                .gives(format!("{} at most", num::fine(f.notation, i128::from(low + high))), "");
            said.tell(row);
        }
    }
}

/// The outside width against the opening.
fn width(f: &Facts, said: &mut Said) {
    let Subject::Cabinet(cabinet) = &f.scenario.subject else { return };
    let (Some(opening), Some(carcass)) = (rectangle::width(&cabinet.space), f.around(f.standing()))
    else {
        return;
    };
    let rest = opening - carcass.extent(0);
    // Three sizes make the width: two thicknesses and what lies between.
    let (worst, likely) = stack(&[CUT, CUT / 2, CUT / 2]);
    let row = row("outside-width", "build.carcass".to_owned())
        .says(
            "How much too wide may the carcass come out?",
            "opening − outside width, against Σ and √Σ² of the tolerances",
            FREE,
        )
        .with("at worst", num::fine(f.notation, i128::from(worst)))
        .with("likely", num::fine(f.notation, i128::from(likely)))
        .gives(f.length(rest), "");
    said.tell(row);
}

/// The box against its runners.
fn boxes(f: &Facts, said: &mut Said) {
    for set in f.sets.iter().filter(|s| s.moves == Moves::Slides) {
        let parts = || {
            set.parts
                .iter()
                .copied()
                .filter(|&i| matches!(f.part(i).role, Role::BoxFront | Role::BoxBack))
        };
        let Some(first) = parts().next() else { continue };
        let names: Vec<&str> = parts().map(|i| f.part(i).name.as_str()).collect();
        let row = row("box-width", format!("part {}", f.part(first).id))
            .says(
                format!("How much may the box's width be off? {}", names.join(", ")),
                "the runners take up no more",
                BOX,
            )
            .with("cut to", f.length(f.bounds[first].extent(0)))
            .gives(format!("up to {} narrower, not wider", num::fine(f.notation, 794)), "");
        said.tell(row);
    }
}

/// The sheets: measured thickness, square corners.
fn sheets(f: &Facts, said: &mut Said) {
    let mut used: Vec<&str> = Vec::new();
    for i in 0..f.plan.parts.len() {
        let Some(m) = f.material(i) else { continue };
        if m.kind != MaterialKind::Plywood || used.contains(&m.id.as_str()) {
            continue;
        }
        used.push(&m.id);
        let inside = CATEGORIES.iter().filter(|c| in_category(m.thickness.get(), c.1, c.2));
        let names: Vec<&str> = inside.map(|c| c.0).collect();
        let found = if names.is_empty() {
            "within none of these categories: keep to what you measured".to_owned()
        } else {
            format!("within {} in", names.join(" and "))
        };
        let row = row("sheet-thickness", format!("material {}", m.id))
            .says(
                format!("{}: is it what its name says?", m.name),
                "measured thickness against least and most",
                SHEETS,
            )
            .with("measured", num::fine(f.notation, i128::from(m.thickness.get())))
            .gives(found, "");
        said.tell(row);
    }
    let longest = (0..f.plan.parts.len())
        .filter(|&i| f.part(i).kind == Kind::Panel)
        .max_by_key(|&i| f.part(i).length);
    if let Some(i) = longest {
        let part = f.part(i);
        let row = row("sheet-square", format!("part {}", part.id))
            .says(
                format!("How far may a factory corner be out along the {}?", part.name),
                "longest edge / 768",
                SQUARE,
            )
            .with("longest edge", f.length(part.length))
            .gives(num::fine(f.notation, i128::from(sheet_allowance(part.length))), "");
        said.tell(row);
    }
}
