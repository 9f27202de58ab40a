//! What the rules ask of a plan: materials, joints, what moves with what, and when.

use crate::assembly::{JointKind, Kind, Role};
use crate::geometry::{Box3, Direction, Solid};
use crate::plan::{Action, Plan, PlanJoint, PlanPart};
use crate::scenario::{Cabinet, Install, Material, MaterialKind, Scenario, Subject};
use crate::units::Notation;

use super::num;

/// A plan with what all rules look up in it.
pub struct Facts<'a> {
    pub plan: &'a Plan,
    pub scenario: &'a Scenario,
    pub notation: Notation,
    /// Of each part in the plan's order.
    pub solids: Vec<Solid>,
    pub bounds: Vec<Box3>,
    /// What stands still and what opens.
    pub sets: Vec<Set>,
    /// The lowest point of the piece.
    pub floor: i64,
}

/// How a set of parts moves when the piece is in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moves {
    /// It stands.
    Stands,
    /// It slides out to the front.
    Slides,
    /// It swings on hinges.
    Swings,
    /// It only lies in or on the rest.
    Loose,
}

/// Parts that move as one.
pub struct Set {
    pub parts: Vec<usize>,
    pub moves: Moves,
}

/// A mass and its first moments in gram-micrometres.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Weight {
    pub mass_g: i64,
    pub moments: [i128; 3],
}

impl Weight {
    /// The centre of gravity.
    pub fn centre(&self) -> [i64; 3] {
        self.moments.map(|m| num::small(num::div(m, i128::from(self.mass_g))))
    }
}

impl<'a> Facts<'a> {
    pub fn new(plan: &'a Plan, scenario: &'a Scenario) -> Self {
        let solids: Vec<Solid> =
            plan.parts.iter().map(|p| Solid::from_boxes(p.boxes.clone())).collect();
        let bounds: Vec<Box3> = solids.iter().map(Solid::bounds).collect();
        let floor = bounds.iter().map(|b| b.min[2]).min().unwrap_or(0);
        let sets = sets(plan, &bounds);
        Facts { plan, scenario, notation: scenario.notation, solids, bounds, sets, floor }
    }

    pub fn index(&self, id: &str) -> Option<usize> {
        self.plan.parts.iter().position(|p| p.id == id)
    }

    pub fn part(&self, i: usize) -> &'a PlanPart {
        &self.plan.parts[i]
    }

    /// Parts of a joint.
    pub fn ends(&self, joint: &PlanJoint) -> Option<[usize; 2]> {
        Some([self.index(&joint.parts[0])?, self.index(&joint.parts[1])?])
    }

    /// What a panel is cut from.
    pub fn material(&self, i: usize) -> Option<&'a Material> {
        let part = self.part(i);
        (part.kind == Kind::Panel).then(|| self.scenario.shop.material(&part.material)).flatten()
    }

    pub fn kind(&self, i: usize) -> Option<MaterialKind> {
        self.material(i).map(|m| m.kind)
    }

    /// The cabinet, unless the piece is listed part by part.
    pub fn cabinet(&self) -> Option<&'a Cabinet> {
        match &self.scenario.subject {
            Subject::Cabinet(c) => Some(c),
            Subject::Listed(_) => None,
        }
    }

    pub fn install(&self) -> &'a Install {
        &self.scenario.install
    }

    pub fn with_role(&self, role: Role) -> impl Iterator<Item = usize> + '_ {
        (0..self.plan.parts.len()).filter(move |&i| self.part(i).role == role)
    }

    /// The step in which a part goes in.
    pub fn step_of(&self, i: usize) -> Option<u32> {
        let id = &self.part(i).id;
        self.plan.steps.iter().find(|s| s.parts.contains(id)).map(|s| s.n)
    }

    /// The step in which a joint is closed.
    pub fn step_of_joint(&self, id: &str) -> Option<u32> {
        self.plan.steps.iter().find(|s| s.joints.iter().any(|j| j == id)).map(|s| s.n)
    }

    /// The step that hangs a set in, or the last one.
    pub fn step_of_set(&self, set: &Set) -> Option<u32> {
        let group = set.parts.first().map(|&i| self.part(i).group.as_str());
        let mut hung = self.plan.steps.iter().filter(|s| s.action == Action::Hang);
        let own = hung.find(|s| s.joins.as_deref() == group);
        own.or(self.plan.steps.last()).map(|s| s.n)
    }

    /// Mass and moments of some parts.
    pub fn weigh(&self, parts: impl IntoIterator<Item = usize>) -> Weight {
        let mut all = Weight::default();
        for i in parts {
            let (mass, solid) = (self.part(i).mass_g, &self.solids[i]);
            let (doubled, twice) = (solid.doubled_moments(), 2 * solid.volume());
            all.mass_g += mass;
            for (sum, moment) in all.moments.iter_mut().zip(doubled) {
                // The centre first: a volume in cubic micrometres times a mass would overflow.
                *sum += num::div(moment, twice) * i128::from(mass);
            }
        }
        all
    }

    /// The least box around some parts.
    pub fn around(&self, parts: impl IntoIterator<Item = usize>) -> Option<Box3> {
        parts.into_iter().map(|i| self.bounds[i]).reduce(|a, b| a.union(&b))
    }

    /// Where a centre lies in the finished, standing piece, from its outermost faces at the left and the front, and
    /// from the floor: `A, B, C`.
    pub fn placed(&self, centre: [i64; 3]) -> String {
        let corner = self.around(0..self.plan.parts.len()).map_or([0; 3], |all| all.min);
        [0, 1, 2].map(|axis| self.length(centre[axis] - corner[axis])).join(", ")
    }

    /// The parts that stand.
    pub fn standing(&self) -> impl Iterator<Item = usize> + '_ {
        self.sets.iter().filter(|s| s.moves == Moves::Stands).flat_map(|s| s.parts.iter().copied())
    }

    /// What the contents weigh together.
    pub fn contents_g(&self) -> i64 {
        let listed = self.cabinet().map_or(&[][..], |c| &c.contents);
        listed.iter().map(|c| c.mass_g * i64::from(c.count)).sum()
    }

    /// The boxes that the contents stand in; none when they stand on shelves.
    pub fn boxes(&self) -> impl Iterator<Item = &Set> + '_ {
        let on_shelves = self.cabinet().is_some_and(|c| c.build.on_shelves());
        let bottom = |s: &&Set| s.parts.iter().any(|&i| self.part(i).role == Role::BoxBottom);
        let slides = self.sets.iter().filter(|s| s.moves == Moves::Slides);
        slides.filter(bottom).filter(move |_| !on_shelves)
    }

    /// What stands in one of the boxes.
    pub fn load_of_a_box(&self) -> i64 {
        let n = i64::try_from(self.boxes().count()).unwrap_or(1);
        if n == 0 { 0 } else { self.contents_g() / n }
    }

    pub fn length(&self, um: i64) -> String {
        num::length(self.notation, um)
    }

    /// A length that must not be rounded: a sheet of 15/32 in is not 7/16.
    pub fn finest(&self, um: i64) -> String {
        num::length(self.notation.finest(), um)
    }

    pub fn mass(&self, g: i64) -> String {
        num::mass(self.notation, g)
    }
}

/// Parts that move as one: joined by anything but a slide or a hinge.
fn sets(plan: &Plan, bounds: &[Box3]) -> Vec<Set> {
    let n = plan.parts.len();
    let index = |id: &String| plan.parts.iter().position(|p| p.id == *id);
    let mut of: Vec<usize> = (0..n).collect();
    let mut slides = vec![false; n];
    for joint in &plan.joints {
        let (Some(a), Some(b)) = (index(&joint.parts[0]), index(&joint.parts[1])) else { continue };
        let roles = [plan.parts[a].role, plan.parts[b].role];
        let swings = roles.contains(&Role::Hinge) && !roles.contains(&Role::Door);
        if joint.kind == JointKind::Slide {
            (slides[a], slides[b]) = (true, true);
        } else if !swings {
            let (from, to) = (of[a].max(of[b]), of[a].min(of[b]));
            of.iter_mut().filter(|s| **s == from).for_each(|s| *s = to);
        }
    }
    let mut sets: Vec<Set> = Vec::new();
    for root in 0..n {
        let parts: Vec<usize> = (0..n).filter(|&i| of[i] == root).collect();
        if !parts.is_empty() {
            sets.push(Set { parts, moves: Moves::Loose });
        }
    }
    // What stands: sides when the piece has them, else what weighs most.
    let weight = |s: &Set| {
        let sides = s.parts.iter().any(|&i| plan.parts[i].role == Role::Side);
        let mass: i64 = s.parts.iter().map(|&i| plan.parts[i].mass_g).sum();
        (sides, mass)
    };
    let stands = (0..sets.len()).max_by_key(|&s| (weight(&sets[s]), std::cmp::Reverse(s)));
    let to_the_back = |s: &Set| {
        let groups: Vec<&str> = s.parts.iter().map(|&i| plan.parts[i].group.as_str()).collect();
        plan.steps.iter().any(|step| {
            step.action == Action::Hang
                && step.direction == Some(Direction::Back)
                && step.joins.as_deref().is_some_and(|body| groups.contains(&body))
        })
    };
    // A platform that carries the rest stands too.
    let low = bounds.iter().map(|b| b.min[2]).min().unwrap_or(0);
    for (n, set) in sets.iter_mut().enumerate() {
        let slides = set.parts.iter().any(|&i| slides[i]);
        set.moves = if Some(n) == stands {
            Moves::Stands
        } else if set.parts.iter().any(|&i| plan.parts[i].role == Role::Door) {
            Moves::Swings
        } else if slides && to_the_back(set) {
            Moves::Slides
        } else if set.parts.iter().any(|&i| bounds[i].min[2] == low) {
            Moves::Stands
        } else {
            Moves::Loose
        };
    }
    sets
}
