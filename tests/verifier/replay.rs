//! Plays the steps: what lies on the bench before and after each of them.

use std::collections::{BTreeMap, BTreeSet};

use super::file::{Action, HoldWith, JointKind, PlanFile, Step};
use super::shop::ClampPlace;
use super::space::{Block, Way, reach};

/// A plan with one [`Moment`] a step.
pub struct Replay<'a> {
    /// The file.
    pub plan: &'a PlanFile,
    /// One for each step, in the file's order.
    pub moments: Vec<Moment<'a>>,
    /// What each body holds at the end; bodies that joined another are gone.
    pub left: BTreeMap<&'a str, Body<'a>>,
}

/// What is the case at a step.
pub struct Moment<'a> {
    /// The step.
    pub step: &'a Step,
    /// Parts in the body before it.
    pub before: BTreeSet<usize>,
    /// What went in at once each time, before it and in it: a part, or a body that joined whole.
    pub items: Vec<BTreeSet<usize>>,
    /// Parts that join in it, whether by name or with the body that joins.
    pub arriving: BTreeSet<usize>,
    /// What the body that joins brings along besides its parts.
    pub joined: Body<'a>,
    /// The face the body lay on before; none when it was empty.
    pub face_before: Option<Way>,
    /// Whether the body was set aside before.
    pub aside: bool,
    /// Joints listed in this step or before, in any body.
    pub closed: BTreeSet<usize>,
    /// Screws driven in this step or before, in any body.
    pub driven: BTreeSet<&'a str>,
    /// Parts placed in this step or before, in any body.
    pub placed: BTreeSet<usize>,
    /// Joints of the body whose glue had not cured before the step.
    pub wet_before: BTreeSet<usize>,
    /// And after it.
    pub wet: BTreeSet<usize>,
    /// Clamps that are on this body before the step.
    pub clamps_before: Vec<&'a ClampPlace>,
    /// Clamps that are on any body when the step is done, or while it is done.
    pub clamps_on: Vec<&'a ClampPlace>,
}

/// A body as it grows.
#[derive(Default, Clone)]
pub struct Body<'a> {
    /// Its parts.
    pub parts: BTreeSet<usize>,
    /// Joints of it whose glue has not cured.
    pub wet: BTreeSet<usize>,
    /// Clamps that are on it.
    pub clamps: Vec<&'a ClampPlace>,
    /// The face it lies on, or lay on when it was set aside.
    pub face: Option<Way>,
    /// Whether it is set aside.
    pub aside: bool,
    /// What went in at once each time.
    pub items: Vec<BTreeSet<usize>>,
}

impl<'a> Replay<'a> {
    /// Plays a plan. Names that do not exist are passed over: another rule reports them.
    pub fn of(plan: &'a PlanFile) -> Self {
        let mut bodies: BTreeMap<&str, Body<'a>> = BTreeMap::new();
        let (mut closed, mut driven, mut placed) =
            (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
        let mut moments = Vec::new();
        for step in &plan.steps {
            let mut fresh: BTreeSet<usize> =
                step.parts.iter().filter_map(|id| plan.part(id)).collect();
            fresh.retain(|p| !placed.contains(p));
            placed.extend(fresh.iter().copied());
            let joined = match step.joins.as_deref().filter(|o| *o != step.body) {
                Some(other) => bodies.remove(other).unwrap_or_default(),
                None => Body::default(),
            };
            let body = bodies.entry(&step.body).or_default();
            let before = body.clone();
            body.take(plan, step, &fresh, &joined);
            closed.extend(step.joints.iter().filter_map(|id| plan.joint(id)));
            driven.extend(step.fasteners.iter().map(String::as_str));
            let (items, wet) = (body.items.clone(), body.wet.clone());
            let clamps_on = bodies.values().flat_map(|b| b.clamps.iter().copied()).collect();
            moments.push(Moment {
                step,
                before: before.parts,
                items,
                arriving: fresh.union(&joined.parts).copied().collect(),
                joined,
                face_before: before.face,
                aside: before.aside,
                closed: closed.clone(),
                driven: driven.clone(),
                placed: placed.clone(),
                wet_before: before.wet,
                wet,
                clamps_before: before.clamps,
                clamps_on,
            });
        }
        Replay { plan, moments, left: bodies }
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

    /// Mass of some parts in grams.
    pub fn mass<'b>(&self, parts: impl IntoIterator<Item = &'b usize>) -> i64 {
        parts.into_iter().filter_map(|p| self.plan.parts.get(*p)).map(|p| p.mass_g).sum()
    }

    /// Joints, no mere touch, between one part of `a` and one of `b`.
    pub fn between(&self, a: &BTreeSet<usize>, b: &BTreeSet<usize>) -> Vec<usize> {
        let meets = |j: &usize| {
            self.plan.joints[*j].kind != JointKind::Touch
                && self.plan.ends(*j).is_some_and(|[p, q]| {
                    (a.contains(&p) && b.contains(&q)) || (a.contains(&q) && b.contains(&p))
                })
        };
        (0..self.plan.joints.len()).filter(meets).collect()
    }
}

/// Whether a joint makes two parts one once it is closed.
pub fn fastens(plan: &PlanFile, joint: usize) -> bool {
    let j = &plan.joints[joint];
    j.kind == JointKind::Hinge
        || j.kind != JointKind::Touch && (!j.fasteners.is_empty() || cures(plan, joint))
}

/// Whether glue alone holds a joint, so that it must cure under a clamp.
pub fn cures(plan: &PlanFile, joint: usize) -> bool {
    let j = &plan.joints[joint];
    j.glue
        && j.fasteners.is_empty()
        && matches!(j.kind, JointKind::Butt | JointKind::Dado | JointKind::Overlay)
}

impl<'a> Body<'a> {
    fn take(
        &mut self,
        plan: &PlanFile,
        step: &'a Step,
        fresh: &BTreeSet<usize>,
        joined: &Body<'a>,
    ) {
        self.items.extend(fresh.iter().map(|p| BTreeSet::from([*p])));
        // What a set holds counts singly once it is in; a body that the parts name is one thing.
        let named = |id: &String| plan.parts.iter().any(|p| p.group == *id);
        if step.joins.as_ref().is_some_and(named) {
            self.items.push(joined.parts.clone());
        } else {
            self.items.extend(joined.items.iter().cloned());
        }
        self.parts.extend(fresh.iter().chain(&joined.parts).copied());
        self.face = (!self.parts.is_empty()).then_some(step.bench_face);
        self.aside = step.action == Action::SetAside;
        self.wet.extend(joined.wet.iter().copied());
        self.wet
            .extend(step.joints.iter().filter_map(|id| plan.joint(id)).filter(|j| cures(plan, *j)));
        self.clamps.extend(joined.clamps.iter().copied());
        self.clamps.extend(&step.clamps);
        match step.action {
            Action::Wait if u64::from(step.minutes) >= plan.workshop.glue.clamp => self.wet.clear(),
            Action::Unclamp => self.clamps.clear(),
            _ => {}
        }
    }
}

impl Moment<'_> {
    /// Parts in the body after the step.
    pub fn after(&self) -> BTreeSet<usize> {
        self.before.union(&self.arriving).copied().collect()
    }

    /// Whether a joint is closed: listed, and all its screws driven.
    pub fn is_closed(&self, plan: &PlanFile, joint: usize) -> bool {
        self.closed.contains(&joint)
            && plan.joints[joint].fasteners.iter().all(|f| self.driven.contains(f.id.as_str()))
    }

    /// Whether something joins a body that is there already.
    pub fn adds(&self) -> bool {
        !self.before.is_empty() && !self.arriving.is_empty()
    }

    /// What goes in: each part by itself, or the body that joins.
    pub fn lumps(&self) -> Vec<BTreeSet<usize>> {
        let lumps = match self.step.joins {
            Some(_) => vec![self.arriving.clone()],
            None => self.arriving.iter().map(|p| BTreeSet::from([*p])).collect(),
        };
        lumps.into_iter().filter(|l| !l.is_empty()).collect()
    }

    /// Whether a hold names some of these parts, or what joins when that is these parts.
    pub fn names(&self, plan: &PlanFile, what: &str, parts: &BTreeSet<usize>) -> bool {
        let joining = self.step.joins.as_deref() == Some(what) && *parts == self.arriving;
        joining || plan.part(what).is_some_and(|p| parts.contains(&p))
    }

    /// Whether the step says that something other than the bench holds the body that was there.
    pub fn body_held(&self, plan: &PlanFile) -> bool {
        self.step.hold.iter().any(|h| {
            let named = h.what == self.step.body || self.names(plan, &h.what, &self.before);
            named && matches!(h.with, HoldWith::Hand | HoldWith::Helper)
        })
    }
}
