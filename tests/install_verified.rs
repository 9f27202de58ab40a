//! The way into the room, judged by the same verifier as the work at the bench.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::sync::LazyLock;

use jointwise::install::level::Heights;
use jointwise::plan::{Action, HoldWith, Plan, Stage};
use jointwise_tests::dice::Dice;
use jointwise_tests::scenarios::scenarios;
use jointwise_tests::verifier::verify;
use nalgebra::{Matrix4x3, Vector4};

/// Every scenario that is built for a gap, with its plan in the room and whether it tips before it is
/// fixed.
static ALL: LazyLock<Vec<(String, Plan, bool)>> = LazyLock::new(all);

fn all() -> Vec<(String, Plan, bool)> {
    let mut found = Vec::new();
    for (name, text) in scenarios() {
        let outcome = jointwise::build(&text);
        let plan = outcome.plan.unwrap_or_else(|| panic!("{name}: {:#?}", outcome.findings));
        if text.contains("\"space\"") {
            let said = outcome.findings.iter().map(|f| format!("{}: {}\n", f.code, f.message));
            match plan.install {
                Some(install) => {
                    let tips = outcome.findings.iter().any(|f| f.code.starts_with("tip-"));
                    found.push((name, *install, tips));
                }
                None => eprintln!("{name} has no way into its room:\n{}", said.collect::<String>()),
            }
        }
    }
    found
}

#[test]
fn every_way_into_a_room_is_accepted() {
    assert!(ALL.len() >= 11, "{} scenarios", ALL.len());
    let mut wrong = Vec::new();
    for (name, plan, _) in ALL.iter() {
        assert!(plan.steps.iter().all(|s| s.stage == Stage::Install), "{name}");
        let text = serde_json::to_string(plan).unwrap();
        wrong.extend(verify(&text).into_iter().map(|v| format!("{name}: {v}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The plan in the room of one scenario.
fn of(name: &str) -> Plan {
    ALL.iter().find(|(n, ..)| n == name).unwrap().1.clone()
}

/// The step in which a part comes in.
fn step_of(plan: &Plan, part: &str) -> u32 {
    plan.steps.iter().find(|s| s.parts.iter().any(|p| p == part)).unwrap().n
}

#[test]
fn the_counter_comes_before_what_slides_in_under_it() {
    let plan = of("mudroom-bins");
    let drawer = plan.parts.iter().find(|p| p.name.contains("front")).unwrap();
    // With the box in its place no arm gets at the screws from below.
    assert!(step_of(&plan, "counter") < step_of(&plan, &drawer.id));
    assert!(step_of(&plan, "carcass") < step_of(&plan, "counter"));
}

#[test]
fn shims_lie_before_the_carcass_comes() {
    let plan = of("workshop-shelf");
    assert!(step_of(&plan, "shims") < step_of(&plan, "carcass"));
    let shims = &plan.parts.iter().find(|p| p.id == "shims").unwrap().boxes;
    let mut thick: Vec<i64> = shims.iter().map(|b| b.extent(2)).collect();
    thick.sort_unstable();
    // Heights 12, 7, 4 and 0 mm at the corners.
    assert_eq!(thick, [5_000, 8_000, 12_000]);
}

#[test]
fn a_wall_unit_is_held_by_a_second_person_until_its_first_screws_are_in() {
    let plan = of("mug-wall-unit");
    let first = plan.steps.iter().find(|s| !s.fasteners.is_empty()).unwrap().n;
    for step in plan.steps.iter().filter(|s| s.n >= step_of(&plan, "carcass") && s.n <= first) {
        assert_eq!(step.people, 2, "step {}", step.n);
    }
    assert!(plan.steps.iter().any(|s| s.n > first && s.people == 1));
}

#[test]
fn whoever_drills_a_wall_is_warned_of_wires_and_pipes() {
    for (name, plan, _) in ALL.iter() {
        for step in &plan.steps {
            let into_wall = step.fasteners.iter().any(|f| f.starts_with("wall-"));
            let warned =
                plan.findings.iter().any(|f| f.code == "wires-and-pipes" && f.step == Some(step.n));
            assert!(!into_wall || warned, "{name}: step {}", step.n);
        }
    }
}

#[test]
fn what_tips_before_it_is_fixed_is_fixed_or_warned_of() {
    let tipping: Vec<_> = ALL.iter().filter(|(.., tips)| *tips).collect();
    assert!(!tipping.is_empty());
    for (name, plan, _) in tipping {
        let driven = plan.steps.iter().flat_map(|s| &s.fasteners);
        let fixed = driven.filter(|f| f.starts_with("wall-") || f.starts_with("bracket-")).count();
        let warned = plan.findings.iter().any(|f| f.code == "not-fixed");
        assert!(fixed > 0 || warned, "{name}");
    }
}

/// Puts the step that brings a part, with what belongs to it, behind all others but the last.
fn later(plan: &mut Plan, part: &str) {
    let at = plan.steps.iter().position(|s| s.parts.iter().any(|p| p == part)).unwrap();
    let own = |s: &&jointwise::plan::Step| matches!(s.action, Action::Check | Action::Drive);
    let many = 1 + plan.steps[at + 1..].iter().take_while(own).count();
    let moved: Vec<_> = plan.steps.drain(at..at + many).collect();
    let end = plan.steps.len() - 1;
    plan.steps.splice(end..end, moved);
    for (n, step) in (1..).zip(&mut plan.steps) {
        step.n = n;
    }
}

/// The rules that a plan breaks.
fn broken(plan: &Plan) -> Vec<&'static str> {
    verify(&serde_json::to_string(plan).unwrap()).into_iter().map(|v| v.rule).collect()
}

#[test]
fn a_counter_that_comes_last_leaves_no_room_for_the_arm() {
    let mut plan = of("mudroom-bins");
    later(&mut plan, "counter");
    assert!(broken(&plan).contains(&"tool-access"), "{:?}", broken(&plan));
}

#[test]
fn shims_that_come_late_have_no_way_in() {
    let mut plan = of("workshop-shelf");
    later(&mut plan, "shims");
    assert!(!broken(&plan).is_empty());
}

#[test]
fn a_wall_unit_that_nobody_holds_falls() {
    let plan = of("mug-wall-unit");
    for at in 0..plan.steps.len() {
        let mut slip = plan.clone();
        let step = &mut slip.steps[at];
        if !step.hold.iter().any(|h| h.with == HoldWith::Helper) {
            continue;
        }
        step.hold.clear();
        step.people = 1;
        assert!(broken(&slip).contains(&"gravity"), "step {}: {:?}", at + 1, broken(&slip));
    }
}

#[test]
fn a_screw_too_high_for_the_arm_is_refused() {
    let mut plan = of("mug-wall-unit");
    plan.workshop.reach_height = 1_500_000;
    assert!(broken(&plan).contains(&"tool-access"));
}

#[test]
fn the_plane_of_a_floor_is_the_one_of_least_squares() {
    // Outside check: nalgebra's singular value decomposition, over a rectangle of 1 by 1 about its
    // middle: z = a x + b y + c.
    let corners = Matrix4x3::new(-0.5, -0.5, 1.0, 0.5, -0.5, 1.0, -0.5, 0.5, 1.0, 0.5, 0.5, 1.0);
    let svd = corners.svd(true, true);
    let mut dice = Dice::new(7);
    for _ in 0..500 {
        let heights: [i64; 4] = std::array::from_fn(|_| dice.between(0, 40_000));
        let plane = Heights(heights).plane();
        let z = Vector4::from_fn(|i, _| heights[i] as f64);
        let fit = svd.solve(&z, 1e-9).unwrap();
        assert!((fit[0] - plane.across as f64).abs() <= 1.0, "{heights:?}");
        assert!((fit[1] - plane.back as f64).abs() <= 1.0, "{heights:?}");
        let off = (z - corners * fit).abs().max();
        assert!((off - plane.twist as f64).abs() <= 1.0, "{heights:?}");
    }
}
