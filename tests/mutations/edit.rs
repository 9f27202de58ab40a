//! Reading and changing a plan as plain JSON, and seeded choice.

use serde_json::{Value, json};

/// A fixed stream of numbers from a seed (SplitMix64).
pub struct Dice(pub u64);

impl Dice {
    /// A number below `n`; 0 for none.
    pub fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % (n.max(1) as u64)).unwrap_or(0)
    }

    /// One of several.
    pub fn pick<T>(&mut self, mut from: Vec<T>) -> Option<T> {
        (!from.is_empty()).then(|| from.swap_remove(self.below(from.len())))
    }

    /// A length from `low` to `high` whole millimetres, in micrometres.
    pub fn mm(&mut self, low: usize, high: usize) -> i64 {
        1_000 * (low + self.below(high - low + 1)) as i64
    }
}

pub type Box6 = [i64; 6];

pub fn int(v: &Value) -> i64 {
    v.as_i64().unwrap_or(0)
}

pub fn text(v: &Value) -> &str {
    v.as_str().unwrap_or("")
}

pub fn list(v: &Value) -> &[Value] {
    v.as_array().map_or(&[], Vec::as_slice)
}

pub fn ids(v: &Value) -> Vec<String> {
    list(v).iter().map(|s| text(s).to_owned()).collect()
}

pub fn push(v: &mut Value, item: Value) {
    if let Some(items) = v.as_array_mut() {
        items.push(item);
    }
}

/// Takes an id out of a list.
pub fn drop_id(v: &mut Value, id: &str) {
    if let Some(items) = v.as_array_mut() {
        items.retain(|i| i != id);
    }
}

pub fn renumber(plan: &mut Value) {
    for (i, step) in plan["steps"].as_array_mut().into_iter().flatten().enumerate() {
        step["n"] = json!(i + 1);
    }
}

/// Steps for which something holds.
pub fn steps(plan: &Value, keep: impl Fn(usize, &Value) -> bool) -> Vec<usize> {
    list(&plan["steps"]).iter().enumerate().filter(|(i, s)| keep(*i, s)).map(|(i, _)| i).collect()
}

/// The step before this one on the same body.
pub fn previous(plan: &Value, step: usize) -> Option<usize> {
    let body = &plan["steps"][step]["body"];
    (0..step).rev().find(|i| plan["steps"][*i]["body"] == *body)
}

/// The next one on the same body.
pub fn next(plan: &Value, step: usize) -> Option<usize> {
    let body = &plan["steps"][step]["body"];
    steps(plan, |i, s| i > step && s["body"] == *body).first().copied()
}

pub fn action(plan: &Value, step: usize) -> &str {
    text(&plan["steps"][step]["action"])
}

/// The step that lists a part by name.
pub fn placed_in(plan: &Value, part: &str) -> Option<usize> {
    steps(plan, |_, s| ids(&s["parts"]).iter().any(|p| p == part)).first().copied()
}

pub fn part_index(plan: &Value, id: &str) -> Option<usize> {
    list(&plan["parts"]).iter().position(|p| text(&p["id"]) == id)
}

pub fn boxes(plan: &Value, part: &str) -> Vec<Box6> {
    let of = part_index(plan, part).map_or(&Value::Null, |i| &plan["parts"][i]["boxes"]);
    list(of).iter().filter_map(|b| serde_json::from_value(b.clone()).ok()).collect()
}

/// The least box round a part.
pub fn around(plan: &Value, part: &str) -> Option<Box6> {
    boxes(plan, part).into_iter().reduce(|a, b| {
        let mut out = a;
        for i in 0..3 {
            out[i] = a[i].min(b[i]);
            out[i + 3] = a[i + 3].max(b[i + 3]);
        }
        out
    })
}

/// Moves a part along an axis.
pub fn shift(plan: &mut Value, part: &str, axis: usize, by: i64) {
    let moved: Vec<Box6> = boxes(plan, part)
        .into_iter()
        .map(|mut b| {
            b[axis] += by;
            b[axis + 3] += by;
            b
        })
        .collect();
    if let Some(i) = part_index(plan, part) {
        plan["parts"][i]["boxes"] = json!(moved);
    }
}

/// Axis and sign of a direction.
pub fn way(v: &Value) -> Option<(usize, bool)> {
    let s = text(v);
    Some((["x", "y", "z"].iter().position(|a| s.ends_with(a))?, s.starts_with('+')))
}

pub fn way_name(axis: usize, grows: bool) -> String {
    format!("{}{}", if grows { '+' } else { '-' }, ["x", "y", "z"][axis])
}

pub fn opposite(v: &Value) -> Option<String> {
    way(v).map(|(axis, grows)| way_name(axis, !grows))
}

/// Axis, and whether `b` lies on the far side of it, for each face that two parts share.
pub fn shared_faces(plan: &Value, a: &str, b: &str) -> Vec<(usize, bool)> {
    let mut out = Vec::new();
    for p in boxes(plan, a) {
        for q in boxes(plan, b) {
            for axis in 0..3 {
                let level =
                    (0..3).filter(|i| *i != axis).all(|i| p[i].max(q[i]) < p[i + 3].min(q[i + 3]));
                if level && p[axis + 3] == q[axis] {
                    out.push((axis, true));
                } else if level && q[axis + 3] == p[axis] {
                    out.push((axis, false));
                }
            }
        }
    }
    out.sort_unstable();
    out.dedup();
    out
}

/// All screws: joint, place in it.
pub fn screws(plan: &Value) -> Vec<(usize, usize)> {
    let joints = list(&plan["joints"]).iter().enumerate();
    joints
        .flat_map(|(j, joint)| (0..list(&joint["fasteners"]).len()).map(move |f| (j, f)))
        .collect()
}

/// The parts of a joint in the order in which a screw of it goes through them, when each is one box.
pub fn through(plan: &Value, joint: usize, screw: usize) -> Option<[Box6; 2]> {
    let f = &plan["joints"][joint]["fasteners"][screw];
    let (axis, grows) = way(&f["direction"])?;
    let entry = int(&f["entry"][axis]);
    let mut out = Vec::new();
    for id in ids(&plan["joints"][joint]["parts"]) {
        match boxes(plan, &id).as_slice() {
            [one] => out.push(*one),
            _ => return None,
        }
    }
    let starts = |b: &Box6| {
        if grows { b[axis] == entry } else { b[axis + 3] == entry }
    };
    match out.as_slice() {
        [a, b] if starts(a) => Some([*a, *b]),
        [a, b] if starts(b) => Some([*b, *a]),
        _ => None,
    }
}
