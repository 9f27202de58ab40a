//! Lengths: integer micrometres, read and printed the way makers write them.

mod error;
mod length;
mod notation;
mod parse;
mod tokens;
mod unit;

pub use error::LengthError;
pub use length::Length;
pub use notation::Notation;
pub(crate) use parse::parse_decimal;
pub use parse::{MAX_LENGTH, parse_length};
pub use unit::Unit;
