//! Finds the cheapest order for one body: uniform-cost search over what is in, what is closed,
//! the face on the bench and the screw last driven.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

use crate::geometry::Direction;
use crate::plan::Cost;

use super::checks;
use super::holding::{self, Holding, Rest};
use super::locate;
use super::scene::{Scene, members};
use crate::assembly::JointKind;

/// A body at some point of its building.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct State {
    /// Items that are in.
    pub set: u64,
    /// Links that are closed.
    pub closed: u64,
    /// Index of the face on the bench.
    pub face: u8,
}

impl State {
    /// The face on the bench.
    pub fn face(&self) -> Direction {
        Direction::ALL[usize::from(self.face) % 6]
    }
}

/// One move of the search.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Move {
    /// The first item is laid on the bench.
    LayOut(usize),
    /// An item joins, moving in that direction.
    Place(usize, Direction),
    /// The body is turned onto another face, and what can now be reached is screwed.
    Turn(Direction),
}

/// The cheapest way found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Path {
    /// Each move with the state it leads to.
    pub moves: Vec<(Move, State)>,
    /// What it costs.
    pub cost: Cost,
}

/// How a search ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// The cheapest path; none when nothing reaches the goal.
    pub path: Option<Path>,
    /// The state with most items in, when there is no path.
    pub furthest: State,
    /// States expanded.
    pub states: u64,
    /// Whether it looked at everything that could be cheaper.
    pub complete: bool,
    /// Whether it stopped because no order stays under the limit.
    pub dearer: bool,
}

/// Mass above which a turn takes a second person, in grams. The load constant of the revised
/// lifting equation (DHHS (NIOSH) 94-110) is 23 kg for one person; tipping a piece over its edge
/// takes about half its weight. Not a lifting assessment.
pub const TURN_ALONE: i64 = 46_000;

/// Sums two costs field by field.
pub fn add(a: Cost, b: Cost) -> Cost {
    Cost {
        helper_steps: a.helper_steps + b.helper_steps,
        by_feel: a.by_feel + b.by_feel,
        handlings: a.handlings + b.handlings,
        holds: a.holds + b.holds,
        measured: a.measured + b.measured,
        tool_changes: a.tool_changes + b.tool_changes,
        minutes: a.minutes + b.minutes,
        scatter: a.scatter + b.scatter,
        turns: a.turns + b.turns,
        lifted: a.lifted + b.lifted,
    }
}

/// What a placing does, found again when the steps are written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placing {
    /// The way the item moves.
    pub direction: Direction,
    /// Links closed by it.
    pub closes: u64,
    /// What is held.
    pub holding: Holding,
    /// Whether it locks a frame, see [`checks::braces`].
    pub braces: bool,
}

/// The way an item moves in: against its largest joint where that is clear and not upwards off the
/// bench, else down, else any clear way.
fn way_in(scene: &Scene, item: usize, set: u64, face: Direction) -> Option<Direction> {
    let clear = |d: Direction| d != face.opposite() && scene.blocking.entering(item, d, set) == 0;
    let mut against: Vec<(i128, Direction)> = Vec::new();
    for l in members(scene.links_of(item, set)) {
        let other = scene.links[l].items.iter().copied().find(|&i| i != item)?;
        for c in &scene.contacts[item][other] {
            against.push((c.area(), c.direction));
        }
    }
    against.sort_by_key(|&(area, d)| (Reverse(area), d));
    against.into_iter().map(|(_, d)| d).chain([face]).chain(Direction::ALL).find(|&d| clear(d))
}

/// What happens when `item` joins `state`, or nothing when it cannot.
pub fn placing(scene: &Scene, item: usize, state: &State) -> Option<Placing> {
    let (set, face) = (state.set, state.face());
    let links = scene.links_of(item, set);
    if links == 0 || scene.after[item] & !set != 0 {
        return None;
    }
    if scene.reach[item][face.index()] > scene.plane(set, face) {
        return None;
    }
    let direction = way_in(scene, item, set, face)?;
    let there = set | 1 << item;
    let closes = scene.closable(there, face, links);
    let holding = holding::decide(scene, item, set, face);
    let fastened = members(closes).any(|l| scene.links[l].fastens);
    if !fastened {
        // Nothing holds it once the hand is gone: it must be let into a channel, or slide on
        // something that carries it.
        let kept = members(closes).any(|l| {
            matches!(scene.links[l].kind, JointKind::Groove | JointKind::Dado | JointKind::Slide)
        });
        let slides_only = members(links).all(|l| scene.links[l].kind == JointKind::Slide);
        if !kept || (slides_only && holding.rest != Rest::Stands) {
            return None;
        }
    }
    let braces = checks::braces(scene, item, set).is_some();
    Some(Placing { direction, closes, holding, braces })
}

/// What a placing costs; remembered, since it does not hang on how the set came together.
fn priced(scene: &Scene, item: usize, state: &State) -> Option<(Placing, Cost)> {
    let key = (state.set, item as u8, state.face);
    if let Some(known) = scene.priced.borrow().get(&key) {
        return known.clone();
    }
    let fresh = placing(scene, item, state).map(|p| {
        let (set, face) = (state.set, state.face());
        let locate::Unset { measured, by_feel } = locate::unset(scene, item, set, face);
        let ahead = members(scene.full() & !set).filter(|&i| i < item).count();
        let lifted = u32::from(p.holding.rest == Rest::Lifted);
        let cost = Cost {
            helper_steps: u32::from(p.holding.helper()),
            by_feel,
            handlings: lifted,
            holds: p.holding.count(),
            measured,
            tool_changes: p.holding.clamps(),
            minutes: 2 + p.holding.count() + p.holding.clamps() + measured,
            scatter: ahead as u32,
            turns: 0,
            lifted,
        };
        let cost = add(cost, driving(scene, p.closes));
        (p, cost)
    });
    scene.priced.borrow_mut().insert(key, fresh.clone());
    fresh
}

/// Cost of driving the screws of some links in one step: a minute each, and a change of bit for
/// each gauge and head after the first.
fn driving(scene: &Scene, links: u64) -> Cost {
    let mut bits = Vec::new();
    let mut cost = Cost::default();
    for l in members(links) {
        for screw in &scene.assembly.joints[scene.links[l].joint].fasteners {
            cost.minutes += 1;
            let bit = (screw.gauge, screw.kind.as_str());
            if !bits.contains(&bit) {
                bits.push(bit);
            }
        }
    }
    cost.tool_changes = (bits.len() as u32).saturating_sub(1);
    cost
}

/// What every way on from a state still costs at least, field by field: the items and screws that
/// are not in yet take their minutes, and a body on another face than its last must be turned.
fn still_to_come(scene: &Scene, state: &State, end: Option<Direction>) -> Cost {
    let items = (scene.full() & !state.set).count_ones();
    let screws: usize =
        members(scene.all_links() & !state.closed).map(|l| scene.links[l].rooms.len()).sum();
    let turned = u32::from(state.set != 0 && end.is_some_and(|e| e != state.face()));
    Cost {
        handlings: turned,
        turns: turned,
        minutes: (2 * items).saturating_sub(u32::from(state.set == 0)) + screws as u32,
        ..Cost::default()
    }
}

/// How far a search goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// States it may expand.
    pub budget: u64,
    /// What other bodies have cost already, and the cost that all together must stay under.
    pub under: Option<(Cost, Cost)>,
}

/// Finds the cheapest order that ends with the body on `end`, when that is given.
pub fn search(scene: &Scene, end: Option<Direction>, limit: Limit) -> Found {
    let mut best: BTreeMap<State, (Cost, Option<(State, Move)>)> = BTreeMap::new();
    // Ordered by what is spent and still to come; among equals the fuller set first.
    let mut queue: BinaryHeap<Reverse<(Cost, Reverse<u64>, State)>> = BinaryHeap::new();
    let mut found = Found {
        path: None,
        furthest: State { set: 0, closed: 0, face: 0 },
        states: 0,
        complete: true,
        dearer: false,
    };
    let full = scene.full();
    let empty = State { set: 0, closed: 0, face: 6 };
    best.insert(empty, (Cost::default(), None));
    queue.push(Reverse((Cost::default(), Reverse(0), empty)));
    let mut seen: BTreeSet<State> = BTreeSet::new();
    let mut goal = None;
    while let Some(Reverse((all, _, state))) = queue.pop() {
        if limit.under.is_some_and(|(others, most)| add(others, all) >= most) {
            found.dearer = true;
            break;
        }
        if !seen.insert(state) {
            continue;
        }
        let Some(&(cost, _)) = best.get(&state) else { continue };
        if state.set.count_ones() > found.furthest.set.count_ones() {
            found.furthest = state;
        }
        let done = state.set == full
            && state.closed == scene.all_links()
            && end.is_none_or(|e| e == state.face());
        if done {
            goal = Some((cost, state));
            break;
        }
        found.states += 1;
        if found.states > limit.budget {
            found.complete = false;
            break;
        }
        for (m, to, more) in expand(scene, &state) {
            let spent = add(cost, more);
            if best.get(&to).is_none_or(|(known, _)| spent < *known) {
                best.insert(to, (spent, Some((state, m))));
                let all = add(spent, still_to_come(scene, &to, end));
                queue.push(Reverse((all, Reverse(to.set), to)));
            }
        }
    }
    if let Some((cost, mut at)) = goal {
        let mut moves = Vec::new();
        while let Some((_, Some((from, m)))) = best.get(&at) {
            moves.push((*m, at));
            at = *from;
        }
        moves.reverse();
        found.path = Some(Path { moves, cost });
    }
    found
}

/// All moves from a state, with where they lead and what they cost.
pub fn expand(scene: &Scene, state: &State) -> Vec<(Move, State, Cost)> {
    let mut out = Vec::new();
    if state.set == 0 {
        for item in 0..scene.items.len() {
            if scene.after[item] != 0 {
                continue;
            }
            for &face in &scene.faces {
                let stands = scene.stands(1 << item, face);
                let cost = Cost {
                    holds: u32::from(!stands),
                    minutes: 1 + u32::from(!stands),
                    scatter: item as u32,
                    ..Cost::default()
                };
                let to = State { set: 1 << item, closed: 0, face: face.index() as u8 };
                out.push((Move::LayOut(item), to, cost));
            }
        }
        return out;
    }
    for item in members(scene.full() & !state.set) {
        let Some((p, mut cost)) = priced(scene, item, state) else {
            continue;
        };
        if p.braces && !scene.has_ring(state.set, state.closed) {
            cost.by_feel += 1;
        }
        let to =
            State { set: state.set | 1 << item, closed: state.closed | p.closes, face: state.face };
        out.push((Move::Place(item, p.direction), to, cost));
    }
    if state.set.count_ones() > 1 && scene.is_one(state.set, state.closed) {
        for &face in &scene.faces {
            if face == state.face() || !scene.stands(state.set, face) {
                continue;
            }
            let pending = scene.links_in(state.set) & !state.closed;
            let closes = scene.closable(state.set, face, pending);
            let drive = driving(scene, closes);
            let cost = Cost {
                turns: 1,
                handlings: 1,
                helper_steps: u32::from(scene.mass(state.set) > TURN_ALONE),
                minutes: 2,
                ..Cost::default()
            };
            let to =
                State { set: state.set, closed: state.closed | closes, face: face.index() as u8 };
            out.push((Move::Turn(face), to, add(cost, drive)));
        }
    }
    out
}
