//! What is added in one place is told in the others: rules of the checks, checks at the bench, exporters, kinds of unit,
//! pictures. Read from the sources, so that a step left out of DEVELOPERS.md's "How to" is found here.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test's own files: it fails where they are missing"
)]

use std::fs;
use std::path::{Path, PathBuf};

fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path)
}

fn text(path: &str) -> String {
    fs::read_to_string(at(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// What stands between two marks, the first time.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    text.split_once(from).unwrap().1.split_once(to).unwrap().0
}

/// Names of a folder's Rust files, without their ending.
fn modules(folder: &str) -> Vec<String> {
    let names = fs::read_dir(at(folder)).unwrap().map(|e| e.unwrap().file_name());
    let mut found: Vec<String> = names
        .filter_map(|n| Some(n.to_str()?.strip_suffix(".rs")?.to_owned()))
        .filter(|n| n != "mod")
        .collect();
    found.sort();
    assert!(found.len() > 5, "{folder}: {found:?}");
    found
}

#[test]
fn every_rule_of_the_checks_is_called() {
    let all = text("crate/core/src/checks/mod.rs");
    let called = between(&all, "let rules = [", "];");
    let mut rules = 0;
    for name in modules("crate/core/src/checks") {
        let is_rule = text(&format!("crate/core/src/checks/{name}.rs"))
            .contains("pub fn check(f: &Facts, said: &mut Said)");
        let is_called = called.contains(&format!(" {name}::check"));
        assert_eq!(is_rule, is_called, "checks/{name}.rs");
        rules += usize::from(is_rule);
    }
    assert!(rules >= 10, "{rules}: this test looks in the wrong place");
}

/// A kind of check at the bench is judged by the verifier and told of in the contract.
#[test]
fn every_check_at_the_bench_is_judged_and_told() {
    let plan = text("crate/core/src/plan/step.rs");
    let judged = text("tests/verifier/checks.rs");
    let guide = text("DEVELOPERS.md");
    let told = between(&guide, "checks[] kind (", ")");
    let mut kinds = 0;
    for line in between(&plan, "pub enum CheckKind {", "\n}").lines().map(str::trim) {
        let Some(name) = line.strip_suffix(',').filter(|_| !line.starts_with("//")) else {
            continue;
        };
        // As in the file: DryFit is dry-fit.
        let word = |c: char| {
            let dash = if c.is_uppercase() { "-" } else { "" };
            format!("{dash}{}", c.to_lowercase())
        };
        let kind: String = name.chars().map(word).collect();
        let kind = kind.trim_start_matches('-');
        assert!(judged.contains(&format!("\"{kind}\"")), "{kind} is judged by nothing");
        assert!(told.split(", ").any(|k| k == kind), "{kind} is not told in DEVELOPERS.md");
        kinds += 1;
    }
    assert!(kinds >= 7, "{kinds}: this test looks in the wrong place");
}

/// An exporter that nothing calls writes nothing.
#[test]
fn every_exporter_is_called_and_told() {
    let exports = text("crate/core/src/export/mod.rs");
    let users =
        ["crate/cli/src/files.rs", "crate/cli/src/build.rs", "crate/planner/src/session.rs"];
    let users: String = users.iter().map(|f| text(f)).collect::<String>()
        + exports.split_once("pub fn cutting_file(").unwrap().1;
    let guide = text("DEVELOPERS.md");
    let mut tried = 0;
    for line in exports.lines().filter_map(|l| l.strip_prefix("pub use ")) {
        let (module, names) = line.trim_end_matches(';').split_once("::").unwrap();
        let names = names.trim_matches(['{', '}']).split(", ");
        for name in names.filter(|n| n.chars().all(|c| c.is_lowercase() || c == '_')) {
            assert!(users.contains(&format!("{name}(")), "{name} is called by nothing");
            tried += 1;
        }
        assert!(guide.contains(&format!("`{module}`")), "{module} is not in the code map");
    }
    assert!(tried >= 15, "{tried}: this test looks in the wrong place");
}

/// A kind of unit is made of fields that the file has and the guide's table names.
#[test]
fn every_kind_of_unit_is_of_fields_that_are_told() {
    let kinds = text("www/kinds.js");
    let guide = text("DEVELOPERS.md");
    let table = between(&guide, "| kind | fields |", "\n\n");
    let file = text("crate/core/src/scenario/file/build.rs");
    let rows: Vec<&str> = between(&kinds, "export const KINDS = [", "];")
        .lines()
        .filter(|l| l.contains("id:"))
        .collect();
    assert!(rows.len() >= 9, "{}: this test looks in the wrong place", rows.len());
    for row in rows {
        let build = row.split_once("build: {").unwrap().1;
        for field in ["pull_out", "drawers", "doors", "shelves", "dividers", "front"] {
            if build.contains(&format!("{field}:")) {
                assert!(table.contains(field), "{field} is not in the table: {row}");
                assert!(file.contains(&format!("pub {field}:")), "{field} is no field: {row}");
            }
        }
    }
}

/// What the guide to adding quotes stands in one of the files that it names just before: lines in their order.
#[test]
fn what_the_guide_quotes_stands_in_the_files_it_names() {
    let guide = text("docs/adding.md");
    let (mut named, mut quotes) = (Vec::new(), 0);
    let mut parts = guide.split("```");
    while let Some(told) = parts.next() {
        // Files named in the paragraphs before; a quote right after another goes by the same.
        let files: Vec<String> = told
            .split('`')
            .skip(1)
            .step_by(2)
            .filter(|word| word.contains('/') && at(word).is_file())
            .map(text)
            .collect();
        if !told.trim().is_empty() {
            named = files;
        }
        let Some(quote) = parts.next() else { break };
        let (_language, lines) = quote.split_once('\n').unwrap();
        let stands = |file: &String| {
            let mut rest = file.lines();
            lines.lines().all(|line| rest.any(|l| l == line))
        };
        assert!(named.iter().any(stands), "quoted and nowhere:\n{lines}");
        quotes += 1;
    }
    assert!(quotes >= 12, "{quotes}: this test looks in the wrong place");
}

/// The pictures that a document shows are there, and small enough to be fetched by whoever only reads.
#[test]
fn pictures_of_the_documents_are_there_and_small() {
    let mut shown = 0;
    for (document, folder) in [
        ("README.md", ""),
        ("DEVELOPERS.md", ""),
        ("docs/order.md", "docs/"),
        ("docs/adding.md", "docs/"),
    ] {
        for picture in text(document).split("](").skip(1).filter_map(|r| r.split(')').next()) {
            if picture.ends_with(".png") || picture.ends_with(".svg") {
                let bytes = fs::read(at(&format!("{folder}{picture}")));
                let bytes = bytes.unwrap_or_else(|e| panic!("{document} shows {picture}: {e}"));
                assert!(bytes.len() < 200_000, "{picture} has {} bytes", bytes.len());
                shown += 1;
            }
        }
    }
    assert!(shown > 0, "no picture is shown: this test looks in the wrong place");
}
