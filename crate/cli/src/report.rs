//! Findings and plans in words.

use std::collections::BTreeMap;
use std::path::Path;

use jointwise::findings::{Finding, Severity};
use jointwise::plan::Plan;

/// A finding in a few lines: how much it matters, where, what, its numbers, what to do.
pub fn finding(f: &Finding) -> String {
    let severity = match f.severity {
        Severity::Stop => "stop",
        Severity::Fix => "fix",
        Severity::Caution => "caution",
        Severity::Note => "note",
    };
    let mut text = format!("{severity}: {}: {}\n", plain(&f.place), plain(&f.message));
    if !f.numbers.is_empty() {
        let numbers: Vec<_> =
            f.numbers.iter().map(|(k, v)| format!("{} {}", plain(k), plain(v))).collect();
        text.push_str(&format!("    {}\n", numbers.join(", ")));
    }
    if let Some(reason) = &f.accepted {
        text.push_str(&format!("    Accepted: {}\n", plain(reason)));
    } else if !f.hint.is_empty() {
        text.push_str(&format!("    What to do: {}\n", plain(&f.hint)));
    }
    if let Some(source) = &f.source {
        text.push_str(&format!("    Source: {}\n", plain(source)));
    }
    text
}

/// A plan in two lines.
pub fn plan(plan: &Plan) -> String {
    let screws: usize = plan.joints.iter().map(|j| j.fasteners.len()).sum();
    let cost = plan.cost;
    let proof = if plan.proof.optimal { "proved the cheapest" } else { "the cheapest found" };
    format!(
        "{}\n    {}, {}, {}, {}; about {} min\n    {}, {} with a second person; {proof}, {} \
         looked at\n",
        plain(&plan.title),
        count(plan.parts.len(), "part"),
        count(plan.joints.len(), "joint"),
        count(screws, "screw"),
        count(plan.steps.len(), "step"),
        cost.minutes,
        count(cost.turns, "turn"),
        count(cost.helper_steps, "step"),
        count(plan.proof.states, "state"),
    )
}

/// `1 part`, `2 parts`.
fn count<N: PartialEq + From<u8> + std::fmt::Display>(n: N, noun: &str) -> String {
    let plural = if n == N::from(1) { "" } else { "s" };
    format!("{n} {noun}{plural}")
}

/// A path as it can be printed.
pub fn shown(path: &Path) -> String {
    plain(&path.to_string_lossy())
}

/// Text of the scenario on one line and without control characters, which could otherwise
/// steer the terminal.
pub fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// The names of files, those in folders as the folder and their number.
pub fn written(files: &[(String, Vec<u8>)]) -> String {
    let mut said: Vec<String> = Vec::new();
    let mut folders: BTreeMap<&str, usize> = BTreeMap::new();
    for (name, _) in files {
        match name.split_once('/') {
            Some((folder, _)) => *folders.entry(folder).or_default() += 1,
            None => said.push(name.clone()),
        }
    }
    said.extend(folders.iter().map(|(folder, count)| format!("{folder} ({count} files)")));
    said.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finding_says_where_what_and_the_cure() {
        let f = Finding::new(Severity::Fix, "range", "space.depth", "It is 0.", "Give 300 mm.")
            .number("least", "300 mm")
            .source("common practice, no source");
        assert_eq!(
            finding(&f),
            "fix: space.depth: It is 0.\n    least 300 mm\n    What to do: Give 300 mm.\n    \
             Source: common practice, no source\n"
        );
    }

    #[test]
    fn a_finding_cannot_steer_the_terminal() {
        let f = Finding::new(Severity::Stop, "x", "a\u{1b}[2J", "b\nnote: all is well", "");
        let text = finding(&f);
        assert!(!text.contains('\u{1b}'));
        assert_eq!(text.lines().count(), 1);
    }
}
