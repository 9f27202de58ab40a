//! Diagonals: what they should be, whether a tape can lie along them, and how to put right what
//! they show.

use crate::geometry::{Box3, Direction, Point};

use super::checks::distance;
use super::scene::{Scene, members};

/// Two lines across a frame, corner to corner.
pub type Lines = [[Point; 2]; 2];

/// By how much one side of a frame must be pushed along itself, towards the shorter diagonal, to
/// make it square: (d1² − d2²) / 4a for diagonals d1 and d2 and the side a that is pushed.
///
/// Follows from the law of cosines, exactly, for a parallelogram: with the far side out by s,
/// d1² − d2² = 4·a·s. Lengths in micrometres, to the nearest; negative when d2 is the longer.
///
/// ```
/// use jointwise::order::square::shear;
/// // 600 × 800 mm, out by 3 mm along the 600: 1002.3 and 998.2 mm.
/// assert_eq!(shear(1_001_804, 998_204, 600_000), 3_000);
/// ```
pub fn shear(d1: i64, d2: i64, a: i64) -> i64 {
    let (d1, d2, four) = (i128::from(d1), i128::from(d2), 4 * i128::from(a.max(1)));
    let squares = d1 * d1 - d2 * d2;
    let rounded = (2 * squares.abs() + four) / (2 * four);
    i64::try_from(rounded * squares.signum()).unwrap_or(0)
}

/// The diagonals of the rectangle that a set shows on `side`: over the corners outside when parts
/// are there, else between the corners inside. Nothing when no tape can lie along them.
pub fn lines(scene: &Scene, set: u64, side: Direction) -> Option<Lines> {
    let mut all = members(set).map(|i| scene.items[i].bounds);
    let first = all.next()?;
    let around: Box3 = all.fold(first, |a, b| a.union(&b));
    let outside = corners(&around, side, around.face(side));
    let on_a_part = |p: &Point| members(set).any(|i| scene.items[i].solid.holds(*p));
    if outside.iter().flatten().all(on_a_part) && is_free(scene, set, &outside) {
        return Some(outside);
    }
    inside(scene, set, side).filter(|lines| is_free(scene, set, lines))
}

fn corners(r: &Box3, side: Direction, level: i64) -> Lines {
    let [u, v] = super::stability::flat_axes(side);
    let corner = |at_u: i64, at_v: i64| {
        let mut p = [0; 3];
        p[u] = at_u;
        p[v] = at_v;
        p[side.axis()] = level;
        p
    };
    [
        [corner(r.min[u], r.min[v]), corner(r.max[u], r.max[v])],
        [corner(r.max[u], r.min[v]), corner(r.min[u], r.max[v])],
    ]
}

/// The widest opening between two parts that face each other across it and two more that close
/// it, measured level with the lowest of their edges on `side`.
fn inside(scene: &Scene, set: u64, side: Direction) -> Option<Lines> {
    let [u, v] = super::stability::flat_axes(side);
    let mut best: Option<(i128, Lines)> = None;
    for a in members(set) {
        for b in members(set) {
            let (first, second) = (&scene.items[a].datum, &scene.items[b].datum);
            if first.max[u] >= second.min[u] {
                continue;
            }
            let span = (first.max[u], second.min[u]);
            let mut ends: Vec<&Box3> = members(set)
                .filter(|&c| c != a && c != b)
                .map(|c| &scene.items[c].datum)
                .filter(|d| d.min[u] <= span.0 && d.max[u] >= span.1)
                .collect();
            ends.sort_by_key(|d| d.min[v]);
            for pair in ends.windows(2) {
                let [low, high] = pair else { continue };
                if low.max[v] >= high.min[v] {
                    continue;
                }
                let mut r = *first;
                r.min[u] = span.0;
                r.max[u] = span.1;
                r.min[v] = low.max[v];
                r.max[v] = high.min[v];
                let levels = [first, second, low, high].map(|d| d.face(side) * side.sign());
                let level = levels.into_iter().min().unwrap_or(0) * side.sign();
                let lines = corners(&r, side, level);
                let on_a_part = |p: &Point| members(set).any(|i| scene.items[i].solid.holds(*p));
                let area = i128::from(r.extent(u)) * i128::from(r.extent(v));
                if lines.iter().flatten().all(on_a_part)
                    && best.as_ref().is_none_or(|(most, _)| area > *most)
                {
                    best = Some((area, lines));
                }
            }
        }
    }
    best.map(|(_, lines)| lines)
}

/// Whether nothing stands in the way of a tape along both lines.
fn is_free(scene: &Scene, set: u64, lines: &Lines) -> bool {
    let boxes = || members(set).flat_map(|i| scene.items[i].solid.boxes());
    lines.iter().all(|line| boxes().all(|b| !crosses(line, b)))
}

/// Whether a straight line meets the inside of a box; touching is free.
pub fn crosses(line: &[Point; 2], b: &Box3) -> bool {
    // The part of the line, as fractions of its length, that is inside on every axis.
    let (mut from, mut to) = ((0i128, 1i128), (1i128, 1i128));
    let less = |a: (i128, i128), b: (i128, i128)| a.0 * b.1 < b.0 * a.1;
    for (axis, (&p, &q)) in line[0].iter().zip(&line[1]).enumerate() {
        let (p, q) = (i128::from(p), i128::from(q));
        let (low, high) = (i128::from(b.min[axis]), i128::from(b.max[axis]));
        let run = q - p;
        if run == 0 {
            if p <= low || p >= high {
                return false;
            }
            continue;
        }
        let (mut enters, mut leaves) = ((low - p, run), (high - p, run));
        if run < 0 {
            (enters, leaves) = ((p - high, -run), (p - low, -run));
        }
        if less(from, enters) {
            from = enters;
        }
        if less(leaves, to) {
            to = leaves;
        }
    }
    less(from, to)
}

/// Lengths of the two sides of the rectangle with these diagonals, and which axis each runs along.
pub fn sides(lines: &Lines) -> [(usize, [[Point; 2]; 2]); 2] {
    let [[a, c], [b, d]] = *lines;
    let axis = |p: Point, q: Point| (0..3).find(|&i| p[i] != q[i]).unwrap_or(0);
    [(axis(a, b), [[a, b], [d, c]]), (axis(a, d), [[a, d], [b, c]])]
}

/// The length of the longer side, which is the one that is pushed.
pub fn longer_side(lines: &Lines) -> i64 {
    lengths(lines).into_iter().max().unwrap_or(0)
}

/// The length of the shorter side.
pub fn shorter_side(lines: &Lines) -> i64 {
    lengths(lines).into_iter().min().unwrap_or(0)
}

fn lengths(lines: &Lines) -> [i64; 2] {
    sides(lines).map(|(_, [[p, q], _])| distance(p, q))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_pushed_back_by_the_shear_is_square_again() {
        // A frame 900 × 600 leaning by s along its 900: its diagonals by Pythagoras.
        for s in [-7_000i64, -500, 0, 1_000, 12_345] {
            let d = |run: i64| distance([0; 3], [run, 600_000, 0]);
            let (d1, d2) = (d(900_000 + s), d(900_000 - s));
            assert!((shear(d1, d2, 900_000) - s).abs() <= 1, "{s}: {d1} {d2}");
        }
    }

    #[test]
    fn a_line_through_a_box_crosses_it_and_one_along_its_face_does_not() {
        let b = Box3::new([10, 10, 10], [20, 20, 20]);
        assert!(crosses(&[[0, 0, 0], [30, 30, 30]], &b));
        assert!(crosses(&[[30, 15, 15], [0, 15, 15]], &b));
        assert!(!crosses(&[[0, 10, 15], [30, 10, 15]], &b));
        assert!(!crosses(&[[0, 0, 0], [10, 10, 10]], &b));
        assert!(!crosses(&[[0, 30, 15], [30, 0, 15]], &Box3::new([15, 15, 10], [20, 20, 20])));
    }
}
