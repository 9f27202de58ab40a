//! Screws, panels and what lies in grooves, at the very limit of their rules and wherever they are drawn.

use jointwise::assembly::Fastener;
use jointwise::checks::Said;
use jointwise::geometry::{Box3, Solid};
use jointwise::plan::{Plan, PlanPart};
use jointwise::units::Length;
use serde_json::{Value, json};

use super::plans::{bounds, input, judged, of, part, planned, row, rows, shift};
use super::rules::{case, edited};

fn results(said: &Said, rule: &str) -> Vec<String> {
    rows(said, rule).iter().map(|r| r.result.clone()).collect()
}

fn count(said: &Said, code: &str) -> usize {
    said.findings.iter().filter(|f| f.code == code).count()
}

fn altered<'a>(plan: &'a mut Plan, id: &str) -> &'a mut PlanPart {
    plan.parts.iter_mut().find(|p| p.id == id).unwrap()
}

/// Changes the screws of one joint.
fn screws(plan: &mut Plan, joint: &str, change: impl Fn(&mut Vec<Fastener>)) {
    change(&mut plan.joints.iter_mut().find(|j| j.id == joint).unwrap().fasteners);
}

/// The whole piece drawn elsewhere, screws too.
fn drawn_elsewhere(plan: &Plan, by: [i64; 3]) -> Plan {
    let mut moved = plan.clone();
    for part in &plan.parts {
        shift(&mut moved, &part.id, by);
    }
    for screw in moved.joints.iter_mut().flat_map(|j| &mut j.fasteners) {
        for (place, by) in screw.entry.iter_mut().zip(by) {
            *place += by;
        }
    }
    moved
}

/// A part told as more boxes: each is divided at `at`, where it reaches over it.
fn divided(part: &mut PlanPart, axis: usize, at: i64) {
    let mut boxes = Vec::new();
    for b in &part.boxes {
        if b.min[axis] < at && at < b.max[axis] {
            let (mut low, mut high) = (*b, *b);
            (low.max[axis], high.min[axis]) = (at, at);
            boxes.extend([low, high]);
        } else {
            boxes.push(*b);
        }
    }
    part.boxes = boxes;
}

/// Four joints of plywood, whose first is screwed at these places.
fn placed(deep: i64, y: [i64; 2]) -> (Value, Plan) {
    let at = json!({ "at": [[9, y[0], 9], [9, y[1], 9]] });
    of(edited(case(500, deep, "ply-18", false), &vec![("/piece/joints/0/screws", at)]))
}

#[test]
fn the_worst_end_is_one_row_and_each_that_is_too_near_another() {
    let said = |y| {
        let (file, plan) = placed(300, y);
        judged(&plan, &file)
    };
    // 38 mm are allowed: the row says of all four joints that the worst has them.
    let at = said([38, 262]);
    assert_eq!(results(&at, "screw-end"), ["38 mm"]);
    assert_eq!(input(row(&at, "screw-end"), "joints looked at"), "4");
    // Two of the four too near: one row for each, and one for the worst of the rest.
    let (file, mut plan) = placed(300, [36, 264]);
    let second = plan.joints[1].id.clone();
    screws(&mut plan, &second, |s| s[0].entry[1] = 30_000);
    let two = judged(&plan, &file);
    assert_eq!([count(&two, "screw-end"), rows(&two, "screw-end").len()], [2, 3]);
}

#[test]
fn the_first_end_of_a_joint_counts_as_the_last_wherever_the_piece_is_drawn() {
    let (file, plan) = placed(300, [36, 200]);
    for by in [[0; 3], [70_000, 110_000, 50_000]] {
        let said = judged(&drawn_elsewhere(&plan, by), &file);
        assert_eq!(results(&said, "screw-end")[0], "36 mm", "{by:?}");
    }
}

#[test]
fn a_joint_with_room_for_both_ends_is_asked_for_them() {
    // Plywood: 2 in and 1 1/2 in (38 mm) at both ends are 177.6 mm.
    let (file, plan) = placed(300, [60, 120]);
    let cut = |deep: i64| {
        let mut plan = plan.clone();
        plan.parts.iter_mut().for_each(|p| p.boxes[0].max[1] = deep);
        rows(&judged(&plan, &file), "screw-end").len()
    };
    assert_ne!(cut(177_600), 0);
    assert_eq!(cut(177_599), 0);
}

#[test]
fn screws_ten_inches_apart_are_near_enough() {
    // 327 - 73 mm are 10 in.
    for (y, passed) in [([73, 327], true), ([72, 327], false)] {
        let (file, plan) = placed(400, y);
        let said = judged(&plan, &file);
        let of: Vec<_> =
            rows(&said, "screw-spacing").into_iter().filter(|r| r.passed == Some(passed)).collect();
        assert_eq!(of.len(), 1);
        assert_eq!(of[0].result, if passed { "254 mm" } else { "255 mm" });
    }
}

#[test]
fn a_screw_into_a_face_is_measured_from_its_own_panel() {
    let strip =
        json!({ "id": "strip", "material": "ply-18", "at": [18, 0, 300], "size": [18, 300, 60] });
    let laid = json!({ "parts": ["strip", "left-side"], "kind": "overlay", "screws": { "drive": "left", "at": [[27, 14, 330], [27, 150, 330]] } });
    let (file, plan) = of(edited(
        case(500, 300, "mdf-18", false),
        &vec![("/piece/parts/-", strip), ("/piece/joints/-", laid)],
    ));
    for by in [[0; 3], [70_000, 110_000, 50_000]] {
        let said = judged(&drawn_elsewhere(&plan, by), &file);
        assert_eq!(results(&said, "screw-face"), ["14 mm"], "{by:?}");
    }
}

#[test]
fn the_pilot_that_is_furthest_off_is_judged_be_it_too_small_or_too_large() {
    let (file, plan) = planned("mudroom-bins.json");
    let joint = "left-side+bottom";
    let drilled = plan.joints.iter().find(|j| j.id == joint).unwrap().fasteners[0].pilot.get();
    let passed = |first: i64, second: i64| {
        let mut plan = plan.clone();
        screws(&mut plan, joint, |s| {
            s[0].pilot = Length::um(drilled + first);
            s[1].pilot = Length::um(drilled + second);
        });
        rows(&judged(&plan, &file), "pilot").iter().all(|r| r.passed == Some(true))
    };
    assert!(passed(0, 100) && passed(-100, 100));
    assert!(!passed(-1_000, 100) && !passed(100, -1_000));
    assert!(!passed(1_000, -100) && !passed(-100, 1_000));
}

#[test]
fn a_boring_on_a_screws_own_line_is_found_however_the_part_is_told() {
    let (file, plan) = planned("mudroom-bins.json");
    let screw =
        plan.joints.iter().find(|j| j.id == "left-side+bottom").unwrap().fasteners[1].clone();
    let [_, y, z] = screw.entry;
    let bored = |wide: i64| {
        let mut plan = plan.clone();
        let bottom = altered(&mut plan, "bottom");
        let mut solid = Solid::from_boxes(bottom.boxes.clone());
        let x = bounds(bottom).min[0] + 5_000;
        solid.cut(&Box3::new([x, y - 500, z - 500], [x + wide, y + 500, z + 500]));
        bottom.boxes = solid.boxes().to_vec();
        for (axis, at) in [(1, y), (2, z)] {
            divided(bottom, axis, at);
        }
        count(&judged(&plan, &file), "screw-void")
    };
    assert_eq!([bored(0), bored(1_000)], [0, 1]);
}

#[test]
fn screws_of_a_corner_and_of_a_runner_are_kept_clear_of_the_others() {
    let (file, plan) = planned("mudroom-bins.json");
    let joint = |ends: [&str; 2]| {
        let of = |id: &str| plan.joints.iter().find(|j| j.id == id).unwrap();
        of(&format!("{}+{}", ends[0], ends[1])).clone()
    };
    let bottom = joint(["left-side", "bottom"]).fasteners[1].clone();
    let runner = plan
        .joints
        .iter()
        .find(|j| j.parts.iter().any(|p| p == "left-runner") && !j.fasteners.is_empty())
        .unwrap();
    let back = plan
        .joints
        .iter()
        .find(|j| j.parts.contains(&"back".to_owned()) && j.parts.contains(&"bottom".to_owned()))
        .unwrap();
    // Another screw crosses the one from the side into the bottom, or passes over it so high.
    for other in [runner, back] {
        let crossing = |over: i64| {
            let mut plan = plan.clone();
            screws(&mut plan, &other.id, |s| {
                let axis = s[0].direction.axis();
                let along = bottom.direction.axis();
                // Level with its middle, in its line where it runs across it.
                s[0].entry[2] = bottom.entry[2] + over;
                if axis == along {
                    s[0].entry[1] = bottom.entry[1];
                } else {
                    s[0].entry[along] = bottom.entry[along] + 30_000;
                }
            });
            if other.id == back.id {
                let tip =
                    plan.joints.iter().find(|j| j.id == back.id).unwrap().fasteners[0].clone();
                let y = tip.entry[1] + tip.direction.sign() * tip.length.get() / 2;
                screws(&mut plan, "left-side+bottom", |s| s[1].entry[1] = y);
            }
            let said = judged(&plan, &file);
            let row = row(&said, "screw-crowd");
            (row.passed, input(row, "nearest").to_owned())
        };
        let (passed, nearest) = crossing(0);
        assert_eq!(passed, Some(false), "{}", other.id);
        assert!(nearest.contains("left side to bottom"), "{nearest}");
        // Two screws of 4.2 mm at most, and 3 mm.
        assert_eq!(crossing(7_200).0, Some(true), "{}", other.id);
    }
}

#[test]
fn a_groove_takes_as_much_from_a_side_told_as_many_boxes() {
    let (file, plan) = planned("mudroom-bins.json");
    let whole = results(&judged(&plan, &file), "groove-left");
    assert!(!whole.is_empty());
    let grooved = |change: &dyn Fn(&mut PlanPart, [[i64; 2]; 3])| {
        let mut plan = plan.clone();
        for joint in plan.joints.clone().iter().filter(|j| j.kind.is_channel()) {
            let [a, b] = [0, 1].map(|n| bounds(part(&plan, &joint.parts[n])));
            let shared = [0, 1, 2].map(|x| [a.min[x].max(b.min[x]), a.max[x].min(b.max[x])]);
            for id in joint.parts.iter().filter(|id| *id != "box-bottom") {
                change(altered(&mut plan, id), shared);
            }
        }
        judged(&plan, &file)
    };
    let split = grooved(&|part, shared| {
        for (axis, [low, high]) in shared.into_iter().enumerate() {
            divided(part, axis, i64::midpoint(low, high));
        }
    });
    assert_eq!(results(&split, "groove-left"), whole);
    // What is cut right through is a notch: nothing is said of what a groove leaves there.
    let through = grooved(&|part, shared| {
        let thickness = part.thickness;
        let Some(axis) = (0..3).find(|&x| bounds(part).extent(x) == thickness) else { return };
        let middle = shared.map(|[low, high]| i64::midpoint(low, high));
        part.boxes.retain(|b| {
            !(0..3).all(|x| x == axis || (b.min[x] <= middle[x] && middle[x] < b.max[x]))
        });
    });
    assert!(rows(&through, "groove-left").iter().all(|r| r.passed == Some(true)));
}

#[test]
fn a_shelf_held_at_front_and_back_spans_that_way() {
    let board = |id: &str, role: &str, at: [i64; 3], size: [i64; 3]| json!({ "id": id, "role": role, "material": "ply-18", "at": at, "size": size });
    let joint = |a: &str, b: &str| json!({ "parts": [a, b], "screws": {} });
    let file = json!({ "format": "jointwise-scenario/1", "unit": "mm", "piece": {
        "parts": [
            board("front", "side", [0, 0, 0], [400, 18, 600]),
            board("rear", "side", [0, 718, 0], [400, 18, 600]),
            board("bottom", "bottom", [0, 18, 0], [400, 700, 18]),
            board("shelf", "shelf", [0, 18, 300], [400, 700, 18]),
        ],
        "joints": [
            joint("front", "bottom"), joint("rear", "bottom"), joint("front", "shelf"),
            joint("rear", "shelf")
        ],
    } });
    let (file, plan) = of(file);
    let said = judged(&plan, &file);
    let shelf = *rows(&said, "sag").iter().find(|r| r.place == "part shelf").unwrap();
    assert_eq!([input(shelf, "span"), input(shelf, "across")], ["700 mm", "400 mm"]);
    // 5 W L³ g/(32 E b t³) by hand: 718 Pa and its own mass on 0.7 m × 0.4 m, E 6960 N/mm².
    let mass = 73.190 * 0.28 + part(&plan, "shelf").mass_g as f64 / 1_000.0;
    let mm = 5.0 * mass * 9.81 * 700_f64.powi(3) / (32.0 * 6_960.0 * 400.0 * 18_f64.powi(3));
    assert_eq!(shelf.result, format!("{mm:.2} mm"));
}

/// The bottom of a box in grooves, and the walls to its left and right.
fn in_grooves() -> (Value, Plan, [String; 2]) {
    let (file, plan) = planned("mudroom-bins.json");
    let walls = ["box-left", "box-right"].map(str::to_owned);
    (file, plan, walls)
}

fn play(said: &Said) -> Vec<[String; 2]> {
    let of = |r: &&&jointwise::checks::CheckRow| r.place == "part box-bottom";
    let row = |r: &&jointwise::checks::CheckRow| [input(r, "cut to").to_owned(), r.result.clone()];
    rows(said, "groove-play").iter().filter(of).map(row).collect()
}

#[test]
fn what_only_stops_lie_before_is_not_let_in_that_way() {
    let (file, plan, walls) = in_grooves();
    let both = play(&judged(&plan, &file));
    assert_eq!(both.len(), 2);
    let mut stopped = plan.clone();
    stopped.joints.retain(|j| {
        let across = |id: &String| id.contains("box-front") || id.contains("box-back");
        !(j.parts.iter().any(|id| id == "box-bottom") && j.parts.iter().any(across))
    });
    let b = bounds(part(&plan, "box-bottom"));
    for id in &walls {
        let wall = altered(&mut stopped, id);
        let w = bounds(wall);
        let x = [w.min[0].max(b.min[0]), w.max[0].min(b.max[0])];
        for y in [[b.min[1] - 2_000, b.min[1] - 500], [b.max[1] + 500, b.max[1] + 2_000]] {
            wall.boxes.push(Box3::new([x[0], y[0], b.min[2]], [x[1], y[1], b.max[2]]));
        }
    }
    assert_eq!(play(&judged(&stopped, &file)), both[..1]);
}

#[test]
fn what_lies_beside_an_edge_does_not_take_its_air() {
    let (file, plan, walls) = in_grooves();
    let b = bounds(part(&plan, "box-bottom"));
    let crumb = |over: i64| {
        let mut plan = plan.clone();
        let y = b.max[1] - over;
        let place = Box3::new([b.max[0] + 100, y, b.min[2]], [b.max[0] + 200, y + 1_000, b.max[2]]);
        altered(&mut plan, &walls[1]).boxes.push(place);
        play(&judged(&plan, &file))
    };
    let free = play(&judged(&plan, &file));
    assert_eq!(crumb(0), free);
    assert_ne!(crumb(1), free);
}
