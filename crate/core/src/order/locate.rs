//! What sets each distance of a part that goes in.
//!
//! Along each axis a part's place is set by the bench, by a face it lies against, or by being
//! flush with its neighbour, which a fingertip feels. A face only near one end leaves the other
//! end free. Where nothing sets it, a spacer may, if one fits ([`super::spacer`]). Failing that the distance is measured.

use crate::assembly::JointKind;
use crate::geometry::{Box3, Contact, Direction, Solid};

use super::holding::{self, Rest};
use super::scene::{Scene, members};
use super::spacer::{Placed, spacer};

/// What sets one axis of a new part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Set {
    /// The bench or a face along most of it.
    Face,
    /// Level with a neighbour's face on that side; the part and the side.
    Flush(usize, Direction),
    /// A loose part in between.
    Spacer(Placed),
    /// Nothing: the distance from the reference is measured.
    Measured(Gap),
}

/// A distance to set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The item against which it is measured.
    pub mate: usize,
    /// The side of the mate from which it is measured.
    pub side: Direction,
    /// From the reference to the new part's face.
    pub direction: Direction,
    /// Coordinate of the reference.
    pub from: i64,
    /// Coordinate of the new part's face.
    pub to: i64,
}

/// What sets each axis of `item` when it joins `set` on `face`. `within` is all that the body will
/// have: of it, what is not in yet is loose.
pub fn locate(scene: &Scene, within: u64, item: usize, set: u64, face: Direction) -> [Set; 3] {
    let (near, lies) = (scene.near(item, set), scene.lies(item, set, face));
    std::array::from_fn(|axis| match beside(scene, item, near, lies, face, axis) {
        By::Sure(by) => by,
        By::Spaced { gap, stops, otherwise } => {
            spacer(scene, within, item, set, face, gap, &stops).map_or(otherwise, Set::Spacer)
        }
    })
}

/// How much of a placing no hard stop sets.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Unset {
    /// Axes that are measured.
    pub measured: u32,
    /// Axes across which a panel is laid over the part, set by fingertip or measured.
    pub by_feel: u32,
}

/// How much of a placing no hard stop sets.
pub fn unset(scene: &Scene, within: u64, item: usize, set: u64, face: Direction) -> Unset {
    let near = scene.surroundings(item, set, face);
    let out = within & !set & !scene.masks[item];
    near.unset(|spaced| {
        (spaced.offcut || spaced.panels & out != 0) && {
            let there = set | scene.masks[item];
            let plane = scene.plane(there, face);
            let spacing = scene.spacing(item, &spaced.gap);
            spacing.iter().any(|s| s.fits(scene, item, set, out, face, plane))
        }
    })
}

/// What sets one axis, as far as that hangs on what is near.
enum By {
    Sure(Set),
    /// A spacer, when one fits.
    Spaced {
        gap: Gap,
        stops: Vec<Box3>,
        otherwise: Set,
    },
}

/// How one axis of a new part is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// By a stop.
    Hard,
    /// By feel.
    Soft,
    /// By nothing.
    Open,
}

/// A distance that a spacer would set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spaced {
    /// The distance.
    pub gap: Gap,
    /// The items of that size.
    pub panels: u64,
    /// Whether some offcut has it.
    pub offcut: bool,
}

/// What of a placing hangs only on what the new part touches or is joined to, and on whether it
/// lies on the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Surroundings {
    /// How it lies before anything holds it.
    pub rest: Rest,
    axes: [(Axis, Option<Spaced>); 3],
    laid_over: [bool; 3],
}

impl Surroundings {
    /// Of an item among the items `near` it, which `lies` on the bench or does not.
    pub fn new(scene: &Scene, item: usize, near: u64, lies: bool, face: Direction) -> Self {
        let kind = |by: &Set| match by {
            Set::Face | Set::Spacer(_) => Axis::Hard,
            Set::Flush(..) => Axis::Soft,
            Set::Measured(_) => Axis::Open,
        };
        let axes = std::array::from_fn(|axis| match beside(scene, item, near, lies, face, axis) {
            By::Sure(by) => (kind(&by), None),
            By::Spaced { gap, otherwise, .. } => {
                let (panels, offcut) = scene.as_wide(gap.from.abs_diff(gap.to) as i64);
                (kind(&otherwise), Some(Spaced { gap, panels, offcut }))
            }
        });
        let rest = holding::rest(scene, item, near, lies, face);
        Surroundings { rest, axes, laid_over: scene.laid_over[item] }
    }

    /// How much no hard stop sets, given where a spacer fits.
    pub fn unset(&self, fits: impl Fn(&Spaced) -> bool) -> Unset {
        let mut unset = Unset::default();
        for ((by, spaced), over) in self.axes.iter().zip(self.laid_over) {
            if *by == Axis::Hard || spaced.as_ref().is_some_and(&fits) {
                continue;
            }
            unset.measured += u32::from(*by == Axis::Open);
            unset.by_feel += u32::from(over);
        }
        unset
    }
}

fn beside(scene: &Scene, item: usize, near: u64, lies: bool, face: Direction, axis: usize) -> By {
    let datum = scene.items[item].datum;
    let others = [(axis + 1) % 3, (axis + 2) % 3];
    let guided = |l: usize| matches!(scene.links[l].kind, JointKind::Groove | JointKind::Slide);
    if members(scene.links_of(item, near)).all(guided) {
        return By::Sure(Set::Face);
    }
    // Everything that stops the part along this axis.
    let mut stops: Vec<Box3> = Vec::new();
    if face.axis() == axis && lies {
        stops.extend(scene.underside(item, face));
    }
    let mut mates: Vec<(i128, usize)> = Vec::new();
    for other in members(near) {
        let along = scene.contacts(item, other).filter(|c| c.direction.axis() == axis);
        stops.extend(along.map(|c| c.face));
        let beside = scene.contacts(item, other).filter(|c| c.direction.axis() != axis);
        if scene.links_of(item, 1 << other) != 0
            && let Some(area) = beside.map(Contact::area).max()
        {
            mates.push((area, other));
        }
    }
    mates.sort_by_key(|&(area, other)| (std::cmp::Reverse(area), other));
    let wide = |a: usize| {
        let low = stops.iter().map(|b| b.min[a]).min().unwrap_or(0);
        let high = stops.iter().map(|b| b.max[a]).max().unwrap_or(0);
        2 * (high - low) >= datum.extent(a)
    };
    if !stops.is_empty() && others.into_iter().all(wide) {
        return By::Sure(Set::Face);
    }
    // Where its gaps are set against given parts, those are the reference.
    if let Some(mate) = members(scene.after[item] & near).next()
        && stops.is_empty()
    {
        let gap = nearest_gap(scene, item, mate, axis);
        if gap.from == gap.to {
            return By::Sure(Set::Flush(mate, gap.side));
        }
        return By::Sure(Set::Measured(gap));
    }
    let Some(&(_, mate)) = mates.first() else {
        return By::Sure(Set::Face);
    };
    let gap = nearest_gap(scene, item, mate, axis);
    let flush = mates.iter().find_map(|&(_, mate)| {
        [Direction::from_axis(axis, true), Direction::from_axis(axis, false)]
            .into_iter()
            .find(|&side| is_flush(&datum, &scene.items[mate].solid, side))
            .map(|side| Set::Flush(mate, side))
    });
    let otherwise = flush.unwrap_or(if !stops.is_empty() {
        // Stopped at one end by a face, and square to its mate: that much is set.
        Set::Face
    } else if gap.from == gap.to {
        // Level with something that shows no face there: the two are brought level.
        Set::Flush(mate, gap.side)
    } else {
        Set::Measured(gap)
    });
    if gap.from == gap.to {
        return By::Sure(otherwise);
    }
    By::Spaced { gap, stops, otherwise }
}

/// Whether `theirs` shows a face on that side, level with `own` and beside it.
fn is_flush(own: &Box3, theirs: &Solid, side: Direction) -> bool {
    let level = own.face(side);
    theirs.boxes().iter().any(|b| {
        if b.face(side) != level
            || (0..3).filter(|&a| a != side.axis()).any(|a| !touches(b, own, a))
        {
            return false;
        }
        // The face must be on the skin where the two meet, not shut in between two boxes.
        let mut just_outside = std::array::from_fn(|a| {
            i64::midpoint(b.min[a].max(own.min[a]), b.max[a].min(own.max[a]))
        });
        just_outside[side.axis()] = level + side.sign();
        !theirs.holds(just_outside)
    })
}

/// Whether two boxes overlap or touch along an axis.
pub(super) fn touches(a: &Box3, b: &Box3, axis: usize) -> bool {
    a.overlap(b, axis) >= 0
}

/// The shorter of the two distances from the mate's ends to the part's nearer face.
fn nearest_gap(scene: &Scene, item: usize, mate: usize, axis: usize) -> Gap {
    let own = scene.items[item].datum;
    let theirs = scene.items[mate].datum;
    let (before, after) = (Direction::from_axis(axis, false), Direction::from_axis(axis, true));
    let low = Gap {
        mate,
        side: before,
        direction: Direction::from_axis(axis, true),
        from: theirs.min[axis],
        to: own.min[axis],
    };
    let high = Gap {
        mate,
        side: after,
        direction: Direction::from_axis(axis, false),
        from: theirs.max[axis],
        to: own.max[axis],
    };
    // Side by side, the gap between the two is what is seen and measured.
    if own.min[axis] >= theirs.max[axis] {
        return Gap {
            mate,
            side: after,
            direction: after,
            from: theirs.max[axis],
            to: own.min[axis],
        };
    }
    if own.max[axis] <= theirs.min[axis] {
        return Gap {
            mate,
            side: before,
            direction: before,
            from: theirs.min[axis],
            to: own.max[axis],
        };
    }
    if (low.to - low.from).abs() <= (high.to - high.from).abs() { low } else { high }
}
