//! Plays the steps: what lies on the bench before and after each of them.

use std::collections::{BTreeMap, BTreeSet};

use super::file::{Action, HoldWith, PlanFile, Step};
use super::space::{Block, Way, reach};

/// A plan with one [`Moment`] a step.
pub struct Replay<'a> {
    /// The file.
    pub plan: &'a PlanFile,
    /// One for each step, in the file's order.
    pub moments: Vec<Moment<'a>>,
    /// What each body holds at the end; bodies that joined another are gone.
    pub left: BTreeMap<&'a str, BTreeSet<usize>>,
}

/// What is the case at a step.
pub struct Moment<'a> {
    /// The step.
    pub step: &'a Step,
    /// Parts in the body before it.
    pub before: BTreeSet<usize>,
    /// Parts that join in it, whether by name or with the body that joins.
    pub arriving: BTreeSet<usize>,
    /// The face the body lay on before; none when it was empty or set aside.
    pub face_before: Option<Way>,
    /// Joints closed in this step or before, in any body.
    pub closed: BTreeSet<usize>,
    /// Screws driven in this step or before, in any body.
    pub driven: BTreeSet<&'a str>,
    /// Parts placed in this step or before, in any body.
    pub placed: BTreeSet<usize>,
}

#[derive(Default)]
struct Body {
    parts: BTreeSet<usize>,
    face: Option<Way>,
}

impl<'a> Replay<'a> {
    /// Plays a plan. Names that do not exist are passed over: another rule reports them.
    pub fn of(plan: &'a PlanFile) -> Self {
        let mut bodies: BTreeMap<&str, Body> = BTreeMap::new();
        let (mut closed, mut driven, mut placed) =
            (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
        let mut moments = Vec::new();
        for step in &plan.steps {
            let mut arriving: BTreeSet<usize> =
                step.parts.iter().filter_map(|id| plan.part(id)).collect();
            arriving.retain(|p| !placed.contains(p));
            placed.extend(arriving.iter().copied());
            if let Some(other) = step.joins.as_deref().filter(|o| *o != step.body) {
                arriving.extend(bodies.remove(other).unwrap_or_default().parts);
            }
            let body = bodies.entry(&step.body).or_default();
            let (before, face_before) = (body.parts.clone(), body.face);
            body.parts.extend(arriving.iter().copied());
            body.face = (step.action != Action::SetAside && !body.parts.is_empty())
                .then_some(step.bench_face);
            closed.extend(step.joints.iter().filter_map(|id| plan.joint(id)));
            driven.extend(step.fasteners.iter().map(String::as_str));
            moments.push(Moment {
                step,
                before,
                arriving,
                face_before,
                closed: closed.clone(),
                driven: driven.clone(),
                placed: placed.clone(),
            });
        }
        let left = bodies.into_iter().map(|(name, body)| (name, body.parts)).collect();
        Replay { plan, moments, left }
    }

    /// The solid of some parts.
    pub fn solid<'b>(&self, parts: impl IntoIterator<Item = &'b usize>) -> Vec<Block> {
        parts
            .into_iter()
            .filter_map(|p| self.plan.parts.get(*p))
            .flat_map(|p| p.boxes.iter().copied())
            .collect()
    }

    /// Ids of some parts, for a message.
    pub fn names<'b>(&self, parts: impl IntoIterator<Item = &'b usize>) -> String {
        let ids: Vec<&str> = parts
            .into_iter()
            .filter_map(|p| self.plan.parts.get(*p))
            .map(|p| p.id.as_str())
            .collect();
        ids.join(", ")
    }

    /// How deep the bench's top lies along the step's bench face: at the lowest point of the body
    /// that lies there, or of what is laid down on an empty bench.
    pub fn bench(&self, m: &Moment<'_>) -> Option<i64> {
        let lying = if m.before.is_empty() { &m.arriving } else { &m.before };
        reach(m.step.bench_face, &self.solid(lying))
    }
}

impl Moment<'_> {
    /// Parts in the body after the step.
    pub fn after(&self) -> BTreeSet<usize> {
        self.before.union(&self.arriving).copied().collect()
    }

    /// Whether something other than the bench is said to hold a thing by its name.
    pub fn held(&self, what: &str) -> bool {
        self.step.hold.iter().any(|h| h.what == what && h.with != HoldWith::Bench)
    }
}
