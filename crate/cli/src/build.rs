//! `jointwise build`: reads scenarios, writes plans, says what there is to say.

use std::fs;
use std::io::Write;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

use jointwise::Outcome;
use jointwise::checks::CheckRow;
use jointwise::export::{INDEX_STYLE, INDEX_STYLE_NAME, IndexFigures, IndexRow, index_html};
use jointwise::findings::{Finding, Severity};
use jointwise::plan::Plan;

use crate::files::{files, write};
use crate::in_order::in_order;
use crate::jobs::{Job, jobs};
use crate::report::{self, shown};

/// Planned; at most notes and cautions.
pub const DONE: u8 = 0;
/// Something must be put right.
pub const WRONG: u8 = 1;
/// Wrong use, or a file that cannot be read or written.
pub const UNREADABLE: u8 = 2;

/// No scenario comes near this; it keeps a wrong file from filling the memory.
const MOST_BYTES: u64 = 64 << 20;

/// What one file came to.
struct Report {
    out: String,
    err: String,
    code: u8,
    row: IndexRow,
}

/// Plans each file with `plan`, on up to so many threads; the exit code is the worst of them. One bad file does not
/// keep the others from being planned. What is said and written is the same on any number of threads.
pub fn run(
    given: &[PathBuf],
    out_dir: Option<&Path>,
    threads: usize,
    plan: impl Fn(&str) -> Outcome + Sync,
    out: &mut impl Write,
    err: &mut impl Write,
) -> u8 {
    let jobs = match jobs(given, out_dir) {
        Ok(jobs) => jobs,
        Err(message) => {
            say(err, &format!("error: {message}\n"));
            return UNREADABLE;
        }
    };
    let mut worst = DONE;
    let mut rows = Vec::new();
    let one = |job: &Job| one(job, &plan);
    in_order(&jobs.all, threads, one, |report| {
        say(err, &report.err);
        say(out, &report.out);
        worst = worst.max(report.code);
        rows.push(report.row);
    });
    if let Some(dir) = &jobs.index {
        let page = [("index.html", index_html(&rows)), (INDEX_STYLE_NAME, INDEX_STYLE.to_owned())];
        match write(dir, &page.map(|(name, text)| (name.to_owned(), text.into_bytes()))) {
            Ok(()) => {
                say(
                    out,
                    &format!("All of them are listed in {}\n", shown(&dir.join("index.html"))),
                );
            }
            Err(message) => {
                say(err, &format!("error: {message}\n"));
                worst = UNREADABLE;
            }
        }
    }
    worst
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

/// Reads, plans and writes one scenario.
fn one(job: &Job, plan: impl Fn(&str) -> Outcome) -> Report {
    let folder = job.name.to_string_lossy().into_owned();
    let row = IndexRow { folder, planned: None, findings: Vec::new() };
    let mut report = Report { out: String::new(), err: String::new(), code: DONE, row };
    let text = match read(&job.file) {
        Ok(text) => text,
        Err(message) => {
            report.err = format!("{}\nerror: {message}\n", shown(&job.file));
            report.code = UNREADABLE;
            report.row.findings = vec![unreadable(message)];
            return report;
        }
    };
    // A fault of the program on one file must not take the others with it.
    let planned = catch_unwind(AssertUnwindSafe(|| plan(&text)));
    let Outcome { findings, plan, checks, .. } = planned.unwrap_or_else(|_| stopped());
    // What the plan has to say, the outcome mostly says too: each once.
    let more = plan.iter().flat_map(|p| &p.findings).filter(|f| !findings.contains(f)).cloned();
    let more: Vec<Finding> = more.collect();
    let all = &mut report.row.findings;
    all.extend(findings);
    all.extend(more);
    all.sort_by_key(|f| f.severity);
    report.code = tell(&mut report.err, &job.file, all, plan.is_some());
    match &plan {
        Some(plan) => {
            report.row.planned = Some(IndexFigures::of(plan));
            keep(&mut report, plan, &checks, job.dir.as_deref());
        }
        None => {
            let nothing = "No plan came of it; nothing was written, and no file was touched.\n";
            report.err.push_str(nothing);
        }
    }
    // A text that is not JSON at all is no scenario, good or bad: it could not be read.
    if serde_json::from_str::<serde::de::IgnoredAny>(&text).is_err() {
        if report.row.findings.is_empty() {
            report.err.push_str("error: It is not JSON.\n");
        }
        report.code = UNREADABLE;
    }
    report
}

/// What is said of a scenario, the gravest first, and the exit code that it comes to.
fn tell(err: &mut String, file: &Path, findings: &[Finding], planned: bool) -> u8 {
    if !findings.is_empty() || !planned {
        err.push_str(&format!("{}\n", shown(file)));
    }
    for finding in findings {
        err.push_str(&report::finding(finding));
    }
    let mut open = findings.iter().filter(|f| f.accepted.is_none());
    let wrong = open.any(|f| matches!(f.severity, Severity::Stop | Severity::Fix));
    if wrong || !planned { WRONG } else { DONE }
}

/// Writes a plan, if it is wanted.
fn keep(report: &mut Report, plan: &Plan, checks: &[CheckRow], dir: Option<&Path>) {
    report.out.push_str(&report::plan(plan));
    let Some(dir) = dir else {
        report.out.push_str("    Nothing was written: give --out DIR for that.\n");
        return;
    };
    let all = files(plan, checks);
    match write(dir, &all) {
        Ok(()) => {
            let said = format!("    In {}: {}\n", shown(dir), report::written(&all));
            report.out.push_str(&said);
        }
        Err(message) => {
            report.err.push_str(&format!("error: {message}\n"));
            report.code = UNREADABLE;
        }
    }
}

fn unreadable(message: String) -> Finding {
    let hint = "Save it as a text file in UTF-8 that may be read.";
    Finding::new(Severity::Stop, "unreadable", "file", message, hint)
}

fn stopped() -> Outcome {
    let finding = Finding::new(
        Severity::Stop,
        "planner-stopped",
        "file",
        "The planner stopped on this file. That is a fault of the program, not of the file.",
        "Report it with the file; try with other sizes meanwhile.",
    );
    Outcome { findings: vec![finding], ..Outcome::default() }
}

/// Prints; a reader that has gone away is no reason to stop writing files.
fn say(to: &mut impl Write, text: &str) {
    let _ = to.write_all(text.as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;
    use jointwise::plan::{Cost, Proof, Workshop};
    use std::collections::BTreeMap;

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

    /// Every file below a directory with what it holds.
    fn tree(dir: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
        let mut all = BTreeMap::new();
        for entry in fs::read_dir(dir).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                all.extend(tree(&path));
            } else {
                all.insert(path.clone(), fs::read(&path).unwrap());
            }
        }
        all
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
        let code = run(files, Some(&dir), 2, planner, &mut out, &mut err);
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
            1,
            planner,
            &mut out,
            &mut err,
        );
        assert_eq!(code, UNREADABLE);
        assert!(String::from_utf8(err).unwrap().contains("not written"));
        assert_eq!(fs::read_to_string(&file).unwrap(), r#"["plan"]"#);
        fs::remove_dir_all(run.dir.parent().unwrap()).unwrap();
    }

    #[test]
    fn a_folder_is_planned_whole_and_listed_the_same_on_any_number_of_threads() {
        let room = std::env::temp_dir().join(format!("jointwise-folder-{}", std::process::id()));
        let folder = room.join("in");
        fs::create_dir_all(folder.join("deeper")).unwrap();
        for n in 0..20 {
            let text = if n == 7 { "[\"stop\"]" } else { "[\"plan\", \"note\"]" };
            fs::write(folder.join(format!("{n:02}.json")), text).unwrap();
        }
        fs::write(folder.join("notes.txt"), "no scenario").unwrap();
        fs::write(folder.join("20.json"), b"\xff").unwrap();
        fs::write(folder.join("21.json"), "panic").unwrap();
        let dies = |text: &str| {
            assert_ne!(text, "panic");
            planner(text)
        };
        let dir = room.join("out");
        let mut seen = Vec::new();
        for threads in [1, 4] {
            let (mut out, mut err) = (Vec::new(), Vec::new());
            let given = std::slice::from_ref(&folder);
            let code = run(given, Some(&dir), threads, dies, &mut out, &mut err);
            assert_eq!(code, UNREADABLE);
            seen.push((
                String::from_utf8(out).unwrap(),
                String::from_utf8(err).unwrap(),
                tree(&dir),
            ));
            fs::remove_dir_all(&dir).unwrap();
        }
        assert_eq!(seen[0], seen[1]);
        let page = String::from_utf8(seen[0].2[&dir.join("index.html")].clone()).unwrap();
        assert!(page.contains("19 planned, 3 not"), "{page}");
        assert!(page.contains("It is not text in UTF-8") && page.contains("fault of the program"));
        assert!(seen[0].2.contains_key(&dir.join("19").join("finished.svg")));
        assert!(!page.contains("notes"));
        fs::remove_dir_all(&room).unwrap();
    }
}
