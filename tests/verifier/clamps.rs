//! Clamps: each lies square on the two parts it presses together, opens far enough and meets
//! nothing else, and there are as many as are on at once.

use std::collections::BTreeSet;

use super::Violation;
use super::replay::{Moment, Replay};
use super::shop::ClampPlace;
use super::space::{Block, Way, holds_point, is_solid, overlap, reach};

/// Name of the rule.
pub const RULE: &str = "clamp";

/// Side of a jaw, and its thickness along the press, micrometres.
const JAW: [i64; 2] = [30_000, 20_000];
/// Screw behind one jaw.
const SCREW: i64 = 100_000;
/// Bar: wide and thin way.
const BAR: [i64; 2] = [30_000, 15_000];
/// From the middle of the jaws to the middle of the bar.
const THROAT: i64 = 60_000;
/// From an edge of the contact to the middle of the jaws.
const INSET: i64 = 20_000;

/// Judges every clamp and how many are on at once.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let mut bad = |what: String| out.push(Violation::new(RULE, m.step.n, what));
        let holding: Vec<&ClampPlace> =
            m.step.hold.iter().filter_map(|h| h.clamp.as_ref()).collect();
        for place in m.step.clamps.iter().chain(holding.iter().copied()) {
            for what in faults(replay, m, place) {
                bad(format!("on {}: {what}", place.parts.join(" and ")));
            }
        }
        // What is on stays where it is.
        for place in &m.clamps_before {
            let taken = [place.jaws[0], place.jaws[1], place.bar];
            for p in m.arriving.iter().filter(|p| overlap(&taken, &replay.solid([*p]))) {
                let what = place.parts.join(" and ");
                bad(format!("{} comes into the clamp on {what}", replay.names([p])));
            }
        }
        // The widest opening takes the longest clamp, and so on down.
        let mut wanted: Vec<i64> = m.clamps_on.iter().chain(&holding).map(|c| c.opening).collect();
        let mut hand = replay.plan.workshop.clamps.clone();
        wanted.sort_unstable_by(|a, b| b.cmp(a));
        hand.sort_unstable_by(|a, b| b.cmp(a));
        let short = wanted.len() > hand.len() || wanted.iter().zip(&hand).any(|(w, h)| w > h);
        if short && (!m.step.clamps.is_empty() || !holding.is_empty()) {
            bad(format!("clamps open to {hand:?}, but {wanted:?} are on at once"));
        }
    }
    out
}

/// The rectangles across an axis on which two solids lie against each other.
fn shared(axis: usize, a: &[Block], b: &[Block]) -> Vec<[[i64; 2]; 2]> {
    let across: Vec<usize> = (0..3).filter(|i| *i != axis).collect();
    let mut out = Vec::new();
    for p in a {
        for q in b.iter().filter(|q| p[axis + 3] == q[axis] || q[axis + 3] == p[axis]) {
            let rect = [0, 1].map(|i| {
                let c = across[i];
                [p[c].max(q[c]), p[c + 3].min(q[c + 3])]
            });
            if rect.iter().all(|r| r[0] < r[1]) {
                out.push(rect);
            }
        }
    }
    out
}

fn area(rect: &[[i64; 2]; 2]) -> i128 {
    rect.iter().map(|r| i128::from(r[1] - r[0])).product()
}

/// What is wrong with a place.
pub fn faults(replay: &Replay<'_>, m: &Moment<'_>, place: &ClampPlace) -> Vec<String> {
    let plan = replay.plan;
    let ends: Vec<usize> = place.parts.iter().filter_map(|id| plan.part(id)).collect();
    let [a, b] = ends[..] else {
        return vec!["presses nothing together".into()];
    };
    let here = m.after();
    if a == b || !here.contains(&a) || !here.contains(&b) {
        return vec!["presses what is not there".into()];
    }
    if !place.jaws.iter().chain([&place.bar]).all(is_solid) {
        return vec!["has no size".into()];
    }
    let (one, two) = (&plan.parts[a].boxes, &plan.parts[b].boxes);
    let all = [one.as_slice(), two].concat();
    let best = (0..3).flat_map(|axis| shared(axis, one, two)).map(|r| area(&r)).max();
    // A clamp presses along the normal of the largest face the two share.
    let mut said = Vec::new();
    for axis in 0..3 {
        for rect in shared(axis, one, two).into_iter().filter(|r| Some(area(r)) == best) {
            let bad = along(replay, m, place, axis, &rect, &all);
            if bad.is_empty() {
                return bad;
            }
            said.push(bad);
        }
    }
    said.into_iter().min_by_key(Vec::len).unwrap_or_else(|| vec!["lies on no joint".into()])
}

/// What is wrong with a place as one over this contact.
fn along(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    place: &ClampPlace,
    axis: usize,
    rect: &[[i64; 2]; 2],
    all: &[Block],
) -> Vec<String> {
    let mut out = Vec::new();
    let way = Way::ALL.into_iter().find(|w| w.axis() == axis && w.grows()).unwrap_or(Way::Up);
    let [u, v] = way.across();
    let middle = |b: &Block, a: usize| (b[a] + b[a + 3]).div_euclid(2);
    let (low, high) = (-reach(way.back(), all).unwrap_or(0), reach(way, all).unwrap_or(0));
    // The jaw towards smaller numbers first.
    let mut jaws = place.jaws;
    let screw_low = jaws[1][axis] < jaws[0][axis];
    if screw_low {
        jaws.swap(0, 1);
    }
    if jaws[0][axis + 3] != low || jaws[1][axis] != high {
        out.push("the jaws do not lie against the two parts".into());
    }
    if jaws[1][axis] - jaws[0][axis + 3] != place.opening {
        out.push(format!("says an opening of {}", place.opening));
    }
    if !replay.plan.workshop.clamps.iter().any(|c| *c >= place.opening) {
        out.push(format!("no clamp opens to {}", place.opening));
    }
    let at = [middle(&jaws[0], u), middle(&jaws[0], v)];
    let [mu, mv] = [0, 1].map(|i| (rect[i][0] + rect[i][1]).div_euclid(2));
    let spots = [
        [mu, mv],
        [rect[0][0] + INSET, mv],
        [rect[0][1] - INSET, mv],
        [mu, rect[1][0] + INSET],
        [mu, rect[1][1] - INSET],
    ];
    // Half a micrometre may be rounded either way.
    let near = |spot: &[i64; 2]| (0..2).all(|i| (spot[i] - at[i]).abs() <= 1);
    if !spots.iter().any(near) {
        out.push("the jaws are not over the joint".into());
    }
    for (i, jaw) in jaws.iter().enumerate() {
        let square = [u, v].iter().all(|a| jaw[a + 3] - jaw[*a] == JAW[0]);
        let with_screw = (i == 0) == screw_low;
        let thick = jaw[axis + 3] - jaw[axis];
        let right = thick == JAW[1] || (with_screw && thick == JAW[1] + SCREW);
        if !square || !right || [middle(jaw, u), middle(jaw, v)] != at {
            out.push("the jaws are no jaws that face each other".into());
        }
        let mut face = [0; 3];
        (face[u], face[v]) = (at[0], at[1]);
        face[axis] = if i == 0 { low } else { high };
        if !holds_point(all, face) {
            out.push("a jaw presses on air".into());
        }
    }
    // What the clamp takes up, screw and all.
    let [from, to] = [
        low - JAW[1] - if screw_low { SCREW } else { 0 },
        high + JAW[1] + if screw_low { 0 } else { SCREW },
    ];
    if [place.bar[axis], place.bar[axis + 3]] != [from, to] {
        out.push("the bar does not run from the one jaw's back to the screw's end".into());
    }
    let beside = [(0, 1), (1, 0)].into_iter().any(|(i, j)| {
        let (thin, wide) = ([u, v][i], [u, v][j]);
        place.bar[thin + 3] - place.bar[thin] == BAR[1]
            && place.bar[wide + 3] - place.bar[wide] == BAR[0]
            && middle(&place.bar, wide) == at[j]
            && ((middle(&place.bar, thin) - at[i]).abs() - THROAT).abs() <= 1
    });
    if !beside {
        out.push("the bar is not beside the jaws".into());
    }
    let half = JAW[0] / 2;
    let square = [[at[0] - half, at[0] + half], [at[1] - half, at[1] + half]];
    let taken = [way.block(from, low, square), way.block(high, to, square), place.bar];
    out.extend(meets(replay, m, &taken, &m.after()));
    out
}

fn meets(
    replay: &Replay<'_>,
    m: &Moment<'_>,
    taken: &[Block],
    here: &BTreeSet<usize>,
) -> Vec<String> {
    let mut out = Vec::new();
    for p in here {
        if overlap(taken, &replay.solid([p])) {
            out.push(format!("runs into {}", replay.names([p])));
        }
    }
    let face = m.step.bench_face;
    let top = replay.bench(m).map(|bench| bench + replay.plan.workshop.bearers);
    if reach(face, taken) > top {
        out.push("reaches below the bench's top".into());
    }
    out
}
