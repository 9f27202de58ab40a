//! Where everything is at one instant of a step's motion.

use jointwise::export::clamp::Since;
use jointwise::units::Length;
use three_d::{InnerSpace, Vec3, vec3};

use super::bearers;
use super::model::Model;
use super::section::Section;
use super::station::{Clamp, Motion, Station};
use crate::camera::Camera;
use crate::edges::millimetres;
use crate::pick::Slab;
use crate::pose::Pose;

/// Part of the motion in which parts travel; screws follow.
const PARTS_IN: f32 = 0.7;
/// When the first screw starts after parts.
const SCREWS_START: f32 = 0.6;
/// How high a body is lifted while it turns, in millimetres.
const TURN_LIFT: f32 = 60.0;
/// How far off a screw starts, beyond its own length, in millimetres.
const SCREW_AWAY: f32 = 45.0;

/// How a part is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Already in: pale.
    Context,
    /// What the step is about: full tone.
    Focus,
    /// The whole piece, while it moves as one: full tone.
    Whole,
    /// What moves now: full tone, thick edges.
    Moving,
}

/// A part and where it is.
#[derive(Debug, Clone, Copy)]
pub struct Item {
    /// Its place in [`Model::parts`] or [`Model::screws`].
    pub index: usize,
    /// Away from its own place, in millimetres of the standing pose.
    pub offset: Vec3,
    /// How it is drawn.
    pub role: Role,
    /// Whether as if of glass, so that what it hides is seen.
    pub open: bool,
}

/// A measurement in the picture.
#[derive(Debug, Clone)]
pub struct Measure {
    /// Its two ends, in the picture.
    pub ends: [Vec3; 2],
    /// The wanted value, printed.
    pub text: String,
}

/// One instant. Points are in the picture's millimetres unless said otherwise.
#[derive(Debug, Clone)]
pub struct Moment {
    /// How the piece lies.
    pub pose: Pose,
    /// Parts drawn.
    pub items: Vec<Item>,
    /// Parts drawn by their edges only: where they start.
    pub ghosts: Vec<Item>,
    /// Screws driven now that are to be seen.
    pub screws: Vec<Item>,
    /// Where the screws driven earlier are: away by this much (standing pose).
    pub driven_offset: Vec3,
    /// Where the screws that come in with another body are (standing pose).
    pub carried_offset: Vec3,
    /// Guide lines with an arrow at their end.
    pub guides: Vec<Vec<Vec3>>,
    /// Axes of the screws driven now: from where they start to where their tips end.
    pub axes: Vec<[Vec3; 2]>,
    /// Where the screws driven now go in, and the way they go.
    pub entries: Vec<[Vec3; 2]>,
    /// Radius of the largest of their heads.
    pub head: f32,
    /// What to measure.
    pub measures: Vec<Measure>,
    /// The spacer (standing pose).
    pub spacer: Option<Slab>,
    /// The clamps (standing pose); those left on move with the body, by [`Moment::driven_offset`].
    pub clamps: Vec<Clamp>,
    /// Whether strips, clamps and spacer are drawn as if of glass.
    pub aids_open: bool,
    /// Where it is cut open.
    pub section: Option<Section>,
    /// Whether panels are drawn by their edges only.
    pub through: bool,
    /// Whether it is pulled apart, so that screws have no place.
    pub apart: bool,
}

/// Fast, then slower: cubic ease-out of 0 to 1.
pub fn ease_out(t: f32) -> f32 {
    let rest = 1.0 - t.clamp(0.0, 1.0);
    1.0 - rest * rest * rest
}

fn ease_both(t: f32) -> f32 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

impl Moment {
    /// The step at place `step` of the plan, at `t` from 0 to 1 of its motion. With `reduced`
    /// nothing travels: the end is shown, with the start as edges.
    pub fn at(model: &Model, step: usize, t: f32, reduced: bool) -> Option<Moment> {
        let station = model.station(step)?;
        let t = if reduced { 1.0 } else { t.clamp(0.0, 1.0) };
        let pose = posed(model, station, t);
        let nothing = vec3(0., 0., 0.);
        let (mut body, mut mover, mut guides) = (nothing, nothing, Vec::new());
        match station.motion {
            Motion::None => {}
            Motion::Parts(away) => {
                mover = away * (1.0 - ease_out(t / PARTS_IN));
                if let Some(b) = model.bounds(&station.movers) {
                    guides.push(vec![pose.point(b.centre() + away), pose.point(b.centre())]);
                }
            }
            Motion::Turn(..) => guides.push(turn_path(model, station)),
            Motion::Away(away) => body = away * ease_out(t),
            Motion::Back(away) => body = away * (1.0 - ease_out(t)),
        }
        if let (Motion::Away(away) | Motion::Back(away), Some(b)) =
            (station.motion, model.bounds(&station.present))
        {
            let ends = [pose.point(b.centre()), pose.point(b.centre() + away)];
            let back = matches!(station.motion, Motion::Back(_));
            guides.push(if back { vec![ends[1], ends[0]] } else { ends.to_vec() });
        }
        let whole = matches!(station.motion, Motion::Turn(..) | Motion::Away(_) | Motion::Back(_));
        let role = |index: usize| {
            if whole {
                Role::Whole
            } else if station.movers.is_empty() && station.focus.contains(&index) {
                Role::Focus
            } else {
                Role::Context
            }
        };
        // Before the part is nearly there, marks on its face would hang in the air.
        let aimed = station.movers.is_empty() || t >= SCREWS_START;
        let mut items: Vec<Item> = station
            .present
            .iter()
            .map(|&index| Item { index, offset: body, role: role(index), open: false })
            .collect();
        let moving = |offset: Vec3| {
            station.movers.iter().map(move |&index| Item {
                index,
                offset,
                role: Role::Moving,
                open: false,
            })
        };
        items.extend(moving(mover));
        let ghosts = match station.motion {
            Motion::Parts(away) if reduced => moving(away).collect(),
            _ => Vec::new(),
        };
        Some(Moment {
            pose,
            items,
            ghosts,
            screws: flying(model, station, t),
            driven_offset: body,
            carried_offset: mover,
            guides,
            axes: if aimed { axes(model, station, &pose) } else { Vec::new() },
            entries: if aimed { entries(model, station, &pose) } else { Vec::new() },
            head: station
                .driving
                .iter()
                .filter_map(|&i| model.screws.get(i))
                .map(|s| s.head)
                .fold(0.0, f32::max),
            measures: measures(model, step, &pose),
            spacer: station.spacer,
            // One that goes on now would hang in the air before what it presses is there.
            clamps: station
                .clamps
                .iter()
                .filter(|c| aimed || c.since != Since::Now)
                .cloned()
                .collect(),
            aids_open: false,
            section: None,
            through: false,
            apart: false,
        })
    }

    /// Radius of the ring round a screw's head, in millimetres, where a pixel is so many wide.
    pub fn ring(&self, pixel: f32) -> f32 {
        (self.head * 1.5).max(pixel * 8.0)
    }

    /// All points that belong in the frame of a step, whatever the instant.
    pub fn frame(model: &Model, station: &Station) -> Vec<Vec3> {
        let pose = station.pose;
        let mut points: Vec<Vec3> = Vec::new();
        let present = model.corners(&station.present);
        let movers = model.corners(&station.movers);
        points.extend(present.iter().chain(&movers).map(|c| pose.point(*c)));
        match station.motion {
            Motion::None => {}
            Motion::Parts(away) => points.extend(movers.iter().map(|c| pose.point(*c + away))),
            Motion::Turn(..) => {
                for i in 0..6 {
                    let on_the_way = posed(model, station, i as f32 / 5.0);
                    points.extend(present.iter().map(|c| on_the_way.point(*c)));
                }
            }
            Motion::Away(away) | Motion::Back(away) => {
                points.extend(present.iter().map(|c| pose.point(*c + away)));
            }
        }
        points.extend(axes(model, station, &pose).iter().map(|axis| axis[0]));
        let clamps = station.clamps.iter().flat_map(|c| &c.slabs);
        points.extend(clamps.flat_map(Slab::corners).map(|c| pose.point(c)));
        if let Some(spacer) = station.spacer {
            points.extend(spacer.corners().iter().map(|c| pose.point(*c)));
        }
        if points.is_empty() {
            points.extend([vec3(-200., -200., 0.), vec3(200., 200., 200.)]);
        }
        points
    }
}

/// Finding things on the screen.
impl Moment {
    /// The part a ray of the picture meets first, by its place in the model.
    pub fn pick(&self, model: &Model, eye: Vec3, way: Vec3) -> Option<usize> {
        self.touch(model, eye, way).map(|(index, ..)| index)
    }

    /// The part a ray of the picture meets first, the axis that its face there stands across, and
    /// where that face is when the piece is together, in millimetres of the standing pose.
    pub fn touch(&self, model: &Model, eye: Vec3, way: Vec3) -> Option<(usize, usize, f32)> {
        let (eye, way) = (self.pose.point_back(eye), self.pose.vector_back(way));
        let mut nearest: Option<(f32, (usize, usize, f32))> = None;
        for item in &self.items {
            let Some(part) = model.parts.get(item.index) else {
                continue;
            };
            for slab in self.left_of(part) {
                let from = eye - item.offset;
                if let Some(far) = slab.hit(from, way)
                    && nearest.is_none_or(|(least, _)| far < least)
                    && let Some((axis, at)) = slab.face(from, way)
                {
                    nearest = Some((far, (item.index, axis, at)));
                }
            }
        }
        nearest.map(|(_, found)| found)
    }

    /// Left, top, right and bottom of a part on the screen, in CSS pixels.
    pub fn pixels_box(&self, model: &Model, camera: &Camera, id: &str) -> Option<[f32; 4]> {
        let item =
            self.items.iter().find(|i| model.parts.get(i.index).is_some_and(|p| p.id == id))?;
        let part = model.parts.get(item.index)?;
        let mut frame = [f32::INFINITY, f32::INFINITY, f32::NEG_INFINITY, f32::NEG_INFINITY];
        for corner in part.slabs.iter().flat_map(Slab::corners) {
            let (x, y) = camera.project(self.pose.point(corner + item.offset));
            frame = [frame[0].min(x), frame[1].min(y), frame[2].max(x), frame[3].max(y)];
        }
        Some(frame)
    }
}

/// How the piece lies at `t`.
fn posed(model: &Model, station: &Station, t: f32) -> Pose {
    let Motion::Turn(from, to) = station.motion else {
        return station.pose;
    };
    let turn = from.slerp(to, ease_both(t));
    let raised = TURN_LIFT * (std::f32::consts::PI * t.clamp(0.0, 1.0)).sin().max(0.0);
    let rest = if station.on_bench { bearers::height(model) } else { 0.0 };
    let lift = rest + raised;
    Pose::on_bench(turn, station.centre, &model.corners(&station.present), lift)
}

/// The way the top of the piece goes while it turns.
fn turn_path(model: &Model, station: &Station) -> Vec<Vec3> {
    let Motion::Turn(from, _) = station.motion else {
        return Vec::new();
    };
    let Some(b) = model.bounds(&station.present) else {
        return Vec::new();
    };
    let start = Pose { turn: from, shift: vec3(0., 0., 0.) };
    let up = start.vector_back(vec3(0., 0., 1.));
    let half = (b.max - b.min) / 2.0;
    let reach = (0..3).map(|a| half[a] * up[a].abs()).sum::<f32>();
    let top = b.centre() + up * (reach + 30.0);
    (0..=40).map(|i| posed(model, station, i as f32 / 40.0).point(top)).collect()
}

/// The screws in flight: one after the other, in the plan's order.
fn flying(model: &Model, station: &Station, t: f32) -> Vec<Item> {
    let start = if station.movers.is_empty() { 0.0 } else { SCREWS_START };
    if t < start {
        return Vec::new();
    }
    let count = station.driving.len().max(1) as f32;
    let now = (t - start) / (1.0 - start);
    let stagger = 0.45;
    station
        .driving
        .iter()
        .enumerate()
        .filter_map(|(i, &index)| {
            let screw = model.screws.get(index)?;
            let own = (now - stagger * i as f32 / count) / (1.0 - stagger);
            let away = (screw.length + SCREW_AWAY) * (1.0 - ease_out(own));
            Some(Item { index, offset: -screw.along * away, role: Role::Moving, open: false })
        })
        .collect()
}

fn axes(model: &Model, station: &Station, pose: &Pose) -> Vec<[Vec3; 2]> {
    let screws = station.driving.iter().filter_map(|&i| model.screws.get(i));
    screws
        .map(|s| {
            let start = s.entry - s.along * (s.length + SCREW_AWAY);
            [pose.point(start), pose.point(s.tip())]
        })
        .collect()
}

fn entries(model: &Model, station: &Station, pose: &Pose) -> Vec<[Vec3; 2]> {
    let screws = station.driving.iter().filter_map(|&i| model.screws.get(i));
    screws.map(|s| [pose.point(s.entry), pose.vector(s.along)]).collect()
}

fn measures(model: &Model, step: usize, pose: &Pose) -> Vec<Measure> {
    let Some(step) = model.plan.steps.get(step) else {
        return Vec::new();
    };
    let at = |p: [i64; 3]| pose.point(Vec3::from(p.map(millimetres)));
    let mut all = Vec::new();
    for check in &step.checks {
        for (i, pair) in check.between.iter().enumerate() {
            let ends = [at(pair[0]), at(pair[1])];
            if (ends[0] - ends[1]).magnitude() < 0.01 {
                continue;
            }
            let text = check
                .expected
                .get(i)
                .filter(|um| **um != 0)
                .map(|um| model.plan.unit.print(Length::um(*um)))
                .unwrap_or_default();
            all.push(Measure { ends, text });
        }
    }
    all
}
