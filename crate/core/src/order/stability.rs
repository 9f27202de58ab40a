//! What stands: the centre of gravity over the hull of what carries it, with margin.

use crate::geometry::{Box3, Direction, Point};

/// A body stands when it could be tilted this much more before it falls: tan 5° in ten-thousandths.
pub const MARGIN: i128 = 875;

/// The two axes that lie in the bench when `face` is down.
pub fn flat_axes(face: Direction) -> [usize; 2] {
    match face.axis() {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    }
}

/// Convex hull of the corners of rectangles lying in a plane, counter-clockwise.
/// Empty when there are none.
pub fn hull(rectangles: &[Box3], axes: [usize; 2]) -> Vec<[i64; 2]> {
    let mut points: Vec<[i64; 2]> = rectangles
        .iter()
        .flat_map(|r| {
            let (a, b) = (axes[0], axes[1]);
            [[r.min[a], r.min[b]], [r.max[a], r.min[b]], [r.max[a], r.max[b]], [r.min[a], r.max[b]]]
        })
        .collect();
    points.sort_unstable();
    points.dedup();
    if points.len() < 3 {
        return Vec::new();
    }
    let half = |points: &mut dyn Iterator<Item = [i64; 2]>| {
        let mut chain: Vec<[i64; 2]> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                if cross(a, b, p) > 0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut points.iter().copied());
    lower.extend(half(&mut points.iter().rev().copied()));
    lower
}

fn cross(a: [i64; 2], b: [i64; 2], p: [i64; 2]) -> i128 {
    i128::from(b[0] - a[0]) * i128::from(p[1] - a[1])
        - i128::from(b[1] - a[1]) * i128::from(p[0] - a[0])
}

/// Whether a body with its centre of gravity at `centre` stands on `carried`, rectangles that lie
/// at `level` (a coordinate along the axis of `face`), with the margin of 5°.
pub fn stands(centre: Point, carried: &[Box3], face: Direction, level: i64) -> bool {
    let axes = flat_axes(face);
    let hull = hull(carried, axes);
    if hull.len() < 3 {
        return false;
    }
    let height = i128::from((centre[face.axis()] - level).abs());
    let c = [centre[axes[0]], centre[axes[1]]];
    (0..hull.len()).all(|i| {
        let (a, b) = (hull[i], hull[(i + 1) % hull.len()]);
        let inside = cross(a, b, c);
        let (dx, dy) = (i128::from(b[0] - a[0]), i128::from(b[1] - a[1]));
        // Distance to the edge against the margin, both squared to stay in integers; lengths in
        // units of 10 µm keep the squares within the word.
        let inside = inside / 100;
        let length_squared = (dx * dx + dy * dy) / 100;
        let needed = MARGIN * (height / 10);
        inside > 0 && (inside * 10_000) * (inside * 10_000) >= needed * needed * length_squared
    })
}

/// Whether the centre of gravity lies over the hull of the rectangles that carry it, or its edge.
pub fn is_over(centre: Point, carried: &[Box3], face: Direction) -> bool {
    let axes = flat_axes(face);
    let hull = hull(carried, axes);
    let c = axes.map(|a| centre[a]);
    hull.len() > 2 && (0..hull.len()).all(|i| cross(hull[i], hull[(i + 1) % hull.len()], c) >= 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel(thick: i64, high: i64) -> bool {
        let foot = Box3::new([0, 0, 0], [thick, 600_000, 0]);
        stands([thick / 2, 300_000, high / 2], &[foot], Direction::Down, 0)
    }

    #[test]
    fn a_board_on_edge_stands_only_when_thick_enough_for_its_height() {
        // Half the thickness against tan 5° times half the height: 18 / 0.0875 = 205.7.
        assert!(panel(18_000, 205_000));
        assert!(!panel(18_000, 206_000));
    }

    #[test]
    fn the_hull_of_two_feet_spans_the_gap_between_them() {
        let feet = [Box3::new([0, 0, 0], [10, 100, 0]), Box3::new([90, 0, 0], [100, 100, 0])];
        assert_eq!(hull(&feet, [0, 1]), [[0, 0], [100, 0], [100, 100], [0, 100]]);
        assert!(stands(
            [50_000, 50_000, 100_000],
            &[Box3::new([0; 3], [100_000, 100_000, 0])],
            Direction::Down,
            0
        ));
        assert!(!stands([200, 50, 10], &feet, Direction::Down, 0));
    }

    #[test]
    fn nothing_below_carries_nothing() {
        assert!(!stands([0; 3], &[], Direction::Down, 0));
    }
}
