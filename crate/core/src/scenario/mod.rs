//! The scenario: what must be filled, what goes in, how it is built, what is in the shop.

mod domain;

pub use domain::*;
