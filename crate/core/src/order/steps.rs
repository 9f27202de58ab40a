//! Writes a found order down: steps with their certificates.

use crate::assembly::{Assembly, Fastener, JointKind, MAIN};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::plan::{
    Action, Check, CheckKind, Cost, DriverUse, Hold, HoldWith, Reason, Spacer, Stage, Step,
    Workshop,
};
use crate::units::{Length, Notation};

use super::bodies::{Content, Grouping};
use super::checks;
use super::holding::{self, Holding, Rest};
use super::instead::Others;
use super::locate::{self, Loose, Placed, Set};
use super::placing::{self, Placing};
use super::planned::Planned;
use super::scene::{Scene, members};
use super::state::{Move, State, states};
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
                "Ask somebody for that step, or add a clamp that spans the piece.",
            )
            .number("steps", cost.helper_steps.to_string()),
        );
    }
    (steps, cost)
}

/// Writes the steps one after another.
pub(super) struct Writer<'a> {
    pub(super) assembly: &'a Assembly,
    pub(super) workshop: &'a Workshop,
    notation: Notation,
    planned: &'a Planned,
    steps: Vec<Step>,
}

impl Writer<'_> {
    pub(super) fn grouping(&self) -> &Grouping {
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

    /// All steps of a body, and before them those of the sets it takes in.
    fn body(&mut self, b: usize) {
        let planned = self.planned;
        let body = &planned.grouping.bodies[b];
        let scene = Scene::new(self.assembly, self.workshop, &body.items);
        let moves = &planned.paths[b];
        self.sets_first(b, &scene);
        let start = if body.id == MAIN { planned.start } else { State::EMPTY };
        let states = states(&scene, start, moves);
        let brace = moves.iter().zip(&states).position(|(m, before)| {
            matches!(*m, Move::Place(item, _)
                if checks::braces(&scene, item, before.set).is_some()
                    && scene.has_ring(before.set, before.closed))
        });
        let last_ring = moves.iter().zip(&states).rposition(|(m, before)| {
            matches!(*m, Move::Place(item, _) if checks::closes_ring(&scene, item, before.set))
        });
        if start.set != 0 {
            self.done_already(b, &scene, &start);
        }
        let mut others = Others::new(&scene, planned, b, &states);
        for (k, m) in moves.iter().enumerate() {
            let (before, after) = (&states[k], &states[k + 1]);
            let first = self.steps.len();
            match *m {
                Move::LayOut(item, face) => self.lay_out(b, &scene, item, face),
                Move::Turn(face) => self.turn(b, &scene, before, face),
                Move::Wait => self.wait(b, &scene, before),
                Move::Place(item, direction) => {
                    if brace == Some(k)
                        && let Some(side) = checks::braces(&scene, item, before.set)
                    {
                        self.square(b, &scene, before.set, side.opposite(), before.face());
                    }
                    self.place(b, &scene, item, direction, before);
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
            let instead = others.instead(self, k, *m);
            if let Some(step) = self.steps[first..].iter_mut().find(own) {
                step.instead = instead;
            }
        }
    }

    /// Builds the sets that `b` takes in, apart from those of which a part is to serve as a spacer
    /// before: they are built when they join.
    fn sets_first(&mut self, b: usize, scene: &Scene) {
        let planned = self.planned;
        let bodies = &planned.grouping.bodies;
        let moves = &planned.paths[b];
        let start = if bodies[b].id == MAIN { planned.start } else { State::EMPTY };
        let states = states(scene, start, moves);
        let mut spacers: Vec<usize> = Vec::new();
        for (m, before) in moves.iter().zip(&states) {
            let (Move::LayOut(item, _) | Move::Place(item, _)) = *m else { continue };
            let own = &scene.items[item];
            if let Content::Body(other) = own.content
                && bodies[other].is_set
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
        let mut items: Vec<usize> = members(start.set).collect();
        items.retain(|&i| matches!(scene.items[i].content, Content::Part(_)));
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
            let what = step.body.clone();
            step.hold.push(hold(&what, HoldWith::Hand, "It would tip."));
        }
    }

    /// Glue cures; then its clamps come off.
    fn wait(&mut self, b: usize, scene: &Scene, before: &State) {
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
        self.steadied(&mut step, scene, before.set, face);
        self.steps.push(step);
        let clamps = before.wet.count_ones();
        let mut step = self.blank(b, face, Action::Unclamp);
        step.minutes = clamps;
        step.text = match clamps {
            1 => "Take the clamp off.".to_owned(),
            _ => format!("Take the {clamps} clamps off."),
        };
        self.steadied(&mut step, scene, before.set, face);
        self.steps.push(step);
    }

    /// Builds the bodies that `b` takes in, when the first of them is about to join: all at once,
    /// so that `b` is not laid aside again with something in it that slides.
    fn build_bodies(&mut self, b: usize, scene: &Scene, first: &Content, before: &State) {
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
            step.why.push(reason("stands", "It lies by itself with 5° to spare.", &[5]));
        }
        self.shared(&mut step, scene, item);
        self.steps.push(step);
    }

    /// A second person, when the item is too heavy or too long for one.
    fn shared(&self, step: &mut Step, scene: &Scene, item: usize) {
        if holding::unwieldy(scene, item) {
            step.people = 2;
            step.why.push(reason(
                "two-people",
                "It is too heavy or too long for one person to place.",
                &[scene.items[item].mass],
            ));
        }
    }

    fn content(&self, step: &mut Step, content: Content) {
        match content {
            Content::Part(p) => step.parts.push(self.assembly.parts[p].id.clone()),
            Content::Body(other) => step.joins = Some(self.grouping().bodies[other].id.clone()),
            Content::Set => {}
        }
    }

    fn what(&self, scene: &Scene, item: usize) -> String {
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
        step.drivers = self.drivers(scene, closes, before.set, face);
        self.say_drivers(&mut step);
        step.why.push(self.tool_reason(&screws));
        self.steps.push(step);
    }

    /// Screws that another tool drives than the drill.
    fn drivers(&self, scene: &Scene, links: u64, there: u64, face: Direction) -> Vec<DriverUse> {
        let plane = scene.plane(there, face);
        let mut uses: Vec<DriverUse> = Vec::new();
        for l in members(links) {
            let screws = &self.assembly.joints[scene.links[l].joint].fasteners;
            let tool = scene.tool(l, there, face, plane).unwrap_or(0);
            // The first tool is the drill, the others are listed.
            let Some(tool) = tool.checked_sub(1).filter(|_| !screws.is_empty()) else { continue };
            let tool = &self.workshop.tools[tool].name;
            let ids = screws.iter().map(|s| s.id.clone());
            match uses.iter_mut().find(|u| u.tool == *tool) {
                Some(known) => known.fasteners.extend(ids),
                None => uses.push(DriverUse { tool: tool.clone(), fasteners: ids.collect() }),
            }
        }
        uses
    }

    /// Names the tool where it is not the drill.
    fn say_drivers(&self, step: &mut Step) {
        let all = step.fasteners.len();
        for driver in &step.drivers {
            let which = match driver.fasteners.len() {
                n if n == all => "Use".to_owned(),
                1 => "For one of them use".to_owned(),
                n => format!("For {n} of them use"),
            };
            step.text.push_str(&format!(" {which} the {}.", driver.tool));
        }
    }

    /// The clamps that press what only glue holds.
    fn clamps(
        &self,
        step: &mut Step,
        scene: &Scene,
        placing: &Placing,
        there: u64,
        face: Direction,
    ) {
        let plane = scene.plane(there, face);
        for l in members(placing.wet) {
            let link = &scene.links[l];
            let parts = self.assembly.joints[link.joint].parts;
            let ids = parts.map(|p| self.assembly.parts[p].id.clone());
            if let Some(room) = link.clamping.place(there, face, plane, self.workshop) {
                step.clamps.push(room.shown(ids, link.clamping.opening));
            }
        }
        if !step.clamps.is_empty() {
            let glue = &self.workshop.glue;
            let text = format!(
                "Its glue may lie open {} minutes and wait {} more for pressure: the clamps go on at once.",
                glue.open, glue.closed
            );
            step.why.push(reason(
                "glue-time",
                &text,
                &[i64::from(glue.open), i64::from(glue.closed)],
            ));
        }
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
        let Ok(placing) = placing::placing(scene, scene.full(), item, before) else {
            return;
        };
        let own = &scene.items[item];
        self.build_bodies(b, scene, &own.content, before);
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
        step.minutes = 2
            + screws.len() as u32
            + placing.holding.count()
            + placing.holding.clamps()
            + 2 * placing.wet.count_ones();
        let there = before.set | scene.masks[item];
        step.drivers = self.drivers(scene, placing.closes, there, before.face());
        self.clamps(&mut step, scene, &placing, there, before.face());
        self.shared(&mut step, scene, item);
        self.holds(&mut step, scene, item, &placing.holding);
        self.located(&mut step, scene, item, before);
        if let Some(check) =
            checks::equal_widths(scene, self.grouping(), item, before.set, self.notation)
        {
            step.minutes += 2;
            step.checks.push(check);
        }
        step.text = self.sentence(scene, item, &placing, before, glue, &screws);
        self.say_drivers(&mut step);
        if placing.wet != 0 {
            let clamps = placing.wet.count_ones();
            let many = if clamps == 1 { "a clamp".to_owned() } else { format!("{clamps} clamps") };
            step.text.push_str(&format!(" Put {many} on."));
        }
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
        let around = scene.around(before.set | scene.masks[item]);
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

    fn holds(&self, step: &mut Step, scene: &Scene, item: usize, holding: &Holding) {
        if let Some(with) = holding.body_with {
            let what = step.body.clone();
            step.hold.push(hold(&what, with, "What is already joined would tip."));
        }
        if let Some(with) = holding.part_with {
            let why = match holding.rest {
                Rest::Lifted => "Nothing carries it until the screws are in.",
                _ => "It tips on its edge until the screws are in.",
            };
            let mut held = hold(&self.what(scene, item), with, why);
            if with == HoldWith::Clamp {
                held.clamp.clone_from(&holding.clamp);
            }
            step.hold.push(held);
        }
    }

    fn located(&self, step: &mut Step, scene: &Scene, item: usize, before: &State) {
        for set in locate::locate(scene, scene.full(), item, before.set, before.face()) {
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
                        part: match placed.loose {
                            Loose::Part(p) => self.assembly.parts[p].id.clone(),
                            Loose::Offcut(o) => self.workshop.offcuts[o].id.clone(),
                        },
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
        for later in members(scene.full() & !before.set & !(scene.masks[item])) {
            let there = before.set | 1 << later;
            let shut_out = Direction::ALL
                .into_iter()
                .all(|d| d == face.opposite() || scene.blocking.entering(item, d, there) != 0);
            let no_room = members(placing.closes).any(|l| {
                let rooms = scene.links[l].rooms.first();
                rooms.into_iter().flatten().any(|r| r.blockers >> later & 1 == 1)
            });
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
        self.steadied(&mut step, scene, set, face);
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
