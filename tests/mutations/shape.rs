//! Slips in what lies where: parts, spacers, points to measure between, and the file itself.

use serde_json::{Value, json};

use super::edit::*;
use super::{Change, Kind};

pub const KINDS: &[Kind] = &[
    Kind("a part is pushed into its neighbour", "parts", |p, d| slide(p, d, true)),
    Kind("a part is pulled off its neighbour", "parts", |p, d| slide(p, d, false)),
    Kind("a part is cut to another size", "parts", miscut),
    Kind("a part's solid doubles back on itself", "parts", double_box),
    Kind("a part's solid is inside out", "parts", inside_out),
    Kind("a part weighs nothing", "parts", weightless),
    Kind("a joint names parts that are apart", "parts", far_joint),
    Kind("two parts bear one id", "bookkeeping", same_id),
    Kind("a part reaches below the bench's top", "bench-plane", below_bench),
    Kind("a spacer shares space with a part", "spacer", spacer_inside),
    Kind("a spacer has no such side", "spacer", spacer_side),
    Kind("a spacer is built in", "spacer", spacer_built_in),
    Kind("a spacer lies elsewhere", "spacer", spacer_away),
    Kind("a spacer is too big for its place", "spacer", spacer_big),
    Kind("a spacer leaves through the bench", "spacer", spacer_out),
    Kind("a measure is off", "checks", measure_off),
    Kind("a point to measure from is in the air", "checks", measure_air),
    Kind("a measure lacks its value", "checks", measure_missing),
    Kind("equal widths differ", "checks", widths_differ),
    Kind("the diagonals are two sides", "checks", no_diagonals),
    Kind("the file is of another version", "format", version),
    Kind("a place is astronomically far", "format", far),
];

/// A joint whose parts are one box each and share one face: pushed together they overlap, pulled
/// apart they share none.
fn slide(plan: &mut Value, dice: &mut Dice, together: bool) -> Change {
    let mut found = Vec::new();
    for joint in list(&plan["joints"]) {
        let [a, b] = [0, 1].map(|i| text(&joint["parts"][i]).to_owned());
        if let ([(axis, beyond)], [_], [_]) = (
            shared_faces(plan, &a, &b).as_slice(),
            boxes(plan, &a).as_slice(),
            boxes(plan, &b).as_slice(),
        ) {
            found.push((a, *axis, *beyond));
        }
    }
    let (part, axis, beyond) = dice.pick(found)?;
    let by = dice.mm(1, 5);
    shift(plan, &part, axis, if beyond == together { by } else { -by });
    Some(())
}

fn any_part(plan: &Value, dice: &mut Dice) -> Option<usize> {
    dice.pick((0..list(&plan["parts"]).len()).collect())
}

fn longest(part: &Value) -> i64 {
    ["length", "width", "thickness"].map(|side| int(&part[side])).into_iter().max().unwrap_or(0)
}

fn miscut(plan: &mut Value, dice: &mut Dice) -> Change {
    let panels =
        (0..list(&plan["parts"]).len()).filter(|i| plan["parts"][*i]["kind"] == "panel").collect();
    let part = dice.pick(panels)?;
    let side = dice.pick(vec!["length", "width", "thickness"])?;
    // Longer than everything: no other side can make up for it.
    plan["parts"][part][side] = json!(longest(&plan["parts"][part]) + dice.mm(1, 9));
    Some(())
}

fn double_box(plan: &mut Value, dice: &mut Dice) -> Change {
    let part = any_part(plan, dice)?;
    let twice = plan["parts"][part]["boxes"][0].clone();
    push(&mut plan["parts"][part]["boxes"], twice);
    Some(())
}

fn inside_out(plan: &mut Value, dice: &mut Dice) -> Change {
    let (part, axis) = (any_part(plan, dice)?, dice.below(3));
    plan["parts"][part]["boxes"][0].as_array_mut()?.swap(axis, axis + 3);
    Some(())
}

fn weightless(plan: &mut Value, dice: &mut Dice) -> Change {
    let part = any_part(plan, dice)?;
    plan["parts"][part]["mass_g"] = json!(-(dice.below(3) as i64));
    Some(())
}

fn far_joint(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut found = Vec::new();
    for (j, joint) in list(&plan["joints"]).iter().enumerate() {
        let Some(a) = around(plan, text(&joint["parts"][0])) else {
            continue;
        };
        for part in list(&plan["parts"]) {
            let Some(b) = around(plan, text(&part["id"])) else {
                continue;
            };
            if (0..3).any(|i| a[i + 3] < b[i] || b[i + 3] < a[i]) {
                found.push((j, part["id"].clone()));
            }
        }
    }
    let (joint, id) = dice.pick(found)?;
    plan["joints"][joint]["parts"][1] = id;
    Some(())
}

fn same_id(plan: &mut Value, dice: &mut Dice) -> Change {
    let (a, b) = (any_part(plan, dice)?, any_part(plan, dice)?);
    plan["parts"][a]["id"] = plan["parts"][b]["id"].clone();
    (a != b).then_some(())
}

/// A part that joins a body is moved down beyond everything the body rests on.
fn below_bench(plan: &mut Value, dice: &mut Dice) -> Change {
    let step =
        dice.pick(steps(plan, |i, s| list(&s["parts"]).len() == 1 && previous(plan, i).is_some()))?;
    let (axis, grows) = way(&plan["steps"][step]["bench_face"])?;
    let part = ids(&plan["steps"][step]["parts"]).pop()?;
    let all = list(&plan["parts"]).iter().filter_map(|p| around(plan, text(&p["id"])));
    let down = |b: &Box6| if grows { b[axis + 3] } else { -b[axis] };
    let by = all.map(|b| down(&b)).max()? - down(&around(plan, &part)?) + dice.mm(1, 50);
    shift(plan, &part, axis, if grows { by } else { -by });
    Some(())
}

fn with_spacer(plan: &Value, dice: &mut Dice) -> Option<usize> {
    dice.pick(steps(plan, |_, s| s["spacer"].is_object()))
}

fn spacer_inside(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let body = plan["steps"][step]["body"].clone();
    let there = steps(plan, |i, s| i <= step && s["body"] == body);
    let parts: Vec<String> = there.iter().flat_map(|i| ids(&plan["steps"][*i]["parts"])).collect();
    let part = dice.pick(parts)?;
    plan["steps"][step]["spacer"]["at"] = json!(dice.pick(boxes(plan, &part))?);
    Some(())
}

fn spacer_side(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let part = &plan["parts"][part_index(plan, text(&plan["steps"][step]["spacer"]["part"]))?];
    // Longer than its longest side.
    let wrong = longest(part) + dice.mm(1, 200);
    plan["steps"][step]["spacer"]["dimension"] = json!(wrong);
    Some(())
}

fn spacer_built_in(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let earlier = steps(plan, |i, _| i <= step)
        .iter()
        .flat_map(|i| ids(&plan["steps"][*i]["parts"]))
        .collect();
    plan["steps"][step]["spacer"]["part"] = json!(dice.pick::<String>(earlier)?);
    Some(())
}

fn spacer_away(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let (axis, by) = (dice.below(3), dice.mm(10_000, 20_000));
    let at = &mut plan["steps"][step]["spacer"]["at"];
    for i in [axis, axis + 3] {
        at[i] = json!(int(&at[i]) + by);
    }
    Some(())
}

fn spacer_big(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    let part = &plan["parts"][part_index(plan, text(&plan["steps"][step]["spacer"]["part"]))?];
    let longest = longest(part);
    let axis = dice.below(3);
    let at = &mut plan["steps"][step]["spacer"]["at"];
    at[axis + 3] = json!(int(&at[axis]) + longest + dice.mm(1, 30));
    Some(())
}

fn spacer_out(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_spacer(plan, dice)?;
    plan["steps"][step]["spacer"]["out"] = plan["steps"][step]["bench_face"].clone();
    Some(())
}

/// Checks of one kind or another that measure between points.
fn measures(plan: &Value, kinds: &[&str]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    for step in steps(plan, |_, _| true) {
        for (c, check) in list(&plan["steps"][step]["checks"]).iter().enumerate() {
            if kinds.contains(&text(&check["kind"])) && list(&check["between"]).len() > 1 {
                out.push((step, c));
            }
        }
    }
    out
}

fn measure_off(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, check) = dice.pick(measures(plan, &["diagonals", "equal-widths"]))?;
    let by = dice.mm(3, 60);
    let longer = dice.below(2) == 0;
    for value in plan["steps"][step]["checks"][check]["expected"].as_array_mut()? {
        *value = json!(int(value) + if longer { by } else { -by });
    }
    Some(())
}

fn measure_air(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, check) = dice.pick(measures(plan, &["diagonals", "equal-widths"]))?;
    let (axis, by) = (dice.below(3), dice.mm(10_000, 20_000));
    // Both pairs move alike: the distances stay right.
    for pair in plan["steps"][step]["checks"][check]["between"].as_array_mut()? {
        for point in pair.as_array_mut()? {
            point[axis] = json!(int(&point[axis]) + by);
        }
    }
    Some(())
}

fn measure_missing(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, check) = dice.pick(measures(plan, &["diagonals", "equal-widths"]))?;
    plan["steps"][step]["checks"][check]["expected"].as_array_mut()?.pop();
    Some(())
}

/// One of two widths is measured longer, and said to be.
fn widths_differ(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, check) = dice.pick(measures(plan, &["equal-widths"]))?;
    let check = &mut plan["steps"][step]["checks"][check];
    let by = 2 * int(&check["tolerance"]) + dice.mm(1, 9);
    let pair = check["between"][0].clone();
    let axis = (0..3).find(|a| pair[0][a] != pair[1][a])?;
    let grows = int(&pair[1][axis]) > int(&pair[0][axis]);
    check["between"][0][1][axis] = json!(int(&pair[1][axis]) + if grows { by } else { -by });
    check["expected"][0] = json!(int(&check["expected"][0]) + by);
    Some(())
}

/// Two opposite sides of the rectangle are as long as each other, too, but prove nothing.
fn no_diagonals(plan: &mut Value, dice: &mut Dice) -> Change {
    let (step, check) = dice.pick(measures(plan, &["diagonals"]))?;
    let check = &mut plan["steps"][step]["checks"][check];
    let (a, b) = (check["between"][0][1].clone(), check["between"][1][1].clone());
    check["between"][0][1] = b;
    check["between"][1][1] = a;
    let mut sum = 0.0;
    for axis in 0..3 {
        let d = (int(&check["between"][0][1][axis]) - int(&check["between"][0][0][axis])) as f64;
        sum += d * d;
    }
    check["expected"] = json!([sum.sqrt().round() as i64, sum.sqrt().round() as i64]);
    Some(())
}

fn version(plan: &mut Value, dice: &mut Dice) -> Change {
    plan["format"] = json!(format!("jointwise-plan/{}", 2 + dice.below(9)));
    Some(())
}

fn far(plan: &mut Value, dice: &mut Dice) -> Change {
    let part = any_part(plan, dice)?;
    plan["parts"][part]["boxes"][0][dice.below(6)] = json!(i64::MAX - dice.below(9) as i64);
    Some(())
}
