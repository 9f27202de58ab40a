//! A folder of 200 builds, as a teacher would host them: every one planned or told, and one page of all of them that
//! a browser shows without running anything.

#![allow(clippy::unwrap_used, reason = "the helpers of a test fail by panicking, too")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

/// How many builds.
const BUILDS: usize = 200;

/// Those that are planned fastest of ours, so that 200 of them are no wait.
const OURS: [&str; 4] = ["root-crate", "hall-console", "workshop-shelf", "mug-wall-unit"];

/// An empty directory of one test, below the build's own.
fn room(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

/// The build of a number: one of ours in another size, or with another drill, under a title that is no markup. Of 50,
/// one has no room for anything.
fn scenario(n: usize) -> Value {
    let ours = OURS[n % OURS.len()];
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../../scenarios/{ours}.json"));
    let mut tree: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    tree["title"] = json!(format!("Build {n} <of> \"{ours}\" & others"));
    match tree["space"].as_object_mut() {
        Some(space) => {
            let mm = if n % 50 == 1 { 20 } else { 700 + 3 * n };
            space["widths"] = json!([{ "at": "50 mm", "width": format!("{mm} mm") }]);
        }
        None => tree["shop"]["drill"] = json!({ "length": format!("{} mm", 150 + n) }),
    }
    tree
}

fn build(given: &[&Path], out: &Path) -> (i32, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_jointwise"));
    let run = command.arg("build").args(given).arg("--out").arg(out).output().unwrap();
    (run.status.code().unwrap(), String::from_utf8(run.stdout).unwrap())
}

/// What stands in double quotes after each `name=`.
fn values<'a>(page: &'a str, name: &str) -> Vec<&'a str> {
    let start = format!("{name}=\"");
    page.split(&start).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn two_hundred_builds_are_planned_or_told_and_listed() {
    let room = room("folder");
    let (folder, out) = (room.join("in"), room.join("out"));
    fs::create_dir_all(&folder).unwrap();
    for n in 0..BUILDS {
        fs::write(folder.join(format!("build {n:03}.json")), scenario(n).to_string()).unwrap();
    }
    let (code, said) = build(&[&folder], &out);
    assert_eq!(code, 1, "those without room are to be put right");
    let page = fs::read_to_string(out.join("index.html")).unwrap();

    // Every file is on it, in their order: planned with its picture, or told.
    let heads: Vec<&str> = page.split("<h2>").skip(1).collect();
    assert_eq!(heads.len(), BUILDS);
    let none = (0..BUILDS).filter(|n| !out.join(format!("build {n:03}")).exists());
    let without: BTreeSet<usize> = none.collect();
    assert!((1..BUILDS / 10).contains(&without.len()), "{without:?} without a plan");
    for (n, head) in heads.iter().enumerate() {
        if without.contains(&n) {
            assert!(
                head.starts_with(&format!("build {n:03}</h2>\n<p>Not planned: 1 stop")),
                "{head}"
            );
        } else {
            assert!(head.starts_with(&format!("Build {n} &lt;of&gt; &quot;")), "{head}");
        }
    }
    assert_eq!(page.matches("<img ").count(), BUILDS - without.len());
    assert_eq!(said.matches("about ").count(), BUILDS - without.len());

    // It is a page alone: no script, no style within, nothing from elsewhere, and all it names is there.
    assert!(page.contains("default-src 'none'"));
    for word in ["<script", "<style", " style=", " onload", " onerror", "http:", "https:", "//"] {
        assert!(!page.contains(word), "{word}");
    }
    for address in values(&page, "href").into_iter().chain(values(&page, "src")) {
        let file = out.join(address.replace("%20", " "));
        assert!(!address.starts_with('/') && file.is_file(), "{address}");
    }

    // What one of them comes to does not depend on the others.
    let one = folder.join("build 102.json");
    let (_, alone) = build(&[&one], &room.join("alone"));
    assert!(said.contains(alone.lines().next().unwrap()));
    for name in ["plan.json", "finished.svg", "steps.txt", "cutting/labels.html"] {
        let read = |dir: PathBuf| fs::read(dir.join(name)).unwrap();
        assert_eq!(read(room.join("alone")), read(out.join("build 102")), "{name}");
    }
    fs::remove_dir_all(&room).unwrap();
}

#[test]
fn a_folder_and_a_file_of_one_name_are_refused() {
    let room = room("folder-twice");
    fs::write(room.join("a.json"), scenario(0).to_string()).unwrap();
    let (code, _) = build(&[&room, &room.join("a.json")], &room.join("out"));
    assert_eq!(code, 2);
    assert!(!room.join("out").exists());
}
