//! The way into the room, judged by the same verifier as the work at the bench.

use std::fs;
use std::path::Path;

use jointwise::plan::{Plan, Stage};
use jointwise_tests::verifier::verify;

/// Every scenario that is built for a gap, with its plan in the room.
fn all() -> Vec<(String, Plan)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().flatten().map(|e| e.path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "json"));
    paths.sort();
    let mut found = Vec::new();
    for path in paths {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).unwrap();
        let outcome = jointwise::build(&text);
        let plan = outcome.plan.unwrap_or_else(|| panic!("{name}: {:#?}", outcome.findings));
        if text.contains("\"space\"") {
            let said = outcome.findings.iter().map(|f| format!("{}: {}\n", f.code, f.message));
            match plan.install {
                Some(install) => found.push((name, *install)),
                None => eprintln!("{name} has no way into its room:\n{}", said.collect::<String>()),
            }
        }
    }
    found
}

#[test]
fn every_way_into_a_room_is_accepted() {
    let all = all();
    assert!(all.len() >= 10, "{} scenarios", all.len());
    let mut wrong = Vec::new();
    for (name, plan) in &all {
        assert!(plan.steps.iter().all(|s| s.stage == Stage::Install), "{name}");
        let text = serde_json::to_string(plan).unwrap();
        wrong.extend(verify(&text).into_iter().map(|v| format!("{name}: {v}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
