//! From the search's tree to the layout: real sizes, pieces in order, parts by name.

use super::job::{Job, Keep};
use super::layout::{Becomes, CutLine, CutNode, CutRect, CutSheet};
use super::measure::worth_keeping;
use super::problem::{Problem, Way};
use super::tree::{Plan, Use};

/// The sheets of a plan. Parts of a kind are handed out in the job's order.
pub(super) fn sheets(job: &Job, problem: &Problem, plan: &Plan) -> Vec<CutSheet> {
    let mut out = Describe { job, problem, plan, members: Vec::new() };
    out.members = problem.kinds.iter().map(|k| k.members.clone()).collect();
    let mut roots = plan.roots.clone();
    // Fullest first: the sheet with most left, from which the offcut comes, is the last.
    roots.sort_by_key(|r| (plan.nodes[*r as usize].sheet, left_on(plan, *r), *r));
    roots
        .into_iter()
        .map(|root| {
            let stock = problem.sheets[plan.nodes[root as usize].sheet as usize].stock;
            let trim = job.stock[stock].trim;
            CutSheet { stock, root: out.node(root, [trim.left, trim.front]) }
        })
        .collect()
}

struct Describe<'a> {
    job: &'a Job,
    problem: &'a Problem,
    plan: &'a Plan,
    /// Parts of each kind not handed out yet.
    members: Vec<Vec<(usize, u32)>>,
}

impl Describe<'_> {
    fn node(&mut self, id: u32, at: [i64; 2]) -> CutNode {
        let node = self.plan.nodes[id as usize];
        let kerf = self.problem.kerf;
        let rect =
            CutRect { x: at[0], y: at[1], length: node.size[0] - kerf, width: node.size[1] - kerf };
        let becomes = match node.used {
            Use::Part { kind, way } => {
                Becomes::Part { part: self.next_member(kind as usize), turned: way == Way::Turned }
            }
            Use::Cut(axis) => self.cut(id, axis, at),
            Use::Leftover | Use::Free => leftover(rect, self.job.keep),
        };
        CutNode { rect, becomes }
    }

    fn cut(&mut self, id: u32, axis: u8, at: [i64; 2]) -> Becomes {
        let axis = usize::from(axis);
        let mut children: Vec<u32> = self.plan.children(id).collect();
        // Widest first, equal ones together for one setting of the fence; the leftover last, in one piece.
        children.sort_by_key(|c| {
            let node = &self.plan.nodes[*c as usize];
            let kind = match node.used {
                Use::Part { kind, .. } => kind,
                _ => 0,
            };
            (node.used == Use::Leftover, -node.size[axis], kind, left_on(self.plan, *c), *c)
        });
        let mut cuts = Vec::new();
        let mut pieces = Vec::new();
        let mut from = at;
        for (n, child) in children.iter().enumerate() {
            let size = self.plan.nodes[*child as usize].size[axis];
            let last = n + 1 == children.len();
            // A leftover of a kerf or less is gone with the blade.
            if !(last && size <= self.problem.kerf) {
                pieces.push(self.node(*child, from));
            }
            from[axis] += size;
            if !last {
                cuts.push(from[axis] - self.problem.kerf - at[axis]);
            }
        }
        let along = if axis == 0 { CutLine::AlongWidth } else { CutLine::AlongLength };
        Becomes::Cut { along, cuts, pieces }
    }

    fn next_member(&mut self, kind: usize) -> usize {
        let members = &mut self.members[kind];
        let Some(first) = members.first_mut() else { return 0 };
        let part = first.0;
        first.1 -= 1;
        if first.1 == 0 {
            members.remove(0);
        }
        part
    }
}

fn leftover(rect: CutRect, keep: Keep) -> Becomes {
    if worth_keeping(rect.length, rect.width, keep) { Becomes::Offcut } else { Becomes::Waste }
}

fn left_on(plan: &Plan, id: u32) -> i64 {
    let node = &plan.nodes[id as usize];
    match node.used {
        Use::Cut(_) => plan.children(id).map(|c| left_on(plan, c)).sum(),
        Use::Leftover => node.worth,
        _ => 0,
    }
}
