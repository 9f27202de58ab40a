//! Everything once, nothing unknown, nothing left: the part of a plan that needs no geometry.

use std::collections::BTreeMap;

use super::Violation;
use super::file::{Action, PlanFile};
use super::replay::{Moment, Replay};

/// Name of the rule.
pub const RULE: &str = "bookkeeping";

/// The body that the finished piece is.
const MAIN: &str = "main";

/// Ids, counts and references.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    numbers(plan, &mut out);
    ids(plan, &mut out);
    bodies(replay, &mut out);
    for m in &replay.moments {
        shape(m, &mut out);
    }
    out
}

fn numbers(plan: &PlanFile, out: &mut Vec<Violation>) {
    if plan.steps.is_empty() {
        out.push(Violation::new(RULE, 0, "no steps"));
    }
    for (wanted, step) in (1..).zip(&plan.steps) {
        if step.n != wanted {
            out.push(Violation::new(
                RULE,
                step.n,
                format!("is numbered {} in place {wanted}", step.n),
            ));
        }
        if step.text.trim().is_empty() {
            out.push(Violation::new(RULE, step.n, "has no sentence"));
        }
    }
}

/// Counts how often each declared id is used and reports unknown, missing and repeated ones.
fn once<'a>(
    what: &str,
    declared: impl Iterator<Item = &'a str>,
    used: impl Iterator<Item = (u32, &'a str)>,
    out: &mut Vec<Violation>,
) {
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for id in declared {
        if count.insert(id, 0).is_some() {
            out.push(Violation::new(RULE, 0, format!("{what} id {id} is given twice")));
        }
    }
    for (n, id) in used {
        match count.get_mut(id) {
            Some(c) => {
                *c += 1;
                if *c > 1 {
                    out.push(Violation::new(RULE, n, format!("{what} {id} comes again")));
                }
            }
            None => out.push(Violation::new(RULE, n, format!("{what} {id} does not exist"))),
        }
    }
    for (id, _) in count.into_iter().filter(|(_, c)| *c == 0) {
        out.push(Violation::new(RULE, 0, format!("{what} {id} comes in no step")));
    }
}

fn ids(plan: &PlanFile, out: &mut Vec<Violation>) {
    let steps = || plan.steps.iter();
    once(
        "part",
        plan.parts.iter().map(|p| p.id.as_str()),
        steps().flat_map(|s| s.parts.iter().map(move |id| (s.n, id.as_str()))),
        out,
    );
    once(
        "joint",
        plan.joints.iter().map(|j| j.id.as_str()),
        steps().flat_map(|s| s.joints.iter().map(move |id| (s.n, id.as_str()))),
        out,
    );
    once(
        "screw",
        plan.joints.iter().flat_map(|j| j.fasteners.iter().map(|f| f.id.as_str())),
        steps().flat_map(|s| s.fasteners.iter().map(move |id| (s.n, id.as_str()))),
        out,
    );
    for (j, joint) in plan.joints.iter().enumerate() {
        if plan.ends(j).is_none() {
            out.push(Violation::new(
                RULE,
                0,
                format!("joint {} does not name two parts", joint.id),
            ));
        }
    }
}

fn bodies(replay: &Replay<'_>, out: &mut Vec<Violation>) {
    let mut joined: BTreeMap<&str, u32> = BTreeMap::new();
    for m in &replay.moments {
        let n = m.step.n;
        if let Some(at) = joined.get(m.step.body.as_str()) {
            out.push(Violation::new(
                RULE,
                n,
                format!("works on {}, which joined in step {at}", m.step.body),
            ));
        }
        let Some(other) = m.step.joins.as_deref() else {
            continue;
        };
        if other == m.step.body {
            out.push(Violation::new(RULE, n, format!("{other} cannot join itself")));
        } else if let Some(at) = joined.insert(other, n) {
            out.push(Violation::new(
                RULE,
                n,
                format!("{other} joins again, it joined in step {at}"),
            ));
        } else if m.arriving.is_empty() {
            out.push(Violation::new(RULE, n, format!("{other} joins but there is nothing of it")));
        }
        if !m.step.parts.is_empty() {
            out.push(Violation::new(RULE, n, "brings loose parts and a body at once"));
        }
    }
    for (name, body) in &replay.left {
        if *name != MAIN && !body.parts.is_empty() {
            out.push(Violation::new(RULE, 0, format!("{name} never joins {MAIN}")));
        }
    }
    let whole = replay.left.get(MAIN).map_or(0, |body| body.parts.len());
    if whole != replay.plan.parts.len() {
        let of = replay.plan.parts.len();
        out.push(Violation::new(RULE, 0, format!("{MAIN} ends with {whole} of {of} parts")));
    }
}

/// A step holds what its action says.
fn shape(m: &Moment<'_>, out: &mut Vec<Violation>) {
    let s = m.step;
    let brings = !s.parts.is_empty() || s.joins.is_some();
    let mut bad = |what: &str| out.push(Violation::new(RULE, s.n, what));
    match s.action {
        Action::LayOut if !m.before.is_empty() => bad("lays out a body that is begun already"),
        Action::LayOut | Action::Place | Action::Hang if !brings => bad("brings no part"),
        Action::Place | Action::Hang if m.before.is_empty() => {
            bad("adds to a body that is not there");
        }
        Action::Drive if s.fasteners.is_empty() => bad("drives no screw"),
        Action::Check if s.checks.is_empty() => bad("checks nothing"),
        Action::Turn | Action::SetAside | Action::Wait | Action::Unclamp
            if !s.fasteners.is_empty() || !s.joints.is_empty() =>
        {
            bad("moves the body while it is worked on");
        }
        _ => {}
    }
    let may_bring = matches!(
        s.action,
        Action::LayOut | Action::Place | Action::Hang | Action::DryFit | Action::BringIn
    );
    if brings && !may_bring {
        bad("brings a part though its action does not");
    }
    if m.after().is_empty() {
        bad("works on a body that is not there");
    }
    if !m.before.is_empty() && brings && s.direction.is_none() {
        bad("says no way in");
    }
}
