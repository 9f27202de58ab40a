//! Broken files: each must be told what is wrong, where, and how to mend it; none may panic.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use jointwise::findings::{Finding, Severity};
use jointwise::scenario::read;

/// Found while reading: file, code, place.
const READING: &[(&str, &str, &str)] = &[
    ("above-unknown", "unknown-value", "space.above"),
    ("across-without-grid", "across-without-grid", "contents[0].across"),
    ("ambiguous-comma", "length-unreadable", "space.height"),
    ("back-in-grooves-of-two", "back-in-grooves", "build.back.pieces"),
    ("back-three-pieces", "number-range", "build.back.pieces"),
    ("banding-as-thick-as-a-board", "length-range", "build.banding.thickness"),
    ("bin-count-none", "number-range", "contents[0].count"),
    ("bit-longer-than-drill", "length-order", "shop.drill.bit_length"),
    ("blank-file", "file-empty", "file"),
    ("both-interiors", "interior-choice", "build"),
    ("cut-short", "not-json", "file"),
    ("deep-nesting", "not-json", "file"),
    ("deep-nesting-in-title", "not-json", "file"),
    ("dividers-none", "number-range", "build.dividers.count"),
    ("depths-unreadable", "length-unreadable", "space.depths[0].depth"),
    ("diagonal-alone", "missing-field", "space.diagonals.falling"),
    ("diagonal-too-long", "length-range", "space.diagonals.falling"),
    ("diagonals-as-list", "wrong-type", "space.diagonals"),
    ("done-part-twice", "part-twice", "order.done.parts[2]"),
    ("done-without-face", "missing-field", "order.done.face"),
    ("door-hung-above", "unknown-value", "build.doors.hung"),
    ("doors-three", "number-range", "build.doors.count"),
    ("drawer-box-of-no-sheet", "unknown-material", "build.drawers.box.material"),
    ("drawer-groove-through", "cut-too-deep", "build.drawers.box.groove_depth"),
    ("drawer-height-negative", "length-unreadable", "build.drawers.heights[0]"),
    ("drawer-heights-too-many", "drawer-heights", "build.drawers.heights"),
    ("drawer-runner-unknown", "unknown-value", "build.drawers.box.runner.kind"),
    ("drawers-beside-pull-out", "interior-choice", "build"),
    ("drawers-six", "number-range", "build.drawers.count"),
    ("duplicate-material", "duplicate-material", "shop.materials[3].id"),
    ("empty-file", "file-empty", "file"),
    ("exponent-height", "length-unreadable", "space.height"),
    ("false-front-inset", "front-inset", "build.front.mount"),
    ("field-twice", "duplicate-field", "space.depth"),
    ("foot-unknown", "unknown-value", "build.carcass.foot"),
    ("floor-leans-in", "slope-way", "space.floor.across.way"),
    ("floor-too-steep", "slope-steep", "space.floor.along"),
    ("gauge-out-of-range", "number-range", "shop.screws[0].gauge"),
    ("glue-least-in-words", "wrong-type", "shop.glue.least_c"),
    ("glue-least-too-warm", "number-range", "shop.glue.least_c"),
    ("glue-never-open", "number-range", "shop.glue.open_minutes"),
    ("grid-across-none", "number-range", "contents[0].across"),
    ("grid-too-wide", "grid-too-wide", "contents[0].across"),
    ("groove-through-side", "cut-too-deep", "build.pull_out.groove_depth"),
    ("handle-as-long-as-a-hand", "length-range", "build.front.handle"),
    ("hidden-part-twice", "part-twice", "cut.hidden[1]"),
    ("hinge-cup-of-a-plate", "length-range", "build.doors.cup"),
    ("hinge-cup-through", "length-range", "build.doors.cup_depth"),
    ("hinge-only-one", "number-range", "build.doors.hinges"),
    ("heights-too-low", "length-range", "space.heights[0].height"),
    ("heights-too-many", "list-length", "space.heights"),
    ("heights-without-side", "missing-field", "space.heights[0].side"),
    ("huge-width", "length-unreadable", "space.widths[0].width"),
    ("infinity-text", "length-unreadable", "contents[0].height"),
    ("just-a-number", "wrong-type", "file"),
    ("lay-on-no-face", "unknown-value", "order.lay_on[1]"),
    ("lift-unreadable", "length-unreadable", "contents[0].lift"),
    ("made-length-none", "length-range", "made.parts[0].length"),
    ("made-length-unreadable", "length-unreadable", "made.parts[0].length"),
    ("made-part-twice", "part-twice", "made.parts[1].id"),
    ("made-part-without-id", "missing-field", "made.parts[0].id"),
    ("made-sheet-too-thick", "length-range", "made.sheets[0].thickness"),
    ("made-sheet-twice", "duplicate-material", "made.sheets[1].material"),
    ("made-sheet-unknown", "unknown-material", "made.sheets[0].material"),
    ("made-sheet-without-thickness", "missing-field", "made.sheets[0].thickness"),
    ("made-spoiled-as-text", "wrong-type", "made.parts[0].spoiled"),
    ("made-unknown-field", "unknown-field", "made.parts[0].lenght"),
    ("made-wider-than-long", "length-order", "made.parts[0].width"),
    ("many-at-once", "unknown-value", "build.carcass.joint"),
    ("missing-bin-width", "missing-field", "contents[0].width"),
    ("missing-format", "missing-field", "format"),
    ("missing-height", "missing-field", "space.height"),
    ("missing-space", "missing-field", "space"),
    ("missing-thickness", "missing-field", "shop.materials[1].thickness"),
    ("missing-unit", "missing-field", "unit"),
    ("nan-bare", "not-json", "file"),
    ("nan-text", "length-unreadable", "space.height"),
    ("negative-text", "length-unreadable", "space.depth"),
    ("negative-width", "length-unreadable", "space.widths[1].width"),
    ("no-contents", "missing-field", "contents"),
    ("no-interior", "interior-choice", "build"),
    ("no-materials", "list-length", "shop.materials"),
    ("no-screws", "list-length", "shop.screws"),
    ("no-width-at-all", "missing-field", "space.widths"),
    ("not-an-object", "wrong-type", "file"),
    ("obstacle-before-the-front", "length-unreadable", "space.obstacles[0].at[1]"),
    ("obstacle-kind-unknown", "unknown-value", "space.obstacles[0].kind"),
    ("obstacle-of-two-lengths", "list-length", "space.obstacles[0].size"),
    ("obstacle-without-place", "missing-field", "space.obstacles[0].at"),
    ("offcut-of-no-sheet", "unknown-material", "shop.offcuts[0].material"),
    ("offcut-with-two-thicknesses", "offcut-thickness", "shop.offcuts[0]"),
    ("passage-too-narrow", "length-range", "space.passages[0].width"),
    ("passage-without-height", "missing-field", "space.passages[0].height"),
    ("people-fraction", "number-range", "shop.people"),
    ("people-none", "number-range", "shop.people"),
    ("piece-beside-a-space", "piece-or-build", "space"),
    ("piece-bought-without-mass", "missing-field", "piece.parts[4].mass_kg"),
    ("piece-cut-away", "cut-away", "piece.parts[4].cuts"),
    ("piece-cut-in-two", "part-in-two", "piece.parts[4].cuts"),
    ("piece-cut-outside", "cut-outside", "piece.parts[2].cuts[0]"),
    ("piece-cut-too-deep", "cut-too-deep", "piece.parts[2].cuts[0]"),
    ("piece-empty-body", "body-empty", "piece.bodies[1]"),
    ("piece-far-away", "length-range", "piece.parts[3].at[0]"),
    ("piece-glued-slide", "joint-loose", "piece.joints[5].glue"),
    ("piece-id-with-plus", "id-form", "piece.parts[4].id"),
    ("piece-joined-to-itself", "joined-to-itself", "piece.joints[0].parts"),
    ("piece-joined-twice", "joined-twice", "piece.joints[6].parts"),
    ("piece-joint-of-three", "list-length", "piece.joints[4].parts"),
    ("piece-joint-of-unknown-part", "unknown-part", "piece.joints[4].parts[0]"),
    ("piece-of-unknown-body", "unknown-body", "piece.parts[4].body"),
    ("piece-part-twice", "duplicate-id", "piece.parts[1].id"),
    ("piece-part-without-stuff", "cut-or-bought", "piece.parts[4]"),
    ("piece-place-of-two-lengths", "list-length", "piece.parts[3].at"),
    ("piece-place-that-is-no-list", "wrong-type", "piece.parts[3].at"),
    ("piece-screws-in-a-groove", "joint-loose", "piece.joints[5].screws"),
    ("piece-set-against-itself", "set-against-itself", "piece.parts[4].set_against[0]"),
    ("piece-size-none", "length-range", "piece.parts[3].size[0]"),
    ("piece-thickness-mismatch", "thickness-mismatch", "piece.parts[4].size"),
    ("piece-too-many-parts", "list-length", "piece.parts"),
    ("piece-unknown-way", "unknown-value", "piece.joints[0].screws.drive"),
    ("piece-without-joints", "missing-field", "piece.joints"),
    ("piece-without-parts", "missing-field", "piece.parts"),
    ("pin-hole-of-a-dowel", "length-range", "build.shelves.hole"),
    ("pinned-without-a-length", "length-unreadable", "build.pins.carcass-width"),
    ("pins-too-close", "length-range", "build.shelves.pitch"),
    ("rabbet-through-side", "cut-too-deep", "build.carcass.dado_depth"),
    ("room-too-hot", "number-range", "shop.room_c"),
    ("run-count-fraction", "number-range", "run.count"),
    ("run-custom-order", "length-order", "run.custom.least"),
    ("run-filler-order", "length-order", "run.filler_least"),
    ("run-least-over-most", "length-order", "run.least"),
    ("run-step-none", "length-range", "run.step"),
    ("run-wanted-none", "number-range", "run.wanted[0].count"),
    ("run-wish-outside", "length-order", "run.custom.wish"),
    ("run-without-wall", "missing-field", "run.wall"),
    ("room-corner-missing", "missing-field", "install.corners.rear_right"),
    ("room-height-above-reach", "length-range", "install.height"),
    ("room-level-too-short", "length-range", "install.level"),
    ("room-studs-as-one", "wrong-type", "install.studs"),
    ("runner-rating-in-words", "wrong-type", "build.drawers.box.runner.rating_kg"),
    ("runner-rating-none", "number-range", "build.drawers.box.runner.rating_kg"),
    ("runner-travel-short", "length-range", "build.drawers.box.runner.travel"),
    ("saw-kerf-negative", "length-unreadable", "shop.saw.kerf"),
    ("saw-kerf-too-wide", "length-range", "shop.saw.kerf"),
    ("saw-stages-five", "number-range", "shop.saw.stages"),
    ("screw-too-long", "length-range", "shop.screws[0].length"),
    ("sequence-of-one", "list-length", "cut.sequences[0]"),
    ("sequences-share-a-part", "part-twice", "cut.sequences[1]"),
    ("shelf-fixing-unknown", "unknown-value", "build.shelves.fixing"),
    ("shelf-twice", "shelf-twice", "build.shelves.heights"),
    ("stock-count-negative", "number-range", "shop.stock[0].count"),
    ("stock-grain-unknown", "unknown-value", "shop.stock[0].grain"),
    ("stock-length-none", "length-range", "shop.stock[0].length"),
    ("stock-of-no-material", "unknown-material", "shop.stock[0].material"),
    ("stock-rough-unknown", "unknown-value", "shop.stock[0].rough[0]"),
    ("stock-twice", "duplicate-id", "shop.stock[1].id"),
    ("stock-without-width", "missing-field", "shop.stock[0].width"),
    ("supply-twice", "duplicate-id", "shop.supplies[1].id"),
    ("title-with-line-break", "text-range", "title"),
    ("tool-bit-longer-than-tool", "length-order", "shop.tools[0].bit_length"),
    ("top-overhang-huge", "length-range", "build.carcass.top_overhang"),
    ("top-unknown", "unknown-value", "build.carcass.top"),
    ("trailing-comma", "not-json", "file"),
    ("two-documents", "not-json", "file"),
    ("unknown-field", "unknown-field", "build.carcass.toe_hieght"),
    ("unknown-material", "unknown-material", "build.carcass.material"),
    ("unknown-root-field", "unknown-field", "contnets"),
    ("unknown-runner-kind", "unknown-value", "build.pull_out.runner.kind"),
    ("wall-in-two-forms", "slope-form", "space.walls.right"),
    ("wall-measured-nowhere", "slope-form", "space.walls.back"),
    ("wall-one-distance", "missing-field", "space.walls.left.second"),
    ("wall-that-rises", "slope-way", "space.walls.left.way"),
    ("wall-without-over", "missing-field", "space.walls.left.over"),
    ("wall-without-way", "missing-field", "space.walls.back.way"),
    ("width-from-the-left", "unknown-value", "space.widths[0].from"),
    ("wrong-type-glue", "wrong-type", "build.carcass.glue"),
    ("wrong-type-people", "wrong-type", "shop.people"),
    ("wrong-type-space", "wrong-type", "space"),
    ("wrong-type-width-entry", "wrong-type", "space.widths[1]"),
    ("wrong-version", "format-version", "format"),
    ("zero-denominator", "length-unreadable", "shop.materials[2].thickness"),
    ("zero-thickness", "length-range", "shop.materials[0].thickness"),
];

/// Read without fault; found once the piece is designed: file, code, place.
const DESIGN: &[(&str, &str, &str)] = &[
    ("bins-deeper-than-opening", "contents-too-deep", "contents"),
    ("bins-taller-than-opening", "contents-too-high", "contents"),
    ("bins-wider-than-opening", "contents-too-wide", "contents"),
    ("divider-cut-through", "divider-dado", "build.carcass.dado_depth"),
    ("done-part-unknown", "unknown-part", "order.done.parts[1]"),
    ("drawer-fronts-too-low", "front-height", "build.drawers.heights"),
    ("drawer-heights-do-not-add-up", "front-height", "build.drawers.heights"),
    ("first-part-unknown", "unknown-part", "order.first"),
    ("hidden-part-unknown", "unknown-part", "cut.hidden[0]"),
    ("hinge-deeper-than-the-door", "hinge-cup", "build.doors.cup"),
    ("hinges-too-many", "hinge-room", "build.doors.hinge_inset"),
    ("legs-with-no-room", "carcass-room", "build.carcass.toe_height"),
    ("made-part-unknown", "unknown-part", "made.parts[0].id"),
    ("made-runner", "made-bought", "made.parts[0].id"),
    ("offcut-named-like-a-part", "duplicate-id", "shop.offcuts[0].id"),
    ("piece-driven-past", "drive-past", "piece.joints[0]"),
    ("piece-groove-that-is-none", "not-let-in", "piece.joints[0]"),
    ("piece-in-two-pieces", "not-joined", "part front"),
    ("piece-part-joined-to-nothing", "not-joined", "part shelf"),
    ("piece-parts-apart", "joint-gap", "joint back+right-end"),
    ("piece-parts-overlap", "parts-overlap", "part left-end"),
    ("pinned-twice-over", "pin-clash", "build.pins.carcass-width"),
    ("pinned-what-is-given", "pin-clash", "build.pins.carcass-inside-width"),
    ("pinned-what-is-not", "unknown-pin", "build.pins.carcass-widht"),
    ("shelf-in-the-nailer", "shelf-room", "build.shelves"),
    ("walls-leave-no-room", "contents-too-wide", "contents"),
];

/// Planned all the same, with something to put right before the first cut: file, code, place.
const SAWN: &[(&str, &str, &str)] = &[
    ("saw-kerf-none", "kerf-zero", "shop.saw.kerf"),
    ("saw-no-safe-cut", "narrower-than-safe", "part toe-kick"),
    ("sequence-of-two-widths", "sequence-does-not-match", "cut.sequences[0]"),
    ("stock-all-trimmed", "trim-takes-all", "shop.stock[0].rough"),
    ("stock-for-hidden-parts-only", "only-scrap-fits", "part left-side"),
    ("stock-narrow-across-the-grain", "grain-does-not-fit", "part left-side"),
    ("stock-price-negative", "price-range", "shop.stock[0].price"),
    ("stock-smaller-than-a-part", "bigger-than-stock", "part left-side"),
    ("stock-used-up", "stock-used-up", "part bottom"),
];

fn broken(name: &str) -> String {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("broken").join(name).with_extension("json");
    fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// What every file with a fault must get: no scenario, and findings that help.
fn stopped(name: &str, text: &str) -> Vec<Finding> {
    let (scenario, findings) = read(text);
    assert!(scenario.is_none(), "{name} was read as if nothing were wrong");
    assert_eq!(findings.first().map(|f| f.severity), Some(Severity::Stop), "{name}: {findings:#?}");
    for f in &findings {
        for (what, text) in [("place", &f.place), ("message", &f.message), ("hint", &f.hint)] {
            assert!(!text.trim().is_empty(), "{name}: no {what} in {f:?}");
            assert!(text.chars().count() < 400, "{name}: {what} too long in {f:?}");
        }
        for sentence in [&f.message, &f.hint] {
            assert!(sentence.ends_with('.'), "{name}: not a sentence: {sentence}");
        }
        assert!(
            f.place == "file"
                || f.message.contains(f.place.rsplit(['.']).next().unwrap_or_default())
                || f.code == "duplicate-material"
                || f.code == "shelf-twice",
            "{name}: the message does not name the field: {f:?}"
        );
    }
    findings
}

#[test]
fn each_broken_file_gets_its_finding_and_only_that() {
    for &(name, code, place) in READING {
        if name == "many-at-once" {
            continue;
        }
        let findings = stopped(name, &broken(name));
        let stops: Vec<(&str, &str)> = findings
            .iter()
            .filter(|f| f.severity == Severity::Stop)
            .map(|f| (f.code.as_str(), f.place.as_str()))
            .collect();
        assert_eq!(stops, [(code, place)], "{name}: {findings:#?}");
    }
}

#[test]
fn everything_wrong_is_told_at_once() {
    let findings = stopped("many-at-once", &broken("many-at-once"));
    let got: BTreeSet<(&str, &str)> =
        findings.iter().map(|f| (f.code.as_str(), f.place.as_str())).collect();
    let want: BTreeSet<(&str, &str)> = [
        ("length-unreadable", "space.height"),
        ("unknown-field", "space.depht"),
        ("missing-field", "space.depth"),
        ("number-range", "shop.people"),
        ("unknown-material", "build.carcass.material"),
        ("unknown-value", "build.carcass.joint"),
        ("runner-generic", "build.pull_out.runner"),
        ("default-used", "shop.glue"),
    ]
    .into();
    assert_eq!(got, want);
}

#[test]
fn findings_say_the_value_the_range_and_the_cure() {
    let one = |name| stopped(name, &broken(name)).swap_remove(0);
    let zero = one("zero-thickness");
    assert_eq!(zero.message, "`shop.materials[0].thickness` is 0, which is out of range.");
    assert_eq!(
        zero.hint,
        "Write a length from 2 mm to 60 mm; a number without a unit is in millimetres."
    );
    assert!(one("unknown-field").hint.contains("`toe_height`"));
    assert!(one("unknown-material").hint.contains("`ply-18`"));
    assert!(one("unknown-runner-kind").hint.contains("`undermount`"));
    assert!(one("unknown-runner-kind").hint.contains("side-mount"));
    assert!(one("nan-text").message.contains("\"NaN\""));
    assert!(one("negative-width").message.contains("-602"));
    assert!(one("people-none").hint.contains("from 1 to 4"));
    assert!(one("wrong-version").hint.contains("jointwise-scenario/1"));
    assert_eq!(one("cut-short").numbers.keys().collect::<Vec<_>>(), ["column", "line"]);
}

#[test]
fn faults_of_the_design_read_without_fault() {
    for &(name, code, place) in DESIGN {
        let (scenario, findings) = read(&broken(name));
        assert!(scenario.is_some(), "{name}: {findings:#?}");
        let outcome = jointwise::build(&broken(name));
        assert!(outcome.plan.is_none(), "{name} is planned all the same");
        let stops: Vec<(&str, &str)> = outcome
            .findings
            .iter()
            .filter(|f| f.severity == Severity::Stop)
            .map(|f| (f.code.as_str(), f.place.as_str()))
            .collect();
        assert_eq!(stops, [(code, place)], "{name}: {:#?}", outcome.findings);
        assert!(outcome.findings[0].hint.ends_with('.'), "{name}: {:?}", outcome.findings[0]);
        if place == "contents" {
            assert!(!outcome.findings[0].numbers.is_empty(), "{name}: {:?}", outcome.findings[0]);
        }
    }
}

#[test]
fn faults_of_the_stock_are_to_be_put_right_and_all_else_is_planned() {
    for &(name, code, place) in SAWN {
        let outcome = jointwise::build(&broken(name));
        let Some(plan) = outcome.plan else { panic!("{name}: {:#?}", outcome.findings) };
        assert!(plan.cutting.is_some() && !plan.steps.is_empty(), "{name}");
        let serious = outcome.findings.iter().filter(|f| f.severity <= Severity::Fix);
        let serious: Vec<&Finding> = serious.collect();
        assert!(serious.iter().all(|f| f.code == code), "{name}: {serious:#?}");
        assert_eq!(serious.first().map(|f| f.place.as_str()), Some(place), "{name}: {serious:#?}");
        assert!(serious.iter().all(|f| f.message.ends_with('.') && f.hint.ends_with('.')));
    }
}

#[test]
fn every_broken_file_is_in_a_table_once() {
    let tables: Vec<&str> = READING.iter().chain(DESIGN).chain(SAWN).map(|(n, ..)| *n).collect();
    let listed: BTreeSet<String> = tables.iter().map(|n| format!("{n}.json")).collect();
    assert_eq!(listed.len(), tables.len(), "a file is listed twice");
    let there: BTreeSet<String> =
        fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("broken"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
    assert_eq!(listed, there);
    assert!(there.len() >= 20);
}

#[test]
fn files_too_big_to_keep_here() {
    let code = |text: &str| stopped("generated", text).swap_remove(0).code;
    assert_eq!(code(&"[".repeat(10 << 20)), "file-too-big");
    assert_eq!(code(&"[".repeat(1 << 20)), "not-json");
    assert_eq!(code(&"{\"a\":".repeat(100_000)), "not-json");
    assert_eq!(code(&"9".repeat(1 << 20)), "not-json");
    let strangers: Vec<String> = (0..50_000).map(|n| format!("\"s{n}\":{n}")).collect();
    let findings = stopped("strangers", &format!("{{{}}}", strangers.join(",")));
    assert!(findings.len() < 40, "{} findings", findings.len());
    let misfits = vec!["5"; 100_000].join(",");
    let findings = stopped("misfits", &format!("{{\"contents\":[{misfits}]}}"));
    assert!(findings.len() < 140, "{} findings", findings.len());
    let screws = vec!["{}"; 100_000].join(",");
    let findings = stopped("screws", &format!("{{\"shop\":{{\"screws\":[{screws}]}}}}"));
    assert!(findings.len() < 140, "{} findings", findings.len());
}
