//! How a piece lies on the bench.
//!
//! World of the picture, in millimetres: X right, Y away from the maker, Z up; the bench top is
//! z = 0 and the piece stands over the origin.
//!
//! One fixed turn for each face on the bench. Standing, on its back, on its face and upside down,
//! the left side of the piece stays at the maker's left, so that "left" in a sentence is left in the
//! picture. On a side, the front of the piece stays towards the maker, as if tipped over sideways.

use jointwise::geometry::Direction;
use three_d::{InnerSpace, Mat3, Mat4, Quat, Rotation, SquareMatrix, Vec3, vec3};

/// The turn that brings a face of the standing piece onto the bench.
pub fn turn_onto(face: Direction) -> Quat {
    // Columns: where the piece's own x, y and z axes point in the picture.
    let columns = match face {
        Direction::Down => [vec3(1., 0., 0.), vec3(0., 1., 0.), vec3(0., 0., 1.)],
        Direction::Back => [vec3(1., 0., 0.), vec3(0., 0., -1.), vec3(0., 1., 0.)],
        Direction::Front => [vec3(1., 0., 0.), vec3(0., 0., 1.), vec3(0., -1., 0.)],
        Direction::Up => [vec3(1., 0., 0.), vec3(0., -1., 0.), vec3(0., 0., -1.)],
        Direction::Left => [vec3(0., 0., 1.), vec3(0., 1., 0.), vec3(-1., 0., 0.)],
        Direction::Right => [vec3(0., 0., -1.), vec3(0., 1., 0.), vec3(1., 0., 0.)],
    };
    let [x, y, z] = columns;
    Quat::from(Mat3::from_cols(x, y, z)).normalize()
}

/// A direction of the standing piece as a vector of length 1.
pub fn unit(direction: Direction) -> Vec3 {
    let mut v = [0.0; 3];
    if let Some(c) = v.get_mut(direction.axis()) {
        *c = if direction.is_positive() { 1.0 } else { -1.0 };
    }
    Vec3::from(v)
}

/// From the standing piece to the picture: turned, then moved. Millimetres.
#[derive(Debug, Clone, Copy)]
pub struct Pose {
    /// The turn.
    pub turn: Quat,
    /// The move after the turn.
    pub shift: Vec3,
}

impl Pose {
    /// Turned by `turn`, with `centre` of the piece over the origin and its lowest of `corners`
    /// `lift` above the bench.
    pub fn on_bench(turn: Quat, centre: Vec3, corners: &[Vec3], lift: f32) -> Pose {
        let c = turn.rotate_vector(centre);
        let low = corners.iter().map(|p| turn.rotate_vector(*p).z).fold(f32::INFINITY, f32::min);
        let low = if low.is_finite() { low } else { 0.0 };
        Pose { turn, shift: vec3(-c.x, -c.y, lift - low) }
    }

    /// A point of the standing piece in the picture.
    pub fn point(&self, p: Vec3) -> Vec3 {
        self.turn.rotate_vector(p) + self.shift
    }

    /// A direction of the standing piece in the picture.
    pub fn vector(&self, v: Vec3) -> Vec3 {
        self.turn.rotate_vector(v)
    }

    /// A point of the picture on the standing piece.
    pub fn point_back(&self, p: Vec3) -> Vec3 {
        self.turn.conjugate().rotate_vector(p - self.shift)
    }

    /// A direction of the picture on the standing piece.
    pub fn vector_back(&self, v: Vec3) -> Vec3 {
        self.turn.conjugate().rotate_vector(v)
    }

    /// As a matrix, after a move of `offset` on the standing piece.
    pub fn matrix(&self, offset: Vec3) -> Mat4 {
        Mat4::from_translation(self.shift) * Mat4::from(self.turn) * Mat4::from_translation(offset)
    }
}

impl Default for Pose {
    fn default() -> Self {
        Pose { turn: Quat::from(Mat3::identity()), shift: vec3(0., 0., 0.) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(a: Vec3, b: Vec3) -> bool {
        (a - b).magnitude() < 1e-5
    }

    #[test]
    fn every_turn_is_proper_and_brings_its_face_down() {
        for face in Direction::ALL {
            let turn = turn_onto(face);
            assert!(near(turn.rotate_vector(unit(face)), vec3(0., 0., -1.)), "{face:?}");
            let [x, y, z] = [Direction::Right, Direction::Back, Direction::Up]
                .map(|d| turn.rotate_vector(unit(d)));
            assert!(near(x.cross(y), z), "{face:?} is mirrored");
        }
    }

    #[test]
    fn left_stays_left_unless_the_piece_lies_on_a_side() {
        for face in [Direction::Down, Direction::Up, Direction::Front, Direction::Back] {
            let left = turn_onto(face).rotate_vector(unit(Direction::Left));
            assert!(near(left, vec3(-1., 0., 0.)), "{face:?}");
        }
        for face in [Direction::Left, Direction::Right] {
            let front = turn_onto(face).rotate_vector(unit(Direction::Front));
            assert!(near(front, vec3(0., -1., 0.)), "{face:?}");
        }
    }

    #[test]
    fn the_lowest_corner_lies_on_the_bench_and_points_go_there_and_back() {
        let corners = [vec3(0., 0., 0.), vec3(500., 560., 720.)];
        let pose = Pose::on_bench(turn_onto(Direction::Back), vec3(250., 280., 360.), &corners, 0.);
        let lowest = corners.iter().map(|c| pose.point(*c).z).fold(f32::MAX, f32::min);
        assert!(lowest.abs() < 1e-3);
        let p = vec3(12., 34., 56.);
        assert!((pose.point_back(pose.point(p)) - p).magnitude() < 1e-3);
    }
}
