//! Moments about the front feet.

use jointwise::checks::tipping::moments;

#[test]
fn the_worked_chest_of_drawers_tips_and_stands() {
    // University of Delaware, "Products recalled for children's safety", 2017 (read): 28 kg hang 0.55 m before the
    // edge of a chest 0.48 m deep: -22.85 N m with g 9.8. With the 23 kg that the page states it stands: +4.10
    // (worked out).
    for (child, sum) in [(28_000, -22.85), (23_000, 4.10)] {
        let m = moments(&[
            (child, -550_000),
            (3 * 9_250, 240_000),
            (35_950, 240_000),
            (9_250, -240_000),
        ]);
        let ours = m.sum_mnm(9_800) as f64 / 1000.0;
        assert!((ours - sum).abs() < 0.006, "{ours}");
        assert_eq!(m.ratio().unwrap() >= 1_000_000, sum > 0.0);
    }
    assert_eq!(moments(&[(1_000, 10)]).ratio(), None, "nothing tips");
}
