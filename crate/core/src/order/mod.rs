//! The order: which part next, on which face, held by what, proved by geometry.
//!
//! Nothing here knows what is built. The search sees solids, joints, screws, a bench, a drill and
//! hands, and finds the cheapest order in which every part goes in along a clear path, every
//! screw is reached by the drill above the bench, and nothing falls.
//!
//! One module a question: [`bodies`] groups the parts into bodies built one after another, [`sets`]
//! what might be made ready beforehand; [`blocking`] says what is in whose way; [`access`] where a
//! tool has room, [`clamps`] where a clamp has; [`stability`] what stands; [`holding`] what must be
//! held and by what; [`locate`] what sets each distance and which loose part serves as spacer;
//! [`placing`] whether an item can join, and what that costs; [`search`] finds the order of a body,
//! [`planned`] of all bodies; [`obstacle`] says why there is none, [`cures`] with which change there
//! would be; [`steps`] writes an order down with its certificate, [`checks`] adds what to measure,
//! [`words`] says it. [`crate::wishes`] is what the maker has decided already.
//!
//! `docs/order.md` states the rules that order, verifier and oracle share.
//!
//! # Cost
//! Orders are compared by [`Cost`], field by field. Accuracy goes before effort: after the need of
//! a helper come faces that must be level under a panel but that neither bench nor stop sets, and
//! panels that lock a frame before its diagonals can be measured. Turning the piece and holding a
//! part in the air both take both arms: they count alike, as *handlings*. Then holds, distances to
//! measure, clamps and changes of bit, minutes, and the natural grouping.
//!
//! # Minutes
//! Common practice, no source: a part laid out 1, placed 2, each screw with its pilot 1, a hold 1,
//! a clamp 2, a spacer 1, a turn 2, a body set aside, brought back or hung 2, a check 2, a dry fit 3,
//! glue that cures as long as its clamps stay on, taking them off 1 each.

pub mod access;
pub mod blocking;
pub mod bodies;
pub mod checks;
pub mod clamps;
pub mod cures;
mod driving;
pub mod easiest;
pub mod holding;
mod instead;
mod joining;
pub mod least;
pub mod locate;
pub mod obstacle;
pub mod placing;
pub mod planned;
pub mod scene;
pub mod search;
pub mod sets;
pub mod splits;
pub mod square;
pub mod stability;
pub mod state;
pub mod steps;
pub mod sum;
pub mod table;
pub mod words;

use crate::assembly::{Assembly, MAIN};
use crate::findings::{Finding, Severity};
use crate::plan::{Cost, PlanBody, Proof, Step, Workshop};
use crate::units::Notation;
use crate::wishes::Wishes;

/// How many states a search may expand for a body of at most [`EXACT_UP_TO`] items.
pub const BUDGET: u64 = 100_000;

/// Bodies of at most that many items are searched until the order is proved cheapest.
pub const EXACT_UP_TO: usize = 16;

/// How many states a search may expand for a larger body before it settles for a good order.
pub const SHORT_BUDGET: u64 = 8_000;

/// Most items (parts and ready-made bodies) in one body: a set of them is one machine word.
pub const MOST_ITEMS: usize = 60;

/// Most joints in one body, for the same reason.
pub const MOST_LINKS: usize = 64;

/// A proved order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// The steps, numbered from 1.
    pub steps: Vec<Step>,
    /// What the bodies they name are called.
    pub bodies: Vec<PlanBody>,
    /// What they cost.
    pub cost: Cost,
    /// What the search weighed: the cost without checks, dry fits and spacers, which are found when
    /// the steps are written and only take minutes.
    pub searched: Cost,
    /// How far the search got.
    pub proof: Proof,
}

/// Finds the best order for an assembly in a workshop, as the maker wishes.
pub fn plan_order(
    assembly: &Assembly,
    workshop: &Workshop,
    wishes: &Wishes,
    notation: Notation,
) -> (Option<Order>, Vec<Finding>) {
    let mut findings = refused(assembly, wishes);
    if !findings.is_empty() {
        return (None, findings);
    }
    let planned = match planned::plan(assembly, workshop, wishes, u64::MAX) {
        Ok(planned) => planned,
        Err(why) => {
            let asked = cures::Asked { assembly, workshop, wishes, notation };
            return (None, vec![cures::finding(asked, &why)]);
        }
    };
    let (steps, cost) = steps::write(assembly, workshop, notation, &planned, &mut findings);
    if !planned.stands {
        findings.push(topples());
    }
    let optimal = planned.complete;
    let bound = if optimal { cost } else { planned.bound };
    let proof = Proof { optimal, states: planned.states, bound };
    let grouping = &planned.grouping;
    let named = |(b, body): (usize, &bodies::Body)| PlanBody {
        id: body.id.clone(),
        name: words::body_name(assembly, grouping, b),
    };
    let bodies = grouping.bodies.iter().enumerate().map(named).collect();
    (Some(Order { steps, bodies, cost, searched: planned.cost, proof }), findings)
}

/// A caution: the finished piece does not stand by itself.
fn topples() -> Finding {
    Finding::new(
        Severity::Caution,
        "does-not-stand",
        "piece",
        "The finished piece does not stand by itself with 5° to spare.",
        "Hold it until it is fixed to the wall or to its neighbours.",
    )
}

/// What the search cannot take up.
fn refused(assembly: &Assembly, wishes: &Wishes) -> Vec<Finding> {
    let mut findings = Vec::new();
    for body in bodies::named(assembly).bodies {
        if body.items.len() > MOST_ITEMS {
            findings.push(Finding::new(
                Severity::Stop,
                "too-many-parts",
                format!("body {}", body.id),
                format!("{} parts are too many for one body.", body.items.len()),
                format!("Group them into bodies of at most {MOST_ITEMS} parts."),
            ));
        }
        if scene::joints_in(assembly, &body) > MOST_LINKS {
            findings.push(Finding::new(
                Severity::Stop,
                "too-many-joints",
                format!("body {}", body.id),
                format!("More than {MOST_LINKS} joints are too many for one body."),
                "Group its parts into bodies that are joined whole.",
            ));
        }
        let Some(done) = &wishes.done else { continue };
        let parts: Vec<usize> = body.items.iter().flat_map(|i| i.parts.iter().copied()).collect();
        let is_done = |p: &&usize| done.parts.contains(&assembly.parts[**p].id);
        let count = parts.iter().filter(is_done).count();
        if body.id != MAIN && count > 0 && count < parts.len() {
            findings.push(Finding::new(
                Severity::Stop,
                "half-done-body",
                format!("body {}", body.id),
                format!(
                    "{count} of the {} parts of the {} are given as done.",
                    parts.len(),
                    assembly.body_name(&body.id)
                ),
                "Give all of its parts as done, once it is in, or none.",
            ));
        }
    }
    findings
}

#[cfg(test)]
mod tests;
