//! Any order at all, when the budget of a search is spent.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::least::Least;
use super::reached::{Entry, Node, Reached, entry};
use super::search::{Found, Path, Searcher, Task, is_goal};
use super::sum::Sum;

impl Searcher<'_> {
    /// Looks for any order at all when the budget is spent: level by level of items that are in,
    /// the states of least cost on each.
    pub(super) fn dive(
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
