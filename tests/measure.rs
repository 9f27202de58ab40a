//! Measuring, runs, contents and what is cut already, against geometry, brute force and publications.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "measure/chance.rs"]
mod chance;
#[path = "measure/contents.rs"]
mod contents;
#[path = "measure/cut_already.rs"]
mod cut_already;
#[path = "measure/gap.rs"]
mod gap;
#[path = "measure/run.rs"]
mod run;
#[path = "measure/way_in.rs"]
mod way_in;

use jointwise::assembly::Assembly;
use jointwise::findings::Finding;
use jointwise::made::{self, MadeRow};
use jointwise::measure::measure;
use jointwise::measure::run::{Fill, fill};
use jointwise::outcome::SizeRow;
use jointwise::scenario::{self, Subject};
use serde_json::{Value, json};

/// A pull-out in millimetres in a gap 600 wide, 870 high and 580 deep, with changes.
fn cabinet(change: impl FnOnce(&mut Value)) -> Seen {
    let mut tree = json!({
        "format": "jointwise-scenario/1", "unit": "mm", "print": "mm-tenth",
        "space": {
            "widths": [{ "at": 0, "width": 600 }, { "at": 870, "width": 600 }],
            "height": 870, "depth": 580, "left": "wall", "right": "wall"
        },
        "contents": [{ "name": "bin", "width": 230, "depth": 400, "height": 350, "count": 2, "mass_kg": 8 }],
        "build": {
            "carcass": { "material": "ply-18" }, "back": { "material": "ply-6" },
            "pull_out": { "material": "ply-12", "bottom_material": "ply-6" }, "front": { "material": "ply-18" }
        },
        "shop": { "materials": [
            { "id": "ply-18", "kind": "plywood", "thickness": 18 },
            { "id": "ply-12", "kind": "plywood", "thickness": 12 },
            { "id": "ply-6", "kind": "plywood", "thickness": 6 }
        ] }
    });
    change(&mut tree);
    seen(&tree.to_string())
}

/// What comes of a scenario without its order, which takes its time.
struct Seen {
    findings: Vec<Finding>,
    sizes: Vec<SizeRow>,
    measured: Vec<SizeRow>,
    run: Vec<Fill>,
    made: Vec<MadeRow>,
    piece: Assembly,
}

fn seen(text: &str) -> Seen {
    let (scenario, mut findings) = scenario::read(text);
    let scenario = scenario.unwrap_or_else(|| panic!("{findings:#?}"));
    let followed = made::follow(&scenario);
    findings.extend(followed.findings);
    let designed = followed.designed.expect("no design");
    let (measured, said) = measure(&followed.scenario, Some(&designed.assembly));
    findings.extend(said);
    let mut run = Vec::new();
    if let Subject::Cabinet(cabinet) = &scenario.subject
        && let Some(wall) = &cabinet.run
    {
        let (ways, said) = fill(wall, scenario.notation);
        findings.extend(said);
        run = ways;
    }
    Seen {
        findings,
        sizes: designed.sizes,
        measured,
        run,
        made: followed.rows,
        piece: designed.assembly,
    }
}

fn found<'a>(outcome: &'a Seen, code: &str) -> Option<&'a Finding> {
    outcome.findings.iter().find(|f| f.code == code)
}

/// A finding that must be there and help.
fn told<'a>(outcome: &'a Seen, code: &str, place: &str) -> &'a Finding {
    let f = found(outcome, code).unwrap_or_else(|| panic!("no {code}: {:#?}", outcome.findings));
    assert_eq!(f.place, place);
    assert!(f.hint.ends_with('.') && f.message.ends_with('.') && f.hint.len() < 400, "{f:?}");
    assert!(!f.numbers.is_empty(), "{f:?}");
    f
}

fn row(outcome: &Seen, id: &str) -> i64 {
    let rows = outcome.measured.iter().chain(&outcome.sizes);
    rows.into_iter().find(|r| r.id == id).unwrap_or_else(|| panic!("no row {id}")).value
}

/// No measurement stands in the way of the plain cabinet.
#[test]
fn a_straight_gap_has_nothing_to_say() {
    let plain = cabinet(|_| {});
    assert_eq!(row(&plain, "fits-width"), 600_000);
    assert_eq!(row(&plain, "fits-height"), 870_000);
    assert_eq!(row(&plain, "fits-depth"), 580_000);
    assert_eq!(row(&plain, "fill-left"), 1_500);
    for code in
        ["measurements-contradict", "walls-against-widths", "in-the-way", "no-tilt", "no-way-in"]
    {
        assert!(found(&plain, code).is_none(), "{code}");
    }
}
