//! The whole way from the text of a scenario file to a plan.

use serde::{Deserialize, Serialize};

use crate::findings::Finding;
use crate::plan::Plan;

/// What comes of a scenario: as much as could be worked out, and everything there is to say.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outcome {
    /// Everything there is to say, most serious first.
    pub findings: Vec<Finding>,
    /// The sizes that were worked out; empty when the scenario could not be read.
    pub sizes: Vec<SizeRow>,
    /// The plan, unless a finding stops it.
    pub plan: Option<Plan>,
}

/// One worked-out size, with where it comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SizeRow {
    /// Stable name, such as `carcass-width`.
    pub id: String,
    /// As a maker says it: `Carcass, outside width`.
    pub label: String,
    /// In micrometres.
    pub value: i64,
    /// Printed in the scenario's notation.
    pub text: String,
    /// The sum behind it, in words and numbers.
    pub why: String,
}

/// Reads a scenario and plans it.
pub fn build(scenario: &str) -> Outcome {
    let _ = scenario;
    Outcome { findings: Vec::new(), sizes: Vec::new(), plan: None }
}
