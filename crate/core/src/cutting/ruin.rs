//! Taking parts out of a plan, so that they may come back elsewhere.

use super::chance::Chance;
use super::problem::Problem;
use super::tree::{Plan, Use};

/// Takes nodes out at random, with all that is in them: so many on average, at least one.
pub(super) fn ruin(plan: &mut Plan, problem: &Problem, average: usize, chance: &mut Chance) {
    let count = 1 + chance.below(2 * average);
    let mut tries = 4 * count;
    let mut taken = 0;
    while taken < count && tries > 0 && !plan.roots.is_empty() {
        tries -= 1;
        let id = chance.below(plan.nodes.len()) as u32;
        let used = plan.nodes[id as usize].used;
        if matches!(used, Use::Part { .. } | Use::Cut(_)) {
            plan.take(problem, id);
            taken += 1;
        }
    }
}
