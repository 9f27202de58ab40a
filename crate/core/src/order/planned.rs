//! Orders every body of a grouping, and says what stands in the way when one cannot be.

use std::collections::BTreeMap;

use crate::assembly::{Assembly, MAIN};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::plan::{Cost, Workshop};

use super::BUDGET;
use super::bodies::Grouping;
use super::scene::{Scene, members};
use super::search::{self, Found, Limit, Path, State};

/// The cheapest order of each body of a grouping.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// The bodies.
    pub grouping: Grouping,
    /// A path for each.
    pub paths: Vec<Path>,
    /// All of them together.
    pub cost: Cost,
}

/// What has been searched so far, over all groupings.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// Searches already made, by the body's name and the parts of each of its items: the same body
    /// stands in several groupings.
    known: BTreeMap<(String, Vec<Vec<usize>>), Found>,
    /// States expanded.
    pub states: u64,
    /// Whether some search ran out of its budget.
    pub cut_short: bool,
}

/// Why a body has no order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoOrder {
    /// The body.
    pub body: String,
    /// Names of the parts that never got in.
    pub left_out: Vec<String>,
    /// What is in the way of each, in words.
    pub reasons: Vec<String>,
    /// States expanded.
    pub states: u64,
    /// Whether every state was looked at.
    pub complete: bool,
}

impl NoOrder {
    /// As something to tell the maker.
    pub fn finding(&self, assembly: &Assembly) -> Finding {
        let name = assembly.body_name(&self.body);
        let reasons = self.reasons.join(" ");
        let (code, message) = if self.complete {
            ("no-order", format!("No order builds the {name}: {reasons}"))
        } else {
            (
                "no-order-found",
                format!("No order for the {name} was found in {} states. {reasons}", self.states),
            )
        };
        Finding::new(
            Severity::Stop,
            code,
            format!("body {}", self.body),
            message,
            "Take a shorter drill, move the screws named, or leave a part for later.",
        )
    }
}

/// Orders every body of a grouping; nothing when that costs no less than `under`.
///
/// # Errors
/// When some body has no order; says which part, and what stands in its way.
pub fn plan_grouping(
    assembly: &Assembly,
    workshop: &Workshop,
    grouping: &Grouping,
    work: &mut Work,
    under: Option<Cost>,
) -> Result<Option<Planned>, NoOrder> {
    let mut planned = Planned {
        grouping: grouping.clone(),
        paths: Vec::new(),
        // A body made ready is laid aside and taken up again.
        cost: Cost { minutes: 2 * (grouping.bodies.len() as u32 - 1), ..Cost::default() },
    };
    for body in &grouping.bodies {
        let scene = Scene::new(assembly, workshop, &body.items);
        let key = (body.id.clone(), body.items.iter().map(|i| i.parts.clone()).collect());
        let found = match work.known.get(&key) {
            Some(found) => found.clone(),
            None => {
                let end = (body.id == MAIN).then_some(assembly.stands_on);
                let limit = Limit { budget: BUDGET, under: under.map(|most| (planned.cost, most)) };
                let found = search::search(&scene, end, limit);
                work.states += found.states;
                work.cut_short |= !found.complete;
                if found.dearer {
                    return Ok(None);
                }
                work.known.insert(key, found.clone());
                found
            }
        };
        let Some(path) = found.path else {
            return Err(explain(&scene, &body.id, &found));
        };
        planned.cost = search::add(planned.cost, path.cost);
        planned.paths.push(path);
    }
    Ok(under.is_none_or(|most| planned.cost < most).then_some(planned))
}

/// What keeps the parts that are still out from going in.
fn explain(scene: &Scene, body: &str, found: &Found) -> NoOrder {
    let at = &found.furthest;
    let out = scene.full() & !at.set;
    let name = |i: usize| {
        let parts: Vec<String> =
            scene.items[i].parts.iter().map(|&p| scene.assembly.parts[p].name.clone()).collect();
        parts.join(", ")
    };
    let mut reasons = Vec::new();
    for item in members(out) {
        reasons.push(format!("the {} does not go in: {}.", name(item), obstacle(scene, item, at)));
    }
    for l in members(scene.links_in(at.set) & !at.closed) {
        let joint = &scene.assembly.joints[scene.links[l].joint];
        reasons.push(format!(
            "the drill does not reach the screws of {} and {}.",
            scene.assembly.parts[joint.parts[0]].name, scene.assembly.parts[joint.parts[1]].name
        ));
    }
    if out == 0 && reasons.is_empty() {
        reasons.push("it does not come to stand on its feet.".to_owned());
    }
    NoOrder {
        body: body.to_owned(),
        left_out: members(out).map(name).collect(),
        reasons,
        states: found.states,
        complete: found.complete,
    }
}

fn obstacle(scene: &Scene, item: usize, at: &State) -> String {
    let names = |set: u64| {
        let all: Vec<String> = members(set)
            .flat_map(|i| &scene.items[i].parts)
            .map(|&p| scene.assembly.parts[p].name.clone())
            .collect();
        all.join(", ")
    };
    let missing = scene.after[item] & !at.set;
    if missing != 0 {
        return format!("it waits for the {}", names(missing));
    }
    if scene.links_of(item, at.set) == 0 {
        return "nothing that is in joins it".to_owned();
    }
    let mut ways: Vec<(u32, Direction)> = Direction::ALL
        .into_iter()
        .map(|d| (scene.blocking.entering(item, d, at.set).count_ones(), d))
        .collect();
    ways.sort_unstable();
    if let Some(&(count, d)) = ways.first()
        && count > 0
    {
        let blockers = scene.blocking.entering(item, d, at.set);
        return format!(
            "every way is blocked; moving {} it meets the {}",
            d.code(),
            names(blockers)
        );
    }
    for l in members(scene.links_of(item, at.set)) {
        let blockers =
            scene.links[l].rooms.iter().fold(0, |m, r| m | r.blockers) & (at.set | 1 << item);
        if blockers != 0 {
            return format!("the drill has no room: in its way is the {}", names(blockers));
        }
    }
    "its screws are out of reach on every face it could lie on".to_owned()
}
