//! Nothing left loose: what goes in is fastened, let in, or slides, and in the end all is one.

use std::collections::BTreeSet;

use super::Violation;
use super::file::{Action, JointKind};
use super::gravity::rests;
use super::replay::{Moment, Replay, fastens};
use super::space::{Way, can_leave};

/// Name of the rule.
pub const RULE: &str = "fastened";

type Parts = BTreeSet<usize>;

/// Splits items into lumps that closed joints hold together, each with its number of items.
pub fn lumps(replay: &Replay<'_>, m: &Moment<'_>, items: &[Parts]) -> Vec<(Parts, usize)> {
    let mut out: Vec<(Parts, usize)> = items.iter().map(|i| (i.clone(), 1)).collect();
    let closed = m.closed.iter().filter(|j| fastens(replay.plan, **j));
    for ends in
        closed.filter(|j| m.is_closed(replay.plan, **j)).filter_map(|j| replay.plan.ends(*j))
    {
        let [a, b] = ends.map(|p| out.iter().position(|(lump, _)| lump.contains(&p)));
        let (Some(a), Some(b)) = (a, b) else { continue };
        if a != b {
            let (parts, count) = out.remove(a.max(b));
            out[a.min(b)].0.extend(parts);
            out[a.min(b)].1 += count;
        }
    }
    out
}

/// Whether the rest keeps a lump in whichever way it would move.
fn shut_in(replay: &Replay<'_>, lump: &Parts, all: &Parts) -> bool {
    let rest: Parts = all.difference(lump).copied().collect();
    let (solid, around) = (replay.solid(lump), replay.solid(&rest));
    Way::ALL.into_iter().all(|way| !can_leave(way, &solid, &around))
}

/// The lumps that the largest would leave behind when it is moved, or in the end.
///
/// Of several that are largest any may be the one that is moved.
pub fn left_behind(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    items: &[Parts],
    may_slide: bool,
) -> Vec<Parts> {
    let all: Parts = items.iter().flatten().copied().collect();
    let lumps = lumps(replay, m, items);
    let most = lumps.iter().map(|l| l.1).max().unwrap_or(0);
    let slides = |lump: &Parts, base: &Parts| {
        let between = replay.between(lump, base);
        may_slide && between.iter().any(|j| replay.plan.joints[*j].kind == JointKind::Slide)
    };
    let loose = |base: &Parts| -> Vec<Parts> {
        let others = lumps.iter().map(|l| &l.0).filter(|l| *l != base);
        others.filter(|l| !slides(l, base) && !shut_in(replay, l, &all)).cloned().collect()
    };
    let bases = lumps.iter().filter(|l| l.1 == most).map(|l| loose(&l.0));
    bases.min_by_key(Vec::len).unwrap_or_default()
}

/// Whether something keeps what went in once the hands are gone. In a room it may be checked first and
/// its screws driven in steps of their own, before anything else goes in.
fn kept(replay: &Replay<'_>, at: usize, lump: &Parts) -> bool {
    let (plan, m) = (replay.plan, &replay.moments[at]);
    let others: Parts = m.after().difference(lump).copied().collect();
    let joints = replay.between(lump, &others);
    let more = replay.moments[at + 1..].iter();
    let more = more.take_while(|n| {
        plan.workshop.person.is_some()
            && n.step.body == m.step.body
            && matches!(n.step.action, Action::Check | Action::Drive)
    });
    let moments: Vec<&Moment<'_>> = [m].into_iter().chain(more).collect();
    let now = |j: &usize| moments.iter().any(|n| n.step.joints.contains(&plan.joints[*j].id));
    let last = moments.last().copied().unwrap_or(m);
    let closed: Vec<usize> =
        joints.iter().copied().filter(|j| now(j) && last.is_closed(plan, *j)).collect();
    if closed.iter().any(|j| fastens(plan, *j)) {
        return true;
    }
    let of = |kinds: &[JointKind], j: &usize| kinds.contains(&plan.joints[*j].kind);
    let face = m.step.bench_face;
    // A channel holds before its screws are in.
    let let_in = joints.iter().any(|j| of(&[JointKind::Groove, JointKind::Dado], j));
    let falls = can_leave(face, &replay.solid(lump), &replay.solid(&others));
    if let_in && (!falls || rests(replay, m, lump)) {
        return true;
    }
    let slides = !closed.is_empty() && joints.iter().all(|j| of(&[JointKind::Slide], j));
    slides && rests(replay, m, lump)
}

/// Judges everything that goes in, and the end.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    let mut last = std::collections::BTreeMap::new();
    for (at, m) in replay.moments.iter().enumerate() {
        last.insert(m.step.body.as_str(), m);
        for lump in m.lumps().iter().filter(|_| m.adds()) {
            if !kept(replay, at, lump) {
                let ids = replay.names(lump);
                out.push(Violation::new(
                    RULE,
                    m.step.n,
                    format!("{ids} is loose and nothing keeps it"),
                ));
            }
        }
    }
    // A body ends with its last step: before it joins, or with the plan.
    for m in last.into_values() {
        for lump in left_behind(replay, m, &m.items, true) {
            let ids = replay.names(&lump);
            out.push(Violation::new(RULE, m.step.n, format!("{ids} is left unfastened")));
        }
    }
    out
}
