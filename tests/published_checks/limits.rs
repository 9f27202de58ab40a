//! Rules at their very limit, on plans of scenarios that are changed by a hand's breadth: a step less
//! fails, a step more passes. What is allowed is each rule's own; its source stands in its row.

use jointwise::assembly::Role;
use jointwise::checks::{CheckRow, Said, check};
use jointwise::findings::Severity;
use jointwise::plan::Plan;
use jointwise::scenario;
use serde_json::{Value, json};

use super::rules::{edited, file, outcome};

/// A scenario of ours and its plan.
fn planned(name: &str) -> (Value, Plan) {
    let file = file(name);
    let plan = outcome(&file).plan.clone().unwrap();
    (file, plan)
}

fn judged(plan: &Plan, file: &Value) -> Said {
    check(plan, &scenario::read(&file.to_string()).0.unwrap())
}

fn rows<'a>(said: &'a Said, rule: &str) -> Vec<&'a CheckRow> {
    said.rows.iter().filter(|r| r.rule == rule).collect()
}

fn row<'a>(said: &'a Said, rule: &str) -> &'a CheckRow {
    rows(said, rule).first().unwrap_or_else(|| panic!("no row of {rule}"))
}

fn input<'a>(row: &'a CheckRow, name: &str) -> &'a str {
    &row.inputs.iter().find(|i| i.name == name).unwrap().value
}

fn ids(plan: &Plan, role: Role) -> Vec<String> {
    let mut found: Vec<_> = plan.parts.iter().filter(|p| p.role == role).collect();
    found.sort_by_key(|p| p.boxes[0].min[0]);
    found.iter().map(|p| p.id.clone()).collect()
}

/// Moves a part in micrometres.
fn shift(plan: &mut Plan, id: &str, by: [i64; 3]) {
    let part = plan.parts.iter_mut().find(|p| p.id == id).unwrap();
    for b in &mut part.boxes {
        for axis in 0..3 {
            b.min[axis] += by[axis];
            b.max[axis] += by[axis];
        }
    }
}

fn first(plan: &Plan, role: Role) -> &jointwise::plan::PlanPart {
    plan.parts.iter().find(|p| p.role == role).unwrap()
}

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
    let wide = ids(&plan, Role::Side)
        .iter()
        .map(|id| plan.parts.iter().find(|p| p.id == *id).unwrap().boxes[0].max[0])
        .max()
        .unwrap();
    let reveal = first(&plan, Role::Door).boxes[0].min[0];
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
    let middle = |plan: &Plan, id: &str| {
        let b = &plan.parts.iter().find(|p| p.id == id).unwrap().boxes[0];
        i64::midpoint(b.min[0], b.max[0])
    };
    let hinges: Vec<String> = plan
        .joints
        .iter()
        .filter(|j| j.parts.contains(&doors[0]))
        .flat_map(|j| j.parts.clone())
        .filter(|id| plan.parts.iter().any(|p| p.id == *id && p.role == Role::Hinge))
        .collect();
    assert!(!hinges.is_empty());
    for beyond in [0, 100_000] {
        let mut turned = plan.clone();
        for hinge in &hinges {
            let part = plan.parts.iter().find(|p| p.id == *hinge).unwrap();
            let (low, high) = part.boxes.iter().fold((i64::MAX, i64::MIN), |(l, h), b| {
                (l.min(b.min[0]), h.max(b.max[0]))
            });
            let by = middle(&plan, &doors[0]) - i64::midpoint(low, high) + beyond;
            shift(&mut turned, hinge, [by, 0, 0]);
        }
        let said = judged(&turned, &walled(&file, enough));
        let left: Vec<_> = rows(&said, "door-at-wall");
        assert_eq!(left.len(), 1, "{beyond}");
        assert_eq!(left[0].place, format!("part {}", doors[1]));
    }
}

#[test]
fn the_narrowest_gap_between_fronts_is_judged() {
    let (file, plan) = planned("pantry-doors.json");
    let doors = ids(&plan, Role::Door);
    let door = |n: usize| &plan.parts.iter().find(|p| p.id == doors[n]).unwrap().boxes[0];
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
    let mut fronts: Vec<_> = plan.parts.iter().filter(|p| p.role == Role::Front).collect();
    fronts.sort_by_key(|p| p.boxes[0].min[2]);
    assert!(fronts.len() > 2);
    let usual = fronts[1].boxes[0].min[2] - fronts[0].boxes[0].max[2];
    for by in [-400, 300] {
        let mut plan = plan.clone();
        shift(&mut plan, &fronts[1].id.clone(), [0, 0, by]);
        let said = judged(&plan, &file);
        let um = usual - i64::abs(by);
        assert_eq!(
            input(row(&said, "front-gap"), "gap"),
            format!("{}.{:02} mm", um / 1_000, um % 1_000 / 10)
        );
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
    // A back that only touches the nailer's edge is not between it and the wall.
    let nailer = first(&plan, Role::Nailer).boxes[0];
    let back = first(&plan, Role::Back);
    let low = back.boxes.iter().map(|b| b.min[2]).min().unwrap();
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
    let nailer = first(&plan, Role::Nailer).boxes[0];
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
    assert_eq!(found.hint, "Use 1 3/8 in at most.");
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
        assert!(row.result.contains(&format!("about {:.1} kg each", whole / 2.0)), "{}", row.result);
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
        said.rows.iter().filter(|r| r.rule.starts_with("runner")).map(|r| r.place.clone()).collect::<Vec<_>>()
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
        for material in file["shop"]["materials"].as_array_mut().unwrap() {
            material["kind"] = json!(kind);
            material["thickness"] = json!(thickness);
        }
        let said = judged(&plan, &file);
        assert_eq!(row(&said, "formaldehyde").limit, limit, "{kind} {thickness}");
    }
}
