//! Slips in bodies, tools, people, the tape, spacers and the sums.

use serde_json::{Value, json};

use super::edit::*;
use super::{Change, Kind};

pub const KINDS: &[Kind] = &[
    Kind("a body is not set aside before the next", "bodies", never_aside),
    Kind("a body joins with a joint open", "bodies", joins_open),
    Kind("a body is worked on between the steps of another", "bodies", between),
    Kind("a body is brought in that lies there", "bodies", brought_in),
    Kind("a tool does not exist", "tool-access", no_such_tool),
    Kind("the drill drives what it does not reach", "tool-access", drill_instead),
    Kind("another tool drives what the drill reaches", "tool-access", needless_tool),
    Kind("two tools drive one joint", "tool-access", split_joint),
    Kind("a tool drives a screw of another step", "tool-access", foreign_screw),
    Kind("a tool is too long for its room", "tool-access", long_tool),
    Kind("one person puts in what is too heavy", "people", heavy_part),
    Kind("one person turns what is too heavy", "people", heavy_body),
    Kind("a second person has nothing to do", "people", idle_helper),
    Kind("a helper holds although a hand is free", "people", helper_for_hand),
    Kind("a diagonal runs through a part", "tape", through_part),
    Kind("the diagonals are measured too late", "tape", too_late),
    Kind("a spacer is shut in", "spacer", spacer_shut_in),
    Kind("a spacer does not exist", "spacer", spacer_unknown),
    Kind("a spacer is of the wrong size", "spacer", spacer_size),
    Kind("the bench is too small", "turns", small_bench),
    Kind("the helper steps are miscounted", "cost", |p, d| miscount(p, d, "helper_steps")),
    Kind("the holds are miscounted", "cost", |p, d| miscount(p, d, "holds")),
    Kind("the lifted parts are miscounted", "cost", |p, d| miscount(p, d, "lifted")),
    Kind("the handlings are miscounted", "cost", |p, d| miscount(p, d, "handlings")),
    Kind("the changes of tool are miscounted", "cost", |p, d| miscount(p, d, "tool_changes")),
    Kind("the scatter is miscounted", "cost", |p, d| miscount(p, d, "scatter")),
    Kind("more is measured than the steps say", "cost", measured),
    Kind("a step takes no time", "cost", no_time),
];

fn never_aside(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        s["action"] == "set-aside" && list(&plan["steps"]).get(i + 1).is_some()
    }))?;
    plan["steps"].as_array_mut()?.remove(step);
    renumber(plan);
    Some(())
}

/// A joint inside a body is closed in the step in which the body joins another.
fn joins_open(plan: &mut Value, dice: &mut Dice) -> Change {
    let joins = |body: &Value| steps(plan, |_, s| s["joins"] == *body).first().copied();
    let mut found = Vec::new();
    for (i, s) in list(&plan["steps"]).iter().enumerate() {
        let real = |id: &&String| {
            list(&plan["joints"]).iter().any(|j| j["id"] == ***id && j["kind"] != "touch")
        };
        if let Some(to) = joins(&s["body"]) {
            found.extend(ids(&s["joints"]).iter().filter(real).map(|id| (i, to, id.clone())));
        }
    }
    let (step, to, joint) = dice.pick(found)?;
    drop_id(&mut plan["steps"][step]["joints"], &joint);
    push(&mut plan["steps"][to]["joints"], json!(joint));
    Some(())
}

/// The first step of a body comes before the last of the one before it.
fn between(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        i > 1
            && previous(plan, i).is_none()
            && plan["steps"][i - 1]["body"] != s["body"]
            && plan["steps"][i - 2]["body"] == plan["steps"][i - 1]["body"]
    }))?;
    plan["steps"].as_array_mut()?.swap(step, step - 1);
    renumber(plan);
    Some(())
}

fn brought_in(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        s["action"] == "check"
            && previous(plan, i) == i.checked_sub(1)
            && previous(plan, i).is_some_and(|p| action(plan, p) != "set-aside")
    }))?;
    plan["steps"][step]["action"] = json!("bring-in");
    Some(())
}

fn with_drivers(plan: &Value, dice: &mut Dice) -> Option<usize> {
    dice.pick(steps(plan, |_, s| !list(&s["drivers"]).is_empty()))
}

fn no_such_tool(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_drivers(plan, dice)?;
    plan["steps"][step]["drivers"][0]["tool"] = json!("ratchet");
    Some(())
}

fn drill_instead(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_drivers(plan, dice)?;
    plan["steps"][step].as_object_mut()?.remove("drivers");
    Some(())
}

fn driven(plan: &Value, dice: &mut Dice, least: usize) -> Option<(usize, Vec<String>)> {
    let mut found = Vec::new();
    for (i, s) in list(&plan["steps"]).iter().enumerate() {
        let other = list(&s["drivers"]).iter().flat_map(|d| ids(&d["fasteners"]));
        let other: Vec<String> = other.collect();
        let here = ids(&s["fasteners"]);
        for joint in list(&plan["joints"]) {
            let all: Vec<String> =
                list(&joint["fasteners"]).iter().map(|f| text(&f["id"]).to_owned()).collect();
            if all.len() >= least && all.iter().all(|f| here.contains(f) && !other.contains(f)) {
                found.push((i, all));
            }
        }
    }
    dice.pick(found)
}

/// As big as the drill, so that it reaches what the drill reaches.
fn spare_tool(plan: &mut Value) {
    let shop = &plan["workshop"];
    let tool = json!({
        "name": "spare drill",
        "length": shop["drill_length"],
        "width": shop["drill_width"],
        "bit_width": shop["bit_width"],
        "bit_length": shop["bit_length"],
    });
    match plan["workshop"]["tools"].as_array_mut() {
        Some(tools) => tools.push(tool),
        None => plan["workshop"]["tools"] = json!([tool]),
    }
}

fn drive_with(plan: &mut Value, step: usize, screws: &[String]) {
    spare_tool(plan);
    let by = json!({"tool": "spare drill", "fasteners": screws});
    match plan["steps"][step]["drivers"].as_array_mut() {
        Some(drivers) => drivers.push(by),
        None => plan["steps"][step]["drivers"] = json!([by]),
    }
}

fn needless_tool(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, screws) = driven(plan, dice, 1)?;
    drive_with(plan, step, &screws);
    Some(())
}

fn split_joint(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, screws) = driven(plan, dice, 2)?;
    drive_with(plan, step, &screws[1..]);
    Some(())
}

fn foreign_screw(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, screws) = driven(plan, dice, 1)?;
    let other = dice.pick(steps(plan, |i, _| i != step))?;
    drive_with(plan, other, &screws);
    Some(())
}

/// Longer than the whole piece with a part squarely behind the screw.
fn long_tool(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_drivers(plan, dice)?;
    let name = plan["steps"][step]["drivers"][0]["tool"].clone();
    let drill = int(&plan["workshop"]["drill_length"]);
    let by = dice.mm(0, 300);
    // The drill has no room there, and this is no shorter and no slimmer than the drill.
    let wide = plan["workshop"]["drill_width"].clone();
    let bit = [plan["workshop"]["bit_width"].clone(), plan["workshop"]["bit_length"].clone()];
    for tool in plan["workshop"]["tools"].as_array_mut()?.iter_mut().filter(|t| t["name"] == name) {
        tool["length"] = json!(drill + by);
        tool["width"] = wide.clone();
        [tool["bit_width"], tool["bit_length"]] = bit.clone();
    }
    Some(())
}

fn heavy_part(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["people"] == 1 && list(&s["parts"]).len() == 1))?;
    let part = part_index(plan, text(&plan["steps"][step]["parts"][0]))?;
    plan["parts"][part]["mass_g"] = json!(23_001 + dice.below(20_000));
    Some(())
}

fn heavy_body(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["action"] == "turn" && s["people"] == 1))?;
    let body = plan["steps"][step]["body"].clone();
    let first = steps(plan, |i, s| i < step && s["body"] == body && !list(&s["parts"]).is_empty());
    let part = text(&plan["steps"][*first.first()?]["parts"][0]).to_owned();
    let part = part_index(plan, &part)?;
    plan["parts"][part]["mass_g"] = json!(46_001 + dice.below(20_000));
    Some(())
}

fn idle_helper(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| {
        s["people"] == 1 && ["drive", "check", "wait"].contains(&text(&s["action"]))
    }))?;
    plan["steps"][step]["people"] = json!(2);
    Some(())
}

fn helper_for_hand(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| {
        s["people"] == 1 && list(&s["hold"]).len() == 1 && s["hold"][0]["with"] == "hand"
    }))?;
    plan["steps"][step]["people"] = json!(2);
    plan["steps"][step]["hold"][0]["with"] = json!("helper");
    Some(())
}

fn diagonals(plan: &Value) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    for (i, s) in list(&plan["steps"]).iter().enumerate() {
        let checks = list(&s["checks"]).iter().enumerate();
        out.extend(checks.filter(|c| c.1["kind"] == "diagonals").map(|(c, _)| (i, c)));
    }
    out
}

/// The corners are taken a little inside the parts they are on.
fn through_part(plan: &mut Value, dice: &mut Dice) -> Change {
    let by = dice.mm(1, 5);
    let mut found = Vec::new();
    for (step, check) in diagonals(plan) {
        let body = &plan["steps"][step]["body"];
        let there: Vec<Box6> = steps(plan, |i, s| i <= step && s["body"] == *body)
            .iter()
            .flat_map(|i| ids(&plan["steps"][*i]["parts"]))
            .flat_map(|p| boxes(plan, &p))
            .collect();
        let between = &plan["steps"][step]["checks"][check]["between"];
        let points: Vec<[i64; 3]> = list(between)
            .iter()
            .flat_map(list)
            .filter_map(|p| serde_json::from_value(p.clone()).ok())
            .collect();
        let Some(flat) = (0..3).find(|a| points.iter().all(|p| p[*a] == points[0][*a])) else {
            continue;
        };
        for by in [by, -by] {
            // Somewhere on its way the tape must be within a part: at the inner corners of an opening it
            // may lie deeper and still be free.
            let within =
                |p: [i64; 3]| there.iter().any(|b| (0..3).all(|a| b[a] < p[a] && p[a] < b[a + 3]));
            let runs_into = |line: &[[i64; 3]]| {
                let [from, to] = line else { return false };
                (1..64).any(|k| {
                    within(std::array::from_fn(|a| {
                        from[a] + (to[a] - from[a]) * k / 64 + if a == flat { by } else { 0 }
                    }))
                })
            };
            if points.chunks(2).any(runs_into) {
                found.push((step, check, flat, by));
            }
        }
    }
    let (step, check, flat, by) = dice.pick(found)?;
    for pair in plan["steps"][step]["checks"][check]["between"].as_array_mut()? {
        for point in pair.as_array_mut()? {
            point[flat] = json!(int(&point[flat]) + by);
        }
    }
    Some(())
}

/// The step that measures is the last of its body.
fn too_late(plan: &mut Value, dice: &mut Dice) -> Change {
    let checks = diagonals(plan).into_iter().map(|d| d.0);
    let mut found = Vec::new();
    for step in checks.filter(|i| action(plan, *i) == "check") {
        let body = &plan["steps"][step]["body"];
        let last = steps(plan, |_, s| s["body"] == *body).pop()?;
        // Just after something was closed it would not be too late.
        if last > step && list(&plan["steps"][last]["joints"]).is_empty() {
            found.push((step, last));
        }
    }
    let (step, last) = dice.pick(found)?;
    let all = plan["steps"].as_array_mut()?;
    let mut check = all.remove(step);
    check["bench_face"] = all[last - 1]["bench_face"].clone();
    all.insert(last, check);
    renumber(plan);
    Some(())
}

fn with_spacer(plan: &Value, dice: &mut Dice) -> Option<usize> {
    dice.pick(steps(plan, |_, s| s["spacer"].is_object()))
}

/// It would leave towards a part that it lies against.
fn spacer_shut_in(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut found = Vec::new();
    for step in steps(plan, |_, s| s["spacer"].is_object()) {
        let at: Box6 = serde_json::from_value(plan["steps"][step]["spacer"]["at"].clone()).ok()?;
        let body = &plan["steps"][step]["body"];
        let there = steps(plan, |i, s| i <= step && s["body"] == *body);
        for b in there
            .iter()
            .flat_map(|i| ids(&plan["steps"][*i]["parts"]))
            .flat_map(|p| boxes(plan, &p))
        {
            for axis in 0..3 {
                let level = (0..3)
                    .filter(|a| *a != axis)
                    .all(|a| at[a].max(b[a]) < at[a + 3].min(b[a + 3]));
                if level && at[axis + 3] == b[axis] {
                    found.push((step, way_name(axis, true)));
                } else if level && b[axis + 3] == at[axis] {
                    found.push((step, way_name(axis, false)));
                }
            }
        }
    }
    let (step, out) = dice.pick(found)?;
    plan["steps"][step]["spacer"]["out"] = json!(out);
    Some(())
}

fn spacer_unknown(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    plan["steps"][step]["spacer"]["part"] = json!("no-such-offcut");
    Some(())
}

/// An offcut is a little longer, wider or thicker than the place it lies in.
fn spacer_size(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let id = plan["steps"][step]["spacer"]["part"].clone();
    let side = dice.pick(vec!["length", "width", "thickness"])?;
    let by = dice.mm(1, 3);
    let offcuts = plan["workshop"]["offcuts"].as_array_mut()?;
    let offcut = offcuts.iter_mut().find(|o| o["id"] == id)?;
    offcut[side] = json!(int(&offcut[side]) + by);
    Some(())
}

/// The bench holds the piece only on the faces that do not show its longest side.
fn small_bench(plan: &mut Value, dice: &mut Dice) -> Change {
    let all: Vec<Box6> =
        list(&plan["parts"]).iter().filter_map(|p| around(plan, text(&p["id"]))).collect();
    let size = |a: usize| -> Option<i64> {
        Some(all.iter().map(|b| b[a + 3]).max()? - all.iter().map(|b| b[a]).min()?)
    };
    let mut sides = [size(0)?, size(1)?, size(2)?];
    let longest = (0..3).max_by_key(|a| sides[*a])?;
    let lies_long = |s: &Value| way(&s["bench_face"]).is_some_and(|w| w.0 != longest);
    dice.pick(steps(plan, |i, s| {
        s["body"] == "main"
            && lies_long(s)
            && (s["action"] == "turn" || previous(plan, i).is_none())
    }))?;
    sides.sort_unstable();
    plan["workshop"]["bench_length"] = json!(sides[1] + dice.below(2) as i64);
    plan["workshop"]["bench_width"] = json!(sides[0] + dice.below(2) as i64);
    (sides[1] + 1 < sides[2]).then_some(())
}

fn miscount(plan: &mut Value, dice: &mut Dice, what: &str) -> Change {
    plan["cost"][what] = json!(int(&plan["cost"][what]) + 1 + dice.below(20) as i64);
    Some(())
}

fn measured(plan: &mut Value, dice: &mut Dice) -> Change {
    let checks = list(&plan["steps"]).iter().map(|s| list(&s["checks"]).len()).sum::<usize>();
    plan["cost"]["measured"] = json!(checks + 1 + dice.below(9));
    Some(())
}

/// The sum is right, but what is done takes longer.
fn no_time(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["action"] == "place" && int(&s["minutes"]) > 1))?;
    let less = dice.below(2) as i64;
    let was = int(&plan["steps"][step]["minutes"]);
    plan["steps"][step]["minutes"] = json!(less);
    plan["cost"]["minutes"] = json!(int(&plan["cost"]["minutes"]) - was + less);
    Some(())
}
