//! Pieces that are too large to be ordered in one: divided by the planner, and judged by the verifier.

use jointwise::plan::Cost;
use jointwise_tests::pieces::{chest, large, wall};
use jointwise_tests::verifier::verify;

/// Many boxes alike may go in by many orders at the same cost, and once one is in, the case stays as it lies:
/// among all these the way on must not get lost. Some are too high to be finished upright.
#[test]
fn chests_of_many_rows_of_boxes_have_an_order() {
    for (columns, rows) in [(2, 7), (2, 10), (2, 13), (1, 13), (1, 16), (1, 18)] {
        let case = format!("{columns} columns of {rows}");
        let piece = chest(columns, rows);
        let outcome = jointwise::build(&piece.scenario());
        let Some(plan) = outcome.plan else { panic!("{case}: {:#?}", outcome.findings) };
        assert_eq!(plan.parts.len(), piece.panels.len(), "{case}");
        let wrong: Vec<String> =
            verify(&jointwise::export::plan_json(&plan)).iter().map(ToString::to_string).collect();
        assert!(wrong.is_empty(), "{case}: {wrong:#?}");
    }
}

/// Ten cases alike: each further one takes a few states in the whole, none of its own.
#[test]
fn bodies_that_are_alike_are_searched_once() {
    let states = |cases: i64| {
        let outcome = jointwise::build(&wall(cases).scenario());
        let Some(plan) = outcome.plan else { panic!("{cases}: {:#?}", outcome.findings) };
        let built = plan.steps.iter().map(|s| s.body.as_str()).filter(|b| b.ends_with("-built"));
        let mut built: Vec<&str> = built.collect();
        built.sort_unstable();
        built.dedup();
        (plan.proof.states, built.len())
    };
    let ((four, few), (ten, many)) = (states(4), states(10));
    assert!(few < many, "{few} {many}");
    assert!(ten < 2 * four, "{four} states for {few} bodies, {ten} for {many}");
}

#[test]
fn what_is_too_large_for_one_body_is_divided_and_planned_with_a_bound() {
    for (name, piece) in large() {
        let outcome = jointwise::build(&piece.scenario());
        let Some(plan) = outcome.plan else { panic!("{name}: {:#?}", outcome.findings) };
        assert_eq!(plan.parts.len(), piece.panels.len(), "{name}");
        let wrong: Vec<String> =
            verify(&jointwise::export::plan_json(&plan)).iter().map(ToString::to_string).collect();
        assert!(wrong.is_empty(), "{name}: {wrong:#?}");
        // Nothing of this size is proved; the bound is below the cost and says something.
        assert!(!plan.proof.optimal, "{name}");
        let bound = plan.proof.bound;
        assert!(bound <= plan.cost, "{name}: {bound:?} {:?}", plan.cost);
        assert!(bound > Cost::default(), "{name}");
        let said = outcome.findings.iter().filter(|f| f.code == "divided").count();
        assert_eq!(said, 1, "{name}: {:#?}", outcome.findings);
        assert!(plan.bodies.len() > 2, "{name}: {:?}", plan.bodies);
    }
}
