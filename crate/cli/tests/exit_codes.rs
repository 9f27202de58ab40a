//! The built command, as a shell sees it.

#![allow(clippy::unwrap_used, reason = "the helpers of a test fail by panicking, too")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn jointwise(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_jointwise")).args(arguments).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// An empty directory of one test, below the build's own.
fn room(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

fn scenario() -> String {
    let file = "../../scenarios/mudroom-bins.json";
    Path::new(env!("CARGO_MANIFEST_DIR")).join(file).to_str().unwrap().to_owned()
}

#[test]
fn help_is_asked_for_and_given() {
    for ask in [&["--help"][..], &["help"], &["build", "--help"]] {
        let run = jointwise(ask);
        assert_eq!(run.status.code(), Some(0));
        assert!(text(&run.stdout).contains("Usage: jointwise build FILE|FOLDER"));
        assert!(run.stderr.is_empty());
    }
}

#[test]
fn wrong_use_is_2_and_says_how() {
    for wrong in [&[][..], &["bild"], &["build"], &["build", "x.json", "--outt", "y"]] {
        let run = jointwise(wrong);
        assert_eq!(run.status.code(), Some(2), "{wrong:?}");
        assert!(text(&run.stderr).contains("Usage:"), "{wrong:?}");
        assert!(run.stdout.is_empty());
    }
}

#[test]
fn what_cannot_be_read_is_2_and_named() {
    let room = room("unreadable");
    let (binary, broken) = (room.join("binary.json"), room.join("broken.json"));
    fs::write(&binary, b"{\"title\": \"\xff\"}").unwrap();
    fs::write(&broken, "{\"format\": ").unwrap();
    let (missing, empty) = (room.join("missing.json"), room.join("empty"));
    fs::create_dir_all(&empty).unwrap();
    for (file, _why) in [
        (&missing, "missing"),
        (&empty, "a directory without scenarios"),
        (&binary, "bytes"),
        (&broken, "cut off"),
    ] {
        let out = room.join("out");
        let run = jointwise(&["build", file.to_str().unwrap(), "--out", out.to_str().unwrap()]);
        assert_eq!(run.status.code(), Some(2), "{file:?}");
        assert!(text(&run.stderr).contains(file.to_str().unwrap()), "{file:?}");
        assert!(!out.exists(), "{file:?} must leave nothing behind");
    }
}

#[test]
fn ten_megabytes_of_brackets_do_no_harm() {
    let file = room("brackets").join("deep.json");
    fs::write(&file, "[".repeat(10 << 20)).unwrap();
    let run = jointwise(&["build", file.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(2));
}

#[test]
fn two_files_of_one_name_are_refused_before_anything_is_written() {
    let room = room("same-name");
    let out = room.join("out");
    let (a, b) = (scenario(), scenario());
    let run = jointwise(&["build", &a, &b, "--out", out.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(2));
    assert!(text(&run.stderr).contains("mudroom-bins"));
    assert!(!out.exists());
}

#[test]
fn json_that_is_no_scenario_is_1() {
    let room = room("no-scenario");
    let file = room.join("other.json");
    fs::write(&file, "{\"format\": \"something-else/9\"}").unwrap();
    let out = room.join("out");
    let run = jointwise(&["build", file.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(1));
    assert!(text(&run.stderr).contains("other.json"));
    assert!(!out.exists());
}

#[test]
fn a_good_scenario_is_0_and_leaves_the_files_it_names() {
    let out = room("good").join("deep/out");
    let run = jointwise(&["build", &scenario(), "--out", out.to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(0), "{}", text(&run.stderr));
    let said = text(&run.stdout);
    for name in ["plan.json", "parts.csv", "steps.txt", "numbers.txt", "finished.svg"] {
        assert!(said.contains(name), "{name}: {said}");
        assert!(fs::metadata(out.join(name)).unwrap().len() > 100, "{name}");
    }
    // Whatever else lies there is named by its folder, with how much of it there is.
    for folder in fs::read_dir(&out).unwrap().map(|f| f.unwrap().path()).filter(|p| p.is_dir()) {
        let name = folder.file_name().unwrap().to_str().unwrap().to_owned();
        let count = fs::read_dir(&folder).unwrap().count();
        assert!(said.contains(&format!("{name} ({count} files)")), "{name}: {said}");
        let help = text(&jointwise(&["--help"]).stdout);
        assert!(help.contains(&format!("DIR/{name}")), "{name}: {help}");
    }
}
