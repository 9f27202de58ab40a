//! The same cost, better to have and to cut: a bigger offcut, fewer fence settings, fewer cuts.

use std::collections::BTreeSet;

use super::chance::Chance;
use super::measure::{Measure, measure};
use super::place::{Filling, Want, fill};
use super::problem::{Cost, Problem};
use super::ruin::ruin;
use super::tree::Plan;
use super::worth::Worth;

/// A search among complete plans that cost no more than one of them.
#[derive(Debug, Clone)]
pub(super) struct Polish {
    /// With leftovers valued so that the biggest one tells.
    problem: Problem,
    plan: Plan,
    now: Measure,
    before: Plan,
    best: Plan,
    least: Measure,
    history: Vec<Measure>,
    at: usize,
    idle: u32,
    chance: Chance,
    room: Vec<Want>,
    seen: BTreeSet<(u8, i64)>,
}

/// Measures remembered for accepting late.
const HISTORY: usize = 50;
/// Steps without a better measure before there is nothing more to expect.
const PATIENCE: u32 = 20_000;

impl Polish {
    /// From a complete plan.
    pub fn new(problem: &Problem, plan: &Plan, seed: u64) -> Self {
        let most = problem.sheets.iter().map(|s| s.area()).max().unwrap_or(1);
        let mut problem = problem.clone();
        problem.worth = Worth::steep(most);
        let mut plan = plan.clone();
        plan.value_again(&problem);
        let mut seen = BTreeSet::new();
        let now = measure(&problem, &plan, &mut seen);
        Polish {
            before: plan.clone(),
            best: plan.clone(),
            history: vec![now; HISTORY],
            plan,
            now,
            least: now,
            at: 0,
            idle: 0,
            chance: Chance::new(seed ^ 0x5eed),
            room: Vec::new(),
            seen,
            problem,
        }
    }

    /// Whether more steps are of little use.
    pub fn exhausted(&self) -> bool {
        self.idle > PATIENCE
    }

    /// The best so far.
    pub fn best(&self) -> &Plan {
        &self.best
    }

    /// One ruin and one recreation; true if the best is better now.
    pub fn step(&mut self) -> bool {
        self.idle = self.idle.saturating_add(1);
        self.before.clone_from(&self.plan);
        ruin(&mut self.plan, &self.problem, 4, &mut self.chance);
        let cost = self.best.cost;
        let below = Cost { scrap: cost.scrap.saturating_add(1), ..cost };
        let filling = Filling { blink: 51, wide: 20, below };
        fill(&mut self.plan, &self.problem, filling, &mut self.chance, &mut self.room);
        if !self.plan.complete() {
            self.plan.clone_from(&self.before);
            return false;
        }
        let new = measure(&self.problem, &self.plan, &mut self.seen);
        if new <= self.now || new <= self.history[self.at] {
            self.now = new;
        } else {
            self.plan.clone_from(&self.before);
        }
        self.history[self.at] = self.now;
        self.at = (self.at + 1) % HISTORY;
        if new < self.least || self.plan.cost < cost {
            self.least = new;
            self.best.clone_from(&self.plan);
            self.idle = 0;
            return true;
        }
        false
    }
}
