//! Finds the cheapest order for one body: best first over what is in, what is closed, what is wet
//! and the face on the bench.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use crate::geometry::Direction;
use crate::plan::Cost;

use super::least::Least;
use super::placing::{self, Placing};
use super::scene::Scene;
use super::state::{Move, State};
use super::sum::Sum;
use super::table::{Key, Table, mix};

/// States expanded for each number of items once the budget is spent.
pub const WIDTH: usize = 24;

/// The same when so few led nowhere.
pub const WIDE: usize = 400;

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

impl Found {
    /// Before anything was looked at.
    fn nothing(task: &Task) -> Found {
        Found {
            path: None,
            furthest: task.start,
            states: 0,
            bound: Cost::default(),
            complete: true,
            dearer: false,
        }
    }

    /// Remembers the state when more is in than before.
    fn reaches(&mut self, state: State) {
        if state.set.count_ones() > self.furthest.set.count_ones() {
            self.furthest = state;
        }
    }
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
    /// States it expands for each number of items when the budget is spent.
    pub width: usize,
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

impl Key for State {
    fn mixed(&self) -> u64 {
        mix([self.set, self.closed, self.wet, u64::from(self.face)])
    }
}

/// A state that was reached.
#[derive(Debug, Clone, Copy)]
struct Node {
    state: State,
    cost: Sum,
    /// Whether everything cheaper had been looked at when its moves were tried.
    settled: bool,
    /// From which node, by which move.
    from: Option<(u32, Move)>,
}

/// All states that were reached, each at the least cost known.
#[derive(Default)]
struct Reached {
    nodes: Vec<Node>,
    index: Table<State, u32>,
}

impl Reached {
    /// Keeps a state when nothing cheaper leads there; its node then.
    fn keep(&mut self, state: State, cost: Sum, from: Option<(u32, Move)>) -> Option<u32> {
        if let Some(&n) = self.index.get(&state) {
            let node = &mut self.nodes[n as usize];
            if cost >= node.cost {
                return None;
            }
            *node = Node { cost, from, ..*node };
            return Some(n);
        }
        let n = self.nodes.len() as u32;
        self.nodes.push(Node { state, cost, settled: false, from });
        self.index.insert(state, n);
        Some(n)
    }

    fn node(&mut self, n: u32) -> &mut Node {
        &mut self.nodes[n as usize]
    }

    fn moves_to(&self, n: u32) -> Vec<Move> {
        let mut moves = Vec::new();
        let mut at = n;
        while let Some((from, m)) = self.nodes[at as usize].from {
            moves.push(m);
            at = from;
        }
        moves.reverse();
        moves
    }
}

/// An entry of the queue: least cost of all first, among equals the fuller set, then the state
/// itself, so that nothing hangs on when it was reached. With a move, the node is where that move
/// starts, and its set has not been priced yet.
type Entry = Reverse<(Sum, Reverse<u32>, State, Option<Move>, u32)>;

impl<'a> Searcher<'a> {
    /// Nothing is known yet.
    pub fn new(scene: &'a Scene<'a>, alone: bool) -> Self {
        Searcher { scene, alone, sets: BTreeMap::new() }
    }

    /// What is still to come at least, for a task.
    pub fn least(&mut self, task: &Task) -> Least {
        self.weigh(task).0
    }

    /// The same, and the states that took: sets are ordered for it.
    fn weigh(&mut self, task: &Task) -> (Least, u64) {
        let scene = self.scene;
        let mut states = 0;
        let least = Least::new(scene, task, |set| {
            let mut of_set = Found::nothing(task);
            let cost = self.make_ready(set, task.budget, &mut of_set);
            states += of_set.states;
            let known = self.sets.get(&scene.masks[set]).filter(|_| !of_set.complete);
            let least = known.map(|ready| ready.bound.plus(scene.aside(set)));
            least.or(cost).map(Sum::from)
        });
        (least, states)
    }

    /// Finds the cheapest order of a task.
    pub fn search(&mut self, task: &Task) -> Found {
        let scene = self.scene;
        let mut found = Found::nothing(task);
        let (least, states) = self.weigh(task);
        let least = &least;
        found.states = states;
        let mut reached = Reached::default();
        let mut queue: BinaryHeap<Entry> = BinaryHeap::new();
        if let Some(n) = reached.keep(task.start, Sum::ZERO, None) {
            queue.push(entry(scene, least, reached.node(n), n));
        }
        while let Some(Reverse((all, _, _, promise, n))) = queue.pop() {
            found.bound = all.cost();
            if task.under.is_some_and(|most| all >= most.into()) {
                found.dearer = true;
                return found;
            }
            if let Some(m) = promise {
                if let Some(n) = self.redeem(task, n, m, &mut reached, &mut found) {
                    queue.push(entry(scene, least, reached.node(n), n));
                }
                continue;
            }
            let Node { state, cost, settled, .. } = *reached.node(n);
            if settled {
                continue;
            }
            found.reaches(state);
            if is_goal(scene, task, &state) {
                found.path = Some(Path { moves: reached.moves_to(n), cost: cost.cost() });
                return found;
            }
            if found.states >= task.budget {
                found.complete = false;
                queue.push(entry(scene, least, reached.node(n), n));
                self.dive(task, least, reached, queue, &mut found);
                return found;
            }
            found.states += 1;
            queue.extend(self.settle(task, least, &mut reached, n));
        }
        found
    }

    /// Tries all moves from a node: what to look at later.
    fn settle(&self, task: &Task, least: &Least, reached: &mut Reached, n: u32) -> Vec<Entry> {
        let node = reached.node(n);
        node.settled = true;
        let Node { state, cost, .. } = *node;
        let moves = self.expand(task, &state).into_iter();
        moves
            .filter_map(|(m, to, more)| self.follow(least, reached, n, (m, to, cost + more.into())))
            .collect()
    }

    /// Keeps where a move leads; what to look at later, if anything.
    fn follow(
        &self,
        least: &Least,
        reached: &mut Reached,
        from: u32,
        (m, to, spent): (Move, State, Sum),
    ) -> Option<Entry> {
        let scene = self.scene;
        if joins_set(scene, m) {
            // A set is priced only when everything cheaper has been looked at.
            let all = spent + least.still_to_come(scene, &to);
            let state = reached.node(from).state;
            return Some(Reverse((all, Reverse(to.set.count_ones()), state, Some(m), from)));
        }
        let n = reached.keep(to, spent, Some((from, m)))?;
        Some(entry(scene, least, reached.node(n), n))
    }

    /// Prices a set that is to join, and keeps where that leads: its node, when nothing cheaper
    /// leads there.
    fn redeem(
        &mut self,
        task: &Task,
        from: u32,
        m: Move,
        reached: &mut Reached,
        found: &mut Found,
    ) -> Option<u32> {
        let (Move::LayOut(item, _) | Move::Place(item, _)) = m else { return None };
        let Node { state, cost, .. } = *reached.node(from);
        let ready = self.make_ready(item, task.budget, found)?;
        let (to, more) = self.step(task, &state, m)?;
        reached.keep(to, cost + more.into() + ready.into(), Some((from, m)))
    }

    /// What making ready costs that a move takes before.
    pub fn beforehand(&mut self, task: &Task, m: Move) -> Cost {
        let (Move::LayOut(item, _) | Move::Place(item, _)) = m else { return Cost::default() };
        if item < self.scene.basics {
            return Cost::default();
        }
        let mut found = Found::nothing(task);
        self.make_ready(item, task.budget, &mut found).unwrap_or_default()
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
                width: WIDTH,
                under: None,
            };
            let ready = self.search(&task);
            found.states += ready.states;
            self.sets.insert(mask, ready);
        }
        let ready = self.sets.get(&mask)?;
        found.complete &= ready.complete;
        let aside = self.scene.aside(item);
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
    fn expand(&self, task: &Task, state: &State) -> Vec<(Move, State, Cost)> {
        let mut out = self.moves(task, state);
        if self.alone {
            out.retain(|(_, _, more)| more.helper_steps == 0);
        }
        out
    }

    fn moves(&self, task: &Task, state: &State) -> Vec<(Move, State, Cost)> {
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
            let Ok(p) = placing::placing(scene, task.within, item, state) else { continue };
            let cost = placing::price(scene, task.within, item, state, &p);
            let m = Move::Place(item, p.direction);
            out.push((m, placed(scene, item, state, &p), cost.plus(locking(scene, state, &p))));
        }
        if state.wet != 0 {
            // Nobody holds it that long.
            if scene.stands(state.set, state.face())
                && let Some((to, cost)) = self.step(task, state, Move::Wait)
            {
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
    pub fn ways(&self, task: &Task, least: &Least, state: &State) -> Vec<(Move, State, Cost)> {
        let all = self.expand(task, state);
        let all_of =
            |to: &State, more: Cost| (Sum::from(more) + least.still_to_come(self.scene, to)).cost();
        all.into_iter().map(|(m, to, more)| (m, to, all_of(&to, more))).collect()
    }

    /// Looks for any order at all when the budget is spent: level by level of items that are in,
    /// the states of least cost on each.
    fn dive(
        &mut self,
        task: &Task,
        least: &Least,
        mut reached: Reached,
        queue: BinaryHeap<Entry>,
        found: &mut Found,
    ) {
        let scene = self.scene;
        let mut levels: Vec<BinaryHeap<Entry>> = vec![BinaryHeap::new(); scene.basics + 1];
        let level = |set: u64| set.count_ones() as usize;
        for e in queue {
            if e.0.3.is_none() {
                levels[level(e.0.2.set)].push(e);
            }
        }
        let mut goal: Option<(Sum, u32)> = None;
        for here in 0..levels.len() {
            let mut looked_at = 0;
            while let Some(Reverse((_, _, _, promise, n))) = levels[here].pop() {
                if let Some(m) = promise {
                    if let Some(n) = self.redeem(task, n, m, &mut reached, found) {
                        let e = entry(scene, least, reached.node(n), n);
                        levels[level(e.0.2.set)].push(e);
                    }
                    continue;
                }
                let Node { state, cost, settled, .. } = *reached.node(n);
                if settled || looked_at == task.width {
                    continue;
                }
                looked_at += 1;
                found.reaches(state);
                if is_goal(scene, task, &state) {
                    if goal.is_none_or(|(known, _)| cost < known) {
                        goal = Some((cost, n));
                    }
                    continue;
                }
                found.states += 1;
                for e in self.settle(task, least, &mut reached, n) {
                    // A set that is not priced yet stands where it would join.
                    levels[level(e.0.2.set)].push(e);
                }
            }
        }
        found.path = goal
            .filter(|(cost, _)| task.under.is_none_or(|most| *cost < most.into()))
            .map(|(cost, n)| Path { moves: reached.moves_to(n), cost: cost.cost() });
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

fn entry(scene: &Scene, least: &Least, node: &Node, n: u32) -> Entry {
    let all = node.cost + least.still_to_come(scene, &node.state);
    Reverse((all, Reverse(node.state.set.count_ones()), node.state, None, n))
}
