//! What the program has to say about the input or the result: one value a remark.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Nothing can be planned until this is put right.
    Stop,
    /// The plan stands, but this must be put right before building.
    Fix,
    /// Take care here.
    Caution,
    /// Good to know.
    Note,
}

/// A stage of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JobStage {
    /// Measuring the room.
    Measure,
    /// Settling the sizes.
    Size,
    /// Cutting.
    Cut,
    /// Putting together.
    Bench,
    /// Fixing in the room.
    Install,
}

/// One remark, with its place, its numbers and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Finding {
    /// Stable name of the rule, such as `length-range`.
    pub code: String,
    /// How much it matters.
    pub severity: Severity,
    /// The field (`space.height`), part (`part left-side`), joint, screw, body or step it concerns,
    /// or `file` for the whole.
    #[serde(rename = "where")]
    pub place: String,
    /// What is the matter, in a sentence.
    pub message: String,
    /// What to do about it, in a sentence.
    pub hint: String,
    /// The facts behind it, already printed with their units.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub numbers: BTreeMap<String, String>,
    /// Where the rule comes from: a published source, "common practice, no source", "from memory".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// The stage of the job that it concerns, where `place` alone does not tell.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stage: Option<JobStage>,
    /// The step that it concerns.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<u32>,
    /// Why the maker accepts it, if so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accepted: Option<String>,
}

impl Finding {
    /// A finding without numbers or source; add them with [`Finding::number`] and [`Finding::source`].
    pub fn new(
        severity: Severity,
        code: &str,
        place: impl Into<String>,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        Finding {
            code: code.to_owned(),
            severity,
            place: place.into(),
            message: message.into(),
            hint: hint.into(),
            numbers: BTreeMap::new(),
            source: None,
            stage: None,
            step: None,
            accepted: None,
        }
    }

    /// Adds a fact, printed with its unit.
    #[must_use]
    pub fn number(mut self, name: &str, value: impl Into<String>) -> Self {
        self.numbers.insert(name.to_owned(), value.into());
        self
    }

    /// Says where the rule comes from.
    #[must_use]
    pub fn source(mut self, source: &str) -> Self {
        self.source = Some(source.to_owned());
        self
    }
}

/// Whether any finding forbids planning.
pub fn has_stop(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.severity == Severity::Stop)
}
