//! Exact questions about solids that screws and checks ask.

use crate::geometry::{Box3, Direction, Point, Solid};

/// How far unbroken material reaches from `from` along `direction`; zero when it starts in air.
///
/// Boxes are taken half-open across the ray, so a ray along a seam between two boxes of one
/// solid runs in exactly one of them.
pub fn depth_from(solid: &Solid, from: Point, direction: Direction) -> i64 {
    let axis = direction.axis();
    let mut at = from[axis];
    // Each pass moves on by one box; boxes are disjoint, so there are at most as many passes.
    for _ in solid.boxes() {
        let next = solid.boxes().iter().find(|b| {
            let beside =
                (0..3).filter(|&a| a != axis).all(|a| b.min[a] <= from[a] && from[a] < b.max[a]);
            let entered = if direction.is_positive() {
                b.min[axis] <= at && at < b.max[axis]
            } else {
                b.min[axis] < at && at <= b.max[axis]
            };
            beside && entered
        });
        let Some(next) = next else { break };
        at = next.face(direction);
    }
    (at - from[axis]).abs()
}

/// The faces at which `first` meets `second` going `direction`, joined where cuts had split them;
/// largest first.
pub fn faces_towards(first: &Solid, second: &Solid, direction: Direction) -> Vec<Box3> {
    let mut faces: Vec<Box3> = first
        .contacts(second)
        .into_iter()
        .filter(|c| c.direction == direction)
        .map(|c| c.face)
        .collect();
    while let Some((i, j)) = mergeable(&faces, direction.axis()) {
        let joined = faces[i].union(&faces[j]);
        faces.remove(j);
        faces[i] = joined;
    }
    faces.sort_by_key(|f| (std::cmp::Reverse(area(f, direction.axis())), *f));
    faces
}

/// Two rectangles of one plane that make a rectangle together.
fn mergeable(faces: &[Box3], normal: usize) -> Option<(usize, usize)> {
    for i in 0..faces.len() {
        for j in i + 1..faces.len() {
            let (a, b) = (&faces[i], &faces[j]);
            let same = |axis: usize| a.min[axis] == b.min[axis] && a.max[axis] == b.max[axis];
            let meets = |axis: usize| a.max[axis] == b.min[axis] || b.max[axis] == a.min[axis];
            let (u, v) = others(normal);
            if same(normal) && ((same(u) && meets(v)) || (same(v) && meets(u))) {
                return Some((i, j));
            }
        }
    }
    None
}

/// The two axes across `axis`, in order.
pub fn others(axis: usize) -> (usize, usize) {
    match axis {
        0 => (1, 2),
        1 => (0, 2),
        _ => (0, 1),
    }
}

/// Area of a rectangle without thickness along `normal`.
fn area(face: &Box3, normal: usize) -> i128 {
    let (u, v) = others(normal);
    i128::from(face.extent(u)) * i128::from(face.extent(v))
}

/// The air between two solids: zero when they touch or overlap, else the widest of the gaps along
/// the axes between the two boxes that are nearest by that measure.
pub fn gap(first: &Solid, second: &Solid) -> i64 {
    let apart = |a: &Box3, b: &Box3| (0..3).map(|axis| (-a.overlap(b, axis)).max(0)).max();
    first
        .boxes()
        .iter()
        .flat_map(|a| second.boxes().iter().filter_map(move |b| apart(a, b)))
        .min()
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ray_crosses_the_seams_of_a_cut_solid_and_stops_at_a_groove() {
        let mut side = Solid::new(Box3::new([0, 0, 0], [18, 560, 720]));
        side.cut(&Box3::new([0, 0, 0], [18, 75, 100])); // toe-kick notch
        side.cut(&Box3::new([12, 0, 100], [18, 560, 118])); // dado
        assert_eq!(depth_from(&side, [0, 300, 110], Direction::Right), 12);
        assert_eq!(depth_from(&side, [0, 300, 100], Direction::Right), 12, "lower edge is groove");
        assert_eq!(depth_from(&side, [0, 300, 118], Direction::Right), 18, "upper edge is not");
        assert_eq!(depth_from(&side, [5, 0, 300], Direction::Back), 560);
        assert_eq!(depth_from(&side, [5, 10, 50], Direction::Right), 0, "in the notch");
    }

    #[test]
    fn faces_split_by_a_cut_elsewhere_are_one_again() {
        let mut side = Solid::new(Box3::new([0, 0, 0], [18, 560, 720]));
        side.cut(&Box3::new([0, 0, 0], [18, 75, 100]));
        let bottom = Solid::new(Box3::new([18, 0, 100], [500, 560, 118]));
        assert_eq!(side.contacts(&bottom).len(), 2);
        let faces = faces_towards(&side, &bottom, Direction::Right);
        assert_eq!(faces, [Box3::new([18, 0, 100], [18, 560, 118])]);
    }

    #[test]
    fn the_gap_is_the_air_between() {
        let a = Solid::new(Box3::new([0; 3], [10; 3]));
        assert_eq!(gap(&a, &Solid::new(Box3::new([13, 0, 0], [20, 10, 10]))), 3);
        assert_eq!(gap(&a, &Solid::new(Box3::new([10, 0, 0], [20, 10, 10]))), 0);
    }
}
