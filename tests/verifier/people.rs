//! People: what is heavy or long takes two, nothing else does but what one cannot hold, and no step
//! asks for more people than there are.

use super::Violation;
use super::balance::Rest;
use super::file::{Action, HoldWith, PlanFile};
use super::gravity::lies;
use super::replay::{Moment, Replay};
use super::space::extents;

/// Name of the rule.
pub const RULE: &str = "people";

/// Load constant of the revised lifting equation, DHHS (NIOSH) 94-110, in grams.
const LIFT: i64 = 23_000;
/// Turning over an edge lifts about half: twice the load constant.
const TURN: i64 = 46_000;
/// Longest thing that one person puts in its place, micrometres. Common practice, no source.
const LONG: i64 = 1_800_000;

/// Whether the plan itself says that people are missing.
fn admitted(plan: &PlanFile) -> bool {
    plan.findings.iter().filter(|f| f.severity != "note").any(|f| {
        let said = format!("{} {}", f.code, f.message).to_lowercase();
        ["people", "person", "helper", "hands"].iter().any(|word| said.contains(word))
    })
}

/// Whether what the step moves is more than one person moves.
pub fn is_heavy(replay: &Replay<'_>, m: &Moment<'_>) -> bool {
    if m.step.action == Action::Turn {
        return replay.mass(&m.before) > TURN;
    }
    // A room is there already: nobody carries it.
    if m.before.is_empty() && replay.plan.workshop.person.is_some() {
        return false;
    }
    m.lumps().iter().any(|lump| {
        let longest = extents(&replay.solid(lump)).and_then(|e| e.into_iter().max());
        replay.mass(lump) > LIFT || longest > Some(LONG)
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
        let heavy = is_heavy(replay, m);
        if s.people == 0 {
            bad("takes nobody".into());
        }
        if s.people > plan.workshop.people && !admitted(plan) {
            bad(format!("takes {} people, there are {}", s.people, plan.workshop.people));
        }
        if s.people < 2 && count(HoldWith::Helper) > 0 {
            bad("a second person holds, but it takes one".into());
        }
        if s.people < 2 && heavy {
            bad("is too heavy or too long for one".into());
        }
        if s.people > 1 && !heavy && count(HoldWith::Helper) == 0 {
            bad("takes a second person for nothing".into());
        }
        // In a room one hand holds up only so much.
        let most = plan.workshop.person.as_ref().map_or(i64::MAX, |p| p.hand_g);
        let burden = |with: HoldWith| {
            let held = s.hold.iter().filter(|h| h.with == with);
            held.filter_map(|h| plan.part(&h.what)).map(|p| plan.parts[p].mass_g).max().unwrap_or(0)
        };
        for lump in m.lumps().iter().filter(|l| lies(replay, m, l) == [Rest::Lifted]) {
            if burden(HoldWith::Hand) > most && replay.mass(lump) > most {
                bad("one hand holds up more than it can".into());
            }
        }
        if count(HoldWith::Helper) > 0
            && count(HoldWith::Hand) == 0
            && !heavy
            && burden(HoldWith::Helper) <= most
        {
            bad("a second person holds what the free hand could".into());
        }
        if s.people > 2 {
            bad(format!("takes {} people", s.people));
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
