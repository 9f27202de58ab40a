//! A box with faces along the axes.

use serde::{Deserialize, Serialize};

use super::Direction;

/// A point `[x, y, z]` in micrometres.
pub type Point = [i64; 3];

/// A box in micrometres: `min` is its left, front, lower corner and `max` its right, rear, upper one.
///
/// A box of material has `min[a] < max[a]` on every axis: ask [`Box3::is_valid`], nothing enforces
/// it. A face is a box whose corners are level along one axis. Written to files as
/// `[x0, y0, z0, x1, y1, z1]`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "[i64; 6]", into = "[i64; 6]")]
pub struct Box3 {
    /// Left, front, lower corner.
    pub min: Point,
    /// Right, rear, upper corner.
    pub max: Point,
}

impl From<[i64; 6]> for Box3 {
    fn from(v: [i64; 6]) -> Self {
        Box3 { min: [v[0], v[1], v[2]], max: [v[3], v[4], v[5]] }
    }
}

impl From<Box3> for [i64; 6] {
    fn from(b: Box3) -> Self {
        [b.min[0], b.min[1], b.min[2], b.max[0], b.max[1], b.max[2]]
    }
}

impl Box3 {
    /// The box between two corners, which are taken as they are.
    pub fn new(min: Point, max: Point) -> Self {
        Box3 { min, max }
    }

    /// Whether the corners are in order on every axis.
    pub fn is_valid(&self) -> bool {
        (0..3).all(|a| self.min[a] < self.max[a])
    }

    /// Size along an axis.
    pub fn extent(&self, axis: usize) -> i64 {
        self.max[axis] - self.min[axis]
    }

    /// Volume in cubic micrometres.
    pub fn volume(&self) -> i128 {
        (0..3).map(|a| i128::from(self.extent(a))).product()
    }

    /// Coordinate of the face on that side.
    pub fn face(&self, side: Direction) -> i64 {
        if side.is_positive() { self.max[side.axis()] } else { self.min[side.axis()] }
    }

    /// Length shared with `other` along an axis; negative when apart.
    pub fn overlap(&self, other: &Box3, axis: usize) -> i64 {
        self.max[axis].min(other.max[axis]) - self.min[axis].max(other.min[axis])
    }

    /// Whether the insides of the two boxes share space; touching is not sharing.
    pub fn intersects(&self, other: &Box3) -> bool {
        (0..3).all(|a| self.overlap(other, a) > 0)
    }

    /// The shared space, if there is any.
    pub fn intersection(&self, other: &Box3) -> Option<Box3> {
        self.intersects(other).then(|| Box3 {
            min: std::array::from_fn(|a| self.min[a].max(other.min[a])),
            max: std::array::from_fn(|a| self.max[a].min(other.max[a])),
        })
    }

    /// Whether the two touch with this one's face on that side.
    pub fn shares_face(&self, side: Direction, other: &Box3) -> bool {
        self.face(side) == other.face(side.opposite())
            && (0..3).filter(|&a| a != side.axis()).all(|a| self.overlap(other, a) > 0)
    }

    /// The least box around both.
    #[must_use]
    pub fn union(&self, other: &Box3) -> Box3 {
        Box3 {
            min: std::array::from_fn(|a| self.min[a].min(other.min[a])),
            max: std::array::from_fn(|a| self.max[a].max(other.max[a])),
        }
    }

    /// The box moved by `by`.
    #[must_use]
    pub fn moved(&self, by: Point) -> Box3 {
        Box3 {
            min: std::array::from_fn(|a| self.min[a] + by[a]),
            max: std::array::from_fn(|a| self.max[a] + by[a]),
        }
    }

    /// Whether this box, moved along `direction` any distance greater than nothing, would run
    /// into `other`. Sliding along a touching face is free.
    ///
    /// ```
    /// use jointwise::geometry::{Box3, Direction};
    /// let shelf = Box3::new([0, 0, 0], [10, 10, 1]);
    /// let lid = Box3::new([0, 0, 1], [10, 10, 2]);
    /// assert!(shelf.hits_when_moved(Direction::Up, &lid));
    /// assert!(!shelf.hits_when_moved(Direction::Left, &lid));
    /// ```
    pub fn hits_when_moved(&self, direction: Direction, other: &Box3) -> bool {
        let axis = direction.axis();
        let beside = (0..3).filter(|&a| a != axis).all(|a| self.overlap(other, a) > 0);
        let ahead = if direction.is_positive() {
            other.max[axis] > self.min[axis]
        } else {
            other.min[axis] < self.max[axis]
        };
        beside && ahead
    }
}
