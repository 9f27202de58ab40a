//! The direction a step is best seen from: where its screw heads, its new parts and its
//! measurements are not hidden, and as near as can be to the step before.

use jointwise::export::clamp::Since;
use three_d::{InnerSpace, Vec3, vec3};

use super::model::Model;
use super::station::{Clamp, Motion, Station};

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

/// What staying put is worth, once for a run.
const STAY: f32 = 0.30;
/// How much more a step must show from elsewhere before the maker is walked round for it alone.
const WALK: f32 = 0.80;
/// Samples on the skin of each new part.
const SAMPLES: usize = 40;

/// The direction of each step, as far as it was asked for. Steps on one piece that lies the same way
/// are seen from one place, so that what changes in the picture is what changes on the bench. Each is
/// looked for when its step is: a page that shows the first waits for no other.
#[derive(Debug, Clone)]
pub struct Views {
    /// Of the first steps.
    chosen: Vec<View>,
    /// What the last of them share.
    last: View,
}

impl Default for Views {
    fn default() -> Views {
        Views { chosen: Vec::new(), last: View::USUAL }
    }
}

impl Views {
    /// Of a step by its place from 0; the usual one where there is no such step.
    pub fn of(&mut self, model: &Model, step: usize) -> View {
        while step < model.stations.len() && self.chosen.len() <= step {
            self.choose(model);
        }
        self.chosen.get(step).copied().unwrap_or(View::USUAL)
    }

    /// Goes on by the steps on one piece that lies the same way.
    fn choose(&mut self, model: &Model) {
        let lying = |step: usize| model.plan.steps.get(step).map(|s| (&s.body, s.bench_face));
        let first = self.chosen.len();
        let alike = model.stations.iter().enumerate().skip(first);
        let run: Vec<Vec<f32>> = alike
            .take_while(|(step, _)| *step == first || lying(*step) == lying(first))
            .map(|(_, station)| scores(model, station))
            .collect();
        let last = self.last;
        let stay = |i: usize| if viewed(i) == last { STAY } else { 0.0 };
        let shared = best(|i| run.iter().filter_map(|s| s.get(i)).sum::<f32>() + stay(i));
        self.last = viewed(shared);
        for own in run {
            let score = |i: usize| own.get(i).copied().unwrap_or(f32::NEG_INFINITY);
            let alone = best(score);
            let walks = score(alone) - score(shared) > WALK;
            self.chosen.push(viewed(if walks { alone } else { shared }));
        }
    }
}

fn viewed(i: usize) -> View {
    TRIED.get(i).map_or(View::USUAL, |&(yaw, pitch, _)| View { yaw, pitch })
}

/// The first of the places tried that scores highest.
fn best(score: impl Fn(usize) -> f32) -> usize {
    (0..TRIED.len()).fold(0, |best, i| if score(i) > score(best) { i } else { best })
}

/// What each place tried is worth for a step.
fn scores(model: &Model, station: &Station) -> Vec<f32> {
    let sights = Sights::of(model, station);
    let score = |&(yaw, pitch, cost)| sights.score(model, station, View { yaw, pitch }) - cost;
    TRIED.iter().map(score).collect()
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
        let now = station.clamps.iter().filter(|c| c.since == Since::Now);
        marks.extend(now.filter_map(Clamp::centre));
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
