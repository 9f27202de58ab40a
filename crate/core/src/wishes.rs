//! What the maker has decided already; the rest is planned from there.

use serde::{Deserialize, Serialize};

use crate::geometry::Direction;

/// Choices that the order must keep. The default leaves everything open.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Wishes {
    /// Id of the part that the finished piece starts with.
    pub first: Option<String>,
    /// Nobody helps: an order that takes a second person is none.
    pub alone: bool,
    /// The only faces of the finished piece that may lie on the bench; empty for all. The face it
    /// ends on is always allowed.
    pub lay_on: Vec<Direction>,
    /// What stands on the bench already.
    pub done: Option<Done>,
}

impl Wishes {
    /// Whether the finished piece may lie on a face, when it ends on `end`.
    pub fn lets_lie_on(&self, face: Direction, end: Direction) -> bool {
        self.lay_on.is_empty() || self.lay_on.contains(&face) || face == end
    }
}

/// A half-built piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// Ids of the parts in it. Every joint between two of them counts as closed.
    pub parts: Vec<String>,
    /// The face it lies on.
    pub face: Direction,
}
