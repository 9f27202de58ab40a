//! The piece pulled apart: each part back along the way that the plan says it goes in.

use std::collections::BTreeMap;

use three_d::{InnerSpace, Vec3, vec3};

use super::model::Model;
use crate::pose::unit;

/// How far each part stands off, in millimetres of the standing pose, by its place in the model.
///
/// Along each direction the later ones stand farther out, so that what went in last is met first.
/// What is only laid out stays.
pub fn apart(model: &Model) -> Vec<Vec3> {
    let all: Vec<usize> = (0..model.parts.len()).collect();
    let size = model.bounds(&all).map_or(0.0, |b| (b.max - b.min).magnitude());
    let gap = (size * 0.12).clamp(50.0, 160.0);
    let part_at = model.part_index();
    let mut off = vec![vec3(0., 0., 0.); model.parts.len()];
    let mut bodies: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    let mut gone: BTreeMap<(&str, usize), u16> = BTreeMap::new();
    for step in &model.plan.steps {
        let mut new: Vec<usize> =
            step.parts.iter().filter_map(|id| part_at.get(id.as_str()).copied()).collect();
        let joined = step.joins.as_deref().and_then(|id| bodies.remove(id));
        new.extend(joined.unwrap_or_default());
        if new.is_empty() {
            continue;
        }
        if let Some(way) = step.direction {
            let before = gone.entry((step.body.as_str(), way.index())).or_insert(0);
            *before += 1;
            let back = -unit(way) * gap * f32::from(*before);
            for &part in &new {
                if let Some(own) = off.get_mut(part) {
                    *own += back;
                }
            }
        }
        bodies.entry(step.body.as_str()).or_default().extend(new);
    }
    off
}
