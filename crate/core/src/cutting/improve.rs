//! Fewer sheets: goal-driven ruin and recreate.
//!
//! After Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem
//! with guillotine constraints", European Journal of Operational Research 301 (2022). As soon as all parts are placed
//! at some cost, only plans that cost less are looked at, with parts left out; what is left out is made less until it
//! is nothing. Plans are accepted late: Burke and Bykov, "The late acceptance hill-climbing heuristic", European
//! Journal of Operational Research 258 (2017).

use super::chance::Chance;
use super::job::Aim;
use super::place::{Filling, Want, fill};
use super::problem::{Cost, Problem};
use super::ruin::ruin;
use super::tree::{Plan, Use};

/// A search for a cheaper plan.
#[derive(Debug, Clone)]
pub(super) struct Improve {
    plan: Plan,
    before: Plan,
    /// What the sheets may cost: less than this.
    below: Cost,
    history: Vec<i64>,
    at: usize,
    /// The least score since the last start, and how long ago it was found.
    least: i64,
    idle: u32,
    chance: Chance,
    room: Vec<Want>,
}

// The values below were chosen by runs on instances made by chance after the ten classes of Berkey and Wang (1987) and
// Martello and Vigo (1998); few of them matter much.

/// What leaving out a full sheet counts against what a full sheet of leftover is worth.
const MISSING: i64 = 2;
/// Scores remembered for accepting late.
const HISTORY: usize = 50;
/// Steps without a better score before starting again.
const PATIENCE: u32 = 4000;
/// Nodes taken out, on average.
const TAKEN: usize = 4;
/// Of 1024 places, how many are overlooked.
const BLINK: usize = 51;
/// Of 1024 parts, how many begin a wide strip.
const WIDE: usize = 10;
/// Of 1024 steps, how many do both far more often.
const WILD: usize = 128;

impl Improve {
    /// From a plan; a complete one is first made cheaper by leaving parts out.
    pub fn new(problem: &Problem, plan: &Plan, seed: u64) -> Self {
        let mut improve = Improve {
            plan: plan.clone(),
            before: plan.clone(),
            below: Cost::MOST,
            history: Vec::new(),
            at: 0,
            least: i64::MAX,
            idle: 0,
            chance: Chance::new(seed),
            room: Vec::new(),
        };
        improve.aim_below(problem, plan);
        improve
    }

    /// The plan as it is.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Looks for what is cheaper than a plan from now on.
    pub fn aim_below(&mut self, problem: &Problem, plan: &Plan) {
        if plan.complete() {
            self.below = plan.cost;
            self.plan.clone_from(plan);
            self.cheapen(problem);
        }
        self.start();
    }

    /// Gives sheets back until the plan costs little enough, those with the most left over first.
    fn cheapen(&mut self, problem: &Problem) {
        while self.plan.cost >= self.below && !self.plan.roots.is_empty() {
            let filled = |root: u32| filled(&self.plan, root);
            let Some(root) = self.plan.roots.iter().copied().min_by_key(|r| (filled(*r), *r))
            else {
                return;
            };
            self.plan.take(problem, root);
        }
    }

    fn start(&mut self) {
        let score = score(&self.plan);
        self.history.clear();
        self.history.resize(HISTORY, score);
        self.least = score;
        self.idle = 0;
    }

    /// One ruin and one recreation. True if the plan is now complete; it costs less than any before.
    pub fn step(&mut self, problem: &Problem) -> bool {
        let now = score(&self.plan);
        self.before.clone_from(&self.plan);
        ruin(&mut self.plan, problem, TAKEN, &mut self.chance);
        let filling = self.filling(problem);
        fill(&mut self.plan, problem, filling, &mut self.chance, &mut self.room);
        if self.plan.complete() {
            return true;
        }
        let new = score(&self.plan);
        let late = self.history[self.at];
        if new <= late || new <= now {
            self.history[self.at] = new;
        } else {
            self.plan.clone_from(&self.before);
            self.history[self.at] = now;
        }
        self.at = (self.at + 1) % HISTORY;
        self.idle += 1;
        if new < self.least {
            self.least = new;
            self.idle = 0;
        }
        if self.idle > PATIENCE {
            self.again(problem);
        }
        false
    }

    /// Mostly the best places; now and then almost any, for what only an unlikely start leads to.
    fn filling(&mut self, problem: &Problem) -> Filling {
        let wild = if problem.aim == Aim::MostValue { 512 } else { WILD };
        let (blink, wide) = if self.chance.often(wild) { (300, 100) } else { (BLINK, WIDE) };
        Filling { blink, wide, below: self.below }
    }

    /// Starts again from nothing.
    fn again(&mut self, problem: &Problem) {
        while let Some(root) = self.plan.roots.last().copied() {
            self.plan.take(problem, root);
        }
        self.start();
    }
}

/// Less is better.
fn score(plan: &Plan) -> i64 {
    MISSING * plan.missing_weight - plan.worth
}

/// Area of a tree's parts.
fn filled(plan: &Plan, id: u32) -> i64 {
    let node = &plan.nodes[id as usize];
    match node.used {
        Use::Part { .. } => node.size[0] * node.size[1],
        Use::Cut(_) => plan.children(id).map(|c| filled(plan, c)).sum(),
        Use::Leftover | Use::Free => 0,
    }
}
