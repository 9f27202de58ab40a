//! What to heed in the room, each at the step where it matters. Common practice, no source, unless
//! one is named.

use crate::findings::{Finding, JobStage, Severity};
use crate::plan::{Action, Plan, ROOM, Step};

use super::{BRACKET_ID, CARCASS, COUNTER, Facts};

/// Higher than this above the floor a step takes a ladder or a platform.
const LADDER: i64 = 1_900_000;

fn caution(code: &str, step: u32, message: &str, hint: &str) -> Finding {
    let mut finding = Finding::new(Severity::Caution, code, format!("step {step}"), message, hint)
        .source("common practice, no source");
    finding.stage = Some(JobStage::Install);
    finding.step = Some(step);
    finding
}

/// The cautions of a plan in the room.
pub(super) fn of(facts: &Facts, plan: &Plan, tips: bool) -> Vec<Finding> {
    let mut all = Vec::new();
    let into_wall = |s: &Step| {
        let mut ids = s.fasteners.iter();
        ids.any(|f| f.starts_with("wall-") || *f == "bracket-3")
    };
    for step in &plan.steps {
        if step.people > plan.workshop.people {
            all.push(caution(
                "needs-helper",
                step.n,
                "This takes a second person, and the shop has one.",
                "Ask somebody to come for it.",
            ));
        }
        let first = step.parts.first().map(String::as_str);
        if into_wall(step) || first == Some(ROOM) && plan.steps.iter().any(into_wall) {
            all.push(caution(
                "wires-and-pipes",
                step.n,
                "Wires and pipes may lie in the wall, also beside studs and over sockets.",
                "Find them with a detector, switch the circuit off, and drill no deeper than the screw needs. Local codes and a licensed person come first.",
            ));
        }
        if first == Some(CARCASS) || first == Some(COUNTER) {
            all.push(caution(
                "lift-and-carry",
                step.n,
                "Lifting and carrying hurts backs and crushes fingers.",
                "Lift with a second person whatever one does not carry with ease, and keep fingers from under it.",
            ));
        }
        if tips && first == Some(CARCASS) {
            all.push(caution(
                "tips-unfixed",
                step.n,
                "The piece can tip over to the front until it is fixed.",
                "Keep it empty, its drawers and doors out, and nobody before it until its screws are in.",
            ));
        }
        let highest = plan
            .joints
            .iter()
            .flat_map(|j| &j.fasteners)
            .filter(|f| step.fasteners.contains(&f.id))
            .map(|f| f.entry[2] - facts.room.floor)
            .max();
        if highest.is_some_and(|h| h > LADDER) {
            all.push(caution(
                "ladder",
                step.n,
                "These screws are above the shoulder.",
                "Stand on a platform or a ladder that is set firm, and keep both feet on it.",
            ));
        }
    }
    let fixed = plan.steps.iter().any(|s| into_wall(s) || s.parts.iter().any(|p| p == BRACKET_ID));
    if let Some(last) = plan.steps.last()
        && tips
        && !fixed
        && last.action == Action::Check
    {
        all.push(caution(
            "not-fixed",
            last.n,
            "Nothing holds the piece to the wall, and open and loaded it can tip over.",
            "Fix it to a stud before it is loaded, with children in the house in any case.",
        ));
    }
    all
}
