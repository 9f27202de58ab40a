//! What the maker has accepted, with a reason that stays in the file.

use crate::findings::{Finding, Severity};
use crate::scenario::Accepted;

/// Marks what is accepted; says so when an entry accepts what cannot be, or what nobody says any more.
pub fn mark(accepted: &[Accepted], findings: &mut Vec<Finding>) {
    let mut said = Vec::new();
    for (n, entry) in accepted.iter().enumerate() {
        let of = |f: &&mut Finding| f.code == entry.code && f.place == entry.place;
        let mut found = findings.iter_mut().filter(of).peekable();
        let field = format!("accepted[{n}]");
        if found.peek().is_none() {
            said.push(Finding::new(
                Severity::Note,
                "accepted-nothing",
                field.clone(),
                format!(
                    "`{field}` accepts {} at {}, but nothing is said there any more.",
                    entry.code, entry.place
                ),
                "Take the entry out.",
            ));
            continue;
        }
        for finding in found {
            if finding.severity == Severity::Stop {
                said.push(Finding::new(
                    Severity::Caution,
                    "accepted-stop",
                    field.clone(),
                    format!(
                        "`{field}` accepts {}, without which nothing can be planned.",
                        entry.code
                    ),
                    "Put it right, and take the entry out.",
                ));
            } else {
                finding.accepted = Some(entry.reason.clone());
            }
        }
    }
    findings.extend(said);
}
