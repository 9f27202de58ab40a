//! Finds the cheapest order for one body: best first over what is in, what is closed, what is wet
//! and the face on the bench.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

use crate::geometry::Direction;
use crate::plan::Cost;

use super::placing::{self, Placing};
use super::scene::{Scene, members};
use super::state::{Move, State};

/// Minutes for laying a set aside and taking it up again.
const ASIDE: u32 = 2;

/// States expanded on each level once the budget is spent, see [`dive`].
const WIDTH: usize = 24;

/// The cheapest way found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Path {
    /// Each move.
    pub moves: Vec<Move>,
    /// What they cost, the making ready of sets included.
    pub cost: Cost,
}

/// How a search ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// The cheapest path; none when nothing reaches the goal.
    pub path: Option<Path>,
    /// The state with most items in that was looked at.
    pub furthest: State,
    /// States expanded, those for sets included.
    pub states: u64,
    /// No order costs less than this.
    pub bound: Cost,
    /// Whether it looked at everything that could be cheaper.
    pub complete: bool,
    /// Whether it stopped because no order stays under the limit.
    pub dearer: bool,
}

/// What is asked of a search.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The items of the body.
    pub within: u64,
    /// The face it ends on, when that matters.
    pub end: Option<Direction>,
    /// The faces it may lie on.
    pub faces: Vec<Direction>,
    /// The item it starts with, alone or in a set, when that is wished.
    pub first: Option<usize>,
    /// Where it starts.
    pub start: State,
    /// States it may expand.
    pub budget: u64,
    /// The cost that the order must stay under.
    pub under: Option<Cost>,
}

/// Searches the bodies of one scene, and remembers what making a set ready costs.
pub struct Searcher<'a> {
    /// The scene.
    pub scene: &'a Scene<'a>,
    /// Whether steps with a second person are out of the question.
    pub alone: bool,
    /// The orders of sets by the items in them.
    pub sets: BTreeMap<u64, Found>,
}

type Priced = BTreeMap<(u64, u64, u8, u8), Option<(Placing, Cost)>>;

/// What has been reached at what cost, from where and by which move.
type Reached = BTreeMap<State, (Cost, Option<(State, Move)>)>;

/// An entry of the queue: least cost of all first, among equals the fuller set. With a move, the
/// state is where that move starts, and its set has not been priced yet.
type Entry = Reverse<(Cost, Reverse<u32>, State, Option<Move>)>;

impl<'a> Searcher<'a> {
    /// Nothing is known yet.
    pub fn new(scene: &'a Scene<'a>, alone: bool) -> Self {
        Searcher { scene, alone, sets: BTreeMap::new() }
    }

    /// Finds the cheapest order of a task.
    pub fn search(&mut self, task: &Task) -> Found {
        let scene = self.scene;
        let mut reached = Reached::new();
        let mut queue: BinaryHeap<Entry> = BinaryHeap::new();
        let mut closed: BTreeSet<State> = BTreeSet::new();
        let mut priced = Priced::new();
        let mut found = Found {
            path: None,
            furthest: task.start,
            states: 0,
            bound: Cost::default(),
            complete: true,
            dearer: false,
        };
        reached.insert(task.start, (Cost::default(), None));
        queue.push(entry(scene, task, Cost::default(), task.start));
        while let Some(Reverse((all, _, state, promise))) = queue.pop() {
            found.bound = all;
            if task.under.is_some_and(|most| all >= most) {
                found.dearer = true;
                return found;
            }
            if let Some(m) = promise {
                self.keep(task, state, m, &mut reached, &mut queue, &mut found);
                continue;
            }
            if !closed.insert(state) {
                continue;
            }
            let Some(&(cost, _)) = reached.get(&state) else { continue };
            if state.set.count_ones() > found.furthest.set.count_ones() {
                found.furthest = state;
            }
            if is_goal(scene, task, &state) {
                found.path = Some(Path { moves: moves_to(&reached, state), cost });
                return found;
            }
            if found.states >= task.budget {
                found.complete = false;
                // The state goes back among those that are still to be looked at.
                closed.remove(&state);
                queue.push(entry(scene, task, cost, state));
                self.dive(task, reached, queue, &mut priced, &mut found);
                return found;
            }
            found.states += 1;
            for (m, to, more) in self.expand(task, &state, &mut priced) {
                if self.alone && more.helper_steps > 0 {
                    continue;
                }
                let spent = cost.plus(more);
                if joins_set(scene, m) {
                    // A set is priced only when everything cheaper has been looked at.
                    let all = spent.plus(still_to_come(scene, task, &to));
                    queue.push(Reverse((all, Reverse(to.set.count_ones()), state, Some(m))));
                } else {
                    reach(scene, task, (m, state, to), spent, &mut reached, &mut queue);
                }
            }
        }
        found
    }

    /// Prices a set that is to join, and keeps where that leads.
    fn keep(
        &mut self,
        task: &Task,
        from: State,
        m: Move,
        reached: &mut Reached,
        queue: &mut BinaryHeap<Entry>,
        found: &mut Found,
    ) {
        let (Move::LayOut(item, _) | Move::Place(item, _)) = m else { return };
        let Some(&(cost, _)) = reached.get(&from) else { return };
        let Some(ready) = self.make_ready(item, task.budget, found) else { return };
        let Some((to, more)) = self.step(task, &from, m) else { return };
        let spent = cost.plus(more).plus(ready);
        reach(self.scene, task, (m, from, to), spent, reached, queue);
    }

    /// What making a set ready costs, laying it aside included; nothing when it cannot be.
    fn make_ready(&mut self, item: usize, budget: u64, found: &mut Found) -> Option<Cost> {
        let mask = self.scene.masks[item];
        if !self.sets.contains_key(&mask) {
            let task = Task {
                within: mask,
                end: None,
                faces: self.scene.faces(mask),
                first: None,
                start: State::EMPTY,
                budget,
                under: None,
            };
            let ready = self.search(&task);
            found.states += ready.states;
            self.sets.insert(mask, ready);
        }
        let ready = self.sets.get(&mask)?;
        found.complete &= ready.complete;
        let panels = members(mask).filter(|&i| self.scene.is_panel(i)).count();
        // Several panels together take both arms, off the bench and back; a panel with its hardware
        // is carried as it would be without.
        let carried = u32::from(panels > 1);
        let aside = Cost { handlings: carried, minutes: ASIDE, ..Cost::default() };
        ready.path.as_ref().map(|p| p.cost.plus(aside))
    }

    /// Where one move leads, and what it costs besides making a set ready.
    pub fn step(&self, task: &Task, from: &State, m: Move) -> Option<(State, Cost)> {
        let scene = self.scene;
        match m {
            Move::LayOut(item, face) => Some((
                laid_out(scene, item, face),
                placing::laying_out(scene, task.within, item, face),
            )),
            Move::Place(item, _) => {
                let p = placing::placing(scene, task.within, item, from).ok()?;
                let cost = placing::price(scene, task.within, item, from, &p)
                    .plus(locking(scene, from, &p));
                Some((placed(scene, item, from, &p), cost))
            }
            Move::Turn(face) => {
                let pending = scene.links_in(from.set) & !from.closed;
                let closes = scene.closable(from.set, face, pending);
                let to = State { closed: from.closed | closes, face: face.index() as u8, ..*from };
                Some((to, placing::turning(scene, from.set, closes, face)))
            }
            Move::Wait => {
                let minutes = scene.workshop.glue.clamp;
                Some((State { wet: 0, ..*from }, Cost { minutes, ..Cost::default() }))
            }
        }
    }

    /// All moves from a state, with where they lead and what they cost; without what making a set
    /// ready costs.
    fn expand(&self, task: &Task, state: &State, priced: &mut Priced) -> Vec<(Move, State, Cost)> {
        let scene = self.scene;
        let mut out = Vec::new();
        let usable = |item: usize| {
            let own = scene.masks[item];
            own & state.set == 0 && own & !task.within == 0 && own != task.within
        };
        if state.set == 0 {
            let starts = |item: usize| {
                let own = scene.masks[item];
                let first = task.first.is_none_or(|f| own >> f & 1 == 1);
                first && scene.after[item] & task.within == 0
            };
            let whole = |item: usize| scene.masks[item] == task.within && item < scene.basics;
            for item in (0..scene.items.len()).filter(|&i| (usable(i) || whole(i)) && starts(i)) {
                for &face in &task.faces {
                    let m = Move::LayOut(item, face);
                    let cost = placing::laying_out(scene, task.within, item, face);
                    out.push((m, laid_out(scene, item, face), cost));
                }
            }
            return out;
        }
        for item in (0..scene.items.len()).filter(|&i| usable(i)) {
            let key = (state.set, state.wet, item as u8, state.face);
            let known = if item < scene.basics { priced.get(&key).cloned() } else { None };
            let price = known.unwrap_or_else(|| {
                let fresh = placing::placing(scene, task.within, item, state).ok().map(|p| {
                    let cost = placing::price(scene, task.within, item, state, &p);
                    (p, cost)
                });
                if item < scene.basics {
                    priced.insert(key, fresh.clone());
                }
                fresh
            });
            let Some((p, cost)) = price else { continue };
            let m = Move::Place(item, p.direction);
            out.push((m, placed(scene, item, state, &p), cost.plus(locking(scene, state, &p))));
        }
        if state.wet != 0 {
            if let Some((to, cost)) = self.step(task, state, Move::Wait) {
                out.push((Move::Wait, to, cost));
            }
        } else if state.set.count_ones() > 1 && scene.is_one(state.set, state.closed) {
            for &face in &task.faces {
                if face != state.face()
                    && scene.stands(state.set, face)
                    && let Some((to, cost)) = self.step(task, state, Move::Turn(face))
                {
                    out.push((Move::Turn(face), to, cost));
                }
            }
        }
        out
    }

    /// All moves from a state, with where they lead and what the order costs from there at least.
    pub fn ways(&self, task: &Task, state: &State) -> Vec<(Move, State, Cost)> {
        let mut priced = Priced::new();
        let all = self.expand(task, state, &mut priced);
        let least = |to: &State, more: Cost| more.plus(still_to_come(self.scene, task, to));
        all.into_iter().map(|(m, to, more)| (m, to, least(&to, more))).collect()
    }

    /// Looks for any order at all when the budget is spent: level by level of items that are in,
    /// the states of least cost on each.
    fn dive(
        &mut self,
        task: &Task,
        mut reached: Reached,
        queue: BinaryHeap<Entry>,
        priced: &mut Priced,
        found: &mut Found,
    ) {
        let scene = self.scene;
        let mut levels: Vec<BinaryHeap<Entry>> = vec![BinaryHeap::new(); scene.basics + 1];
        let level = |set: u64| set.count_ones() as usize;
        for Reverse((all, many, state, promise)) in queue {
            if promise.is_none() {
                levels[level(state.set)].push(Reverse((all, many, state, None)));
            }
        }
        let mut goal: Option<(Cost, State)> = None;
        for here in 0..levels.len() {
            let mut seen = BTreeSet::new();
            while let Some(Reverse((_, _, state, promise))) = levels[here].pop() {
                if let Some(m) = promise {
                    let mut later = BinaryHeap::new();
                    self.keep(task, state, m, &mut reached, &mut later, found);
                    later.into_iter().for_each(|e| levels[level(e.0.2.set)].push(e));
                    continue;
                }
                if seen.len() == WIDTH || !seen.insert(state) {
                    continue;
                }
                let Some(&(cost, _)) = reached.get(&state) else { continue };
                if state.set.count_ones() > found.furthest.set.count_ones() {
                    found.furthest = state;
                }
                if is_goal(scene, task, &state) {
                    if goal.is_none_or(|(least, _)| cost < least) {
                        goal = Some((cost, state));
                    }
                    continue;
                }
                found.states += 1;
                for (m, to, more) in self.expand(task, &state, priced) {
                    if self.alone && more.helper_steps > 0 {
                        continue;
                    }
                    let spent = cost.plus(more);
                    if joins_set(scene, m) {
                        let all = spent.plus(still_to_come(scene, task, &to));
                        let many = Reverse(to.set.count_ones());
                        levels[here].push(Reverse((all, many, state, Some(m))));
                    } else {
                        let mut later = BinaryHeap::new();
                        reach(scene, task, (m, state, to), spent, &mut reached, &mut later);
                        later.into_iter().for_each(|e| levels[level(to.set)].push(e));
                    }
                }
            }
        }
        found.path = goal
            .filter(|(cost, _)| task.under.is_none_or(|most| *cost < most))
            .map(|(cost, state)| Path { moves: moves_to(&reached, state), cost });
    }
}

/// Whether a state is finished.
fn is_goal(scene: &Scene, task: &Task, state: &State) -> bool {
    state.set == task.within
        && state.wet == 0
        && state.closed == scene.links_in(task.within)
        && task.end.is_none_or(|e| e == state.face())
        && scene.hangs_together(state.set, state.closed)
}

fn joins_set(scene: &Scene, m: Move) -> bool {
    matches!(m, Move::LayOut(item, _) | Move::Place(item, _) if item >= scene.basics)
}

/// The state after an item is laid out.
pub fn laid_out(scene: &Scene, item: usize, face: Direction) -> State {
    let set = scene.masks[item];
    State { set, closed: scene.links_in(set), wet: 0, face: face.index() as u8 }
}

/// The state after an item has joined.
pub fn placed(scene: &Scene, item: usize, from: &State, p: &Placing) -> State {
    let own = scene.masks[item];
    let closed = from.closed | p.closes | scene.links_in(own);
    State { set: from.set | own, closed, wet: from.wet | p.wet, face: from.face }
}

/// What it counts to lock a frame that has no diagonals to measure yet.
fn locking(scene: &Scene, from: &State, p: &Placing) -> Cost {
    let unmeasured = p.braces && !scene.has_ring(from.set, from.closed);
    Cost { by_feel: u32::from(unmeasured), ..Cost::default() }
}

fn entry(scene: &Scene, task: &Task, cost: Cost, state: State) -> Entry {
    let all = cost.plus(still_to_come(scene, task, &state));
    Reverse((all, Reverse(state.set.count_ones()), state, None))
}

/// Keeps a state when nothing cheaper leads there.
fn reach(
    scene: &Scene,
    task: &Task,
    (m, from, to): (Move, State, State),
    spent: Cost,
    reached: &mut Reached,
    queue: &mut BinaryHeap<Entry>,
) {
    if reached.get(&to).is_none_or(|(known, _)| spent < *known) {
        reached.insert(to, (spent, Some((from, m))));
        queue.push(entry(scene, task, spent, to));
    }
}

fn moves_to(reached: &Reached, mut at: State) -> Vec<Move> {
    let mut moves = Vec::new();
    while let Some((_, Some((from, m)))) = reached.get(&at) {
        moves.push(*m);
        at = *from;
    }
    moves.reverse();
    moves
}

/// What every way on from a state still costs at least, field by field: the items and screws that
/// are not in yet take their minutes, glue its clamps and its curing, and a body on another face
/// than its last must be turned.
fn still_to_come(scene: &Scene, task: &Task, state: &State) -> Cost {
    let items = (task.within & !state.set).count_ones();
    let open = scene.links_in(task.within) & !state.closed;
    let mut screws = 0;
    let mut clamps = 0;
    for l in members(open) {
        screws += scene.links[l].rooms.first().map_or(0, Vec::len) as u32;
        clamps += u32::from(scene.links[l].cures);
    }
    let curing = if clamps > 0 || state.wet != 0 { scene.workshop.glue.clamp } else { 0 };
    let turned = u32::from(state.set != 0 && task.end.is_some_and(|e| e != state.face()));
    Cost {
        handlings: turned,
        turns: turned,
        tool_changes: clamps,
        minutes: (2 * items).saturating_sub(u32::from(state.set == 0))
            + screws
            + 2 * clamps
            + curing,
        ..Cost::default()
    }
}
