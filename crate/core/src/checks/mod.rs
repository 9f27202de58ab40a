//! Will it hold, can it be lifted, does it tip? Rules over a finished plan, one concept a file.
//!
//! [`check`] runs them all. Each adds rows, passed or not, for the page of numbers, and a finding for
//! what fails, with the cure that clears it. Nothing here is a rating or a claim of compliance: local
//! codes and licensed practice come first.
//!
//! Rules ask parts for their role, their material and how they are joined, never for an id. Numbers
//! are integers: micrometres, grams, millinewtons, millionths; [`beam`], [`lift`], [`withdrawal`],
//! [`tipping`], [`diagonals`], [`stack`] and [`thickness`] are the formulas, with their sources.

pub mod accepted;
pub mod beam;
mod cautions;
pub mod diagonals;
mod doors;
mod facts;
mod fronts;
mod hinges;
mod install;
pub mod lift;
mod lifting;
pub(crate) mod num;
mod opening;
mod panels;
mod pull_out;
mod row;
mod screws;
pub mod stack;
pub mod thickness;
mod tip_over;
pub mod tipping;
mod tolerance;
pub mod withdrawal;

use crate::plan::Plan;
use crate::scenario::Scenario;

pub use panels::modulus;
pub use row::{CheckRow, Input, Said, Theme};

/// Every rule over a plan and the scenario it was made from.
pub fn check(plan: &Plan, scenario: &Scenario) -> Said {
    let facts = facts::Facts::new(plan, scenario);
    let mut said = Said::default();
    let rules = [
        screws::check,
        panels::check,
        pull_out::check,
        tip_over::check,
        lifting::check,
        fronts::check,
        hinges::check,
        opening::check,
        install::check,
        cautions::check,
        tolerance::check,
    ];
    for rule in rules {
        rule(&facts, &mut said);
    }
    said.rows.sort_by_key(|row| row.theme);
    said
}

/// Mass in grams and centre of gravity of a plan's parts, in micrometres.
pub fn weigh(plan: &Plan, scenario: &Scenario) -> (i64, [i64; 3]) {
    let facts = facts::Facts::new(plan, scenario);
    let all = facts.weigh(0..plan.parts.len());
    (all.mass_g, all.centre())
}
