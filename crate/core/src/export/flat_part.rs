//! A part lying flat before the person or the machine, as it is cut: contour, cuts and holes as seen from the face that
//! has most of them.

use crate::assembly::Kind;
use crate::geometry::Direction;
use crate::plan::{Plan, PlanPart};
use crate::sawing::{Frame, Shape, ShapeKind, shapes};

/// A rectangle that is cut into a face.
pub struct FlatShape {
    /// Near and far corner.
    pub at: [[i64; 2]; 2],
    pub depth: i64,
    /// It is made from the other face.
    pub back: bool,
}

/// A hole square to the face.
pub struct FlatHole {
    pub at: [i64; 2],
    pub diameter: i64,
    /// It is made from the other face.
    pub back: bool,
}

/// A part as it is cut, its length along x.
pub struct FlatPart {
    pub size: [i64; 2],
    /// The contour first, then what is cut out inside; each closed.
    pub loops: Vec<Vec<[i64; 2]>>,
    pub shapes: Vec<FlatShape>,
    pub holes: Vec<FlatHole>,
}

impl FlatPart {
    /// Nothing of a part that is bought.
    pub fn of(plan: &Plan, part: &PlanPart) -> Option<FlatPart> {
        if part.kind != Kind::Panel {
            return None;
        }
        let frame = Frame::of(part);
        let found = shapes(part);
        let is_through = |s: &&Shape| matches!(s.kind, ShapeKind::Notch | ShapeKind::CutOut);
        let (through, into_faces): (Vec<&Shape>, Vec<&Shape>) = found.iter().partition(is_through);
        let far = Direction::from_axis(frame.through, true);
        let on_far = into_faces.iter().filter(|s| s.face == far).count();
        let top = if on_far * 2 >= into_faces.len() { far } else { far.opposite() };
        let even = (frame.along + 1) % 3 == frame.across;
        let mirrored = even != top.is_positive();
        let width = frame.size()[1];
        let flip = |[x, y]: [i64; 2]| if mirrored { [x, width - y] } else { [x, y] };
        let shapes = into_faces
            .iter()
            .map(|s| {
                let [a, b] = [0, 1].map(|n| flip([s.along[n], s.across[n]]));
                let (near, far) = ([a[0], a[1].min(b[1])], [b[0], a[1].max(b[1])]);
                FlatShape { at: [near, far], depth: s.depth, back: s.face != top }
            })
            .collect();
        let screws = plan.joints.iter().filter(|j| j.parts.contains(&part.id));
        let holes = screws
            .flat_map(|j| &j.fasteners)
            .filter(|f| f.direction.axis() == frame.through)
            .map(|f| FlatHole {
                at: flip(frame.place(f.entry)),
                diameter: f.pilot.get(),
                back: f.direction.opposite() != top,
            })
            .collect();
        let mut loops = contour(frame.size(), &through);
        for one in &mut loops {
            for point in one.iter_mut() {
                *point = flip(*point);
            }
        }
        Some(FlatPart { size: frame.size(), loops, shapes, holes })
    }
}

/// Where the part ends: closed lines with the part to their left, the longest first.
fn contour(size: [i64; 2], through: &[&Shape]) -> Vec<Vec<[i64; 2]>> {
    let gone: Vec<[[i64; 2]; 2]> = through.iter().map(|s| [s.along, s.across]).collect();
    let planes = |axis: usize| {
        let mut all: Vec<i64> = gone.iter().flat_map(|g| g[axis]).chain([0, size[axis]]).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let (xs, ys) = (planes(0), planes(1));
    let there = |i: usize, j: usize| {
        i + 1 < xs.len() && j + 1 < ys.len() && {
            let holds = |[from, to]: [i64; 2], at: i64| from <= at && at < to;
            !gone.iter().any(|g| holds(g[0], xs[i]) && holds(g[1], ys[j]))
        }
    };
    // Every border of a cell that is there with one that is not, the part to its left.
    let mut edges: Vec<[[usize; 2]; 2]> = Vec::new();
    for i in 0..xs.len() {
        for j in 0..ys.len() {
            if !there(i, j) {
                continue;
            }
            let (left, below) = (i.checked_sub(1), j.checked_sub(1));
            if !below.is_some_and(|b| there(i, b)) {
                edges.push([[i, j], [i + 1, j]]);
            }
            if !there(i + 1, j) {
                edges.push([[i + 1, j], [i + 1, j + 1]]);
            }
            if !there(i, j + 1) {
                edges.push([[i + 1, j + 1], [i, j + 1]]);
            }
            if !left.is_some_and(|l| there(l, j)) {
                edges.push([[i, j + 1], [i, j]]);
            }
        }
    }
    let mut loops = Vec::new();
    while let Some(first) = edges.pop() {
        let mut line = vec![first[0]];
        let mut end = first[1];
        while end != first[0] {
            let Some(n) = edges.iter().position(|e| e[0] == end) else { break };
            let next = edges.swap_remove(n);
            line.push(next[0]);
            end = next[1];
        }
        let points: Vec<[i64; 2]> = line.iter().map(|[i, j]| [xs[*i], ys[*j]]).collect();
        loops.push(without_straight(&points));
    }
    let around = |l: &Vec<[i64; 2]>| {
        let next = l.iter().cycle().skip(1);
        l.iter().zip(next).map(|(a, b)| (a[0] - b[0]).abs() + (a[1] - b[1]).abs()).sum::<i64>()
    };
    loops.sort_by_key(|l| std::cmp::Reverse(around(l)));
    loops
}

/// Without the points that lie on a straight line.
fn without_straight(points: &[[i64; 2]]) -> Vec<[i64; 2]> {
    let n = points.len();
    let corner = |k: &usize| {
        let (a, b, c) = (points[(k + n - 1) % n], points[*k], points[(k + 1) % n]);
        (0..2).all(|axis| a[axis] != b[axis] || b[axis] != c[axis])
    };
    (0..n).filter(corner).map(|k| points[k]).collect()
}
