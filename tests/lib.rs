//! Helpers shared by the outside checks.

pub mod dice;
pub mod oracle;
pub mod pieces;
pub mod verifier;
