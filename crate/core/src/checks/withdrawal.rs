//! What it takes to pull a screw out, as an order of size. Never a rating.
//!
//! Wood: USDA Wood Handbook, ch. 8: `P = 108.25 G² D L` N, mm (15,700 G² D L in lb, in); from memory,
//! the form quoted by calculators. Particleboard: ch. 8: `P = K √D (L - D/3)^(5/4) G²`, K 41.1 into a
//! face and 31.8 into an edge (2,655 and 2,055 in lb, in); from memory. MDF by the latter, with a caution.

use super::num::{div, root};

/// A screw's thread in what it bites into. Lengths in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thread {
    /// Outside diameter.
    pub diameter: i64,
    /// Length that bites.
    pub bites: i64,
    /// Density over that of water, in thousandths.
    pub gravity: i64,
}

/// Ultimate withdrawal from solid wood across the grain, in millinewtons.
pub fn wood_mn(t: &Thread) -> i128 {
    let [d, l, g] = [t.diameter, t.bites, t.gravity].map(i128::from);
    // 108.25 N/mm²; d and l in micrometres, g in thousandths.
    div(10_825 * g * g * d * l, 100 * 1_000_000 * 1_000)
}

/// Ultimate withdrawal from particleboard, in millinewtons.
pub fn board_mn(t: &Thread, edge: bool) -> i128 {
    let [d, l, g] = [t.diameter, t.bites, t.gravity].map(i128::from);
    let deep = (l - div(d, 3)).max(0);
    // Roots of millimetres, in millionths.
    let root_d = root(d * 1_000_000_000);
    let fourth = root(root(deep * 1_000_000_000) * 1_000_000);
    let k = if edge { 318 } else { 411 };
    // k in tenths of a newton; one root after the other, to stay well within range.
    let n = k * div(root_d * deep, 1_000); // tenths of N, mm in millionths
    div(div(n * fourth, 1_000_000) * g * g, 10_000_000_000)
}

/// Allowable withdrawal from wood for each inch of thread, in hundredths of a pound: `2850 G² D`
/// (NDS basis, as printed at engineeringtoolbox.com/wood-screws-allowable-withdrawal-load-d_1815.html;
/// read). Diameter in thousandths of an inch, gravity in hundredths.
pub fn allowable_cents(diameter: i64, gravity: i64) -> i128 {
    div(2_850 * i128::from(gravity * gravity * diameter), 100_000)
}
