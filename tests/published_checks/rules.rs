//! Each rule: a scenario that trips it, one just inside, and its own hint applied, which clears it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::{Arc, Mutex};

use jointwise::Outcome;
use jointwise::checks::{Said, check};
use jointwise::findings::Severity;
use jointwise::plan::Plan;
use jointwise::scenario;
use jointwise::units::Length;
use serde_json::{Value, json};

/// Changes to a file: where, as a JSON pointer, and what stands there then.
pub(super) type Edits = Vec<(&'static str, Value)>;

pub(super) fn file(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios").join(name);
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn mudroom() -> Value {
    file("mudroom-bins.json")
}

pub(super) fn edited(mut base: Value, edits: &Edits) -> Value {
    for (at, value) in edits {
        let (parent, key) = at.rsplit_once('/').unwrap();
        if base.pointer(parent).is_none() {
            let (above, name) = parent.rsplit_once('/').unwrap();
            base.pointer_mut(above).unwrap()[name] = json!({});
        }
        match base.pointer_mut(parent).unwrap() {
            Value::Array(items) if key == "-" => items.push(value.clone()),
            Value::Array(items) => items[key.parse::<usize>().unwrap()] = value.clone(),
            other => other[key] = value.clone(),
        }
    }
    base
}

/// Outcomes of the files planned so far: several cases begin with the same.
static PLANNED: Mutex<BTreeMap<String, Arc<Outcome>>> = Mutex::new(BTreeMap::new());

pub(super) fn outcome(file: &Value) -> Arc<Outcome> {
    let text = file.to_string();
    if let Some(known) = PLANNED.lock().unwrap().get(&text) {
        return known.clone();
    }
    let made = Arc::new(jointwise::build(&text));
    PLANNED.lock().unwrap().insert(text, made.clone());
    made
}

/// Codes of what is said and not accepted.
fn codes(file: &Value) -> BTreeSet<String> {
    let outcome = outcome(file);
    assert!(outcome.plan.is_some(), "{:#?}", outcome.findings);
    outcome.findings.iter().filter(|f| f.accepted.is_none()).map(|f| f.code.clone()).collect()
}

/// A rule's code; a file; what trips the rule, what lies just inside, and the hint applied to what tripped it.
struct Case(&'static str, Value, Edits, Edits, Edits);

fn hold(cases: Vec<Case>) {
    for Case(code, base, trips, inside, cure) in cases {
        let tripped = edited(base.clone(), &trips);
        assert!(codes(&tripped).contains(code), "{code} is not said: {:?}", codes(&tripped));
        let good = codes(&edited(base, &inside));
        assert!(!good.contains(code), "{code} is said just inside: {good:?}");
        let cured = codes(&edited(tripped, &cure));
        assert!(!cured.contains(code), "{code} is said after its hint was applied: {cured:?}");
    }
}

/// Two sides, bottom and top, and a back if wanted; in whole millimetres.
pub(super) fn case(wide: i64, deep: i64, material: &str, back: bool) -> Value {
    let part = |id: &str, role: &str, material: &str, at: [i64; 3], size: [i64; 3]| json!({ "id": id, "role": role, "material": material, "at": at, "size": size });
    let mut parts = vec![
        part("left-side", "side", material, [0, 0, 0], [18, deep, 600]),
        part("right-side", "side", material, [18 + wide, 0, 0], [18, deep, 600]),
        part("bottom", "bottom", material, [18, 0, 0], [wide, deep, 18]),
        part("top", "top", material, [18, 0, 582], [wide, deep, 18]),
    ];
    let pairs = [
        ["left-side", "bottom"],
        ["right-side", "bottom"],
        ["left-side", "top"],
        ["right-side", "top"],
    ];
    let mut joints: Vec<Value> =
        pairs.iter().map(|p| json!({ "parts": p, "screws": {} })).collect();
    if back {
        parts.push(part("back", "back", "ply-6", [0, deep, 0], [wide + 36, 6, 600]));
        for edge in ["left-side", "right-side", "bottom", "top"] {
            joints.push(json!({ "parts": ["back", edge], "kind": "overlay", "screws": {} }));
        }
    }
    json!({ "format": "jointwise-scenario/1", "unit": "mm", "piece": { "parts": parts, "joints": joints } })
}

/// The same, three times as tall.
pub(super) fn tall(wide: i64, deep: i64) -> Value {
    let text = case(wide, deep, "mdf-18", true).to_string();
    serde_json::from_str(&text.replace("600]", "1800]").replace("582]", "1782]")).unwrap()
}

#[test]
fn rules_about_screws_are_tripped_and_cleared() {
    let at = |points: &[[i64; 3]]| json!({ "at": points });
    let first = "/piece/joints/0/screws";
    let strip =
        json!({ "id": "strip", "material": "ply-18", "at": [18, 0, 300], "size": [18, 300, 60] });
    let laid = |y: i64| json!({ "parts": ["strip", "left-side"], "kind": "overlay", "screws": { "drive": "left", "at": [[27, y, 330], [27, 150, 330]] } });
    let stripped = edited(
        case(500, 300, "mdf-18", false),
        &vec![("/piece/parts/-", strip), ("/piece/joints/-", laid(150))],
    );
    let notch = |tall: i64| {
        edited(
            case(500, 300, "ply-18", false),
            &vec![("/piece/parts/2/cuts", json!([{ "at": [20, 100, 0], "size": [20, 20, tall] }]))],
        )
    };
    let (notched, cut_through) = (notch(9), notch(18));
    let rail = json!({ "id": "rail", "role": "rail", "material": "ply-18", "at": [18, 0, 300], "size": [500, 20, 18] });
    let railed = edited(
        case(500, 300, "ply-18", false),
        &vec![
            ("/piece/parts/-", rail),
            ("/piece/joints/-", json!({ "parts": ["left-side", "rail"], "screws": {} })),
            ("/piece/joints/-", json!({ "parts": ["right-side", "rail"], "screws": {} })),
        ],
    );
    hold(vec![
        Case(
            "screw-end",
            case(500, 300, "ply-18", false),
            vec![(first, at(&[[9, 36, 9], [9, 264, 9]]))],
            vec![(first, at(&[[9, 38, 9], [9, 262, 9]]))],
            vec![(first, json!({}))],
        ),
        Case(
            "screw-spacing",
            case(500, 400, "ply-18", false),
            vec![(first, at(&[[9, 72, 9], [9, 327, 9]]))],
            vec![(first, at(&[[9, 73, 9], [9, 327, 9]]))],
            vec![(first, at(&[[9, 72, 9], [9, 200, 9], [9, 327, 9]]))],
        ),
        // A screw of 50 mm goes 32 mm into the bottom, which a notch cuts off there 20 mm in.
        Case(
            "screw-hold",
            cut_through,
            vec![(first, at(&[[9, 50, 9], [9, 119, 9], [9, 250, 9]]))],
            vec![(first, at(&[[9, 50, 9], [9, 120, 9], [9, 250, 9]]))],
            vec![(first, json!({}))],
        ),
        // A notch ends at 120 mm; a #8 screw's thread of 4.2 mm runs beside it.
        Case(
            "screw-void",
            notched,
            vec![(first, at(&[[9, 50, 9], [9, 122, 8], [9, 250, 9]]))],
            vec![(first, at(&[[9, 50, 9], [9, 123, 8], [9, 250, 9]]))],
            vec![(first, json!({}))],
        ),
        // A rail of 20 mm has no room for three #8 screws of 4.2 mm with 3 mm of wood between them.
        Case(
            "screw-crowd",
            railed,
            vec![("/piece/joints/4/screws", at(&[[9, 5, 309], [9, 10, 309], [9, 15, 309]]))],
            vec![("/piece/joints/4/screws", at(&[[9, 6, 309], [9, 14, 309]]))],
            vec![("/piece/joints/4/screws", at(&[[9, 10, 309]]))],
        ),
        Case(
            "screw-face",
            stripped,
            vec![("/piece/joints/4", laid(11))],
            vec![("/piece/joints/4", laid(12))],
            vec![("/piece/joints/4", laid(40))],
        ),
    ]);
}

#[test]
fn rules_about_panels_are_tripped_and_cleared() {
    let rail = |tall: i64| json!({ "id": "rail", "role": "rail", "material": "ply-18", "at": [18, 0, 18], "size": [500, 18, tall] });
    let railed = |tall: i64| -> Edits {
        vec![
            ("/piece/parts/-", rail(tall)),
            ("/piece/joints/-", json!({ "parts": ["left-side", "rail"], "screws": {} })),
            ("/piece/joints/-", json!({ "parts": ["right-side", "rail"], "screws": {} })),
        ]
    };
    let points =
        |x: i64, z: &[i64]| json!({ "at": z.iter().map(|z| [x, 300, *z]).collect::<Vec<_>>() });
    let screwed = |left: &[i64], right: &[i64]| -> Edits {
        vec![
            ("/piece/joints/4/screws", points(9, left)),
            ("/piece/joints/5/screws", points(527, right)),
            ("/piece/joints/6/screws", json!({ "at": [[268, 300, 9]] })),
            ("/piece/joints/7/screws", json!({ "at": [[268, 300, 591]] })),
        ]
    };
    let sheets = |kind: &str| -> Edits {
        vec![(
            "/shop/materials",
            json!([{ "id": "mdf-18", "kind": kind, "thickness": 18 }, { "id": "ply-6", "kind": "plywood", "thickness": 6 }]),
        )]
    };
    hold(vec![
        Case(
            "racking",
            case(500, 300, "ply-18", false),
            railed(199),
            railed(200),
            vec![
                (
                    "/piece/parts/-",
                    json!({ "id": "back", "role": "back", "material": "ply-6", "at": [0, 300, 0], "size": [536, 6, 600] }),
                ),
                (
                    "/piece/joints/-",
                    json!({ "parts": ["back", "left-side"], "kind": "overlay", "screws": {} }),
                ),
                (
                    "/piece/joints/-",
                    json!({ "parts": ["back", "right-side"], "kind": "overlay", "screws": {} }),
                ),
            ],
        ),
        // Three edges of 536 + 536 + 600 mm want six screws.
        Case(
            "back-fixing",
            case(500, 300, "ply-18", true),
            screwed(&[300], &[100, 500]),
            screwed(&[100, 500], &[100, 500]),
            vec![("/piece/joints/4/screws", json!({})), ("/piece/joints/5/screws", json!({}))],
        ),
        Case(
            "groove-left",
            mudroom(),
            vec![("/build/pull_out/groove_depth", json!("0.3"))],
            vec![("/build/pull_out/groove_depth", json!("0.28"))],
            vec![("/build/pull_out/groove_depth", json!("0.28"))],
        ),
        Case(
            "sag",
            case(750, 300, "mdf-18", true),
            sheets("mdf"),
            sheets("plywood"),
            sheets("plywood"),
        ),
    ]);
    assert!(
        !codes(&edited(case(700, 300, "mdf-18", true), &sheets("mdf"))).contains("sag"),
        "just inside"
    );
}

#[test]
fn rules_about_what_slides_and_tips_are_tripped_and_cleared() {
    let bins = |kg: f64| -> Edits { vec![("/contents/0/mass_kg", json!(kg))] };
    let high = |height: &str| -> Edits {
        vec![("/contents/0/height", json!(height)), ("/contents/0/clearance", json!("1/16"))]
    };
    let runner = |field: &'static str, value: Value| -> Edits { vec![(field, value)] };
    let rating = |kg: f64| runner("/build/pull_out/runner/rating_kg", json!(kg));
    let travel = |far: &str| runner("/build/pull_out/runner/travel", json!(far));
    let fixed: Edits = vec![("/install/to_wall", json!(true))];
    let unfixed = edited(mudroom(), &vec![("/install/to_wall", json!(false))]);
    let low: Edits = vec![
        ("/space/height", json!("27")),
        ("/contents/0/height", json!("12")),
        ("/contents/0/mass_kg", json!(0.1)),
    ];
    hold(vec![
        Case("runner-load", mudroom(), bins(18.5), bins(18.0), bins(15.0)),
        // The box weighs 9.1 kg, with two bins of 9 kg in it 27.1: less in it, or runners for more.
        Case("runner-load", mudroom(), rating(27.0), rating(27.2), bins(8.9)),
        Case("runner-load", mudroom(), rating(27.0), rating(27.2), rating(34.0)),
        // The second bin ends 19 1/2 in behind the box's front, in a box of 21 in: 20 7/16 in bring it out.
        Case("lift-out", mudroom(), travel("20 3/8"), travel("20 7/16"), travel("21")),
        Case("bin-air", mudroom(), high("28 3/16"), high("28"), high("27 3/4")),
        Case("tip-open", unfixed, vec![], low, fixed.clone()),
        Case("tip-push", tall(400, 200), vec![], fixed.clone(), fixed),
    ]);
    assert!(!codes(&tall(900, 600)).contains("tip-push"), "deep and heavy enough");
}

/// A slab on a carcass that stands back from its front edge, so deep.
fn overhung(deep: i64) -> Edits {
    let part = |id: &str, role: &str, at: [i64; 3], size: [i64; 3]| json!({ "id": id, "role": role, "material": "mdf-18", "at": at, "size": size });
    let y = 900 - deep;
    let parts = json!([
        part("left-side", "side", [0, y, 0], [18, deep, 700]),
        part("right-side", "side", [518, y, 0], [18, deep, 700]),
        part("bottom", "bottom", [18, y, 0], [500, deep, 18]),
        part("top", "top", [18, y, 682], [500, deep, 18]),
        part("slab", "other", [0, 0, 700], [536, 900, 18]),
    ]);
    let joint = |a: &str, b: &str| json!({ "parts": [a, b], "screws": {} });
    let joints = json!([
        joint("left-side", "bottom"),
        joint("right-side", "bottom"),
        joint("left-side", "top"),
        joint("right-side", "top"),
        { "parts": ["top", "slab"], "kind": "overlay", "screws": {} },
    ]);
    vec![("/piece/parts", parts), ("/piece/joints", joints)]
}

#[test]
fn what_tips_by_itself_is_made_deeper() {
    // Slab 7 kg in the middle of 900 mm; a deeper carcass is heavier and its feet stand before that.
    let base = case(500, 300, "mdf-18", false);
    hold(vec![Case("tip-closed", base, overhung(250), overhung(320), overhung(400))]);
}

#[test]
fn rules_about_lifting_are_tripped_and_cleared_by_a_helper() {
    let helper: Edits = vec![("/shop/people", json!(2))];
    hold(vec![
        Case("lift", mudroom(), vec![], helper.clone(), helper.clone()),
        Case("carry", mudroom(), vec![], helper.clone(), helper),
    ]);
    let tray = codes(&file("tool-tray.json"));
    assert!(!tray.contains("lift") && !tray.contains("carry"), "a light piece: {tray:?}");
}

#[test]
fn rules_about_fronts_are_tripped_and_cleared() {
    let gap = |reveal: &str, side: &str, top: &str| -> Edits {
        vec![
            ("/build/front/reveal", json!(reveal)),
            ("/build/carcass/side_gap", json!(side)),
            ("/build/carcass/top_gap", json!(top)),
        ]
    };
    let doors: Edits = vec![("/build/front/style", json!("drawer-over-doors"))];
    let styled = edited(mudroom(), &doors);
    hold(vec![
        Case(
            "front-gap",
            styled,
            gap("1.5 mm", "3 mm", "3 mm"),
            gap("1.6 mm", "3 mm", "3 mm"),
            gap("3.1 mm", "3 mm", "3 mm"),
        ),
        Case(
            "front-neighbour",
            mudroom(),
            gap("1.6 mm", "0.9 mm", "3 mm"),
            gap("1.6 mm", "1 mm", "3 mm"),
            gap("1.6 mm", "3.4 mm", "3 mm"),
        ),
        Case(
            "front-above",
            mudroom(),
            gap("1 mm", "3 mm", "0.7 mm"),
            gap("1 mm", "3 mm", "0.8 mm"),
            gap("1 mm", "3 mm", "3.4 mm"),
        ),
    ]);
}

#[test]
fn rules_about_doors_on_their_way_are_tripped_and_cleared() {
    let one = |field: &'static str, value: &str| -> Edits { vec![(field, json!(value))] };
    let walls: Edits = vec![("/space/left", json!("wall")), ("/space/right", json!("wall"))];
    let walled = edited(file("pantry-doors.json"), &walls);
    let beside = |gap: &str| one("/build/carcass/side_gap", gap);
    let narrow = edited(
        file("pantry-doors.json"),
        &vec![("/space/widths", json!([{ "at": 100, "width": 300 }]))],
    );
    let reveal = |gap: &str| one("/build/front/reveal", gap);
    hold(vec![
        // The doors stand 1.5 mm behind the carcass's sides.
        Case("door-at-wall", walled.clone(), beside("38 mm"), beside("39 mm"), beside("40 mm")),
        Case(
            "door-at-wall",
            walled,
            beside("38 mm"),
            one("/build/front/handle", "3 mm"),
            one("/build/front/handle", "39 mm"),
        ),
        // Doors 146 mm wide and 17.8 thick come out by 1.1 mm; 0.8 mm are likely off besides.
        Case("door-meet", narrow, reveal("1.8 mm"), reveal("1.9 mm"), reveal("2.7 mm")),
    ]);
}

#[test]
fn a_door_with_few_hinges_is_said() {
    let hinges = |n: i64| -> Edits { vec![("/build/doors/hinges", json!(n))] };
    let locker = file("broom-locker.json");
    // One leaf 798 mm wide and 774 tall, of a sheet so thick, in millimetres, and so heavy, in kilograms a cubic metre.
    let leaf = |thick: i64, density: i64, hinges: Value| -> Edits {
        let sheet = json!({ "id": "leaf", "kind": "mdf", "thickness": thick, "density": density });
        vec![
            ("/shop/materials/-", sheet),
            ("/build/front/material", json!("leaf")),
            ("/build/doors", json!({ "count": 1, "hinges": hinges })),
        ]
    };
    let pantry = || file("pantry-doors.json");
    let lighter: Edits = vec![("/shop/materials/3/density", json!(800))];
    hold(vec![
        // 1694 mm tall: 900 and two times 500.
        Case("hinge-count", locker, hinges(3), hinges(4), hinges(4)),
        Case("hinge-count", pantry(), leaf(18, 545, json!(2)), leaf(18, 535, json!(2)), hinges(3)),
        Case("hinge-count", pantry(), leaf(30, 1200, json!(6)), leaf(30, 1180, json!(6)), lighter),
    ]);
    // Where the file says nothing, there are enough of them.
    for density in [400, 700, 1100, 1500] {
        let said = codes(&edited(pantry(), &leaf(18, density, Value::Null)));
        assert!(!said.contains("hinge-count"), "{density}: {said:?}");
    }
}

#[test]
fn cold_glue_is_said_until_the_room_is_known_to_be_warm_enough() {
    let room = |c: i64| -> Edits { vec![("/shop/room_c", json!(c))] };
    let bottle: Edits = vec![("/shop/glue/least_c", json!(9))];
    hold(vec![
        Case("glue-cold", mudroom(), vec![], room(10), room(18)),
        Case("glue-cold", mudroom(), room(9), room(10), room(10)),
        Case("glue-cold", mudroom(), room(9), room(10), bottle),
    ]);
    let at = |edits: &Edits| {
        let said = outcome(&edited(mudroom(), edits));
        said.findings.iter().find(|f| f.code == "glue-cold").unwrap().clone()
    };
    let (asked, cold) = (at(&vec![]), at(&room(9)));
    assert_eq!([asked.severity, cold.severity], [Severity::Note, Severity::Caution]);
    assert!(cold.message.contains("At 9 °C (48 °F)"), "{}", cold.message);
    assert!(asked.message.contains("10 °C (50 °F)") && asked.step.is_some(), "{}", asked.message);
}

#[test]
fn rules_about_fixing_in_the_room_are_tripped_and_cleared() {
    let one = |field: &'static str, value: &str| -> Edits { vec![(field, json!(value))] };
    let counter = |screw: &str| -> Edits {
        vec![("/install/counter", json!("1 1/2")), ("/install/counter_screw", json!(screw))]
    };
    let wall = "/install/wall_screw";
    let join = "/install/joining_screw";
    let studs = |at: &str| -> Edits { vec![("/install/studs", json!([at]))] };
    hold(vec![
        // 3/4 of nailer, 7/32 of back, 1/2 of board: 1 to 1 1/4 in into the stud.
        Case("wall-screw", mudroom(), one(wall, "2 7/16"), one(wall, "2 1/2"), one(wall, "2 1/2")),
        Case("wall-screw", mudroom(), one(wall, "2 3/4"), one(wall, "2 11/16"), one(wall, "2 1/2")),
        Case("counter-screw", mudroom(), counter("2 3/16"), counter("2 1/8"), counter("2 1/16")),
        Case(
            "joining-screw",
            mudroom(),
            one(join, "1 1/2"),
            one(join, "1 7/16"),
            one(join, "1 3/8"),
        ),
        Case(
            "studs",
            mudroom(),
            studs("33 mm"),
            studs("34 mm"),
            vec![("/install/rail", json!(true))],
        ),
    ]);
}

#[test]
fn what_is_accepted_stays_listed_with_its_reason() {
    let entry = |code: &str, place: &str| json!({ "code": code, "where": place, "reason": "A mask, and outdoors." });
    let listed = |code: &str, place: &str| {
        edited(mudroom(), &vec![("/accepted", json!([entry(code, place)]))])
    };
    hold(vec![Case(
        "dust",
        mudroom(),
        vec![],
        vec![
            ("/build/carcass/material", json!("ply-1/2")),
            ("/build/front/material", json!("ply-1/2")),
        ],
        vec![("/accepted", json!([entry("dust", "material mdf-3/4")]))],
    )]);
    let outcome = outcome(&listed("dust", "material mdf-3/4"));
    let dust = outcome.findings.iter().find(|f| f.code == "dust").unwrap();
    assert_eq!(dust.accepted.as_deref(), Some("A mask, and outdoors."));
    // What nobody says any more is told, and taking the entry out clears that.
    assert!(codes(&listed("dust", "material oak")).contains("accepted-nothing"));
    assert!(!codes(&mudroom()).contains("accepted-nothing"));
    for (field, bad) in [("code", json!("")), ("where", Value::Null), ("reason", Value::Null)] {
        let mut file = listed("dust", "material mdf-3/4");
        file["accepted"][0][field] = bad;
        let said = jointwise::build(&file.to_string()).findings;
        assert!(
            said.iter()
                .any(|f| f.place == format!("accepted[0].{field}") && f.severity == Severity::Stop),
            "{field}: {said:?}"
        );
    }
}

/// Checks the mud-room plan after a change that the design would not make.
fn with(change: impl Fn(&mut Plan)) -> Said {
    let mut plan = outcome(&mudroom()).plan.clone().unwrap();
    change(&mut plan);
    check(&plan, &scenario::read(&mudroom().to_string()).0.unwrap())
}

fn says(said: &Said, code: &str) -> bool {
    said.findings.iter().any(|f| f.code == code)
}

#[test]
fn what_the_design_would_not_make_is_found_all_the_same() {
    let screw = |plan: &mut Plan, change: &dyn Fn(&mut jointwise::assembly::Fastener)| {
        let joint = plan.joints.iter_mut().find(|j| j.id == "left-side+bottom").unwrap();
        change(&mut joint.fasteners[1]);
    };
    let long = |um: i64| with(|p| screw(p, &|s| s.length = Length::um(um)));
    assert!(
        says(&long(38_000), "screw-hold") && !says(&long(38_200), "screw-hold"),
        "half of it, or an inch, bites"
    );
    let drilled = |um: i64| with(|p| screw(p, &|s| s.pilot = Length::um(um)));
    assert!(says(&drilled(3_000), "pilot") && !says(&drilled(2_900), "pilot"));
    // What its hint names is read as a maker types it.
    let said = drilled(3_000);
    let hint = &said.findings.iter().find(|f| f.code == "pilot").unwrap().hint;
    let named = hint.trim_start_matches("Drill ").trim_end_matches(" instead.");
    let named = jointwise::units::parse_length(named, jointwise::units::Unit::Inch).unwrap();
    assert!(!says(&drilled(named.get()), "pilot"), "{hint}");
    let moved = |by: i64| with(|p| screw(p, &|s| s.entry[2] += by));
    assert!(says(&moved(7_500), "screw-void") && !says(&moved(7_400), "screw-void"));
    // Two #8 screws of 4.166 mm, so far apart.
    let crowded = |apart: i64| {
        with(|p| {
            let joint = p.joints.iter_mut().find(|j| j.id == "left-side+bottom").unwrap();
            joint.fasteners[1].entry[1] = joint.fasteners[0].entry[1] + apart;
        })
    };
    assert!(says(&crowded(7_100), "screw-crowd") && !says(&crowded(7_200), "screw-crowd"));
    let heavy = |g: i64| with(|p| p.parts.iter_mut().find(|p| p.id == "front").unwrap().mass_g = g);
    assert!(says(&heavy(120_000), "tip-closed") && !says(&heavy(40_000), "tip-closed"));
    // A thick screw splits a thin edge.
    assert!(says(&with(|p| screw(p, &|s| s.gauge = 10)), "screw-hold"));
}

#[test]
fn a_row_fails_exactly_when_something_is_said_about_it() {
    for name in ["mudroom-bins.json", "potting-shed.json", "tool-tray.json", "workshop-shelf.json"]
    {
        let outcome = jointwise::build(&file(name).to_string());
        for row in outcome.checks.iter().filter(|r| r.passed == Some(false)) {
            let said = outcome.findings.iter().any(|f| f.code == row.rule);
            assert!(said, "{name}: {} fails and nothing is said", row.rule);
        }
        for row in &outcome.checks {
            assert!(
                !row.source.is_empty() && !row.formula.is_empty() && !row.what.is_empty(),
                "{row:?}"
            );
            assert!(row.passed.is_none() || !row.limit.is_empty(), "{row:?}");
        }
        assert!(outcome.checks.len() > 10, "{name}");
    }
}
