//! Good plans are accepted: two written by hand, the same ones seen in mirrors and turned about,
//! and the plan of every scenario.

#![allow(clippy::expect_used, clippy::panic, reason = "a test fails where something is missing")]

use std::path::{Path, PathBuf};

use jointwise_tests::verifier::verify;
use serde_json::Value;

/// The files of a folder beside the tests, by name.
fn files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let listing = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> =
        listing.map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "json")).collect();
    found.sort();
    found
}

/// What is wrong with a plan, one breach a line.
fn report(text: &str) -> String {
    verify(text).iter().map(|v| format!("{v}\n")).collect()
}

/// Hand-written plans with their names.
fn fixtures() -> Vec<(String, Value)> {
    let mut out = Vec::new();
    for path in files("fixtures") {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if name.starts_with("plan-") {
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            out.push((name, serde_json::from_str(&text).unwrap_or_default()));
        }
    }
    out
}

/// Moves the axes of everything in a plan: axis `a` becomes `to[a]`, reversed where `flip[a]`.
fn relabel(value: &mut Value, to: [usize; 3], flip: [bool; 3]) {
    let signed = |a: usize, v: i64| if flip[a] { -v } else { v };
    match value {
        Value::String(s) => {
            if let Some(a) =
                ["x", "y", "z"].iter().position(|x| *s == format!("-{x}") || *s == format!("+{x}"))
            {
                let grows = s.starts_with('+') != flip[a];
                *s = format!("{}{}", if grows { '+' } else { '-' }, ["x", "y", "z"][to[a]]);
            }
        }
        Value::Array(items) => {
            let numbers: Option<Vec<i64>> = items.iter().map(Value::as_i64).collect();
            match numbers.as_deref() {
                Some([x, y, z]) => {
                    let mut p = [0; 3];
                    for (a, v) in [*x, *y, *z].into_iter().enumerate() {
                        p[to[a]] = signed(a, v);
                    }
                    *value = serde_json::json!(p);
                }
                Some([x0, y0, z0, x1, y1, z1]) => {
                    let mut b = [0; 6];
                    for (a, [v, w]) in [[*x0, *x1], [*y0, *y1], [*z0, *z1]].into_iter().enumerate()
                    {
                        let (v, w) = (signed(a, v), signed(a, w));
                        (b[to[a]], b[to[a] + 3]) = (v.min(w), v.max(w));
                    }
                    *value = serde_json::json!(b);
                }
                _ => items.iter_mut().for_each(|i| relabel(i, to, flip)),
            }
        }
        Value::Object(fields) => {
            for (name, field) in fields {
                // Three clamps or three expected widths are no point.
                let lengths = field.as_array().is_some_and(|l| l.iter().all(Value::is_i64));
                if !(lengths && (name == "clamps" || name == "expected")) {
                    relabel(field, to, flip);
                }
            }
        }
        _ => {}
    }
}

#[test]
fn hand_written_plans_are_accepted() {
    let all = fixtures();
    assert!(all.len() >= 2, "the hand-written plans are missing");
    for (name, plan) in all {
        let wrong = report(&plan.to_string());
        assert!(wrong.is_empty(), "{name}:\n{wrong}");
    }
}

/// Which way is left, or which axis is up, is only a name: the bench lies where the plan says.
#[test]
fn mirrored_and_turned_plans_are_accepted() {
    const ORDERS: [[usize; 3]; 6] =
        [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];
    for (name, plan) in fixtures() {
        for to in ORDERS {
            for bits in 0..8 {
                let flip = [bits & 1 > 0, bits & 2 > 0, bits & 4 > 0];
                let mut seen = plan.clone();
                relabel(&mut seen, to, flip);
                let wrong = report(&seen.to_string());
                assert!(wrong.is_empty(), "{name} with axes {to:?} flipped {flip:?}:\n{wrong}");
            }
        }
    }
}

/// The hand-written plans hold to the contract: the core reads them and loses nothing.
#[test]
fn hand_written_plans_follow_the_contract() {
    for (name, plan) in fixtures() {
        let read: jointwise::plan::Plan = serde_json::from_value(plan.clone())
            .unwrap_or_else(|e| panic!("{name} is no plan: {e}"));
        assert_eq!(serde_json::to_value(&read).ok(), Some(plan), "{name}");
    }
}

#[test]
fn every_scenario_has_a_plan_that_is_accepted() {
    let all = files("../scenarios");
    assert!(!all.is_empty(), "no scenarios");
    for path in all {
        let name = path.display();
        let scenario = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{name}: {e}"));
        let outcome = jointwise::build(&scenario);
        let Some(plan) = outcome.plan else {
            panic!("{name} has no plan: {:#?}", outcome.findings)
        };
        let text = serde_json::to_string(&plan).unwrap_or_else(|e| panic!("{name}: {e}"));
        let wrong = report(&text);
        assert!(wrong.is_empty(), "{name}:\n{wrong}");
    }
}

/// A separate platform: the carcass, finished or not, is screwed down on it from inside.
#[test]
fn cabinets_on_a_platform_have_a_plan_that_is_accepted() {
    for name in ["window-bench", "sewing-drawers", "pantry-doors"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../scenarios/{name}.json"));
        let text = std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{name}: {e}"));
        let mut scenario: Value = serde_json::from_str(&text).unwrap_or_default();
        scenario["build"]["carcass"]["foot"] = "platform".into();
        let outcome = jointwise::build(&scenario.to_string());
        let Some(plan) = outcome.plan else {
            panic!("{name} has no plan: {:#?}", outcome.findings)
        };
        assert!(plan.bodies.iter().any(|b| b.id == "platform"), "{name}");
        let wrong = report(&serde_json::to_string(&plan).unwrap_or_default());
        assert!(wrong.is_empty(), "{name}:\n{wrong}");
    }
}

/// A tape hooks over an edge: where a screw line is measured from, the panel ends beside two of its screws at least and
/// not in a notch, unless it does so on both sides.
#[test]
fn screw_lines_are_measured_from_an_edge_that_is_there() {
    let mut lines = 0;
    for (name, text) in jointwise_tests::scenarios::scenarios() {
        let plan = jointwise::build(&text).plan.unwrap_or_else(|| panic!("{name}"));
        for line in plan.steps.iter().flat_map(|s| &s.lines) {
            let part = plan.parts.iter().find(|p| p.id == line.part).expect("a part of the plan");
            let axis = line.side.axis();
            let joint = |j: &&jointwise::plan::PlanJoint| {
                j.parts.contains(&line.part) && j.parts.contains(&line.behind)
            };
            let screws: Vec<_> =
                plan.joints.iter().filter(joint).flat_map(|j| &j.fasteners).collect();
            assert!(!screws.is_empty());
            // How far the wood goes from each screw, on the face that is drilled, both ways.
            let ends = |up: bool| -> Vec<i64> {
                let reach = screws.iter().map(|s| {
                    let mut at = s.entry;
                    at[s.direction.axis()] += s.direction.sign();
                    let beside = |b: &&jointwise::geometry::Box3| {
                        (0..3).all(|a| a == axis || (b.min[a] <= at[a] && at[a] <= b.max[a]))
                    };
                    let along = part.boxes.iter().filter(beside);
                    let ends = along.map(|b| if up { b.max[axis] } else { b.min[axis] });
                    if up { ends.max() } else { ends.min() }.expect("wood about the screw")
                });
                reach.collect()
            };
            let far = |up: bool| {
                let all = part.boxes.iter().map(|b| if up { b.max[axis] } else { b.min[axis] });
                if up { all.max() } else { all.min() }.expect("boxes")
            };
            let there = |up: bool| ends(up).iter().filter(|&&e| e == far(up)).count() >= 2;
            let up = line.side.is_positive();
            assert!(there(up) || !there(!up), "{name}: {}", line.text);
            let distance = (screws[0].entry[axis] - far(up)).abs();
            assert_eq!(line.distance, distance, "{name}: {}", line.text);
            lines += 1;
        }
    }
    assert!(lines > 100, "{lines}");
}
