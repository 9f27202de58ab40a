//! `jointwise build`: reads scenarios, writes plans, says what there is to say.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use jointwise::Outcome;
use jointwise::export::{cutting_file, cutting_files, part_svg, parts_csv, plan_json, steps_txt};
use jointwise::findings::Severity;
use jointwise::plan::Plan;

use crate::report;

/// Planned; at most notes and cautions.
pub const DONE: u8 = 0;
/// Something must be put right.
pub const WRONG: u8 = 1;
/// Wrong use, or a file that cannot be read or written.
pub const UNREADABLE: u8 = 2;

/// No scenario comes near this; it keeps a wrong file from filling the memory.
const MOST_BYTES: u64 = 64 << 20;

/// Plans each file with `plan`; the exit code is the worst of them. One bad file does not keep
/// the others from being planned.
pub fn run(
    files: &[PathBuf],
    out_dir: Option<&Path>,
    plan: impl Fn(&str) -> Outcome,
    out: &mut impl Write,
    err: &mut impl Write,
) -> u8 {
    let places = match places(files, out_dir) {
        Ok(places) => places,
        Err(message) => {
            say(err, &format!("error: {message}\n"));
            return UNREADABLE;
        }
    };
    let mut worst = DONE;
    for (file, dir) in files.iter().zip(&places) {
        let code = match read(file) {
            Ok(text) => one(file, dir.as_deref(), &text, &plan, out, err),
            Err(message) => {
                say(err, &format!("{}\nerror: {message}\n", shown(file)));
                UNREADABLE
            }
        };
        worst = worst.max(code);
    }
    worst
}

/// Where each file's plan goes: the directory itself for one file, a directory named after the
/// file below it for several. Two files of one name would write over each other.
fn places(files: &[PathBuf], out_dir: Option<&Path>) -> Result<Vec<Option<PathBuf>>, String> {
    let Some(dir) = out_dir else {
        return Ok(vec![None; files.len()]);
    };
    if let [_] = files {
        return Ok(vec![Some(dir.to_owned())]);
    }
    let mut names = BTreeSet::new();
    let mut places = Vec::new();
    for file in files {
        let Some(name) = file.file_stem() else {
            return Err(format!("{} is not a file.", shown(file)));
        };
        // Some file systems take a.json and A.JSON for one.
        if !names.insert(name.to_string_lossy().to_lowercase()) {
            let name = report::plain(&name.to_string_lossy());
            return Err(format!(
                "Two scenarios are named {name}: their plans would write over each other. \
                 Rename one, or plan them one at a time."
            ));
        }
        places.push(Some(dir.join(name)));
    }
    Ok(places)
}

/// The text of a scenario file.
fn read(file: &Path) -> Result<String, String> {
    let what = |e: std::io::Error| format!("It cannot be read: {e}.");
    let about = fs::metadata(file).map_err(what)?;
    if !about.is_file() {
        return Err("It is not a file. Name a scenario file, such as base.json.".to_owned());
    }
    if about.len() > MOST_BYTES {
        return Err(format!("It is too large for a scenario: over {} MB.", MOST_BYTES >> 20));
    }
    let bytes = fs::read(file).map_err(what)?;
    String::from_utf8(bytes).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        format!("It is not text in UTF-8: byte {at} does not fit. Save it as UTF-8.")
    })
}

/// Plans one scenario.
fn one(
    file: &Path,
    dir: Option<&Path>,
    text: &str,
    plan: impl Fn(&str) -> Outcome,
    out: &mut impl Write,
    err: &mut impl Write,
) -> u8 {
    let Outcome { findings, plan, .. } = plan(text);
    // What the plan has to say, the outcome mostly says too: each once.
    let mut all: Vec<_> = findings.iter().collect();
    let more = plan.iter().flat_map(|p| &p.findings).filter(|f| !findings.contains(f));
    all.extend(more);
    all.sort_by_key(|f| f.severity);
    if !all.is_empty() || plan.is_none() {
        say(err, &format!("{}\n", shown(file)));
    }
    for finding in &all {
        say(err, &report::finding(finding));
    }
    let mut code = DONE;
    let open = all.iter().filter(|f| f.accepted.is_none());
    if open.into_iter().any(|f| matches!(f.severity, Severity::Stop | Severity::Fix)) {
        code = WRONG;
    }
    match (&plan, dir) {
        (Some(plan), Some(dir)) => {
            say(out, &report::plan(plan));
            match write(plan, dir) {
                Ok(()) => {
                    let dir = shown(dir);
                    let saw = if plan.cutting.is_some() { "; for the saw: cutting" } else { "" };
                    say(
                        out,
                        &format!("    plan.json, parts.csv and steps.txt are in {dir}{saw}\n"),
                    );
                }
                Err(message) => {
                    say(err, &format!("error: {message}\n"));
                    code = UNREADABLE;
                }
            }
        }
        (Some(plan), None) => {
            say(out, &report::plan(plan));
            say(out, "    Nothing was written: give --out DIR for that.\n");
        }
        (None, _) => {
            code = code.max(WRONG);
            say(err, "No plan came of it; nothing was written, and no file was touched.\n");
        }
    }
    // A text that is not JSON at all is no scenario, good or bad: it could not be read.
    if serde_json::from_str::<serde::de::IgnoredAny>(text).is_err() {
        if all.is_empty() {
            say(err, "error: It is not JSON.\n");
        }
        code = UNREADABLE;
    }
    code
}

/// Writes the three files, a drawing of each part, and what the saw needs into folders of their own.
fn write(plan: &Plan, dir: &Path) -> Result<(), String> {
    let failed = |path: &Path, e: &std::io::Error| format!("{} not written: {e}.", shown(path));
    fs::create_dir_all(dir).map_err(|e| failed(dir, &e))?;
    for (name, text) in [
        ("plan.json", plan_json(plan)),
        ("parts.csv", parts_csv(plan)),
        ("steps.txt", steps_txt(plan)),
    ] {
        let path = dir.join(name);
        fs::write(&path, text).map_err(|e| failed(&path, &e))?;
    }
    for part in &plan.parts {
        let Some(drawing) = part_svg(plan, &part.id) else { continue };
        let dir = dir.join("parts");
        fs::create_dir_all(&dir).map_err(|e| failed(&dir, &e))?;
        // Ids are letters, digits and hyphens.
        let path = dir.join(format!("{}.svg", part.id));
        fs::write(&path, drawing).map_err(|e| failed(&path, &e))?;
    }
    let dir = dir.join("cutting");
    for (n, name) in cutting_files(plan).iter().enumerate() {
        if n == 0 {
            fs::create_dir_all(&dir).map_err(|e| failed(&dir, &e))?;
        }
        let path = dir.join(name);
        let text = cutting_file(plan, name).unwrap_or_default();
        fs::write(&path, text).map_err(|e| failed(&path, &e))?;
    }
    Ok(())
}

/// A path as it can be printed.
fn shown(path: &Path) -> String {
    report::plain(&path.to_string_lossy())
}

/// Prints; a reader that has gone away is no reason to stop writing files.
fn say(to: &mut impl Write, text: &str) {
    let _ = to.write_all(text.as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;
    use jointwise::findings::Finding;
    use jointwise::plan::{Cost, Proof, Workshop};

    fn plan() -> Plan {
        Plan {
            format: jointwise::plan::FORMAT.to_owned(),
            bodies: Vec::new(),
            title: "Test piece".to_owned(),
            unit: jointwise::units::Notation::MmHalf,
            workshop: Workshop {
                drill_length: 1,
                drill_width: 1,
                bit_width: 1,
                bit_length: 1,
                bench_length: 1,
                bench_width: 1,
                bench_height: 1,
                bearers: 40_000,
                reach_height: 1,
                clamps: Vec::new(),
                people: 1,
                square_check: "tape".to_owned(),
                tools: Vec::new(),
                glue: jointwise::plan::Glue::default(),
                offcuts: Vec::new(),
                person: None,
            },
            parts: Vec::new(),
            joints: Vec::new(),
            steps: Vec::new(),
            cost: Cost::default(),
            proof: Proof { optimal: true, states: 1, bound: Cost::default() },
            cutting: None,
            install: None,
            findings: Vec::new(),
        }
    }

    /// A planner that finds what the file's text says: a JSON list of severities, and `plan`.
    fn planner(text: &str) -> Outcome {
        let words: Vec<String> = serde_json::from_str(text).unwrap_or_default();
        let severities = [
            ("stop", Severity::Stop),
            ("fix", Severity::Fix),
            ("caution", Severity::Caution),
            ("note", Severity::Note),
        ];
        let found = |w: &String| severities.iter().find(|s| s.0 == w).map(|s| s.1);
        let findings = words
            .iter()
            .filter_map(found)
            .map(|s| Finding::new(s, "test", "space.width", "It is so.", "Do so."))
            .collect();
        let plan = words.contains(&"plan".to_owned()).then(plan);
        Outcome { findings, plan, ..Outcome::default() }
    }

    struct Run {
        code: u8,
        out: String,
        err: String,
        dir: PathBuf,
    }

    /// Writes the texts as a.json, b.json, …, and plans them into a fresh directory.
    fn run_on(name: &str, texts: &[&str]) -> Run {
        let id = std::process::id();
        let room = std::env::temp_dir().join(format!("jointwise-{name}-{id}"));
        fs::create_dir_all(&room).unwrap();
        let files: Vec<PathBuf> =
            ["a.json", "b.json", "c.json"].iter().map(|f| room.join(f)).collect();
        let files = &files[..texts.len()];
        for (file, text) in files.iter().zip(texts) {
            fs::write(file, text).unwrap();
        }
        let (mut out, mut err, dir) = (Vec::new(), Vec::new(), room.join("out"));
        let code = run(files, Some(&dir), planner, &mut out, &mut err);
        let text = |bytes| String::from_utf8(bytes).unwrap();
        Run { code, out: text(out), err: text(err), dir }
    }

    #[test]
    fn the_code_follows_the_worst_finding() {
        for (name, text, code) in [
            ("plain", r#"["plan"]"#, DONE),
            ("mild", r#"["plan", "note", "caution"]"#, DONE),
            ("fix", r#"["plan", "fix"]"#, WRONG),
            ("stop", r#"["stop"]"#, WRONG),
            ("nothing", "[]", WRONG),
        ] {
            let run = run_on(name, &[text]);
            assert_eq!(run.code, code, "{text}: {}", run.err);
            assert_eq!(run.dir.join("plan.json").exists(), text.contains("plan"), "{text}");
            fs::remove_dir_all(run.dir.parent().unwrap()).unwrap();
        }
    }

    #[test]
    fn one_bad_file_does_not_keep_the_others_from_their_plans() {
        let run = run_on("several", &[r#"["plan"]"#, r#"["stop"]"#, r#"["plan", "note"]"#]);
        assert_eq!(run.code, WRONG);
        assert!(run.err.contains("stop: space.width: It is so."));
        assert_eq!(run.out.matches("Test piece").count(), 2);
        for name in ["plan.json", "parts.csv", "steps.txt"] {
            assert!(run.dir.join("a").join(name).is_file());
            assert!(run.dir.join("c").join(name).is_file());
        }
        assert!(!run.dir.join("b").exists());
        fs::remove_dir_all(run.dir.parent().unwrap()).unwrap();
    }

    #[test]
    fn a_directory_that_cannot_be_made_is_said_and_is_2() {
        let run = run_on("blocked", &[r#"["plan"]"#]);
        // The scenario itself stands where the directory should be made.
        let file = run.dir.parent().unwrap().join("a.json");
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let code = super::run(
            std::slice::from_ref(&file),
            Some(&file.join("x")),
            planner,
            &mut out,
            &mut err,
        );
        assert_eq!(code, UNREADABLE);
        assert!(String::from_utf8(err).unwrap().contains("not written"));
        assert_eq!(fs::read_to_string(&file).unwrap(), r#"["plan"]"#);
        fs::remove_dir_all(run.dir.parent().unwrap()).unwrap();
    }
}
