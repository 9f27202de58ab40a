//! Which face lies on the bench: it changes only by a turn, and only what holds together is turned.

use super::Violation;
use super::fastened::{Body, attached, held};
use super::file::Action;
use super::replay::Replay;

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
            }
            _ if turned => bad(format!("{} lies on {:?} without a turn", s.body, s.bench_face)),
            _ => {}
        }
        if matches!(s.action, Action::Turn | Action::SetAside) {
            for lump in attached(replay, m, &m.before, Body::Carried).1 {
                if !held(replay, m, &lump) {
                    bad(format!("{} would fall out", replay.names(&lump)));
                }
            }
        }
    }
    out
}
