//! Slips in the screws and in the room for the drill.

use serde_json::{Value, json};

use super::edit::*;
use super::{Change, Kind};

pub const KINDS: &[Kind] = &[
    Kind("a screw is far too long", "screws", far_too_long),
    Kind("a screw's tip comes to the skin", "screws", to_the_skin),
    Kind("a screw ends in the first part", "screws", too_short),
    Kind("a screw begins in the air or in the wood", "screws", off_skin),
    Kind("a pilot hole is impossible", "screws", pilot),
    Kind("a screw is thicker than the panel", "screws", too_thick),
    Kind("a screw is driven the other way", "screws", reversed),
    Kind("two screws sit in one place", "screws", same_place),
    Kind("a screw comes out at the side", "screws", beside),
    Kind("a screw is out of reach", "tool-access", out_of_reach),
    Kind("the drill is wider than the room above the bench", "tool-access", wide_drill),
    Kind("a screw is driven from below the bench", "tool-access", from_below),
    Kind("the drill is longer than the room behind the screw", "tool-access", long_drill),
];

fn screw(plan: &mut Value, (joint, screw): (usize, usize)) -> &mut Value {
    &mut plan["joints"][joint]["fasteners"][screw]
}

/// Screws between two plain boxes, with the two in the order of the screw's way.
fn plain(plan: &Value, dice: &mut Dice) -> Option<((usize, usize), [Box6; 2])> {
    let all =
        screws(plan).into_iter().filter_map(|s| through(plan, s.0, s.1).map(|b| (s, b))).collect();
    dice.pick(all)
}

/// How deep a box reaches from a screw's entry.
fn depth(f: &Value, b: &Box6) -> Option<i64> {
    let (axis, grows) = way(&f["direction"])?;
    let entry = int(&f["entry"][axis]);
    Some(if grows { b[axis + 3] - entry } else { entry - b[axis] })
}

fn far_too_long(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(screws(plan))?;
    let by = dice.mm(10_000, 20_000);
    let f = screw(plan, at);
    f["length"] = json!(int(&f["length"]) + by);
    Some(())
}

fn to_the_skin(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, [_, second]) = plain(plan, dice)?;
    let f = screw(plan, at);
    f["length"] = json!(depth(f, &second)?);
    Some(())
}

fn too_short(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, [first, _]) = plain(plan, dice)?;
    let f = screw(plan, at);
    f["length"] = json!(depth(f, &first)? - dice.below(2_000) as i64);
    Some(())
}

fn off_skin(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, _) = plain(plan, dice)?;
    let by = dice.mm(1, 5) * if dice.below(2) == 0 { 1 } else { -1 };
    let f = screw(plan, at);
    let (axis, _) = way(&f["direction"])?;
    f["entry"][axis] = json!(int(&f["entry"][axis]) + by);
    Some(())
}

fn pilot(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(screws(plan))?;
    screw(plan, at)["pilot"] = json!(dice.pick(vec![0, -1_000, 50_000, 90_000])?);
    Some(())
}

/// Gauge 60 is 0.84 in across: no panel under 21 mm holds it in its edge.
fn too_thick(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, both) = plain(plan, dice)?;
    let f = screw(plan, at);
    let (axis, _) = way(&f["direction"])?;
    let thin = both.iter().any(|b| (0..3).any(|a| a != axis && b[a + 3] - b[a] < 21_000));
    f["gauge"] = json!(60);
    thin.then_some(())
}

fn reversed(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, _) = plain(plan, dice)?;
    let f = screw(plan, at);
    f["direction"] = json!(opposite(&f["direction"])?);
    Some(())
}

fn same_place(plan: &mut Value, dice: &mut Dice) -> Change {
    let joints = list(&plan["joints"]).iter().enumerate();
    let joint = dice
        .pick(joints.filter(|(_, j)| list(&j["fasteners"]).len() > 1).map(|(j, _)| j).collect())?;
    let near = dice.below(1_500) as i64;
    let [one, two] = [0, 1].map(|i| plan["joints"][joint]["fasteners"][i].clone());
    let axis = (way(&one["direction"])?.0 + 1) % 3;
    let f = screw(plan, (joint, 1));
    f["entry"] = one["entry"].clone();
    f["entry"][axis] = json!(int(&one["entry"][axis]) + near);
    (one["direction"] == two["direction"]).then_some(())
}

/// The middle of the screw lies on a side face of the second part: half of it is outside.
fn beside(plan: &mut Value, dice: &mut Dice) -> Change {
    let (at, [_, second]) = plain(plan, dice)?;
    let f = screw(plan, at);
    let (axis, _) = way(&f["direction"])?;
    let across = dice.pick((0..3).filter(|a| *a != axis).collect())?;
    f["entry"][across] = json!(second[across + 3 * dice.below(2)]);
    Some(())
}

fn out_of_reach(plan: &mut Value, dice: &mut Dice) -> Change {
    dice.pick(screws(plan))?;
    plan["workshop"]["reach_height"] =
        json!(int(&plan["workshop"]["bench_height"]) - dice.mm(1, 300));
    Some(())
}

/// The screws that no other tool drives.
fn drilled(plan: &Value) -> Vec<Value> {
    let drivers = list(&plan["steps"]).iter().flat_map(|s| list(&s["drivers"]));
    let other: Vec<String> = drivers.flat_map(|d| ids(&d["fasteners"])).collect();
    let all = list(&plan["joints"]).iter().flat_map(|j| list(&j["fasteners"]));
    all.filter(|f| !other.iter().any(|id| *id == f["id"])).cloned().collect()
}

/// Level with the bench, the drill's body reaches below its top.
fn wide_drill(plan: &mut Value, dice: &mut Dice) -> Change {
    let level = |s: &Value| {
        let face = way(&s["bench_face"]);
        let all = list(&plan["joints"]).iter().flat_map(|j| list(&j["fasteners"]));
        let driven = ids(&s["fasteners"]);
        all.filter(|f| driven.iter().any(|id| *id == f["id"]))
            .any(|f| way(&f["direction"]).map(|w| w.0) != face.map(|w| w.0))
    };
    dice.pick(steps(plan, |_, s| level(s)))?;
    plan["workshop"]["drill_width"] = json!(dice.mm(20_000, 30_000));
    Some(())
}

/// The piece lies on the side that a screw is driven from; screw and drill together are longer
/// than the piece, so they reach through the bench wherever the screw begins.
fn from_below(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut found = Vec::new();
    for f in drilled(plan) {
        let Some((axis, _)) = way(&f["direction"]) else {
            continue;
        };
        let all: Vec<Box6> =
            list(&plan["parts"]).iter().filter_map(|p| around(plan, text(&p["id"]))).collect();
        let size = all.iter().map(|b| b[axis + 3]).max()? - all.iter().map(|b| b[axis]).min()?;
        let step =
            steps(plan, |_, s| ids(&s["fasteners"]).iter().any(|id| *id == f["id"])).pop()?;
        found.push((step, opposite(&f["direction"])?, size));
    }
    let (step, face, size) = dice.pick(found)?;
    plan["steps"][step]["bench_face"] = json!(face);
    plan["workshop"]["drill_length"] = json!(size + dice.mm(1, 100));
    Some(())
}

/// A part that is in already stands squarely behind a screw; the drill is made to reach it.
fn long_drill(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut gaps = Vec::new();
    for f in drilled(plan) {
        let Some((axis, grows)) = way(&f["direction"]) else {
            continue;
        };
        let step =
            steps(plan, |_, s| ids(&s["fasteners"]).iter().any(|id| *id == f["id"])).pop()?;
        let body = plan["steps"][step]["body"].clone();
        let entry = |a: usize| int(&f["entry"][a]);
        for s in steps(plan, |i, s| i <= step && s["body"] == body) {
            for b in ids(&plan["steps"][s]["parts"]).iter().flat_map(|id| boxes(plan, id)) {
                let behind = (0..3).all(|a| a == axis || (b[a] < entry(a) && entry(a) < b[a + 3]));
                let gap = if grows { entry(axis) - b[axis + 3] } else { b[axis] - entry(axis) };
                if behind && gap >= 0 {
                    gaps.push(gap);
                }
            }
        }
    }
    let gap = dice.pick(gaps)?;
    let shop = &mut plan["workshop"];
    shop["drill_length"] = json!(gap.max(int(&shop["bit_length"])) + dice.mm(1, 200));
    Some(())
}
