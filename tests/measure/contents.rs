//! What goes in.

use super::{cabinet, found, row, told};
use jointwise::findings::Severity;
use serde_json::json;

#[test]
fn the_least_box_is_the_sum_of_things_and_air() {
    let outcome = cabinet(|_| {});
    // Two bins of 230 side by side, three times 6 of air.
    assert_eq!(row(&outcome, "contents-box"), 478_000);
    assert_eq!(row(&outcome, "contents-mass"), 16_000);
    // Box 42 inside the carcass, two sides of 18.
    assert_eq!(row(&outcome, "contents-carcass"), 478_000 + 42_000 + 36_000);
    // 400 deep, two of air, box of 12: 436, so 450.
    assert_eq!(row(&outcome, "contents-runner"), 450_000);
    // That is the least: with it they fit, with half a millimetre less they do not.
    let pinned = |um: i64| {
        cabinet(|s| {
            s["build"]["carcass"]["width"] = json!(format!("{}.{:03}", um / 1000, um % 1000));
        })
    };
    assert!(found(&pinned(556_000), "contents-too-wide").is_none());
    told(&pinned(555_500), "contents-too-wide", "contents");
}

#[test]
fn a_grid_is_rows_of_so_many() {
    let grid = |count: i64, across: i64| {
        cabinet(|s| {
            s["contents"] = json!([{ "name": "bottle", "width": 90, "depth": 90, "height": 330, "clearance": 4,
                "count": count, "arrange": "grid", "across": across, "mass_kg": 1.4 }]);
        })
    };
    assert_eq!(row(&grid(12, 4), "contents-box"), 4 * 90_000 + 5 * 4_000);
    let as_square = cabinet(|s| {
        s["contents"] = json!([{ "width": 90, "depth": 90, "height": 330, "clearance": 4, "count": 12, "arrange": "grid" }]);
    });
    assert_eq!(row(&as_square, "contents-box"), row(&grid(12, 4), "contents-box"));
    // A row that is not full takes as much as a full one.
    assert_eq!(row(&grid(10, 4), "contents-runner"), row(&grid(12, 4), "contents-runner"));
}

#[test]
fn standard_extension_keeps_the_rear_row_under() {
    let outcome = cabinet(|s| {
        s["contents"] = json!([{ "width": 300, "depth": 120, "height": 300, "count": 3, "arrange": "in-line" }]);
    });
    assert_eq!(row(&outcome, "lift-full"), 3);
    assert_eq!(row(&outcome, "lift-standard"), 2);
}

#[test]
fn turning_is_offered_where_it_helps() {
    let outcome = cabinet(|s| {
        s["contents"] = json!([{ "width": 500, "depth": 240, "height": 300, "count": 2, "arrange": "side-by-side" }]);
    });
    let f = told(&outcome, "turn-contents", "contents");
    assert_eq!(f.severity, Severity::Note);
    told(&outcome, "contents-too-wide", "contents");
    let turned = cabinet(|s| {
        s["contents"] = json!([{ "width": 240, "depth": 500, "height": 300, "count": 2, "arrange": "side-by-side" }]);
    });
    assert!(found(&turned, "contents-too-wide").is_none());
}

#[test]
fn a_wider_opening_never_makes_them_stop_fitting() {
    let mut fitted = false;
    for width in (500..900).step_by(25) {
        let outcome = cabinet(|s| s["space"]["widths"] = json!([{ "at": 0, "width": width }]));
        let fits = found(&outcome, "contents-too-wide").is_none();
        assert!(fits || !fitted, "{width}");
        fitted = fits;
    }
    assert!(fitted);
}
