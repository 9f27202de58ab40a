//! How tolerances add up.

use super::num::root;

/// Sizes are cut to half a millimetre either way. Common practice, no source.
pub const CUT: i64 = 500;
/// Fronts are set by shims to half a millimetre either way. Common practice, no source.
pub const SET: i64 = 500;
/// A cabinet is set in its opening to a millimetre either way. Common practice, no source.
pub const PLACED: i64 = 1_000;

/// The most that all of them together can be off, and the root of the sum of their squares, which
/// independent ones stay within about as often as each stays within a standard deviation like it.
pub fn stack(each: &[i64]) -> (i64, i64) {
    let squares: i128 = each.iter().map(|t| i128::from(*t) * i128::from(*t)).sum();
    (each.iter().sum(), super::num::small(root(squares)))
}
