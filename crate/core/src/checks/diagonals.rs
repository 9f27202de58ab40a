//! Diagonals and skew of a rectangle that racks into a parallelogram.
//!
//! With sides a and b, and one a-side shifted along itself by s: `d1² - d2² = 4 a s` and
//! `d1² + d2² = 2 (a² + b²)`, exactly (worked out). The
//! shift from two diagonals is [`crate::order::square::shear`].

use super::num::{div, root, small};

/// How much the diagonals differ when one side of length `a` is shifted along itself by `s`, the
/// other sides keeping their length.
pub fn difference(a: i64, b: i64, s: i64) -> i64 {
    let [a, b, s] = [a, b, s].map(i128::from);
    let squares = a * a + b * b;
    // In thousandths of a micrometre, so that the difference keeps its last micrometre.
    let diagonal = |sign: i128| root((squares + sign * 2 * a * s) * 1_000_000);
    small(div(diagonal(1) - diagonal(-1), 1_000))
}

/// What the diagonals of a sheet may differ by: 1/64 in on each foot of its longest edge (PS 1, as
/// printed at test.apawood-europe.org, "Tolerances"; read).
pub fn sheet_allowance(longest: i64) -> i64 {
    small(div(i128::from(longest), 768))
}
