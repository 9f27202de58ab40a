//! What the maker has decided already, under the name that the search knows it by.

pub use crate::wishes::{Done, Wishes};
