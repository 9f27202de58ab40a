//! What stands, stands by itself or is held: each new part while it is fastened, and the body.

use std::collections::BTreeSet;

use super::Violation;
use super::balance::{centre, is_stable};
use super::fastened::{Body, attached, held};
use super::file::Action;
use super::replay::{Moment, Replay};
use super::space::contacts;

/// Name of the rule.
pub const RULE: &str = "gravity";

type Support = Vec<(i64, [[i64; 2]; 2])>;

/// Where parts lie on the bench.
fn on_bench(replay: &Replay<'_>, m: &Moment<'_>, parts: &BTreeSet<usize>) -> Support {
    let (face, bench) = (m.step.bench_face, replay.bench(m));
    let [p, q] = face.across();
    replay
        .solid(parts)
        .iter()
        .filter(|b| Some(face.span(b)[1]) == bench)
        .map(|b| (face.span(b)[1], [[b[p], b[p + 3]], [b[q], b[q + 3]]]))
        .collect()
}

/// Whether some parts, taken as one lump, rest by themselves on the bench, on what else is in the
/// body and on the spacer.
pub fn rests(replay: &Replay<'_>, m: &Moment<'_>, lump: &BTreeSet<usize>) -> bool {
    let face = m.step.bench_face;
    let below: BTreeSet<usize> = m.after().difference(lump).copied().collect();
    let mut under = replay.solid(&below);
    under.extend(m.step.spacer.as_ref().map(|s| s.at));
    let mut support = on_bench(replay, m, lump);
    support.extend(contacts(face, &replay.solid(lump), &under));
    let centre = centre(lump.iter().filter_map(|p| replay.plan.parts.get(*p)));
    centre.is_some_and(|c| is_stable(face, c, &support))
}

/// Judges every step in which something lies on the bench.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in replay.moments.iter().filter(|m| m.step.action != Action::SetAside) {
        let lumps: Vec<BTreeSet<usize>> = match m.step.joins {
            Some(_) => vec![m.arriving.clone()],
            None => m.arriving.iter().map(|p| BTreeSet::from([*p])).collect(),
        };
        for lump in lumps.iter().filter(|l| !l.is_empty()) {
            let by_body = m.before.is_empty() && m.held(&m.step.body);
            if !by_body && !held(replay, m, lump) && !rests(replay, m, lump) {
                let ids = replay.names(lump);
                out.push(Violation::new(
                    RULE,
                    m.step.n,
                    format!("{ids} would fall while it is put in"),
                ));
            }
        }
        if m.before.is_empty() {
            continue;
        }
        let (whole, _) = attached(replay, m, &m.after(), Body::AtRest);
        let steadied = m.held(&m.step.body) || held(replay, m, &whole);
        let centre = centre(whole.iter().filter_map(|p| replay.plan.parts.get(*p)));
        let stands =
            centre.is_some_and(|c| is_stable(m.step.bench_face, c, &on_bench(replay, m, &whole)));
        if !steadied && !stands {
            out.push(Violation::new(RULE, m.step.n, format!("{} would tip over", m.step.body)));
        }
    }
    out
}
