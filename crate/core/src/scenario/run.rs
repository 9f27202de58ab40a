//! A wall shared with bought units, as it is searched.

use crate::units::Length;

/// A wall to be filled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// Clear length.
    pub wall: Length,
    /// The narrowest unit sold, the widest, and the step from one width to the next.
    pub least: Length,
    /// See `least`.
    pub most: Length,
    /// See `least`; positive.
    pub step: Length,
    /// How many bought units besides the wanted ones, when that is decided.
    pub count: Option<u32>,
    /// Widths of units that must be there, one entry a unit.
    pub wanted: Vec<Length>,
    /// Least and greatest width of the place kept for the piece.
    pub custom: [Length; 2],
    /// The width it should come near.
    pub wish: Option<Length>,
    /// Least and greatest width of one filler.
    pub filler: [Length; 2],
    /// Whether the left and the right end meet a wall: a filler closes the run only there.
    pub walls: [bool; 2],
}
