//! Lengths: integer micrometres, read and printed the way makers write them.

mod length;
mod notation;

pub use length::Length;
pub use notation::Notation;
