//! Helpers shared by the outside checks.

pub mod verifier;
