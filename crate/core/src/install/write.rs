//! Says the order in the room's words: a step each for bringing in, levelling and each set of screws,
//! then what is tried at the end.

use std::collections::BTreeSet;

use crate::assembly::Fastener;
use crate::checks::num::mass;
use crate::geometry::{Box3, Direction};
use crate::measure::way_through;
use crate::order::steps::reason;
use crate::order::words;
use crate::plan::{Action, Check, CheckKind, HoldWith, Plan, ROOM, Reason, Stage, Step};
use crate::scenario::{Above, Neighbour, Subject};
use crate::units::Length;

use super::level::CORNERS;
use super::pieces::{Held, around};
use super::{BRACKET_ID, CARCASS, COUNTER, Facts, SHIMS};

/// Rewrites the steps of a plan, and its cost with them.
pub(super) fn rewrite(facts: &Facts, plan: &mut Plan) {
    let writer = Writer { facts, plan };
    let mut steps: Vec<Step> = Vec::new();
    for step in &plan.steps {
        match step.parts.first().map(String::as_str) {
            Some(ROOM) => steps.push(writer.marks(step)),
            Some(SHIMS) => steps.push(writer.shims(step)),
            Some(CARCASS) => steps.extend(writer.carcass(step)),
            Some(COUNTER) => steps.extend(writer.counter(step)),
            Some(BRACKET_ID) => steps.push(writer.bracket(step)),
            Some(id) => match facts.pieces.iter().find(|p| p.id == id) {
                Some(piece) => steps.push(writer.moving(step, &piece.name, piece.held)),
                None => steps.push(writer.kept(step)),
            },
            None => steps.push(writer.kept(step)),
        }
    }
    if let Some(last) = steps.last() {
        let end = writer.end(last);
        steps.push(end);
    }
    for (n, step) in (1..).zip(&mut steps) {
        step.n = n;
        step.stage = Stage::Install;
    }
    plan.cost.helper_steps = count(&steps, |s| s.people > 1);
    plan.cost.minutes = steps.iter().map(|s| s.minutes).sum();
    plan.cost.tool_changes = steps.iter().map(|s| changes(plan, s)).sum();
    plan.steps = steps;
}

fn count(steps: &[Step], is: impl Fn(&Step) -> bool) -> u32 {
    u32::try_from(steps.iter().filter(|s| is(s)).count()).unwrap_or(u32::MAX)
}

/// Changes of the bit within a step, and joints driven by another tool than the drill.
fn changes(plan: &Plan, step: &Step) -> u32 {
    let joints = plan.joints.iter();
    let driven =
        || joints.clone().flat_map(|j| &j.fasteners).filter(|f| step.fasteners.contains(&f.id));
    let bits: BTreeSet<(u8, &str)> = driven().map(|f| (f.gauge, f.kind.as_str())).collect();
    let other = |j: &&crate::plan::PlanJoint| {
        step.drivers
            .iter()
            .flat_map(|d| &d.fasteners)
            .any(|id| j.fasteners.iter().any(|f| f.id == *id))
    };
    let others = plan.joints.iter().filter(other).count();
    u32::try_from(bits.len().saturating_sub(1) + others).unwrap_or(u32::MAX)
}

/// What the steps are written from.
pub(super) struct Writer<'a> {
    pub(super) facts: &'a Facts<'a>,
    pub(super) plan: &'a Plan,
}

impl Writer<'_> {
    pub(super) fn print(&self, um: i64) -> String {
        self.facts.scenario.notation.print(Length(um))
    }

    /// A step as the planner wrote it, with what was proved said of a room and not of a bench.
    pub(super) fn kept(&self, step: &Step) -> Step {
        let mut step = step.clone();
        for why in &mut step.why {
            if why.rule == "clear-path" {
                why.text = "On its way in it meets nothing that is there.".to_owned();
            }
        }
        for held in step.hold.iter_mut().filter(|_| step.fasteners.is_empty()) {
            held.why = "Nothing carries it until it is fastened.".to_owned();
        }
        step
    }

    /// What comes before anything is carried in: marks on wall and floor.
    fn marks(&self, step: &Step) -> Step {
        let mut step = self.kept(step);
        let room = &self.facts.room;
        let carcass = self.boxes(CARCASS);
        let mut text = Vec::new();
        let (studs, known) = &self.facts.studs;
        let at: Vec<String> = studs.iter().map(|x| self.print(x - room.sides[0])).collect();
        if self.screws("wall-").next().is_some() || self.screws("bracket-").next().is_some() {
            text.push(if *known {
                let middles = if at.len() == 1 { "the middle of the stud" } else { "the middles of the studs" };
                format!("Mark {middles} on the wall: {} from the left end of the opening.", words::list(&at))
            } else {
                format!(
                    "Find the studs and mark their middles: they are taken to stand {} apart, one near {}.",
                    self.print(self.facts.scenario.install.stud_spacing.get()),
                    at.get(at.len() / 2).map_or_else(String::new, |s| format!("{s} from the left end of the opening"))
                )
            });
        }
        let top = carcass.max[2] - room.floor;
        if room.floor == 0 {
            text.push(match self.facts.heights {
                Some(h) if h.shims() != [0; 4] => format!(
                    "The floor is highest at the {}: mark {} above it, level along the wall. The top comes there.",
                    CORNERS[h.highest()],
                    self.print(top)
                ),
                _ => format!("Mark {} above the highest point of the floor, level along the wall: the top comes there.", self.print(top)),
            });
        } else {
            text.push(format!(
                "Draw a level line {} above the floor: the underside comes there.",
                self.print(carcass.min[2] - room.floor)
            ));
        }
        step.text = text.join(" ");
        step.minutes = 5;
        step.why = vec![reason(
            "room",
            "The room is there already: floor, walls, neighbours and what stands in the gap.",
            &[],
        )];
        step
    }

    pub(super) fn boxes(&self, id: &str) -> Box3 {
        let part = self.plan.parts.iter().find(|p| p.id == id);
        part.map_or(Box3::new([0; 3], [0; 3]), |p| around(&p.boxes))
    }

    /// The screws whose ids begin so.
    fn screws<'b>(&'b self, begins: &'b str) -> impl Iterator<Item = &'b Fastener> + 'b {
        let all = self.plan.joints.iter().flat_map(|j| &j.fasteners);
        all.filter(move |f| f.id.starts_with(begins))
    }

    /// Brings the carcass in, levels it, and drives its screws set by set.
    fn carcass(&self, step: &Step) -> Vec<Step> {
        let mut place = self.without_screws(step);
        place.text = self.way_in(step);
        place.why.extend(self.passages());
        let mut all = vec![place];
        all.push(self.levelled(step));
        for joint in &step.joints {
            let text = match joint.rsplit_once('+').map(|(_, to)| to) {
                Some("wall") => format!(
                    "Screw the carcass to the wall{}. ",
                    self.packed(0, "behind the nailer")
                ),
                Some("left") => format!(
                    "Screw the carcass to the cabinet on the left, its front edges flush{}. ",
                    self.packed(1, "between the sides")
                ),
                Some("right") => format!(
                    "Screw the carcass to the cabinet on the right, its front edges flush{}. ",
                    self.packed(2, "between the sides")
                ),
                _ => continue,
            };
            let mut drive = self.driven(step, joint, &text);
            if all.iter().any(|s| s.action == Action::Drive) {
                // The first screws hold it.
                drive.hold.clear();
                drive.people = 1;
                drive.minutes = u32::try_from(drive.fasteners.len()).unwrap_or(0);
            }
            all.push(drive);
        }
        all
    }

    fn packed(&self, which: usize, place: &str) -> String {
        match self.facts.packs[which] {
            0 => String::new(),
            pack => format!(", with packers of {} {place} at the screws", self.print(pack)),
        }
    }

    /// The step without what is driven in it: that comes in steps of its own.
    fn without_screws(&self, step: &Step) -> Step {
        let mut place = self.kept(step);
        let slides =
            |id: &String| self.plan.joints.iter().any(|j| j.id == *id && j.fasteners.is_empty());
        place.joints.retain(slides);
        place.minutes -= u32::try_from(place.fasteners.len()).unwrap_or(0).min(place.minutes);
        place.fasteners.clear();
        place.drivers.clear();
        place.lines.clear();
        // Where it comes is said by the marks and the level.
        place.checks.retain(|c| c.kind == CheckKind::Gap && !c.expected.is_empty());
        for check in &mut place.checks {
            self.say_gap(check);
        }
        place
    }

    /// A step that follows on another and brings nothing: what is held stays held.
    pub(super) fn following(&self, step: &Step, action: Action) -> Step {
        let kept = self.kept(step);
        Step {
            action,
            people: 1 + u8::from(kept.hold.iter().any(|h| h.with == HoldWith::Helper)),
            parts: Vec::new(),
            joins: None,
            direction: None,
            fasteners: Vec::new(),
            joints: Vec::new(),
            drivers: Vec::new(),
            clamps: Vec::new(),
            spacer: None,
            checks: Vec::new(),
            lines: Vec::new(),
            why: Vec::new(),
            instead: None,
            ..kept
        }
    }

    /// A gap to what stands beside, in the room's words.
    fn say_gap(&self, check: &mut Check) {
        let Some([p, q]) = check.between.first() else { return };
        let axis = (0..3).find(|&a| p[a] != q[a]).unwrap_or(0);
        let size = self.print((q[axis] - p[axis]).abs());
        let to = [
            if q[axis] < i64::midpoint(self.facts.room.sides[0], self.facts.room.sides[1]) {
                "on the left"
            } else {
                "on the right"
            },
            "behind",
            "above",
        ][axis];
        check.text = format!("Leave {size} {to}.");
    }

    /// The screws of one joint as a step.
    fn driven(&self, step: &Step, joint: &str, text: &str) -> Step {
        let mut drive = self.following(step, Action::Drive);
        drive.drivers.clone_from(&step.drivers);
        drive.joints = vec![joint.to_owned()];
        let screws: Vec<&Fastener> =
            self.plan.joints.iter().filter(|j| j.id == joint).flat_map(|j| &j.fasteners).collect();
        drive.fasteners = screws.iter().map(|f| f.id.clone()).collect();
        drive.drivers.retain_mut(|d| {
            d.fasteners.retain(|id| drive.fasteners.contains(id));
            !d.fasteners.is_empty()
        });
        drive.minutes = u32::try_from(screws.len() + drive.hold.len()).unwrap_or(0);
        let around = self.boxes(CARCASS);
        let say = words::drive(&screws, step.bench_face, &around, self.facts.scenario.notation);
        drive.text = format!("{text}{say}");
        drive.why = step.why.iter().filter(|w| w.rule == "tool-room").cloned().collect();
        drive
    }

    /// How the carcass comes in: weight, way, set down or slid.
    fn way_in(&self, step: &Step) -> String {
        let carcass = self.boxes(CARCASS);
        let empty =
            self.facts.pieces.iter().skip(1).map(|p| format!("the {}", p.name)).collect::<Vec<_>>();
        let mut text = Vec::new();
        let hung = self.facts.room.floor < 0;
        let moves = match step.direction {
            Some(Direction::Back) if hung => {
                "Lift the carcass to its line and push it back against the wall."
            }
            Some(_) if hung => "Lift the carcass to its line, against the wall.",
            Some(Direction::Back) => "Slide the carcass in from the front, back to the wall.",
            Some(Direction::Left) => "Slide the carcass in from the right.",
            Some(Direction::Right) => "Slide the carcass in from the left.",
            Some(Direction::Down) => "Set the carcass down in its place.",
            _ => "Bring the carcass to its place.",
        };
        text.push(moves.to_owned());
        if !empty.is_empty() {
            text.push(format!("Take out {} first.", words::list(&empty)));
        }
        let Subject::Cabinet(cabinet) = &self.facts.scenario.subject else { return text.join(" ") };
        let ceiling = matches!(cabinet.space.measured.above, Above::Ceiling);
        if ceiling && !hung && carcass.extent(2) > carcass.extent(0).max(carcass.extent(1)) {
            text.push("Carry it lying down and stand it up on its rear lower edge.".to_owned());
        }
        let grams = self.plan.parts.iter().find(|p| p.id == CARCASS).map_or(0, |p| p.mass_g);
        let lift = if step.people > 1 { ": two people lift" } else { "" };
        text.push(format!("It weighs {}{lift}.", mass(self.facts.scenario.notation, grams)));
        text.join(" ")
    }

    /// Through which door which way round.
    fn passages(&self) -> Vec<Reason> {
        let Subject::Cabinet(cabinet) = &self.facts.scenario.subject else { return Vec::new() };
        let size = [0, 1, 2].map(|a| self.boxes(CARCASS).extent(a));
        let all = cabinet.space.measured.passages.iter();
        all.map(|p| {
            let (w, h) = (p.width.get(), p.height.get());
            let way = way_through(size, w, h, p.turn.map(|t| t.get()));
            let text = match way {
                Some(way) => format!("Through the {}: {way}.", p.name),
                None => {
                    format!("It does not go through the {}: put it together behind it.", p.name)
                }
            };
            reason("passage", &text, &[w, h])
        })
        .collect()
    }

    fn counter(&self, step: &Step) -> Vec<Step> {
        let mut place = self.without_screws(step);
        let on = match self.facts.room.beside {
            [Neighbour::Unit, _] | [_, Neighbour::Unit] => "on the carcass and its neighbours",
            _ => "on the carcass",
        };
        let more = if step.people > 1 { " Two people lift." } else { "" };
        place.text = format!("Lay the counter {on}.{more}");
        place.checks.clear();
        let joint = step.joints.first().cloned().unwrap_or_default();
        vec![place, self.driven(step, &joint, "Screw the counter down from below. ")]
    }

    fn bracket(&self, step: &Step) -> Step {
        let mut place = self.kept(step);
        place.checks.clear();
        let screws: Vec<&Fastener> = self.screws("bracket-").collect();
        let say = words::drive(
            &screws,
            step.bench_face,
            &self.boxes(CARCASS),
            self.facts.scenario.notation,
        );
        place.text = format!("Set the bracket on the top, against the wall, at a stud. {say}");
        place
    }

    /// A box on its runners, a door on its hinges, a shelf on its pins.
    fn moving(&self, step: &Step, name: &str, held: Held) -> Step {
        let mut hang = self.kept(step);
        hang.action = Action::Hang;
        hang.checks.clear();
        let single = self.facts.pieces.iter().any(|p| p.name == name && p.parts.len() == 1);
        hang.text = match held {
            Held::Hangs => {
                format!("Hang the {name}: hook each hinge arm on its plate and tighten it.")
            }
            _ if single => format!("Lay the {name} back in its place."),
            _ => format!("Slide the {name} onto its runners until they catch."),
        };
        if step.hold.iter().any(|h| h.with == HoldWith::Helper) {
            hang.text.push_str(" The helper carries it meanwhile.");
        }
        hang
    }
}
