//! Glue: it is pressed together before it skins over, and left alone until it has cured.

use std::collections::BTreeMap;

use super::Violation;
use super::file::Action;
use super::replay::{Moment, Replay, cures};

/// Name of the rule for the time from spreading to pressure, and for what presses.
pub const RULE: &str = "glue";
/// Name of the rule for the time until it has cured.
pub const WET: &str = "wet";

/// Minutes from spreading glue on the first joint to pressing it.
const FIRST: u64 = 2;

/// Judges that glue is pressed at once, in time, and by something.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let glue = &plan.workshop.glue;
    let mut out = Vec::new();
    for m in &replay.moments {
        let mut bad = |what: String| out.push(Violation::new(RULE, m.step.n, what));
        if m.adds() {
            let mut glued = replay.between(&m.before, &m.arriving);
            glued.extend(m.lumps().iter().enumerate().flat_map(|(i, a)| {
                let later = m.lumps().split_off(i + 1);
                later.iter().flat_map(|b| replay.between(a, b)).collect::<Vec<_>>()
            }));
            glued.retain(|j| plan.joints[*j].glue);
            for j in &glued {
                let listed = m.step.joints.contains(&plan.joints[*j].id);
                if !listed || !m.is_closed(plan, *j) {
                    bad(format!("{} waits with its glue spread", plan.joints[*j].id));
                }
            }
            let count = glued.len() as u64;
            let minutes = FIRST + count.saturating_sub(1) + m.step.hold.len() as u64;
            if count > 0 && minutes > glue.open + glue.closed {
                bad(format!("{count} joints take {minutes} minutes from spreading to pressure"));
            }
        }
        pressed(replay, m, &mut out);
    }
    out
}

/// Each joint that glue alone holds has a clamp of its own, and each clamp such a joint.
fn pressed(replay: &Replay<'_>, m: &Moment<'_>, out: &mut Vec<Violation>) {
    let plan = replay.plan;
    let mut balance: BTreeMap<[usize; 2], i64> = BTreeMap::new();
    let key = |[a, b]: [usize; 2]| [a.min(b), a.max(b)];
    for j in m.step.joints.iter().filter_map(|id| plan.joint(id)).filter(|j| cures(plan, *j)) {
        if let Some(ends) = plan.ends(j) {
            *balance.entry(key(ends)).or_default() += 1;
        }
    }
    for c in &m.step.clamps {
        match c.parts.each_ref().map(|id| plan.part(id)) {
            [Some(a), Some(b)] => *balance.entry(key([a, b])).or_default() -= 1,
            _ => *balance.entry([usize::MAX; 2]).or_default() -= 1,
        }
    }
    for (parts, left) in balance.into_iter().filter(|(_, left)| *left != 0) {
        let what = if left > 0 { "no clamp presses" } else { "a clamp presses no wet joint of" };
        let between = replay.names(&parts);
        out.push(Violation::new(RULE, m.step.n, format!("{what} {between}")));
    }
}

/// Judges that what is wet is left alone.
pub fn judge_wet(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    for (i, m) in replay.moments.iter().enumerate() {
        let s = m.step;
        let mut bad = |what: String| out.push(Violation::new(WET, s.n, what));
        if s.action == Action::Turn && !m.wet_before.is_empty() {
            bad(format!("{} is turned on wet glue", s.body));
        }
        if !m.joined.wet.is_empty() || !m.joined.clamps.is_empty() {
            bad("what joins is wet or clamped still".into());
        }
        let next = replay.moments[i + 1..].iter().map(|n| n.step).find(|n| n.body == s.body);
        match s.action {
            Action::Wait => {
                let least = plan.workshop.glue.clamp;
                if u64::from(s.minutes) < least {
                    bad(format!("waits {} minutes of {least}", s.minutes));
                }
                if m.wet_before.is_empty() {
                    bad("waits for nothing".into());
                }
                if next.is_none_or(|n| n.action != Action::Unclamp) {
                    bad("the clamps stay on after the wait".into());
                }
            }
            Action::Unclamp => {
                if !m.wet_before.is_empty() {
                    bad("the clamps come off while the glue is wet".into());
                }
                if m.clamps_before.is_empty() {
                    bad("takes off clamps that are not on".into());
                }
            }
            _ => {}
        }
    }
    for (name, body) in &replay.left {
        if !body.wet.is_empty() || !body.clamps.is_empty() {
            out.push(Violation::new(WET, 0, format!("{name} ends wet or clamped")));
        }
    }
    out
}
