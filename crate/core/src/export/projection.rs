//! From bench axes to the sheet: isometric, in whole numbers.
//!
//! The eye stands before the bench, high and to the right (or, mirrored to the left, where more
//! of what the step does comes from there) and looks down one diagonal of a cube. Every length
//! along an axis is drawn to the same scale. On the sheet, u grows to the right and v downwards.

use crate::geometry::{Box3, Direction, Point};

use super::painter::ViewBox;
use super::pose::Pose;

/// Cosine of 30 degrees, in millionths.
const COS_30: i128 = 866_025;

/// A point on the sheet, in micrometres of the piece.
pub type Flat = [i128; 2];

/// Where the eye stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct View {
    pose: Pose,
    from_left: bool,
}

impl View {
    /// The eye before the bench with `face` down, to the right, or to the left.
    pub fn new(face: Direction, from_left: bool) -> View {
        View { pose: Pose::on_bench(face), from_left }
    }

    /// A point of the standing piece in view axes, which grow towards the eye: x to the side
    /// where it stands, y to the front, z up.
    pub fn point(self, p: Point) -> [i128; 3] {
        let [x, y, z] = self.pose.point(p);
        [if self.from_left { -x } else { x }, -y, z]
    }

    /// A direction of the standing piece: its view axis, and whether it comes nearer.
    pub fn direction(self, d: Direction) -> (usize, bool) {
        let turned = self.pose.direction(d);
        let flipped = match turned.axis() {
            0 => self.from_left,
            1 => true,
            _ => false,
        };
        (turned.axis(), turned.is_positive() != flipped)
    }

    /// A vector of the given length along a direction of the standing piece.
    pub fn vector(self, d: Direction, length: i128) -> [i128; 3] {
        let (axis, nearer) = self.direction(d);
        let mut v = [0; 3];
        if let Some(c) = v.get_mut(axis) {
            *c = if nearer { length } else { -length };
        }
        v
    }

    /// A box of the standing piece in view axes.
    pub fn view_box(self, b: &Box3, item: usize) -> ViewBox {
        let (p, q) = (self.point(b.min), self.point(b.max));
        let pick = |f: fn(i128, i128) -> i128| {
            let [[a, b, c], [d, e, g]] = [p, q];
            [f(a, d), f(b, e), f(c, g)]
        };
        ViewBox { min: pick(i128::min), max: pick(i128::max), item, splits: true }
    }

    /// The place on the sheet of a point in view axes.
    pub fn flat(self, [x, y, z]: [i128; 3]) -> Flat {
        let u = (x - y) * COS_30 / 1_000_000;
        [if self.from_left { -u } else { u }, (x + y) / 2 - z]
    }

    /// Which near face looks to the right on the sheet: view axis 0 or 1. It is drawn in shade,
    /// so that the light comes from the same side wherever the eye stands.
    pub fn shaded_axis(self) -> usize {
        usize::from(self.from_left)
    }
}

/// Sum of two points or vectors.
pub fn add(a: [i128; 3], b: [i128; 3]) -> [i128; 3] {
    let [x, y, z] = a;
    let [u, v, w] = b;
    [x + u, y + v, z + w]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_is_up_and_every_axis_has_the_same_scale() {
        for left in [false, true] {
            let view = View::new(Direction::Down, left);
            let at = |p| view.flat(view.point(p));
            let m = 1_000_000;
            assert_eq!(at([0, 0, m]), [0, -1_000_000]);
            let [u, v] = at([m, 0, 0]);
            assert!(u > 0, "right is to the right");
            for p in [[m, 0, 0], [0, m, 0]] {
                let [u, v] = at(p);
                let length = u * u + v * v;
                assert!((length - 1_000_000_000_000).abs() < 4_000_000, "{length}");
            }
            assert_eq!(v > 0, !left, "what is nearer stands lower");
            assert!(at([0, m, 0])[1] < 0, "the back stands higher");
        }
    }

    #[test]
    fn directions_and_points_agree() {
        for face in Direction::ALL {
            for left in [false, true] {
                let view = View::new(face, left);
                for d in Direction::ALL {
                    let mut p = [0; 3];
                    p[d.axis()] = d.sign();
                    assert_eq!(view.vector(d, 1), view.point(p));
                }
            }
        }
    }
}
