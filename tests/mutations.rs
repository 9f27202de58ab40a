//! Good plans with one slip each: the verifier must reject every one, and for the right reason.
//!
//! Each kind of slip is wrong by construction, whatever the plan; where a plan offers no place for
//! it, the kind passes that plan over.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use jointwise_tests::spread::spread;
use jointwise_tests::verifier::verify;
use serde_json::Value;

#[path = "mutations/driving.rs"]
mod driving;
#[path = "mutations/edit.rs"]
mod edit;
#[path = "mutations/holding.rs"]
mod holding;
#[path = "mutations/order.rs"]
mod order;
#[path = "mutations/rest.rs"]
mod rest;
#[path = "mutations/shape.rs"]
mod shape;

use edit::Dice;

/// Nothing when the plan offers no place for the slip.
type Change = Option<()>;

/// What is wrong, the rule that must say so, and how a plan comes to it.
struct Kind(&'static str, &'static str, fn(&mut Value, &mut Dice) -> Change);

/// Tries of each kind on each plan; those that come out alike count once.
const TRIES: u64 = 12;

fn kinds() -> impl Iterator<Item = &'static Kind> {
    let written = [order::KINDS, shape::KINDS, driving::KINDS, holding::KINDS, rest::KINDS];
    written.into_iter().flatten()
}

fn json_files(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut out: Vec<(String, String)> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "json"))
        .map(|p| (p.display().to_string(), std::fs::read_to_string(&p).unwrap_or_default()))
        .collect();
    out.sort();
    out
}

/// Every slip in a plan: how many were tried of each kind, and those that got past the verifier.
fn try_plan((name, plan): &(String, Value)) -> (BTreeMap<&'static str, usize>, Vec<String>) {
    let text: Arc<str> = plan.to_string().into();
    let mut missed: Vec<String> =
        verify(&text).iter().map(|v| format!("{name} without a slip: {v}")).collect();
    let mut seen = BTreeSet::from([text]);
    let mut mutants = Vec::new();
    for kind in kinds() {
        for seed in 0..TRIES {
            let mut mutant = plan.clone();
            if (kind.2)(&mut mutant, &mut Dice(seed)).is_some() {
                let text: Arc<str> = mutant.to_string().into();
                if seen.insert(Arc::clone(&text)) {
                    mutants.push((kind, seed, text));
                }
            }
        }
    }
    let mut count: BTreeMap<&str, usize> = kinds().map(|k| (k.0, 0)).collect();
    let found = spread(&mutants, |(Kind(what, rule, _), seed, text)| {
        let found = verify(text);
        if found.iter().any(|v| v.rule == *rule) {
            return None;
        }
        let said: Vec<String> = found.iter().map(ToString::to_string).collect();
        Some(format!("{name}: {what} (seed {seed}): no {rule} among {said:?}"))
    });
    for (Kind(what, ..), ..) in &mutants {
        *count.entry(what).or_default() += 1;
    }
    missed.extend(found.into_iter().flatten());
    (count, missed)
}

/// The same of several plans.
fn try_all(plans: &[(String, Value)]) -> (BTreeMap<&'static str, usize>, Vec<String>) {
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    let mut missed = Vec::new();
    for (of_plan, more) in plans.iter().map(try_plan) {
        of_plan.into_iter().for_each(|(what, n)| *count.entry(what).or_default() += n);
        missed.extend(more);
    }
    (count, missed)
}

#[test]
fn every_slip_in_a_hand_written_plan_is_found() {
    let plans: Vec<(String, Value)> = json_files("fixtures")
        .into_iter()
        .filter(|(name, _)| name.contains("plan-"))
        .map(|(name, text)| (name, serde_json::from_str(&text).unwrap_or_default()))
        .collect();
    let (count, missed) = try_all(&plans);
    assert!(missed.is_empty(), "{} missed:\n{}", missed.len(), missed.join("\n"));
    let idle: Vec<&&str> = count.iter().filter(|(_, n)| **n == 0).map(|(what, _)| what).collect();
    assert!(idle.is_empty(), "never tried: {idle:?}");
    let all: usize = count.values().sum();
    assert!(all >= 200, "only {all} slips tried");
}

#[test]
fn every_slip_in_the_plan_of_a_scenario_is_found() {
    let plans = spread(&json_files("../scenarios"), |(name, text)| {
        let outcome = jointwise::build(text);
        let Some(plan) = outcome.plan else {
            panic!("{name} has no plan: {:#?}", outcome.findings)
        };
        let plan = serde_json::to_value(&plan).unwrap_or_else(|e| panic!("{name}: {e}"));
        (name.clone(), plan)
    });
    assert!(!plans.is_empty(), "no scenarios");
    let (count, missed) = try_all(&plans);
    assert!(missed.is_empty(), "{} missed:\n{}", missed.len(), missed.join("\n"));
    let all: usize = count.values().sum();
    assert!(all >= 200 * plans.len(), "only {all} slips tried");
}

#[test]
fn text_that_is_no_plan_is_refused() {
    for text in ["", "{", "[]", "null", "{\"format\": \"jointwise-plan/1\"}"] {
        assert!(verify(text).iter().any(|v| v.rule == "format"), "{text:?}");
    }
}
