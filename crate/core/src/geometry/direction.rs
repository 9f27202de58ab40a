//! The six directions of a rectangular piece.

use serde::{Deserialize, Serialize};

/// A direction along an axis of the standing piece: also names its six faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Direction {
    /// To the left.
    #[serde(rename = "-x")]
    Left,
    /// To the right.
    #[serde(rename = "+x")]
    Right,
    /// To the front, towards the person before the piece.
    #[serde(rename = "-y")]
    Front,
    /// To the back, towards the wall.
    #[serde(rename = "+y")]
    Back,
    /// Down.
    #[serde(rename = "-z")]
    Down,
    /// Up.
    #[serde(rename = "+z")]
    Up,
}

impl Direction {
    /// All six, in their fixed order.
    pub const ALL: [Direction; 6] = [
        Direction::Left,
        Direction::Right,
        Direction::Front,
        Direction::Back,
        Direction::Down,
        Direction::Up,
    ];

    /// 0 for x, 1 for y, 2 for z.
    pub fn axis(self) -> usize {
        match self {
            Direction::Left | Direction::Right => 0,
            Direction::Front | Direction::Back => 1,
            Direction::Down | Direction::Up => 2,
        }
    }

    /// Whether it points to growing coordinates.
    pub fn is_positive(self) -> bool {
        matches!(self, Direction::Right | Direction::Back | Direction::Up)
    }

    /// +1 or -1.
    pub fn sign(self) -> i64 {
        if self.is_positive() { 1 } else { -1 }
    }

    /// The direction along `axis` (0, 1 or 2) to growing or shrinking coordinates.
    pub fn from_axis(axis: usize, positive: bool) -> Direction {
        match (axis, positive) {
            (0, false) => Direction::Left,
            (0, true) => Direction::Right,
            (1, false) => Direction::Front,
            (1, true) => Direction::Back,
            (_, false) => Direction::Down,
            (_, true) => Direction::Up,
        }
    }

    /// The direction the other way.
    #[must_use]
    pub fn opposite(self) -> Direction {
        Direction::from_axis(self.axis(), !self.is_positive())
    }

    /// As part of a name: `back edge`, `lower end`.
    pub fn side(self) -> &'static str {
        match self {
            Direction::Left => "left",
            Direction::Right => "right",
            Direction::Front => "front",
            Direction::Back => "back",
            Direction::Down => "lower",
            Direction::Up => "upper",
        }
    }

    /// Its place in [`Direction::ALL`].
    pub fn index(self) -> usize {
        self.axis() * 2 + usize::from(self.is_positive())
    }

    /// Its sign and axis, as in `plan.json`: `-x`, `+z`.
    pub fn code(self) -> &'static str {
        ["-x", "+x", "-y", "+y", "-z", "+z"][self.index()]
    }
}

#[cfg(test)]
mod tests {
    use super::Direction;

    #[test]
    fn index_axis_and_opposite_agree() {
        for (i, d) in Direction::ALL.into_iter().enumerate() {
            assert_eq!(d.index(), i);
            assert_eq!(Direction::from_axis(d.axis(), d.is_positive()), d);
            assert_eq!(d.opposite().opposite(), d);
            assert_eq!(d.opposite().axis(), d.axis());
            assert_ne!(d.opposite(), d);
        }
    }
}
