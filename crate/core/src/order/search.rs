//! Finds the cheapest order for one body: best first over what is in, what is closed, what is wet
//! and the face on the bench.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use crate::geometry::Direction;
use crate::plan::Cost;

use super::least::Least;
use super::reached::{Entry, Node, Reached, entry};
use super::scene::Scene;
use super::state::{Move, State};
use super::sum::Sum;

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
    pub(super) fn reaches(&mut self, state: State) {
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
    pub(super) fn settle(
        &self,
        task: &Task,
        least: &Least,
        reached: &mut Reached,
        n: u32,
    ) -> Vec<Entry> {
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
    pub(super) fn redeem(
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
}

/// Whether a state is finished.
pub(super) fn is_goal(scene: &Scene, task: &Task, state: &State) -> bool {
    state.set == task.within
        && state.wet == 0
        && state.closed == scene.links_in(task.within)
        && task.end.is_none_or(|e| e == state.face())
        && scene.hangs_together(state.set, state.closed)
}

fn joins_set(scene: &Scene, m: Move) -> bool {
    matches!(m, Move::LayOut(item, _) | Move::Place(item, _) if item >= scene.basics)
}
