//! Jointwise: plans the building of a cabinet.
//!
//! A scenario file says what gap must be filled, what goes into the cabinet, how it is built and
//! what stands in the shop. From it the library sizes every part, places every screw, and
//! searches for an order of assembly that it can prove: each step carries the direction its part
//! moves in, what was checked to be clear, and what holds the part meanwhile.
//!
//! The crate is pure: no clock, no randomness, no input or output. Lengths are integer
//! micrometres, and integers decide.

pub mod assembly;
pub mod checks;
pub mod cutting;
pub mod design;
pub mod export;
pub mod findings;
pub mod geometry;
pub mod install;
pub mod json;
pub mod made;
pub mod measure;
pub mod order;
pub mod outcome;
pub mod plan;
pub mod remedy;
pub mod sawing;
pub mod scenario;
pub mod units;
pub mod wishes;

pub use outcome::{Outcome, build};
