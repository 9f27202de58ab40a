//! Helpers shared by the outside checks.

pub mod chance;
pub mod cutting;
pub mod dice;
pub mod fuzzed;
pub mod oracle;
#[path = "order_oracle/mod.rs"]
pub mod order_oracle;
pub mod pieces;
pub mod scenarios;
pub mod spoil;
pub mod spread;
pub mod verifier;
