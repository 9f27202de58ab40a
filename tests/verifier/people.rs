//! Hands and people: no step asks for more of them than there are.

use super::Violation;
use super::file::{HoldWith, PlanFile};
use super::replay::Replay;

/// Name of the rule.
pub const RULE: &str = "people";

/// Whether the plan itself says that people are missing.
fn admitted(plan: &PlanFile) -> bool {
    plan.findings.iter().filter(|f| f.severity == "fix" || f.severity == "stop").any(|f| {
        let said = format!("{} {}", f.code, f.message).to_lowercase();
        ["people", "person", "helper", "hands"].iter().any(|word| said.contains(word))
    })
}

/// Judges every step.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    for m in &replay.moments {
        let s = m.step;
        let mut bad = |what: String| out.push(Violation::new(RULE, s.n, what));
        let count = |with: HoldWith| s.hold.iter().filter(|h| h.with == with).count();
        if s.people == 0 {
            bad("takes nobody".into());
        }
        if s.people > plan.workshop.people && !admitted(plan) {
            bad(format!("takes {} people, there are {}", s.people, plan.workshop.people));
        }
        if s.people < 2 && count(HoldWith::Helper) > 0 {
            bad("a second person holds, but it takes one".into());
        }
        // The other hand drives.
        if s.people == 1 && !s.fasteners.is_empty() && count(HoldWith::Hand) > 1 {
            bad(format!("one person holds {} things and drives", count(HoldWith::Hand)));
        }
        if count(HoldWith::Clamp) > 0 && plan.workshop.clamps.is_empty() {
            bad("a clamp holds, but there is none".into());
        }
        for h in &s.hold {
            let here = plan.part(&h.what).is_some_and(|p| m.after().contains(&p));
            if !here && h.what != s.body && s.joins.as_ref() != Some(&h.what) {
                bad(format!("{} is held but not there", h.what));
            }
        }
    }
    out
}
