//! Spacers: a loose part, an offcut or a strip sawn from one that fits where it is put, touches what it sets apart, and comes out again.

use super::Violation;
use super::file::Spacer;
use super::replay::{Moment, Replay};
use super::space::{Block, Way, can_leave, contacts, is_solid, overlap, reach};

/// Name of the rule.
pub const RULE: &str = "spacer";

/// By how much a spacer may miss the distance it sets, micrometres.
///
/// Common practice, no source.
const MISFIT: i64 = 300;

/// Judges every spacer.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let Some(spacer) = &m.step.spacer else {
            continue;
        };
        let bad = faults(replay, m, spacer);
        out.extend(
            bad.into_iter()
                .map(|what| Violation::new(RULE, m.step.n, format!("{}: {what}", spacer.part))),
        );
    }
    out
}

fn faults(replay: &Replay<'_>, m: &Moment<'_>, spacer: &Spacer) -> Vec<String> {
    let mut out = Vec::new();
    let offcut = replay.plan.workshop.offcuts.iter().find(|o| o.id == spacer.part);
    let mut strips = replay.plan.cutting.iter().flat_map(|c| &c.spacers);
    let strip = strips.find(|s| s.id == spacer.part);
    let sizes = match (replay.plan.part(&spacer.part), offcut, strip) {
        (Some(index), ..) => {
            let part = &replay.plan.parts[index];
            // Whatever body it went into: it is no longer loose.
            if m.placed.contains(&index) {
                out.push("is built in already".into());
            }
            [part.length, part.width, part.thickness]
        }
        (None, Some(o), _) => [o.length, o.width, o.thickness],
        (None, None, Some(s)) => {
            if !s.steps.contains(&m.step.n) || s.size[0] != spacer.dimension {
                out.push("is sawn for something else".into());
            }
            // A tape sets what it sets, too: whoever has not sawn it can go on.
            if !m.step.checks.iter().any(|c| c.kind == "gap") {
                out.push("leaves nothing to measure by who has not sawn it".into());
            }
            s.size
        }
        (None, None, None) => return vec!["does not exist".into()],
    };
    if !sizes.contains(&spacer.dimension) {
        out.push(format!("is {} on no side", spacer.dimension));
    }
    if !is_solid(&spacer.at) {
        out.push("lies nowhere".into());
        return out;
    }
    if !fits(spacer, sizes) {
        out.push("does not fit the place it is put in".into());
    }
    let after = m.after();
    for p in &after {
        if overlap(&[spacer.at], &replay.solid([p])) {
            out.push(format!("shares space with {}", replay.names([p])));
        }
    }
    let face = m.step.bench_face;
    if reach(face, &[spacer.at]) > replay.bench(m) {
        out.push("would lie below the bench's top".into());
    }
    let all = replay.solid(&after);
    if spacer.out == face || !can_leave(spacer.out, &[spacer.at], &all) {
        out.push("does not come out again".into());
    }
    let fresh = replay.solid(&m.arriving);
    if !Way::ALL.into_iter().filter(|w| w.grows()).any(|way| sets(spacer, way, &all, &fresh)) {
        out.push("sets nothing apart".into());
    }
    out
}

/// Whether the part, laid along the axes some way round, is the size of its place.
fn fits(spacer: &Spacer, sizes: [i64; 3]) -> bool {
    const TURNED: [[usize; 3]; 6] =
        [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];
    TURNED.iter().any(|order| {
        (0..3).all(|a| (spacer.at[a + 3] - spacer.at[a] - sizes[order[a]]).abs() <= MISFIT)
    })
}

/// Whether it sets its dimension along `way`: between two things, or between one and an end that
/// it is flush with; one of them is what goes in now, when something does.
fn sets(spacer: &Spacer, way: Way, all: &[Block], fresh: &[Block]) -> bool {
    let [from, to] = way.span(&spacer.at);
    if (to - from - spacer.dimension).abs() > MISFIT {
        return false;
    }
    let touches = |way: Way, with: &[Block]| !contacts(way, &[spacer.at], with).is_empty();
    // Level with the end of something it lies beside.
    let beside = |b: &Block, way: Way| {
        way.across().iter().all(|&a| b[a] <= spacer.at[a + 3] && spacer.at[a] <= b[a + 3])
    };
    let flush = |way: Way, with: &[Block]| {
        with.iter().any(|b| way.span(b)[1] == way.span(&spacer.at)[1] && beside(b, way))
    };
    let met = |way: Way, with: &[Block]| touches(way, with) || flush(way, with);
    let ends = [way, way.back()];
    ends.iter().any(|w| touches(*w, all))
        && ends.iter().all(|w| met(*w, all))
        && (fresh.is_empty() || ends.iter().any(|w| met(*w, fresh)))
}
