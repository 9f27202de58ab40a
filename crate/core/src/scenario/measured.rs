//! What was measured of the gap besides its least sizes.

use crate::geometry::Box3;
use crate::units::Length;

/// Readings that say how the gap departs from a box, and what is in the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measured {
    /// Heights taken left (0), in the middle (1) or right (2).
    pub heights: Vec<(u8, Length)>,
    /// Depths: height above the floor, side as in `heights`, depth.
    pub depths: Vec<(Length, u8, Length)>,
    /// From lower left to upper right, and from upper left to lower right.
    pub diagonals: Option<[Length; 2]>,
    /// How the left, the right and the rear wall lean, from the floor up; positive into the gap.
    pub walls: [Option<Slope>; 3],
    /// How the floor rises from left to right, and from front to back.
    pub floor: [Option<Slope>; 2],
    /// What is above.
    pub above: Above,
    /// What must be stayed clear of.
    pub obstacles: Vec<Obstacle>,
    /// What the piece must pass.
    pub passages: Vec<Passage>,
}

impl Default for Measured {
    fn default() -> Self {
        Measured {
            heights: Vec::new(),
            depths: Vec::new(),
            diagonals: None,
            walls: [None; 3],
            floor: [None; 2],
            above: Above::Counter,
            obstacles: Vec::new(),
            passages: Vec::new(),
        }
    }
}

/// A rise over a length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slope {
    /// The rise, which may be negative.
    pub rise: i64,
    /// The length it was measured over; positive.
    pub over: i64,
}

impl Slope {
    /// The rise over another length, rounded to the nearest micrometre.
    pub fn along(self, length: i64) -> i64 {
        let twice = 2 * i128::from(self.rise) * i128::from(length) + i128::from(self.over);
        i64::try_from(twice.div_euclid(2 * i128::from(self.over))).unwrap_or(0)
    }
}

/// What is above the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Above {
    /// A counter.
    Counter,
    /// The ceiling.
    Ceiling,
    /// Nothing.
    Open,
}

/// What stands in the gap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Obstacle {
    /// What it is called.
    pub name: String,
    /// Whether it must stay within reach or open: a socket, a vent.
    pub open: bool,
    /// Where it is: from the gap's left wall, the front line and the floor.
    pub at: Box3,
    /// Air to leave around it.
    pub clear: Length,
}

/// What the piece must pass.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passage {
    /// What it is called.
    pub name: String,
    /// Clear width.
    pub width: Length,
    /// Clear height.
    pub height: Length,
    /// Clear width behind a square bend.
    pub turn: Option<Length>,
}
