//! The scenario: what must be filled, what goes in, how it is built, what is in the shop.
//!
//! [`mod@file`] holds the JSON file's own types, [`read()`] turns its text into the [`Scenario`] that
//! the design uses, with everything wrong collected as findings.

mod defaults;
mod domain;
pub mod file;
mod install;
mod listed;
mod made;
mod measured;
pub(crate) mod near;
mod read;
mod role;
mod run;
mod shape;
mod stock;
mod tree;

pub use domain::*;
pub use install::{Accepted, Install};
pub use listed::*;
pub use made::*;
pub use measured::*;
pub use read::read;
pub use role::Role;
pub use run::*;
pub use stock::*;
