//! What a step has on the bench, and how it moves.

use std::collections::BTreeMap;

use jointwise::export::clamp::{self, Since};
use jointwise::geometry::Direction;
use jointwise::plan::ROOM;
use jointwise::plan::{Action, Stage, Step};
use three_d::{InnerSpace, Quat, Vec3, vec3};

use super::bearers;
use super::model::{Model, slab};
use crate::edges::millimetres;
use crate::pick::Slab;
use crate::pose::{Pose, turn_onto, unit};

/// How the piece or its new parts move in a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Motion {
    /// Nothing but screws.
    None,
    /// The new parts start away from their place by this much, in millimetres of the standing pose.
    Parts(Vec3),
    /// The whole body turns from the first pose to the second.
    Turn(Quat, Quat),
    /// The whole body leaves by this much.
    Away(Vec3),
    /// The whole body comes back from there.
    Back(Vec3),
}

/// A clamp in its place, as boxes. Millimetres of the standing pose.
#[derive(Debug, Clone)]
pub struct Clamp {
    /// Jaws, screw, bar and arms.
    pub slabs: Vec<Slab>,
    /// Whether it goes on now, was on before, or comes off.
    pub since: Since,
}

impl Clamp {
    /// The middle of the least box around it.
    pub fn centre(&self) -> Option<Vec3> {
        self.slabs.iter().copied().reduce(|a, b| a.union(&b)).map(|all| all.centre())
    }
}

/// One step as the picture needs it. Parts and screws by their places in the [`Model`].
#[derive(Debug, Clone)]
pub struct Station {
    /// Parts of the body before the step.
    pub present: Vec<usize>,
    /// Parts that come in now.
    pub movers: Vec<usize>,
    /// Parts of the body that the step is about.
    pub focus: Vec<usize>,
    /// Screws driven before, in the body.
    pub driven: Vec<usize>,
    /// Screws that come in with another body.
    pub carried: Vec<usize>,
    /// Screws driven now, in their order.
    pub driving: Vec<usize>,
    /// How the piece lies, at the end of the step.
    pub pose: Pose,
    /// What moves.
    pub motion: Motion,
    /// Middle of the finished body, which lies over the origin.
    pub centre: Vec3,
    /// The loose part that sets a distance.
    pub spacer: Option<Slab>,
    /// Clamps that are seen.
    pub clamps: Vec<Clamp>,
    /// Points measured from or to, standing pose.
    pub measured: Vec<Vec3>,
    /// Whether the piece lies on the bench rather than stands in the room.
    pub on_bench: bool,
}

#[derive(Debug, Clone, Default)]
struct Body {
    parts: Vec<usize>,
    screws: Vec<usize>,
    face: Option<Direction>,
}

/// Follows the plan step by step.
pub fn stations(model: &Model) -> Vec<Station> {
    let whole = members(model);
    let part_at = model.part_index();
    let screw_at = model.screw_index();
    let parts_of = |ids: &[String]| -> Vec<usize> {
        ids.iter().filter_map(|id| part_at.get(id.as_str()).copied()).collect()
    };
    let mut bodies: BTreeMap<&str, Body> = BTreeMap::new();
    let mut all = Vec::with_capacity(model.plan.steps.len());
    for (place, step) in model.plan.steps.iter().enumerate() {
        let joined = step
            .joins
            .as_deref()
            .filter(|name| *name != step.body)
            .and_then(|name| bodies.get(name).cloned())
            .unwrap_or_default();
        let body = bodies.entry(step.body.as_str()).or_default();
        let mut movers = parts_of(&step.parts);
        movers.extend(&joined.parts);
        movers.retain(|m| !body.parts.contains(m));
        let stays = !movers.is_empty();
        let mut travel_by = step.direction;
        if movers.is_empty() && step.action == Action::DryFit {
            // Tried before it joins: show what comes in, though the body does not hold it yet.
            let later = tried(model, place, step, &body.parts);
            movers = parts_of(&later);
            travel_by = travel_by.or_else(|| coming_in(model, &later));
        }
        let driving: Vec<usize> =
            step.fasteners.iter().filter_map(|id| screw_at.get(id.as_str()).copied()).collect();
        let focus = parts_of(&concerned(model, step))
            .into_iter()
            // The room is always there: it is what is fixed in it that counts.
            .filter(|p| body.parts.contains(p) && model.plan.parts[*p].material != ROOM)
            .collect();
        let middle = whole
            .get(step.body.as_str())
            .and_then(|parts| model.bounds(parts))
            .map_or(vec3(0., 0., 0.), |b| b.centre());
        let mut resting = model.corners(&body.parts);
        if stays {
            resting.extend(model.corners(&movers));
        }
        let turn = turn_onto(step.bench_face);
        let on_bench = step.stage == Stage::Bench;
        let lift = if on_bench { bearers::height(model) } else { 0.0 };
        let pose = Pose::on_bench(turn, middle, &resting, lift);
        let motion = motion(model, step, body, &movers, travel_by, &pose);
        all.push(Station {
            present: body.parts.clone(),
            movers: movers.clone(),
            focus,
            driven: body.screws.clone(),
            carried: joined.screws.clone(),
            driving: driving.clone(),
            pose,
            motion,
            centre: middle,
            spacer: step.spacer.as_ref().filter(|s| s.at.is_valid()).map(|s| slab(&s.at)),
            clamps: clamps(&model.plan.steps, place),
            measured: step
                .checks
                .iter()
                .flat_map(|c| c.between.iter().flatten())
                .map(|p| Vec3::from(p.map(millimetres)))
                .collect(),
            on_bench,
        });
        body.face = Some(step.bench_face);
        if stays {
            body.parts.extend(movers);
        }
        body.screws.extend(joined.screws);
        body.screws.extend(driving);
    }
    all
}

/// The clamps seen in the step at a place.
fn clamps(steps: &[Step], place: usize) -> Vec<Clamp> {
    let seen = clamp::seen(steps, place).into_iter();
    seen.map(|(c, since)| Clamp { slabs: clamp::solids(c).iter().map(slab).collect(), since })
        .collect()
}

/// All parts each body ever holds, bodies that join it included.
fn members(model: &Model) -> BTreeMap<&str, Vec<usize>> {
    let part_at = model.part_index();
    let mut whole: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for step in &model.plan.steps {
        let joined = step.joins.as_deref().and_then(|j| whole.get(j).cloned()).unwrap_or_default();
        let body = whole.entry(step.body.as_str()).or_default();
        body.extend(step.parts.iter().filter_map(|id| part_at.get(id.as_str())));
        body.extend(joined);
    }
    whole
}

/// Ids of the parts whose joints the step closes or drives.
fn concerned(model: &Model, step: &Step) -> Vec<String> {
    let mut ids: Vec<String> = model
        .plan
        .joints
        .iter()
        .filter(|j| {
            step.joints.contains(&j.id)
                || j.fasteners.iter().any(|f| step.fasteners.contains(&f.id))
        })
        .flat_map(|j| j.parts.iter().cloned())
        .collect();
    ids.sort_unstable();
    ids.dedup();
    ids
}

/// Ids of parts that the step's joints name and no earlier step brought in; when it names none,
/// those that come to the body next.
fn tried(model: &Model, place: usize, step: &Step, held: &[usize]) -> Vec<String> {
    let mut ids = concerned(model, step);
    ids.extend(step.hold.iter().map(|h| h.what.clone()));
    ids.sort_unstable();
    ids.dedup();
    let part_at = model.part_index();
    ids.retain(|id| part_at.get(id.as_str()).is_some_and(|p| !held.contains(p)));
    if ids.is_empty() {
        let later = model.plan.steps.iter().skip(place + 1).find(|s| s.body == step.body);
        ids = later.map(|s| s.parts.clone()).unwrap_or_default();
    }
    ids
}

/// The whole piece, standing, with every screw in.
pub fn finished(model: &Model) -> Station {
    let parts: Vec<usize> = (0..model.parts.len()).collect();
    let centre = model.bounds(&parts).map_or(vec3(0., 0., 0.), |b| b.centre());
    let turn = turn_onto(Direction::Down);
    Station {
        pose: Pose::on_bench(turn, centre, &model.corners(&parts), 0.0),
        present: parts.clone(),
        movers: Vec::new(),
        focus: parts,
        driven: (0..model.screws.len()).collect(),
        carried: Vec::new(),
        driving: Vec::new(),
        motion: Motion::None,
        centre,
        spacer: None,
        clamps: Vec::new(),
        measured: Vec::new(),
        on_bench: false,
    }
}

/// The direction in which the given parts come in where they do.
fn coming_in(model: &Model, ids: &[String]) -> Option<Direction> {
    model
        .plan
        .steps
        .iter()
        .find(|s| s.parts.iter().any(|p| ids.contains(p)))
        .and_then(|s| s.direction)
}

fn motion(
    model: &Model,
    step: &Step,
    body: &Body,
    movers: &[usize],
    direction: Option<Direction>,
    pose: &Pose,
) -> Motion {
    let aside = || {
        let width = model.bounds(&body.parts).map_or(300.0, |b| (b.max - b.min).magnitude());
        pose.vector_back(vec3(width * 0.4, 0., 0.))
    };
    match step.action {
        Action::Turn => {
            let from = body.face.unwrap_or(step.bench_face);
            Motion::Turn(turn_onto(from), turn_onto(step.bench_face))
        }
        Action::SetAside => Motion::Away(aside()),
        Action::BringIn if movers.is_empty() => Motion::Back(aside()),
        _ if movers.is_empty() => Motion::None,
        // The room is there: nobody brings it in.
        Action::LayOut if step.stage == Stage::Install => Motion::None,
        _ => {
            let size = model.bounds(movers).map_or(vec3(0., 0., 0.), |b| b.max - b.min);
            let piece: Vec<usize> = body.parts.iter().chain(movers).copied().collect();
            let around = model.bounds(&piece).map_or(300.0, |b| (b.max - b.min).magnitude());
            // Far enough out to be seen apart, and clear of a groove it slides along.
            let least = (around * 0.22).clamp(80.0, 220.0);
            match direction {
                Some(d) => {
                    let along = unit(d);
                    let own = (0..3).map(|a| size[a] * along[a].abs()).sum::<f32>();
                    Motion::Parts(-along * least.max(own * 0.8).min(900.0))
                }
                // Laid down by hand: from above.
                None => Motion::Parts(pose.vector_back(vec3(0., 0., least))),
            }
        }
    }
}
