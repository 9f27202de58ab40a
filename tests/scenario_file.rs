//! Reading scenario files: what stands in them arrives, what is left out takes its default, and
//! nothing makes the reader panic.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};

use jointwise::findings::Severity;
use jointwise::geometry::{Box3, Direction};
use jointwise::scenario::{
    Arrange, Build, Cabinet, CarcassJoint, Content, FrontStyle, Head, Interior, ListedGrain,
    ListedKind, MaterialKind, Neighbour, RunnerKind, Scenario, Seam, Shop, Space, Stuff, Subject,
    read,
};
use jointwise::units::{Length, Notation};
use jointwise::wishes::{Done, Wishes};
use proptest::prelude::*;

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios").join(name).with_extension("json")
}

fn text(name: &str) -> String {
    fs::read_to_string(path(name)).unwrap()
}

/// A scenario read without fault.
fn scenario(text: &str) -> Scenario {
    let (scenario, findings) = read(text);
    let Some(scenario) = scenario else { panic!("{findings:#?}") };
    assert!(findings.iter().all(|f| f.severity == Severity::Note), "{findings:#?}");
    scenario
}

/// A cabinet's scenario laid open.
#[derive(Debug, PartialEq)]
struct Good {
    notation: Notation,
    space: Space,
    contents: Vec<Content>,
    build: Build,
    shop: Shop,
    wishes: Wishes,
}

fn good(text: &str) -> Good {
    let Scenario { notation, subject, shop, wishes, .. } = scenario(text);
    let Subject::Cabinet(cabinet) = subject else { panic!("a cabinet") };
    let Cabinet { space, contents, build, .. } = *cabinet;
    Good { notation, space, contents, build, shop, wishes }
}

#[test]
fn the_mud_room_arrives_whole() {
    let s = good(&text("mudroom-bins"));
    assert_eq!(s.notation, Notation::Inch16);
    assert_eq!(s.space.widths.len(), 3);
    assert_eq!(s.space.least_width(), Some(Length::inch(321, 16)));
    assert_eq!(s.space.height, Length::inch(139, 4));
    assert_eq!((s.space.left, s.space.right), (Neighbour::Unit, Neighbour::Unit));
    assert_eq!(s.space.floor.out_of_level, Length::inch(1, 8));
    let [bin] = s.contents.as_slice() else { panic!("one kind of bin") };
    assert_eq!((bin.count, bin.mass_g, bin.arrange), (2, 9_000, Arrange::InLine));
    assert_eq!(bin.width, Length::inch(29, 2));
    let Interior::PullOut(pull_out) = &s.build.interior else { panic!("a pull-out") };
    assert_eq!(pull_out.side_height, Some(Length::inch(8, 1)));
    assert_eq!(pull_out.runner.kind, RunnerKind::Undermount);
    assert_eq!(pull_out.runner.inside_deduction, Length::mm(42));
    let lengths: Vec<Length> = [9, 12, 15, 18, 21].map(|n| Length::inch(n, 1)).into();
    assert_eq!(pull_out.runner.lengths, lengths);
    assert_eq!(s.build.carcass.toe_recess, Length::inch(3, 1));
    assert_eq!(s.build.back.pieces, 1);
    assert_eq!(s.build.front.as_ref().map(|f| f.style), Some(FrontStyle::One));
    let ply = s.shop.material("ply-1/2").unwrap();
    assert_eq!(
        (ply.kind, ply.thickness, ply.grain),
        (MaterialKind::Plywood, Length::inch(15, 32), true)
    );
    assert!(!s.shop.material("mdf-3/4").unwrap().grain);
    assert_eq!(s.shop.screws.len(), 6);
    assert_eq!(s.shop.screws[3].head, Head::Pan);
    let w = &s.shop.workshop;
    assert_eq!(w.bit_length, Length::inch(7, 2).get());
    assert_eq!(w.clamps, [24 * 25_400, 36 * 25_400]);
    assert_eq!((w.people, w.square_check.as_str()), (1, "tape"));
}

#[test]
fn the_potting_shed_arrives_whole() {
    let s = good(&text("potting-shed"));
    assert_eq!(s.space.widths[0].width, Length::um(504_500), "decimal comma");
    assert_eq!(s.space.depth, Length::mm(620), "62 cm");
    assert_eq!((s.build.back.pieces, s.build.back.seam), (2, Seam::Level));
    assert_eq!(s.contents[0].mass_g, 12_500);
    let Interior::PullOut(pull_out) = &s.build.interior else { panic!("a pull-out") };
    assert_eq!(pull_out.runner.kind, RunnerKind::SideMount);
    // The bins must go into the box, by the side-mount rule: the opening less both runners.
    let side = s.shop.material("ply-18").unwrap().thickness;
    let box_side = s.shop.material("ply-12").unwrap().thickness;
    let outside = s.space.least_width().unwrap() - s.build.carcass.side_gap * 2;
    let inside_box = outside - side * 2 - pull_out.runner.thickness * 2 - box_side * 2;
    let bin = &s.contents[0];
    assert!(bin.width + bin.clearance * 2 <= inside_box);
    let longest = *pull_out.runner.lengths.last().unwrap();
    assert!(bin.depth * 2 + bin.clearance * 3 <= longest - box_side * 2);
    let front = s.shop.material("ply-18").unwrap().thickness;
    let back = s.shop.material("ply-6").unwrap().thickness;
    assert!(longest + Length::mm(25) <= s.space.depth - front - back);
}

#[test]
fn the_workshop_shelf_arrives_whole() {
    let s = good(&text("workshop-shelf"));
    assert!(s.contents.is_empty() && s.build.front.is_none());
    assert_eq!(s.build.carcass.joint, CarcassJoint::Dado);
    let Interior::Shelves(shelves) = &s.build.interior else { panic!("shelves") };
    assert_eq!(shelves.heights, [Length::mm(450)]);
    assert_eq!(shelves.material, "ply-18");
}

#[test]
fn the_tool_tray_arrives_part_by_part() {
    let s = scenario(&text("tool-tray"));
    let Subject::Listed(tray) = s.subject else { panic!("a listed piece") };
    assert_eq!(tray.stands_on, Direction::Down);
    let bodies: Vec<_> =
        tray.bodies.iter().map(|(id, name)| (id.as_str(), name.as_str())).collect();
    assert_eq!(bodies, [("main", "tray"), ("lift-out", "lift-out tray")]);
    assert_eq!(tray.parts.len(), 12);
    let divider = &tray.parts[5];
    assert_eq!((divider.name.as_str(), divider.body.as_str()), ("left divider", "main"));
    assert_eq!(divider.outer, Box3::new([148_000, 8000, 14_000], [160_000, 292_000, 80_000]));
    // The dado, measured from the front's corner, is where the divider's end is.
    assert_eq!(
        tray.parts[0].cuts[1],
        Box3::new([148_000, 8000, 14_000], [160_000, 12_000, 80_000])
    );
    let Stuff::Sheet { material, thin, grain } = &divider.stuff else { panic!("cut") };
    assert_eq!((material.as_str(), *thin, *grain), ("ply-12", 0, ListedGrain::Length));
    let joint = &tray.joints[2];
    assert_eq!((joint.parts, joint.kind, joint.glue), ([0, 5], ListedKind::Dado, true));
    let screws = joint.screws.as_ref().unwrap();
    assert!(screws.drive.is_none() && screws.head.is_none() && screws.at.is_none());
}

#[test]
fn the_rest_of_the_shop_and_what_is_decided_arrive() {
    let mut tree: serde_json::Value = serde_json::from_str(&text("workshop-shelf")).unwrap();
    let s = good(&tree.to_string());
    assert_eq!((s.wishes, s.shop.workshop.tools.len()), (Wishes::default(), 0));
    tree["shop"]["tools"] = serde_json::json!([{ "name": "offset driver", "length": 65, "width": 40, "bit_length": 25 }]);
    tree["shop"]["glue"] =
        serde_json::json!({ "open_minutes": 8, "closed_minutes": 0, "clamp_minutes": 45 });
    tree["shop"]["offcuts"] = serde_json::json!([
        { "id": "strip", "length": 80, "width": 300, "material": "ply-18" },
        { "id": "block", "name": "oak block", "length": 120, "width": 60, "thickness": "22,5" }
    ]);
    tree["order"] = serde_json::json!({
        "alone": true, "lay_on": ["top", "left", "top"], "done": { "parts": ["bottom"], "face": "front" }
    });
    let s = good(&tree.to_string());
    let w = &s.shop.workshop;
    let [tool] = w.tools.as_slice() else { panic!("one tool") };
    assert_eq!((tool.name.as_str(), tool.bit_width), ("offset driver", 12_000));
    assert_eq!((tool.length, tool.width, tool.bit_length), (65_000, 40_000, 25_000));
    assert_eq!((w.glue.open, w.glue.closed, w.glue.clamp), (8, 0, 45));
    let [strip, block] = w.offcuts.as_slice() else { panic!("two offcuts") };
    assert_eq!((strip.length, strip.width, strip.thickness), (300_000, 80_000, 17_800));
    assert_eq!((block.name.as_str(), block.thickness), ("oak block", 22_500));
    let wishes = Wishes {
        first: None,
        alone: true,
        lay_on: vec![Direction::Left, Direction::Up],
        done: Some(Done { parts: vec!["bottom".to_owned()], face: Direction::Front }),
    };
    assert_eq!(s.wishes, wishes);
    tree["order"] = serde_json::json!({ "first": "bottom" });
    assert_eq!(good(&tree.to_string()).wishes.first.as_deref(), Some("bottom"));
    // Whoever gives the glue's times is not told of those that would stand in.
    assert!(!read(&tree.to_string()).1.iter().any(|f| f.place == "shop.glue"));
}

#[test]
fn the_least_file_takes_every_default() {
    let least = |unit: &str| {
        format!(
            r#"{{"format":"jointwise-scenario/1","unit":"{unit}","space":{{"widths":[{{"width":"600 mm"}}],
            "height":"870 mm","depth":"600 mm"}},"contents":[{{"width":"300 mm","depth":"200 mm","height":"400 mm"}}],
            "build":{{"pull_out":{{}},"front":{{}}}}}}"#
        )
    };
    let (inch, mm, cm) = (good(&least("in")), good(&least("mm")), good(&least("cm")));
    assert_eq!(cm, mm, "centimetres take the metric defaults");
    assert_eq!((inch.notation, mm.notation), (Notation::Inch16, Notation::MmHalf));
    assert_eq!(inch.build.carcass.toe_height, Length::inch(4, 1));
    assert_eq!(mm.build.carcass.toe_height, Length::mm(100));
    assert_eq!(inch.build.carcass.material, "mdf-3/4");
    assert_eq!(mm.build.front.as_ref().unwrap().material, "mdf-18");
    assert_eq!(mm.build.back.material, "ply-6");
    let Interior::PullOut(pull_out) = &mm.build.interior else { panic!("a pull-out") };
    assert_eq!(
        (pull_out.material.as_str(), pull_out.bottom_material.as_str()),
        ("ply-12", "ply-6")
    );
    assert_eq!(pull_out.runner.under, Length::mm(3));
    assert_eq!(mm.contents[0].mass_g, 10_000);
    assert_eq!(mm.shop.workshop.people, 1);
    let notes = |s: &str| read(s).1.into_iter().map(|f| f.code).collect::<Vec<_>>();
    assert_eq!(
        notes(&least("mm")),
        ["default-used", "default-used", "runner-generic", "default-used"]
    );
}

#[test]
fn the_opening_may_be_left_to_the_contents() {
    let mut tree: serde_json::Value = serde_json::from_str(&text("mudroom-bins")).unwrap();
    tree["space"].as_object_mut().unwrap().remove("widths");
    assert_eq!(good(&tree.to_string()).space.least_width(), None);
}

#[test]
fn a_mark_in_front_of_the_text_does_no_harm() {
    assert_eq!(good(&format!("\u{feff}{}", text("mudroom-bins"))), good(&text("mudroom-bins")));
}

/// Either a scenario without a stop, or a stop with words.
fn sound(text: &str) -> Result<(), TestCaseError> {
    let (scenario, findings) = read(text);
    let stops = findings.iter().filter(|f| f.severity == Severity::Stop).count();
    prop_assert_eq!(scenario.is_none(), stops > 0, "{:#?}", findings);
    for f in &findings {
        prop_assert!(
            !f.place.is_empty() && f.message.ends_with('.') && f.hint.ends_with('.'),
            "{f:?}"
        );
    }
    Ok(())
}

/// Replaces the `n`th value of the tree, counted depth first.
fn replace(tree: &mut serde_json::Value, n: &mut usize, by: &serde_json::Value) {
    if *n == 0 {
        *tree = by.clone();
    }
    *n = n.wrapping_sub(1);
    match tree {
        serde_json::Value::Array(items) => {
            items.iter_mut().for_each(|item| replace(item, n, by));
        }
        serde_json::Value::Object(fields) => {
            fields.values_mut().for_each(|item| replace(item, n, by));
        }
        _ => {}
    }
}

fn odd_value() -> impl Strategy<Value = serde_json::Value> {
    use serde_json::json;
    prop_oneof![
        Just(json!(null)),
        Just(json!([])),
        Just(json!({})),
        Just(json!([null])),
        Just(json!([{}])),
        Just(json!(true)),
        any::<i64>().prop_map(|n| json!(n)),
        any::<u64>().prop_map(|n| json!(n)),
        any::<f64>().prop_map(|n| json!(n)),
        (-10i64..3000).prop_map(|n| json!(n)),
        "\\PC{0,70}".prop_map(|s| json!(s)),
        "[0-9 /.,'\"inm-]{0,12}".prop_map(|s| json!(s)),
    ]
}

proptest! {
    #[test]
    fn any_bytes_are_answered(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        sound(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn any_braces_are_answered(text in "[\\[\\]{}\":,a-c0-9 ]{0,60}") {
        sound(&text)?;
    }

    #[test]
    fn a_good_file_with_odd_values_is_answered(
        which in 0..4usize,
        changes in prop::collection::vec((0..300usize, odd_value()), 1..6),
    ) {
        let name = ["mudroom-bins", "potting-shed", "workshop-shelf", "tool-tray"][which];
        let mut tree: serde_json::Value = serde_json::from_str(&text(name)).unwrap();
        for (mut n, by) in changes {
            replace(&mut tree, &mut n, &by);
        }
        sound(&tree.to_string())?;
    }

    #[test]
    fn a_listed_piece_with_odd_values_is_built_or_told(
        changes in prop::collection::vec((0..140usize, odd_value()), 1..4),
    ) {
        let mut tree: serde_json::Value =
            serde_json::from_str(&text("cannot/one-piece-frame")).unwrap();
        for (mut n, by) in changes {
            replace(&mut tree, &mut n, &by);
        }
        let outcome = jointwise::build(&tree.to_string());
        let told = outcome.findings.iter().any(|f| f.severity == Severity::Stop);
        prop_assert!(outcome.plan.is_some() != told, "{:#?}", outcome.findings);
    }

    #[test]
    fn a_good_file_with_odd_characters_is_answered(
        at in prop::collection::vec((any::<prop::sample::Index>(), any::<char>()), 1..6),
    ) {
        let mut chars: Vec<char> = text("mudroom-bins").chars().collect();
        for (index, c) in at {
            let n = index.index(chars.len());
            chars[n] = c;
        }
        sound(&chars.into_iter().collect::<String>())?;
    }
}
