//! Parts in their finished places: sound, apart from each other, touching where a joint says so,
//! and one whole by their joints.

use std::collections::BTreeSet;

use super::Violation;
use super::file::JointKind;
use super::replay::Replay;
use super::space::{extents, is_solid, overlap, touch};

/// How far a shelf pin stands out of the panel it is pressed into.
const PIN: i64 = 7_000;

/// Name of the rule.
pub const RULE: &str = "parts";

/// Judges the finished pose.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    let mut bad = |what: String| out.push(Violation::new(RULE, 0, what));
    for p in &plan.parts {
        if p.boxes.is_empty() || !p.boxes.iter().all(is_solid) {
            bad(format!("{} has no sound solid", p.id));
            continue;
        }
        for (i, b) in p.boxes.iter().enumerate() {
            if p.boxes.iter().skip(i + 1).any(|c| overlap(&[*b], &[*c])) {
                bad(format!("{} overlaps itself at {b:?}", p.id));
            }
        }
        if p.mass_g <= 0 {
            bad(format!("{} weighs {} g", p.id, p.mass_g));
        }
        let mut cut = [p.length, p.width, p.thickness];
        cut.sort_unstable();
        let solid = extents(&p.boxes).map(|mut e| {
            e.sort_unstable();
            e
        });
        // Shelf pins may stand out of a panel that something rests on loosely: it is thicker then than
        // its sheet, by so much.
        let carries =
            plan.joints.iter().any(|j| j.kind == JointKind::Slide && j.parts.contains(&p.id));
        let mut pinned = [p.length, p.width, p.thickness + PIN];
        let mut twice = [p.length, p.width, p.thickness + 2 * PIN];
        pinned.sort_unstable();
        twice.sort_unstable();
        let as_cut = solid == Some(cut) || carries && [pinned, twice].map(Some).contains(&solid);
        if p.kind == "panel" && !as_cut {
            bad(format!("{} is cut {cut:?} but stands as {solid:?}", p.id));
        }
    }
    for (i, a) in plan.parts.iter().enumerate() {
        for b in plan.parts.iter().skip(i + 1) {
            if overlap(&a.boxes, &b.boxes) {
                bad(format!("{} and {} overlap", a.id, b.id));
            }
        }
    }
    let mut linked: BTreeSet<usize> = (0..plan.parts.len().min(1)).collect();
    for _ in &plan.parts {
        for ends in (0..plan.joints.len()).filter_map(|j| plan.ends(j)) {
            if ends.iter().any(|e| linked.contains(e)) {
                linked.extend(ends);
            }
        }
    }
    for (p, part) in plan.parts.iter().enumerate() {
        if !linked.contains(&p) {
            bad(format!("{} hangs on the rest by no joint", part.id));
        }
    }
    for (j, joint) in plan.joints.iter().enumerate() {
        let Some([a, b]) = plan.ends(j) else { continue };
        if !touch(&plan.parts[a].boxes, &plan.parts[b].boxes) {
            bad(format!("joint {} does not touch", joint.id));
        }
    }
    out
}
