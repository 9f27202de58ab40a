//! What a rule hands back: a row for the page of numbers, and a finding when the row fails.

use serde::{Deserialize, Serialize};

use crate::findings::{Finding, JobStage, Severity};

/// What a row is about; the page of numbers groups by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Theme {
    /// Screws and their pilots.
    Screws,
    /// Sag, racking, grooves.
    Panels,
    /// What slides out, and its load.
    PullOut,
    /// Tipping over.
    TipOver,
    /// Lifting and turning.
    Lifting,
    /// Gaps round fronts and doors.
    Fronts,
    /// The opening.
    Fit,
    /// Install in the room.
    Install,
    /// Dust, vapours, glue.
    Materials,
    /// How much each size may be off.
    Tolerance,
}

/// A number that went into a row, printed with its unit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Input {
    /// What it is: `span`.
    pub name: String,
    /// `520 mm`.
    pub value: String,
}

/// One check that was run, whether it passed or not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckRow {
    /// Stable name of the rule, such as `sag`.
    pub rule: String,
    /// Where the page lists it.
    pub theme: Theme,
    /// What was checked, in words.
    pub what: String,
    /// How the result follows from the inputs.
    pub formula: String,
    /// The numbers that went in.
    pub inputs: Vec<Input>,
    /// What came out, printed.
    pub result: String,
    /// What is allowed, printed; empty when nothing limits it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub limit: String,
    /// Whether it passed; absent when nothing limits it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub passed: Option<bool>,
    /// The part, joint, field or body it concerns, as in a finding.
    #[serde(rename = "where")]
    pub place: String,
    /// The stage of the job at which it matters.
    pub stage: JobStage,
    /// The step at which it matters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<u32>,
    /// Where formula and limit come from, with how far the source was seen.
    pub source: String,
}

impl CheckRow {
    /// A row without numbers.
    pub fn new(rule: &str, theme: Theme, stage: JobStage, place: impl Into<String>) -> Self {
        CheckRow {
            rule: rule.to_owned(),
            theme,
            what: String::new(),
            formula: String::new(),
            inputs: Vec::new(),
            result: String::new(),
            limit: String::new(),
            passed: None,
            place: place.into(),
            stage,
            step: None,
            source: String::new(),
        }
    }

    /// What was checked, how, and by which source.
    #[must_use]
    pub fn says(mut self, what: impl Into<String>, formula: &str, source: &str) -> Self {
        self.what = what.into();
        self.formula = formula.to_owned();
        self.source = source.to_owned();
        self
    }

    /// A number that goes in.
    #[must_use]
    pub fn with(mut self, name: &str, value: impl Into<String>) -> Self {
        self.inputs.push(Input { name: name.to_owned(), value: value.into() });
        self
    }

    /// What comes out, and what is allowed.
    #[must_use]
    pub fn gives(mut self, result: impl Into<String>, limit: impl Into<String>) -> Self {
        self.result = result.into();
        self.limit = limit.into();
        self
    }

    /// The step at which it matters.
    #[must_use]
    pub fn at(mut self, step: Option<u32>) -> Self {
        self.step = step;
        self
    }
}

/// Rows and findings as the rules add them.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Said {
    /// Every check run.
    pub rows: Vec<CheckRow>,
    /// What is to be said about those that fail.
    pub findings: Vec<Finding>,
}

impl Said {
    /// A row that nothing limits.
    pub fn tell(&mut self, row: CheckRow) {
        self.rows.push(row);
    }

    /// A row that nothing decides, with something to say all the same.
    pub fn warn(&mut self, row: CheckRow, severity: Severity, says: [String; 2]) {
        self.findings.push(finding(&row, severity, says));
        self.rows.push(row);
    }

    /// A row that passes or fails; what is said when it fails: message and hint.
    pub fn judge(
        &mut self,
        mut row: CheckRow,
        passed: bool,
        severity: Severity,
        otherwise: impl FnOnce() -> [String; 2],
    ) {
        row.passed = Some(passed);
        if !passed {
            self.findings.push(finding(&row, severity, otherwise()));
        }
        self.rows.push(row);
    }
}

/// What is said about a row.
pub fn finding(row: &CheckRow, severity: Severity, [message, hint]: [String; 2]) -> Finding {
    let mut finding = Finding::new(severity, &row.rule, row.place.clone(), message, hint);
    for (name, value) in [("result", &row.result), ("limit", &row.limit)] {
        if !value.is_empty() {
            finding = finding.number(name, value.clone());
        }
    }
    finding.stage = Some(row.stage);
    finding.step = row.step;
    finding.source(&row.source)
}
