//! The two straight strips that the work lies on, so that drill and clamps get under it.
//!
//! The plan says how high they are, not where they lie: they are drawn under the two long sides of
//! what rests on them, and stay there while the piece lies the same way.

use three_d::{Vec3, vec3};

use super::model::Model;
use super::station::Station;
use crate::edges::millimetres;
use crate::pick::Slab;

/// Width of a strip in millimetres; any straight offcut does.
const WIDE: f32 = 45.0;
/// How far a strip reaches out from under the work, in millimetres.
const OUT: f32 = 40.0;
/// Above the lowest corner by no more than this lies on the strips, in millimetres.
const LEVEL: f32 = 1.0;

/// Height of the strips in millimetres; 0 when the work lies on the bench itself.
pub fn height(model: &Model) -> f32 {
    millimetres(model.plan.workshop.bearers).clamp(0.0, 300.0)
}

/// The strips of each step, in the picture's millimetres; none where there are none.
pub fn bearers(model: &Model, stations: &[Station]) -> Vec<Vec<Slab>> {
    let lying = |i: usize| model.plan.steps.get(i).map(|s| (&s.body, s.bench_face));
    let high = height(model);
    let mut all: Vec<Vec<Slab>> = Vec::with_capacity(stations.len());
    for (i, station) in stations.iter().enumerate() {
        if high <= 0.0 || !station.on_bench {
            all.push(Vec::new());
        } else if let Some(same) = all.last().filter(|s| !s.is_empty() && lying(i) == lying(i - 1))
        {
            all.push(same.clone());
        } else {
            let run = (i..stations.len()).take_while(|&j| lying(j) == lying(i));
            let resting: Vec<Vec3> =
                run.filter_map(|j| stations.get(j)).flat_map(|s| resting(model, s, high)).collect();
            all.push(strips(&resting, high));
        }
    }
    all
}

/// Corners that lie on the strips when the step is done.
fn resting(model: &Model, station: &Station, high: f32) -> Vec<Vec3> {
    let parts: Vec<usize> = station.present.iter().chain(&station.movers).copied().collect();
    let corners = model.corners(&parts).into_iter().map(|c| station.pose.point(c));
    corners.filter(|c| (c.z - high).abs() < LEVEL).collect()
}

fn strips(resting: &[Vec3], high: f32) -> Vec<Slab> {
    let points = resting.iter().map(|&p| Slab { min: p, max: p });
    let Some(under) = points.reduce(|a, b| a.union(&b)) else {
        return Vec::new();
    };
    let (low, top) = (under.min, under.max);
    let strip =
        |x: [f32; 2], y: [f32; 2]| Slab { min: vec3(x[0], y[0], 0.0), max: vec3(x[1], y[1], high) };
    // Under the left and the right edge, front to back; what is too narrow lies across them.
    if top.x - low.x >= 3.0 * WIDE {
        let y = [low.y - OUT, top.y + OUT];
        vec![strip([low.x, low.x + WIDE], y), strip([top.x - WIDE, top.x], y)]
    } else {
        let x = [low.x - OUT, top.x + OUT];
        vec![strip(x, [low.y, low.y + WIDE]), strip(x, [top.y - WIDE, top.y])]
    }
}
