//! How the standing piece is turned so that a given face lies on the bench.
//!
//! Axes on the bench, as seen by the person before it: X to the right, Y away from them, Z up.
//! Every pose is a proper rotation, so no drawing ever shows a mirror image of the piece:
//!
//! | face down | turned about | X | Y | Z |
//! |---|---|---|---|---|
//! | `-z` underside | not at all | x | y | z |
//! | `+z` top | x, half a turn | x | -y | -z |
//! | `+y` back | x, a quarter | x | z | -y |
//! | `-y` front | x, a quarter back | x | -z | y |
//! | `-x` left | y, a quarter | -z | y | x |
//! | `+x` right | y, a quarter back | z | y | -x |

use crate::geometry::{Direction, Point};

/// A rotation by quarter turns, from the standing piece to the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pose {
    /// For each bench axis: the direction of the standing piece that points along it.
    along: [Direction; 3],
}

impl Pose {
    /// The pose in which `face` of the standing piece lies on the bench.
    pub fn on_bench(face: Direction) -> Pose {
        use Direction::{Back, Down, Front, Left, Right, Up};
        let along = match face {
            Down => [Right, Back, Up],
            Up => [Right, Front, Down],
            Back => [Right, Up, Front],
            Front => [Right, Down, Back],
            Left => [Down, Back, Right],
            Right => [Up, Back, Left],
        };
        Pose { along }
    }

    /// A point of the standing piece, in bench axes; wide integers, so that no input overflows.
    pub fn point(self, p: Point) -> [i128; 3] {
        self.along.map(|d| {
            let [x, y, z] = p.map(i128::from);
            let value = match d.axis() {
                0 => x,
                1 => y,
                _ => z,
            };
            if d.is_positive() { value } else { -value }
        })
    }

    /// A direction of the standing piece, in bench axes.
    pub fn direction(self, d: Direction) -> Direction {
        let found = self.along.iter().position(|a| a.axis() == d.axis()).unwrap_or(0);
        let same = self.along.get(found).is_some_and(|a| *a == d);
        Direction::from_axis(found, same)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_named_face_points_down() {
        for face in Direction::ALL {
            assert_eq!(Pose::on_bench(face).direction(face), Direction::Down);
        }
    }

    #[test]
    fn every_pose_keeps_handedness() {
        for face in Direction::ALL {
            let pose = Pose::on_bench(face);
            let [a, b, c] = [[1, 0, 0], [0, 1, 0], [0, 0, 1]].map(|p| pose.point(p));
            let det = a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
                + a[2] * (b[0] * c[1] - b[1] * c[0]);
            assert_eq!(det, 1, "{face:?}");
        }
    }

    #[test]
    fn points_and_directions_turn_alike() {
        for face in Direction::ALL {
            let pose = Pose::on_bench(face);
            for d in Direction::ALL {
                let mut p = [0; 3];
                p[d.axis()] = d.sign();
                let turned = pose.direction(d);
                let mut wanted = [0; 3];
                wanted[turned.axis()] = i128::from(turned.sign());
                assert_eq!(pose.point(p), wanted, "{face:?} {d:?}");
            }
        }
    }
}
