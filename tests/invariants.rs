//! Who knows of what: the sentences of DEVELOPERS.md that the text of the sources can prove.
//!
//! Comments and, in Rust, everything from the first test module on are left out: what is written
//! about the code does not bind it.

use std::fs;
use std::path::{Path, PathBuf};

use jointwise::findings::Severity;

/// A file of the workspace, by its path from the root.
struct Source {
    path: String,
    code: String,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Every file below a folder, in a fixed order. What is built or fetched, not written here, is
/// left out.
fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path()).collect();
    entries.sort();
    for path in entries {
        let foreign = ["pkg", "node_modules"].iter().any(|name| path.ends_with(name));
        if path.is_dir() && !foreign {
            walk(&path, found);
        } else if path.is_file() {
            found.push(path);
        }
    }
}

/// A file with its text made bare by `strip`.
fn source(path: &Path, strip: fn(&str) -> String) -> Source {
    let text = fs::read_to_string(path).unwrap_or_default();
    assert!(!text.is_empty(), "{} cannot be read", path.display());
    let path = path.strip_prefix(root()).unwrap_or(path).to_string_lossy().into_owned();
    Source { path, code: strip(&text) }
}

/// Every file below a folder whose name ends in `ending`.
fn sources(folder: &str, ending: &str, strip: fn(&str) -> String) -> Vec<Source> {
    let mut paths = Vec::new();
    walk(&root().join(folder), &mut paths);
    paths.retain(|path| path.to_string_lossy().ends_with(ending));
    assert!(!paths.is_empty(), "nothing ends in {ending} below {folder}");
    paths.iter().map(|path| source(path, strip)).collect()
}

/// Rust without its line comments and without what follows the first `#[cfg(test)]` that opens a
/// module in the file; files of tests alone are empty.
fn rust(text: &str) -> String {
    let tests = ["#[cfg(test)]\nmod tests {", "#[cfg(test)]\npub mod tests {"];
    let end = tests.iter().filter_map(|t| text.find(t)).min().unwrap_or(text.len());
    without_line_comments(&text[..end])
}

fn without_line_comments(text: &str) -> String {
    // An address holds two slashes as well: a comment follows a blank or starts the line.
    let bare = |line: &str| match line
        .match_indices("//")
        .find(|(at, _)| line[..*at].chars().last().is_none_or(char::is_whitespace))
    {
        Some((at, _)) => line[..at].trim_end().to_owned(),
        None => line.to_owned(),
    };
    text.lines().map(|line| bare(line) + "\n").collect()
}

fn script(text: &str) -> String {
    let mut rest = text;
    let mut out = String::new();
    while let Some(start) = rest.find("/*") {
        out.push_str(&rest[..start]);
        rest = rest[start..].find("*/").map_or("", |end| &rest[start + end + 2..]);
    }
    out.push_str(rest);
    without_line_comments(&out)
}

fn as_it_is(text: &str) -> String {
    text.to_owned()
}

/// The planner's own code, without the files that only tests use.
fn core(below: &str) -> Vec<Source> {
    let mut all = sources(&format!("crate/core/src{below}"), ".rs", rust);
    all.retain(|s| !["/tests.rs", "/samples.rs", "/sample.rs"].iter().any(|t| s.path.ends_with(t)));
    all
}

/// Fails with every file and line that holds one of the words.
fn none_says(sources: &[Source], words: &[&str]) {
    let mut found = Vec::new();
    for s in sources {
        for (n, line) in s.code.lines().enumerate() {
            found.extend(
                words
                    .iter()
                    .filter(|w| line.contains(**w))
                    .map(|w| format!("{}:{} says {w}: {}", s.path, n + 1, line.trim())),
            );
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// The modules of the core that a folder or file names by their path.
fn none_uses(below: &str, modules: &[&str]) {
    let named: Vec<String> = modules
        .iter()
        .flat_map(|m| [format!("crate::{m}::"), format!("crate::{m};"), format!("crate::{m},")])
        .collect();
    let mut found = Vec::new();
    for s in core(below) {
        // `use crate::{design, order};` on one line.
        let flat = s.code.replace('\n', " ");
        for list in flat.split("use crate::{").skip(1) {
            let list = list.split(';').next().unwrap_or_default();
            let names = list.split(|c: char| !c.is_alphanumeric() && c != '_');
            found.extend(
                names.filter(|n| modules.contains(n)).map(|n| format!("{} uses {n}", s.path)),
            );
        }
        found.extend(
            named.iter().filter(|n| flat.contains(*n)).map(|n| format!("{} uses {n}", s.path)),
        );
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_core_knows_nothing_of_browser_files_clock_or_hash_order() {
    none_says(
        &core(""),
        &[
            "wasm_bindgen",
            "web_sys",
            "js_sys",
            "three_d",
            "std::fs",
            "std::io",
            "std::env",
            "std::net",
            "std::process",
            "std::thread",
            "std::time",
            "Instant::",
            "SystemTime",
            "HashMap",
            "HashSet",
            "println!",
        ],
    );
}

/// Only the reader of JSON meets such numbers, and hands them on as text.
#[test]
fn no_floating_point_decides_in_the_core() {
    let mut all = core("");
    all.retain(|s| !["scenario/tree.rs", "src/json.rs"].iter().any(|file| s.path.ends_with(file)));
    none_says(&all, &["f64", "f32"]);
}

#[test]
fn the_order_knows_nothing_of_cabinets() {
    let cabinet = [
        "cabinet",
        "carcass",
        "drawer",
        "pull-out",
        "pull_out",
        "toe",
        "kick",
        "runner",
        "bin",
        "shelf",
        "shelves",
        "nailer",
        "stretcher",
        "door",
        "plinth",
        "dowel",
    ];
    let mut found = Vec::new();
    for s in core("/order") {
        let code = s.code.to_lowercase();
        let words = code.split(|c: char| !c.is_alphanumeric() && c != '-');
        let parts = words.flat_map(|w| w.split('-').chain([w]));
        found.extend(
            parts
                .filter(|w| cabinet.contains(w) || cabinet.contains(&w.trim_end_matches('s')))
                .map(|w| format!("{} says {w}", s.path)),
        );
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn what_comes_first_knows_nothing_of_what_comes_after() {
    let after_units = [
        "geometry", "findings", "assembly", "plan", "scenario", "design", "order", "export",
        "outcome",
    ];
    none_uses("/units", &after_units);
    none_uses("/geometry", &after_units[1..]);
    none_uses("/assembly", &["plan", "design", "order", "export", "outcome"]);
    none_uses("/scenario", &["assembly", "design", "order", "export", "outcome"]);
    none_uses("/design", &["order", "export"]);
    none_uses("/order", &["scenario", "design", "export", "outcome", "install"]);
    none_uses("/install", &["export", "sawing", "made", "cutting"]);
    none_uses("/export", &["scenario", "design", "order", "outcome", "install"]);
    none_uses("/checks", &["design", "order", "export", "outcome", "install"]);
}

#[test]
fn only_two_crates_know_the_browser_and_one_how_to_draw() {
    for s in sources("crate", "Cargo.toml", as_it_is) {
        let depends = |name: &str| {
            let line =
                |l: &str| l.strip_prefix(name).is_some_and(|rest| rest.starts_with([' ', '.']));
            s.code.lines().any(line)
        };
        let knows = ["wasm-bindgen", "web-sys", "three-d"].map(depends);
        let picture = s.path == "crate/picture/Cargo.toml";
        let planner = s.path == "crate/planner/Cargo.toml";
        assert_eq!(knows, [picture || planner, picture, picture], "{}", s.path);
    }
}

#[test]
fn the_verifier_shares_no_code_with_the_planner() {
    none_says(
        &sources("tests/verifier", ".rs", rust),
        &["jointwise::", "jointwise as", "use jointwise"],
    );
    none_says(&[source(&root().join("tests/oracle.rs"), rust)], &["jointwise::"]);
    // The other oracle reads an assembly's values, and none of what the library knows about them.
    none_says(
        &sources("tests/order_oracle", ".rs", rust),
        &[
            "jointwise::order",
            "jointwise::geometry",
            "assembly::check",
            "assembly::gauge",
            "assembly::joints",
            "assembly::probe",
            "assembly::screws",
        ],
    );
}

#[test]
fn one_script_of_the_page_fetches_the_modules_and_one_those_in_one_file() {
    let scripts = sources("www", ".js", script);
    let known: Vec<&str> =
        scripts.iter().filter(|s| s.code.contains("pkg/")).map(|s| s.path.as_str()).collect();
    assert_eq!(known, ["www/module.js", "www/share/boot.js"]);
}

/// Names from a scenario, a file or a plan are text, never markup or code.
#[test]
fn the_page_never_parses_data_as_markup_or_code() {
    none_says(
        &sources("www", ".js", script),
        &[
            "innerHTML",
            "outerHTML",
            "insertAdjacentHTML",
            "document.write",
            "DOMParser",
            "createContextualFragment",
            "setHTML",
            "srcdoc",
            "eval(",
            "new Function",
        ],
    );
}

/// The page works under any path and asks nobody else: every address is relative to the page.
#[test]
fn the_page_asks_only_its_own_host() {
    let scripts = sources("www", ".js", script);
    let mut fetched = 0;
    for s in &scripts {
        for (at, _) in s.code.match_indices("fetch(") {
            let asked = &s.code[at + "fetch(".len()..];
            let line = asked.lines().next().unwrap_or_default();
            let own = if s.path == "www/sw.js" {
                // A plain script: what the page asked for of this site, or a file of its list.
                ["event.request)", "new URL(name, HERE)"].iter().any(|a| asked.starts_with(a))
            } else {
                let relative = ["new URL(\"./", "new URL(`./"];
                relative.iter().any(|a| asked.starts_with(a)) && line.contains("import.meta.url")
            };
            assert!(own, "{}: fetch({line}", s.path);
            fetched += 1;
        }
    }
    assert!(fetched > 0, "nothing is fetched: this test looks in the wrong place");
    let mut all = scripts;
    all.extend(sources("www", ".css", script));
    all.extend(sources("www", ".html", as_it_is));
    for s in &mut all {
        // The name of a vocabulary, which nobody fetches.
        s.code = s.code.replace("http://www.w3.org/2000/svg", "");
    }
    none_says(
        &all,
        &[
            "http:",
            "https:",
            "ws://",
            "wss://",
            "\"//",
            "'//",
            "url(/",
            "XMLHttpRequest",
            "sendBeacon",
        ],
    );
    none_says(&sources("www", ".html", as_it_is), &["href=\"/", "src=\"/"]);
}

/// The page's own content policy forbids them; a host may add a stricter one.
#[test]
fn the_page_has_no_inline_script_or_style() {
    for s in sources("www", ".html", as_it_is) {
        let lower = s.code.to_lowercase();
        assert!(!lower.contains("<style"), "{}", s.path);
        for (at, _) in lower.match_indices('<') {
            let tag = lower[at..].split('>').next().unwrap_or_default();
            let handler = tag
                .split_whitespace()
                .skip(1)
                .any(|a| a.starts_with("style=") || (a.starts_with("on") && a.contains('=')));
            assert!(!handler, "{}: {tag}>", s.path);
            assert!(!tag.starts_with("<script") || tag.contains(" src="), "{}: {tag}>", s.path);
        }
    }
}

/// The first file that a reader copies must do what the page beside it says.
#[test]
fn the_example_in_the_readme_plans() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let example = readme.split("```json\n").nth(1).unwrap().split("```").next().unwrap();
    let outcome = jointwise::build(example);
    assert!(outcome.plan.is_some(), "{:#?}", outcome.findings);
    let wrong: Vec<_> =
        outcome.findings.iter().filter(|f| f.severity < Severity::Caution).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What the documents name by its path is there.
#[test]
fn files_named_in_the_documents_exist() {
    let folders = ["crate/", "scenarios/", "tests/", "www/", ".ci/", "LICENSE-"];
    // Made by the build, or fetched.
    let later = ["tests/browser/node_modules"];
    for document in ["README.md", "DEVELOPERS.md", "THIRD-PARTY.md"] {
        let text = fs::read_to_string(root().join(document)).unwrap();
        let names = text.split(|c: char| c.is_whitespace() || "`()[]|,;".contains(c));
        let mut tried = 0;
        for name in names.map(|n| n.trim_end_matches(['.', ':'])) {
            let path = folders.iter().any(|f| name.starts_with(f));
            if !path || name.contains('*') || later.contains(&name) || name.contains("X.json") {
                continue;
            }
            tried += 1;
            assert!(root().join(name).exists(), "{document} names {name}");
        }
        assert!(tried > 0, "{document} names no file: this test looks in the wrong place");
    }
}
