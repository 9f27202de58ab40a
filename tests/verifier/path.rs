//! The way in: no part passes through another or up through the bench, and no part that goes in
//! lifts the body off the bench.

use super::Violation;
use super::replay::Replay;
use super::space::{reach, runs_into};

/// Name of the rule for the way in.
pub const CLEAR: &str = "clear-path";
/// Name of the rule for the bench's top.
pub const PLANE: &str = "bench-plane";

/// Judges the way in of every part and body.
pub fn judge_clear(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let (step, Some(way)) = (m.step, m.step.direction) else {
            continue;
        };
        if m.arriving.is_empty() {
            continue;
        }
        let moving = replay.names(&m.arriving);
        // Coming up through the bench is wrong for the first part, too.
        if way == step.bench_face.back() {
            out.push(Violation::new(
                CLEAR,
                step.n,
                format!("{moving} would come up through the bench"),
            ));
        }
        let solid = replay.solid(&m.arriving);
        for p in &m.before {
            if runs_into(way, &solid, &replay.solid([p])) {
                let hit = replay.names([p]);
                out.push(Violation::new(
                    CLEAR,
                    step.n,
                    format!("{moving} moving {way:?} runs into {hit}"),
                ));
            }
        }
    }
    out
}

/// Judges that what goes in stays above the bench's top.
pub fn judge_plane(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let Some(bench) = replay.bench(m) else {
            continue;
        };
        for p in &m.arriving {
            let low = reach(m.step.bench_face, &replay.solid([p])).unwrap_or(bench);
            if low > bench {
                let (id, by) = (replay.names([p]), low - bench);
                out.push(Violation::new(
                    PLANE,
                    m.step.n,
                    format!("{id} would reach {by} below the bench's top"),
                ));
            }
        }
    }
    out
}
