//! Every scenario, spoilt by seeded chance: bytes flipped, fields and entries moved, taken out and
//! doubled, numbers without end. Whatever comes of it, it is told and nothing stops the program.

#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use jointwise::findings::has_stop;
use jointwise::order::BUDGET;
use jointwise::outcome::{Outcome, draft};
use jointwise_tests::dice::Dice;
use jointwise_tests::scenarios::scenarios;
use serde_json::{Map, Value, json};

/// Cases that are only read and sized, and cases that are planned to the end.
const DRAFTS: u64 = 3_000;
const PLANS: u64 = 150;

/// The largest takes as long to plan as all others together; it is drafted only.
const LONGEST: &str = "workbench";

/// Lengths and numbers that no maker means.
fn extreme(dice: &mut Dice) -> Value {
    let texts = [
        "0",
        "-1",
        "1e308",
        "9999999999999999999999",
        "1/0",
        "0/0",
        "1/3",
        "0.0000001",
        "NaN",
        "∞",
        "1'",
        "\"",
        "600 mm 5",
        "600 furlongs",
        "１２",
        "",
        " ",
        "\u{202e}600",
        "__proto__",
        "<b>1</b>",
    ];
    let numbers = [
        json!(0),
        json!(-1),
        json!(i64::MAX),
        json!(i64::MIN),
        json!(u64::MAX),
        json!(1e300),
        json!(1e-300),
        json!(0.1),
        json!(null),
        json!(true),
        json!([]),
        json!({}),
        json!([[[]]]),
    ];
    if dice.once_in(2) { json!(dice.pick(&texts).unwrap()) } else { dice.pick(&numbers).unwrap() }
}

/// How many values hang in a tree, itself included.
fn count(value: &Value) -> i64 {
    1 + match value {
        Value::Array(items) => items.iter().map(count).sum(),
        Value::Object(fields) => fields.values().map(count).sum(),
        _ => 0,
    }
}

/// The value of that number, counted from the root down.
fn nth<'a>(value: &'a mut Value, n: &mut i64) -> Option<&'a mut Value> {
    if *n == 0 {
        return Some(value);
    }
    *n -= 1;
    let below: Vec<&mut Value> = match value {
        Value::Array(items) => items.iter_mut().collect(),
        Value::Object(fields) => fields.values_mut().collect(),
        _ => Vec::new(),
    };
    below.into_iter().find_map(|value| nth(value, n))
}

/// Another number of the same kind, up to three times as large; what is none becomes one that no maker
/// means.
fn nudge(place: &mut Value, dice: &mut Dice) {
    let factor = dice.between(1, 300);
    let number = match &*place {
        Value::Number(n) => n.as_i64(),
        Value::String(s) => s.parse().ok(),
        _ => None,
    };
    let text = place.is_string();
    match number.map(|n| n.saturating_mul(factor) / 100) {
        Some(n) if text => *place = json!(n.to_string()),
        Some(n) => *place = json!(n),
        None if dice.once_in(4) => *place = extreme(dice),
        None => {}
    }
}

/// Changes one place of a tree.
fn change(tree: &mut Value, dice: &mut Dice) {
    let last = count(tree) - 1;
    let other = nth(&mut tree.clone(), &mut dice.between(0, last)).cloned().unwrap_or_default();
    let Some(place) = nth(tree, &mut dice.between(1, last.max(1))) else { return };
    match (dice.between(0, 11), place) {
        (6.., place) => nudge(place, dice),
        (0, Value::Object(fields)) => {
            let names: Vec<String> = fields.keys().cloned().collect();
            if let Some(name) = dice.pick(&names) {
                fields.remove(&name);
            }
        }
        (1, Value::Object(fields)) => {
            for name in ["__proto__", "constructor", "kind"] {
                fields.insert(name.to_owned(), other.clone());
            }
        }
        (0 | 1, Value::Array(items)) => {
            let more = items.clone();
            let times = dice.between(1, 40);
            (0..times).for_each(|_| items.extend(more.iter().take(20).cloned()));
        }
        (2, place) => *place = other,
        (3, Value::Object(fields)) => {
            let values: Vec<Value> = std::mem::take(fields).into_iter().map(|(_, v)| v).collect();
            *fields = Map::from_iter([("parts".to_owned(), Value::Array(values))]);
        }
        (_, place) => *place = extreme(dice),
    }
}

/// Flips, drops and doubles bytes; what is no UTF-8 any more is replaced as a browser does.
fn flip(text: &str, dice: &mut Dice) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..dice.between(1, 6) {
        let at = usize::try_from(dice.between(0, i64::try_from(bytes.len()).unwrap() - 1)).unwrap();
        match dice.between(0, 2) {
            0 => bytes[at] ^= 1 << dice.between(0, 7),
            1 => {
                bytes.remove(at);
            }
            _ => bytes.insert(at, bytes[at]),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn spoilt(text: &str, dice: &mut Dice) -> String {
    if dice.once_in(3) {
        return flip(text, dice);
    }
    let mut tree: Value = serde_json::from_str(text).unwrap();
    for _ in 0..dice.between(1, 4) {
        change(&mut tree, dice);
    }
    tree.to_string()
}

fn told(outcome: &Outcome, case: &str) {
    for finding in &outcome.findings {
        assert!(!finding.message.is_empty() && !finding.code.is_empty(), "{case}: {finding:?}");
    }
    match &outcome.plan {
        // Each body, and each attempt with a part of it set ready, has its own budget.
        Some(plan) => {
            let bodies = u64::try_from(plan.parts.len()).unwrap() + 1;
            assert!(plan.proof.states <= BUDGET * bodies, "{case}: {} states", plan.proof.states);
            assert!(!plan.steps.is_empty(), "{case}: a plan without steps");
        }
        None => assert!(has_stop(&outcome.findings), "{case}: neither plan nor stop"),
    }
}

#[test]
fn spoilt_files_are_sized_or_told() {
    let all = scenarios();
    let (mut sized, mut refused) = (0, 0);
    for seed in 0..DRAFTS {
        let mut dice = Dice::new(seed);
        let (name, text) = dice.pick(&all).unwrap();
        let case = format!("seed {seed}, {name}");
        let found = draft(&spoilt(&text, &mut dice));
        match found.parts.is_empty() {
            false => sized += 1,
            true => {
                refused += 1;
                assert!(has_stop(&found.findings), "{case}: neither parts nor stop");
            }
        }
    }
    // The mutator must do both: spoil, and leave enough whole to get past the reader.
    assert!(sized >= 300 && refused >= 1_000, "{sized} sized, {refused} refused");
}

#[test]
fn spoilt_files_are_planned_or_told() {
    let all: Vec<_> = scenarios().into_iter().filter(|(name, _)| name != LONGEST).collect();
    let (mut planned, mut seed) = (0, 1 << 20);
    while planned < PLANS {
        let mut dice = Dice::new(seed);
        let (name, text) = dice.pick(&all).unwrap();
        let text = spoilt(&text, &mut dice);
        seed += 1;
        // What the reader refuses is the other test's; here the search is what is tried.
        if !has_stop(&draft(&text).findings) {
            planned += 1;
            told(&jointwise::build(&text), &format!("seed {}, {name}", seed - 1));
        }
    }
}
