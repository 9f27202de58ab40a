//! The plan, made ready for drawing.

use std::cell::RefCell;
use std::collections::BTreeMap;

use jointwise::assembly::Kind;
use jointwise::geometry::Box3;
use jointwise::json::Misfit;
use jointwise::plan::Plan;
use three_d::{InnerSpace, Vec3, vec3};

use super::apart::apart;
use super::bearers::bearers;
use super::drawn;
use super::home::{View, Views};
use super::moment::Moment;
use super::station::{Motion, Station, finished, stations};
use crate::edges::{Skin, millimetres};
use crate::pick::Slab;
use crate::screw::Screw;
use crate::theme::Tone;

/// How a part looks. Millimetres of the standing pose.
#[derive(Debug, Clone)]
pub struct PartLook {
    /// Stable id.
    pub id: String,
    /// As a maker says it.
    pub name: String,
    /// Its material's tone.
    pub tone: Tone,
    /// Its solid, in micrometres.
    pub boxes: Vec<Box3>,
    /// The same for rays.
    pub slabs: Vec<Slab>,
    /// The least box around it.
    pub bounds: Slab,
    /// Its outer faces and edges.
    pub skin: Skin,
}

/// Everything the picture needs, step by step.
#[derive(Debug, Clone)]
pub struct Model {
    /// The plan it was made from; read from a file, without what the picture does not show.
    pub plan: Plan,
    /// In the order of the plan's parts; parts without a valid box are left out.
    pub parts: Vec<PartLook>,
    /// All screws.
    pub screws: Vec<Screw>,
    /// One for each step.
    pub stations: Vec<Station>,
    /// The steps' own directions of view.
    views: RefCell<Views>,
    /// The strips that each step's work lies on, in the picture's millimetres.
    pub bearers: Vec<Vec<Slab>>,
    /// The whole piece, standing in the room.
    pub finished: Option<Station>,
    /// How far each part stands off when the piece is pulled apart.
    pub apart: Vec<Vec3>,
}

/// A box of the plan in millimetres.
pub fn slab(b: &Box3) -> Slab {
    Slab { min: Vec3::from(b.min.map(millimetres)), max: Vec3::from(b.max.map(millimetres)) }
}

/// How much of a neighbour's size a step must have to share its frame.
const ALIKE: f32 = 0.72;

/// From corner to corner of the least box around some points.
fn spread(points: &[Vec3]) -> f32 {
    let around = points.iter().map(|&p| Slab { min: p, max: p }).reduce(|a, b| a.union(&b));
    around.map_or(0.0, |b| (b.max - b.min).magnitude())
}

impl Model {
    /// From the text of `plan.json`.
    ///
    /// # Errors
    /// When the text is not JSON or not of the plan's shape; the message says what is missing.
    pub fn read(json: &str) -> Result<Model, Misfit> {
        drawn::read(json).map(Model::new)
    }

    /// From a plan. What the plan names but does not hold is left out.
    pub fn new(plan: Plan) -> Model {
        let parts: Vec<PartLook> = plan
            .parts
            .iter()
            .filter_map(|part| {
                let boxes: Vec<Box3> = part.boxes.iter().copied().filter(Box3::is_valid).collect();
                let slabs: Vec<Slab> = boxes.iter().map(slab).collect();
                let bounds = slabs.iter().copied().reduce(|a, b| a.union(&b))?;
                Some(PartLook {
                    id: part.id.clone(),
                    name: part.name.clone(),
                    tone: Tone::of(&part.material_name, part.kind == Kind::Hardware),
                    bounds,
                    skin: Skin::of(&boxes),
                    slabs,
                    boxes,
                })
            })
            .collect();
        let screws: Vec<Screw> =
            plan.joints.iter().flat_map(|j| &j.fasteners).map(Screw::of).collect();
        let mut model = Model {
            plan,
            parts,
            screws,
            stations: Vec::new(),
            views: RefCell::default(),
            bearers: Vec::new(),
            finished: None,
            apart: Vec::new(),
        };
        model.stations = stations(&model);
        model.bearers = bearers(&model, &model.stations);
        model.finished = Some(finished(&model));
        model.apart = apart(&model);
        model
    }

    /// A step by its place from 0; one place beyond the last step is the finished piece.
    pub fn station(&self, step: usize) -> Option<&Station> {
        if step == self.stations.len() { self.finished.as_ref() } else { self.stations.get(step) }
    }

    /// The own view of a step, or of the finished piece.
    pub fn view(&self, step: usize) -> View {
        self.views.borrow_mut().of(self, step)
    }

    /// What belongs in the frame of a step. Neighbours that are seen from the same place and fill
    /// about as much share one frame, so that the picture stands still from step to step.
    pub fn frame(&self, step: usize) -> Vec<Vec3> {
        let Some(station) = self.station(step) else {
            return Vec::new();
        };
        let own = Moment::frame(self, station);
        let shares = |i: usize| {
            let lies = |i: usize| self.plan.steps.get(i).map(|s| (&s.body, s.bench_face));
            let moved = |s: &Station| matches!(s.motion, Motion::None | Motion::Parts(_));
            lies(i).is_some()
                && lies(i) == lies(step)
                && self.view(i) == self.view(step)
                && self.stations.get(i).is_some_and(moved)
        };
        if !shares(step) {
            return own;
        }
        let earlier = (0..step).rev().take_while(|&i| shares(i));
        let later = (step + 1..self.stations.len()).take_while(|&i| shares(i));
        let near = earlier.chain(later).filter_map(|i| self.stations.get(i));
        let mut all = own.clone();
        for frame in near.map(|s| Moment::frame(self, s)) {
            if spread(&frame) >= spread(&own) * ALIKE && spread(&own) >= spread(&frame) * ALIKE {
                all.extend(frame);
            }
        }
        all
    }

    /// Places of the parts by their ids.
    pub fn part_index(&self) -> BTreeMap<&str, usize> {
        self.parts.iter().enumerate().map(|(i, p)| (p.id.as_str(), i)).collect()
    }

    /// Places of the screws by their ids.
    pub fn screw_index(&self) -> BTreeMap<&str, usize> {
        self.screws.iter().enumerate().map(|(i, s)| (s.id.as_str(), i)).collect()
    }

    /// The least box around some parts.
    pub fn bounds(&self, parts: &[usize]) -> Option<Slab> {
        parts.iter().filter_map(|&i| self.parts.get(i)).map(|p| p.bounds).reduce(|a, b| a.union(&b))
    }

    /// Corners of all boxes around the given parts.
    pub fn corners(&self, parts: &[usize]) -> Vec<Vec3> {
        parts.iter().filter_map(|&i| self.parts.get(i)).flat_map(|p| p.bounds.corners()).collect()
    }

    /// Bench top: length, width and drawn thickness in millimetres.
    pub fn bench(&self) -> Vec3 {
        let size = |um: i64| millimetres(um).clamp(300.0, 20_000.0);
        let shop = &self.plan.workshop;
        vec3(size(shop.bench_length), size(shop.bench_width), 60.0)
    }
}
