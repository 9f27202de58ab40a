//! Which box a ray meets first.

use three_d::Vec3;

/// A box with faces along the axes, in millimetres of the standing pose.
#[derive(Debug, Clone, Copy)]
pub struct Slab {
    /// Left, front, lower corner.
    pub min: Vec3,
    /// Right, rear, upper corner.
    pub max: Vec3,
}

impl Slab {
    /// Its eight corners.
    pub fn corners(&self) -> [Vec3; 8] {
        std::array::from_fn(|i| {
            let pick = |bit: usize, low: f32, high: f32| if i & bit == 0 { low } else { high };
            Vec3::new(
                pick(1, self.min.x, self.max.x),
                pick(2, self.min.y, self.max.y),
                pick(4, self.min.z, self.max.z),
            )
        })
    }

    /// Its middle.
    pub fn centre(&self) -> Vec3 {
        (self.min + self.max) / 2.0
    }

    /// The least box around both.
    #[must_use]
    pub fn union(&self, other: &Slab) -> Slab {
        let low = |a: f32, b: f32| a.min(b);
        let high = |a: f32, b: f32| a.max(b);
        Slab {
            min: Vec3::new(
                low(self.min.x, other.min.x),
                low(self.min.y, other.min.y),
                low(self.min.z, other.min.z),
            ),
            max: Vec3::new(
                high(self.max.x, other.max.x),
                high(self.max.y, other.max.y),
                high(self.max.z, other.max.z),
            ),
        }
    }

    /// Wider by so much on each side.
    #[must_use]
    pub fn grown(&self, by: f32) -> Slab {
        let by = Vec3::new(by, by, by);
        Slab { min: self.min - by, max: self.max + by }
    }

    /// Whether a point lies in it.
    pub fn holds(&self, p: Vec3) -> bool {
        (0..3).all(|a| self.min[a] <= p[a] && p[a] <= self.max[a])
    }

    /// How far along `direction` from `origin` the ray enters, in lengths of `direction`; 0 when it
    /// starts inside, nothing when it misses or the box lies behind.
    pub fn hit(&self, origin: Vec3, direction: Vec3) -> Option<f32> {
        let (mut enter, mut leave) = (0.0_f32, f32::INFINITY);
        for a in 0..3 {
            let (o, d, low, high) = (origin[a], direction[a], self.min[a], self.max[a]);
            if d.abs() < 1e-9 {
                if o < low || o > high {
                    return None;
                }
                continue;
            }
            let (t0, t1) = ((low - o) / d, (high - o) / d);
            enter = enter.max(t0.min(t1));
            leave = leave.min(t0.max(t1));
        }
        (enter <= leave).then_some(enter)
    }
}

impl Slab {
    /// The face through which the ray enters: the axis it stands across, and where on it.
    pub fn face(&self, origin: Vec3, direction: Vec3) -> Option<(usize, f32)> {
        let far = self.hit(origin, direction)?;
        let at = |a: usize| origin[a] + direction[a] * far;
        let off = |a: usize| {
            let face = if direction[a] > 0.0 { self.min[a] } else { self.max[a] };
            (at(a) - face).abs()
        };
        let axis = (0..3)
            .filter(|&a| direction[a].abs() > 1e-9)
            .min_by(|&a, &b| off(a).total_cmp(&off(b)))?;
        Some((axis, if direction[axis] > 0.0 { self.min[axis] } else { self.max[axis] }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use three_d::vec3;

    #[test]
    fn the_face_is_the_one_the_ray_enters_by() {
        assert_eq!(BOX.face(vec3(-5., 10., 10.), vec3(1., 0., 0.)), Some((0, 0.0)));
        assert_eq!(BOX.face(vec3(15., 10., 10.), vec3(-1., 0., 0.1)), Some((0, 10.0)));
        assert_eq!(BOX.face(vec3(5., 25., 29.), vec3(0., -1., -0.2)), Some((1, 20.0)));
        assert_eq!(BOX.face(vec3(5., 25., 90.), vec3(0.0, -0.1, -1.)), Some((2, 30.0)));
    }

    const BOX: Slab = Slab { min: vec3(0., 0., 0.), max: vec3(10., 20., 30.) };

    #[test]
    fn a_ray_enters_at_the_near_face() {
        assert_eq!(BOX.hit(vec3(-5., 10., 10.), vec3(1., 0., 0.)), Some(5.0));
        assert_eq!(BOX.hit(vec3(15., 10., 10.), vec3(-1., 0., 0.)), Some(5.0));
        assert_eq!(BOX.hit(vec3(5., 10., 10.), vec3(-1., 0., 0.)), Some(0.0));
    }

    #[test]
    fn a_ray_beside_or_away_misses() {
        assert_eq!(BOX.hit(vec3(-5., 21., 10.), vec3(1., 0., 0.)), None);
        assert_eq!(BOX.hit(vec3(-5., 10., 10.), vec3(-1., 0., 0.)), None);
        assert_eq!(BOX.hit(vec3(-5., -5., 0.), vec3(1., 6., 0.)), None);
        assert!(BOX.hit(vec3(-5., -5., 1.), vec3(1., 1., 0.)).is_some());
    }
}
