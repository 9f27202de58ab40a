//! What stands: the centre of gravity over the hull of what carries it, with margin.
//!
//! # Why that decides
//! Faces that lie level and only push (nothing sticks, nothing pulls) carry a rigid body when forces
//! upwards at their corners can be found that balance its weight and its moments: the classic
//! criterion of the support polygon. Such forces have a resultant at a weighted mean of those
//! corners, and any point of their convex hull is one. So the body is balanced when, and only when,
//! its centre of gravity lies over the hull, rim included. Height does not come into it until the
//! ground leans.
//!
//! What pushes back must not move: the bench, or what is fastened into one and stands, load included.
//! Where loose bodies carry loose bodies, see [`pile`].

pub mod pile;

use std::cmp::Ordering;

use crate::geometry::{Box3, Direction, Point, Solid};

/// How steep something is: the tangent of an angle out of plumb or level, or a coefficient of friction,
/// as an exact fraction. `out` is not below zero, `of` is above. 1 : 2 equals 2 : 4.
#[derive(Debug, Clone, Copy)]
pub struct Slope {
    /// So much out.
    pub out: i64,
    /// Over so much.
    pub of: i64,
}

impl Ord for Slope {
    fn cmp(&self, other: &Self) -> Ordering {
        let product = |a: i64, b: i64| i128::from(a) * i128::from(b);
        product(self.out, other.of).cmp(&product(other.out, self.of))
    }
}

impl PartialOrd for Slope {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Slope {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Slope {}

/// A body stands when it could be tilted this much more before it falls: 5°, rounded up from a
/// tangent of 0.08749.
pub const MARGIN: Slope = Slope { out: 7, of: 80 };

/// No margin at all.
pub const LEVEL: Slope = Slope { out: 0, of: 1 };

/// Where a weight acts: its centre of gravity, as an exact fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weight {
    /// The centre along each axis, times `mass`.
    pub moments: [i128; 3],
    /// In any unit, above zero.
    pub mass: i128,
}

impl Weight {
    /// A weight at a point.
    pub fn at(centre: Point) -> Self {
        Weight { moments: centre.map(i128::from), mass: 1 }
    }

    /// A solid of even density, as heavy as its volume.
    pub fn of(solid: &Solid) -> Self {
        Weight { moments: solid.doubled_moments(), mass: 2 * solid.volume() }
    }

    /// Both as one.
    #[must_use]
    pub fn with(&self, other: &Weight) -> Self {
        let moments = std::array::from_fn(|a| self.moments[a] + other.moments[a]);
        Weight { moments, mass: self.mass + other.mass }
    }
}

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
///
/// What carries it is taken to stay where it is. For what that leaves out see [`pile`].
pub fn stands(centre: Point, carried: &[Box3], face: Direction, level: i64) -> bool {
    stands_within(&Weight::at(centre), carried, face, level, MARGIN)
}

/// The same on one rectangle, in fewer steps: the centre is far enough inside each of its sides.
pub fn stands_on_rectangle(centre: Point, foot: &Box3, face: Direction, level: i64) -> bool {
    let height = i128::from(centre[face.axis()].abs_diff(level));
    let margin = height * i128::from(MARGIN.out);
    flat_axes(face).into_iter().all(|a| {
        let inside = (centre[a] - foot.min[a]).min(foot.max[a] - centre[a]);
        inside > 0 && i128::from(inside) * i128::from(MARGIN.of) >= margin
    })
}

/// Whether a weight is balanced on `carried`, with no margin: on the rim it just is.
///
/// ```
/// use jointwise::geometry::{Box3, Direction, Solid};
/// use jointwise::order::stability::{Weight, balanced};
/// let foot = Box3::new([0, 0, 0], [100, 100, 0]);
/// let brick = |x: i64| Weight::of(&Solid::new(Box3::new([x, 0, 0], [x + 60, 100, 30])));
/// assert!(balanced(&brick(70), &[foot], Direction::Down));
/// assert!(!balanced(&brick(71), &[foot], Direction::Down));
/// ```
pub fn balanced(weight: &Weight, carried: &[Box3], face: Direction) -> bool {
    stands_within(weight, carried, face, 0, LEVEL)
}

/// Whether a weight stands on `carried`, rectangles at `level`, so that it could be tilted as far as
/// `margin` in any direction before it falls. Exact: at the margin itself it stands, except that a
/// weight over the rim has no margin but [`LEVEL`].
///
/// Holds for coordinates up to 10 m and masses up to 10²³ of their unit; a [`Weight::of`] 1000 m³ of
/// solid has 2·10²¹.
pub fn stands_within(
    weight: &Weight,
    carried: &[Box3],
    face: Direction,
    level: i64,
    margin: Slope,
) -> bool {
    let axes = flat_axes(face);
    let hull = hull(carried, axes);
    if hull.len() < 3 {
        return false;
    }
    // All lengths below are times the mass.
    let from = |axis: usize, origin: i64| weight.moments[axis] - weight.mass * i128::from(origin);
    let height = from(face.axis(), level).unsigned_abs();
    (0..hull.len()).all(|i| {
        let (a, b) = (hull[i], hull[(i + 1) % hull.len()]);
        let (dx, dy) = (i128::from(b[0] - a[0]), i128::from(b[1] - a[1]));
        let inside = dx * from(axes[1], a[1]) - dy * from(axes[0], a[0]);
        if margin.out == 0 {
            return inside >= 0;
        }
        // Distance to the edge over height against the margin, squared: edges may run aslant.
        let (inside, length_squared) = (inside.max(0).unsigned_abs(), dx * dx + dy * dy);
        let [out, of] = [margin.out, margin.of].map(|v| u128::from(v.unsigned_abs()));
        inside > 0
            && at_least(
                &[inside, inside, of, of],
                &[height, height, out, out, length_squared.unsigned_abs()],
            )
    })
}

/// Whether one product is at least another, however large.
fn at_least(a: &[u128], b: &[u128]) -> bool {
    let short = |all: &[u128]| all.iter().try_fold(1u128, |p, &f| p.checked_mul(f));
    match (short(a), short(b)) {
        (Some(a), Some(b)) => a >= b,
        _ => long_product(a) >= long_product(b),
    }
}

/// The product of at most five factors in digits of 32 bits, most weighty first.
fn long_product(factors: &[u128]) -> [u64; 20] {
    const DIGIT: u64 = 0xffff_ffff;
    let mut product = [0u64; 20];
    product[0] = 1;
    for factor in factors {
        let mut next = [0u64; 20];
        for shift in 0..4 {
            let digit = (factor >> (32 * shift)) as u64 & DIGIT;
            let mut carry = 0;
            for at in 0..20 - shift {
                let sum = next[at + shift] + product[at] * digit + carry;
                next[at + shift] = sum & DIGIT;
                carry = sum >> 32;
            }
        }
        product = next;
    }
    product.reverse();
    product
}

/// How far a weight on `carried`, rectangles at `level`, can be tilted `towards` a direction that lies
/// in `face` until it is just balanced. None when nothing carries it, when it falls that way already,
/// or when its centre is no higher than `level`, so that tilting does not tip it.
pub fn tips_at(
    weight: &Weight,
    carried: &[Box3],
    face: Direction,
    level: i64,
    towards: Direction,
) -> Option<Slope> {
    if towards.axis() == face.axis() {
        return None;
    }
    let rim = carried.iter().map(|r| r.face(towards) * towards.sign()).max()?;
    let along = weight.moments[towards.axis()] * i128::from(towards.sign());
    let out = weight.mass * i128::from(rim) - along;
    let level = weight.mass * i128::from(level);
    let of = (weight.moments[face.axis()] - level) * i128::from(-face.sign());
    if out < 0 || of <= 0 {
        return None;
    }
    let divisor = gcd(out, of);
    Some(Slope { out: (out / divisor).try_into().ok()?, of: (of / divisor).try_into().ok()? })
}

fn gcd(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Whether what lies on ground so steep slides, held by friction alone: when the slope is more than
/// the coefficient of friction, whatever it weighs.
pub fn slides(slope: Slope, friction: Slope) -> bool {
    slope > friction
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel(thick: i64, high: i64) -> bool {
        let foot = Box3::new([0, 0, 0], [thick, 600_000, 0]);
        stands([thick / 2, 300_000, high / 2], &[foot], Direction::Down, 0)
    }

    #[test]
    fn one_rectangle_is_judged_as_any_feet_are() {
        let foot = Box3::new([0, 0, 0], [18_000, 600_000, 0]);
        for x in [-1, 0, 1, 7_000, 9_000, 17_999, 18_000] {
            for high in [0, 1, 50_000, 80_000, 102_857, 102_858, 200_000] {
                let centre = [x, 300_000, high];
                assert_eq!(
                    stands_on_rectangle(centre, &foot, Direction::Down, 0),
                    stands(centre, &[foot], Direction::Down, 0),
                    "{x} {high}"
                );
            }
        }
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
