//! Holds: a step names no more of them than are needed, and none that cannot be.

use super::Violation;
use super::balance::Rest;
use super::clamps;
use super::file::{Action, Hold, HoldWith};
use super::gravity::{adrift, held, lies, stands};
use super::people::is_heavy;
use super::replay::{Moment, Replay};

/// Name of the rule.
pub const RULE: &str = "hold";

/// Judges every hold of every step.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let mut bad = |what: String| out.push(Violation::new(RULE, m.step.n, what));
        let count = |with: HoldWith| m.step.hold.iter().filter(|h| h.with == with).count();
        // The other hand drives.
        if count(HoldWith::Hand) > 1 {
            bad(format!("{} things are held by the one free hand", count(HoldWith::Hand)));
        }
        for h in &m.step.hold {
            if let Some(what) = needless(replay, m, h) {
                bad(format!("{} {what}", h.what));
            }
            if h.with == HoldWith::Clamp {
                if let Some(what) = impossible(replay, m, h) {
                    bad(format!("{} {what}", h.what));
                }
            } else if h.clamp.is_some() {
                bad(format!("{} has a clamp's place but no clamp", h.what));
            }
        }
    }
    out
}

/// What stands is not held.
fn needless(replay: &Replay<'_>, m: &Moment<'_>, h: &Hold) -> Option<&'static str> {
    let heavy = h.with == HoldWith::Helper && is_heavy(replay, m);
    let names_body = h.what == m.step.body || m.names(replay.plan, &h.what, &m.before);
    if heavy || h.with == HoldWith::Bench {
        return None;
    }
    if adrift(replay, m).iter().any(|l| m.names(replay.plan, &h.what, l)) {
        return None;
    }
    if names_body && !m.before.is_empty() {
        // It is held, too, when it would topple under what goes in.
        let stands = stands(replay, m, &m.before)[1] && stands(replay, m, &m.after())[1];
        return stands.then_some("is held but stands");
    }
    let lump = m.lumps().into_iter().find(|l| {
        m.names(replay.plan, &h.what, l) || (m.before.is_empty() && h.what == m.step.body)
    })?;
    (lies(replay, m, &lump) == [Rest::Stands] && m.step.action != Action::Turn)
        .then_some("is held but stands")
}

/// A clamp holds what goes in against something it is joined to, and only where a hand is free to
/// put it on.
fn impossible(replay: &Replay<'_>, m: &Moment<'_>, h: &Hold) -> Option<String> {
    let lump = m.lumps().into_iter().find(|l| m.adds() && m.names(replay.plan, &h.what, l));
    let Some(lump) = lump else {
        return Some("is no part going in: a clamp does not hold it".into());
    };
    if lies(replay, m, &lump) == [Rest::Lifted] && !m.body_held(replay.plan) {
        return Some("hangs in the air while the clamp is put on".into());
    }
    let Some(place) = &h.clamp else {
        return Some("is held by a clamp without a place".into());
    };
    let ends: Vec<Option<usize>> = place.parts.iter().map(|id| replay.plan.part(id)).collect();
    let [Some(a), Some(b)] = ends[..] else {
        return Some("is clamped to something unknown".into());
    };
    let apart = |p: usize, q: usize| lump.contains(&p) && m.before.contains(&q);
    let joined = replay.between(&[a].into(), &[b].into());
    if !(apart(a, b) || apart(b, a)) || joined.is_empty() {
        return Some("is clamped to something it is not joined to".into());
    }
    debug_assert!(held(replay, m, &lump));
    clamps::faults(replay, m, place).into_iter().next()
}
