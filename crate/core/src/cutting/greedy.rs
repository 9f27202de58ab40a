//! The plan shown at once: parts in several orders, each put where it costs the least.

use super::chance::Chance;
use super::place::{Filling, fill, fill_in_order};
use super::problem::{Cost, Kind, Problem};
use super::tree::Plan;

/// The best of some plans made without a search.
pub(super) fn start(problem: &Problem) -> Plan {
    let filling = Filling { blink: 0, wide: 0, below: Cost::MOST };
    // Without blinks nothing is thrown.
    let mut chance = Chance::new(0);
    let mut best = Plan::new(problem);
    fill(&mut best, problem, filling, &mut chance, &mut Vec::new());
    let sizes: [fn(&Kind) -> i64; 6] = [
        |k| k.area(),
        |k| k.size[0].max(k.size[1]),
        |k| k.size[0].min(k.size[1]),
        |k| k.size[0],
        |k| k.size[1],
        |k| k.size[0] + k.size[1],
    ];
    for size in sizes {
        let mut order: Vec<usize> = (0..problem.kinds.len()).collect();
        order.sort_by_key(|k| {
            let kind = &problem.kinds[*k];
            (-size(kind), -kind.area(), *k)
        });
        let mut plan = Plan::new(problem);
        fill_in_order(&mut plan, problem, &order, filling, &mut chance);
        if rank(&plan) < rank(&best) {
            best = plan;
        }
    }
    best
}

/// Less is better.
fn rank(plan: &Plan) -> (i64, Cost, i64) {
    (plan.missing_weight, plan.cost, -plan.worth)
}
