//! Assemblies made by chance: each has a plan that the verifier accepts, or a finding that says what
//! stops it.
//!
//! With `JOINTWISE_PLANS` naming a folder, every plan is left there as `SEED-PARTS.json`.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

use jointwise::assembly::{Assembly, MAIN};
use jointwise::findings::{Finding, Severity};
use jointwise::plan::{Driver, Glue, Workshop};
use jointwise_tests::chance;
use jointwise_tests::spread::spread;
use jointwise_tests::verifier::verify;

/// How many assemblies are tried.
const CASES: u64 = 3_700;

/// How many of them have a plan, at least.
const PLANS: u64 = 2_000;

/// How many parts the assembly of a seed has: 2 to 12, few more often, for they are planned fast.
fn parts(seed: u64) -> u64 {
    if seed % 40 == 39 { 7 + seed / 40 % 6 } else { 2 + seed % 5 }
}

/// How a case ended: with a plan, or with the code of what stops it.
type End = Result<String, Vec<String>>;

/// A finding that stops must say which thing and why, where, and what to do.
fn is_said(f: &Finding, assembly: &Assembly) -> bool {
    let named = assembly.parts.iter().any(|p| f.message.contains(&p.name));
    let whole = f.message.contains(assembly.body_name(MAIN));
    (named || whole) && !f.place.is_empty() && !f.hint.is_empty()
}

fn without_plan(assembly: &Assembly, findings: &[Finding]) -> End {
    let stops: Vec<&Finding> = findings.iter().filter(|f| f.severity == Severity::Stop).collect();
    match stops.as_slice() {
        [] => Err(vec!["neither a plan nor a finding that stops it".to_owned()]),
        [first, ..] => match stops.iter().find(|f| !is_said(f, assembly)) {
            Some(f) => Err(vec![format!("{} says not what or why: {}", f.code, f.message)]),
            None => Ok(first.code.clone()),
        },
    }
}

/// Puts into a shop what a maker could wish for.
fn equip(workshop: &mut Workshop) {
    const MM: i64 = 1000;
    workshop.people = 2;
    workshop.bearers = 150 * MM;
    workshop.clamps = vec![1500 * MM; 6];
    workshop.glue = Glue { open: 15, closed: 30, clamp: 45 };
    workshop.tools = vec![Driver {
        name: "right-angle driver".to_owned(),
        length: 60 * MM,
        width: 40 * MM,
        bit_width: 10 * MM,
        bit_length: 25 * MM,
    }];
}

fn case(seed: u64, parts: u64, keep: Option<&Path>) -> End {
    let (assembly, mut workshop) = chance::assembly(seed, usize::try_from(parts).unwrap_or(2));
    let plan = match chance::plan::planned(&assembly, &workshop) {
        Ok(plan) => plan,
        Err(findings) => {
            // What stops it here may be no bar in a shop that has everything.
            without_plan(&assembly, &findings)?;
            equip(&mut workshop);
            match chance::plan::planned(&assembly, &workshop) {
                Ok(plan) => plan,
                Err(findings) => return without_plan(&assembly, &findings),
            }
        }
    };
    let text = jointwise::export::plan_json(&plan);
    if let Some(folder) = keep {
        let path = folder.join(format!("{seed}-{parts}.json"));
        std::fs::write(&path, &text).map_err(|e| vec![format!("{}: {e}", path.display())])?;
    }
    let mut wrong: Vec<String> = verify(&text).iter().map(ToString::to_string).collect();
    // The file does not say on which face the piece stands in the end.
    let last = plan.steps.iter().rfind(|s| s.body == MAIN).map(|s| s.bench_face);
    if last != Some(assembly.stands_on) {
        wrong.push(format!("step 0: end: {last:?} lies on the bench in the end"));
    }
    if wrong.is_empty() { Ok("plan".to_owned()) } else { Err(wrong) }
}

/// How many parts a seed has, and how its case ended.
fn tried(seed: u64, keep: Option<&Path>) -> (u64, u64, End) {
    let parts = parts(seed);
    let end = catch_unwind(AssertUnwindSafe(|| case(seed, parts, keep)));
    (seed, parts, end.unwrap_or_else(|_| Err(vec!["panics".to_owned()])))
}

#[test]
fn every_assembly_has_a_sound_plan_or_a_finding_that_stops_it() {
    let keep = std::env::var_os("JOINTWISE_PLANS").map(PathBuf::from);
    if let Some(folder) = &keep {
        std::fs::create_dir_all(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    }
    let keep = keep.as_deref();
    let seeds: Vec<u64> = (0..CASES).collect();
    let ends = spread(&seeds, |&seed| tried(seed, keep));
    assert_eq!(ends.len() as u64, CASES, "some cases never ended");
    let mut count: BTreeMap<&str, u64> = BTreeMap::new();
    let mut failures: Vec<(u64, String)> = Vec::new();
    for (seed, parts, end) in &ends {
        match end {
            Ok(code) => *count.entry(code).or_default() += 1,
            Err(what) => {
                *count.entry("rejected").or_default() += 1;
                failures
                    .push((*parts, format!("seed {seed}, {parts} parts: {}", what.join("\n    "))));
            }
        }
    }
    // The smallest first: it is the easiest to understand.
    failures.sort();
    let told: Vec<&str> = failures.iter().map(|f| f.1.as_str()).take(40).collect();
    assert!(failures.is_empty(), "{count:?}\n{}", told.join("\n"));
    // So many must be judged, not stopped before.
    let plans = count.get("plan").copied().unwrap_or(0);
    assert!(plans >= PLANS, "only {plans} plans: {count:?}");
}
