//! Any bytes as a scenario file.

use jointwise::findings::has_stop;
use jointwise::outcome::draft;

use super::{MOST_PLANNED, are_said, is_planned_or_told};

/// Sizes it, and plans it when it is small.
///
/// # Panics
/// When what comes of it is neither sized nor told, or its plan is not sound.
pub fn run(bytes: &[u8]) {
    let text = &String::from_utf8_lossy(bytes);
    let sized = draft(text);
    are_said(&sized.findings, text);
    let stopped = has_stop(&sized.findings);
    assert!(stopped || !sized.parts.is_empty(), "neither parts nor stop of {text}");
    if !stopped && sized.parts.len() <= MOST_PLANNED {
        is_planned_or_told(&jointwise::build(text), text);
    }
}
