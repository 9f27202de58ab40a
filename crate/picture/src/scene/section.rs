//! The piece cut open by a plane, so that grooves and what is inside are seen.
//!
//! The solids themselves are cut, box by box in whole micrometres; the picture of what is left is an
//! ordinary one.

use jointwise::geometry::Box3;

use super::model::{Model, PartLook, slab};
use super::moment::Moment;
use super::station::Station;
use crate::edges::{Skin, millimetres};
use crate::pick::Slab;

/// A plane across one axis of the standing piece. What lies on the eye's side of it is taken away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Section {
    /// 0 across the width, 1 across the depth, 2 across the height.
    pub axis: usize,
    /// Where it stands, in micrometres.
    pub at: i64,
    /// How far that is from the left, front or lower end of what is cut, in micrometres.
    pub in_it: i64,
    /// Whether the side with the larger numbers is left.
    pub keeps_high: bool,
}

impl Section {
    /// Through what a step has on the bench, at a share of its size from 0 to 1. Nothing where there
    /// is nothing.
    pub fn through(model: &Model, step: usize, axis: usize, share: f32) -> Option<Section> {
        let station = model.station(step)?;
        let there = station.present.iter().chain(&station.movers);
        let boxes: Vec<Box3> =
            there.filter_map(|&i| model.parts.get(i)).flat_map(|p| p.boxes.clone()).collect();
        let low = boxes.iter().filter_map(|b| b.min.get(axis)).min()?;
        let high = boxes.iter().filter_map(|b| b.max.get(axis)).max()?;
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.5 };
        let size = high.saturating_sub(*low);
        // A whole millimetre is fine enough to look at, and a plane on a face would cut nothing.
        let in_it = ((size as f64 * f64::from(share)) / 1000.0).round() as i64 * 1000;
        let in_it = in_it.clamp(500.min(size), (size - 500).max(0));
        let eye = station.pose.vector_back(model.view(step).towards_eye());
        Some(Section { axis, at: low.saturating_add(in_it), in_it, keeps_high: eye[axis] < 0.0 })
    }

    /// What is left of a box.
    pub fn cut(&self, whole: &Box3) -> Option<Box3> {
        let mut left = *whole;
        let (min, max) = (left.min.get_mut(self.axis)?, left.max.get_mut(self.axis)?);
        if self.keeps_high {
            *min = (*min).max(self.at);
        } else {
            *max = (*max).min(self.at);
        }
        (*min < *max).then_some(left)
    }

    /// Whether some of a box, in millimetres, is left.
    fn keeps(&self, slab: &Slab) -> bool {
        let at = millimetres(self.at);
        if self.keeps_high { slab.max[self.axis] > at } else { slab.min[self.axis] < at }
    }

    /// What is left of a part: its outer skin, and the faces of the cut.
    pub fn skins(&self, part: &PartLook) -> (Skin, Skin) {
        let boxes: Vec<Box3> = part.boxes.iter().filter_map(|b| self.cut(b)).collect();
        let mut outer = Skin::of(&boxes);
        let at = millimetres(self.at);
        let mut cut = Skin::default();
        let mut rest = Skin { edges: std::mem::take(&mut outer.edges), ..Skin::default() };
        let faces = outer.positions.chunks_exact(3).zip(outer.normals.chunks_exact(3));
        for (corners, normals) in faces {
            let on_it = corners.iter().all(|c| (c[self.axis] - at).abs() < 1e-3);
            // A face of the part itself may lie in the plane; it looks the other way.
            let outwards = normals.iter().all(|n| (n[self.axis] < 0.0) == self.keeps_high);
            let into = if on_it && outwards { &mut cut } else { &mut rest };
            into.positions.extend(corners);
            into.normals.extend(normals);
        }
        (rest, cut)
    }
}

impl Moment {
    /// Takes away what lies before the plane. A screw that it meets is shown whole.
    pub(super) fn cut_open(&mut self, model: &Model, station: &Station, section: Section) {
        self.section = Some(section);
        let stays: Vec<bool> =
            station.driving.iter().map(|&i| section.keeps_screw(model, i)).collect();
        let kept = |n: usize| stays.get(n).copied().unwrap_or(true);
        let mut n = 0..;
        self.entries.retain(|_| n.next().is_none_or(kept));
        let mut n = 0..;
        self.axes.retain(|_| n.next().is_none_or(kept));
        self.screws.retain(|s| section.keeps_screw(model, s.index));
        self.clamps.retain(|c| c.slabs.iter().any(|s| section.keeps(s)));
        self.spacer = self.spacer.filter(|s| section.keeps(s));
        let left = |index: usize| {
            let part = model.parts.get(index);
            part.is_some_and(|p| p.boxes.iter().any(|b| section.cut(b).is_some()))
        };
        self.items.retain(|item| left(item.index));
        // What comes in may be away as a whole: then nothing moves.
        if !station.movers.is_empty() && !station.movers.iter().any(|&mover| left(mover)) {
            self.guides.clear();
        }
    }

    /// The boxes of a part that are drawn.
    pub fn left_of(&self, part: &PartLook) -> Vec<Slab> {
        match self.section {
            None => part.slabs.clone(),
            Some(section) => {
                part.boxes.iter().filter_map(|b| section.cut(b)).map(|b| slab(&b)).collect()
            }
        }
    }
}

impl Section {
    /// Whether the plane leaves a screw, or goes through it.
    pub fn keeps_screw(&self, model: &Model, screw: usize) -> bool {
        model.screws.get(screw).is_some_and(|s| {
            let ends = [s.entry, s.tip()].map(|p| Slab { min: p, max: p }.grown(s.head));
            ends.iter().any(|end| self.keeps(end))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHOLE: Box3 = Box3 { min: [0, 0, 0], max: [10_000, 20_000, 30_000] };

    #[test]
    fn both_sides_of_a_plane_are_the_whole() {
        for axis in 0..3 {
            let of = |keeps_high| Section { axis, at: 4_000, in_it: 4_000, keeps_high };
            let (low, high) = (of(false).cut(&WHOLE).unwrap(), of(true).cut(&WHOLE).unwrap());
            assert_eq!((low.min, high.max), (WHOLE.min, WHOLE.max));
            assert_eq!((low.max[axis], high.min[axis]), (4_000, 4_000));
        }
        let beside = Section { axis: 0, at: 10_000, in_it: 10_000, keeps_high: true };
        assert_eq!(beside.cut(&WHOLE), None);
    }
}
