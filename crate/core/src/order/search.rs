//! Finds the cheapest order for one body: uniform-cost search over what is in, what is closed,
//! the face on the bench and the screw last driven.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

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
    /// The driver's bit: one more than the index of the screw kind last driven; 0 for none.
    pub bit: u8,
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
    Some(Placing { direction, closes, holding })
}

/// Cost of driving the screws of some links, starting with a bit in the driver; the bit left in it.
fn driving(scene: &Scene, links: u64, mut bit: u8) -> (Cost, u8) {
    let mut cost = Cost::default();
    for l in members(links) {
        for screw in &scene.assembly.joints[scene.links[l].joint].fasteners {
            cost.minutes += 1;
            // A bit is known by the gauge and head it drives.
            let this = (screw.gauge.min(60) << 1 | u8::from(screw.kind.starts_with("pan"))) + 1;
            if this != bit {
                cost.tool_changes += u32::from(bit != 0);
                bit = this;
            }
        }
    }
    (cost, bit)
}

/// Finds the cheapest order that ends with the body on `end`, when that is given.
pub fn search(scene: &Scene, end: Option<Direction>, budget: u64) -> Found {
    let mut best: BTreeMap<State, (Cost, Option<(State, Move)>)> = BTreeMap::new();
    let mut queue: BinaryHeap<Reverse<(Cost, State)>> = BinaryHeap::new();
    let mut found = Found {
        path: None,
        furthest: State { set: 0, closed: 0, face: 0, bit: 0 },
        states: 0,
        complete: true,
    };
    let full = scene.full();
    let mut offer = |queue: &mut BinaryHeap<_>, cost, to: State, from: Option<(State, Move)>| {
        let better = best.get(&to).is_none_or(|(known, _)| cost < *known);
        if better {
            best.insert(to, (cost, from));
            queue.push(Reverse((cost, to)));
        }
    };
    let empty = State { set: 0, closed: 0, face: 6, bit: 0 };
    offer(&mut queue, Cost::default(), empty, None);
    let mut seen: BTreeMap<State, ()> = BTreeMap::new();
    let mut goal = None;
    while let Some(Reverse((cost, state))) = queue.pop() {
        if seen.insert(state, ()).is_some() {
            continue;
        }
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
        if found.states > budget {
            found.complete = false;
            break;
        }
        for (m, to, more) in expand(scene, &state) {
            offer(&mut queue, add(cost, more), to, Some((state, m)));
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
                let to = State { set: 1 << item, closed: 0, face: face.index() as u8, bit: 0 };
                out.push((Move::LayOut(item), to, cost));
            }
        }
        return out;
    }
    for item in members(scene.full() & !state.set) {
        let Some(p) = placing(scene, item, state) else {
            continue;
        };
        let (drive, bit) = driving(scene, p.closes, state.bit);
        let locate::Unset { measured, by_feel } =
            locate::unset(scene, item, state.set, state.face());
        let ahead = members(scene.full() & !state.set).filter(|&i| i < item).count();
        let lifted = u32::from(p.holding.rest == Rest::Lifted);
        let blind = checks::braces(scene, item, state.set).is_some()
            && !scene.has_ring(state.set, state.closed);
        let cost = Cost {
            helper_steps: u32::from(p.holding.helper()),
            by_feel: by_feel + u32::from(blind),
            handlings: lifted,
            holds: p.holding.count(),
            measured,
            tool_changes: p.holding.clamps(),
            minutes: 2 + p.holding.count() + p.holding.clamps() + measured,
            scatter: ahead as u32,
            turns: 0,
            lifted,
        };
        let to = State {
            set: state.set | 1 << item,
            closed: state.closed | p.closes,
            face: state.face,
            bit,
        };
        out.push((Move::Place(item, p.direction), to, add(cost, drive)));
    }
    if state.set.count_ones() > 1 && scene.is_one(state.set, state.closed) {
        for &face in &scene.faces {
            if face == state.face() || !scene.stands(state.set, face) {
                continue;
            }
            let pending = scene.links_in(state.set) & !state.closed;
            let closes = scene.closable(state.set, face, pending);
            let (drive, bit) = driving(scene, closes, state.bit);
            let cost = Cost {
                turns: 1,
                handlings: 1,
                helper_steps: u32::from(scene.mass(state.set) > TURN_ALONE),
                minutes: 2,
                ..Cost::default()
            };
            let to = State {
                set: state.set,
                closed: state.closed | closes,
                face: face.index() as u8,
                bit,
            };
            out.push((Move::Turn(face), to, add(cost, drive)));
        }
    }
    out
}
