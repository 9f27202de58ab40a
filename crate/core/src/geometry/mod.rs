//! Exact geometry of axis-aligned boxes in integer micrometres.
//!
//! Axes of the finished, standing piece: x left to right, y front to back, z up.

mod box3;
mod direction;
mod solid;

pub use box3::{Box3, Point};
pub use direction::Direction;
pub use solid::{Contact, Solid};
