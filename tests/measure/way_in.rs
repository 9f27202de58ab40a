//! Tilting up, doors and bends, against identities and trying angles.

use super::chance::Chance;
use super::{cabinet, found, row, told};
use jointwise::measure::{passes_bend, passes_door, tilts_up};
use serde_json::json;

#[test]
fn what_is_a_right_triangle_tilts_up_and_not_a_micrometre_more() {
    // 3-4-5 and other whole right triangles: Euclid's formula, exact.
    for m in 2..40_i64 {
        for n in 1..m {
            let [a, b, c] = [m * m - n * n, 2 * m * n, m * m + n * n].map(|v| v * 1000);
            assert!(tilts_up(a, b, c) && tilts_up(b, a, c));
            assert!(!tilts_up(a, b, c - 1) && !tilts_up(a + 1, b, c));
        }
    }
}

#[test]
fn a_tall_piece_under_a_ceiling_is_told_how_high_it_may_be() {
    let tall = |height: i64, ceiling: i64| {
        cabinet(|s| {
            s["space"]["above"] = json!("ceiling");
            s["space"]["height"] = json!(ceiling);
            s["space"]["widths"] = json!([{ "at": 0, "width": 600 }]);
            s["build"]["carcass"]["height"] = json!(height);
        })
    };
    let outcome = tall(2390, 2400);
    let f = told(&outcome, "no-tilt", "space.height");
    let needs = row(&outcome, "tilt");
    let depth = row(&outcome, "carcass-depth");
    assert_eq!(needs, ((2_390_000_f64.powi(2) + (depth as f64).powi(2)).sqrt()).ceil() as i64);
    // The height it names does tilt up.
    let most: f64 = f.numbers["highest that turns up"].trim_end_matches(" mm").parse().unwrap();
    assert!(found(&tall(most.floor() as i64, 2400), "no-tilt").is_none());
    assert!(found(&tall(most.ceil() as i64 + 1, 2400), "no-tilt").is_some());
}

#[test]
fn a_ladder_goes_round_a_bend_as_the_astroid_says() {
    // The longest line round a square bend is (a^(2/3) + b^(2/3))^(3/2): the envelope of a sliding
    // ladder, a standard exercise of calculus (from memory).
    for (a, b) in [(1000, 1000), (1000, 8000), (700, 900), (1250, 2160)] {
        let (x, y) = (f64::from(a).cbrt(), f64::from(b).cbrt());
        let longest = (x * x + y * y) * (x * x + y * y).sqrt() * 1000.0;
        let goes = |l: f64| {
            passes_bend([l as i64, 1, 1], i64::from(a) * 1000, i64::from(b) * 1000, 2_000_000)
        };
        assert!(goes(longest - 500.0) && !goes(longest + 500.0), "{a} {b}: {longest}");
    }
}

#[test]
fn a_door_lets_through_what_some_angle_lets_through() {
    let mut chance = Chance(3);
    let mut tilted = 0;
    for _ in 0..4000 {
        let [p, q, a, b] =
            [(300, 1600), (50, 900), (300, 1400), (300, 1400)].map(|(l, m)| chance.within(l, m));
        let fits = |play: f64| {
            (0..=1800).any(|n| {
                let t = f64::from(n) * std::f64::consts::FRAC_PI_2 / 1800.0;
                let (s, c) = t.sin_cos();
                let (p, q) = (p as f64, q as f64);
                p * c + q * s <= a as f64 + play && p * s + q * c <= b as f64 + play
            })
        };
        // Long ahead: only this cross-section can go through.
        let got = passes_door([p * 1000, q * 1000, 9_000_000], a * 1000, b * 1000);
        if fits(-0.5) {
            assert!(got, "{p} × {q} through {a} × {b}");
        }
        if !fits(0.5) {
            assert!(!got, "{p} × {q} through {a} × {b}");
        }
        tilted += i32::from(got && p > a.max(b));
    }
    assert!(tilted > 20, "only {tilted} went through tilted");
}

#[test]
fn what_does_not_get_in_is_told_and_what_does_is_a_row() {
    let with = |w: i64, h: i64, turn: Option<i64>| {
        cabinet(|s| {
            s["space"]["passages"] =
                json!([{ "name": "hatch", "width": w, "height": h, "turn": turn.unwrap_or(3000) }]);
        })
    };
    told(&with(400, 500, None), "no-way-in", "space.passages[0]");
    told(&with(700, 1980, Some(300)), "no-way-in", "space.passages[0]");
    let good = with(750, 1980, Some(900));
    assert!(found(&good, "no-way-in").is_none());
    assert_eq!(row(&good, "passage-1"), 1);
}
