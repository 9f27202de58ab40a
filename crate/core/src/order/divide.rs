//! Divides the finished piece into bodies when it has more items or joints than one search takes.
//!
//! Each body hangs together and is ordered by itself; then it joins whole, like a body that the
//! assembly names. Where to cut is told by the joints alone. Whether the bodies go together is for the
//! search: several ways are offered, and the first with an order counts.

use std::cmp::Reverse;

use crate::assembly::{Assembly, Joint, JointKind, MAIN};
use crate::plan::{Cost, Workshop};
use crate::wishes::Wishes;

use super::holding;
use super::sets;

/// Most parts of a body that is found by how densely its parts are joined: small enough to be searched
/// well.
const MOST_IN_ONE: usize = 24;

/// Ways to divide the finished piece, the gentlest first:
///
/// 1. what only slides on the rest, each thing by itself;
/// 2. besides, each part with all that is fastened to it and to nothing else;
/// 3. groups of parts with many joints among them and few to others.
pub fn ways(assembly: &Assembly) -> Vec<Assembly> {
    let near = near(assembly);
    let sliding = sliding(assembly, &near);
    let mut holding = sliding.clone();
    holding.extend(holders(assembly, &near, &sliding));
    let mut ways = vec![sliding, holding, dense(assembly, &near)];
    ways.dedup();
    ways.retain(|bodies| !bodies.is_empty());
    ways.iter().map(|bodies| divided(assembly, bodies)).collect()
}

/// What every order costs at least, however the piece is divided: each part goes in once, each screw
/// is driven, each joint that only glue holds is clamped, and what one person cannot place takes two.
pub fn least(assembly: &Assembly, workshop: &Workshop, wishes: &Wishes) -> Cost {
    let is_done = |p: usize| {
        wishes.done.as_ref().is_some_and(|done| done.parts.contains(&assembly.parts[p].id))
    };
    let out: Vec<usize> = (0..assembly.parts.len()).filter(|&p| !is_done(p)).collect();
    let unwieldy = out.iter().filter(|&&p| {
        let part = &assembly.parts[p];
        holding::takes_two(part.mass_g, &part.solid.bounds())
    });
    // The very first part is only laid out.
    let minutes = (2 * out.len()).saturating_sub(1) as u32;
    let helper_steps = unwieldy.count() as u32;
    let mut least = Cost { helper_steps, minutes, ..Cost::default() };
    let open = |j: &&Joint| j.kind != JointKind::Touch && !j.parts.iter().all(|&p| is_done(p));
    let mut cures = false;
    for joint in assembly.joints.iter().filter(open) {
        least.minutes += joint.fasteners.len() as u32;
        if joint.cures() {
            least.tool_changes += 1;
            least.minutes += 2;
            cures = true;
        }
    }
    if cures {
        least.minutes += workshop.glue.clamp;
    }
    least
}

/// For each part the parts of [`MAIN`] that it is joined to, once for each joint; sliding is not meant.
fn near(assembly: &Assembly) -> Vec<Vec<usize>> {
    let mut near = vec![Vec::new(); assembly.parts.len()];
    let main = |p: usize| assembly.parts[p].group == MAIN;
    for joint in &assembly.joints {
        let [a, b] = joint.parts;
        let joined = !matches!(joint.kind, JointKind::Touch | JointKind::Slide);
        if joined && main(a) && main(b) {
            near[a].push(b);
            near[b].push(a);
        }
    }
    near
}

/// The parts of [`MAIN`].
fn main_parts(assembly: &Assembly) -> impl Iterator<Item = usize> {
    (0..assembly.parts.len()).filter(|&p| assembly.parts[p].group == MAIN)
}

/// What hangs together without sliding, all but the largest of them, and single parts.
fn sliding(assembly: &Assembly, near: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut seen = vec![false; near.len()];
    let mut lumps: Vec<Vec<usize>> = Vec::new();
    for first in main_parts(assembly) {
        let mut lump = Vec::new();
        let mut open = vec![first];
        while let Some(part) = open.pop() {
            if !std::mem::replace(&mut seen[part], true) {
                lump.push(part);
                open.extend(&near[part]);
            }
        }
        lump.sort_unstable();
        lumps.push(lump);
    }
    let largest = (0..lumps.len()).max_by_key(|&n| (lumps[n].len(), Reverse(n)));
    let others = lumps.into_iter().enumerate().filter(|(n, _)| Some(*n) != largest);
    others.map(|(_, lump)| lump).filter(|lump| lump.len() > 1).collect()
}

/// Each part with all that is fastened to it and to nothing else, of the parts that are in no body.
fn holders(assembly: &Assembly, near: &[Vec<usize>], taken: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let partners: Vec<Vec<usize>> = near.iter().cloned().map(sets::each_once).collect();
    let waits = |p: usize| !assembly.parts[p].set_against.is_empty();
    let carried = sets::carried(&partners, waits);
    let bodies = carried.into_iter().enumerate().filter(|(_, own)| !own.is_empty());
    let bodies = bodies.map(|(holder, mut own)| {
        own.push(holder);
        own.sort_unstable();
        own
    });
    bodies.filter(|body| !taken.iter().any(|t| t.contains(&body[0]))).collect()
}

/// Groups of parts with more joints among them than chance would give: pairs are merged as long as that
/// gains, the best first. The gain is that of modularity: A. Clauset, M. E. J. Newman and C. Moore,
/// "Finding community structure in very large networks", Physical Review E 70 (2004).
fn dense(assembly: &Assembly, near: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = main_parts(assembly).map(|p| vec![p]).collect();
    let ends: usize = near.iter().map(Vec::len).sum();
    let degree = |group: &[usize]| group.iter().map(|&p| near[p].len()).sum::<usize>();
    let between = |a: &[usize], b: &[usize]| {
        a.iter().flat_map(|&p| &near[p]).filter(|q| b.contains(q)).count()
    };
    loop {
        let mut best: Option<(usize, [usize; 2])> = None;
        for i in 0..groups.len() {
            for j in i + 1..groups.len() {
                let [a, b] = [&groups[i], &groups[j]];
                if a.len() + b.len() > MOST_IN_ONE {
                    continue;
                }
                let gain = (ends * between(a, b)).saturating_sub(degree(a) * degree(b));
                if gain > best.map_or(0, |(most, _)| most) {
                    best = Some((gain, [i, j]));
                }
            }
        }
        let Some((_, [i, j])) = best else { break };
        let other = groups.remove(j);
        groups[i].extend(other);
        groups[i].sort_unstable();
    }
    // All in one is no division.
    groups.retain(|g| g.len() > 1 && g.len() < main_parts(assembly).count());
    groups
}

/// The assembly with some of its parts in bodies of their own, each named after its heaviest part.
fn divided(assembly: &Assembly, bodies: &[Vec<usize>]) -> Assembly {
    let mut divided = assembly.clone();
    for body in bodies {
        let heaviest = body.iter().max_by_key(|&&p| (assembly.parts[p].mass_g, Reverse(p)));
        let Some(heaviest) = heaviest.map(|&p| &assembly.parts[p]) else { continue };
        let own = format!("{}-built", heaviest.id);
        let taken = |id: &String| divided.parts.iter().any(|p| p.id == *id || p.group == *id);
        let mut names = std::iter::once(own.clone()).chain((2..).map(|n| format!("{own}-{n}")));
        let id = names.find(|id| !taken(id)).unwrap_or(own);
        for &p in body {
            divided.parts[p].group.clone_from(&id);
        }
        divided.bodies.push((id, format!("{} with {} more", heaviest.name, body.len() - 1)));
    }
    divided
}
