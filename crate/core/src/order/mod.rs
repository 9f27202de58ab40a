//! The order: which part next, on which face, held by what, proved by geometry.
//!
//! Nothing here knows what is built. The search sees solids, joints, screws, a bench, a drill and
//! hands, and finds the cheapest order in which every part goes in along a clear path, every
//! screw is reached by the drill above the bench, and nothing falls.
//!
//! One module a question: [`bodies`] groups the parts into bodies built one after another;
//! [`blocking`] says what is in whose way; [`access`] where the drill has room; [`stability`] what
//! stands; [`holding`] what must be held and by what; [`locate`] what sets each distance and which
//! loose part serves as spacer; [`search`] finds the order; [`steps`] writes it down with its
//! certificate, [`checks`] adds what to measure, [`words`] says it.
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
//! a clamp 2, a spacer 1, a turn 2, a body set aside, brought back or hung 2, a check 2, a dry fit 3.

pub mod access;
pub mod blocking;
pub mod bodies;
pub mod checks;
pub mod holding;
pub mod locate;
pub mod planned;
pub mod scene;
pub mod search;
pub mod splits;
pub mod stability;
pub mod steps;
pub mod wishes;
pub mod words;

use crate::assembly::Assembly;
use crate::findings::{Finding, Severity};
use crate::plan::{Cost, PlanBody, Proof, Step, Workshop};
use crate::units::Notation;

/// How many states a search may expand for one body.
pub const BUDGET: u64 = 400_000;

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
    /// How far the search got.
    pub proof: Proof,
}

/// Finds the best order for an assembly in a workshop.
///
/// Tries the bodies as they are grouped, and again with small ready-made bodies split off
/// (a panel with the hardware that only it carries), and keeps the cheaper.
pub fn plan_order(
    assembly: &Assembly,
    workshop: &Workshop,
    notation: Notation,
) -> (Option<Order>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut best: Option<planned::Planned> = None;
    let mut failure = None;
    let mut work = planned::Work::default();
    for grouping in bodies::groupings(assembly) {
        if let Some(body) = grouping.bodies.iter().find(|b| b.items.len() > MOST_ITEMS) {
            findings.push(Finding::new(
                Severity::Stop,
                "too-many-parts",
                format!("body {}", body.id),
                format!("{} parts are too many for one body.", body.items.len()),
                format!("Group them into bodies of at most {MOST_ITEMS} parts."),
            ));
            return (None, findings);
        }
        if let Some(body) =
            grouping.bodies.iter().find(|b| scene::joints_in(assembly, b) > MOST_LINKS)
        {
            findings.push(Finding::new(
                Severity::Stop,
                "too-many-joints",
                format!("body {}", body.id),
                format!("More than {MOST_LINKS} joints are too many for one body."),
                "Group its parts into bodies that are joined whole.",
            ));
            return (None, findings);
        }
        let under = best.as_ref().map(|b| b.cost);
        match planned::plan_grouping(assembly, workshop, &grouping, &mut work, under) {
            Ok(cheaper) => {
                if let Some(planned) = cheaper {
                    best = Some(planned);
                }
            }
            Err(why) => {
                failure.get_or_insert(why);
            }
        }
    }
    let Some(planned) = best else {
        if let Some(why) = failure {
            findings.push(why.finding(assembly));
        }
        return (None, findings);
    };
    let (steps, cost) = steps::write(assembly, workshop, notation, &planned, &mut findings);
    let optimal = !work.cut_short;
    let bound = if optimal { cost } else { Cost::default() };
    let proof = Proof { optimal, states: work.states, bound };
    let grouping = &planned.grouping;
    let named = |(b, body): (usize, &bodies::Body)| PlanBody {
        id: body.id.clone(),
        name: words::body_name(assembly, grouping, b),
    };
    let bodies = grouping.bodies.iter().enumerate().map(named).collect();
    (Some(Order { steps, bodies, cost, proof }), findings)
}

#[cfg(test)]
mod tests;
