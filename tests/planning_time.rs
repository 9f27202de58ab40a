//! How long planning takes: `cargo bench -p jointwise-tests --bench planning_time` prints a table.
//!
//! One run tells most: an order is found the same way each time, and takes from milliseconds to
//! minutes. So each piece is planned again only until a second has gone, and the shortest time counts.
//! It is time of the processor where the system tells it (Linux), so that a busy machine measures the
//! same; else time on the clock.
//! After `--`, numbers choose sizes by their count of parts, and `--out FOLDER` writes the scenario
//! files and what was measured, for `tests/browser/planning-time.mjs`.

use std::path::PathBuf;
use std::time::{Duration, Instant};

use jointwise_tests::pieces::{FAMILY, case, large};
use peak_alloc::PeakAlloc;
use serde_json::{Value, json};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let chosen: Vec<usize> = words.iter().filter_map(|a| a.parse().ok()).collect();
    let out = words.iter().position(|w| w == "--out").and_then(|at| words.get(at + 1));
    let out = out.map(PathBuf::from);
    println!("| parts | joints | states | optimal | native ms | peak memory, MB |");
    println!("|---|---|---|---|---|---|");
    let mut rows = Vec::new();
    let family = FAMILY.map(|(rails, shelves, boxes)| case(rails, shelves, boxes));
    for piece in family.into_iter().chain(large().map(|(_, piece)| piece)) {
        let (parts, joints) = (piece.panels.len(), piece.meets.len());
        if !chosen.is_empty() && !chosen.contains(&parts) {
            continue;
        }
        let text = piece.scenario();
        let measured = measure(&text);
        let Measured { states, optimal, ms, peak } = &measured;
        let shown = states.map_or("–".to_owned(), |s| s.to_string());
        println!("| {parts} | {joints} | {shown} | {optimal} | {ms:.1} | {peak:.1} |");
        if let Some(folder) = &out {
            let file = format!("{parts:03}.json");
            write(folder, &file, &text);
            rows.push(json!({
                "file": file, "parts": parts, "joints": joints, "states": states,
                "optimal": optimal, "native_ms": ms, "peak_mb": peak,
            }));
        }
    }
    if let Some(folder) = &out {
        write(folder, "native.json", &format!("{:#}\n", Value::Array(rows)));
    }
}

struct Measured {
    states: Option<u64>,
    /// Yes, no, or the codes of what stopped it.
    optimal: String,
    ms: f64,
    peak: f32,
}

fn measure(text: &str) -> Measured {
    let before = MEMORY.current_usage_as_mb();
    MEMORY.reset_peak_usage();
    let (mut best, mut spent) = (Duration::MAX, Duration::ZERO);
    let mut outcome = None;
    while spent < Duration::from_secs(1) {
        let (start, on_clock) = (processor_time(), Instant::now());
        outcome = Some(jointwise::build(text));
        let spent_by_it = start.and_then(|start| processor_time()?.checked_sub(start));
        let took = spent_by_it.unwrap_or_else(|| on_clock.elapsed());
        spent += took;
        best = best.min(took);
    }
    let peak = MEMORY.peak_usage_as_mb() - before;
    let proof = outcome.as_ref().and_then(|o| o.plan.as_ref()).map(|p| &p.proof);
    let optimal = match proof {
        Some(proof) if proof.optimal => "yes".to_owned(),
        Some(_) => "no".to_owned(),
        None => {
            let findings = outcome.iter().flat_map(|o| &o.findings);
            findings.map(|f| f.code.as_str()).collect::<Vec<_>>().join(", ")
        }
    };
    let ms = best.as_secs_f64() * 1000.0;
    Measured { states: proof.map(|p| p.states), optimal, ms, peak }
}

/// What this thread has had of the processor.
fn processor_time() -> Option<Duration> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    told.split_whitespace().next()?.parse().ok().map(Duration::from_nanos)
}

fn write(folder: &PathBuf, name: &str, text: &str) {
    let written =
        std::fs::create_dir_all(folder).and_then(|()| std::fs::write(folder.join(name), text));
    if let Err(error) = written {
        eprintln!("{}: {error}", folder.join(name).display());
        std::process::exit(1);
    }
}
