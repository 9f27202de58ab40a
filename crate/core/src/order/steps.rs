//! Writes a found order down: steps with their certificates.

use crate::assembly::{Assembly, Fastener, JointKind, MAIN};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::plan::{
    Action, Check, CheckKind, Cost, Hold, HoldWith, Reason, Spacer, Stage, Step, Workshop,
};
use crate::units::{Length, Notation};

use super::bodies::{Content, Grouping};
use super::checks;
use super::holding::{Holding, Rest};
use super::locate::{self, Set};
use super::planned::Planned;
use super::scene::{Scene, members};
use super::search::{self, Move, Placing, State};
use super::words;

/// Writes the steps of all bodies, and what they cost with the checks included.
pub fn write(
    assembly: &Assembly,
    workshop: &Workshop,
    notation: Notation,
    planned: &Planned,
    findings: &mut Vec<Finding>,
) -> (Vec<Step>, Cost) {
    let mut writer = Writer { assembly, workshop, notation, planned, steps: Vec::new() };
    let last = planned.grouping.bodies.len() - 1;
    for (b, body) in planned.grouping.bodies.iter().enumerate() {
        if body.is_set
            && planned.grouping.bodies[last].items.iter().any(|i| i.content == Content::Body(b))
        {
            writer.body(b);
            writer.set_aside(b);
        }
    }
    writer.body(last);
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
                "Ask somebody for that step, or add a clamp that spans the piece.",
            )
            .number("steps", cost.helper_steps.to_string()),
        );
    }
    (steps, cost)
}

struct Writer<'a> {
    assembly: &'a Assembly,
    workshop: &'a Workshop,
    notation: Notation,
    planned: &'a Planned,
    steps: Vec<Step>,
}

impl Writer<'_> {
    fn grouping(&self) -> &Grouping {
        &self.planned.grouping
    }

    fn blank(&self, body: usize, face: Direction, action: Action) -> Step {
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
            why: Vec::new(),
            instead: None,
        }
    }

    /// All steps of a body, and before them those of the bodies it takes in.
    fn body(&mut self, b: usize) {
        let planned = self.planned;
        let body = &planned.grouping.bodies[b];
        let scene = Scene::new(self.assembly, self.workshop, &body.items);
        let path = &planned.paths[b];
        let moves = &path.moves;
        let brace = moves.iter().enumerate().position(|(k, (m, _))| match *m {
            Move::Place(item, _) => {
                let before = k.checked_sub(1).map(|p| moves[p].1);
                before.is_some_and(|s| {
                    checks::braces(&scene, item, s.set).is_some() && scene.has_ring(s.set, s.closed)
                })
            }
            _ => false,
        });
        let last_ring = moves.iter().enumerate().rposition(|(k, (m, _))| match *m {
            Move::Place(item, _) => k > 0 && checks::closes_ring(&scene, item, moves[k - 1].1.set),
            _ => false,
        });
        let mut before = State { set: 0, closed: 0, face: 6 };
        for (k, (m, after)) in moves.iter().enumerate() {
            match *m {
                Move::LayOut(item) => self.lay_out(b, &scene, item, after.face()),
                Move::Turn(face) => self.turn(b, &scene, &before, face),
                Move::Place(item, direction) => {
                    if brace == Some(k)
                        && let Some(side) = checks::braces(&scene, item, before.set)
                    {
                        self.square(b, &scene, before.set, side.opposite(), before.face());
                    }
                    self.place(b, &scene, item, direction, &before);
                    if brace.is_none() && last_ring == Some(k) {
                        let up = after.face().opposite();
                        self.square(b, &scene, after.set, up, after.face());
                    }
                }
            }
            before = *after;
        }
    }

    /// Builds the bodies that `b` takes in, when the first of them is about to join: all at once,
    /// so that `b` is not laid aside again with something in it that slides.
    fn build_bodies(&mut self, b: usize, scene: &Scene, first: Content, face: Direction) {
        let planned = self.planned;
        let bodies = &planned.grouping.bodies;
        let to_build = |content: &Content| match *content {
            Content::Body(other) if !bodies[other].is_set => Some(other),
            _ => None,
        };
        let built =
            |writer: &Self, other: usize| writer.steps.iter().any(|s| s.body == bodies[other].id);
        if to_build(&first).is_none_or(|other| built(self, other)) {
            return;
        }
        self.set_aside(b);
        for (m, _) in &planned.paths[b].moves {
            if let Move::Place(item, _) | Move::LayOut(item) = *m
                && let Some(other) = to_build(&scene.items[item].content)
                && !built(self, other)
            {
                self.body(other);
                self.set_aside(other);
            }
        }
        let mut step = self.blank(b, face, Action::BringIn);
        let name = words::body_name(self.assembly, self.grouping(), b);
        step.text = format!("Bring the {name} back.");
        self.steps.push(step);
    }

    fn set_aside(&mut self, b: usize) {
        let Some(face) = self.planned.paths[b].moves.last().map(|(_, s)| s.face()) else {
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
        if !scene.stands(1 << item, face) {
            step.minutes += 1;
            step.hold.push(hold(&self.what(scene, item), HoldWith::Hand, "It tips on its edge."));
        } else {
            step.why.push(reason("stands", "It lies by itself with 5° to spare.", &[5]));
        }
        self.steps.push(step);
    }

    fn content(&self, step: &mut Step, content: Content) {
        match content {
            Content::Part(p) => step.parts.push(self.assembly.parts[p].id.clone()),
            Content::Body(other) => step.joins = Some(self.grouping().bodies[other].id.clone()),
        }
    }

    fn what(&self, scene: &Scene, item: usize) -> String {
        match scene.items[item].content {
            Content::Part(p) => self.assembly.parts[p].id.clone(),
            Content::Body(other) => self.grouping().bodies[other].id.clone(),
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
        if mass > search::TURN_ALONE {
            step.people = 2;
            step.hold.push(hold(
                &step.body.clone(),
                HoldWith::Helper,
                "It is too heavy to turn alone.",
            ));
        }
        step.why.push(reason(
            "one-piece",
            "Every part in it is fastened or shut in, and it stands on the new face with 5° to spare.",
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
        step.why.push(self.tool_reason(&screws));
        self.steps.push(step);
    }

    fn screws(&self, scene: &Scene, links: u64) -> Vec<&Fastener> {
        members(links).flat_map(|l| &self.assembly.joints[scene.links[l].joint].fasteners).collect()
    }

    fn joints(&self, scene: &Scene, links: u64) -> Vec<String> {
        members(links).map(|l| self.assembly.joints[scene.links[l].joint].id.clone()).collect()
    }

    fn tool_reason(&self, screws: &[&Fastener]) -> Reason {
        let longest = screws.iter().map(|s| s.length.get()).max().unwrap_or(0);
        let room = longest + self.workshop.drill_length;
        let text = format!(
            "The drill needs {} behind each screw and has it.",
            self.notation.print(Length(room))
        );
        Reason { rule: "tool-room".to_owned(), text, numbers: vec![room] }
    }

    fn place(
        &mut self,
        b: usize,
        scene: &Scene,
        item: usize,
        direction: Direction,
        before: &State,
    ) {
        let Some(placing) = search::placing(scene, item, before) else {
            return;
        };
        let own = &scene.items[item];
        self.build_bodies(b, scene, own.content.clone(), before.face());
        let links = &scene.links;
        let glue = members(placing.closes).any(|l| self.assembly.joints[links[l].joint].glue);
        let shut = checks::shut_in(scene, item, before.set);
        if glue && !shut.is_empty() {
            self.dry_fit(b, scene, item, &shut, before.face());
        }
        let slides = members(placing.closes).all(|l| links[l].kind == JointKind::Slide);
        let action = if slides { Action::Hang } else { Action::Place };
        let mut step = self.blank(b, before.face(), action);
        step.direction = Some(direction);
        self.content(&mut step, own.content.clone());
        let screws = self.screws(scene, placing.closes);
        step.fasteners = screws.iter().map(|s| s.id.clone()).collect();
        step.joints = self.joints(scene, placing.closes);
        step.people = 1 + u8::from(placing.holding.helper());
        step.minutes = 2 + screws.len() as u32 + placing.holding.count() + placing.holding.clamps();
        self.holds(&mut step, scene, item, &placing.holding, before);
        self.located(&mut step, scene, item, before);
        if let Some(check) =
            checks::equal_widths(scene, self.grouping(), item, before.set, self.notation)
        {
            step.minutes += 2;
            step.checks.push(check);
        }
        step.text = self.sentence(scene, item, &placing, before, glue, &screws);
        self.reasons(&mut step, scene, item, &placing, before, &screws);
        self.steps.push(step);
    }

    fn sentence(
        &self,
        scene: &Scene,
        item: usize,
        placing: &Placing,
        before: &State,
        glue: bool,
        screws: &[&Fastener],
    ) -> String {
        let own = &scene.items[item];
        let face = before.face();
        let name = words::item_name(self.assembly, self.grouping(), own);
        let to = words::place_phrase(scene, self.grouping(), item, before.set, face);
        let around = scene.around(before.set | 1 << item);
        let on_bench = scene.reach[item][face.index()] == scene.plane(before.set, face);
        let slides = members(placing.closes).all(|l| scene.links[l].kind == JointKind::Slide);
        let channels = words::channels(scene, self.grouping(), item, placing.closes);
        let first = if slides {
            format!("Slide the {name} in {}.", words::from_where(placing.direction, face))
        } else if let Some(channels) = channels.filter(|_| !on_bench) {
            format!("Fit the {name} into the {channels}.")
        } else if on_bench {
            let verb = if words::is_flat(&own.bounds, face) { "Lay" } else { "Stand" };
            format!("{verb} the {name} {} {to}.", words::lying(&own.bounds, face))
        } else if placing.holding.rest == Rest::Stands {
            format!("Lay the {name} {to}.")
        } else {
            format!("Hold the {name} {to}.")
        };
        let mut text = if glue { format!("Spread glue. {first}") } else { first };
        if !screws.is_empty() {
            text.push(' ');
            text.push_str(&words::drive(screws, face, &around, self.notation));
        }
        text
    }

    fn holds(
        &self,
        step: &mut Step,
        scene: &Scene,
        item: usize,
        holding: &Holding,
        before: &State,
    ) {
        if let Some(with) = holding.body_with {
            let what = step.body.clone();
            step.hold.push(hold(&what, with, "What is already joined would tip."));
        }
        if let Some(with) = holding.part_with {
            let why = match holding.rest {
                Rest::Lifted => "Nothing carries it until the screws are in.",
                _ => "It tips on its edge until the screws are in.",
            };
            step.hold.push(hold(&self.what(scene, item), with, why));
        }
        let _ = before;
    }

    fn located(&self, step: &mut Step, scene: &Scene, item: usize, before: &State) {
        for set in locate::locate(scene, item, before.set, before.face()) {
            match set {
                Set::Face => {}
                Set::Flush(mate, side) => {
                    step.checks.push(checks::flush(scene, self.grouping(), mate, side));
                }
                Set::Measured(gap) => {
                    step.minutes += 1;
                    step.checks.push(checks::gap(
                        scene,
                        self.grouping(),
                        item,
                        &gap,
                        self.notation,
                    ));
                }
                Set::Spacer(placed) if step.spacer.is_none() => {
                    step.minutes += 1;
                    let mate = words::mate_name(scene, self.grouping(), placed.gap.mate);
                    let mate_datum = &scene.items[placed.gap.mate].datum;
                    let end = words::part_side(mate_datum, placed.gap.side);
                    step.spacer = Some(Spacer {
                        part: self.assembly.parts[placed.part].id.clone(),
                        dimension: placed.dimension,
                        sets: format!(
                            "{} from the {end} of the {mate}",
                            self.notation.print(Length((placed.gap.to - placed.gap.from).abs()))
                        ),
                        at: placed.at,
                        out: placed.out,
                    });
                }
                Set::Spacer(placed) => {
                    step.checks.push(checks::gap(
                        scene,
                        self.grouping(),
                        item,
                        &placed.gap,
                        self.notation,
                    ));
                }
            }
        }
    }

    fn reasons(
        &self,
        step: &mut Step,
        scene: &Scene,
        item: usize,
        placing: &Placing,
        before: &State,
        screws: &[&Fastener],
    ) {
        let face = before.face();
        let others = before.set.count_ones();
        let towards = words::towards(placing.direction, face);
        step.why.push(Reason {
            rule: "clear-path".to_owned(),
            text: match others {
                1 => format!("Moving {towards}, it misses the part already there, and the bench."),
                _ => format!(
                    "Moving {towards}, it misses all {others} already there, and the bench."
                ),
            },
            numbers: vec![i64::from(others)],
        });
        if !screws.is_empty() {
            step.why.push(self.tool_reason(screws));
        }
        // What would shut it out if it went first.
        for later in members(scene.full() & !before.set & !(1 << item)) {
            let there = before.set | 1 << later;
            let shut_out = Direction::ALL
                .into_iter()
                .all(|d| d == face.opposite() || scene.blocking.entering(item, d, there) != 0);
            let no_room = members(placing.closes)
                .any(|l| scene.links[l].rooms.iter().any(|r| r.blockers >> later & 1 == 1));
            let name = words::mate_name(scene, self.grouping(), later);
            if shut_out {
                step.why.push(reason(
                    "before",
                    &format!("Before the {name}, which would close its way in."),
                    &[],
                ));
            } else if no_room {
                step.why.push(reason(
                    "before",
                    &format!("Before the {name}, which would stand where the drill goes."),
                    &[],
                ));
            }
        }
        if placing.holding.rest == Rest::Stands {
            step.why.push(reason(
                "stands",
                "It stands by itself meanwhile, with 5° to spare.",
                &[5],
            ));
        }
    }

    fn dry_fit(&mut self, b: usize, scene: &Scene, item: usize, shut: &[usize], face: Direction) {
        let name = words::item_name(self.assembly, self.grouping(), &scene.items[item]);
        let inside: Vec<String> = shut
            .iter()
            .map(|&j| words::item_name(self.assembly, self.grouping(), &scene.items[j]))
            .collect();
        let inside = words::list(&inside);
        let mut step = self.blank(b, face, Action::DryFit);
        step.minutes = 3;
        step.text = format!(
            "Before the glue: put the {name} on dry. The {inside} must move a little in its grooves and the joints close by hand. Take it off again."
        );
        step.checks.push(Check {
            kind: CheckKind::DryFit,
            expected: Vec::new(),
            tolerance: 0,
            between: Vec::new(),
            text: format!(
                "If it does not close, plane the edges of the {inside}, not the grooves."
            ),
        });
        step.why.push(reason(
            "shut-in",
            &format!("Once the {name} is glued on, the {inside} cannot come out."),
            &[],
        ));
        self.steps.push(step);
    }

    fn square(&mut self, b: usize, scene: &Scene, set: u64, side: Direction, face: Direction) {
        let sides =
            [side, face.opposite()].into_iter().chain(Direction::ALL).filter(|&s| s != face);
        let Some(check) =
            sides.into_iter().find_map(|s| checks::diagonals(scene, set, s, self.notation))
        else {
            return;
        };
        let mut step = self.blank(b, face, Action::Check);
        step.text = check.text.clone();
        step.checks.push(check);
        step.why.push(reason(
            "square",
            "It can still be pushed square now; the next joints lock it.",
            &[],
        ));
        self.steps.push(step);
    }
}

fn hold(what: &str, with: HoldWith, why: &str) -> Hold {
    Hold { what: what.to_owned(), with, why: why.to_owned(), clamp: None }
}

fn reason(rule: &str, text: &str, numbers: &[i64]) -> Reason {
    Reason { rule: rule.to_owned(), text: text.to_owned(), numbers: numbers.to_vec() }
}
