//! Slips in the steps: what is brought, closed, driven, held and turned when.

use serde_json::{Value, json};

use super::edit::*;
use super::{Change, Kind};

pub const KINDS: &[Kind] = &[
    Kind("a joint is closed a step before its part is there", "screw-time", swap),
    Kind("a screw is driven before its part is there", "screw-time", early_screw),
    Kind("a screw is forgotten", "bookkeeping", |p, d| forget(p, d, "fasteners")),
    Kind("a joint is forgotten", "bookkeeping", |p, d| forget(p, d, "joints")),
    Kind("a part is forgotten", "bookkeeping", |p, d| forget(p, d, "parts")),
    Kind("a screw is driven twice", "bookkeeping", |p, d| twice(p, d, "fasteners")),
    Kind("a joint is closed twice", "bookkeeping", |p, d| twice(p, d, "joints")),
    Kind("a part is placed twice", "bookkeeping", |p, d| twice(p, d, "parts")),
    Kind("a part does not exist", "bookkeeping", unknown_part),
    Kind("a step is misnumbered", "bookkeeping", misnumber),
    Kind("a body does not join", "bookkeeping", never_joins),
    Kind("a body joins twice", "bookkeeping", joins_twice),
    Kind("a body is worked on after it joined", "bookkeeping", works_on_joined),
    Kind("the way in is missing", "bookkeeping", no_way),
    Kind("another face lies on the bench", "turns", wrong_face),
    Kind("a turn is left out", "turns", no_turn),
    Kind("a turn turns nothing", "turns", idle_turn),
    Kind("a part is left loose", "fastened", left_loose),
    Kind("a part comes through the bench", "clear-path", through_bench),
    Kind("a part comes through its neighbour", "clear-path", through_neighbour),
    Kind("a thin part stands alone", "gravity", stands_alone),
    Kind("a part hangs in the air", "gravity", hangs),
    Kind("more people than there are", "people", crowd),
    Kind("nobody holds what a helper should", "people", no_helper),
    Kind("what is held is not there", "people", holds_nothing),
    Kind("the turns are miscounted", "cost", |p, d| miscount(p, d, "turns")),
    Kind("the minutes are miscounted", "cost", |p, d| miscount(p, d, "minutes")),
    Kind("a part is turned loose", "turns", turned_loose),
    Kind("what was captive only touches", "fastened", |p, d| only_touches(p, d, "groove")),
    Kind("what slid only touches", "fastened", |p, d| only_touches(p, d, "slide")),
];

fn same_body(plan: &Value, a: usize, b: usize) -> bool {
    plan["steps"][a]["body"] == plan["steps"][b]["body"]
}

/// Two steps change places although the later one closes a joint to a part of the earlier one.
fn swap(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut pairs = Vec::new();
    for joint in list(&plan["joints"]) {
        let [a, b] = [0, 1].map(|i| placed_in(plan, text(&joint["parts"][i])));
        let (Some(a), Some(b)) = (a, b) else { continue };
        let (early, late) = (a.min(b), a.max(b));
        let closes = ids(&plan["steps"][late]["joints"]).iter().any(|j| *j == joint["id"]);
        if early < late && closes && same_body(plan, early, late) {
            pairs.push((early, late));
        }
    }
    let (early, late) = dice.pick(pairs)?;
    plan["steps"].as_array_mut()?.swap(early, late);
    renumber(plan);
    Some(())
}

fn early_screw(plan: &mut Value, dice: &mut Dice) -> Change {
    let (joint, screw) = dice.pick(screws(plan))?;
    let joint = &plan["joints"][joint];
    let id = text(&joint["fasteners"][screw]["id"]).to_owned();
    let there = ids(&joint["parts"]).iter().filter_map(|p| placed_in(plan, p)).max()?;
    let to = dice.pick((0..there).collect())?;
    for step in plan["steps"].as_array_mut()? {
        drop_id(&mut step["fasteners"], &id);
    }
    push(&mut plan["steps"][to]["fasteners"], json!(id));
    Some(())
}

fn forget(plan: &mut Value, dice: &mut Dice, what: &str) -> Change {
    let step = dice.pick(steps(plan, |_, s| !list(&s[what]).is_empty()))?;
    let id = dice.pick(ids(&plan["steps"][step][what]))?;
    drop_id(&mut plan["steps"][step][what], &id);
    Some(())
}

fn twice(plan: &mut Value, dice: &mut Dice, what: &str) -> Change {
    let step = dice.pick(steps(plan, |_, s| !list(&s[what]).is_empty()))?;
    let id = dice.pick(ids(&plan["steps"][step][what]))?;
    let other = dice.pick(steps(plan, |_, _| true))?;
    push(&mut plan["steps"][other][what], json!(id));
    Some(())
}

fn unknown_part(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| !list(&s["parts"]).is_empty()))?;
    plan["steps"][step]["parts"][0] = json!("no-such-part");
    Some(())
}

fn misnumber(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, _| true))?;
    plan["steps"][step]["n"] = json!(step + 2 + dice.below(9));
    Some(())
}

fn never_joins(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["joins"].is_string()))?;
    plan["steps"].as_array_mut()?.remove(step);
    renumber(plan);
    Some(())
}

fn joins_twice(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["joins"].is_string()))?;
    let copy = plan["steps"][step].clone();
    let at = step + 1 + dice.below(list(&plan["steps"]).len() - step);
    plan["steps"].as_array_mut()?.insert(at, copy);
    renumber(plan);
    Some(())
}

fn works_on_joined(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["joins"].is_string()))?;
    let body = plan["steps"][step]["joins"].clone();
    let mut copy = plan["steps"][dice.pick(steps(plan, |_, s| s["body"] == body))?].clone();
    for what in ["parts", "joints", "fasteners"] {
        copy[what] = json!([]);
    }
    plan["steps"].as_array_mut()?.insert(step + 1, copy);
    renumber(plan);
    Some(())
}

fn no_way(plan: &mut Value, dice: &mut Dice) -> Change {
    let step =
        dice.pick(steps(plan, |i, s| s["direction"].is_string() && previous(plan, i).is_some()))?;
    plan["steps"][step].as_object_mut()?.remove("direction");
    Some(())
}

/// No turn in this step and none since the last: the face must be the same.
fn wrong_face(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        s["action"] != "turn" && previous(plan, i).is_some_and(|p| action(plan, p) != "set-aside")
    }))?;
    let face = way(&plan["steps"][step]["bench_face"])?;
    let others = (0..6).map(|i| (i / 2, i % 2 == 0)).filter(|f| *f != face).collect();
    let (axis, grows) = dice.pick(others)?;
    plan["steps"][step]["bench_face"] = json!(way_name(axis, grows));
    Some(())
}

fn no_turn(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        s["action"] == "turn"
            && next(plan, i).is_some_and(|n| action(plan, n) != "turn")
            && previous(plan, i).is_some_and(|p| action(plan, p) != "set-aside")
    }))?;
    plan["steps"].as_array_mut()?.remove(step);
    renumber(plan);
    Some(())
}

fn idle_turn(plan: &mut Value, dice: &mut Dice) -> Change {
    let step =
        dice.pick(steps(plan, |i, s| s["action"] == "turn" && previous(plan, i).is_some()))?;
    plan["steps"][step]["bench_face"] = plan["steps"][previous(plan, step)?]["bench_face"].clone();
    Some(())
}

/// A part that only screws hold gets them a step later, and nobody holds it.
fn left_loose(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = screwed_alone(plan, dice, |_| true)?;
    drive_later(plan, step, next(plan, step)?);
    plan["steps"][step]["hold"] = json!([]);
    Some(())
}

/// A part that only screws hold goes in just before a turn, and gets them after it.
fn turned_loose(plan: &mut Value, dice: &mut Dice) -> Change {
    let turned = |i: usize| {
        let turn = next(plan, i).filter(|t| action(plan, *t) == "turn")?;
        next(plan, turn).filter(|l| action(plan, *l) != "turn").map(|l| (turn, l))
    };
    let step = screwed_alone(plan, dice, |i| turned(i).is_some())?;
    let (turn, later) = turned(step)?;
    plan["steps"][turn]["hold"] = json!([]);
    drive_later(plan, step, later);
    Some(())
}

fn drive_later(plan: &mut Value, step: usize, later: usize) {
    let driven = ids(&plan["steps"][step]["fasteners"]);
    plan["steps"][step]["fasteners"] = json!([]);
    for id in driven {
        push(&mut plan["steps"][later]["fasteners"], json!(id));
    }
}

/// Parts that nothing but a groove or a slide keeps together: no way leads from the one to the other
/// by screws or glue.
fn only_touches(plan: &mut Value, dice: &mut Dice, kind: &str) -> Change {
    let ends = |j: &Value| [0, 1].map(|i| text(&j["parts"][i]).to_owned());
    let (kept, fast): (Vec<&Value>, Vec<&Value>) = list(&plan["joints"])
        .iter()
        .partition(|j| ["groove", "slide", "touch"].contains(&text(&j["kind"])));
    let linked = |from: &str, to: &str| {
        let mut reached = vec![from.to_owned()];
        let mut at = 0;
        while let Some(part) = reached.get(at).cloned() {
            for [a, b] in fast.iter().map(|j| ends(j)) {
                for (p, q) in [(&a, &b), (&b, &a)] {
                    if *p == part && !reached.contains(q) {
                        reached.push(q.clone());
                    }
                }
            }
            at += 1;
        }
        reached.iter().any(|r| r == to)
    };
    let lone = |j: &&Value| j["kind"] == kind && !linked(&ends(j)[0], &ends(j)[1]);
    // What slides on something else besides would still be said to slide.
    let slides =
        |part: &String| kept.iter().any(|j| j["kind"] == "slide" && ends(j).contains(part));
    let found = kept.iter().copied().filter(lone);
    dice.pick(found.filter(|j| kind == "slide" || !ends(j).iter().any(slides)).collect())?;
    for joint in plan["joints"].as_array_mut()? {
        if joint["kind"] == kind {
            joint["kind"] = json!("touch");
        }
    }
    Some(())
}

/// A step in which one part joins that nothing but screws will hold.
fn screwed_alone(plan: &Value, dice: &mut Dice, keep: impl Fn(usize) -> bool) -> Option<usize> {
    let screwed = |id: &String| {
        list(&plan["joints"]).iter().filter(|j| j["id"] == **id).all(|j| {
            j["kind"] == "touch"
                || (!list(&j["fasteners"]).is_empty()
                    && j["kind"] != "groove"
                    && j["kind"] != "dado"
                    && j["kind"] != "slide")
        })
    };
    dice.pick(steps(plan, |i, s| {
        list(&s["parts"]).len() == 1
            && previous(plan, i).is_some()
            && next(plan, i).is_some()
            && !list(&s["fasteners"]).is_empty()
            && ids(&s["joints"]).iter().all(screwed)
            && keep(i)
    }))
}

fn through_bench(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["direction"].is_string()))?;
    plan["steps"][step]["direction"] = json!(opposite(&plan["steps"][step]["bench_face"])?);
    Some(())
}

/// The part comes from the side on which a part it touches stands already.
fn through_neighbour(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut ways = Vec::new();
    for step in steps(plan, |_, s| s["direction"].is_string()) {
        for joint in list(&plan["joints"]) {
            for [new, old] in [[0, 1], [1, 0]].map(|o| o.map(|i| text(&joint["parts"][i]))) {
                let there =
                    placed_in(plan, old).is_some_and(|o| o < step && same_body(plan, o, step));
                if there && placed_in(plan, new) == Some(step) {
                    ways.extend(shared_faces(plan, new, old).into_iter().map(|face| (step, face)));
                }
            }
        }
    }
    let (step, (axis, beyond)) = dice.pick(ways)?;
    plan["steps"][step]["direction"] = json!(way_name(axis, !beyond));
    Some(())
}

/// Height of a part's centre of gravity above its lowest point along a way, by its volume.
fn height(plan: &Value, part: &str, (axis, grows): (usize, bool)) -> Option<f64> {
    let all = around(plan, part)?;
    let (mut volume, mut moment) = (0.0, 0.0);
    for b in boxes(plan, part) {
        let v: f64 = (0..3).map(|a| (b[a + 3] - b[a]) as f64).product();
        let middle = (b[axis] + b[axis + 3]) as f64 / 2.0;
        let up = if grows { all[axis + 3] as f64 - middle } else { middle - all[axis] as f64 };
        volume += v;
        moment += v * up;
    }
    (volume > 0.0).then(|| moment / volume)
}

/// The first part of a body, narrower than a tilt of 5 degrees allows for wherever its centre of
/// gravity is: no point is further from the edge than half the narrow way.
fn stands_alone(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        let [part] = ids(&s["parts"]).try_into().unwrap_or([String::new()]);
        let (Some(face), Some(b)) = (way(&s["bench_face"]), around(plan, &part)) else {
            return false;
        };
        let narrow = (0..3).filter(|a| *a != face.0).map(|a| b[a + 3] - b[a]).min().unwrap_or(0)
            as f64
            / 2.0;
        previous(plan, i).is_none() && height(plan, &part, face).is_some_and(|h| narrow < 0.087 * h)
    }))?;
    plan["steps"][step]["hold"] = json!([]);
    Some(())
}

/// A part that lies neither on the bench nor on anything.
fn hangs(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        let [part] = ids(&s["parts"]).try_into().unwrap_or([String::new()]);
        let Some((axis, grows)) = way(&s["bench_face"]) else {
            return false;
        };
        let low = |id: &str| around(plan, id).map(|b| if grows { b[axis + 3] } else { -b[axis] });
        let joined = |id: &str| placed_in(plan, id).is_some_and(|p| p < i);
        let old: Vec<&str> =
            list(&plan["parts"]).iter().map(|p| text(&p["id"])).filter(|id| joined(id)).collect();
        let bench =
            old.iter().filter(|id| placed_in(plan, id).is_some_and(|p| same_body(plan, p, i)));
        previous(plan, i).is_some()
            && !s["spacer"].is_object()
            && !list(&s["hold"]).is_empty()
            && low(&part).is_some()
            && low(&part) < bench.filter_map(|id| low(id)).max()
            && old.iter().all(|id| !shared_faces(plan, &part, id).contains(&(axis, grows)))
    }))?;
    plan["steps"][step]["hold"] = json!([]);
    Some(())
}

fn crowd(plan: &mut Value, dice: &mut Dice) -> Change {
    let serious = |f: &Value| f["severity"] == "fix" || f["severity"] == "stop";
    if list(&plan["findings"]).iter().any(serious) {
        return None;
    }
    let step = dice.pick(steps(plan, |_, _| true))?;
    plan["steps"][step]["people"] =
        json!(int(&plan["workshop"]["people"]) + 1 + dice.below(3) as i64);
    Some(())
}

fn no_helper(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["people"] == 1))?;
    let body = plan["steps"][step]["body"].clone();
    push(
        &mut plan["steps"][step]["hold"],
        json!({"what": body, "with": "helper", "why": "it would move"}),
    );
    Some(())
}

fn holds_nothing(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, _| true))?;
    push(
        &mut plan["steps"][step]["hold"],
        json!({"what": "no-such-part", "with": "clamp", "why": "it would move"}),
    );
    Some(())
}

fn miscount(plan: &mut Value, dice: &mut Dice, what: &str) -> Change {
    plan["cost"][what] = json!(int(&plan["cost"][what]) + 1 + dice.below(20) as i64);
    Some(())
}
