//! THIRD-PARTY.md names what is compiled into the page's modules, by its licences: neither less nor
//! more than the lock file brings in.

#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

/// The licences of each crate.
type Licences = BTreeMap<String, BTreeSet<String>>;

/// The names of licences in an expression, without what stands between them.
fn names(expression: &str) -> BTreeSet<String> {
    expression
        .split([' ', ',', '(', ')', '/'])
        .filter(|word| !["", "or", "and"].contains(&word.to_lowercase().as_str()))
        .map(str::to_owned)
        .collect()
}

/// What the tree of the modules' dependencies says.
fn built(root: &Path) -> Licences {
    let words = "tree --locked --package jointwise-picture --package jointwise-planner --edges normal,no-proc-macro --prefix none";
    let output = Command::new(env!("CARGO"))
        .args(words.split(' '))
        .args(["--target", "wasm32-unknown-unknown", "--format", "{p}|{l}"])
        .current_dir(root)
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).unwrap();
    let rows = text.lines().filter_map(|line| line.trim_end_matches(" (*)").split_once('|'));
    rows.map(|(package, licence)| {
        (package.split(' ').next().unwrap_or_default().to_owned(), names(licence))
    })
    .filter(|(name, _)| !name.starts_with("jointwise"))
    .collect()
}

/// What the table of the file says.
fn listed(root: &Path) -> Licences {
    let text = std::fs::read_to_string(root.join("THIRD-PARTY.md")).unwrap();
    let rows = text.lines().filter_map(|line| line.strip_prefix("| ")?.strip_suffix(" |"));
    let rows = rows.filter_map(|row| row.split_once(" | ")).filter(|(head, _)| *head != "licence");
    rows.flat_map(|(licence, crates)| {
        crates.split(", ").map(move |name| (name.to_owned(), names(licence)))
    })
    .collect()
}

#[test]
fn the_list_is_what_the_module_is_built_of() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let built = built(&root);
    assert!(built.len() > 10, "{built:?}");
    assert_eq!(listed(&root), built);
}

/// What the page is tested and shrunk with: nothing without a hash, nothing that runs something as it is installed, no
/// licence that was not looked at.
#[test]
fn every_npm_package_is_locked_by_its_hash_and_of_a_known_licence() {
    let lock = Path::new(env!("CARGO_MANIFEST_DIR")).join("browser/package-lock.json");
    let lock: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(lock).unwrap()).unwrap();
    let packages = lock["packages"].as_object().unwrap();
    assert!(packages.len() > 6, "{} packages", packages.len());
    for (name, package) in packages.iter().filter(|(name, _)| !name.is_empty()) {
        let known = ["MIT", "Apache-2.0", "MPL-2.0"].map(Some);
        assert!(known.contains(&package["license"].as_str()), "{name}: {}", package["license"]);
        let hash = package["integrity"].as_str().unwrap_or_default();
        assert!(hash.starts_with("sha512-"), "{name} has no hash: {hash}");
        assert!(package["hasInstallScript"].is_null(), "{name} runs something as it is installed");
    }
}
