use std::fmt::Write as _;

use crate::assembly::{Grain, JointKind, Kind};
use crate::design::{Design, design};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction};
use crate::scenario::read;

/// A file with these parts and joints.
fn file(unit: &str, parts: &str, joints: &str) -> String {
    format!(
        r#"{{"format":"jointwise-scenario/1","unit":"{unit}","piece":{{"parts":[{parts}],"joints":[{joints}]}},
        "shop":{{"materials":[
            {{"id":"ply","kind":"plywood","thickness":"18 mm","density":600}},
            {{"id":"thin","kind":"plywood","thickness":"6 mm","density":600}},
            {{"id":"mdf","kind":"mdf","thickness":"3/4 in"}}],
        "screws":[{{"gauge":8,"length":"50 mm"}},{{"gauge":6,"length":"20 mm","head":"pan"}}]}}}}"#
    )
}

fn made(text: &str) -> (Design, Vec<Finding>) {
    let (scenario, findings) = read(text);
    let (design, said) = design(&scenario.unwrap_or_else(|| panic!("{findings:#?}")));
    (design.expect("listed pieces have a design"), said)
}

fn sound(text: &str) -> Design {
    let (design, findings) = made(text);
    let bad: Vec<_> = findings.iter().filter(|f| f.severity <= Severity::Fix).collect();
    assert!(bad.is_empty(), "{bad:#?}");
    design
}

const CORNER: [&str; 2] = [
    r#"{"id":"side","material":"ply","at":[0,0,0],"size":[18,300,700],"cuts":[{"at":[12,0,400],"size":[6,300,18]}]},
       {"id":"shelf","name":"the shelf","material":"ply","at":[12,0,400],"size":[500,300,18]}"#,
    r#"{"parts":["side","shelf"],"kind":"dado","glue":true,"screws":{}}"#,
];

#[test]
fn a_part_is_where_the_file_says_and_weighs_what_is_left_of_it() {
    let d = sound(&file("mm", CORNER[0], CORNER[1]));
    let [side, shelf] = d.assembly.parts.as_slice() else { panic!("two parts") };
    assert_eq!(side.solid.bounds(), Box3::new([0; 3], [18_000, 300_000, 700_000]));
    assert_eq!(
        [side.length, side.width, side.thickness].map(|l| l.get()),
        [700_000, 300_000, 18_000]
    );
    assert_eq!(
        (side.grain, side.kind, shelf.name.as_str()),
        (Grain::Length, Kind::Panel, "the shelf")
    );
    // (18 × 300 × 700 − 6 × 300 × 18) mm³ at 600 kg/m³ = 2268 − 19.44 g.
    assert_eq!(side.mass_g, 2249);
    let [joint] = d.assembly.joints.as_slice() else { panic!("one joint") };
    assert_eq!((joint.kind, joint.glue), (JointKind::Dado, true));
    assert!(joint.fasteners.len() >= 2);
    assert!(joint.fasteners.iter().all(|f| f.direction == Direction::Right && f.entry[0] == 0));
}

#[test]
fn the_sizes_add_up() {
    let d = sound(&file("mm", CORNER[0], CORNER[1]));
    let row = |id: &str| d.sizes.iter().find(|r| r.id == id).unwrap_or_else(|| panic!("{id}"));
    assert_eq!(row("piece-width").value, 512_000);
    assert_eq!(
        row("piece-width").why,
        "left to right, from 0 mm (side) to 512 mm (the shelf) = 512 mm"
    );
    assert_eq!((row("piece-depth").value, row("piece-height").value), (300_000, 700_000));
    // 2249 g and 18 × 300 × 500 mm³ at 600 kg/m³, which is 1620 g.
    assert_eq!((row("piece-mass").value, row("piece-mass").text.as_str()), (3869, "3.87 kg"));
    assert_eq!(row("part-shelf").text, "500 × 300 × 18 mm");
    assert_eq!(row("part-shelf").label, "the shelf");
}

#[test]
fn screws_go_through_the_thickness_of_the_first_part_or_as_they_are_told() {
    let parts = r#"{"id":"side","material":"ply","at":[0,0,0],"size":[18,300,700]},
        {"id":"rail","material":"ply","at":[18,0,0],"size":[400,18,80]},
        {"id":"lid","material":"thin","at":[0,0,700],"size":[418,300,6]}"#;
    let joints = |screws: &str| {
        format!(
            r#"{{"parts":["side","rail"],"screws":{{}}}},{{"parts":["lid","side"],"kind":"overlay","screws":{screws}}}"#
        )
    };
    let d = sound(&file("mm", parts, &joints("{}")));
    let driven = |d: &Design, n: usize| d.assembly.joints[n].fasteners[0].clone();
    assert_eq!(driven(&d, 0).direction, Direction::Right);
    assert_eq!(
        (driven(&d, 1).direction, driven(&d, 1).kind.as_str()),
        (Direction::Down, "pan-head screw")
    );
    let at = r#"{"drive":"down","head":"pan","at":[[9,40,0],[9,260,0]]}"#;
    let placed = sound(&file("mm", parts, &joints(at)));
    let entries: Vec<_> = placed.assembly.joints[1].fasteners.iter().map(|f| f.entry).collect();
    assert_eq!(entries, [[9000, 40_000, 706_000], [9000, 260_000, 706_000]]);
    let (_, findings) = made(&file("mm", parts, &joints(r#"{"drive":"right"}"#)));
    let past = findings.iter().find(|f| f.code == "drive-past").expect("said");
    assert_eq!((past.place.as_str(), past.numbers["meet"].as_str()), ("piece.joints[1]", "down"));
}

#[test]
fn a_bought_part_has_its_own_mass_and_no_grain() {
    let parts = r#"{"id":"side","material":"ply","at":[0,0,0],"size":[18,300,700]},
        {"id":"bar","bought":"steel bar","at":[18,40,30],"size":[20,200,10],"mass_kg":0.314}"#;
    let d = sound(&file("mm", parts, r#"{"parts":["side","bar"],"glue":true}"#));
    let bar = &d.assembly.parts[1];
    assert_eq!((bar.kind, bar.mass_g, bar.material.as_str()), (Kind::Hardware, 314, "steel bar"));
    assert_eq!([bar.length, bar.width, bar.thickness].map(|l| l.get()), [200_000, 20_000, 10_000]);
    assert_eq!(bar.grain, Grain::None);
}

/// Ten sixteenths one after another are 3 micrometres off ten sixteenths at once.
#[test]
fn rounded_inches_leave_neither_gap_nor_overlap() {
    let mut parts =
        r#"{"id":"base","material":"mdf","at":[0,0,0],"size":["40","12","3/4"]}"#.to_owned();
    let mut joints = String::new();
    for n in 0..20 {
        let at = format!("{} {}/16", n, (n * 3) % 16);
        write!(parts, r#",{{"id":"rib-{n}","material":"mdf","at":["{at}",0,"3/4"],"size":["3/4","11 7/16","5 3/16"]}}"#)
            .expect("text");
        write!(
            joints,
            r#"{}{{"parts":["rib-{n}","base"],"glue":true}}"#,
            if n > 0 { "," } else { "" }
        )
        .expect("text");
    }
    let (_, findings) = made(&file("in", &parts, &joints));
    assert!(!findings.iter().any(|f| f.code == "joint-gap"), "{findings:#?}");
}

#[test]
fn a_body_that_hangs_on_nothing_is_told_of_once() {
    let parts = r#"{"id":"a","material":"ply","at":[0,0,0],"size":[18,300,700]},
        {"id":"b","material":"ply","at":[18,0,0],"size":[18,300,700]},
        {"id":"c","material":"ply","at":[500,0,0],"size":[18,300,700]},
        {"id":"d","material":"ply","at":[518,0,0],"size":[18,300,700]},
        {"id":"e","material":"ply","at":[536,0,0],"size":[18,300,700]}"#;
    let joints = r#"{"parts":["a","b"],"glue":true},{"parts":["c","d"],"glue":true},{"parts":["d","e"],"glue":true}"#;
    let (_, findings) = made(&file("mm", parts, joints));
    let said: Vec<_> = findings.iter().filter(|f| f.code == "not-joined").collect();
    assert_eq!(said.len(), 1, "{findings:#?}");
    assert_eq!(said[0].place, "part a");
    assert!(said[0].message.contains("2 parts"), "{}", said[0].message);
}

#[test]
fn a_dado_needs_a_channel() {
    let parts = r#"{"id":"side","material":"ply","at":[0,0,0],"size":[18,300,700]},
        {"id":"shelf","material":"ply","at":[18,0,400],"size":[500,300,18]}"#;
    let (_, findings) =
        made(&file("mm", parts, r#"{"parts":["side","shelf"],"kind":"dado","screws":{}}"#));
    let said = findings.iter().find(|f| f.code == "not-let-in").expect("said");
    assert_eq!((said.severity, said.place.as_str()), (Severity::Stop, "piece.joints[0]"));
}
