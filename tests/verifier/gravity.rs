//! What stands, stands by itself or is held: each new part while it is fastened, and the body.

use std::collections::BTreeSet;

use super::Violation;
use super::balance::{Rest, centre, is_stable, is_surely_stable, rest};
use super::fastened::lumps;
use super::file::{Action, HoldWith};
use super::replay::{Moment, Replay};
use super::space::{contacts, reach, touch};

/// Name of the rule.
pub const RULE: &str = "gravity";

type Support = Vec<(i64, [[i64; 2]; 2])>;

/// Where parts lie on the bench, when they lie on it.
fn on_bench(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    parts: &BTreeSet<usize>,
    bench: Option<i64>,
) -> Support {
    let face = m.step.bench_face;
    let [p, q] = face.across();
    replay
        .solid(parts)
        .iter()
        .filter(|b| Some(face.span(b)[1]) == bench)
        .map(|b| (face.span(b)[1], [[b[p], b[p + 3]], [b[q], b[q + 3]]]))
        .collect()
}

/// What carries some parts that go in: the bench and what was in the body before.
fn carried(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> Support {
    let below: BTreeSet<usize> = m.after().difference(lump).copied().collect();
    let mut support = on_bench(replay, m, lump, replay.bench(m));
    support.extend(contacts(m.step.bench_face, &replay.solid(lump), &replay.solid(&below)));
    support
}

fn centre_of(replay: &Replay<'_>, lump: &BTreeSet<usize>) -> Option<[f64; 3]> {
    centre(lump.iter().filter_map(|p| replay.plan.parts.get(*p)))
}

/// Whether some parts, taken as one lump, rest by themselves on the bench and on what else is in
/// the body.
pub fn rests(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> bool {
    let support = carried(replay, m, lump);
    centre_of(replay, lump).is_some_and(|c| is_stable(m.step.bench_face, c, &support))
}

/// The ways in which what goes in may be said to lie.
pub fn lies(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> Vec<Rest> {
    let support = carried(replay, m, lump);
    centre_of(replay, lump).map_or(vec![Rest::Lifted], |c| rest(m.step.bench_face, c, &support))
}

/// Whether a body of these parts stands, and whether it does so beyond doubt.
pub fn stands(replay: &Replay<'_>, m: &Moment<'_>, body: &BTreeSet<usize>) -> [bool; 2] {
    let face = m.step.bench_face;
    let support = on_bench(replay, m, body, reach(face, &replay.solid(body)));
    centre_of(replay, body)
        .map_or([false; 2], |c| [is_stable(face, c, &support), is_surely_stable(face, c, &support)])
}

/// Whether the step says of some parts that something holds them, and that something can.
pub fn held(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> bool {
    m.step.hold.iter().filter(|h| m.names(replay.plan, &h.what, lump)).any(|h| match h.with {
        HoldWith::Bench => rests(replay, m, lump),
        HoldWith::Spacer => {
            m.step.spacer.as_ref().is_some_and(|s| touch(&[s.at], &replay.solid(lump)))
        }
        HoldWith::Clamp | HoldWith::Hand | HoldWith::Helper => true,
    })
}

/// In a room, what went in and is not fastened yet while it is checked and screwed, and does not rest
/// by itself: somebody holds it until the first screws are in.
pub fn adrift(replay: &Replay<'_>, m: &Moment<'_>) -> Vec<BTreeSet<usize>> {
    let at = replay.moments.iter().position(|n| n.step.n == m.step.n);
    let earlier = at.and_then(|at| at.checked_sub(1)).map(|at| &replay.moments[at]);
    let (Some(before), Some(_)) = (earlier, &replay.plan.workshop.person) else {
        return Vec::new();
    };
    if m.adds() || !matches!(m.step.action, Action::Check | Action::Drive) {
        return Vec::new();
    }
    let lumps = lumps(replay, before, &before.items);
    let most = lumps.iter().map(|l| l.1).max().unwrap_or(0);
    let small = lumps.into_iter().filter(|l| l.1 < most || most == 1).map(|l| l.0);
    small.filter(|l| !l.contains(&0) && !rests(replay, m, l)).collect()
}

/// Judges every step in which something lies on the bench.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in replay.moments.iter().filter(|m| m.step.action != Action::SetAside) {
        let mut bad = |what: String| out.push(Violation::new(RULE, m.step.n, what));
        let by_body = m.before.is_empty() && m.step.hold.iter().any(|h| h.what == m.step.body);
        let mut fell = false;
        for lump in m.lumps() {
            if !by_body && !held(replay, m, &lump) && !rests(replay, m, &lump) {
                bad(format!("{} would fall while it is put in", replay.names(&lump)));
                fell = true;
            }
        }
        for lump in adrift(replay, m).iter().filter(|l| !held(replay, m, l)) {
            bad(format!("{} would fall before it is fastened", replay.names(lump)));
        }
        if m.before.is_empty() {
            continue;
        }
        let body = &m.step.body;
        let steadied = m.body_held(replay.plan);
        if m.step.action == Action::Turn {
            if !stands(replay, m, &m.before)[0] {
                bad(format!("{body} does not stand on the face it is turned onto"));
            }
        } else if !steadied && !stands(replay, m, &m.before)[0] {
            bad(format!("{body} would tip over"));
        } else if m.adds()
            && !fell
            && !steadied
            && !m.lumps().iter().any(|l| held(replay, m, l))
            && !stands(replay, m, &m.after())[0]
        {
            bad(format!("{body} would tip over with what goes in"));
        }
    }
    out
}
