//! Bodies: each is built without another on the bench, and finished before it joins.

use std::collections::BTreeMap;

use super::Violation;
use super::file::{Action, JointKind};
use super::replay::Replay;

/// Name of the rule.
pub const RULE: &str = "bodies";

/// Judges when bodies lie on the bench and when they join.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    let mut on_bench: Option<&str> = None;
    // Bodies that wait beside the bench, by the step that set them aside.
    let mut aside: BTreeMap<&str, u32> = BTreeMap::new();
    for m in &replay.moments {
        let s = m.step;
        let body = s.body.as_str();
        let mut bad = |what: String| out.push(Violation::new(RULE, s.n, what));
        if let Some(other) = on_bench.filter(|other| *other != body) {
            bad(format!("works on {body} while {other} lies on the bench"));
        }
        match (aside.remove(body), s.action) {
            (None, Action::BringIn) if s.joins.is_none() => {
                bad(format!("brings in {body}, which is not aside"));
            }
            (Some(at), action) if action != Action::BringIn => {
                bad(format!("works on {body}, which step {at} set aside"));
            }
            _ => {}
        }
        on_bench = Some(body);
        if s.action == Action::SetAside {
            aside.insert(body, s.n);
            on_bench = None;
        }
        let Some(other) = s.joins.as_deref() else {
            continue;
        };
        if aside.remove(other).is_none() {
            bad(format!("{other} joins, but it was not set aside"));
        }
        for (j, joint) in plan.joints.iter().enumerate().filter(|(_, j)| j.kind != JointKind::Touch)
        {
            let inside = plan.ends(j).is_some_and(|e| e.iter().all(|p| m.joined.parts.contains(p)));
            let now = s.joints.contains(&joint.id);
            if inside && (now || !m.is_closed(plan, j)) {
                bad(format!("{other} joins with {} open", joint.id));
            }
        }
    }
    out
}
