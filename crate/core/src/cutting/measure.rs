//! What decides between layouts that cost the same.

use std::collections::BTreeSet;

use super::job::Keep;
use super::problem::Problem;
use super::tree::{Node, Plan, Use};

/// The bigger offcut first, then fewer fence settings, then fewer cuts. Ordered: less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Measure {
    /// Area of the biggest offcut, less than nothing.
    pub less_offcut: i64,
    pub settings: usize,
    pub cuts: usize,
}

/// Of all sheets of a plan. `seen` is room to work in.
pub(super) fn measure(problem: &Problem, plan: &Plan, seen: &mut BTreeSet<(u8, i64)>) -> Measure {
    let offcuts = plan.leftovers.iter().map(|id| offcut(problem, &plan.nodes[*id as usize]));
    let offcut = offcuts.max().unwrap_or(0);
    seen.clear();
    let mut cuts = 0;
    for root in &plan.roots {
        cuts += walk(plan, *root, seen);
    }
    Measure { less_offcut: -offcut, settings: seen.len(), cuts }
}

/// Area of a leftover that is worth keeping, else nothing.
fn offcut(problem: &Problem, node: &Node) -> i64 {
    let [length, width] = node.size.map(|side| side - problem.kerf);
    if worth_keeping(length, width, problem.keep) { length * width } else { 0 }
}

/// Whether a leftover of that size is worth keeping.
pub(super) fn worth_keeping(length: i64, width: i64, keep: Keep) -> bool {
    let (long, short) = (length.max(width), length.min(width));
    short > 0 && long >= keep.long && short >= keep.short
}

/// Counts the cuts below a node and notes what the fence must be set to: the width of every piece but the last, which
/// is what is left, or the narrowest.
fn walk(plan: &Plan, id: u32, seen: &mut BTreeSet<(u8, i64)>) -> usize {
    let Use::Cut(axis) = plan.nodes[id as usize].used else { return 0 };
    let along = usize::from(axis);
    let width = |c: u32| plan.nodes[c as usize].size[along];
    let is_left = |c: u32| plan.nodes[c as usize].used == Use::Leftover;
    let last = plan.children(id).min_by_key(|c| (!is_left(*c), width(*c), *c));
    let mut cuts = 0;
    for child in plan.children(id) {
        if Some(child) != last {
            cuts += 1;
            seen.insert((axis, width(child)));
        }
        cuts += walk(plan, child, seen);
    }
    cuts
}
