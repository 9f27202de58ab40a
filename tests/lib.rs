//! Helpers shared by the outside checks.

pub mod oracle;
pub mod verifier;
