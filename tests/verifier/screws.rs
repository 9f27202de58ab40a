//! Screws: through the one part, into the other, not out of it; driven when both are there.

use super::Violation;
use super::file::Fastener;
use super::replay::Replay;
use super::space::{Block, columns, overlap, runs};

/// Name of the rule for where screws sit.
pub const RULE: &str = "screws";
/// Name of the rule for when they are driven and joints closed.
pub const TIME: &str = "screw-time";

/// Half a screw's diameter in whole micrometres, rounded down.
///
/// Diameter = 0.060 + 0.013 × gauge inches (ASME B18.6.1 numbering).
fn half_shank(gauge: i64) -> i64 {
    (60 + 13 * gauge) * 127 / 10
}

/// The square round the shank.
fn shank_square(f: &Fastener) -> [[i64; 2]; 2] {
    let half = half_shank(f.gauge);
    f.direction.across().map(|a| [f.entry[a] - half, f.entry[a] + half])
}

/// The box round the shank, as it sits when driven.
pub fn shank(f: &Fastener) -> Block {
    let at = f.direction.depth(f.entry);
    f.direction.block(at, at + f.length, shank_square(f))
}

/// What is wrong with a screw that should go through `first` and end inside `second`.
fn seat(f: &Fastener, first: &[Block], second: &[Block]) -> Option<String> {
    let way = f.direction;
    let at = way.depth(f.entry);
    let tip = at + f.length;
    for column in columns(way, Some(shank_square(f)), [first, second]) {
        let (through, into) = (runs(way, column, first), runs(way, column, second));
        let Some(skin) = through.iter().find(|r| r[0] == at) else {
            return Some("does not begin on the outer skin".into());
        };
        if into.iter().any(|r| r[0] < at && at <= r[1]) {
            return Some("begins between the two parts".into());
        }
        if skin[1] >= tip {
            return Some("ends in the first part".into());
        }
        match into.iter().find(|r| r[0] == skin[1]) {
            None => return Some("does not go straight from the one part into the other".into()),
            Some(r) if tip >= r[1] => return Some("breaks through".into()),
            Some(_) => {}
        }
    }
    None
}

/// Judges where every screw sits.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    let mut all: Vec<(&str, Block)> = Vec::new();
    for (j, joint) in plan.joints.iter().enumerate() {
        let Some([a, b]) = plan.ends(j) else { continue };
        for f in &joint.fasteners {
            let mut bad =
                |what: String| out.push(Violation::new(RULE, 0, format!("{}: {what}", f.id)));
            if f.length <= 0 || !(0..=60).contains(&f.gauge) {
                bad(format!("is no screw: gauge {}, length {}", f.gauge, f.length));
                continue;
            }
            if f.pilot <= 0 || f.pilot > 2 * half_shank(f.gauge) + 1 {
                bad(format!("has a pilot of {}", f.pilot));
            }
            let (one, two) = (&plan.parts[a].boxes, &plan.parts[b].boxes);
            if let Some(what) = seat(f, one, two) {
                // Which part comes first is not said: either way round will do.
                if let Some(other) = seat(f, two, one) {
                    let (a, b) = (&plan.parts[a].id, &plan.parts[b].id);
                    bad(format!("from {a} into {b} {what}, from {b} into {a} {other}"));
                }
            }
            let body = shank(f);
            for (p, part) in plan.parts.iter().enumerate() {
                if p != a && p != b && overlap(&[body], &part.boxes) {
                    bad(format!("runs through {}", part.id));
                }
            }
            for (id, other) in &all {
                if overlap(&[body], &[*other]) {
                    bad(format!("runs into {id}"));
                }
            }
            all.push((&f.id, body));
        }
    }
    out
}

/// Judges when joints are closed and screws driven.
pub fn judge_time(replay: &Replay<'_>) -> Vec<Violation> {
    let plan = replay.plan;
    let mut out = Vec::new();
    for m in &replay.moments {
        let here = m.after();
        let missing = |joint: usize| {
            plan.ends(joint).is_some_and(|ends| ends.iter().any(|e| !here.contains(e)))
        };
        for id in &m.step.joints {
            if plan.joint(id).is_some_and(missing) {
                out.push(Violation::new(
                    TIME,
                    m.step.n,
                    format!("joint {id} is closed without both its parts"),
                ));
            }
            let screws = plan.joint(id).map_or(&[][..], |j| &plan.joints[j].fasteners);
            if let Some(f) = screws.iter().find(|f| !m.step.fasteners.contains(&f.id)) {
                out.push(Violation::new(
                    TIME,
                    m.step.n,
                    format!("joint {id} is closed without its screw {}", f.id),
                ));
            }
        }
        for id in &m.step.fasteners {
            let Some((joint, _)) = plan.fastener(id) else {
                continue;
            };
            if missing(joint) {
                out.push(Violation::new(
                    TIME,
                    m.step.n,
                    format!("{id} is driven without both its parts"),
                ));
            }
            if !m.closed.contains(&joint) {
                out.push(Violation::new(
                    TIME,
                    m.step.n,
                    format!("{id} is driven before its joint is closed"),
                ));
            }
        }
    }
    out
}
