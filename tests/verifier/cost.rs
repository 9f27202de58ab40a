//! What a plan says it costs must follow from its steps.

use std::collections::{BTreeMap, BTreeSet};

use super::Violation;
use super::balance::Rest;
use super::file::{Action, HoldWith, Step};
use super::gravity::lies;
use super::replay::{Moment, Replay};

/// Name of the rule.
pub const RULE: &str = "cost";

/// Judges every sum that the steps give.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let said = &plan.cost;
    let mut out = Vec::new();
    let mut sum = |what: &str, said: u64, [least, most]: [u64; 2]| {
        if said < least || most < said {
            let counted =
                if least == most { least.to_string() } else { format!("{least} to {most}") };
            out.push(Violation::new(
                RULE,
                0,
                format!("{what}: the plan says {said}, its steps give {counted}"),
            ));
        }
    };
    let steps = || plan.steps.iter();
    let exactly = |n: usize| [n as u64; 2];
    sum("turns", said.turns, exactly(steps().filter(|s| s.action == Action::Turn).count()));
    sum("helper steps", said.helper_steps, exactly(steps().filter(|s| s.people > 1).count()));
    sum("minutes", said.minutes, [steps().map(|s| u64::from(s.minutes)).sum(); 2]);
    // Who turns along, or steadies what only waits, holds nothing that is put in.
    let puts_in = |s: &&Step| matches!(s.action, Action::LayOut | Action::Place | Action::Hang);
    sum("holds", said.holds, exactly(steps().filter(puts_in).map(|s| s.hold.len()).sum()));
    let mut lifted = [0, 0];
    for m in replay.moments.iter().filter(|m| m.adds()) {
        for lump in m.lumps() {
            let lies = lies(replay, m, &lump);
            lifted[0] += u64::from(lies == [Rest::Lifted]);
            lifted[1] += u64::from(lies.contains(&Rest::Lifted));
        }
    }
    sum("lifted", said.lifted, lifted);
    sum("handlings", said.handlings, [said.turns + said.lifted + carried(replay); 2]);
    let gaps = steps().flat_map(|s| &s.checks).filter(|c| c.kind == "gap").count();
    sum("measured", said.measured, [0, gaps as u64]);
    sum("tool changes", said.tool_changes, exactly(steps().map(|s| changes(replay, s)).sum()));
    let either = [scatter(replay, false), scatter(replay, true)];
    sum("scatter", said.scatter, [either[0].min(either[1]), either[0].max(either[1])]);
    for m in &replay.moments {
        let least = least_minutes(m);
        if u64::from(m.step.minutes) < least {
            let what = format!("{} minutes, what it does takes {least}", m.step.minutes);
            out.push(Violation::new(RULE, m.step.n, what));
        }
    }
    out
}

/// Sets that take both arms to carry: bodies that the parts do not name, of more than one item that
/// is a panel or holds one.
fn carried(replay: &Replay<'_>) -> u64 {
    let parts = &replay.plan.parts;
    let panel = |item: &&BTreeSet<usize>| item.iter().any(|p| parts[*p].kind == "panel");
    let carried = |m: &&Moment<'_>| {
        let named = |id: &String| parts.iter().any(|p| p.group == *id);
        m.step.joins.as_ref().is_some_and(|id| !named(id))
            && m.joined.items.iter().filter(panel).count() > 1
    };
    replay.moments.iter().filter(carried).count() as u64
}

/// Changes of the bit, clamps put on, and joints driven by another tool than the drill.
fn changes(replay: &Replay<'_>, s: &Step) -> usize {
    let plan = replay.plan;
    let screws = || s.fasteners.iter().filter_map(|id| plan.fastener(id));
    let bits: BTreeSet<(i64, &str)> = screws().map(|(_, f)| (f.gauge, f.kind.as_str())).collect();
    let clamps = s.clamps.len() + s.hold.iter().filter(|h| h.with == HoldWith::Clamp).count();
    let other: BTreeSet<usize> = s
        .drivers
        .iter()
        .flat_map(|d| &d.fasteners)
        .filter_map(|id| plan.fastener(id).map(|(joint, _)| joint))
        .collect();
    bits.len().saturating_sub(1) + clamps + other.len()
}

/// For each thing that goes in, how many that come before its first part in the cut list go in after
/// it. Sets are made of what the body would hold without them; a named body is one thing, and comes
/// with its first part or, as the list names it, after all parts.
fn scatter(replay: &Replay<'_>, named_last: bool) -> u64 {
    let parts = &replay.plan.parts;
    let named = |id: &str| parts.iter().any(|p| p.group == id);
    let mut inside: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    let mut sum = 0;
    let whole = whole(replay, &named);
    for m in &replay.moments {
        let own: Vec<usize> = match m.step.joins.as_deref() {
            Some(id) if named(id) => {
                m.arriving.first().map(|p| key(*p, named_last, parts.len())).into_iter().collect()
            }
            Some(id) => inside.get(id).cloned().unwrap_or_default(),
            None => m.arriving.iter().copied().collect(),
        };
        let Some(first) = own.iter().min().copied() else {
            continue;
        };
        let body = inside.entry(&m.step.body).or_default();
        body.extend(&own);
        let all = whole.get(m.step.body.as_str()).into_iter().flatten();
        let out = all
            .map(|(p, is_body)| if *is_body { key(*p, named_last, parts.len()) } else { *p })
            .filter(|p| *p < first && !body.contains(p));
        sum += out.count() as u64;
    }
    sum
}

fn key(first: usize, named_last: bool, parts: usize) -> usize {
    if named_last { first + parts } else { first }
}

/// What each body holds in the end: parts, and named bodies by their first part.
fn whole<'a>(
    replay: &'a Replay<'_>,
    named: &impl Fn(&str) -> bool,
) -> BTreeMap<&'a str, BTreeSet<(usize, bool)>> {
    let mut out: BTreeMap<&str, BTreeSet<(usize, bool)>> = BTreeMap::new();
    for m in &replay.moments {
        let own: BTreeSet<(usize, bool)> = match m.step.joins.as_deref() {
            Some(id) if named(id) => m.arriving.first().map(|p| (*p, true)).into_iter().collect(),
            Some(id) => out.get(id).cloned().unwrap_or_default(),
            None => m.arriving.iter().map(|p| (*p, false)).collect(),
        };
        out.entry(&m.step.body).or_default().extend(own);
    }
    out
}

/// The least that what a step does takes: its screws, holds and clamps, and the thing itself.
fn least_minutes(m: &Moment<'_>) -> u64 {
    let s = m.step;
    let itself = match s.action {
        Action::LayOut => 1,
        Action::Place | Action::Hang | Action::Turn => 2,
        _ => 0,
    };
    let holds = if s.action == Action::Turn { 0 } else { s.hold.len() };
    itself + (s.fasteners.len() + holds + s.clamps.len()) as u64
}
