//! Pieces that are too large to be ordered in one: divided by the planner, and judged by the verifier.

use jointwise::plan::Cost;
use jointwise_tests::pieces::large;
use jointwise_tests::verifier::verify;

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
