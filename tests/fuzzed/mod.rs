//! What is tried with bytes that nobody wrote: a function a target, each from bytes to nothing, that
//! panics where something is wrong. `fuzz/` runs them with bytes found by coverage, `fuzz_corpus` with
//! those that are kept.

pub mod free_form;
pub mod lengths;
pub mod link;
pub mod scenario;
pub mod stock;

use jointwise::export;
use jointwise::findings::{Finding, Severity, has_stop};
use jointwise::order::BUDGET;
use jointwise::outcome::Outcome;
use jointwise::plan::Plan;
use serde_json::Value;

use crate::cutting::sawn;
use crate::dice::Dice;
use crate::spoil;
use crate::verifier::{Violation, screws, verify};

/// A target, by its name, which is also that of its folder in `fuzz/corpus`.
pub type Target = (&'static str, fn(&[u8]));

/// Every target.
pub const TARGETS: [Target; 5] = [
    ("free_form", free_form::run),
    ("lengths", lengths::run),
    ("link", link::run),
    ("scenario", scenario::run),
    ("stock", stock::run),
];

/// With more parts than this a piece is sized and not planned: a case must be over in a moment.
const MOST_PLANNED: usize = 9;

/// The text of a tree after a few changes, for the targets that read one: bytes changed at random seldom
/// leave a tree. None when the bytes hold no tree.
pub fn changed(bytes: &[u8], seed: u32) -> Option<String> {
    let mut tree: Value = serde_json::from_slice(bytes).ok()?;
    let dice = &mut Dice::new(seed.into());
    for _ in 0..dice.between(1, 3) {
        spoil::change(&mut tree, dice);
    }
    Some(tree.to_string())
}

/// Every finding says something, and where.
fn are_said(findings: &[Finding], case: &str) {
    for f in findings {
        let said = !f.code.is_empty() && !f.message.is_empty() && !f.place.is_empty();
        assert!(said, "{f:?} of {case}");
    }
}

/// There is a sound plan, or a finding that stops it.
///
/// # Panics
/// When there is neither, naming the case.
pub fn is_planned_or_told(outcome: &Outcome, case: &str) {
    are_said(&outcome.findings, case);
    match &outcome.plan {
        Some(plan) => {
            // Each body, and each attempt with a part of it set ready, has its own budget.
            let most = BUDGET * (plan.parts.len() as u64 + 1);
            assert!(plan.proof.states <= most, "{} states of {case}", plan.proof.states);
            // What the maker had together already is taken as found, dry or not: the verifier's rules are for
            // what the plan itself does.
            let as_built =
                plan.steps.iter().any(|s| s.why.iter().any(|why| why.rule == "as-built"));
            // A screw that is told to be changed before building need not sit well.
            let told = |f: &Finding| f.severity == Severity::Fix && f.place.starts_with("screw ");
            let wrong_screw = outcome.findings.iter().any(told);
            is_sound(plan, case, |v| as_built || wrong_screw && v.rule == screws::RULE);
            if let Some(cutting) = &plan.cutting {
                let faults = sawn::faults(plan, cutting);
                assert!(faults.is_empty(), "{faults:#?} of {case}");
            }
            plan.install.iter().for_each(|install| is_sound(install, case, |_| false));
        }
        None => assert!(has_stop(&outcome.findings), "neither plan nor stop of {case}"),
    }
}

fn is_sound(plan: &Plan, case: &str, excused: impl Fn(&Violation) -> bool) {
    let wrong = verify(&export::plan_json(plan));
    let wrong: Vec<String> =
        wrong.iter().filter(|v| !excused(v)).map(ToString::to_string).collect();
    assert!(wrong.is_empty(), "{wrong:#?} of {case}");
}
