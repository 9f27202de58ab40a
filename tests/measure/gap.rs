//! The gap: readings, the rectangle in it, what is in the way.

use super::chance::Chance;
use super::{cabinet, found, row, told};
use jointwise::measure::{Quadrilateral, worst_error};
use serde_json::{Value, json};

fn apart(a: [i64; 2], b: [i64; 2]) -> i64 {
    let [x, y] = [i128::from(a[0] - b[0]), i128::from(a[1] - b[1])];
    i64::try_from(((x * x + y * y) as u128).isqrt()).unwrap()
}

/// Sides and diagonals of a quadrilateral with its foot on the x axis.
fn quad(w: i64, left: [i64; 2], right: [i64; 2]) -> Quadrilateral {
    let (a, b) = ([0, 0], [w, 0]);
    Quadrilateral {
        bottom: w,
        top: apart(left, right),
        left: apart(a, left),
        right: apart(b, right),
        rising: apart(a, right),
        falling: apart(b, left),
    }
}

#[test]
fn true_quadrilaterals_are_believed_and_a_slip_in_any_reading_is_not() {
    let mut chance = Chance(11);
    for _ in 0..500 {
        let w = chance.within(300_000, 1_500_000);
        let h = chance.within(500_000, 2_400_000);
        let lean = |c: &mut Chance| c.within(-20_000, 20_000);
        let left = [lean(&mut chance), h + lean(&mut chance)];
        let right = [w + lean(&mut chance), h + lean(&mut chance)];
        let q = quad(w, left, right);
        // Rounding to micrometres is all that is off.
        assert!(worst_error(q).unwrap() <= 2, "{q:?}");
        assert!((q.lean().unwrap() - left[0]).abs() <= 4, "{q:?}");
        // Any one reading off by 60 mm shows: shared out over six it is more than a sixteenth each.
        for n in 0..6 {
            let mut slip = q;
            let reading = [
                &mut slip.bottom,
                &mut slip.top,
                &mut slip.left,
                &mut slip.right,
                &mut slip.rising,
                &mut slip.falling,
            ];
            *reading.into_iter().nth(n).unwrap() += 60_000;
            assert!(
                worst_error(slip).is_none_or(|e| e > 1_588),
                "reading {n} of {q:?}: {:?}",
                worst_error(slip)
            );
        }
    }
}

#[test]
fn identities_of_a_racked_frame() {
    // A parallelogram with sides a (foot) and b racked by s: d1² − d2² = 4 a s, d1² + d2² = 2 (a² + b²).
    for (a, b, s) in
        [(762_000, 876_300, 3_823), (600_000, 2_000_000, -12_000), (1_000_000, 800_000, 25_000)]
    {
        let up = ((i128::from(b) * i128::from(b) - i128::from(s) * i128::from(s)) as u128).isqrt()
            as i64;
        let q = quad(a, [s, up], [a + s, up]);
        let square = |v: i64| i128::from(v) * i128::from(v);
        let four = square(q.rising) - square(q.falling);
        assert!((four - 4 * i128::from(a) * i128::from(s)).abs() < 16_000_000, "{four}");
        let sum = square(q.rising) + square(q.falling) - 2 * (square(a) + square(b));
        assert!(sum.abs() < 16_000_000, "{sum}");
        assert!((q.lean().unwrap() - s).abs() <= 4);
    }
}

#[test]
fn a_sheet_out_of_square_as_ps_1_allows() {
    // PS 1: square within 1/64 in per foot of the longest edge, read in its published table; of a sheet
    // 96 by 48 in that is 1/8 in between the diagonals, which is a shift of 0.0699 in.
    let inch = 25_400_f64;
    let half = 0.125 * inch / 2.0;
    let d = (96.0_f64.powi(2) + 48.0_f64.powi(2)).sqrt() * inch;
    let um = |v: f64| v.round() as i64;
    let q = Quadrilateral {
        bottom: um(96.0 * inch),
        top: um(96.0 * inch),
        left: um(48.0 * inch),
        right: um(48.0 * inch),
        rising: um(d + half),
        falling: um(d - half),
    };
    assert!((q.lean().unwrap() - um(0.0699 * inch)).abs() <= 3, "{:?}", q.lean());
    assert!(worst_error(q).unwrap() < 20);
}

#[test]
fn contradicting_diagonals_are_told_and_true_ones_are_not() {
    let with = |rising: &str, falling: &str| {
        cabinet(|s| s["space"]["diagonals"] = json!({ "rising": rising, "falling": falling }))
    };
    // 600 by 870: √(600² + 870²) = 1056.8.
    let square = with("1056.8", "1056.8");
    assert!(found(&square, "measurements-contradict").is_none());
    assert!(row(&square, "gap-lean").abs() < 200);
    // Both too long cannot be, nor a triangle that does not close.
    told(&with("1090", "1090"), "measurements-contradict", "space.diagonals");
    told(&with("1500", "1056.8"), "measurements-contradict", "space.diagonals");
    // Racked: both true, and the opening leans; the rectangle is narrower by the lean.
    let racked = with("1065.1", "1048.5");
    assert!(found(&racked, "measurements-contradict").is_none(), "{:#?}", racked.findings);
    let lean = row(&racked, "gap-lean");
    assert!((14_000..15_500).contains(&lean), "{lean}");
    assert_eq!(row(&racked, "fits-width"), 600_000 - lean);
    assert_eq!(row(&racked, "carcass-width"), 600_000 - lean - 3_000);
}

/// A wall by its foot and its lean over 1000 mm, into the gap.
fn lean(rise: i64) -> Value {
    json!({ "over": 1000, "gap": rise.abs(), "way": if rise < 0 { "out" } else { "in" } })
}

#[test]
fn the_rectangle_stands_clear_of_leaning_walls() {
    let mut chance = Chance(5);
    for n in 0..40 {
        let (l, r) = (chance.within(-15, 15), chance.within(-15, 15));
        let foot = chance.within(560, 700);
        // At 435 and 870 of height, in micrometres.
        let width = |z: i64| foot * 1000 - (l + r) * z;
        let outcome = cabinet(|s| {
            s["space"]["widths"] = json!([0, 435, 870].map(|z| json!({ "at": z, "width": format!("{}.{:03}", width(z) / 1000, width(z) % 1000) })));
            s["space"]["walls"] = json!({ "left": lean(l), "right": lean(r) });
        });
        assert!(found(&outcome, "walls-against-widths").is_none(), "{n}");
        let left = (l * 870).max(0);
        let right = foot * 1000 - (r * 870).max(0);
        assert!((row(&outcome, "fits-width") - (right - left)).abs() <= 2, "{n}: {l} {r}");
        // One width at the foot and both leans say the same.
        let one = cabinet(|s| {
            s["space"]["widths"] = json!([{ "at": 0, "width": foot }]);
            s["space"]["walls"] = json!({ "left": lean(l), "right": lean(r) });
        });
        assert!((row(&one, "fits-width") - (right - left)).abs() <= 2, "{n}: {l} {r}");
        // Mirrored, the same rectangle.
        let mirror = cabinet(|s| {
            s["space"]["widths"] = json!([{ "at": 0, "width": foot }]);
            s["space"]["walls"] = json!({ "left": lean(r), "right": lean(l) });
        });
        assert_eq!(row(&one, "fits-width"), row(&mirror, "fits-width"));
        // What is left at both sides and the piece make up the opening.
        let piece = row(&one, "carcass-width");
        assert!(
            row(&one, "fill-left") + row(&one, "fill-right") + piece >= row(&one, "fits-width")
        );
    }
}

#[test]
fn bubble_and_gap_and_two_heights_say_the_same() {
    let gap = cabinet(|s| {
        s["space"]["floor"] = json!({ "across": { "over": 600, "gap": 4, "way": "rises" } });
        s["space"]["walls"] = json!({ "back": { "over": 870, "gap": 5, "way": "in" } });
    });
    let two = cabinet(|s| {
        s["space"]["floor"] = json!({ "across": { "over": 600, "first": 100, "second": 96 } });
        s["space"]["walls"] = json!({ "back": { "over": 870, "first": 55, "second": 50 } });
    });
    assert_eq!(gap.measured, two.measured);
    assert_eq!(row(&gap, "shim"), 4_000);
    assert_eq!(row(&gap, "fits-depth"), 575_000);
    told(&gap, "floor-fall", "space.floor.out_of_level");
    // With heights at both ends the rise is known, and taken off where it must be.
    let ends = |left: i64, right: i64| {
        cabinet(|s| {
            s["space"]["floor"] = json!({ "across": { "over": 600, "gap": 4, "way": "rises" } });
            s["space"]["heights"] =
                json!([{ "side": "left", "height": left }, { "side": "right", "height": right }]);
        })
    };
    assert_eq!(row(&ends(870, 866), "fits-height"), 866_000);
    assert_eq!(row(&ends(868, 866), "fits-height"), 864_000);
    assert!(found(&ends(868, 866), "floor-fall").is_none());
}

/// The opening is 870 mm high.
#[test]
fn a_width_from_above_the_opening_is_told_until_it_is_taken_lower() {
    let with = |at: i64| cabinet(|s| s["space"]["widths"][1]["at"] = json!(at));
    told(&with(871), "width-above", "space.widths[1].at");
    assert!(found(&with(870), "width-above").is_none());
}

#[test]
fn widths_and_walls_that_contradict_are_told() {
    let outcome = cabinet(|s| {
        s["space"]["walls"] = json!({ "left": lean(10), "right": lean(10) });
    });
    told(&outcome, "walls-against-widths", "space.walls");
}

#[test]
fn what_is_in_the_way_is_told_with_a_cure_that_helps() {
    let board =
        json!([{ "kind": "baseboard", "at": [0, 565, 0], "size": [600, 15, 90], "clear": 2 }]);
    let outcome = cabinet(|s| s["space"]["obstacles"] = board.clone());
    let f = told(&outcome, "in-the-way", "space.obstacles[0]");
    assert!(f.message.contains("baseboard") && f.message.contains("side"), "{f:?}");
    assert!(f.hint.contains("build.carcass.depth"), "{f:?}");
    // The depth it names is clear.
    let said = f.hint.split("build.carcass.depth` ").nth(1).unwrap();
    let depth: f64 = said.split(' ').next().unwrap().parse().unwrap();
    let cured = cabinet(|s| {
        s["space"]["obstacles"] = board.clone();
        s["build"]["carcass"]["depth"] = json!(depth);
    });
    assert!(found(&cured, "in-the-way").is_none(), "{:#?}", cured.findings);
    let behind = cabinet(|s| {
        s["space"]["obstacles"] =
            json!([{ "kind": "outlet", "at": [250, 580, 400], "size": [80, 0, 120] }]);
    });
    let f = told(&behind, "covered", "space.obstacles[0]");
    assert!(f.hint.contains("80 mm wide and 120 mm high"), "{f:?}");
    // Beside the piece nothing is in the way.
    let beside = cabinet(|s| {
        s["space"]["obstacles"] =
            json!([{ "kind": "pipe", "at": [0, 0, 0], "size": [1, 580, 870] }]);
    });
    assert!(found(&beside, "in-the-way").is_none(), "{:#?}", beside.findings);
}

#[test]
fn a_base_cabinet_comes_out_as_the_trade_has_it() {
    // Trade practice: a base is 34 1/2 in high, 36 in with a top of 1 1/2 in, and its toe line stands
    // 20 7/8 in from the wall under a box 24 in deep (a trade installation manual, read).
    let outcome = cabinet(|s| {
        s["unit"] = json!("in");
        s["print"] = json!("inch-16");
        s["space"] = json!({ "widths": [{ "width": "24" }], "height": "34 1/2", "depth": "24" });
        s["contents"] = json!([]);
        s["build"] = json!({
            "carcass": { "material": "ply-18", "top_gap": 0, "toe_height": "4", "toe_recess": "3 1/8" },
            "back": { "material": "ply-6" }, "shelves": { "count": 1 }
        });
        for m in s["shop"]["materials"].as_array_mut().unwrap() {
            m["thickness"] = json!(format!("{} mm", m["thickness"]));
        }
    });
    assert_eq!(row(&outcome, "carcass-height") + 38_100, 36 * 25_400);
    let piece = &outcome.piece;
    let toe = &piece.parts[piece.index_of("toe-kick").unwrap()];
    let from_wall = row(&outcome, "carcass-depth") - toe.solid.boxes()[0].min[1];
    assert_eq!(from_wall, 25_400 * 167 / 8);
}
