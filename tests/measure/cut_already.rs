//! What is cut already.

use super::{Seen, cabinet, found, row, told};
use jointwise::units::Length;
use serde_json::{Value, json};

fn made(parts: Value) -> Seen {
    cabinet(|s| s["made"] = json!({ "parts": parts }))
}

fn part(outcome: &Seen, id: &str) -> [i64; 3] {
    let p = &outcome.piece.parts[outcome.piece.index_of(id).unwrap()];
    [p.length, p.width, p.thickness].map(Length::get)
}

fn verdict<'a>(outcome: &'a Seen, id: &str) -> &'a str {
    &outcome.made.iter().find(|r| r.part == id).unwrap_or_else(|| panic!("no row for {id}")).verdict
}

#[test]
fn a_side_that_came_out_short_takes_the_rest_with_it() {
    let plain = cabinet(|_| {});
    let [height, ..] = part(&plain, "left-side");
    let short = format!("{}.{:03}", (height - 800) / 1000, (height - 800) % 1000);
    let outcome = made(json!([{ "id": "left-side", "length": short }]));
    told(&outcome, "as-built", "made.parts[0].length");
    assert_eq!(verdict(&outcome, "left-side"), "fine");
    assert_eq!(part(&outcome, "left-side")[0], height - 800);
    assert_eq!(part(&outcome, "right-side")[0], height - 800);
    assert_eq!(row(&outcome, "carcass-height"), height - 800);
    // Across the width nothing changes.
    assert_eq!(part(&outcome, "bottom"), part(&plain, "bottom"));
}

#[test]
fn where_the_other_side_is_cut_too_the_longer_one_is_trimmed() {
    let plain = cabinet(|_| {});
    let [height, ..] = part(&plain, "left-side");
    let long = format!("{}.{:03}", (height + 1000) / 1000, (height + 1000) % 1000);
    let outcome = made(json!([{ "id": "left-side", "length": long }, { "id": "right-side" }]));
    assert_eq!(verdict(&outcome, "left-side"), "trim");
    assert_eq!(verdict(&outcome, "right-side"), "fine");
    assert_eq!(part(&outcome, "left-side")[0], height);
    told(&outcome, "trim-part", "made.parts[0]");
    let short = format!("{}.{:03}", (height - 1000) / 1000, (height - 1000) % 1000);
    let outcome = made(json!([{ "id": "left-side", "length": short }, { "id": "right-side" }]));
    assert_eq!(verdict(&outcome, "left-side"), "fine");
    assert_eq!(verdict(&outcome, "right-side"), "trim");
}

#[test]
fn what_is_far_too_short_is_cut_again_and_what_is_spoiled_counts_for_nothing() {
    let plain = cabinet(|_| {});
    let outcome = made(json!([{ "id": "bottom", "length": 500 }]));
    assert_eq!(verdict(&outcome, "bottom"), "remake");
    told(&outcome, "remake-part", "made.parts[0]");
    assert_eq!(part(&outcome, "bottom"), part(&plain, "bottom"));
    let outcome = made(json!([{ "id": "bottom", "length": 500, "spoiled": true }]));
    assert_eq!(verdict(&outcome, "bottom"), "spoiled");
    assert!(found(&outcome, "remake-part").is_none());
    assert_eq!(outcome.piece, plain.piece);
}

#[test]
fn a_thicker_sheet_makes_the_inside_narrower_and_nothing_else_wider() {
    let plain = cabinet(|_| {});
    let outcome =
        cabinet(|s| s["made"] = json!({ "sheets": [{ "material": "ply-18", "thickness": 18.3 }] }));
    told(&outcome, "sheet-measured", "made.sheets[0].thickness");
    assert_eq!(row(&outcome, "carcass-width"), row(&plain, "carcass-width"));
    assert_eq!(part(&outcome, "bottom")[0], part(&plain, "bottom")[0] - 600);
    assert_eq!(part(&outcome, "left-side")[2], 18_300);
    // With the bottom cut already to what 18 asked for, it is 0.6 too long.
    let [length, width, _] = part(&plain, "bottom");
    let outcome = cabinet(|s| {
        s["made"] = json!({
            "sheets": [{ "material": "ply-18", "thickness": 18.3 }],
            "parts": [{ "id": "bottom", "length": length / 1000, "width": format!("{}.{:03}", width / 1000, width % 1000) }]
        });
    });
    // The carcass may grow by it: there are gaps beside it, and nothing else is cut.
    assert_eq!(verdict(&outcome, "bottom"), "fine", "{:#?}", outcome.findings);
    assert_eq!(row(&outcome, "carcass-width"), row(&plain, "carcass-width") + 600);
}

#[test]
fn a_change_of_mind_leaves_what_is_cut_to_be_judged() {
    let plain = cabinet(|_| {});
    let cut: Vec<Value> = ["left-side", "bottom", "nailer"]
        .iter()
        .map(|id| {
            let [l, w, _] = part(&plain, id);
            json!({ "id": id, "length": format!("{}.{:03}", l / 1000, l % 1000), "width": format!("{}.{:03}", w / 1000, w % 1000) })
        })
        .collect();
    let with = |width: i64| {
        cabinet(|s| {
            s["made"] = json!({ "parts": cut });
            s["space"]["widths"] = json!([{ "at": 0, "width": width }]);
        })
    };
    for (width, want) in [(600, "fine"), (590, "trim"), (620, "remake")] {
        let outcome = with(width);
        assert_eq!(verdict(&outcome, "left-side"), "fine", "{width}");
        assert_eq!(verdict(&outcome, "bottom"), want, "{width}");
        assert_eq!(verdict(&outcome, "nailer"), want, "{width}");
    }
}

#[test]
fn measured_as_planned_changes_nothing() {
    for name in ["mudroom-bins", "tall-locker", "workshop-shelf"] {
        let path = format!("{}/../scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
        let mut tree: Value =
            serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let read = jointwise::scenario::read(&tree.to_string()).0.unwrap();
        let design = jointwise::made::follow(&read).designed.unwrap();
        let panels =
            design.assembly.parts.iter().filter(|p| p.kind == jointwise::assembly::Kind::Panel);
        let print = |l: jointwise::units::Length| read.notation.finest().print(l);
        let parts: Vec<Value> = panels
            .map(|p| json!({ "id": p.id, "length": print(p.length), "width": print(p.width), "thickness": print(p.thickness) }))
            .collect();
        let count = parts.len();
        tree["made"] = json!({ "parts": parts });
        let again =
            jointwise::made::follow(&jointwise::scenario::read(&tree.to_string()).0.unwrap());
        assert_eq!(again.rows.len(), count);
        assert!(again.rows.iter().all(|r| r.verdict == "fine"), "{name}: {:#?}", again.rows);
        assert_eq!(again.designed.unwrap().assembly, design.assembly, "{name}");
    }
}
