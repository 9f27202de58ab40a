//! The sizes of the carcass that all parts follow from.

use super::{Job, Sheets};
use crate::scenario::{BackSet, CarcassJoint, Foot, Top};
use crate::units::Length;

/// The carcass, in micrometres.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    /// Outside width, height, and depth with the back.
    pub w: i64,
    pub h: i64,
    pub d: i64,
    /// Thickness of the carcass's sheet and of the back's.
    pub t: i64,
    pub bt: i64,
    /// Depth of the sides.
    pub sd: i64,
    /// The back's front face: depth of the room inside.
    pub inner: i64,
    /// Rear edge of bottom, top and rails.
    pub rear: i64,
    /// The back face of the fronts: 0, or their thickness when they are inset.
    pub plane: i64,
    /// Height and recess of the toe kick.
    pub toe: i64,
    pub recess: i64,
    /// Lower and upper edge of the sides.
    pub low: i64,
    pub crown: i64,
    /// Width of the stretcher, height of the nailer.
    pub stretcher: i64,
    pub nailer: i64,
    /// Depth of dadoes, rabbets and of grooves for the back.
    pub dado: i64,
    pub joint: CarcassJoint,
    pub back: BackSet,
    pub foot: Foot,
    pub top: Top,
}

impl Frame {
    /// From the outside sizes; `front` is the thickness of inset fronts.
    pub fn new(s: &Job, sheets: &Sheets, [w, h, d]: [i64; 3], front: i64) -> Frame {
        let c = &s.build.carcass;
        let (t, bt) = (sheets.carcass.thickness.get(), sheets.back.thickness.get());
        let toe = c.toe_height.get();
        let (sd, inner, rear) = match s.build.back.set {
            BackSet::Applied => (d - bt, d - bt, d - bt),
            BackSet::Rabbet => (d, d - bt, d - bt),
            // The nailer stands behind it.
            BackSet::Groove => (d, d - t - bt, d),
        };
        Frame {
            w,
            h,
            d,
            t,
            bt,
            sd,
            inner,
            rear,
            plane: front,
            toe,
            recess: if c.toe_height == Length::ZERO { 0 } else { c.toe_recess.get() },
            low: if c.foot == Foot::Integral { 0 } else { toe },
            crown: if c.top == Top::Over { h - t } else { h },
            stretcher: c.stretcher_width.get(),
            nailer: c.nailer_height.get(),
            dado: c.dado_depth.get(),
            joint: c.joint,
            back: s.build.back.set,
            foot: c.foot,
            top: c.top,
        }
    }

    /// Whether anything is left inside: else not even sizes are worth showing.
    pub fn has_room(&self, bays: i64) -> bool {
        self.w > (bays + 1) * self.t && self.ceiling() > self.floor() && self.inner > self.plane
    }

    /// Upper face of the bottom.
    pub fn floor(&self) -> i64 {
        self.toe + self.t
    }

    /// Underside of the stretcher or of the top between the sides.
    pub fn ceiling(&self) -> i64 {
        self.crown - self.t
    }

    /// Lower and upper edge of the nailer.
    pub fn nailer_z(&self) -> [i64; 2] {
        let above = if self.top == Top::Stretcher { self.crown } else { self.ceiling() };
        [above - self.nailer, above]
    }

    /// Height up to which panels may reach the back: under a nailer that stands inside.
    pub fn clear_of_nailer(&self) -> i64 {
        if self.back == BackSet::Groove { self.ceiling() } else { self.nailer_z()[0] }
    }

    /// How deep a level panel between `z` is let into the sides.
    pub fn cut(&self, z: [i64; 2]) -> i64 {
        match self.joint {
            CarcassJoint::Butt => 0,
            CarcassJoint::Dado => self.dado,
            CarcassJoint::Rabbet if z[0] == self.low || z[1] == self.crown => self.dado,
            CarcassJoint::Rabbet => 0,
        }
    }
}
