//! Bays: what lies between two upright panels, and the dividers that make them.

use super::piece::{Panel, Piece, at, block, row};
use super::{Frame, Job, Sheets};
use crate::assembly::screws::Heads;
use crate::assembly::{JointKind, MAIN, Role};
use crate::geometry::{Box3, Direction};
use crate::scenario::{BackSet, Top};

/// From a board under the bottom to the screws beside it: half a drill and a
/// little more. Common practice, no source.
pub const CLEAR: i64 = 50_000;

/// The room between two upright panels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bay {
    /// Its number from the left, from 1; none when it is the only one.
    pub number: Option<usize>,
    /// Clear room from left to right.
    pub x: [i64; 2],
    /// Clear room from the bottom up to the stretcher or top.
    pub z: [i64; 2],
    /// Ids of the panels left and right of it.
    pub walls: [String; 2],
    /// What fronts cover from left to right: to the outside, or to the middle of a divider.
    pub cover: [i64; 2],
}

impl Bay {
    /// An id for something in it: `box`, or `box-2`.
    pub fn id(&self, what: &str) -> String {
        self.number.map_or_else(|| what.to_owned(), |n| format!("{what}-{n}"))
    }

    pub fn width(&self) -> i64 {
        self.x[1] - self.x[0]
    }
}

/// The bays, left to right: as wide as each other to a micrometre.
pub fn all(s: &Job, f: &Frame) -> Vec<Bay> {
    let n = i64::from(s.build.dividers) + 1;
    let air = f.w - (n + 1) * f.t;
    let left = |i: i64| f.t + air * i / n + i * f.t;
    let wall = |i: i64| match i {
        0 => "left-side".to_owned(),
        i if i == n => "right-side".to_owned(),
        i => divider(i, n),
    };
    // Where a front ends at the left of bay i: outside, or in the middle of the divider.
    let cover = |i: i64| match i {
        0 => 0,
        i if i == n => f.w,
        i => left(i) - f.t / 2,
    };
    (0..n)
        .map(|i| Bay {
            number: (n > 1).then_some(usize::try_from(i + 1).unwrap_or(1)),
            x: [left(i), left(i + 1) - f.t],
            z: [f.floor(), f.ceiling()],
            walls: [wall(i), wall(i + 1)],
            cover: [cover(i), cover(i + 1)],
        })
        .collect()
}

fn divider(i: i64, bays: i64) -> String {
    if bays == 2 { "divider".to_owned() } else { format!("divider-{i}") }
}

/// Adds the dividers, with the cuts that shelves ask for, by the divider's id.
pub fn add(
    piece: &mut Piece,
    s: &Job,
    sheets: &Sheets,
    f: &Frame,
    bays: &[Bay],
    shelves: &[(String, Box3)],
) {
    let glue = s.build.carcass.glue;
    for bay in bays.iter().skip(1) {
        let id = bay.walls[0].as_str();
        let x = [bay.x[0] - f.t, bay.x[0]];
        let mut cuts: Vec<_> = shelves.iter().filter(|c| c.0 == id).map(|c| c.1).collect();
        // Round the nailer, where that stands inside.
        if f.back != BackSet::Groove {
            cuts.push(block(x, [f.rear - f.t, f.rear], f.nailer_z()));
        }
        let panel = Panel {
            id,
            group: MAIN,
            role: Role::Divider,
            material: sheets.carcass,
            thin: 0,
            grain: 2,
        };
        piece.panel(panel, block(x, [0, f.inner], bay.z), &cuts);
        // Between the boards under the bottom, so that the drill passes them.
        let front = if f.toe > 0 { f.recess + f.t } else { 0 };
        let rear = if f.toe > 0 { f.inner.min(f.rear - f.t) } else { f.inner };
        let ends = [front + CLEAR, rear - CLEAR];
        let ys = [ends[0], i64::midpoint(ends[0], ends[1]), ends[1]];
        let points = ys.map(|y| [i64::midpoint(x[0], x[1]), y, 0]).to_vec();
        let below = at(Direction::Up, Heads::Flat, points);
        piece.join("bottom", id, JointKind::Butt, glue, below);
        let above: &[&str] = match f.top {
            Top::Stretcher => &["stretcher"],
            Top::Panel => &["top"],
            Top::Over => &["stretcher", "rear-stretcher"],
        };
        for rail in above {
            piece.join(rail, id, JointKind::Butt, glue, row(Direction::Down));
        }
        if f.back != BackSet::Groove {
            piece.join("nailer", id, JointKind::Butt, glue, row(Direction::Front));
        }
    }
}
