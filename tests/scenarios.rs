//! The scenario files of the workspace, for the tests that go through all of them.

#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use std::fs;
use std::path::Path;

/// All that are to be built, each by its name with its text, in the order of their names.
///
/// # Panics
/// When the folder or a file of it cannot be read.
pub fn scenarios() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut found: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "json"))
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, fs::read_to_string(path).unwrap())
        })
        .collect();
    found.sort();
    assert!(found.len() >= 3, "{} scenarios", found.len());
    found
}
