//! What is wrong with a job, and its cure.

use super::job::Job;
use super::layout::Unplaced;
use crate::findings::Finding;

/// What can be laid out, by index.
pub(super) struct Checked {
    pub parts: Vec<usize>,
    pub stock: Vec<usize>,
    pub refused: Vec<usize>,
    pub findings: Vec<Finding>,
}

pub(super) fn check(job: &Job) -> Checked {
    Checked {
        parts: (0..job.parts.len()).collect(),
        stock: (0..job.stock.len()).collect(),
        refused: Vec::new(),
        findings: Vec::new(),
    }
}

pub(super) fn unfit(_job: &Job, _unplaced: &[Unplaced]) -> Vec<Finding> {
    Vec::new()
}
