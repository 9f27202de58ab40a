//! What may be done with a body on the bench, and what it costs.

use std::cell::RefCell;
use std::collections::BTreeMap;

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
    /// The first item, or set, is laid on the bench.
    LayOut(Mask),
    /// An item, or a set, goes in.
    GoIn(Mask),
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

/// What is to be built.
pub struct Task<'a> {
    /// The body it is in.
    pub body: &'a Body<'a>,
    /// The items of it that are to be one.
    pub within: Mask,
    /// The face it must end on.
    pub end: Option<Way>,
    /// Everything that may join as one, with what making it ready costs: items, and sets.
    pub units: Vec<(Mask, Spent)>,
    /// What is known of units going in.
    pub known: RefCell<BTreeMap<(Mask, Mask, Way), Option<GoingIn>>>,
}

/// All that can be done next, with where it leads and what it costs.
pub fn moves(task: &Task, at: &State) -> Vec<(Move, State, Spent)> {
    let body = task.body;
    let mut found = Vec::new();
    for &(unit, ready) in task.units.iter().filter(|(u, _)| u & at.set == 0) {
        if let Some((to, mut spent)) = go_in(task, at, unit) {
            spent.plus(&ready);
            found.push((Move::GoIn(unit), to, spent));
        }
    }
    if at.wet != 0 {
        // What waits stands by itself.
        if body.stands(at.set, at.face) {
            let spent = Spent::of(spent::MINUTES, body.shop.glue.clamp);
            found.push((Move::Wait, State { wet: 0, ..*at }, spent));
        }
    } else if at.set.count_ones() >= 2 && body.is_one(at.set, at.closed, |_, _| false) {
        for face in body.faces(task.within) {
            if face != at.face && body.stands(at.set, face) {
                found.push(turn(body, at, face));
            }
        }
    }
    found
}

/// The ways to begin.
pub fn beginnings(task: &Task) -> Vec<(Move, State, Spent)> {
    let body = task.body;
    let mut found = Vec::new();
    for &(unit, ready) in task.units.iter().filter(|(u, _)| body.after(*u) & task.within == 0) {
        for face in body.faces(task.within) {
            let held = u32::from(!body.stands(unit, face));
            let mut spent = ready;
            spent.add(spent::HELPER_STEPS, u32::from(takes_two(body, unit)));
            spent.add(spent::HOLDS, held);
            spent.add(spent::MINUTES, 1 + held);
            spent.add(spent::SCATTER, out_before(task, 0, unit));
            let to = State { set: unit, closed: body.links_in(unit), wet: 0, face };
            found.push((Move::LayOut(unit), to, spent));
        }
    }
    found
}

/// Whether nothing is left to do.
pub fn is_done(task: &Task, at: &State) -> bool {
    let body = task.body;
    let slides = |lump: Mask, main: Mask| {
        bits(at.closed).any(|l| {
            let link = &body.links[l];
            let [a, b] = link.ends.map(|i| 1 << i);
            link.kind == JointKind::Slide
                && (lump & a != 0 && main & b != 0 || lump & b != 0 && main & a != 0)
        })
    };
    at.set == task.within
        && at.closed == body.links_in(task.within)
        && at.wet == 0
        && task.end.is_none_or(|e| e == at.face)
        && body.is_one(at.set, at.closed, slides)
}

/// How many items before the first of a unit are still out.
fn out_before(task: &Task, set: Mask, unit: Mask) -> u32 {
    let first = bits(unit).next().unwrap_or(0);
    bits(task.within & !set & !unit).filter(|&i| i < first).count() as u32
}

/// Whether one person cannot lift it.
fn takes_two(body: &Body, unit: Mask) -> bool {
    body.unit(unit).mass > LIFT_ALONE || body.unit(unit).longest() > LONG
}

fn turn(body: &Body, at: &State, face: Way) -> (Move, State, Spent) {
    let mut spent = Spent::of(spent::HANDLINGS, 1);
    spent.add(spent::MINUTES, 2);
    spent.add(spent::HELPER_STEPS, u32::from(body.unit(at.set).mass > TURN_ALONE));
    let mut driven = Vec::new();
    for l in bits(body.links_in(at.set) & !at.closed) {
        driven.extend(tools::driver(body, l, at.set, face).map(|tool| (l, tool)));
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

/// A unit going in, apart from what hangs on the clamps in use and on what is closed already.
#[derive(Debug, Clone)]
pub struct GoingIn {
    /// The joints that close.
    closes: Mask,
    /// Of those, the ones that a clamp presses.
    cures: Mask,
    /// How it lies.
    rest: Rest,
    /// Whether what is in must be held.
    set_held: bool,
    /// Openings at which a clamp could hold it.
    clampings: Vec<i64>,
    /// Whether it locks what it is laid over.
    locks: bool,
    /// What it costs in any case.
    spent: Spent,
}

fn go_in(task: &Task, at: &State, unit: Mask) -> Option<(State, Spent)> {
    let body = task.body;
    // What is built on its own waits until the glue has dried.
    let parts: usize = bits(unit).map(|i| body.items[i].parts.len()).sum();
    if at.wet != 0 && parts > 1 {
        return None;
    }
    let key = (unit, at.set, at.face);
    let known = task.known.borrow().get(&key).cloned();
    let going = known.unwrap_or_else(|| {
        let going = going_in(task, at.set, at.face, unit);
        task.known.borrow_mut().insert(key, going.clone());
        going
    })?;
    // Each wet joint has a clamp of its own, and so has what is held by one.
    let wet = at.wet | going.cures;
    let openings: Vec<i64> = bits(wet).map(|l| body.links[l].opening).collect();
    let enough =
        |more: &[i64]| tools::enough_clamps(&[&openings, more].concat(), &body.shop.clamps);
    if !enough(&[]) {
        return None;
    }
    // The clamps that are on stay where they are.
    let there = at.set | unit;
    if bits(at.wet).any(|l| !tools::has_place(body, l, there, at.face)) {
        return None;
    }
    let item_held = going.rest != Rest::Stands;
    let clamped = item_held
        && (going.rest == Rest::Tips || going.set_held)
        && going.clampings.iter().any(|&opening| enough(&[opening]));
    let holds = u32::from(going.set_held) + u32::from(item_held);
    let glued = body.links_between(unit, at.set).iter().filter(|&&l| body.links[l].glue).count();
    let glue = body.shop.glue;
    if glued > 0 && 1 + glued as u32 + holds > glue.open + glue.closed {
        return None;
    }
    let helper = takes_two(body, unit) || holds - u32::from(clamped) > 1;
    let mut spent = going.spent;
    spent.add(spent::HELPER_STEPS, u32::from(helper));
    let unmeasured = going.locks && !body.has_ring(at.set, at.closed);
    spent.add(spent::BY_FEEL, u32::from(unmeasured));
    spent.add(spent::HOLDS, holds);
    spent.add(spent::TOOL_CHANGES, u32::from(clamped));
    spent.add(spent::MINUTES, holds + u32::from(clamped));
    let closed = at.closed | going.closes | body.links_in(unit);
    Some((State { set: at.set | unit, closed, wet, face: at.face }, spent))
}

fn going_in(task: &Task, set: Mask, face: Way, unit: Mask) -> Option<GoingIn> {
    let body = task.body;
    let there = set | unit;
    let own = body.unit(unit);
    let links = body.links_between(unit, set);
    if links.is_empty() || body.after(unit) & task.within & !set != 0 {
        return None;
    }
    if own.around.reach(face) > body.plane(set, face) {
        return None;
    }
    // Moving in one way is moving out the other way, backwards.
    let others = &body.unit(set).blocks;
    let clear = |way: Way| way != back(face) && !any_runs_into(&own.blocks, back(way), others);
    if !WAYS.into_iter().any(clear) {
        return None;
    }
    let (mut closes, mut cures) = (0, 0);
    let mut driven = Vec::new();
    for &l in &links {
        let link = &body.links[l];
        let done = if link.screws {
            let tool = tools::driver(body, l, there, face);
            driven.extend(tool.map(|t| (l, t)));
            tool.is_some()
        } else {
            !link.cures() || tools::has_place(body, l, there, face)
        };
        // Glue does not wait.
        if link.glue && !done {
            return None;
        }
        closes |= Mask::from(done) << l;
        cures |= Mask::from(link.cures()) << l;
    }
    let rest = rest(body, unit, set, face);
    if !is_kept(body, unit, set, face, closes, rest) {
        return None;
    }
    let by = distances::set_by(body, task.within, unit, set, face);
    let measured = by.iter().filter(|b| **b == distances::By::Tape).count() as u32;
    let soft = |a: &usize| by[*a] != distances::By::Stop && body.laid_over(unit, *a);
    let clamps = cures.count_ones();
    let mut spent = driving(body, &driven);
    spent.add(spent::BY_FEEL, (0..3).filter(soft).count() as u32);
    spent.add(spent::HANDLINGS, u32::from(rest == Rest::Lifted));
    spent.add(spent::MEASURED, measured);
    spent.add(spent::TOOL_CHANGES, clamps);
    spent.add(spent::MINUTES, 2 + 2 * clamps + measured);
    spent.add(spent::SCATTER, out_before(task, set, unit));
    Some(GoingIn {
        closes,
        cures,
        rest,
        set_held: !(body.stands(set, face) && body.stands(there, face)),
        clampings: links
            .iter()
            .filter(|&&l| tools::has_place(body, l, there, face))
            .map(|&l| body.links[l].opening)
            .collect(),
        locks: locks(body, unit, set),
        spent,
    })
}

/// How an item lies on the bench and on what of the set is below it.
fn rest(body: &Body, item: Mask, set: Mask, face: Way) -> Rest {
    let plane = body.plane(set, face);
    let mut carried = body.feet(item, face, plane);
    for other in bits(set) {
        let below = body.contacts(item, other).into_iter().filter(|c| c.way == face);
        carried.extend(below.map(|c| c.face));
    }
    let lowest = carried.iter().map(|c: &Block| c.reach(face)).max();
    let Some(lowest) = lowest else { return Rest::Lifted };
    let centre = body.unit(item).centre();
    if standing::stands(centre, &carried, face, lowest * sign(face)) {
        Rest::Stands
    } else if standing::is_over(centre, &carried, face) {
        Rest::Tips
    } else {
        Rest::Lifted
    }
}

/// Whether something keeps an item once nobody holds it.
fn is_kept(body: &Body, item: Mask, set: Mask, face: Way, closes: Mask, rest: Rest) -> bool {
    let links = body.links_between(item, set);
    let kind = |l: usize| body.links[l].kind;
    if bits(closes).any(|l| body.links[l].fastens()) {
        return true;
    }
    let let_in = links.iter().any(|&l| matches!(kind(l), JointKind::Groove | JointKind::Dado));
    if let_in {
        let falls = !any_runs_into(&body.unit(item).blocks, face, &body.unit(set).blocks);
        return rest == Rest::Stands || !falls;
    }
    links.iter().all(|&l| kind(l) == JointKind::Slide) && rest == Rest::Stands
}

/// Whether a unit is laid over three or more others in one plane, with all its overlay joints.
fn locks(body: &Body, unit: Mask, set: Mask) -> bool {
    let mut others = Vec::new();
    let mut planes = Vec::new();
    for l in body.links_between(unit, set) {
        if body.links[l].kind == JointKind::Overlay {
            let [own, other] = body.ends(l, unit);
            others.push(other);
            let face = largest(&body.contacts(1 << own, other));
            planes.extend(face.map(|c| (c.way, c.face.lo[axis(c.way)])));
        }
    }
    others.sort_unstable();
    others.dedup();
    planes.dedup();
    others.len() >= 3 && planes.len() == 1
}
