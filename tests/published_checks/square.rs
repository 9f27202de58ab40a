//! Diagonals, squareness of sheets, thickness ranges.

use jointwise::checks::diagonals::{difference, sheet_allowance};
use jointwise::checks::thickness::{CATEGORIES, in_category};
use jointwise::order::square::shear;

const INCH: i64 = 25_400;

#[test]
fn a_racked_frame_has_the_diagonals_of_the_identities() {
    // d1^2 - d2^2 = 4 a s, worked out for 30 by 34.5 in: 0.25 degrees shift 0.15053 in and part the diagonals by
    // 0.19756 in; 0.1 degrees 0.06021 and 0.07902 in.
    let (a, b) = (30 * INCH, 69 * INCH / 2);
    for (s, apart) in [(0.15053, 0.19756), (0.06021, 0.07902)] {
        let um = |inches: f64| (inches * INCH as f64).round() as i64;
        assert!((difference(a, b, um(s)) - um(apart)).abs() <= 1, "{s}");
    }
    for s in (0..20_000).step_by(37) {
        let apart = difference(a, b, s);
        let squares = 2.0 * ((a * a + b * b) as f64);
        // The two identities give the diagonals back, and they give the shift back.
        let sum = (2.0 * squares - (apart as f64).powi(2)).sqrt();
        let [d1, d2] = [1.0, -1.0].map(|sign| ((sum + sign * apart as f64) / 2.0).round() as i64);
        assert!((shear(d1, d2, a) - s).abs() <= 3, "{s}: {}", shear(d1, d2, a));
        assert!(
            ((d1 * d1 + d2 * d2) as f64 / squares - 1.0).abs() < 1e-5,
            "parallelogram law at {s}"
        );
    }
}

#[test]
fn a_right_angle_has_equal_diagonals_and_3_4_5() {
    // 3-4-5 and 6-8-10: diy-woodworking-guide.com, "Is it square?" (read).
    assert_eq!(difference(3 * INCH, 4 * INCH, 0), 0);
    for n in [1, 2] {
        let [a, b, d] = [3, 4, 5].map(|side| side * n * INCH);
        assert_eq!(a * a + b * b, d * d);
        assert_eq!(shear(d, d, a), 0);
    }
}

#[test]
fn a_sheet_may_be_an_eighth_out_of_square() {
    // PS 1, 1/64 in per foot of the longest edge (read): 1/8 in on 96 in, a shift of 0.0699 in along it (worked out).
    let apart = sheet_allowance(96 * INCH);
    assert_eq!(apart, INCH / 8);
    let mean = ((96.0_f64.powi(2) + 48.0_f64.powi(2)).sqrt() * INCH as f64).round() as i64;
    let s = shear(mean + apart / 2, mean - (apart - apart / 2), 96 * INCH);
    assert!((s as f64 / INCH as f64 - 0.0699).abs() < 0.0001, "{s}");
}

#[test]
fn plywood_ranges_are_those_of_ps_1() {
    // PS 1-19 performance categories (read), in thousandths of an inch.
    let printed = [("1/4", 219, 281), ("1/2", 469, 531), ("23/32", 688, 750), ("3/4", 719, 781)];
    assert_eq!(CATEGORIES, printed);
    // Half a thirty-second either way, to the thousandth.
    for (name, least, most) in printed {
        let (n, of) = name.split_once('/').unwrap();
        let middle = n.parse::<f64>().unwrap() / of.parse::<f64>().unwrap() * 1000.0;
        assert!((middle - 31.25 - f64::from(least as i32)).abs() <= 0.5, "{name}");
        assert!((middle + 31.25 - f64::from(most as i32)).abs() <= 0.5, "{name}");
        let um = |thousandths: i64| (thousandths * 254 + 5) / 10;
        assert!(in_category(um(least), least, most) && in_category(um(most), least, most));
        assert!(
            !in_category(um(least - 1), least, most) && !in_category(um(most + 1), least, most)
        );
    }
}
