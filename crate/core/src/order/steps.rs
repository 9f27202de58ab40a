//! Writes a found order down: steps with their certificates.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::assembly::{Assembly, JointKind, Kind, MAIN};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::plan::{
    Action, BY_SQUARE, CheckKind, Cost, Hold, HoldWith, Reason, Stage, Step, Workshop,
};
use crate::units::Notation;

use super::Wanted;
use super::bodies::{Content, Grouping};
use super::checks;
use super::holding;
use super::instead::Others;
use super::locate::{self, Set};
use super::placing;
use super::planned::{self, Planned};
use super::scene::{Scene, members};
use super::spacer::{Loose, Placed};
use super::state::{Move, State, states};
use super::words;

/// Writes the steps of all bodies, what they cost with the checks included, and the spacers that would be of use.
pub fn write(
    assembly: &Assembly,
    workshop: &Workshop,
    notation: Notation,
    planned: &Planned,
    findings: &mut Vec<Finding>,
) -> (Vec<Step>, Cost, Vec<Wanted>) {
    let mut writer = Writer {
        assembly,
        workshop,
        notation,
        planned,
        thicknesses: thicknesses(assembly),
        steps: Vec::new(),
        wanted: Vec::new(),
    };
    writer.body(planned.grouping.bodies.len() - 1);
    let mut steps = writer.steps;
    for (n, step) in steps.iter_mut().enumerate() {
        step.n = n as u32 + 1;
    }
    let mut cost = planned.cost;
    cost.minutes = steps.iter().map(|s| s.minutes).sum();
    if workshop.people < 2
        && let Some(step) = steps.iter().find(|s| s.people > 1)
    {
        findings.push(
            Finding::new(
                Severity::Fix,
                "needs-helper",
                format!("step {}", step.n),
                format!("Step {} takes a second person, and the shop has one.", step.n),
                if step.hold.iter().any(|h| h.with == HoldWith::Helper && h.what != step.body) {
                    "Ask somebody for that step, or add a clamp that spans the piece."
                } else {
                    "Ask somebody for that step and say so (`shop.people` 2), or take a lighter or thinner sheet: what is moved there is too heavy or too long for one."
                },
            )
            .number("steps", cost.helper_steps.to_string()),
        );
    }
    (steps, cost, writer.wanted)
}

/// Of what the parts are cut from, the commonest first.
fn thicknesses(assembly: &Assembly) -> Vec<i64> {
    let mut counts: BTreeMap<i64, usize> = BTreeMap::new();
    for part in assembly.parts.iter().filter(|p| p.kind == Kind::Panel) {
        *counts.entry(part.thickness.get()).or_default() += 1;
    }
    let mut all: Vec<(i64, usize)> = counts.into_iter().collect();
    all.sort_by_key(|(thickness, count)| (Reverse(*count), *thickness));
    all.into_iter().map(|(thickness, _)| thickness).collect()
}

/// Writes the steps one after another.
pub(super) struct Writer<'a> {
    pub(super) assembly: &'a Assembly,
    pub(super) workshop: &'a Workshop,
    pub(super) notation: Notation,
    planned: &'a Planned,
    pub(super) thicknesses: Vec<i64>,
    pub(super) steps: Vec<Step>,
    pub(super) wanted: Vec<Wanted>,
}

impl Writer<'_> {
    pub(super) fn grouping(&self) -> &Grouping {
        &self.planned.grouping
    }

    pub(super) fn blank(&self, body: usize, face: Direction, action: Action) -> Step {
        Step {
            n: 0,
            stage: Stage::Bench,
            action,
            text: String::new(),
            bench_face: face,
            body: self.grouping().bodies[body].id.clone(),
            parts: Vec::new(),
            joins: None,
            direction: None,
            fasteners: Vec::new(),
            joints: Vec::new(),
            people: 1,
            minutes: 2,
            drivers: Vec::new(),
            clamps: Vec::new(),
            hold: Vec::new(),
            spacer: None,
            checks: Vec::new(),
            lines: Vec::new(),
            why: Vec::new(),
            instead: None,
        }
    }

    /// All steps of a body, and before them those of the sets it takes in.
    fn body(&mut self, b: usize) {
        let planned = self.planned;
        let body = &planned.grouping.bodies[b];
        let scene = Scene::of(self.assembly, self.workshop, body);
        let moves = &planned.paths[b];
        let start = planned::task(&scene, &planned.wishes, body, 0).start;
        let states = states(&scene, start, moves);
        self.sets_first(b, &scene, &states);
        let brace = moves.iter().zip(&states).position(|(m, before)| {
            matches!(*m, Move::Place(item, _)
                if checks::braces(&scene, item, before.set).is_some()
                    && scene.has_ring(before.set, before.closed))
        });
        let last_ring = moves.iter().zip(&states).rposition(|(m, before)| {
            matches!(*m, Move::Place(item, _) if checks::closes_ring(&scene, item, before.set))
        });
        // The step after which nothing can be pushed square any more.
        let locks = brace.or(last_ring);
        if start.set != 0 {
            self.done_already(b, &scene, &start);
        }
        let others = Others::new(&scene, planned, b, &states);
        for (k, m) in moves.iter().enumerate() {
            let (before, after) = (&states[k], &states[k + 1]);
            let first = self.steps.len();
            match *m {
                Move::LayOut(item, face) => self.lay_out(b, &scene, item, face),
                Move::Turn(face) => self.turn(b, &scene, before, face),
                Move::Wait => self.wait(b, before),
                Move::Place(item, direction) => {
                    if brace == Some(k)
                        && let Some(side) = checks::braces(&scene, item, before.set)
                    {
                        self.square(b, &scene, before.set, side.opposite(), before.face());
                    }
                    let wait = moves.iter().skip(k).position(|m| *m == Move::Wait);
                    let by_then = wait.map_or(after.set, |more| states[k + more].set);
                    self.place(b, &scene, item, direction, before, by_then);
                    if brace.is_none() && last_ring == Some(k) {
                        let up = after.face().opposite();
                        self.square(b, &scene, after.set, up, after.face());
                    }
                }
            }
            let own = |s: &&mut Step| {
                matches!(
                    s.action,
                    Action::LayOut | Action::Place | Action::Hang | Action::Turn | Action::Wait
                ) && s.body == body.id
            };
            if locks == Some(k)
                && let Some(step) = self.steps[first..]
                    .iter_mut()
                    .rev()
                    .find(|s| s.joins.is_some() || !s.parts.is_empty())
            {
                step.why.push(reason(
                    "locks-square",
                    "With this the frame is locked: what is out of square now stays so.",
                    &[],
                ));
            }
            let instead = others.instead(self, k, *m);
            if let Some(step) = self.steps[first..].iter_mut().find(own) {
                step.instead = instead;
            }
        }
    }

    /// Builds the sets that `b` takes in, and the bodies that it begins with, apart from those of which a part is to
    /// serve as a spacer before: they are built when they join. What is laid out and joined by nothing but bodies
    /// yet would only be laid out to be set aside again.
    fn sets_first(&mut self, b: usize, scene: &Scene, states: &[State]) {
        let planned = self.planned;
        let bodies = &planned.grouping.bodies;
        let mut spacers: Vec<usize> = Vec::new();
        let mut bodies_only = true;
        for (m, before) in planned.paths[b].iter().zip(states) {
            let (Move::LayOut(item, _) | Move::Place(item, _)) = *m else { continue };
            let own = &scene.items[item];
            bodies_only &= matches!(own.content, Content::Body(_));
            if let Content::Body(other) = own.content
                && (bodies[other].is_set || bodies_only)
                && !own.parts.iter().any(|p| spacers.contains(p))
            {
                self.body(other);
                self.set_aside(other);
            }
            if matches!(m, Move::Place(..)) {
                for set in locate::locate(scene, scene.full(), item, before.set, before.face()) {
                    if let Set::Spacer(Placed { loose: Loose::Part(part), .. }) = set {
                        spacers.push(part);
                    }
                }
            }
        }
    }

    /// What the maker had together already.
    fn done_already(&mut self, b: usize, scene: &Scene, start: &State) {
        let face = start.face();
        let mut step = self.blank(b, face, Action::LayOut);
        let names: Vec<String> = members(start.set)
            .map(|i| {
                format!("the {}", words::item_name(self.assembly, self.grouping(), &scene.items[i]))
            })
            .collect();
        step.text = format!(
            "Already together, lying on its {}: {}.",
            words::onto(face),
            words::list(&names)
        );
        step.minutes = 0;
        step.parts = members(start.set)
            .flat_map(|i| &scene.items[i].parts)
            .map(|&p| self.assembly.parts[p].id.clone())
            .collect();
        let inside = |p: usize| step.parts.contains(&self.assembly.parts[p].id);
        let closed = self.assembly.joints.iter().filter(|j| j.parts.iter().all(|&p| inside(p)));
        let closed: Vec<_> = closed.filter(|j| j.kind != JointKind::Touch).collect();
        step.joints = closed.iter().map(|j| j.id.clone()).collect();
        step.fasteners = closed.iter().flat_map(|j| &j.fasteners).map(|f| f.id.clone()).collect();
        step.why.push(reason(
            "as-built",
            "The maker says so: it is taken as found, and the order goes on from there.",
            &[],
        ));
        self.steadied(&mut step, scene, start.set, face);
        self.steps.push(step);
    }

    /// A hold for what lies on the bench, when it would tip.
    fn steadied(&self, step: &mut Step, scene: &Scene, set: u64, face: Direction) {
        if set != 0 && !scene.stands(set, face) {
            self.hold_body(step, scene, set, HoldWith::Hand, "It would tip.");
        }
    }

    /// What lies on the bench is held.
    pub(super) fn hold_body(
        &self,
        step: &mut Step,
        scene: &Scene,
        set: u64,
        with: HoldWith,
        why: &str,
    ) {
        let mut held = hold(&step.body, with, why);
        held.name = self.lying(scene, set);
        step.hold.push(held);
    }

    /// What those items are called that lie on the bench, when they are not all of the body.
    pub(super) fn lying(&self, scene: &Scene, set: u64) -> Option<String> {
        if set == scene.full() {
            return None;
        }
        let names = members(set).map(|i| words::mate_name(scene, self.grouping(), i));
        let names: Vec<String> = names.collect();
        Some(match names.len() {
            1 | 2 => words::list(&names),
            _ => "what is joined so far".to_owned(),
        })
    }

    /// Glue cures, on what stands by itself; then its clamps come off.
    fn wait(&mut self, b: usize, before: &State) {
        let face = before.face();
        let minutes = self.workshop.glue.clamp;
        let mut step = self.blank(b, face, Action::Wait);
        step.minutes = minutes;
        step.text = format!("Leave the clamps on for {minutes} minutes.");
        step.why.push(reason(
            "cures",
            "The glue holds by itself after that; until then the piece is not turned.",
            &[i64::from(minutes)],
        ));
        let built = |id: &String| self.steps.iter().any(|s| s.body == *id);
        let later = self.grouping().bodies.iter().enumerate();
        let meanwhile: Vec<String> = later
            .filter(|(other, body)| *other != b && !built(&body.id) && body.id != MAIN)
            .map(|(other, _)| {
                format!("the {}", words::body_name(self.assembly, self.grouping(), other))
            })
            .collect();
        if !meanwhile.is_empty() {
            step.why.push(reason(
                "meanwhile",
                &format!("Meanwhile there is time for {}.", words::list(&meanwhile)),
                &[],
            ));
        }
        self.steps.push(step);
        let clamps = before.wet.count_ones();
        let mut step = self.blank(b, face, Action::Unclamp);
        step.minutes = clamps;
        step.text = match clamps {
            1 => "Take the clamp off.".to_owned(),
            _ => format!("Take the {clamps} clamps off."),
        };
        self.steps.push(step);
    }

    /// Builds the bodies that `b` takes in, when the first of them is about to join: all at once,
    /// so that `b` is not laid aside again with something in it that slides.
    pub(super) fn build_bodies(
        &mut self,
        b: usize,
        scene: &Scene,
        first: &Content,
        before: &State,
    ) {
        let planned = self.planned;
        let bodies = &planned.grouping.bodies;
        let built =
            |writer: &Self, other: usize| writer.steps.iter().any(|s| s.body == bodies[other].id);
        let Content::Body(wanted) = *first else { return };
        if built(self, wanted) {
            return;
        }
        self.set_aside(b);
        for m in &planned.paths[b] {
            if let Move::Place(item, _) | Move::LayOut(item, _) = *m
                && let Content::Body(other) = scene.items[item].content
                && (other == wanted || !bodies[other].is_set)
                && !built(self, other)
            {
                self.body(other);
                self.set_aside(other);
            }
        }
        let mut step = self.blank(b, before.face(), Action::BringIn);
        let name = words::body_name(self.assembly, self.grouping(), b);
        step.text = format!("Bring the {name} back.");
        self.steadied(&mut step, scene, before.set, before.face());
        self.steps.push(step);
    }

    fn set_aside(&mut self, b: usize) {
        // On the face it lies on by now.
        let id = &self.grouping().bodies[b].id;
        let Some(face) = self.steps.iter().rev().find(|s| s.body == *id).map(|s| s.bench_face)
        else {
            return;
        };
        let mut step = self.blank(b, face, Action::SetAside);
        step.text =
            format!("Set the {} aside.", words::body_name(self.assembly, self.grouping(), b));
        step.why.push(reason("needs-bench", "The bench is needed for the next piece.", &[]));
        self.steps.push(step);
    }

    fn lay_out(&mut self, b: usize, scene: &Scene, item: usize, face: Direction) {
        let own = &scene.items[item];
        let name = words::item_name(self.assembly, self.grouping(), own);
        let verb = if words::is_flat(&own.bounds, face) { "Lay" } else { "Stand" };
        let mut step = self.blank(b, face, Action::LayOut);
        // Bearers give drill and clamps room under the work.
        let on = if self.workshop.bearers > 0 { "two bearers" } else { "the bench" };
        step.text = format!("{verb} the {name} {} on {on}.", words::lying(&own.bounds, face));
        step.minutes = 1;
        self.content(&mut step, own.content.clone());
        if !scene.stands(scene.masks[item], face) {
            step.minutes += 1;
            step.hold.push(hold(&self.what(scene, item), HoldWith::Hand, "It tips on its edge."));
        } else {
            step.why.push(reason("stands", "It lies by itself, tilted by 5° as well.", &[5]));
        }
        self.shared(&mut step, scene, item);
        self.steps.push(step);
    }

    /// A second person, when the item is too heavy or too long for one.
    pub(super) fn shared(&self, step: &mut Step, scene: &Scene, item: usize) {
        if holding::unwieldy(scene, item) {
            step.people = 2;
            step.why.push(reason(
                "two-people",
                "It is too heavy or too long for one person to place.",
                &[scene.items[item].mass],
            ));
        }
    }

    pub(super) fn content(&self, step: &mut Step, content: Content) {
        match content {
            Content::Part(p) => step.parts.push(self.assembly.parts[p].id.clone()),
            Content::Body(other) => step.joins = Some(self.grouping().bodies[other].id.clone()),
            Content::Set => {}
        }
    }

    pub(super) fn what(&self, scene: &Scene, item: usize) -> String {
        match scene.items[item].content {
            Content::Part(p) => self.assembly.parts[p].id.clone(),
            Content::Body(other) => self.grouping().bodies[other].id.clone(),
            Content::Set => String::new(),
        }
    }

    fn turn(&mut self, b: usize, scene: &Scene, before: &State, face: Direction) {
        let mut step = self.blank(b, face, Action::Turn);
        let name = words::body_name(self.assembly, self.grouping(), b);
        step.text = if self.grouping().bodies[b].id == MAIN && face == self.assembly.stands_on {
            format!("Stand the {name} upright.")
        } else {
            format!("Turn the {name} onto its {}.", words::onto(face))
        };
        let mass = scene.mass(before.set);
        if mass > placing::TURN_ALONE {
            step.people = 2;
            step.hold.push(hold(
                &step.body.clone(),
                HoldWith::Helper,
                "It is too heavy to turn alone.",
            ));
        }
        step.why.push(reason(
            "one-piece",
            "Every part in it is fastened or shut in, and it stands on the new face, tilted by 5° as well.",
            &[mass, 5],
        ));
        let pending = scene.links_in(before.set) & !before.closed;
        let closes = scene.closable(before.set, face, pending);
        self.steps.push(step);
        let screws = self.screws(scene, closes);
        if screws.is_empty() {
            return;
        }
        let mut step = self.blank(b, face, Action::Drive);
        step.text = words::drive(&screws, face, &scene.around(before.set), self.notation);
        step.minutes = screws.len() as u32;
        step.fasteners = screws.iter().map(|s| s.id.clone()).collect();
        step.joints = self.joints(scene, closes);
        step.drivers = self.drivers(scene, closes, before.set, face);
        self.say_drivers(&mut step);
        step.why.push(self.tool_reason(&screws));
        self.steps.push(step);
    }

    fn square(&mut self, b: usize, scene: &Scene, set: u64, side: Direction, face: Direction) {
        let sides =
            [side, face.opposite()].into_iter().chain(Direction::ALL).filter(|&s| s != face);
        let Some(mut check) =
            sides.into_iter().find_map(|s| checks::diagonals(scene, set, s, self.notation))
        else {
            return;
        };
        if self.workshop.square_check == BY_SQUARE {
            check.text.extend(checks::by_square(&check, self.notation));
        }
        let mut step = self.blank(b, face, Action::Check);
        step.text = check.text.clone();
        let id = &step.body;
        let compared =
            |s: &Step| s.body == *id && s.checks.iter().any(|c| c.kind == CheckKind::EqualWidths);
        if !self.steps.iter().any(compared)
            && let Some(ends) = checks::ends(&check, self.notation)
        {
            step.minutes += 2;
            step.checks.push(ends);
        }
        step.checks.push(check);
        self.steadied(&mut step, scene, set, face);
        step.why.push(reason(
            "square",
            "It can still be pushed square now; the next joints lock it.",
            &[],
        ));
        self.steps.push(step);
    }
}

pub(super) fn hold(what: &str, with: HoldWith, why: &str) -> Hold {
    Hold { what: what.to_owned(), name: None, with, why: why.to_owned(), clamp: None }
}

pub(crate) fn reason(rule: &str, text: &str, numbers: &[i64]) -> Reason {
    Reason { rule: rule.to_owned(), text: text.to_owned(), numbers: numbers.to_vec() }
}
