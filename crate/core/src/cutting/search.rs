//! The search over all materials, step by step.

use std::collections::BTreeMap;

use super::bounds::Bounding;
use super::check::check;
use super::describe;
use super::greedy;
use super::improve::Improve;
use super::job::{Aim, Job};
use super::layout::{Becomes, Bound, Layout, Score, Unplaced, Why};
use super::problem::{Cost, Problem};
use super::tree::Plan;
use crate::findings::Finding;

/// A search for a good layout that can be stopped and asked for its best at any time.
///
/// It decides by counts of steps and never by time: the same job and the same number of steps give the same layout,
/// however the steps are parted.
#[derive(Debug, Clone)]
pub struct Search {
    job: Job,
    findings: Vec<Finding>,
    unplaced: Vec<Unplaced>,
    materials: Vec<Material>,
    /// Whose turn it is.
    next: usize,
}

/// The search for one material.
#[derive(Debug, Clone)]
struct Material {
    problem: Problem,
    best: Plan,
    bounding: Bounding,
    bounded: bool,
    improve: Option<Improve>,
    steps: u64,
}

impl Search {
    /// Checks the job and lays out what can be at once, without a search.
    pub fn new(job: &Job) -> Search {
        let checked = check(job);
        let mut unplaced: Vec<Unplaced> = Vec::new();
        let mut materials = Vec::new();
        let refused = |p: usize| Unplaced { part: p, count: job.parts[p].count, why: Why::Refused };
        unplaced.extend(checked.refused.iter().map(|p| refused(*p)));
        let mut names: BTreeMap<&str, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
        for p in checked.parts {
            names.entry(&job.parts[p].material).or_default().0.push(p);
        }
        for s in checked.stock {
            names.entry(&job.stock[s].material).or_default().1.push(s);
        }
        for (parts, stock) in names.values() {
            let (problem, unfit) = Problem::new(job, parts, stock);
            unplaced.extend(unfit.into_iter().map(|part| Unplaced {
                part,
                count: job.parts[part].count,
                why: Why::FitsNowhere,
            }));
            if !problem.kinds.is_empty() {
                materials.push(Material::new(problem, job.seed));
            }
        }
        let mut findings = checked.findings;
        findings.extend(super::check::unfit(job, &unplaced));
        Search { job: job.clone(), findings, unplaced, materials, next: 0 }
    }

    /// Takes up to so many steps, material by material in turn; false when there is nothing left to find.
    pub fn step(&mut self, steps: u32) -> bool {
        for _ in 0..steps {
            let count = self.materials.len();
            let turn = (0..count).map(|n| (self.next + n) % count);
            let Some(at) = turn.into_iter().find(|m| !self.materials[*m].done()) else {
                return false;
            };
            self.materials[at].step();
            self.next = (at + 1) % count;
        }
        self.materials.iter().any(|m| !m.done())
    }

    /// What is wrong with the job, and what does not fit.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The best layout so far.
    pub fn best(&self) -> Layout {
        let mut layout =
            Layout { unplaced: self.unplaced.clone(), proved: true, ..Layout::default() };
        for m in &self.materials {
            m.add_to(&self.job, &mut layout);
        }
        layout.unplaced.sort_by_key(|u| u.part);
        layout.score.unplaced = layout.unplaced.iter().map(|u| u.count).fold(0, u32::saturating_add);
        layout.proved &= !self.materials.is_empty();
        layout
    }
}

impl Material {
    fn new(problem: Problem, seed: u64) -> Self {
        let best = greedy::start(&problem);
        let bounding = Bounding::new(&problem);
        let mut material =
            Material { problem, best, bounding, bounded: false, improve: None, steps: 0 };
        if !material.proved() {
            material.improve = Some(Improve::new(&material.problem, &material.best, seed));
        }
        material
    }

    fn proved(&self) -> bool {
        self.best.complete() && self.best.cost.price <= self.bounding.best().price
    }

    /// The cost cannot be less.
    fn cheapest(&self) -> bool {
        self.best.complete()
            && self.best.cost <= Cost { price: self.bounding.best().price, scrap: 0 }
    }

    fn done(&self) -> bool {
        self.cheapest()
    }

    fn step(&mut self) {
        self.steps += 1;
        if !self.bounded {
            self.bounded = !self.bounding.step(&self.problem);
        }
        if self.cheapest() {
            self.improve = None;
            return;
        }
        let Some(improve) = &mut self.improve else { return };
        if improve.step(&self.problem) {
            self.best.clone_from(improve.plan());
            if self.cheapest() {
                self.improve = None;
            } else if let Some(improve) = &mut self.improve {
                improve.next_goal(&self.problem);
            }
        } else if rank(improve.plan()) < rank(&self.best) && !self.best.complete() {
            self.best.clone_from(improve.plan());
        }
    }

    fn add_to(&self, job: &Job, layout: &mut Layout) {
        for sheet in describe::sheets(job, &self.problem, &self.best) {
            let stock = &job.stock[sheet.stock];
            layout.score.price = layout.score.price.saturating_add(stock.price);
            *(if stock.scrap { &mut layout.score.scraps } else { &mut layout.score.sheets }) += 1;
            for leaf in sheet.root.leaves() {
                match leaf.becomes {
                    Becomes::Offcut => {
                        layout.score.offcut = layout.score.offcut.max(leaf.rect.area());
                    }
                    Becomes::Part { part, .. } if job.aim == Aim::MostValue => {
                        layout.score.value += job.parts[part].value;
                    }
                    _ => {}
                }
            }
            layout.sheets.push(sheet);
        }
        for (kind, missing) in self.problem.kinds.iter().zip(&self.best.missing) {
            let mut left = *missing;
            for (part, count) in kind.members.iter().rev() {
                let count = left.min(*count);
                left -= count;
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

fn rank(plan: &Plan) -> (i64, Cost, i64) {
    (plan.missing_weight, plan.cost, -plan.worth)
}

impl Bound {
    /// Nothing.
    pub const NONE: Bound = Bound { price: 0, sheets: 0 };
}

impl Score {
    /// Whether nothing was laid out.
    pub const fn is_empty(&self) -> bool {
        self.sheets == 0 && self.scraps == 0
    }
}
