//! Pieces that nobody can build: read and designed without fault, and then told why no order exists.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::Path;

use jointwise::findings::{Finding, Severity};

/// The file, the part that cannot go in, and what is in its way.
const CANNOT: &[(&str, &str, &str)] = &[("one-piece-frame", "panel", "frame")];

#[test]
fn what_cannot_be_built_is_told_with_the_part_that_shows_it() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/cannot");
    let there = fs::read_dir(&folder).unwrap().count();
    assert_eq!(there, CANNOT.len(), "each file of the folder has a row");
    for (name, part, other) in CANNOT {
        let text = fs::read_to_string(folder.join(name).with_extension("json")).unwrap();
        let outcome = jointwise::build(&text);
        assert!(outcome.plan.is_none(), "{name} is planned all the same");
        assert!(!outcome.sizes.is_empty(), "{name}: its sizes are known");
        let grave = |f: &&Finding| f.severity <= Severity::Fix;
        let wrong: Vec<&Finding> = outcome.findings.iter().filter(grave).collect();
        let [said] = wrong.as_slice() else { panic!("{name}: {wrong:#?}") };
        assert_eq!((said.severity, said.code.as_str()), (Severity::Stop, "no-order"), "{name}");
        let names = [part, other].map(|n| said.message.contains(*n));
        assert_eq!(names, [true, true], "{name}: {}", said.message);
    }
}
