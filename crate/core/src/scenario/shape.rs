//! From the text to the file's types: is it JSON, are the fields known, has each the right type?
//!
//! The reader stops at the first field it cannot take. To tell everything at once, that field is
//! noted, taken out of the tree, and the tree read again until it fits.

use serde_json::Value;

use super::file::File;
use super::near::nearest;
use super::tree;
use crate::findings::{Finding, Severity};
use crate::json::{self, Misfit, Step};

/// No cabinet needs more; a bigger file is a mistake, and is not even parsed.
pub(super) const MAX_BYTES: usize = 1 << 20;
/// After so many misfits the rest would only repeat them.
const MAX_MISFITS: usize = 100;

/// So many strangers are named in one place; more would only repeat them.
const MAX_NAMED: usize = 20;

/// What could be read, and the places already found fault with.
pub(super) struct Shaped {
    /// The file, without the fields that did not fit; `None` when it is not JSON at all.
    pub file: Option<File>,
    /// One for each misfit.
    pub findings: Vec<Finding>,
}

pub(super) fn shape(text: &str) -> Shaped {
    let nothing = |finding| Shaped { file: None, findings: vec![finding] };
    if text.len() > MAX_BYTES {
        return nothing(
            stop(
                "file-too-big",
                "file",
                "The file is too big to be a scenario.",
                "Use a file of at most 1 MiB; a scenario is a few kilobytes.",
            )
            .number("bytes", text.len().to_string())
            .number("at most", MAX_BYTES.to_string()),
        );
    }
    // Some editors put a byte order mark in front; it is not part of the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return nothing(stop(
            "file-empty",
            "file",
            "The file is empty.",
            "Start from one of the scenarios that come with the program.",
        ));
    }
    match tree::parse(text) {
        Ok((tree, twice)) => {
            let mut findings: Vec<Finding> =
                twice.iter().take(MAX_NAMED).map(|at| written_twice(at)).collect();
            let file = fit(tree, &mut findings);
            if file.is_none() && findings.is_empty() {
                findings.push(stop(
                    "wrong-type",
                    "file",
                    "The file does not have the shape of a scenario.",
                    "Start from one of the scenarios that come with the program.",
                ));
            }
            Shaped { file, findings }
        }
        Err(error) => nothing(not_json(&error)),
    }
}

fn stop(code: &str, place: &str, message: impl Into<String>, hint: impl Into<String>) -> Finding {
    // The whole file, or a field whose name is no letter long.
    let place = if place.is_empty() { "file" } else { place };
    Finding::new(Severity::Stop, code, place, message, hint)
}

fn not_json(error: &serde_json::Error) -> Finding {
    let (what, hint) = if error.is_eof() {
        (
            "The file ends before its last bracket, brace or quote is closed".to_owned(),
            "Close what is open, or fetch the whole file again if it was cut short.",
        )
    } else if error.to_string().starts_with("recursion limit") {
        (
            "Brackets are nested far deeper than in any scenario".to_owned(),
            "Take out the needless brackets; a scenario is at most six deep.",
        )
    } else {
        let text = error.to_string();
        let said = text.split(" at line ").next().unwrap_or_default();
        (
            format!("The file is not JSON: {said}"),
            "Mend the text there: names and texts stand in straight double quotes, a comma stands between \
             entries and none behind the last, and numbers are plain digits.",
        )
    };
    let (line, column) = (error.line(), error.column());
    stop("not-json", "file", format!("{what}, at line {line}, column {column}."), hint)
        .number("line", line.to_string())
        .number("column", column.to_string())
}

fn written_twice(place: &str) -> Finding {
    stop(
        "duplicate-field",
        place,
        format!(
            "`{place}` is written twice in the same place, so one of the two values would be lost."
        ),
        "Keep the one that is right and delete the other.",
    )
}

/// Reads the tree, taking out what does not fit.
fn fit(mut tree: Value, findings: &mut Vec<Finding>) -> Option<File> {
    for _ in 0..MAX_MISFITS {
        let Misfit { said, mut steps } = match json::read(&tree) {
            Ok(file) => return Some(file),
            Err(misfit) => misfit,
        };
        let unknown = said.starts_with("unknown field");
        if unknown {
            // The path ends in the stranger; its neighbours are looked at together.
            steps.pop();
        }
        let node = at(&mut tree, &steps)?;
        if unknown {
            let known = quoted(&said);
            let Value::Object(fields) = node else {
                return None;
            };
            let unknown: Vec<String> =
                fields.keys().filter(|k| !known.contains(&k.as_str())).cloned().collect();
            if unknown.is_empty() {
                return None;
            }
            fields.retain(|name, _| known.contains(&name.as_str()));
            for name in unknown.iter().take(MAX_NAMED) {
                findings.push(unknown_field(&print(&steps), name, &known));
            }
        } else {
            let finding = misfit(&print(&steps), node, &said);
            // The nothing that replaced a misfit may itself not fit; that is not the maker's doing.
            if !findings.iter().any(|f| f.code == finding.code && f.place == finding.place) {
                findings.push(finding);
            }
            take_out(&mut tree, &steps)?;
        }
    }
    None
}

/// Takes out a misfit without moving its neighbours: a field is removed, an entry of a list
/// becomes nothing of its own kind.
fn take_out(tree: &mut Value, steps: &[Step]) -> Option<()> {
    let (last, above) = steps.split_last()?;
    match (at(tree, above)?, last) {
        (Value::Object(fields), Step::Field(name)) => fields.remove(name).map(drop),
        (Value::Array(items), Step::Entry(n)) => {
            let item = items.get_mut(*n)?;
            // Lists hold either objects or lengths. Nothing of the right kind is found by trying:
            // a length may be null; where null is refused an empty object is tried next.
            *item =
                if item.is_null() { Value::Object(serde_json::Map::new()) } else { Value::Null };
            Some(())
        }
        _ => None,
    }
}

fn print(steps: &[Step]) -> String {
    steps.iter().fold(String::new(), |path, step| match step {
        Step::Field(name) => tree::field(&path, name),
        Step::Entry(n) => format!("{path}[{n}]"),
    })
}

fn at<'a>(tree: &'a mut Value, steps: &[Step]) -> Option<&'a mut Value> {
    steps.iter().try_fold(tree, |node, step| match step {
        Step::Field(name) => node.get_mut(name),
        Step::Entry(n) => node.get_mut(n),
    })
}

/// The names between backticks behind the last “expected”; ours hold no backtick.
fn quoted(said: &str) -> Vec<&str> {
    let expected = said.rsplit("expected ").next().unwrap_or_default();
    expected.split('`').skip(1).step_by(2).collect()
}

fn unknown_field(parent: &str, name: &str, known: &[&str]) -> Finding {
    let place = tree::field(parent, &clip(name));
    let hint = match nearest(name, known.iter().copied()) {
        Some(near) => format!("Did you mean `{near}`? Rename or delete it."),
        None => format!("Delete it, or use one of: {}.", known.join(", ")),
    };
    let inside = if parent.is_empty() { "the file".to_owned() } else { format!("`{parent}`") };
    let name = clip(name);
    stop("unknown-field", &place, format!("`{name}` is not a field of {inside}."), hint)
}

fn misfit(place: &str, value: &Value, said: &str) -> Finding {
    let shown = clip(&value.to_string());
    if said.starts_with("unknown variant") {
        let known = quoted(said);
        let near = value.as_str().and_then(|v| nearest(v, known.iter().copied()));
        let meant = near.map(|n| format!("Did you mean `{n}`? ")).unwrap_or_default();
        return stop(
            "unknown-value",
            place,
            format!("`{place}` is {shown}, which is not one of its values."),
            format!("{meant}Use one of: {}.", known.join(", ")),
        );
    }
    let expected = match said.rsplit("expected ").next().unwrap_or_default() {
        "a boolean" => "true or false, without quotes",
        "a string" => "a text in double quotes",
        "a sequence" => "a list in square brackets",
        other => other,
    };
    stop(
        "wrong-type",
        place,
        format!("`{place}` is {shown}, but {expected} belongs there."),
        format!("Write {expected}, or leave the field out if it has a default."),
    )
}

/// A value as it stands in the file, cut to what fits in a sentence.
pub(super) fn clip(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        text.chars().take(MOST).chain(['…']).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A finding without a place could be shown nowhere.
    #[test]
    fn a_field_without_a_name_is_a_finding_of_the_file() {
        for text in [r#"{"": 1}"#, r#"{"": 1, "": 2}"#, "7"] {
            let findings = shape(text).findings;
            assert!(!findings.is_empty() && findings.iter().all(|f| f.place == "file"), "{text}");
        }
    }
}
