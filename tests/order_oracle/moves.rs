//! What may be done with a body on the bench, and what it costs.

use jointwise::assembly::JointKind;

use super::blocks::{Block, WAYS, Way, any_runs_into, axis, back, largest, sign};
use super::body::{Body, Mask, bits};
use super::spent::{self, Spent};
use super::{distances, standing, tools};

/// More than one person lifts alone: the load constant of the revised lifting equation, DHHS (NIOSH)
/// 94-110, in grams. Not a lifting assessment.
const LIFT_ALONE: i64 = 23_000;
/// Tipped over its edge, about half of a piece is lifted.
const TURN_ALONE: i64 = 46_000;
/// Longer than this is carried by two: common practice, no source.
const LONG: i64 = 1_800_000;

/// A body on the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct State {
    /// What is in.
    pub set: Mask,
    /// The joints that are closed.
    pub closed: Mask,
    /// Of those, the ones whose glue has not cured.
    pub wet: Mask,
    /// The face that lies down.
    pub face: Way,
}

/// One thing done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Move {
    /// The first item is laid on the bench.
    LayOut(usize),
    /// An item goes in.
    GoIn(usize),
    /// The body is turned.
    Turn,
    /// The glue cures.
    Wait,
}

/// How an item lies before anything holds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Rest {
    Stands,
    Tips,
    Lifted,
}

/// All that can be done next, with where it leads and what it costs.
pub fn moves(body: &Body, at: &State) -> Vec<(Move, State, Spent)> {
    let mut found = Vec::new();
    for item in bits(body.full() & !at.set) {
        if let Some((to, spent)) = go_in(body, at, item) {
            found.push((Move::GoIn(item), to, spent));
        }
    }
    if at.wet != 0 {
        let spent = Spent::of(spent::MINUTES, body.shop.glue.clamp);
        found.push((Move::Wait, State { wet: 0, ..*at }, spent));
    } else if at.set.count_ones() >= 2 && body.is_one(at.set, at.closed, |_, _| false) {
        for &face in body.faces.iter().filter(|&&f| f != at.face && body.stands(at.set, f)) {
            found.push(turn(body, at, face));
        }
    }
    found
}

/// The ways to begin.
pub fn beginnings(body: &Body) -> Vec<(Move, State, Spent)> {
    let mut found = Vec::new();
    for item in (0..body.items.len()).filter(|&i| body.after[i] == 0) {
        for &face in &body.faces {
            let held = u32::from(!body.stands(1 << item, face));
            let mut spent = Spent::of(spent::MINUTES, 1 + held);
            spent.add(spent::HOLDS, held);
            spent.add(spent::SCATTER, out_before(body, 0, item));
            let to = State { set: 1 << item, closed: 0, wet: 0, face };
            found.push((Move::LayOut(item), to, spent));
        }
    }
    found
}

/// Whether nothing is left to do; `end` is the face it must lie on.
pub fn is_done(body: &Body, at: &State, end: Option<Way>) -> bool {
    let slides = |lump: Mask, main: Mask| {
        bits(at.closed).any(|l| {
            let link = &body.links[l];
            let [a, b] = link.ends.map(|i| 1 << i);
            link.kind == JointKind::Slide
                && (lump & a != 0 && main & b != 0 || lump & b != 0 && main & a != 0)
        })
    };
    at.set == body.full()
        && at.closed == body.all_links()
        && at.wet == 0
        && end.is_none_or(|e| e == at.face)
        && body.is_one(at.set, at.closed, slides)
}

/// How many items before this one are still out.
fn out_before(body: &Body, set: Mask, item: usize) -> u32 {
    bits(body.full() & !set).filter(|&i| i < item).count() as u32
}

fn turn(body: &Body, at: &State, face: Way) -> (Move, State, Spent) {
    let mut spent = Spent::of(spent::HANDLINGS, 1);
    spent.add(spent::MINUTES, 2);
    spent.add(spent::HELPER_STEPS, u32::from(body.mass(at.set) > TURN_ALONE));
    let mut driven = Vec::new();
    for l in bits(body.all_links() & !at.closed) {
        let inside = body.links[l].ends.iter().all(|&e| at.set >> e & 1 == 1);
        if inside && let Some(tool) = tools::driver(body, l, at.set, face) {
            driven.push((l, tool));
        }
    }
    spent.plus(&driving(body, &driven));
    let closed = driven.iter().fold(at.closed, |all, (l, _)| all | 1 << l);
    (Move::Turn, State { closed, face, ..*at }, spent)
}

/// Screws: a minute each; a change for every bit after the first and for every joint that another
/// tool than the drill drives.
fn driving(body: &Body, driven: &[(usize, usize)]) -> Spent {
    let mut bits = Vec::new();
    let mut spent = Spent::default();
    for &(l, tool) in driven {
        let screws = &body.assembly.joints[body.links[l].joint].fasteners;
        bits.extend(screws.iter().map(|f| (f.gauge, f.kind.clone())));
        spent.add(spent::MINUTES, screws.len() as u32);
        spent.add(spent::TOOL_CHANGES, u32::from(tool > 0));
    }
    bits.sort();
    bits.dedup();
    spent.add(spent::TOOL_CHANGES, (bits.len() as u32).saturating_sub(1));
    spent
}

fn go_in(body: &Body, at: &State, item: usize) -> Option<(State, Spent)> {
    let (set, face) = (at.set, at.face);
    let there = set | 1 << item;
    let own = &body.items[item];
    let links = body.links_between(item, set);
    if links.is_empty() || body.after[item] & !set != 0 {
        return None;
    }
    if own.around.reach(face) > body.plane(set, face) {
        return None;
    }
    // Moving in one way is moving out the other way, backwards.
    let others = body.blocks(set);
    let clear = |way: Way| way != back(face) && !any_runs_into(&own.blocks, back(way), &others);
    if !WAYS.into_iter().any(clear) {
        return None;
    }
    let mut closes: Mask = 0;
    let mut wet = at.wet;
    let mut driven = Vec::new();
    for &l in &links {
        let link = &body.links[l];
        let done = if link.screws {
            let tool = tools::driver(body, l, there, face);
            driven.extend(tool.map(|t| (l, t)));
            tool.is_some()
        } else if link.cures() {
            wet |= 1 << l;
            tools::clamp(body, l, there, face).is_some()
        } else {
            true
        };
        if link.glue && !done {
            return None;
        }
        closes |= Mask::from(done) << l;
    }
    let openings: Vec<i64> = bits(wet).map(|l| tools::opening(body, l)).collect();
    if !tools::enough_clamps(&openings, &body.shop.clamps) {
        return None;
    }
    let rest = rest(body, item, set, face);
    if !is_kept(body, item, set, face, closes, rest) {
        return None;
    }
    // Holding.
    let set_held = !body.stands(set, face);
    let item_held = rest != Rest::Stands;
    let one_more = |l: &usize| {
        tools::clamp(body, *l, there, face).is_some_and(|opening| {
            let all: Vec<i64> = openings.iter().copied().chain([opening]).collect();
            tools::enough_clamps(&all, &body.shop.clamps)
        })
    };
    let clamped = item_held && (rest == Rest::Tips || set_held) && links.iter().any(one_more);
    let holds = u32::from(set_held) + u32::from(item_held);
    let by_hand = holds - u32::from(clamped);
    let glued = links.iter().filter(|&&l| body.links[l].glue).count() as u32;
    let glue = body.shop.glue;
    if glued > 0 && 2 + (glued - 1) + holds > glue.open + glue.closed {
        return None;
    }
    let long = (0..3).any(|a| own.around.size(a) > LONG);
    let helper = by_hand > 1 || own.mass > LIFT_ALONE || long;
    let by = distances::set_by(body, item, set, face);
    let measured = by.iter().filter(|b| **b == distances::By::Tape).count() as u32;
    let soft = |a: &usize| by[*a] != distances::By::Stop && body.laid_over[item][*a];
    let by_feel = (0..3).filter(soft).count() as u32
        + u32::from(locks(body, item, set) && !body.has_ring(set, at.closed));
    let clamps = (wet & !at.wet).count_ones();
    let mut spent = Spent::default();
    spent.add(spent::HELPER_STEPS, u32::from(helper));
    spent.add(spent::BY_FEEL, by_feel);
    spent.add(spent::HANDLINGS, u32::from(rest == Rest::Lifted));
    spent.add(spent::HOLDS, holds);
    spent.add(spent::MEASURED, measured);
    spent.add(spent::TOOL_CHANGES, u32::from(clamped) + clamps);
    spent.add(spent::MINUTES, 2 + holds + u32::from(clamped) + 2 * clamps + measured);
    spent.add(spent::SCATTER, out_before(body, set, item));
    spent.plus(&driving(body, &driven));
    Some((State { set: there, closed: at.closed | closes, wet, face }, spent))
}

/// How an item lies on the bench and on what of the set is below it.
fn rest(body: &Body, item: usize, set: Mask, face: Way) -> Rest {
    let plane = body.plane(set, face);
    let mut carried = body.feet(item, face, plane);
    for other in bits(set) {
        let below = body.touching[item][other].iter().filter(|c| c.way == face);
        carried.extend(below.map(|c| c.face));
    }
    let lowest = carried.iter().map(|c: &Block| c.reach(face)).max();
    let Some(lowest) = lowest else { return Rest::Lifted };
    let centre = body.centre(1 << item);
    if standing::stands(centre, &carried, face, lowest * sign(face)) {
        Rest::Stands
    } else if standing::is_over(centre, &carried, face) {
        Rest::Tips
    } else {
        Rest::Lifted
    }
}

/// Whether something keeps an item once nobody holds it.
fn is_kept(body: &Body, item: usize, set: Mask, face: Way, closes: Mask, rest: Rest) -> bool {
    let links = body.links_between(item, set);
    let kind = |l: usize| body.links[l].kind;
    if bits(closes).any(|l| body.links[l].fastens()) {
        return true;
    }
    let let_in = links.iter().any(|&l| matches!(kind(l), JointKind::Groove | JointKind::Dado));
    if let_in {
        let falls = !any_runs_into(&body.items[item].blocks, face, &body.blocks(set));
        return rest == Rest::Stands || !falls;
    }
    links.iter().all(|&l| kind(l) == JointKind::Slide) && rest == Rest::Stands
}

/// Whether an item is laid over three or more others in one plane, with all its overlay joints.
fn locks(body: &Body, item: usize, set: Mask) -> bool {
    let mut others = Vec::new();
    let mut planes = Vec::new();
    for l in body.links_between(item, set) {
        if body.links[l].kind == JointKind::Overlay {
            let other = body.links[l].other(item);
            others.push(other);
            let face = largest(&body.touching[item][other]);
            planes.extend(face.map(|c| (c.way, c.face.lo[axis(c.way)])));
        }
    }
    others.sort_unstable();
    others.dedup();
    planes.dedup();
    others.len() >= 3 && planes.len() == 1
}
