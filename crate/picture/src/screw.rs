//! Screws as they look: a shank with its point, a head, the rim and the drive's cross.

use jointwise::assembly::Fastener;
use three_d::{InnerSpace, Vec3, vec3};

use crate::edges::{Skin, millimetres};
use crate::pose::unit;

/// Flats round the shank; enough to look round at the size a screw has on the screen.
const SIDES: usize = 12;

/// A screw in its hole, in millimetres of the standing pose.
#[derive(Debug, Clone)]
pub struct Screw {
    /// Stable id from the plan.
    pub id: String,
    /// Where the tip goes in: on the outer skin of the part.
    pub entry: Vec3,
    /// The way it is driven, of length 1.
    pub along: Vec3,
    /// From under the head (countersunk: the whole length) to the tip.
    pub length: f32,
    /// Radius of the head.
    pub head: f32,
    /// Its look.
    pub skin: Skin,
}

/// Shank diameter in millimetres for a gauge: 0.060 in + 0.013 in for each number.
/// ASME B18.6.1, wood screws (from memory).
pub fn shank_diameter(gauge: u8) -> f32 {
    25.4 * (0.060 + 0.013 * f32::from(gauge))
}

impl Screw {
    /// The screw as the plan places it.
    pub fn of(fastener: &Fastener) -> Screw {
        let entry = Vec3::from(fastener.entry.map(millimetres));
        let along = unit(fastener.direction);
        let shank = shank_diameter(fastener.gauge) / 2.0;
        // Common practice, no source: a head is about twice as wide as the shank.
        let head = shank * 2.0;
        let length = millimetres(fastener.length.get()).clamp(shank * 4.0, 1000.0);
        let proud = fastener.kind.contains("pan");
        let profile = profile(proud, length, shank, head);
        let mut skin = Skin::default();
        let (u, v) = across(along);
        let ring = |depth: f32, radius: f32, i: usize| {
            let angle = std::f32::consts::TAU * (i % SIDES) as f32 / SIDES as f32;
            entry + along * depth + (u * angle.cos() + v * angle.sin()) * radius
        };
        for pair in profile.windows(2) {
            let &[(d0, r0), (d1, r1)] = pair else {
                continue;
            };
            let slope = (r0 - r1) / (d1 - d0).abs().max(1e-3);
            for i in 0..SIDES {
                let corners =
                    [ring(d0, r0, i), ring(d0, r0, i + 1), ring(d1, r1, i + 1), ring(d1, r1, i)];
                let middle = (ring(0.0, 1.0, i) + ring(0.0, 1.0, i + 1)) / 2.0 - entry;
                let normal = if (d1 - d0).abs() < 1e-4 {
                    if r1 > r0 { -along } else { along }
                } else {
                    (middle.normalize() + along * slope).normalize()
                };
                skin.quad(corners, normal);
            }
        }
        let (top, rim_radius) = profile
            .iter()
            .take(3)
            .copied()
            .fold((0.0, 0.0), |best, p| if p.1 > best.1 { p } else { best });
        for i in 0..SIDES {
            skin.edges.push([ring(top, rim_radius, i), ring(top, rim_radius, i + 1)]);
        }
        let face = entry + along * profile.first().map_or(0.0, |p| p.0);
        for arm in [u, v] {
            skin.edges.push([face - arm * head * 0.45, face + arm * head * 0.45]);
        }
        Screw { id: fastener.id.clone(), entry, along, length, head, skin }
    }

    /// Where its tip is when driven.
    pub fn tip(&self) -> Vec3 {
        self.entry + self.along * self.length
    }
}

/// Depth below the entry face and radius, from the middle of the head to the tip.
fn profile(proud: bool, length: f32, shank: f32, head: f32) -> Vec<(f32, f32)> {
    let point = length - shank * 3.0;
    if proud {
        let high = shank * 1.1;
        vec![
            (-high, 0.0),
            (-high, head * 0.72),
            (-high * 0.35, head),
            (-0.1, head),
            (0.0, shank),
            (point, shank),
            (length, 0.0),
        ]
    } else {
        // A hair above the face, or the head and the panel would flicker through each other.
        vec![(-0.3, 0.0), (-0.3, head), (head - shank, shank), (point, shank), (length, 0.0)]
    }
}

/// Two directions square to `along` and to each other.
fn across(along: Vec3) -> (Vec3, Vec3) {
    let seed = if along.z.abs() > 0.5 { vec3(1., 0., 0.) } else { vec3(0., 0., 1.) };
    let u = along.cross(seed).normalize();
    (u, along.cross(u))
}

#[cfg(test)]
mod tests {
    use super::*;
    use jointwise::geometry::Direction;
    use jointwise::units::Length;

    fn screw(kind: &str, direction: Direction) -> Screw {
        Screw::of(&Fastener {
            id: "s".into(),
            kind: kind.into(),
            gauge: 8,
            length: Length::mm(50),
            pilot: Length::mm(3),
            entry: [10_000, 20_000, 30_000],
            direction,
        })
    }

    #[test]
    fn a_number_eight_is_4_2_mm_thick() {
        assert!((shank_diameter(8) - 4.166).abs() < 0.001);
    }

    #[test]
    fn a_countersunk_head_is_flush_and_the_tip_is_its_length_in() {
        for direction in Direction::ALL {
            let s = screw("screw", direction);
            let depth = |p: &Vec3| (*p - s.entry).dot(s.along);
            let least = s.skin.positions.iter().map(depth).fold(f32::MAX, f32::min);
            let most = s.skin.positions.iter().map(depth).fold(f32::MIN, f32::max);
            assert!((-0.5..=0.0).contains(&least), "{least}");
            assert!((most - 50.0).abs() < 1e-3, "{most}");
        }
    }

    #[test]
    fn a_pan_head_sits_on_the_face() {
        let s = screw("pan-head screw", Direction::Down);
        let least =
            s.skin.positions.iter().map(|p| (*p - s.entry).dot(s.along)).fold(f32::MAX, f32::min);
        assert!(least < -1.0);
    }
}
