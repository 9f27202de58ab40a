//! The search over all materials, step by step.

use std::collections::BTreeMap;

use super::check::{check, unplaced_findings};
use super::job::Job;
use super::layout::{Layout, Unplaced, Why};
use super::material::Material;
use super::problem::Problem;
use crate::findings::Finding;

/// A search for a good layout that can be stopped and asked for its best at any time.
///
/// It decides by counts of steps and never by time: the same job and the same number of steps give the same layout,
/// however the steps are parted.
#[derive(Debug, Clone)]
pub struct Search {
    job: Job,
    findings: Vec<Finding>,
    /// Parts that no search can place.
    unplaced: Vec<Unplaced>,
    materials: Vec<Material>,
    /// Whose turn it is.
    next: usize,
}

impl Search {
    /// Checks the job and lays out what can be at once, without a search.
    pub fn new(job: &Job) -> Search {
        let checked = check(job);
        let because = |why| move |part: usize| Unplaced { part, count: job.parts[part].count, why };
        let mut unplaced: Vec<Unplaced> =
            checked.refused.iter().copied().map(because(Why::Refused)).collect();
        let mut by_material: BTreeMap<&str, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
        for p in checked.parts {
            by_material.entry(&job.parts[p].material).or_default().0.push(p);
        }
        for s in checked.stock {
            by_material.entry(&job.stock[s].material).or_default().1.push(s);
        }
        let mut materials = Vec::new();
        for (parts, stock) in by_material.values() {
            let (problem, unfit) = Problem::new(job, parts, stock);
            unplaced.extend(unfit.into_iter().map(because(Why::FitsNowhere)));
            if !problem.kinds.is_empty() {
                materials.push(Material::new(problem, job.seed));
            }
        }
        Search { job: job.clone(), findings: checked.findings, unplaced, materials, next: 0 }
    }

    /// Takes up to so many steps, material by material in turn; false when there is nothing left to find.
    pub fn step(&mut self, steps: u32) -> bool {
        let count = self.materials.len();
        for _ in 0..steps {
            let mut turn = (0..count).map(|n| (self.next + n) % count);
            let Some(at) = turn.find(|m| !self.materials[*m].done()) else { return false };
            self.materials[at].step();
            self.next = (at + 1) % count;
        }
        self.materials.iter().any(|m| !m.done())
    }

    /// The best layout so far.
    pub fn best(&self) -> Layout {
        let mut layout = Layout {
            unplaced: self.unplaced.clone(),
            proved: !self.materials.is_empty(),
            ..Layout::default()
        };
        for material in &self.materials {
            material.add_to(&self.job, &mut layout);
        }
        layout.unplaced.sort_by_key(|u| u.part);
        let counts = layout.unplaced.iter().map(|u| u.count);
        layout.score.unplaced = counts.fold(0, u32::saturating_add);
        layout
    }

    /// What is wrong with the job, and why parts of the best layout have no place.
    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = self.findings.clone();
        findings.extend(unplaced_findings(&self.job, &self.best().unplaced));
        findings
    }
}
