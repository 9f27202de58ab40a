//! What stands on what.

use super::blocks::{Block, Point, Way, across, axis};

/// Twice the signed area of a triangle: positive when the turn is to the left.
fn turn(a: [i64; 2], b: [i64; 2], c: [i64; 2]) -> i128 {
    i128::from(b[0] - a[0]) * i128::from(c[1] - a[1])
        - i128::from(b[1] - a[1]) * i128::from(c[0] - a[0])
}

/// The edges of the convex hull of some rectangles seen along a direction, by trying every two
/// corners: an edge has all others on its left.
fn hull_edges(rectangles: &[Block], face: Way) -> Vec<[[i64; 2]; 2]> {
    let [u, v] = across(axis(face));
    let mut corners: Vec<[i64; 2]> = Vec::new();
    for r in rectangles {
        for x in [r.lo[u], r.hi[u]] {
            corners.extend([[x, r.lo[v]], [x, r.hi[v]]]);
        }
    }
    corners.sort_unstable();
    corners.dedup();
    let mut edges = Vec::new();
    for &a in &corners {
        for &b in &corners {
            if a != b && corners.iter().all(|&c| turn(a, b, c) >= 0) {
                edges.push([a, b]);
            }
        }
    }
    edges
}

/// Whether what has its centre of gravity there stands on rectangles, of which the lowest lies at
/// `level`: it could be tilted by 5° (tangent 0.0875) about any edge before it falls.
pub fn stands(centre: Point, carried: &[Block], face: Way, level: i64) -> bool {
    let [u, v] = across(axis(face));
    let c = [centre[u], centre[v]];
    let height = i128::from((centre[axis(face)] - level).abs());
    let edges = hull_edges(carried, face);
    !edges.is_empty()
        && edges.iter().all(|&[a, b]| {
            let inside = turn(a, b, c);
            let length_squared: i128 =
                (0..2).map(|i| i128::from(b[i] - a[i]) * i128::from(b[i] - a[i])).sum();
            // Distance to the edge is `inside` over its length; both sides squared.
            let needed = 875 * height;
            inside > 0 && (10_000 * inside).pow(2) >= needed * needed * length_squared
        })
}

/// Whether the centre lies over the hull of what carries it or on its edge.
pub fn is_over(centre: Point, carried: &[Block], face: Way) -> bool {
    let [u, v] = across(axis(face));
    let c = [centre[u], centre[v]];
    let edges = hull_edges(carried, face);
    !edges.is_empty() && edges.iter().all(|&[a, b]| turn(a, b, c) >= 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panel_on_its_edge_stands_up_to_twice_its_thickness_over_the_tangent() {
        // Half of 18 mm over 0.0875 is 102.9 mm of height for the centre.
        let foot = Block { lo: [0; 3], hi: [18_000, 300_000, 0] };
        assert!(stands([9_000, 150_000, 102_850], &[foot], 4, 0));
        assert!(!stands([9_000, 150_000, 102_860], &[foot], 4, 0));
        assert!(is_over([18_000, 150_000, 102_860], &[foot], 4));
        assert!(!is_over([18_001, 150_000, 102_860], &[foot], 4));
    }
}
