//! How long planning takes: `cargo bench -p jointwise-tests --bench planning_time` prints a table.
//!
//! One run tells most: an order is found the same way each time, and takes from milliseconds to
//! minutes. So each piece is planned again only until a second has gone, and the shortest time counts.
//! Numbers after `--` choose sizes by their count of parts.

use std::time::{Duration, Instant};

use jointwise::order::plan_order;
use jointwise::units::Notation;
use jointwise_tests::pieces::{FAMILY, case, workshop};
use peak_alloc::PeakAlloc;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

fn main() {
    let chosen: Vec<usize> = std::env::args().filter_map(|a| a.parse().ok()).collect();
    println!("| parts | joints | states | optimal | native ms | peak memory, MB |");
    println!("|---|---|---|---|---|---|");
    for (rails, shelves, boxes) in FAMILY {
        let piece = case(rails, shelves, boxes);
        let (parts, joints) = (piece.panels.len(), piece.meets.len());
        if !chosen.is_empty() && !chosen.contains(&parts) {
            continue;
        }
        let assembly = piece.assembly();
        let workshop = workshop();
        let before = MEMORY.current_usage_as_mb();
        MEMORY.reset_peak_usage();
        let (mut best, mut spent) = (Duration::MAX, Duration::ZERO);
        let (mut order, mut findings) = (None, Vec::new());
        while spent < Duration::from_secs(1) {
            let start = Instant::now();
            (order, findings) = plan_order(&assembly, &workshop, Notation::MmHalf);
            let took = start.elapsed();
            spent += took;
            best = best.min(took);
        }
        let peak = MEMORY.peak_usage_as_mb() - before;
        let ms = best.as_secs_f64() * 1000.0;
        let (states, optimal) = match &order {
            Some(order) => {
                let yes = if order.proof.optimal { "yes" } else { "no" };
                (order.proof.states.to_string(), yes.to_owned())
            }
            None => {
                let codes: Vec<&str> = findings.iter().map(|f| f.code.as_str()).collect();
                ("–".to_owned(), codes.join(", "))
            }
        };
        println!("| {parts} | {joints} | {states} | {optimal} | {ms:.1} | {peak:.1} |");
    }
}
