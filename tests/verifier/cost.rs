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
    // A second person who only lifts or turns along holds nothing.
    let held = |s: &Step| if s.action == Action::Turn { 0 } else { s.hold.len() };
    sum("holds", said.holds, exactly(steps().map(held).sum()));
    let mut lifted = [0, 0];
    for m in replay.moments.iter().filter(|m| m.adds()) {
        for lump in m.lumps() {
            let lies = lies(replay, m, &lump);
            lifted[0] += u64::from(lies == [Rest::Lifted]);
            lifted[1] += u64::from(lies.contains(&Rest::Lifted));
        }
    }
    sum("lifted", said.lifted, lifted);
    sum("handlings", said.handlings, [said.turns + said.lifted; 2]);
    let gaps = steps().flat_map(|s| &s.checks).filter(|c| c.kind == "gap").count();
    sum("measured", said.measured, [0, gaps as u64]);
    sum("tool changes", said.tool_changes, exactly(steps().map(|s| changes(replay, s)).sum()));
    sum("scatter", said.scatter, [scatter(replay); 2]);
    for m in &replay.moments {
        let least = least_minutes(m);
        if u64::from(m.step.minutes) < least {
            let what = format!("{} minutes, what it does takes {least}", m.step.minutes);
            out.push(Violation::new(RULE, m.step.n, what));
        }
    }
    out
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

/// For each thing that goes in, how many that come before it in the cut list go in after it.
fn scatter(replay: &Replay<'_>) -> u64 {
    let mut went_in: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for m in &replay.moments {
        let firsts = m.lumps().into_iter().filter_map(|l| l.first().copied());
        went_in.entry(&m.step.body).or_default().extend(firsts);
    }
    let later = |all: &Vec<usize>| -> usize {
        let pairs = all.iter().enumerate();
        pairs.map(|(i, a)| all[i + 1..].iter().filter(|b| *b < a).count()).sum()
    };
    went_in.values().map(|all| later(all) as u64).sum()
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
