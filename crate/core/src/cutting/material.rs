//! The search for one material: bound, fewer sheets, and a better layout at the same cost.

use std::collections::BTreeSet;

use super::bounds::Bounding;
use super::describe;
use super::greedy;
use super::improve::Improve;
use super::job::{Aim, Job};
use super::layout::{Becomes, Layout, Unplaced, Why};
use super::measure::measure;
use super::polish::Polish;
use super::problem::{Cost, Problem};
use super::tree::Plan;

#[derive(Debug, Clone)]
pub(super) struct Material {
    problem: Problem,
    best: Plan,
    bounding: Bounding,
    /// None once the cost cannot be less.
    improve: Option<Improve>,
    /// None while there is nothing to polish, or nothing more to gain from it.
    polish: Option<Polish>,
    seed: u64,
    steps: u64,
}

/// While the cost may still come down, one step in so many goes to polishing.
const POLISH_EVERY: u64 = 4;

impl Material {
    pub fn new(problem: Problem, seed: u64) -> Self {
        let best = greedy::start(&problem);
        let mut material = Material {
            bounding: Bounding::new(&problem),
            improve: None,
            polish: None,
            problem,
            best,
            seed,
            steps: 0,
        };
        if !material.cheapest() {
            material.improve = Some(Improve::new(&material.problem, &material.best, seed));
        }
        material.polish_anew();
        material
    }

    /// Whether there is nothing left to find.
    pub fn done(&self) -> bool {
        self.improve.is_none() && self.polish.is_none()
    }

    pub fn step(&mut self) {
        self.steps += 1;
        if self.improve.is_some() {
            self.bounding.step(&self.problem);
            if self.cheapest() {
                self.improve = None;
            }
        }
        match (&mut self.improve, &mut self.polish) {
            (Some(_), Some(_)) if self.steps.is_multiple_of(POLISH_EVERY) => self.step_polish(),
            (Some(_), _) => self.step_improve(),
            (None, Some(_)) => self.step_polish(),
            (None, None) => {}
        }
    }

    fn step_improve(&mut self) {
        let Some(improve) = &mut self.improve else { return };
        let complete = improve.step(&self.problem);
        if complete || (!self.best.complete() && rank(improve.plan()) < rank(&self.best)) {
            self.best.clone_from(improve.plan());
        }
        if complete {
            self.go_on_below_best();
        }
    }

    fn step_polish(&mut self) {
        let Some(polish) = &mut self.polish else { return };
        if polish.step() {
            let cheaper = polish.best().cost < self.best.cost;
            self.best.clone_from(polish.best());
            self.best.value_again(&self.problem);
            if cheaper {
                self.go_on_below_best();
            }
        } else if polish.exhausted() {
            self.polish = None;
        }
    }

    /// After a cheaper complete plan.
    fn go_on_below_best(&mut self) {
        if self.cheapest() {
            self.improve = None;
        } else if let Some(improve) = &mut self.improve {
            improve.aim_below(&self.problem, &self.best);
        }
        self.polish_anew();
    }

    fn polish_anew(&mut self) {
        let wanted = matches!(self.problem.aim, Aim::LeastCost | Aim::FewestSheets);
        self.polish = (wanted && self.best.complete())
            .then(|| Polish::new(&self.problem, &self.best, self.seed));
    }

    fn proved(&self) -> bool {
        let bound = self.bounding.best().price;
        self.best.complete()
            && (self.best.cost.price <= bound || self.problem.aim == Aim::MostValue)
    }

    /// Neither the price nor the area of scraps can be less.
    fn cheapest(&self) -> bool {
        self.proved() && (self.best.cost.scrap == 0 || self.problem.aim == Aim::MostValue)
    }

    /// Adds sheets, parts without a place and score to a layout.
    pub fn add_to(&self, job: &Job, layout: &mut Layout) {
        let score = &mut layout.score;
        for sheet in describe::sheets(job, &self.problem, &self.best) {
            let stock = &job.stock[sheet.stock];
            score.price = score.price.saturating_add(stock.price);
            *(if stock.scrap { &mut score.scraps } else { &mut score.sheets }) += 1;
            for leaf in sheet.root.leaves() {
                match leaf.becomes {
                    Becomes::Offcut => score.offcut = score.offcut.max(leaf.rect.area()),
                    Becomes::Part { part, .. } => {
                        score.value = score.value.saturating_add(job.parts[part].value);
                    }
                    _ => {}
                }
            }
            layout.sheets.push(sheet);
        }
        let measure = measure(&self.problem, &self.best, &mut BTreeSet::new());
        score.settings += measure.settings;
        score.cuts += measure.cuts;
        for (kind, missing) in self.problem.kinds.iter().zip(&self.best.missing) {
            let mut missing = *missing;
            for (part, count) in kind.members.iter().rev() {
                let count = missing.min(*count);
                missing -= count;
                if count > 0 {
                    layout.unplaced.push(Unplaced { part: *part, count, why: Why::StockUsedUp });
                }
            }
        }
        let bound = self.bounding.best();
        layout.bound.price = layout.bound.price.saturating_add(bound.price);
        layout.bound.sheets += bound.sheets;
        layout.proved &= self.proved();
    }
}

/// Less is better.
fn rank(plan: &Plan) -> (i64, Cost, i64) {
    (plan.missing_weight, plan.cost, -plan.worth)
}
