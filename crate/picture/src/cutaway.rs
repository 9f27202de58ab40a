//! Which parts stand before what a step is about, and are drawn as if of glass.
//!
//! The eye is chosen so that it sees as much as can be (`scene/home.rs`). What it still does not see
//! from there is shown through what hides it, so that each step shows its new part, its joints and
//! every screw without the maker turning anything.

use jointwise::plan::Step;

use crate::camera::Camera;
use crate::scene::{Glass, Item, Model, Moment, Role};
use crate::sight::{Seen, Sight, Target};

/// CSS pixels of the picture on a screen of 1024 × 768, on which all is judged.
pub const FRAME: (f32, f32) = (680.0, 640.0);
/// Pixels of a new part that must be seen, or half of one that has not twice as many.
pub const PART: usize = 150;
/// Pixels of a screw's head and the ring round it.
pub const SCREW: usize = 6;
/// Pixels along a joint that no screw of the step marks.
pub const JOINT: usize = 12;
/// More parts than this are not opened: then nothing would be left to see.
const MOST: usize = 8;

/// What a step must show: new parts, each by itself unless they come as one body; every screw that
/// it drives; and the joints that it closes without a screw. A body that comes in as one may meet a
/// part in several places: one of them is enough.
pub fn targets(model: &Model, step: usize) -> Vec<Target> {
    let (Some(station), Some(planned)) = (model.stations.get(step), model.plan.steps.get(step))
    else {
        return Vec::new();
    };
    let mut all = Vec::new();
    if planned.joins.is_some() {
        all.push(Target::Parts(station.movers.clone()));
    } else {
        all.extend(station.movers.iter().map(|&part| Target::Parts(vec![part])));
    }
    all.extend((0..station.driving.len()).map(Target::Screw));
    all.extend(joints(model, planned, &station.movers));
    all
}

fn joints(model: &Model, planned: &Step, movers: &[usize]) -> Vec<Target> {
    let part_at = model.part_index();
    let mut met: Vec<(usize, Vec<[usize; 2]>)> = Vec::new();
    for joint in &model.plan.joints {
        let driven = joint.fasteners.iter().any(|f| planned.fasteners.contains(&f.id));
        let [Some(&a), Some(&b)] = joint.parts.each_ref().map(|id| part_at.get(id.as_str())) else {
            continue;
        };
        if driven || !planned.joints.contains(&joint.id) {
            continue;
        }
        let there = if movers.contains(&a) { b } else { a };
        let shares = planned.joins.is_some();
        match met.iter_mut().find(|(part, _)| shares && *part == there) {
            Some((_, pairs)) => pairs.push([a, b]),
            None => met.push((there, vec![[a, b]])),
        }
    }
    met.into_iter().map(|(_, pairs)| Target::Joint(pairs)).collect()
}

/// Whether as much of something is seen as must be.
pub fn enough(target: &Target, seen: &Seen) -> bool {
    seen.clear
        >= match target {
            Target::Parts(_) => PART.min(seen.all.div_ceil(2)),
            Target::Screw(_) => SCREW,
            Target::Joint(_) => JOINT,
        }
}

/// The eye in a step's own view, in a frame of [`FRAME`].
pub fn judge(model: &Model, step: usize) -> Camera {
    let mut camera = Camera::new();
    camera.resize(FRAME.0, FRAME.1);
    camera.frame(model.view(step), model.frame(step));
    camera.arrive(1.0);
    camera
}

/// What to draw as if of glass in a step: as few parts as a greedy choice finds.
pub fn cutaway(model: &Model, step: usize) -> Glass {
    let mut glass = Glass::default();
    let Some(rest) = Moment::at(model, step, 1.0, false) else {
        return glass;
    };
    let (targets, camera) = (targets(model, step), judge(model, step));
    let short = |glass: &Glass| -> Vec<Seen> {
        let moment = rest.clone().opened(glass);
        let sight = Sight::of(model, step, &moment, &camera);
        let looks = targets.iter().map(|target| (target, sight.look(target)));
        looks.filter(|(target, seen)| !enough(target, seen)).map(|(_, seen)| seen).collect()
    };
    let mut lacks = short(&glass);
    while !lacks.is_empty() && glass.parts.len() < MOST {
        if let Some(next) = lacks.iter().find_map(|seen| first(&rest.items, seen)) {
            glass.parts.push(next);
        } else if glass.aids {
            break;
        } else {
            glass.aids = true;
        }
        lacks = short(&glass);
    }
    // A later one may have made an earlier one needless.
    for i in (0..glass.parts.len().saturating_sub(1)).rev() {
        let mut fewer = glass.clone();
        fewer.parts.remove(i);
        if short(&fewer).len() <= lacks.len() {
            glass = fewer;
        }
    }
    glass
}

/// What hides most; of parts that are in already before those that come in.
fn first(items: &[Item], seen: &Seen) -> Option<usize> {
    let moves = |part: usize| items.iter().any(|i| i.index == part && i.role == Role::Moving);
    let rank = |&&(part, hidden): &&(usize, usize)| (!moves(part), hidden);
    seen.hidden_by.iter().max_by_key(rank).map(|(part, _)| *part)
}
