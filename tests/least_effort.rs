//! No plan spends less than the best of all orders; a plan said to be optimal spends no more.

use std::path::Path;

use jointwise_tests::oracle::{Effort, Pieces, spent};
use jointwise_tests::verifier::file::{JointKind, PlanFile};
use jointwise_tests::verifier::replay::Replay;

/// What each body of a plan spends, and the least that any order of its pieces can.
fn efforts(plan: &PlanFile) -> Vec<(String, Effort, Option<Effort>)> {
    let replay = Replay::of(plan);
    let mut bodies: Vec<&str> = plan.steps.iter().map(|s| s.body.as_str()).collect();
    bodies.sort_unstable();
    bodies.dedup();
    let of = |b: &str| Pieces::of(&replay, b).map(|p| (b.to_owned(), spent(&replay, b), p.least()));
    bodies.into_iter().filter_map(of).collect()
}

fn fixture(name: &str) -> Result<PlanFile, String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures").join(name);
    PlanFile::read(&std::fs::read_to_string(&path).map_err(|e| format!("{name}: {e}"))?)
}

/// Every part of the box and of the shelves reaches the bench or a groove's lip on one face, on
/// which the drill reaches all screws: nothing needs lifting or turning.
#[test]
fn small_bodies_need_no_effort() {
    let base = efforts(&fixture("plan-base-with-box.json").unwrap());
    let of_box = base.iter().find(|(body, ..)| body == "box").map(|b| b.2);
    assert_eq!(of_box, Some(Some(Effort::default())));
    let shelves = efforts(&fixture("plan-dadoed-shelves.json").unwrap());
    assert_eq!(
        shelves.first().map(|b| (b.1, b.2)),
        Some((Effort { lifted: 0, turns: 1 }, Some(Effort::default())))
    );
}

/// A drill wider than twice the piece reaches only screws driven straight down: those of the right
/// side and those of the back, held by the shelves alone, need two faces. The dadoes, which would keep
/// a side without its screws, are left out of it.
#[test]
fn a_wider_drill_needs_a_turn() {
    let mut plan = fixture("plan-dadoed-shelves.json").unwrap();
    plan.workshop.drill_width = 1_400_000;
    plan.joints.retain(|j| !["back+left-side", "back+right-side"].contains(&j.id.as_str()));
    for joint in plan.joints.iter_mut().filter(|j| j.kind == JointKind::Dado) {
        joint.kind = JointKind::Butt;
    }
    let all = efforts(&plan);
    assert_eq!(all.first().map(|b| b.2), Some(Some(Effort { lifted: 0, turns: 1 })));
}

#[test]
fn no_hand_written_plan_beats_the_best_order() {
    for name in ["plan-base-with-box.json", "plan-dadoed-shelves.json"] {
        let all = efforts(&fixture(name).unwrap());
        assert!(!all.is_empty(), "{name}");
        for (body, spent, least) in all {
            assert!(least.is_some_and(|l| l <= spent), "{name}, {body}: {spent:?} but {least:?}");
        }
    }
}

#[test]
fn no_plan_of_a_scenario_beats_the_best_order() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut tried = 0;
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.path().extension().is_none_or(|e| e != "json") {
            continue;
        }
        let name = entry.path().display().to_string();
        let scenario =
            std::fs::read_to_string(entry.path()).unwrap_or_else(|e| panic!("{name}: {e}"));
        let outcome = jointwise::build(&scenario);
        let Some(plan) = outcome.plan else {
            panic!("{name} has no plan: {:#?}", outcome.findings)
        };
        let text = serde_json::to_string(&plan).unwrap_or_else(|e| panic!("{name}: {e}"));
        let plan = PlanFile::read(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
        for (body, spent, least) in efforts(&plan) {
            tried += 1;
            assert!(least.is_some_and(|l| l <= spent), "{name}, {body}: {spent:?} but {least:?}");
        }
    }
    assert!(tried > 0, "no body was small enough to try");
}
