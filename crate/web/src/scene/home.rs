//! The direction a step is best seen from: where its screw heads, its new parts and its
//! measurements are not hidden, and as near as can be to the step before.

use three_d::{InnerSpace, Vec3, vec3};

use super::model::Model;
use super::station::{Motion, Station};

/// A direction of view, in degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// 0 looks straight from the front; positive walks round to the right.
    pub yaw: f32,
    /// Above the bench.
    pub pitch: f32,
}

impl View {
    /// The usual place: front, a little right, above.
    pub const USUAL: View = View { yaw: 33.0, pitch: 27.0 };

    /// From the piece to the eye, of length 1, in the picture.
    pub fn towards_eye(&self) -> Vec3 {
        let (yaw, pitch) = (self.yaw.to_radians(), self.pitch.to_radians());
        vec3(yaw.sin() * pitch.cos(), -yaw.cos() * pitch.cos(), pitch.sin())
    }
}

/// Places tried, with what each costs: from behind, left is right, and words and picture disagree.
const TRIED: [(f32, f32, f32); 12] = [
    (33.0, 27.0, 0.0),
    (-33.0, 27.0, 0.06),
    (33.0, 50.0, 0.08),
    (-33.0, 50.0, 0.14),
    (62.0, 27.0, 0.22),
    (-62.0, 27.0, 0.26),
    (62.0, 50.0, 0.28),
    (-62.0, 50.0, 0.32),
    (147.0, 30.0, 0.95),
    (-147.0, 30.0, 1.0),
    (118.0, 30.0, 0.85),
    (-118.0, 30.0, 0.9),
];

/// What staying put is worth.
const STAY: f32 = 0.30;
/// Samples on the skin of each new part.
const SAMPLES: usize = 40;

/// The best direction for a step after one seen from `last`.
pub fn choose(model: &Model, station: &Station, last: Option<View>) -> View {
    let sights = Sights::of(model, station);
    let mut best = (f32::NEG_INFINITY, View::USUAL);
    for (yaw, pitch, cost) in TRIED {
        let view = View { yaw, pitch };
        let stay = if last.unwrap_or(View::USUAL) == view { STAY } else { 0.0 };
        let score = sights.score(model, station, view) - cost + stay;
        if score > best.0 {
            best = (score, view);
        }
    }
    best.1
}

/// What should be seen: points and the way their surface faces, standing pose.
struct Sights {
    heads: Vec<(Vec3, Vec3)>,
    skin: Vec<(Vec3, Vec3)>,
    marks: Vec<Vec3>,
}

impl Sights {
    fn of(model: &Model, station: &Station) -> Sights {
        let heads = station
            .driving
            .iter()
            .filter_map(|&i| model.screws.get(i))
            .map(|s| (s.entry - s.along, -s.along))
            .collect();
        let mut skin = Vec::new();
        let about = if station.movers.is_empty() { &station.focus } else { &station.movers };
        for part in about.iter().filter_map(|&i| model.parts.get(i)) {
            let triangles: Vec<(Vec3, Vec3)> = part
                .skin
                .positions
                .chunks_exact(3)
                .zip(part.skin.normals.chunks_exact(3))
                .filter_map(|(p, n)| match (p, n) {
                    (&[a, b, c], &[n, ..]) => Some(((a + b + c) / 3.0, n)),
                    _ => None,
                })
                .collect();
            let every = triangles.len().div_ceil(SAMPLES).max(1);
            skin.extend(triangles.into_iter().step_by(every));
        }
        let mut marks = station.measured.clone();
        if let Some(spacer) = station.spacer {
            marks.push(spacer.centre());
        }
        Sights { heads, skin, marks }
    }

    fn score(&self, model: &Model, station: &Station, view: View) -> f32 {
        let eye = station.pose.vector_back(view.towards_eye());
        let parts: Vec<usize> = station.present.iter().chain(&station.movers).copied().collect();
        let clear = |from: Vec3| {
            let from = from + eye * 1.0;
            !parts
                .iter()
                .filter_map(|&i| model.parts.get(i))
                .flat_map(|p| &p.slabs)
                .any(|s| s.hit(from, eye).is_some())
        };
        let share = |all: &[(Vec3, Vec3)]| {
            if all.is_empty() {
                return 0.0;
            }
            // A face seen almost edge-on tells nothing.
            let seen: f32 = all
                .iter()
                .filter(|(_, n)| n.dot(eye) > 0.12)
                .filter(|(p, n)| clear(*p + *n * 0.5))
                .map(|(_, n)| 0.5 + 0.5 * n.dot(eye))
                .sum();
            seen / all.len() as f32
        };
        let along = match station.motion {
            Motion::Parts(away) if away.magnitude() > 0.0 => {
                away.normalize().cross(eye).magnitude()
            }
            _ => 0.0,
        };
        let marks = self.marks.iter().filter(|m| clear(**m)).count() as f32
            / self.marks.len().max(1) as f32;
        // What is looked for and not seen at all is worth walking round for.
        let blind = |all: &[(Vec3, Vec3)], seen: f32| {
            if all.is_empty() || seen > 0.06 { 0.0 } else { 0.9 }
        };
        let (heads, skin) = (share(&self.heads), share(&self.skin));
        let lost = blind(&self.heads, heads) + blind(&self.skin, skin);
        2.0 * heads + 1.5 * skin + 0.5 * along + 0.8 * marks - lost
    }
}
