//! The order: which part next, on which face, held by what, proved by geometry.
//!
//! Nothing here knows what is built. The search sees solids, joints, screws, a bench, a drill and
//! hands, and finds the cheapest order in which every part goes in along a clear path, every
//! screw is reached by the drill above the bench, and nothing falls.
//!
//! One module a question: [`bodies`] groups the parts into bodies built one after another, `alike` says
//! which of them are searched once, [`sets`] what might be made ready beforehand, and [`divide`] what is
//! too large for one body; [`scene`] is a body with all that is worked out beforehand, [`links`] its
//! joints, `bearing` its weight and where it stands, `lumps` what of it is one; [`blocking`] says what is
//! in whose way; [`access`] where a tool has room, [`clamps`] where a clamp has; [`stability`] what stands;
//! [`holding`] what must be held and by what; [`locate`] what sets each distance and which loose part
//! serves as spacer; [`placing`] whether an item can join, and what that costs;
//! `moves` what can be done next; [`search`] finds the order of a body, with `reached` the states it knows,
//! [`least`] and [`easiest`] what is still to come, and `dive` when its budget is spent; [`planned`] orders all
//! bodies; [`obstacle`] says why there is none, in `obstacle_words`, [`cures`] with which change there would
//! be; [`steps`] writes an order down with its certificate, [`checks`] adds what to measure, [`words`] says
//! it. [`crate::wishes`] is what the maker has decided already.
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
mod alike;
mod bearing;
pub mod blocking;
pub mod bodies;
pub mod checks;
pub mod clamps;
pub mod cures;
mod dive;
pub mod divide;
mod driving;
pub mod easiest;
pub mod holding;
mod instead;
mod joining;
pub mod least;
pub mod links;
pub mod locate;
mod lumps;
mod moves;
pub mod obstacle;
mod obstacle_words;
pub mod placing;
pub mod planned;
mod reached;
pub mod scene;
pub mod search;
pub mod sets;
pub mod spacer;
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
use crate::plan::{Cost, PlanBody, Proof, Spacer, Step, Workshop};
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
    /// The assembly with the bodies it was divided into, when it was too large for one search.
    pub divided: Option<Assembly>,
    /// Spacers that nobody has yet, for distances that are measured.
    pub wanted: Vec<Wanted>,
}

/// A step that measures what a strip would set, sawn from what is left of the sheets. The order was found without it and
/// counts the distance as measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// Number of the step.
    pub step: u32,
    /// The strip in its place, without a name: one for each thickness it could be of, the commonest first.
    pub spacers: Vec<Spacer>,
}

/// Finds the best order for an assembly in a workshop, as the maker wishes. What is too large for one
/// search is divided into bodies first.
pub fn plan_order(
    assembly: &Assembly,
    workshop: &Workshop,
    wishes: &Wishes,
    notation: Notation,
) -> (Option<Order>, Vec<Finding>) {
    let asked = cures::Asked { assembly, workshop, wishes, notation };
    let findings = half_done(assembly, wishes);
    if !findings.is_empty() {
        return (None, findings);
    }
    let large = too_large(assembly);
    if !large.is_empty() {
        return match in_bodies(asked) {
            Ok((order, findings)) => (Some(order), findings),
            Err(half) if !half.is_empty() => (None, half),
            Err(_) => (None, large),
        };
    }
    match planned::plan(assembly, workshop, wishes, u64::MAX) {
        Ok(planned) => {
            let (order, findings) = written(asked, &planned);
            (Some(order), findings)
        }
        Err(why) => (None, vec![cures::finding(asked, &why)]),
    }
}

/// The order of what is too large for one search: the first way to divide it counts that has one.
///
/// # Errors
/// When none has; says of which bodies not all is done that would have to be, if that is why.
fn in_bodies(asked: cures::Asked) -> Result<(Order, Vec<Finding>), Vec<Finding>> {
    let cures::Asked { assembly, workshop, wishes, .. } = asked;
    let mut half = Vec::new();
    for divided in divide::ways(assembly) {
        if !too_large(&divided).is_empty() {
            continue;
        }
        let begun = half_done(&divided, wishes);
        if !begun.is_empty() {
            half = begun;
            continue;
        }
        let Ok(mut planned) = planned::plan(&divided, workshop, wishes, u64::MAX) else { continue };
        // Other ways to divide it might be cheaper: nothing is proved but what holds for all.
        planned.complete = false;
        planned.bound = divide::least(assembly, workshop, wishes);
        let (mut order, mut findings) =
            written(cures::Asked { assembly: &divided, ..asked }, &planned);
        findings.push(is_divided(assembly, divided.bodies.len() - assembly.bodies.len()));
        order.divided = Some(divided);
        return Ok((order, findings));
    }
    Err(half)
}

/// A planned order as steps.
fn written(asked: cures::Asked, planned: &planned::Planned) -> (Order, Vec<Finding>) {
    let cures::Asked { assembly, workshop, notation, .. } = asked;
    let mut findings = Vec::new();
    let (steps, cost, wanted) = steps::write(assembly, workshop, notation, planned, &mut findings);
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
    let searched = planned.cost;
    (Order { steps, bodies, cost, searched, proof, divided: None, wanted }, findings)
}

/// A note: bodies were chosen for the maker.
fn is_divided(assembly: &Assembly, bodies: usize) -> Finding {
    let name = assembly.body_name(MAIN);
    Finding::new(
        Severity::Note,
        "divided",
        format!("body {MAIN}"),
        format!(
            "The {name} has too many parts to be ordered in one: {bodies} bodies of it are built on \
             their own. A cheaper order with other bodies is not ruled out."
        ),
        "To choose the bodies yourself, say for each part which body it belongs to.",
    )
    .number("bodies", bodies.to_string())
}

/// A caution: the finished piece does not stand by itself.
fn topples() -> Finding {
    Finding::new(
        Severity::Caution,
        "does-not-stand",
        "piece",
        "The finished piece does not stand by itself when it is tilted by 5°.",
        "Hold it until it is fixed to the wall or to its neighbours.",
    )
}

/// Bodies with more items or joints than the search takes up.
fn too_large(assembly: &Assembly) -> Vec<Finding> {
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
        if links::joints_in(assembly, &body) > MOST_LINKS {
            findings.push(Finding::new(
                Severity::Stop,
                "too-many-joints",
                format!("body {}", body.id),
                format!("More than {MOST_LINKS} joints are too many for one body."),
                "Group its parts into bodies that are joined whole.",
            ));
        }
    }
    findings
}

/// Bodies of which some parts are given as done and others are not.
fn half_done(assembly: &Assembly, wishes: &Wishes) -> Vec<Finding> {
    let mut findings = Vec::new();
    let Some(done) = &wishes.done else { return findings };
    for body in bodies::named(assembly).bodies.iter().filter(|b| b.id != MAIN) {
        let parts: Vec<usize> = body.items.iter().flat_map(|i| i.parts.iter().copied()).collect();
        let is_done = |p: &&usize| done.parts.contains(&assembly.parts[**p].id);
        let count = parts.iter().filter(is_done).count();
        if count > 0 && count < parts.len() {
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
