//! Helpers shared by the outside checks.

pub mod cutting;
pub mod dice;
pub mod oracle;
pub mod verifier;
