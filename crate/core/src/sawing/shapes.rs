//! What is cut out of a part once it has its size: grooves, dadoes, rabbets, notches, cut-outs.

use serde::{Deserialize, Serialize};

use crate::assembly::probe::others;
use crate::geometry::{Box3, Direction, Solid};
use crate::plan::PlanPart;

/// How a part lies when it lies flat, as it is cut: its axes in the standing piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Frame {
    /// The finished part before anything was cut out of it.
    pub bounds: Box3,
    /// The axis along its length.
    pub along: usize,
    /// The axis across it.
    pub across: usize,
    /// The axis through its thickness.
    pub through: usize,
    /// By how much it is cut smaller than it stands, along and across, at its near and its far edge: banding that is put
    /// on later, and half the air that it has in grooves.
    inset: [[i64; 2]; 2],
}

fn through(part: &PlanPart, bounds: &Box3) -> usize {
    let mut axes = [0, 1, 2];
    axes.sort_by_key(|a| (bounds.extent(*a) != part.thickness, bounds.extent(*a), *a));
    axes[0]
}

/// The part without what only stands in it, as pins for a shelf: no thicker than its sheet.
fn board(part: &PlanPart) -> Vec<Box3> {
    let bounds = Solid::from_boxes(part.boxes.clone()).bounds();
    let axis = through(part, &bounds);
    let beyond = bounds.extent(axis) - part.thickness;
    if beyond <= 0 {
        return part.boxes.clone();
    }
    let cut = |from: i64, to: i64| -> Vec<Box3> {
        let clipped = part.boxes.iter().map(|b| {
            let mut b = *b;
            b.min[axis] = b.min[axis].max(from);
            b.max[axis] = b.max[axis].min(to);
            b
        });
        clipped.filter(Box3::is_valid).collect()
    };
    let low = cut(bounds.min[axis], bounds.max[axis] - beyond);
    let high = cut(bounds.min[axis] + beyond, bounds.max[axis]);
    // Most of it is the sheet, on whichever side that lies.
    let volume = |boxes: &[Box3]| boxes.iter().map(Box3::volume).sum::<i128>();
    if volume(&low) >= volume(&high) { low } else { high }
}

impl Frame {
    /// Of a part of the plan.
    pub fn of(part: &PlanPart) -> Frame {
        let bounds = Solid::from_boxes(board(part)).bounds();
        let through = through(part, &bounds);
        let (mut along, mut across) = others(through);
        if bounds.extent(across) > bounds.extent(along) {
            (along, across) = (across, along);
        }
        let inset = [0, 1].map(|n| inset(part, n, [along, across][n], &bounds));
        Frame { bounds, along, across, through, inset }
    }

    /// Size along and across, as it is cut.
    pub fn size(&self) -> [i64; 2] {
        [0, 1].map(|n| {
            self.bounds.extent([self.along, self.across][n]) - self.inset[n].iter().sum::<i64>()
        })
    }

    /// Where a point of the standing piece lies on the part as it is cut: along and across.
    pub fn place(&self, point: [i64; 3]) -> [i64; 2] {
        [0, 1].map(|n| {
            let axis = [self.along, self.across][n];
            point[axis] - self.bounds.min[axis] - self.inset[n][0]
        })
    }
}

/// What a part lacks of its place at the near and the far edge of an axis: its first one is along.
fn inset(part: &PlanPart, n: usize, axis: usize, bounds: &Box3) -> [i64; 2] {
    let Some(making) = &part.making else { return [0; 2] };
    let banding = [false, true].map(|far| {
        let edge = Direction::from_axis(axis, far);
        if making.banded.contains(&edge) { making.banding } else { 0 }
    });
    let air = bounds.extent(axis) - making.cut[n] - banding[0] - banding[1];
    [banding[0] + air / 2, banding[1] + air - air / 2]
}

/// What a cut is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ShapeKind {
    /// A channel along the part.
    Groove,
    /// A channel across it.
    Dado,
    /// A step along an edge.
    Rabbet,
    /// A recess that reaches no edge, or one only.
    Recess,
    /// Out of a corner or an edge, through the whole thickness.
    Notch,
    /// Inside, through the whole thickness.
    CutOut,
}

/// One cut in a part. Distances from its near corner as it is cut: least coordinates in the standing piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shape {
    /// What it is.
    pub kind: ShapeKind,
    /// From and to, along the part's length.
    pub along: [i64; 2],
    /// From and to, across it.
    pub across: [i64; 2],
    /// How deep, from the face; the thickness where it goes through.
    pub depth: i64,
    /// The face it is cut into; of what goes through, the one it is shown from.
    pub face: Direction,
}

/// Everything that is cut out of a part, in a fixed order. Two shapes may share room: a groove runs on through a notch.
pub fn shapes(part: &PlanPart) -> Vec<Shape> {
    let frame = Frame::of(part);
    let mut found: Vec<Shape> =
        Removed::new(part, &frame).boxes().iter().filter_map(|b| shape(&frame, b)).collect();
    found.sort_by_key(|s| (s.kind, s.along, s.across, s.depth));
    found
}

/// What is missing from the part's box, in cells between all planes that its boxes lie on.
struct Removed {
    /// Planes along each axis, from the box's near to its far face.
    planes: [Vec<i64>; 3],
    missing: Vec<bool>,
    /// Axis through the thickness.
    through: usize,
}

/// First and last cell along each axis.
type Cells = [[usize; 2]; 3];

impl Removed {
    fn new(part: &PlanPart, frame: &Frame) -> Removed {
        let boxes = board(part);
        let planes: [Vec<i64>; 3] = std::array::from_fn(|axis| {
            let mut all: Vec<i64> = boxes.iter().flat_map(|b| [b.min[axis], b.max[axis]]).collect();
            all.sort_unstable();
            all.dedup();
            all
        });
        let mut removed = Removed { planes, missing: Vec::new(), through: frame.through };
        let cells = removed.cells();
        removed.missing = (0..cells.iter().product())
            .map(|n| {
                let cell = removed.split(n);
                let inside = |b: &Box3| {
                    (0..3).all(|a| {
                        let near = removed.planes[a][cell[a]];
                        b.min[a] <= near && near < b.max[a]
                    })
                };
                !boxes.iter().any(inside)
            })
            .collect();
        removed
    }

    fn cells(&self) -> [usize; 3] {
        std::array::from_fn(|a| self.planes[a].len().saturating_sub(1))
    }

    fn split(&self, n: usize) -> [usize; 3] {
        let [x, y, _] = self.cells();
        [n % x, n / x % y, n / (x * y)]
    }

    fn is_missing(&self, range: &Cells) -> bool {
        let [x, y, _] = self.cells();
        let span = |a: usize| range[a][0]..=range[a][1];
        span(2).all(|k| span(1).all(|j| span(0).all(|i| self.missing[i + x * (j + y * k)])))
    }

    /// The largest box of missing cells round one of them that grows along the axes in that order.
    fn grown(&self, cell: [usize; 3], order: [usize; 3]) -> Cells {
        let mut range: Cells = cell.map(|c| [c, c]);
        for axis in order {
            while range[axis][0] > 0 {
                let mut wider = range;
                wider[axis][0] -= 1;
                if !self.is_missing(&wider) {
                    break;
                }
                range = wider;
            }
            while range[axis][1] + 1 < self.cells()[axis] {
                let mut wider = range;
                wider[axis][1] += 1;
                if !self.is_missing(&wider) {
                    break;
                }
                range = wider;
            }
        }
        range
    }

    fn of(&self, range: &Cells) -> Box3 {
        let at = |end: usize| std::array::from_fn(|a| self.planes[a][range[a][end] + end]);
        Box3::new(at(0), at(1))
    }

    /// Boxes that together are all that is missing; first what goes through, then what is cut into a face.
    fn boxes(&self) -> Vec<Box3> {
        let w = self.through;
        let flat = [(w + 1) % 3, (w + 2) % 3];
        let mut covered = vec![false; self.missing.len()];
        let mut found = Vec::new();
        for through in [true, false] {
            for n in 0..self.missing.len() {
                if !self.missing[n] || covered[n] {
                    continue;
                }
                let cell = self.split(n);
                let column = self.grown(cell, [w, w, w]);
                let whole = column[w] == [0, self.cells()[w] - 1];
                if whole != through {
                    continue;
                }
                let [u, v] = flat;
                let orders = if through {
                    vec![[w, u, v], [w, v, u]]
                } else {
                    vec![[u, v, w], [v, u, w], [w, u, v], [w, v, u]]
                };
                let grown = orders.into_iter().map(|order| self.grown(cell, order));
                let Some(range) = grown.max_by_key(|r| self.of(r).volume()) else { continue };
                for (m, done) in covered.iter_mut().enumerate() {
                    let cell = self.split(m);
                    *done |= (0..3).all(|a| (range[a][0]..=range[a][1]).contains(&cell[a]));
                }
                found.push(self.of(&range));
            }
        }
        found
    }
}

fn shape(frame: &Frame, cut: &Box3) -> Option<Shape> {
    let (near, far, size) = (frame.place(cut.min), frame.place(cut.max), frame.size());
    // What lies in the banding alone is not there to be cut.
    let [along, across] = [0, 1].map(|n| [near[n].max(0), far[n].min(size[n])]);
    if along[0] >= along[1] || across[0] >= across[1] {
        return None;
    }
    let deep = [cut.min, cut.max].map(|p| p[frame.through] - frame.bounds.min[frame.through]);
    let [length, width] = size;
    let thickness = frame.bounds.extent(frame.through);
    let (low, high) = (deep[0] == 0, deep[1] == thickness);
    // A slot inside an edge opens to neither face: nothing that a saw table or a router on the face makes.
    let positive = match (low, high) {
        (_, true) => true,
        (true, false) => false,
        (false, false) => return None,
    };
    let ends = |r: [i64; 2], full: i64| usize::from(r[0] == 0) + usize::from(r[1] == full);
    let (ends_along, ends_across) = (ends(along, length), ends(across, width));
    let kind = if low && high {
        if ends_along + ends_across > 0 { ShapeKind::Notch } else { ShapeKind::CutOut }
    } else {
        let longer_along = along[1] - along[0] >= across[1] - across[0];
        match (ends_along, ends_across) {
            (2, 1) | (1, 2) | (2, 2) => ShapeKind::Rabbet,
            (2, 0) => ShapeKind::Groove,
            (0, 2) => ShapeKind::Dado,
            (1, 1) => ShapeKind::Rabbet,
            (1, 0) if longer_along => ShapeKind::Groove,
            (0, 1) if !longer_along => ShapeKind::Dado,
            _ => ShapeKind::Recess,
        }
    };
    let face = Direction::from_axis(frame.through, positive);
    Some(Shape { kind, along, across, depth: deep[1] - deep[0], face })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;
    use crate::plan::Making;

    fn part(cuts: &[[i64; 6]]) -> PlanPart {
        // 600 long (x), 300 wide (z), 18 thick (y).
        let mut solid = Solid::new(Box3::new([100, 50, 20], [700, 68, 320]));
        for cut in cuts {
            let b: Box3 = (*cut).into();
            let at = |p: [i64; 3]| [p[0] + 100, p[1] + 50, p[2] + 20];
            solid.cut(&Box3::new(at(b.min), at(b.max)));
        }
        let plan = sample::plan();
        PlanPart {
            length: 600,
            width: 300,
            thickness: 18,
            boxes: solid.boxes().to_vec(),
            making: None,
            ..plan.parts[0].clone()
        }
    }

    #[test]
    fn each_kind_is_told_by_the_edges_it_reaches() {
        let kinds =
            |cut: [i64; 6]| shapes(&part(&[cut]))[..].iter().map(|s| s.kind).collect::<Vec<_>>();
        assert_eq!(kinds([0, 12, 10, 600, 18, 22]), [ShapeKind::Groove]);
        assert_eq!(kinds([50, 12, 10, 600, 18, 22]), [ShapeKind::Groove], "stopped");
        assert_eq!(kinds([200, 12, 0, 218, 18, 300]), [ShapeKind::Dado]);
        assert_eq!(kinds([0, 0, 290, 600, 6, 300]), [ShapeKind::Rabbet]);
        assert_eq!(kinds([0, 0, 0, 35, 18, 13]), [ShapeKind::Notch]);
        assert_eq!(kinds([100, 0, 100, 200, 18, 200]), [ShapeKind::CutOut]);
        assert_eq!(kinds([100, 12, 100, 200, 18, 200]), [ShapeKind::Recess]);
    }

    #[test]
    fn a_groove_tells_its_face_and_its_depth() {
        let found = shapes(&part(&[[0, 12, 10, 600, 18, 22], [0, 0, 280, 600, 5, 286]]));
        assert_eq!(found.len(), 2);
        assert_eq!(
            (found[0].face, found[0].depth, found[0].across),
            (Direction::Back, 6, [10, 22])
        );
        assert_eq!(
            (found[1].face, found[1].depth, found[1].across),
            (Direction::Front, 5, [280, 286])
        );
    }

    #[test]
    fn distances_are_those_of_the_part_as_it_is_cut() {
        // Banded at its left and its upper edge, with 4 of air along and 2 across.
        let mut one =
            part(&[[0, 12, 10, 600, 18, 22], [200, 12, 0, 218, 18, 300], [0, 0, 0, 35, 18, 13]]);
        one.making = Some(Making {
            label: String::new(),
            cut: [595, 297],
            shows: Vec::new(),
            banded: vec![Direction::Left, Direction::Up],
            banding: 1,
            mirrors: None,
            work: Vec::new(),
        });
        let frame = Frame::of(&one);
        assert_eq!(frame.size(), [595, 297]);
        assert_eq!(frame.place([100, 50, 20]), [-3, -1]);
        let found: Vec<_> = shapes(&one).iter().map(|s| (s.kind, s.along, s.across)).collect();
        assert_eq!(
            found,
            [
                (ShapeKind::Groove, [0, 595], [9, 21]),
                (ShapeKind::Dado, [197, 215], [0, 297]),
                (ShapeKind::Notch, [0, 32], [0, 12]),
            ]
        );
    }

    #[test]
    fn a_groove_runs_on_through_a_notch() {
        let one =
            part(&[[0, 12, 10, 600, 18, 16], [0, 0, 0, 35, 18, 13], [565, 0, 0, 600, 18, 13]]);
        let found = shapes(&one);
        let kinds: Vec<_> = found.iter().map(|s| s.kind).collect();
        assert_eq!(kinds, [ShapeKind::Groove, ShapeKind::Notch, ShapeKind::Notch]);
        assert_eq!((found[0].along, found[0].across), ([0, 600], [10, 16]));
        assert_eq!((found[1].along, found[1].across), ([0, 35], [0, 13]));
    }

    #[test]
    fn what_is_cut_out_makes_the_part_of_the_whole() {
        let one = part(&[
            [0, 12, 10, 600, 18, 22],
            [200, 12, 0, 218, 18, 300],
            [0, 0, 0, 35, 18, 13],
            [0, 0, 290, 600, 6, 300],
        ]);
        let mut again = Solid::new(Box3::new([0; 3], [600, 18, 300]));
        for s in shapes(&one) {
            let deep = if s.face == Direction::Back { [18 - s.depth, 18] } else { [0, s.depth] };
            again.cut(&Box3::new(
                [s.along[0], deep[0], s.across[0]],
                [s.along[1], deep[1], s.across[1]],
            ));
        }
        assert_eq!(again.volume(), Solid::from_boxes(one.boxes).volume());
    }
}
