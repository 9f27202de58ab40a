//! What each scenario gives, kept to be reviewed as a diff: run once with `UPDATE_EXPECT=1` to
//! rewrite what is kept.
#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use std::fs;
use std::path::{Path, PathBuf};

use jointwise::export;
use jointwise_tests::scenarios::scenarios;

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

#[test]
fn outputs_are_as_kept() {
    let update = std::env::var_os("UPDATE_EXPECT").is_some();
    let mut changed = Vec::new();
    let all = scenarios();
    assert!(all.len() >= 3);
    for (name, text) in all {
        let outcome = jointwise::build(&text);
        let plan = outcome.plan.unwrap_or_else(|| panic!("{name}: {:#?}", outcome.findings));
        let folder = here("expected").join(&name);
        let mut drawings = String::new();
        for step in &plan.steps {
            drawings.push_str(&export::step_svg(&plan, step.n).unwrap());
            drawings.push('\n');
        }
        for part in &plan.parts {
            drawings.extend(export::part_svg(&plan, &part.id));
        }
        let files = export::cutting_files(&plan);
        let mut sawing = String::new();
        for file in &files {
            sawing.push_str(&export::cutting_file(&plan, file).unwrap());
        }
        let outputs = [
            ("plan.json", export::plan_json(&plan)),
            ("parts.csv", export::parts_csv(&plan)),
            ("steps.txt", export::steps_txt(&plan)),
            ("ready.csv", export::ready_csv(&plan)),
            ("numbers.txt", export::numbers_txt(&plan.title, &outcome.checks)),
            ("drawings.sum", format!("{:016x}\n", checksum(&drawings))),
            ("cuts.csv", export::cuts_csv(&plan)),
            ("cutting.sum", format!("{:016x} {} files\n", checksum(&sawing), files.len())),
        ];
        for (file, output) in outputs {
            let path = folder.join(file);
            if update {
                fs::create_dir_all(&folder).unwrap();
                fs::write(&path, &output).unwrap();
            } else if fs::read_to_string(&path).ok().as_deref() != Some(&output) {
                changed.push(path.display().to_string());
            }
        }
    }
    assert!(
        changed.is_empty(),
        "not as kept: {changed:#?}\nIf the change is meant, run with UPDATE_EXPECT=1 and review the diff."
    );
}

/// FNV-1a over the drawings: they are large, and looked at elsewhere.
fn checksum(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

#[test]
fn no_scenario_has_anything_to_put_right() {
    use jointwise::findings::Severity;
    for (name, text) in scenarios() {
        for finding in jointwise::build(&text).findings {
            assert!(finding.severity >= Severity::Caution, "{name}: {finding:#?}");
        }
    }
}
