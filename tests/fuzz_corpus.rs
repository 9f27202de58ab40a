//! The bytes that are kept for the fuzz targets, in the tests' own build: nothing that was found once comes back.

#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use std::fs;
use std::path::Path;

use jointwise_tests::fuzzed::{TARGETS, changed, free_form};

/// Larger files than this are no corpus but data.
const LONGEST: u64 = 8_000;

#[test]
fn every_kept_case_passes() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fuzz/corpus");
    let mut folders: Vec<_> = fs::read_dir(&corpus).unwrap().map(|f| f.unwrap().path()).collect();
    folders.sort();
    let names: Vec<_> = folders.iter().map(|f| f.file_name().unwrap().to_str().unwrap()).collect();
    assert_eq!(names, TARGETS.map(|(name, _)| name), "a folder a target");
    for (folder, (name, run)) in folders.iter().zip(TARGETS) {
        let mut cases = 0;
        for file in fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()) {
            assert!(fs::metadata(&file).unwrap().len() <= LONGEST, "{} is large", file.display());
            println!("{}", file.display());
            run(&fs::read(&file).unwrap());
            cases += 1;
        }
        assert!((3..=40).contains(&cases), "{cases} cases of {name}");
    }
}

/// Each target has its program, and each program its target.
#[test]
fn every_target_can_be_run() {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fuzz/Cargo.toml");
    let manifest = fs::read_to_string(manifest).unwrap();
    let named: Vec<&str> = manifest
        .lines()
        .filter_map(|l| l.strip_prefix("path = \"fuzz_targets/")?.strip_suffix(".rs\""))
        .collect();
    assert_eq!(named, TARGETS.map(|(name, _)| name));
}

/// The pieces must be worth trying: some have a plan, some do not.
#[test]
fn bytes_give_pieces_with_and_without_a_plan() {
    let (mut planned, mut stopped) = (0, 0);
    let mut dice = jointwise_tests::dice::Dice::new(1);
    for _ in 0..60 {
        let bytes: Vec<u8> =
            (0..120).map(|_| u8::try_from(dice.between(0, 255)).unwrap()).collect();
        let outcome = jointwise::build(&free_form::text(&bytes));
        let unread =
            outcome.findings.iter().find(|f| f.place == "file" || f.code == "unknown-field");
        assert!(unread.is_none(), "{unread:?}");
        *(if outcome.plan.is_some() { &mut planned } else { &mut stopped }) += 1;
    }
    assert!(planned >= 6 && stopped >= 6, "{planned} planned, {stopped} stopped");
}

#[test]
fn a_changed_tree_is_a_tree() {
    let tree = br#"{"a":[1,2,{"b":"3"}]}"#;
    let all: Vec<String> = (0..50).filter_map(|seed| changed(tree, seed)).collect();
    assert_eq!(all.len(), 50);
    assert!(all.iter().all(|t| serde_json::from_str::<serde_json::Value>(t).is_ok()));
    assert!(all.iter().any(|t| t.as_bytes() != tree));
    assert_eq!(changed(b"no tree", 1), None);
}
