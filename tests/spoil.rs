//! Spoils a scenario by chance: bytes flipped, fields and entries moved, taken out and doubled, numbers without end.

use serde_json::{Map, Value, json};

use crate::dice::Dice;

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
    if dice.once_in(2) { json!(dice.pick(&texts)) } else { dice.pick(&numbers).unwrap_or_default() }
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
pub fn change(tree: &mut Value, dice: &mut Dice) {
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
        let Some(at) = dice.pick(&(0..bytes.len()).collect::<Vec<_>>()) else { break };
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

/// The text of a scenario after one to six changes.
pub fn spoilt(text: &str, dice: &mut Dice) -> String {
    if dice.once_in(3) {
        return flip(text, dice);
    }
    let Ok(mut tree) = serde_json::from_str(text) else { return flip(text, dice) };
    for _ in 0..dice.between(1, 4) {
        change(&mut tree, dice);
    }
    tree.to_string()
}
