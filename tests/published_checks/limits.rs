//! Rules at their very limit, on plans of scenarios that are changed by a hand's breadth: a step less
//! fails, a step more passes. What is allowed is each rule's own; its source stands in its row.

use jointwise::assembly::Role;
use jointwise::checks::Said;
use jointwise::findings::Severity;
use jointwise::plan::Plan;
use jointwise::units::{Length, Unit, parse_length};
use serde_json::{Value, json};

use super::plans::{bounds, first, ids, input, judged, part, planned, row, rows, shift};
use super::rules::edited;

/// Millimetres with three decimals.
fn mm(um: i64) -> Value {
    json!(um as f64 / 1_000.0)
}

/// The pantry between two walls, in an opening of that width.
fn walled(file: &Value, width: i64) -> Value {
    let widths = json!([{ "at": 100, "width": mm(width) }, { "at": 800, "width": mm(width) }]);
    edited(
        file.clone(),
        &vec![
            ("/space/widths", widths),
            ("/space/left", json!("wall")),
            ("/space/right", json!("wall")),
        ],
    )
}

#[test]
fn a_door_beside_a_wall_wants_room_for_its_handle() {
    let (file, plan) = planned("pantry-doors.json");
    let doors = ids(&plan, Role::Door);
    let wide =
        ids(&plan, Role::Side).iter().map(|id| bounds(part(&plan, id)).max[0]).max().unwrap();
    let reveal = bounds(part(&plan, &doors[0])).min[0];
    assert_eq!(wide - bounds(part(&plan, &doors[1])).max[0], reveal);
    let enough = wide + 2 * (40_000 - reveal);
    let at = judged(&plan, &walled(&file, enough));
    assert_eq!(rows(&at, "door-at-wall").len(), 2);
    assert!(rows(&at, "door-at-wall").iter().all(|r| r.passed == Some(true)));
    for (row, door) in rows(&at, "door-at-wall").iter().zip(&doors) {
        assert_eq!(row.place, format!("part {door}"));
        assert_eq!(input(row, "gap to the wall"), "40 mm");
    }
    let short = judged(&plan, &walled(&file, enough - 20));
    assert!(rows(&short, "door-at-wall").iter().all(|r| r.passed == Some(false)));
    assert!(short.findings.iter().any(|f| f.code == "door-at-wall"));
    // Beside a cabinet that was bought nothing is in the way.
    assert!(rows(&judged(&plan, &file), "door-at-wall").is_empty());
    // Hung on its other side, a door opens away from the wall; so it does on a hinge in its middle.
    let middle = |id: &str| {
        let b = bounds(part(&plan, id));
        i64::midpoint(b.min[0], b.max[0])
    };
    for (door, other, beyond) in [(0, 1, 0), (0, 1, 100_000), (1, 0, 0), (1, 0, -100_000)] {
        let hinges: Vec<String> = plan
            .joints
            .iter()
            .filter(|j| j.parts.contains(&doors[door]))
            .flat_map(|j| j.parts.clone())
            .filter(|id| part(&plan, id).role == Role::Hinge)
            .collect();
        assert!(!hinges.is_empty());
        let mut turned = plan.clone();
        for hinge in &hinges {
            let by = middle(&doors[door]) - middle(hinge) + beyond;
            shift(&mut turned, hinge, [by, 0, 0]);
        }
        let said = judged(&turned, &walled(&file, enough));
        let left: Vec<_> = rows(&said, "door-at-wall");
        assert_eq!(left.len(), 1, "{door} {beyond}");
        assert_eq!(left[0].place, format!("part {}", doors[other]));
    }
}

#[test]
fn the_narrowest_gap_between_fronts_is_judged() {
    let (file, plan) = planned("pantry-doors.json");
    let doors = ids(&plan, Role::Door);
    let door = |n: usize| bounds(part(&plan, &doors[n]));
    let gap = door(1).min[0] - door(0).max[0];
    let apart = |gap_wanted: i64| {
        let mut plan = plan.clone();
        shift(&mut plan, &doors[1], [gap_wanted - gap, 0, 0]);
        judged(&plan, &file)
    };
    // Doors that touch are neighbours; those an inch and more apart are none.
    assert_eq!(input(row(&apart(0), "front-gap"), "gap"), "0.00 mm");
    assert_eq!(rows(&apart(24_999), "front-gap").len(), 1);
    assert!(rows(&apart(25_000), "front-gap").is_empty());
    // Of three fronts over each other the narrower of two gaps counts.
    let (file, plan) = planned("sewing-drawers.json");
    let mut fronts: Vec<_> = plan.parts.iter().filter(|p| p.role == Role::Front).cloned().collect();
    fronts.sort_by_key(|p| bounds(p).min[2]);
    assert!(fronts.len() > 2);
    for by in [-400, 300] {
        let mut plan = plan.clone();
        shift(&mut plan, &fronts[1].id, [0, 0, by]);
        let said = judged(&plan, &file);
        let gaps = fronts.windows(2).map(|two| {
            let [low, high] = [0, 1].map(|n| bounds(part(&plan, &two[n].id)));
            high.min[2] - low.max[2]
        });
        // Printed to a thousandth of an inch.
        let thousandths = (gaps.min().unwrap() * 10 + 127) / 254;
        assert_eq!(input(row(&said, "front-gap"), "gap"), format!("0.{thousandths:03} in"));
    }
}

#[test]
fn wherever_the_piece_is_drawn_the_gaps_round_it_are_the_same() {
    let (file, plan) = planned("pantry-doors.json");
    let mut moved = plan.clone();
    for part in &plan.parts {
        shift(&mut moved, &part.id, [7_000, 0, 5_000]);
    }
    let gaps = |plan: &Plan| -> Vec<String> {
        let said = judged(plan, &file);
        let fronts = said.rows.iter().filter(|r| r.rule.starts_with("front-"));
        fronts.map(|r| format!("{} {}", r.rule, r.result)).collect()
    };
    assert_eq!(gaps(&plan), gaps(&moved));
}

#[test]
fn screws_into_studs_are_judged_by_what_they_go_through() {
    let (file, plan) = planned("mudroom-bins.json");
    let screw = |length: &str| edited(file.clone(), &vec![("/install/wall_screw", json!(length))]);
    // Too short holds nothing; too long may meet a cable.
    for (length, severity) in [("2 7/16", Severity::Fix), ("2 3/4", Severity::Caution)] {
        let said = judged(&plan, &screw(length));
        let found = said.findings.iter().find(|f| f.code == "wall-screw").unwrap();
        assert_eq!(found.severity, severity, "{length}");
    }
    // 3/4 of nailer, 7/32 of back, 1/2 of board: an inch and the depth of a cable are allowed themselves.
    for (length, passed) in
        [("2 29/64", false), ("2 15/32", true), ("2 23/32", true), ("2 47/64", false)]
    {
        let said = judged(&plan, &screw(length));
        assert_eq!(row(&said, "wall-screw").passed, Some(passed), "{length}");
    }
    // A back that only touches the nailer's edge is not between it and the wall.
    let nailer = bounds(first(&plan, Role::Nailer));
    let back = first(&plan, Role::Back);
    let low = bounds(back).min[2];
    let beside = |by: i64| {
        let mut plan = plan.clone();
        shift(&mut plan, &back.id, [0, 0, nailer.max[2] - low + by]);
        input(row(&judged(&plan, &file), "wall-screw"), "back").to_owned()
    };
    assert_eq!(beside(0), "0 in");
    assert_ne!(beside(-2_000), "0 in");
}

#[test]
fn a_nailer_of_600_mm_wants_two_studs() {
    let (file, plan) = planned("mudroom-bins.json");
    let studs = edited(file, &vec![("/install/studs", json!(["250 mm"]))]);
    for (wide, wanted, passed) in [(600_000, "at least 2", false), (599_999, "at least 1", true)] {
        let mut plan = plan.clone();
        let nailer = plan.parts.iter_mut().find(|p| p.role == Role::Nailer).unwrap();
        nailer.boxes.truncate(1);
        nailer.boxes[0].max[0] = nailer.boxes[0].min[0] + wide;
        let said = judged(&plan, &studs);
        assert_eq!(row(&said, "studs").limit, wanted);
        assert_eq!(row(&said, "studs").passed, Some(passed));
    }
    // The stud's half counts on the right as it does on the left.
    let nailer = bounds(first(&plan, Role::Nailer));
    let met = |from_right: i64| {
        let mut file = studs.clone();
        file["install"]["studs"] = json!([format!("{} mm", (nailer.max[0] - from_right) / 1_000)]);
        row(&judged(&plan, &file), "studs").result.clone()
    };
    assert_eq!([met(30_000), met(0)], ["1", "0"]);
}

#[test]
fn joining_screws_leave_a_rest_in_the_second_side() {
    let (file, plan) = planned("mudroom-bins.json");
    let said = |length: &str| {
        judged(&plan, &edited(file.clone(), &vec![("/install/joining_screw", json!(length))]))
    };
    let (good, bad) = (said("1 1/4"), said("2"));
    let side = first(&plan, Role::Side).thickness;
    assert_eq!(row(&good, "joining-screw").result, "1/4 in", "{side} of ours and 3/4 in");
    assert_eq!(row(&good, "joining-screw").passed, Some(true));
    let found = bad.findings.iter().find(|f| f.code == "joining-screw").unwrap();
    assert_eq!(found.hint, "Use 1 7/16 in at most.");
}

#[test]
fn what_weighs_four_kilograms_is_lifted_and_what_weighs_less_is_not() {
    let (file, plan) = planned("pantry-doors.json");
    let mut alone = plan.clone();
    alone.workshop.people = 1;
    alone.steps.iter_mut().for_each(|s| s.people = 1);
    // All of the mass in one side: what is turned with it weighs that.
    let weighing = |g: i64| {
        let mut plan = alone.clone();
        plan.parts.iter_mut().for_each(|p| p.mass_g = 0);
        plan.parts.iter_mut().find(|p| p.role == Role::Side).unwrap().mass_g = g;
        judged(&plan, &file)
    };
    assert!(rows(&weighing(3_999), "lift").is_empty());
    let lifts = rows(&weighing(4_000), "lift").len();
    assert!(lifts > 0);
    assert_eq!(rows(&weighing(200_000), "lift").len(), lifts);
    let hint = |g: i64| {
        let said = weighing(g);
        said.findings.iter().find(|f| f.code == "lift").map(|f| f.hint.clone())
    };
    assert_eq!(hint(4_000), None);
    assert!(hint(200_000).unwrap().contains("Do not lift it alone"));
    let most = (4..200).map(|kg| hint(1_000 * kg)).find_map(|h| h).unwrap();
    assert!(!most.contains("Do not lift it alone"), "{most}");
    // With a second person each takes half, and nothing is said.
    let mut two = alone.clone();
    two.steps.iter_mut().for_each(|s| s.people = 2);
    for part in &mut two.parts {
        part.mass_g = if part.role == Role::Door { 0 } else { 3_000 };
    }
    let said = judged(&two, &file);
    assert!(!said.findings.iter().any(|f| f.code == "lift"));
    for row in rows(&said, "lift") {
        let whole: f64 = input(row, "L, mass").split(' ').next().unwrap().parse().unwrap();
        assert!(
            row.result.contains(&format!("about {:.1} kg each", whole / 2.0)),
            "{}",
            row.result
        );
        assert_eq!(row.passed, None);
    }
}

#[test]
fn what_is_heaviest_does_not_stand_when_it_slides() {
    let (file, plan) = planned("mudroom-bins.json");
    let mut heavy = plan.clone();
    heavy.parts.iter_mut().find(|p| p.role == Role::BoxBottom).unwrap().mass_g = 500_000;
    let said = judged(&heavy, &file);
    let usual = judged(&plan, &file);
    let slides = |said: &Said| {
        said.rows
            .iter()
            .filter(|r| r.rule.starts_with("runner"))
            .map(|r| r.place.clone())
            .collect::<Vec<_>>()
    };
    assert_eq!(slides(&said), slides(&usual));
    assert!(!slides(&said).is_empty());
}

#[test]
fn each_board_has_its_own_limit_of_vapour() {
    let (file, plan) = planned("pantry-doors.json");
    for (kind, thickness, limit) in [
        ("plywood", 17.8, "0.05 ppm"),
        ("particleboard", 17.8, "0.09 ppm"),
        ("mdf", 8.1, "0.11 ppm"),
        ("mdf", 8.0, "0.13 ppm"),
    ] {
        let mut file = file.clone();
        file["build"]["carcass"]["dado_depth"] = json!(3);
        for material in file["shop"]["materials"].as_array_mut().unwrap() {
            material["kind"] = json!(kind);
            if material["id"] == "ply-18" {
                material["thickness"] = json!(thickness);
            }
        }
        let said = judged(&plan, &file);
        assert_eq!(row(&said, "formaldehyde").limit, limit, "{kind} {thickness}");
    }
}

#[test]
fn the_hint_of_a_sagging_bottom_names_the_first_thickness_that_is_enough() {
    let (file, plan) = planned("mudroom-bins.json");
    let mut heavy = file.clone();
    for thing in heavy["contents"].as_array_mut().unwrap() {
        thing["mass_kg"] = json!(60);
    }
    let bottom = first(&plan, Role::BoxBottom).clone();
    let sag = |thick: i64| {
        let mut plan = plan.clone();
        let part = plan.parts.iter_mut().find(|p| p.id == bottom.id).unwrap();
        part.mass_g = bottom.mass_g * thick / bottom.thickness;
        part.thickness = thick;
        part.boxes.truncate(1);
        part.boxes[0].max[2] = part.boxes[0].min[2] + thick;
        let said = judged(&plan, &heavy);
        let place = format!("part {}", bottom.id);
        let row = rows(&said, "sag").into_iter().find(|r| r.place == place).unwrap().clone();
        let found = said.findings.into_iter().find(|f| f.code == "sag" && f.place == place);
        (row, found)
    };
    let (row, found) = sag(bottom.thickness);
    assert_eq!(row.passed, Some(false));
    let found = found.unwrap();
    assert!(!found.message.contains("over the months"), "plywood: {}", found.message);
    let inches: f64 = found.hint.split(' ').nth(1).unwrap().parse().unwrap();
    let enough = (inches * 25_400.0 / 500.0).round() as i64 * 500;
    assert_eq!(sag(enough).0.passed, Some(true), "{}", found.hint);
    assert_eq!(sag(enough - 500).0.passed, Some(false), "{}", found.hint);
}

#[test]
fn one_side_is_enough_for_a_back_and_not_for_a_board() {
    let (file, plan) = planned("mudroom-bins.json");
    let without = |cut: &[(Role, Option<&str>)]| {
        let mut plan = plan.clone();
        for (role, side) in cut {
            let of: Vec<String> = ids(&plan, *role);
            plan.joints.retain(|j| {
                let this = j.parts.iter().any(|p| of.contains(p));
                !(this && side.is_none_or(|side| j.parts.iter().any(|p| p == side)))
            });
        }
        row(&judged(&plan, &file), "racking").result.clone()
    };
    let whole = without(&[]);
    assert_eq!(without(&[(Role::Back, Some("right-side"))]), whole);
    let boards = without(&[(Role::Back, None)]);
    assert_ne!(boards, whole);
    assert_ne!(without(&[(Role::Back, None), (Role::Nailer, Some("right-side"))]), boards);
}

#[test]
fn a_divider_that_reaches_from_floor_to_top_leaves_the_piece_held() {
    let (file, plan) = planned("mudroom-bins.json");
    let mut divided = plan.clone();
    let third = divided.parts.iter_mut().find(|p| p.role == Role::Stretcher).unwrap();
    third.role = Role::Side;
    let result = |plan: &Plan| row(&judged(plan, &file), "racking").passed;
    assert_eq!([result(&plan), result(&divided)], [Some(true); 2]);
    // With one side there is nothing to lean.
    let mut one = plan.clone();
    one.parts.iter_mut().find(|p| p.role == Role::Side).unwrap().role = Role::Divider;
    assert!(rows(&judged(&one, &file), "racking").is_empty());
}

#[test]
fn the_hints_for_screws_name_what_holds() {
    let (file, plan) = planned("mudroom-bins.json");
    let with = |change: &dyn Fn(&mut Vec<jointwise::assembly::Fastener>)| {
        let mut plan = plan.clone();
        let joint = plan.joints.iter_mut().find(|j| j.id == "left-side+bottom").unwrap();
        change(&mut joint.fasteners);
        judged(&plan, &file)
    };
    let hint =
        |said: &Said| said.findings.iter().find(|f| f.code == "screw-hold").unwrap().hint.clone();
    let split = hint(&with(&|s| s[1].gauge = 10));
    assert!(split.starts_with("Use #8 at most there"), "{split}");
    let short = hint(&with(&|s| s[1].length = Length::um(30_000)));
    let bottom = bounds(plan.parts.iter().find(|p| p.id == "bottom").unwrap());
    let side = bounds(plan.parts.iter().find(|p| p.id == "left-side").unwrap());
    // Each of those it names holds.
    let listed = short.trim_start_matches("Add one of these to the screws on hand: ");
    let named: Vec<&str> = listed.split("; or").next().unwrap().split(", ").collect();
    assert!(named.len() > 1, "{short}");
    for name in named {
        let (gauge, length) = name.split_once(" × ").unwrap();
        let length = length.split_once(" in").unwrap().0;
        let length = parse_length(length, Unit::Inch).unwrap();
        let driven = with(&|s| {
            (s[1].gauge, s[1].length) = (gauge.trim_start_matches('#').parse().unwrap(), length);
        });
        assert!(!driven.findings.iter().any(|f| f.code == "screw-hold"), "{name}");
    }
    // The last screw too near to the far end.
    let far = bottom.max[1].min(side.max[1]);
    let last = |from_end: i64| {
        with(&|s| {
            let last = s.iter_mut().max_by_key(|s| s.entry[1]).unwrap();
            last.entry[1] = far - from_end;
        })
    };
    let ends = |said: &Said| {
        said.findings.iter().any(|f| f.code == "screw-end" && f.place == "joint left-side+bottom")
    };
    assert!(ends(&last(20_000)) && !ends(&last(60_000)));
    // It breaks out below as it does above.
    let moved = |by: i64| with(&|s| s[1].entry[2] += by);
    let void = |said: &Said| said.findings.iter().any(|f| f.code == "screw-void");
    assert!(void(&moved(-7_500)) && !void(&moved(-7_400)));
}
