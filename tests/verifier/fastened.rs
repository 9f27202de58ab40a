//! Nothing left loose: what is not screwed or glued to the rest is captive, slides, or is held.

use std::collections::BTreeSet;

use super::Violation;
use super::file::{HoldWith, JointKind};
use super::gravity::rests;
use super::replay::{Moment, Replay};
use super::space::{Way, can_leave, reach, touch};

/// Name of the rule.
pub const RULE: &str = "fastened";

/// What counts as belonging to the body besides screws, glue and being captive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Body {
    /// Lying still: what slides stays, what sits in a groove stays when it cannot fall out of it.
    AtRest,
    /// Lifted and turned: neither counts.
    Carried,
    /// Finished: what slides counts.
    Finished,
}

/// Joints in which the two parts hold together by themselves.
///
/// Glue alone counts only where no screw is meant to be: else it is still wet.
fn fast(replay: &Replay<'_>, m: &Moment<'_>) -> Vec<[usize; 2]> {
    let plan = replay.plan;
    let holds = |j: &usize| {
        let joint = &plan.joints[*j];
        matches!(joint.kind, JointKind::Butt | JointKind::Dado | JointKind::Overlay)
            && if joint.fasteners.is_empty() {
                joint.glue
            } else {
                joint.fasteners.iter().any(|f| m.driven.contains(f.id.as_str()))
            }
    };
    m.closed.iter().filter(|j| holds(j)).filter_map(|j| plan.ends(*j)).collect()
}

/// Splits parts into lumps that hold together, the heaviest first.
fn lumps(replay: &Replay<'_>, m: &Moment<'_>, parts: &BTreeSet<usize>) -> Vec<BTreeSet<usize>> {
    let pairs = fast(replay, m);
    let mut rest = parts.clone();
    let mut out: Vec<BTreeSet<usize>> = Vec::new();
    while let Some(seed) = rest.pop_first() {
        let mut lump = BTreeSet::from([seed]);
        loop {
            let linked = |p: &usize| {
                pairs
                    .iter()
                    .any(|[a, b]| (a == p && lump.contains(b)) || (b == p && lump.contains(a)))
            };
            let Some(next) = rest.iter().copied().find(linked) else {
                break;
            };
            rest.remove(&next);
            lump.insert(next);
        }
        out.push(lump);
    }
    let mass = |l: &BTreeSet<usize>| l.iter().map(|p| replay.plan.parts[*p].mass_g).sum::<i64>();
    out.sort_by_key(|l| std::cmp::Reverse(mass(l)));
    out
}

/// The parts that belong to the body, and the lumps that lie loose in it.
pub fn attached(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    parts: &BTreeSet<usize>,
    body: Body,
) -> (BTreeSet<usize>, Vec<BTreeSet<usize>>) {
    let mut loose = lumps(replay, m, parts);
    if loose.is_empty() {
        return (BTreeSet::new(), loose);
    }
    let mut whole = loose.remove(0);
    // A lump that is captive may be what keeps the next one captive.
    while let Some(i) = loose.iter().position(|lump| belongs(replay, m, lump, &whole, body)) {
        whole.extend(loose.remove(i));
    }
    (whole, loose)
}

fn belongs(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    lump: &BTreeSet<usize>,
    whole: &BTreeSet<usize>,
    body: Body,
) -> bool {
    let plan = replay.plan;
    let joined_by = |kind: JointKind| {
        m.closed.iter().filter(|j| plan.joints[**j].kind == kind).filter_map(|j| plan.ends(*j)).any(
            |[a, b]| {
                (lump.contains(&a) && whole.contains(&b))
                    || (lump.contains(&b) && whole.contains(&a))
            },
        )
    };
    // In the finished piece a panel that should be captive is not let off because it also slides.
    let slides = match body {
        Body::AtRest => true,
        Body::Carried => false,
        Body::Finished => lump.len() > 1 || !joined_by(JointKind::Groove),
    };
    if slides && joined_by(JointKind::Slide) {
        return true;
    }
    let (solid, rest) = (replay.solid(lump), replay.solid(whole));
    let face = m.step.bench_face;
    if body == Body::AtRest && joined_by(JointKind::Groove) {
        let on_bench = replay.bench(m).is_some_and(|bench| reach(face, &solid) == Some(bench));
        if on_bench || !can_leave(face, &solid, &rest) {
            return true;
        }
    }
    joined_by(JointKind::Groove) && Way::ALL.into_iter().all(|way| !can_leave(way, &solid, &rest))
}

/// Whether the step says of a lump that something holds it, and that something can.
pub fn held(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> bool {
    let joining = m.step.joins.as_deref().filter(|_| lump.is_subset(&m.arriving));
    m.step.hold.iter().any(|h| {
        let named = joining == Some(h.what.as_str())
            || replay.plan.part(&h.what).is_some_and(|p| lump.contains(&p));
        named
            && match h.with {
                HoldWith::Bench => rests(replay, m, lump),
                HoldWith::Spacer => {
                    m.step.spacer.as_ref().is_some_and(|s| touch(&[s.at], &replay.solid(lump)))
                }
                HoldWith::Clamp | HoldWith::Hand | HoldWith::Helper => true,
            }
    })
}

/// Judges every step and the end.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        for lump in attached(replay, m, &m.after(), Body::AtRest).1 {
            if !held(replay, m, &lump) {
                let ids = replay.names(&lump);
                out.push(Violation::new(
                    RULE,
                    m.step.n,
                    format!("{ids} is loose and nothing holds it"),
                ));
            }
        }
        if m.step.joins.is_some() {
            for lump in attached(replay, m, &m.arriving, Body::Carried).1 {
                let ids = replay.names(&lump);
                out.push(Violation::new(
                    RULE,
                    m.step.n,
                    format!("{ids} is loose in the body that joins"),
                ));
            }
        }
    }
    if let Some(m) = replay.moments.last() {
        for lump in attached(replay, m, &m.after(), Body::Finished).1 {
            let ids = replay.names(&lump);
            out.push(Violation::new(RULE, 0, format!("{ids} is left unfastened")));
        }
    }
    out
}
