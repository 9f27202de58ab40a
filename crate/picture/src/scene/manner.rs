//! Other ways to look at a step than the usual one.

use three_d::Vec3;

use super::model::Model;
use super::moment::{Item, Moment, Role};
use super::section::Section;

/// What the maker asked to see.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Manner {
    /// Panels by their edges only, so that screws inside them are seen.
    pub through: bool,
    /// What the next step brings, by its edges, where it will be.
    pub next: bool,
    /// Pulled apart.
    pub apart: bool,
    /// Cut open.
    pub section: Option<Section>,
}

/// What is drawn as if of glass, so that what stands behind is seen.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Glass {
    /// Parts, by their places in the model.
    pub parts: Vec<usize>,
    /// Strips, clamps and spacer.
    pub aids: bool,
}

impl Moment {
    /// The same instant, looked at in another way.
    #[must_use]
    pub fn looked_at(mut self, model: &Model, step: usize, manner: Manner) -> Moment {
        self.through = manner.through;
        if manner.next {
            // A part that is only tried here is in the picture already.
            let here: Vec<usize> = self.items.iter().map(|item| item.index).collect();
            self.ghosts.extend(coming(model, step, &here));
        }
        if let (Some(section), Some(station)) = (manner.section, model.station(step)) {
            self.cut_open(model, station, section);
        }
        if manner.apart {
            self.apart = true;
            for item in &mut self.items {
                item.offset = model.apart.get(item.index).copied().unwrap_or(item.offset);
                item.role = Role::Focus;
            }
            // These belong to where the parts are when they are together.
            self.ghosts.clear();
            self.screws.clear();
            self.guides.clear();
            self.axes.clear();
            self.entries.clear();
            self.measures.clear();
            self.clamps.clear();
            self.spacer = None;
        }
        self
    }

    /// The same instant with something as if of glass.
    #[must_use]
    pub fn opened(mut self, glass: &Glass) -> Moment {
        for item in &mut self.items {
            item.open = glass.parts.contains(&item.index);
        }
        self.aids_open = glass.aids;
        self
    }

    /// Corners of everything drawn, in the picture.
    pub fn corners(&self, model: &Model) -> Vec<Vec3> {
        let part = |item: &Item| model.parts.get(item.index).map(|p| (p.bounds, item.offset));
        let bounds = self.items.iter().chain(&self.ghosts).filter_map(part);
        bounds.flat_map(|(b, offset)| b.corners().map(|c| self.pose.point(c + offset))).collect()
    }
}

/// What the next step on the same body brings that is not `here` yet, in its place.
fn coming(model: &Model, step: usize, here: &[usize]) -> Vec<Item> {
    let body = |n: usize| model.plan.steps.get(n).map(|s| s.body.as_str());
    let new = |n: usize| -> Vec<usize> {
        let movers = model.stations.get(n).map(|s| s.movers.as_slice()).unwrap_or_default();
        movers.iter().copied().filter(|m| !here.contains(m)).collect()
    };
    let next = (step + 1..model.stations.len())
        .filter(|&n| body(n) == body(step))
        .map(new)
        .find(|movers| !movers.is_empty());
    let still = Vec3::new(0., 0., 0.);
    next.unwrap_or_default()
        .into_iter()
        .map(|index| Item { index, offset: still, role: Role::Context, open: false })
        .collect()
}
