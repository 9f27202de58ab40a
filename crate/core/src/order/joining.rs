//! The step in which an item joins: what is said, held, set, and proved.

use crate::assembly::Fastener;
use crate::geometry::Direction;
use crate::plan::{Action, Check, CheckKind, HoldWith, Reason, ScrewLine, Spacer, Step};
use crate::units::Length;

use super::Wanted;
use super::checks;
use super::clamps;
use super::holding::{Holding, Rest};
use super::locate::{self, Gap, Set};
use super::placing::{self, Placing};
use super::scene::{Scene, members};
use super::spacer::{self, Loose};
use super::state::State;
use super::steps::{Writer, hold, reason};
use super::words;

impl Writer<'_> {
    pub(super) fn place(
        &mut self,
        b: usize,
        scene: &Scene,
        item: usize,
        direction: Direction,
        before: &State,
        by_then: u64,
    ) {
        let Ok(placing) = placing::placing(scene, scene.full(), item, before) else {
            return;
        };
        let own = &scene.items[item];
        self.build_bodies(b, scene, &own.content, before);
        let glue = members(placing.closes).any(|l| scene.links[l].glue);
        let shut = checks::shut_in(scene, item, before.set);
        if glue && !shut.is_empty() {
            self.dry_fit(b, scene, item, &shut, before.face());
        }
        let slides = scene.only_slides(scene.links_of(item, before.set));
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
        self.clamps(&mut step, scene, &placing, by_then, before.face());
        self.shared(&mut step, scene, item);
        self.holds(&mut step, scene, item, before.set, &placing.holding);
        let wanted = self.located(&mut step, scene, item, before);
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
        if !wanted.is_empty() {
            self.wanted.push(Wanted { step: self.steps.len() as u32, spacers: wanted });
        }
    }

    pub(super) fn sentence(
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
        let on_bench = scene.lies(item, before.set, face);
        let slides = scene.only_slides(scene.links_of(item, before.set));
        let channels =
            words::channels(scene, self.grouping(), item, scene.links_of(item, before.set));
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

    pub(super) fn holds(
        &self,
        step: &mut Step,
        scene: &Scene,
        item: usize,
        set: u64,
        holding: &Holding,
    ) {
        if let Some(with) = holding.body_with {
            self.hold_body(step, scene, set, with, "What is already joined would tip.");
        }
        if let Some(with) = holding.part_with {
            let why = match holding.rest {
                Rest::Lifted => "Nothing carries it until the screws are in.",
                _ => "It tips on its edge until the screws are in.",
            };
            let mut held = hold(&self.what(scene, item), with, why);
            if with == HoldWith::Clamp {
                held.clamp = holding.clamp.and_then(|(l, room)| clamps::shown(scene, l, room));
            }
            step.hold.push(held);
        }
    }

    /// What sets each axis, and which strips would do where only the tape does.
    fn located(&self, step: &mut Step, scene: &Scene, item: usize, before: &State) -> Vec<Spacer> {
        let mut by_tape: Vec<Gap> = Vec::new();
        for set in locate::locate(scene, scene.full(), item, before.set, before.face()) {
            let gap = match set {
                Set::Face => continue,
                Set::Flush(mate, side) => {
                    step.checks.push(checks::flush(scene, self.grouping(), [item, mate], side));
                    continue;
                }
                Set::Measured(gap) => {
                    step.minutes += 1;
                    by_tape.push(gap);
                    gap
                }
                Set::Spacer(placed) if step.spacer.is_none() => {
                    step.minutes += 1;
                    step.spacer = Some(Spacer {
                        part: match placed.loose {
                            Loose::Part(p) => self.assembly.parts[p].id.clone(),
                            Loose::Offcut(o) => self.workshop.offcuts[o].id.clone(),
                        },
                        dimension: placed.dimension,
                        sets: self.sets(scene, &placed.gap),
                        at: placed.at,
                        out: placed.out,
                    });
                    continue;
                }
                Set::Spacer(placed) => placed.gap,
            };
            step.checks.push(checks::gap(scene, self.grouping(), item, &gap, self.notation));
        }
        if step.spacer.is_some() {
            return Vec::new();
        }
        // One spacer a step: for the widest gap, where a tape is the least sure.
        by_tape.sort_by_key(|gap| std::cmp::Reverse((gap.to - gap.from).abs()));
        let of = |gap: &Gap| {
            let strips =
                spacer::strips(scene, item, before.set, before.face(), *gap, &self.thicknesses);
            let named = strips.into_iter().map(|strip| Spacer {
                part: String::new(),
                dimension: strip.sizes[0],
                sets: self.sets(scene, gap),
                at: strip.at,
                out: strip.out,
            });
            named.collect::<Vec<_>>()
        };
        by_tape.iter().map(of).find(|spacers| !spacers.is_empty()).unwrap_or_default()
    }

    /// What a spacer in a gap sets, in words.
    fn sets(&self, scene: &Scene, gap: &Gap) -> String {
        let mate = words::mate_name(scene, self.grouping(), gap.mate);
        let end = words::part_side(&scene.items[gap.mate].datum, gap.side);
        let distance = self.notation.print(Length((gap.to - gap.from).abs()));
        format!("{distance} from the {end} of the {mate}")
    }

    pub(super) fn reasons(
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
        self.drill_lines(step, scene, placing);
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
                "It stands by itself meanwhile, tilted by 5° as well.",
                &[5],
            ));
        }
    }

    /// Where to drill for what lies hidden behind a panel: a line along its middle.
    fn drill_lines(&self, step: &mut Step, scene: &Scene, placing: &Placing) {
        for l in members(placing.closes) {
            let joint = &self.assembly.joints[scene.links[l].joint];
            let [through, hidden] = joint.parts.map(|p| &self.assembly.parts[p]);
            let Some((first, others)) = joint.fasteners.split_first() else { continue };
            let axis = first.direction.axis();
            let (outer, inner) = (through.solid.bounds(), hidden.solid.bounds());
            let in_line = |a: usize| others.iter().all(|s| s.entry[a] == first.entry[a]);
            let across = (0..3).filter(|&a| a != axis).min_by_key(|&a| inner.extent(a));
            let Some(a) = across.filter(|&a| !others.is_empty() && in_line(a)) else { continue };
            // A tape hooks over an edge that is there: two marks make a line, and a notch may have cut it away.
            let is_there = |side: Direction| {
                let marks = joint.fasteners.iter().filter(|s| {
                    let mut at = s.entry;
                    at[a] = outer.face(side) - side.sign();
                    at[axis] += s.direction.sign();
                    through.solid.holds(at)
                });
                marks.count() >= 2
            };
            let mut edges = [false, true].map(|positive| {
                let side = Direction::from_axis(a, positive);
                ((first.entry[a] - outer.face(side)).abs(), side)
            });
            edges.sort_by_key(|&(distance, side)| (!is_there(side), distance));
            let [(distance, side), _] = edges;
            let edge = words::part_side(&outer, side).to_owned();
            let text = format!(
                "Screw line on the {}, for the {} behind it: {} from its {edge}.",
                through.name,
                hidden.name,
                self.notation.print(Length(distance)),
            );
            let level =
                2 * distance == inner.extent(a) && inner.extent(a) == hidden.thickness.get();
            let tip = "An offcut of the same sheet, held flush there, shows where it lies.";
            step.lines.push(ScrewLine {
                part: through.id.clone(),
                behind: hidden.id.clone(),
                side,
                edge,
                distance,
                text,
                tip: if level { tip.to_owned() } else { String::new() },
            });
        }
    }

    pub(super) fn dry_fit(
        &mut self,
        b: usize,
        scene: &Scene,
        item: usize,
        shut: &[usize],
        face: Direction,
    ) {
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
}
