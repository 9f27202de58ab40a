//! Slips in what holds and presses: hands, clamps, and glue that needs its time.

use serde_json::{Value, json};

use super::edit::*;
use super::{Change, Kind};

pub const KINDS: &[Kind] = &[
    Kind("one hand holds two things", "hold", two_hands),
    Kind("what lies by itself is held", "hold", needless_hold),
    Kind("a clamp holds without a place", "hold", no_place),
    Kind("a clamp holds the body", "hold", body_clamped),
    Kind("a clamp holds the first part", "hold", first_clamped),
    Kind("a clamp holds a part to one that it is not joined to", "hold", unjoined),
    Kind("a hand has a clamp's place", "hold", hand_with_place),
    Kind("a body that tips is let go", "gravity", body_let_go),
    Kind("every clamp is too short", "clamp", short_clamps),
    Kind("there are too few clamps", "clamp", few_clamps),
    Kind("a jaw is in a part", "clamp", |p, d| along_press(p, d, false)),
    Kind("a jaw presses on air", "clamp", |p, d| along_press(p, d, true)),
    Kind("the bar runs through the jaws", "clamp", bar_in_jaws),
    Kind("the opening is told wrong", "clamp", wrong_opening),
    Kind("the jaws are not over the joint", "clamp", beside_joint),
    Kind("a clamp presses other parts", "clamp", other_parts),
    Kind("the bench is in a clamp's way", "clamp", no_bearers),
    Kind("a part comes into a clamp that is on", "clamp", into_clamp),
    Kind("nothing presses a glued joint", "glue", unpressed),
    Kind("a clamp presses nothing glued", "glue", idle_clamp),
    Kind("the glue skins over", "glue", skins_over),
    Kind("a glued joint waits for the next step", "glue", glued_late),
    Kind("nobody waits for the glue", "wet", no_wait),
    Kind("the wait is cut short", "wet", short_wait),
    Kind("the glue takes longer than the wait", "wet", slow_glue),
    Kind("the clamps come off before the wait", "wet", early_unclamp),
    Kind("the clamps stay on", "wet", no_unclamp),
    Kind("the body is turned on wet glue", "wet", turned_wet),
];

/// Places of clamps: step, and the path to it in the step.
fn places(plan: &Value) -> Vec<(usize, String)> {
    let mut out = Vec::new();
    for (i, s) in list(&plan["steps"]).iter().enumerate() {
        out.extend((0..list(&s["clamps"]).len()).map(|c| (i, format!("/clamps/{c}"))));
        let holds = list(&s["hold"]).iter().enumerate();
        out.extend(
            holds
                .filter(|h| h.1["clamp"].is_object())
                .map(|(h, _)| (i, format!("/hold/{h}/clamp"))),
        );
    }
    out
}

fn place<'a>(plan: &'a mut Value, at: &(usize, String)) -> Option<&'a mut Value> {
    plan["steps"][at.0].pointer_mut(&at.1)
}

/// The axis that the jaws lie apart on.
fn press(place: &Value) -> Option<usize> {
    (0..3).find(|a| {
        let side = |jaw: usize, end: usize| int(&place["jaws"][jaw][a + end]);
        side(0, 3) <= side(1, 0) || side(1, 3) <= side(0, 0)
    })
}

fn two_hands(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| list(&s["parts"]).len() == 1))?;
    let what = plan["steps"][step]["parts"][0].clone();
    let hold = json!({"what": what, "with": "hand", "why": "it would move"});
    plan["steps"][step]["hold"] = json!([hold, hold]);
    Some(())
}

/// A first part that nobody holds lies flat: it is lower than it is wide.
fn needless_hold(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |i, s| {
        let [part] = ids(&s["parts"]).try_into().unwrap_or([String::new()]);
        let (Some((face, _)), Some(b)) = (way(&s["bench_face"]), around(plan, &part)) else {
            return false;
        };
        let size = |a: usize| b[a + 3] - b[a];
        previous(plan, i).is_none()
            && boxes(plan, &part).len() == 1
            && (0..3).all(|a| a == face || size(a) > size(face))
    }))?;
    let what = plan["steps"][step]["parts"][0].clone();
    plan["steps"][step]["hold"] = json!([{"what": what, "with": "hand", "why": "it would move"}]);
    Some(())
}

fn no_place(plan: &mut Value, dice: &mut Dice) -> Change {
    let all = places(plan).into_iter().filter(|p| p.1.starts_with("/hold")).collect();
    let (step, path) = dice.pick(all)?;
    let hold = path.trim_end_matches("/clamp").to_owned();
    plan["steps"][step].pointer_mut(&hold)?.as_object_mut()?.remove("clamp");
    Some(())
}

fn body_clamped(plan: &mut Value, dice: &mut Dice) -> Change {
    let all = places(plan).into_iter().filter(|p| p.1.starts_with("/hold")).collect();
    let (step, path) = dice.pick(all)?;
    let body = plan["steps"][step]["body"].clone();
    plan["steps"][step].pointer_mut(path.trim_end_matches("/clamp"))?["what"] = body;
    Some(())
}

fn first_clamped(plan: &mut Value, dice: &mut Dice) -> Change {
    let held = |i: usize, s: &Value| previous(plan, i).is_none() && !list(&s["hold"]).is_empty();
    let step = dice.pick(steps(plan, held))?;
    let from = dice.pick(places(plan))?;
    let clamp = place(plan, &from)?.clone();
    let hold = &mut plan["steps"][step]["hold"][0];
    hold["with"] = json!("clamp");
    hold["clamp"] = clamp;
    Some(())
}

fn unjoined(plan: &mut Value, dice: &mut Dice) -> Change {
    let all = places(plan).into_iter().filter(|p| p.1.starts_with("/hold")).collect();
    let at = dice.pick(all)?;
    let joined = |a: &str, b: &str| {
        list(&plan["joints"]).iter().any(|j| {
            let ends = ids(&j["parts"]);
            j["kind"] != "touch" && ends.iter().any(|e| e == a) && ends.iter().any(|e| e == b)
        })
    };
    let there = ids(&plan["steps"][at.0]["parts"]).pop()?;
    let all = list(&plan["parts"]).iter().map(|p| text(&p["id"]).to_owned());
    let other = dice.pick(all.filter(|p| *p != there && !joined(p, &there)).collect())?;
    place(plan, &at)?["parts"] = json!([there, other]);
    Some(())
}

fn hand_with_place(plan: &mut Value, dice: &mut Dice) -> Change {
    let all = places(plan).into_iter().filter(|p| p.1.starts_with("/hold")).collect();
    let (step, path) = dice.pick(all)?;
    plan["steps"][step].pointer_mut(path.trim_end_matches("/clamp"))?["with"] = json!("hand");
    Some(())
}

fn body_let_go(plan: &mut Value, dice: &mut Dice) -> Change {
    let held = |s: &Value| {
        s["action"] == "place" && list(&s["hold"]).iter().any(|h| h["what"] == s["body"])
    };
    let step = dice.pick(steps(plan, |_, s| held(s)))?;
    let body = plan["steps"][step]["body"].clone();
    plan["steps"][step]["hold"].as_array_mut()?.retain(|h| h["what"] != body);
    Some(())
}

fn short_clamps(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let opening = int(&place(plan, &at)?["opening"]);
    let short = json!(opening - dice.mm(1, 50));
    for clamp in plan["workshop"]["clamps"].as_array_mut()? {
        *clamp = short.clone();
    }
    Some(())
}

/// One clamp less than glued joints are under clamps at once.
fn few_clamps(plan: &mut Value, dice: &mut Dice) -> Change {
    let _ = dice;
    let (mut on, mut most) = (0, 0);
    for s in list(&plan["steps"]) {
        on = if s["action"] == "unclamp" { 0 } else { on + list(&s["clamps"]).len() };
        most = most.max(on);
    }
    let clamps = plan["workshop"]["clamps"].as_array_mut()?;
    clamps.sort_by_key(int);
    (most > 0).then(|| clamps.drain(..clamps.len() + 1 - most.min(clamps.len())).for_each(drop))
}

/// The whole clamp is moved along its press: one jaw runs into its part, the other off it.
fn along_press(plan: &mut Value, dice: &mut Dice, forward: bool) -> Change {
    let at = dice.pick(places(plan))?;
    let by = dice.mm(1, 15) * if forward { 1 } else { -1 };
    let place = place(plan, &at)?;
    let axis = press(place)?;
    for path in ["/jaws/0", "/jaws/1", "/bar"] {
        let b = place.pointer_mut(path)?;
        for i in [axis, axis + 3] {
            b[i] = json!(int(&b[i]) + by);
        }
    }
    Some(())
}

fn bar_in_jaws(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let place = place(plan, &at)?;
    let axis = press(place)?;
    for a in (0..3).filter(|a| *a != axis) {
        for i in [a, a + 3] {
            place["bar"][i] = place["jaws"][0][i].clone();
        }
    }
    Some(())
}

fn wrong_opening(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let by = dice.mm(1, 100);
    let place = place(plan, &at)?;
    place["opening"] = json!(int(&place["opening"]) - by);
    Some(())
}

/// The whole clamp is moved across its press, off all the places it may have: they are 20 mm from
/// an edge or in the middle, so a millimetre or two beside is none of them.
fn beside_joint(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let by = 1_000 + dice.below(1_500) as i64;
    let place = place(plan, &at)?;
    let axis = press(place)?;
    let across = dice.pick((0..3).filter(|a| *a != axis).collect())?;
    for path in ["/jaws/0", "/jaws/1", "/bar"] {
        let b = place.pointer_mut(path)?;
        for i in [across, across + 3] {
            b[i] = json!(int(&b[i]) + by);
        }
    }
    Some(())
}

fn other_parts(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let named = ids(&place(plan, &at)?["parts"]);
    let all = list(&plan["parts"]).iter().map(|p| text(&p["id"]).to_owned());
    let other = dice.pick(all.filter(|p| !named.contains(p)).collect())?;
    place(plan, &at)?["parts"][dice.below(2)] = json!(other);
    Some(())
}

/// A jaw that lies under what lies on the bench has no room without bearers.
fn no_bearers(plan: &mut Value, dice: &mut Dice) -> Change {
    let under = |(step, path): &(usize, String)| {
        let s = &plan["steps"][*step];
        let place = s.pointer(path).unwrap_or(&Value::Null);
        way(&s["bench_face"]).map(|w| w.0) == press(place) && int(&plan["workshop"]["bearers"]) > 0
    };
    dice.pick(places(plan).into_iter().filter(under).collect())?;
    plan["workshop"]["bearers"] = json!(dice.mm(0, 10));
    Some(())
}

fn with_clamps(plan: &Value, dice: &mut Dice) -> Option<usize> {
    dice.pick(steps(plan, |_, s| !list(&s["clamps"]).is_empty()))
}

fn unpressed(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = with_clamps(plan, dice)?;
    plan["steps"][step]["clamps"].as_array_mut()?.pop();
    Some(())
}

fn idle_clamp(plan: &mut Value, dice: &mut Dice) -> Change {
    let at = dice.pick(places(plan))?;
    let clamp = place(plan, &at)?.clone();
    let step = dice.pick(steps(plan, |_, s| list(&s["clamps"]).is_empty()))?;
    // Where nothing is glued without screws a clamp has nothing to press.
    plan["steps"][step]["clamps"] = json!([clamp]);
    Some(())
}

/// Less time than the glue of one joint takes to spread.
fn skins_over(plan: &mut Value, dice: &mut Dice) -> Change {
    let glued =
        |id: &String| list(&plan["joints"]).iter().any(|j| j["id"] == **id && j["glue"] == true);
    dice.pick(steps(plan, |_, s| s["action"] == "place" && ids(&s["joints"]).iter().any(glued)))?;
    plan["workshop"]["glue"]["open"] = json!(dice.below(2));
    plan["workshop"]["glue"]["closed"] = json!(0);
    Some(())
}

fn glued_late(plan: &mut Value, dice: &mut Dice) -> Change {
    let mut found = Vec::new();
    for (i, s) in list(&plan["steps"]).iter().enumerate().filter(|(_, s)| s["action"] == "place") {
        for j in list(&plan["joints"]).iter().filter(|j| j["glue"] == true && j["kind"] != "touch")
        {
            if ids(&s["joints"]).iter().any(|id| j["id"] == **id)
                && let Some(later) = next(plan, i)
            {
                found.push((i, later, text(&j["id"]).to_owned()));
            }
        }
    }
    let (step, later, joint) = dice.pick(found)?;
    drop_id(&mut plan["steps"][step]["joints"], &joint);
    push(&mut plan["steps"][later]["joints"], json!(joint));
    Some(())
}

fn waits(plan: &Value) -> Vec<usize> {
    steps(plan, |_, s| s["action"] == "wait")
}

fn no_wait(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(waits(plan))?;
    plan["steps"].as_array_mut()?.remove(step);
    renumber(plan);
    Some(())
}

fn short_wait(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(waits(plan))?;
    let minutes = int(&plan["steps"][step]["minutes"]);
    plan["steps"][step]["minutes"] = json!(dice.below(usize::try_from(minutes).ok()?));
    Some(())
}

fn slow_glue(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(waits(plan))?;
    let minutes = int(&plan["steps"][step]["minutes"]);
    plan["workshop"]["glue"]["clamp"] = json!(minutes + 1 + dice.below(60) as i64);
    Some(())
}

fn early_unclamp(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(waits(plan))?;
    let off = next(plan, step)?;
    plan["steps"].as_array_mut()?.swap(step, off);
    renumber(plan);
    Some(())
}

fn no_unclamp(plan: &mut Value, dice: &mut Dice) -> Change {
    let step = dice.pick(steps(plan, |_, s| s["action"] == "unclamp"))?;
    plan["steps"].as_array_mut()?.remove(step);
    renumber(plan);
    Some(())
}

/// The clamps stay on while a part comes that ends up in the room of one.
fn into_clamp(plan: &mut Value, dice: &mut Dice) -> Change {
    let meets = |a: &Value, b: &Value| {
        (0..3).all(|i| int(&a[i]) < int(&b[i + 3]) && int(&b[i]) < int(&a[i + 3]))
    };
    let steps = list(&plan["steps"]);
    let in_room = |room: &Value, later: &Value| {
        let parts =
            list(&plan["parts"]).iter().filter(|p| list(&later["parts"]).contains(&p["id"]));
        parts.flat_map(|p| list(&p["boxes"])).any(|b| meets(b, room))
    };
    let mut places = Vec::new();
    for (off, _) in steps.iter().enumerate().filter(|(_, s)| s["action"] == "unclamp") {
        let of_body = |s: &&Value| s["body"] == steps[off]["body"];
        let on = steps[..off].iter().filter(of_body).flat_map(|s| list(&s["clamps"]));
        let rooms = on.flat_map(|c| list(&c["jaws"]).iter().chain([&c["bar"]]));
        let mut rooms = rooms.collect::<Vec<_>>().into_iter();
        if rooms.any(|r| steps[off..].iter().filter(of_body).any(|s| in_room(r, s))) {
            places.push(off);
        }
    }
    let step = dice.pick(places)?;
    // They come off at the very end.
    let steps = plan["steps"].as_array_mut()?;
    let off = steps.remove(step);
    steps.push(off);
    renumber(plan);
    Some(())
}

/// The next turn is made before the wait.
fn turned_wet(plan: &mut Value, dice: &mut Dice) -> Change {
    let turn = |i: usize| {
        let body = &plan["steps"][i]["body"];
        steps(plan, |k, s| k > i && s["body"] == *body && s["action"] == "turn").first().copied()
    };
    let step = dice.pick(waits(plan).into_iter().filter(|i| turn(*i).is_some()).collect())?;
    let turn = turn(step)?;
    let all = plan["steps"].as_array_mut()?;
    let turned = all.remove(turn);
    all.insert(step, turned);
    renumber(plan);
    Some(())
}
