//! Which face lies on the bench: it changes only by a turn, only what holds together is turned, and
//! the finished body fits the bench that way.

use super::Violation;
use super::fastened::left_behind;
use super::file::Action;
use super::replay::Replay;
use super::space::{Way, extents};

/// Name of the rule.
pub const RULE: &str = "turns";

/// Judges every change of the face on the bench and every lifting of a body.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let s = m.step;
        let mut bad = |what: String| out.push(Violation::new(RULE, s.n, what));
        let turned = m.face_before.is_some_and(|face| face != s.bench_face);
        match s.action {
            Action::Turn => {
                if !s.parts.is_empty() || s.joins.is_some() {
                    bad("adds a part while turning".into());
                }
                if !turned {
                    bad(format!("turns nothing: {:?} lay on the bench before", s.bench_face));
                }
                for lump in left_behind(replay, m, &m.items, false) {
                    bad(format!("{} would fall out", replay.names(&lump)));
                }
            }
            _ if turned => bad(format!("{} lies on {:?} without a turn", s.body, s.bench_face)),
            _ => {}
        }
        if (turned || m.face_before.is_none()) && !fits(replay, &s.body, s.bench_face) {
            bad(format!("{} does not fit the bench on {:?}", s.body, s.bench_face));
        }
    }
    out
}

/// Whether the finished body fits the bench on a face, or on no face at all.
fn fits(replay: &Replay<'_>, body: &str, face: Way) -> bool {
    let shop = &replay.plan.workshop;
    let last = replay.moments.iter().rfind(|m| m.step.body == body);
    let Some(size) = last.and_then(|m| extents(&replay.solid(&m.after()))) else {
        return true;
    };
    let lies = |way: Way| {
        let [a, b] = way.across().map(|axis| size[axis]);
        a.max(b) <= shop.bench_length && a.min(b) <= shop.bench_width
    };
    lies(face) || !Way::ALL.into_iter().any(lies)
}
