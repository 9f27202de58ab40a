//! What the maker has decided is kept, the rest planned from there; and where that leaves no order, the
//! answer says what is in the way and names a change that works.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the helpers of a test fail, too")]

use jointwise::Outcome;
use jointwise::findings::Severity;
use jointwise::geometry::Direction;
use jointwise::plan::{Action, Plan};
use jointwise_tests::verifier::verify;
use serde_json::{Value, json};

fn scenario(name: &str) -> Value {
    let path = format!("{}/../scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// What comes of a scenario with one section more or other.
fn with(name: &str, change: impl Fn(&mut Value)) -> Outcome {
    let mut scenario = scenario(name);
    change(&mut scenario);
    jointwise::build(&scenario.to_string())
}

fn plan(outcome: Outcome) -> Plan {
    outcome.plan.unwrap_or_else(|| panic!("{:#?}", outcome.findings))
}

/// The message and the cure of the finding that stops it.
fn stop(outcome: &Outcome) -> (String, String) {
    assert!(outcome.plan.is_none());
    let stop = outcome.findings.iter().find(|f| f.severity == Severity::Stop).unwrap();
    (stop.message.clone(), stop.hint.clone())
}

fn main_steps(plan: &Plan) -> impl Iterator<Item = &jointwise::plan::Step> {
    plan.steps.iter().filter(|s| s.body == "main")
}

#[test]
fn it_starts_with_the_part_that_is_wished() {
    let usual = plan(with("workshop-shelf", |_| {}));
    let wished = plan(with("workshop-shelf", |s| s["order"] = json!({ "first": "bottom" })));
    assert_ne!(main_steps(&usual).next().unwrap().parts, ["bottom"]);
    assert_eq!(main_steps(&wished).next().unwrap().parts, ["bottom"]);
    assert!(wished.cost >= usual.cost);
    let other = main_steps(&wished).next().unwrap().instead.as_ref().unwrap();
    assert!(other.text.starts_with("Starting with the bottom"), "{}", other.text);
    assert_eq!(verify(&jointwise::export::plan_json(&wished)), []);
}

#[test]
fn it_lies_only_on_the_faces_that_are_wished() {
    let wished =
        plan(with("workshop-shelf", |s| s["order"] = json!({ "lay_on": ["left", "right"] })));
    let allowed = [Direction::Left, Direction::Right, Direction::Down];
    assert!(main_steps(&wished).all(|s| allowed.contains(&s.bench_face)));
    // Nor is another face held out as what could have been done instead.
    let others = main_steps(&wished).filter_map(|s| s.instead.as_ref());
    let turns: Vec<_> = others.filter(|o| o.text.starts_with("Turning")).collect();
    let wanted = ["left side", "right side", "underside"];
    assert!(turns.iter().all(|o| wanted.iter().any(|w| o.text.contains(w))), "{turns:#?}");
    assert_eq!(verify(&jointwise::export::plan_json(&wished)), []);
}

/// From every step of the usual plan on: what was together stays so, the rest follows.
#[test]
fn it_goes_on_from_what_is_together() {
    let usual = plan(with("workshop-shelf", |_| {}));
    let word = |d: Direction| match d {
        Direction::Left => "left",
        Direction::Right => "right",
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Down => "bottom",
        Direction::Up => "top",
    };
    let mut done: Vec<String> = Vec::new();
    let mut tried = 0;
    for step in &usual.steps {
        done.extend(step.parts.iter().cloned());
        let more = !step.parts.is_empty() && done.len() < usual.parts.len();
        if !more || done.len() < 2 {
            continue;
        }
        let order = json!({ "done": { "parts": done, "face": word(step.bench_face) } });
        let rest = plan(with("workshop-shelf", |s| s["order"] = order.clone()));
        assert_eq!(rest.steps[0].action, Action::LayOut);
        assert_eq!(rest.steps[0].bench_face, step.bench_face);
        let mut first = rest.steps[0].parts.clone();
        let mut given = done.clone();
        first.sort();
        given.sort();
        assert_eq!(first, given);
        // Every other part still comes, each once, and in the end it stands.
        let mut later: Vec<&String> = rest.steps[1..].iter().flat_map(|s| &s.parts).collect();
        later.sort();
        later.dedup();
        assert_eq!(later.len(), usual.parts.len() - done.len());
        assert_eq!(rest.steps.last().unwrap().bench_face, Direction::Down);
        tried += 1;
    }
    assert!(tried >= 4, "{tried}");
}

#[test]
fn without_a_helper_the_long_locker_is_refused_and_a_helper_named() {
    let (message, hint) = stop(&with("tall-locker", |s| s["order"] = json!({ "alone": true })));
    assert!(message.contains("second person"), "{message}");
    assert!(hint.contains("with a helper"), "{hint}");
}

/// A cleat inside a channel 200 mm wide, screwed from within: 182 mm are left behind the cleat, and the
/// drill of 250 mm starts a screw's length further back.
#[test]
fn a_drill_that_is_too_long_is_answered_by_a_shorter_one() {
    let piece = |drill: u32| {
        json!({
            "format": "jointwise-scenario/1",
            "unit": "mm",
            "piece": {
                "parts": [
                    { "id": "channel", "bought": "formed channel", "mass_kg": 3, "at": [0, 0, 0], "size": [240, 200, 150],
                      "cuts": [{ "at": [20, 0, 20], "size": [200, 200, 130] }] },
                    { "id": "cleat", "material": "ply", "at": [20, 0, 60], "size": [18, 200, 40] }
                ],
                "joints": [{ "parts": ["cleat", "channel"], "kind": "butt", "screws": {} }]
            },
            "shop": {
                "materials": [{ "id": "ply", "kind": "plywood", "thickness": 18 }],
                "screws": [{ "gauge": 6, "length": 30 }],
                "drill": { "length": drill, "width": 60, "bit_length": 50, "bit_width": 10 }
            }
        })
        .to_string()
    };
    let outcome = jointwise::build(&piece(250));
    let (message, hint) = stop(&outcome);
    assert!(message.contains("drill does not reach the screws of the cleat"), "{message}");
    assert!(message.contains("channel"), "{message}");
    // 182 - 30 = 152 mm: the first that is short enough of those tried.
    assert!(hint.contains("100 mm shorter"), "{hint}");
    assert!(jointwise::build(&piece(151)).plan.is_some());
    assert!(jointwise::build(&piece(153)).plan.is_none());
}

/// Two boards glued end to face without a screw, in a shop without clamps.
#[test]
fn glue_without_a_clamp_is_answered_by_a_clamp() {
    let piece = |clamps: Value| {
        json!({
            "format": "jointwise-scenario/1",
            "unit": "mm",
            "piece": {
                "parts": [
                    { "id": "foot", "material": "ply", "at": [0, 0, 0], "size": [300, 200, 18] },
                    { "id": "post", "material": "ply", "at": [0, 0, 18], "size": [18, 200, 120] }
                ],
                "joints": [{ "parts": ["foot", "post"], "kind": "butt", "glue": true }]
            },
            "shop": {
                "materials": [{ "id": "ply", "kind": "plywood", "thickness": 18 }],
                "clamps": clamps
            }
        })
        .to_string()
    };
    let (message, hint) = stop(&jointwise::build(&piece(json!([]))));
    assert!(message.contains("no clamp on hand"), "{message}");
    assert!(hint.contains("clamps that open 138 mm"), "{hint}");
    let glued = plan(jointwise::build(&piece(json!([300]))));
    assert!(glued.steps.iter().any(|s| s.action == Action::Wait && s.minutes >= 30));
    assert_eq!(verify(&jointwise::export::plan_json(&glued)), []);
}

/// Where nothing but the wish keeps a part out, or a screw, that is what it says, with the face that would do.
#[test]
fn a_wish_that_forbids_the_face_is_named_and_the_face_that_would_do() {
    let on = |name: &str, face: &str| with(name, |s| s["order"] = json!({ "lay_on": [face] }));
    for (name, face, goes_in) in [
        ("tall-locker", "left", "right side"),
        ("tall-locker", "right", "left side"),
        ("potting-shed", "bottom", "front"),
    ] {
        let outcome = on(name, face);
        let (message, hint) = stop(&outcome);
        let said = format!(
            "goes in with it lying on its {goes_in}, and `order.lay_on` lets it lie only on"
        );
        assert!(message.contains(&said), "{name} on {face}: {message}");
        assert!(!message.contains("cannot be turned"), "{name} on {face}: {message}");
        assert_eq!(
            hint,
            format!("It works when it may lie on its {goes_in} too."),
            "{name} on {face}"
        );
    }
    let (message, hint) = stop(&on("mudroom-bins", "bottom"));
    let said = "are reached with it lying on its left side, and `order.lay_on` lets it lie only on its underside.";
    assert!(message.contains(said), "{message}");
    assert_eq!(hint, "It works when it may lie on its left side too.");
    // And so it does.
    for (name, faces) in [("tall-locker", ["left", "right"]), ("mudroom-bins", ["bottom", "left"])]
    {
        let wished = plan(with(name, |s| s["order"] = json!({ "lay_on": faces })));
        assert_eq!(verify(&jointwise::export::plan_json(&wished)), []);
    }
}
