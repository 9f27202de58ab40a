//! From the bench to the wall: how a piece comes into its room, stands level, is fixed, and gets its
//! moving parts back.
//!
//! The room is geometry: floor as measured, walls, neighbours, what is above and what stands in the
//! gap are one solid that is there already (`room`). What is carried in is the carcass and what
//! slides or hangs in it (`pieces`), shims ([`level`]), a counter, a bracket; screws join them
//! (`fixing`, lengths in [`crate::assembly::lengths`]). The same search as at the bench finds the order
//! ([`crate::order`]), with room for the person's arm; `write` says it in the room's words.

mod cautions;
mod ending;
mod fixing;
pub mod level;
mod levelling;
mod pieces;
mod room;
mod write;

use crate::assembly::{Assembly, Fastener, Grain, Joint, JointKind, Kind, MAIN, Part, Role};
use crate::design::mass;
use crate::findings::{Finding, JobStage, Severity};
use crate::geometry::{Box3, Direction, Solid};
use crate::measure;
use crate::order;
use crate::outcome::{plan_of, plan_parts};
use crate::plan::{Person, Plan, ROOM, Workshop};
use crate::scenario::{Scenario, Subject};
use crate::units::Length;
use crate::wishes::{Done, Wishes};

use fixing::{Fixing, Site};
use level::Heights;
use pieces::{Held, Piece, around, is_free};
use room::Room;

/// What a person takes up: from memory, of a grown man; nobody is narrower for being careful.
const PERSON: Person =
    Person { arm: 100_000, reach: 650_000, shoulders: 450_000, chest: 250_000, hand_g: 5_000 };
/// Screws up to here are driven from a platform or a ladder (common practice, no source).
const REACH: i64 = 2_500_000;
/// A wall does not move.
const ROOM_G: i64 = 1_000_000;
/// A shim across, and one in grams.
const SHIM: i64 = 60_000;
const SHIM_G: i64 = 30;
/// Density of a counter in kg/m³ (from memory: laminated board).
const COUNTER_DENSITY: i64 = 700;
/// How far a counter stands before the fronts, and lies over each neighbour here.
const NOSE: i64 = 20_000;
const OVER_UNIT: i64 = 300_000;
/// A bracket of steel: half its width, its legs, its thickness, its mass in grams (common practice,
/// no source).
const BRACKET: [i64; 3] = [20_000, 40_000, 2_000];
const BRACKET_G: i64 = 60;

/// Ids of what else only this stage has.
const CARCASS: &str = "carcass";
const SHIMS: &str = "shims";
const COUNTER: &str = "counter";
const BRACKET_ID: &str = "bracket";

/// All that the words of the steps need to know.
struct Facts<'a> {
    scenario: &'a Scenario,
    piece: &'a Assembly,
    pieces: Vec<Piece>,
    room: Room,
    /// Heights of the floor under the corners, where they are known.
    heights: Option<Heights>,
    /// What the wall screws meet: middles of the studs in the piece's pose, and whether measured.
    studs: (Vec<i64>, bool),
    /// Thickness of the packers behind the nailer, left and right.
    packs: [i64; 3],
    /// Whether anything holds the piece to the wall or to its neighbours.
    held: bool,
}

/// Plans the way from the bench into the room, of a cabinet for a gap. `tips` says that the checks
/// found it to tip over before it is fixed.
pub fn plan(s: &Scenario, piece: &Assembly, tips: bool) -> (Option<Plan>, Vec<Finding>) {
    let Subject::Cabinet(cabinet) = &s.subject else { return (None, Vec::new()) };
    let Some(standing) = measure::standing(cabinet, piece) else { return (None, Vec::new()) };
    let pieces = pieces::split(piece);
    let Some(carcass) = pieces.first() else { return (None, Vec::new()) };
    let boxes: Vec<Box3> = pieces.iter().flat_map(|p| p.boxes(piece)).collect();
    let empty = carcass.solid(piece);
    let foot = empty.bounds();
    let heights = Heights::of(
        &cabinet.space,
        &s.install,
        [0, 1].map(|side| if side == 0 { foot.min[0] } else { foot.max[0] } + standing.at[0]),
        [foot.min[1] + standing.at[1], foot.max[1] + standing.at[1]],
    );
    let stands = s.install.height.get() == 0;
    let shims = heights.filter(|_| stands).map_or([0; 4], Heights::shims);
    let room = room::room(cabinet, &s.install, &standing, &boxes, shims);
    let site = Site {
        of: piece,
        carcass,
        empty: &empty,
        boxes: &boxes,
        room: &room,
        install: &s.install,
        workshop: &s.shop.workshop,
        on_hand: &s.shop.screws,
        notation: s.notation,
    };
    let wanted = s.install.to_wall != Some(false);
    let wall = site.wall().filter(|_| wanted);
    let beside = [0, 1].map(|side| site.beside(side));
    if !stands && wall.is_none() {
        return (None, vec![no_rail()]);
    }
    let mut built = Built { assembly: blank(&s.title), findings: Vec::new() };
    built.part(ROOM, "room", room.solid.clone(), ROOM_G, ROOM);
    let shims = shim_boxes(shims, &foot);
    if !shims.is_empty() {
        let mass = SHIM_G * shims.len() as i64;
        built.part(SHIMS, "shims", Solid::from_boxes(shims), mass, "shim");
        built.join(SHIMS, ROOM, "", JointKind::Slide, Vec::new());
    }
    let fixings: Vec<(&str, &Fixing)> = [("wall", wall.as_ref())]
        .into_iter()
        .chain(["left", "right"].into_iter().zip(beside.iter().map(Option::as_ref)))
        .filter_map(|(name, f)| Some((name, f?)))
        .collect();
    let mut solid = empty.boxes().to_vec();
    for packer in fixings.iter().flat_map(|(_, f)| &f.packers) {
        if is_free(packer, &solid) {
            solid.push(*packer);
        }
    }
    built.part(CARCASS, &carcass.name, Solid::from_boxes(solid), carcass.mass(piece), "made");
    built.set_against(SHIMS);
    for (name, fixing) in &fixings {
        built.join(CARCASS, ROOM, name, JointKind::Butt, fixing.screws.clone());
    }
    let free = fixings.is_empty();
    if free {
        built.join(CARCASS, ROOM, "floor", JointKind::Slide, Vec::new());
    }
    if let Some(thick) = s.install.counter {
        built.counter(&site, thick.get());
    }
    if wall.is_none() && wanted && (tips || s.install.to_wall == Some(true)) {
        built.bracket(&site);
    }
    for p in pieces.iter().skip(1) {
        built.part(&p.id, &p.name, p.solid(piece), p.mass(piece), "made");
        let kind = if p.held == Held::Slides { JointKind::Slide } else { JointKind::Hinge };
        built.join(&p.id, CARCASS, "", kind, Vec::new());
    }
    let held = !free || built.assembly.index_of(BRACKET_ID).is_some();
    let studs = site.studs(&foot);
    let pack = |f: Option<&Fixing>| f.map_or(0, |f| f.pack);
    let packs = [pack(wall.as_ref()), pack(beside[0].as_ref()), pack(beside[1].as_ref())];
    let facts = Facts { scenario: s, piece, pieces, room, heights, studs, packs, held };
    order_and_write(&facts, built, tips)
}

/// Orders what was laid out and writes it.
fn order_and_write(facts: &Facts, built: Built, tips: bool) -> (Option<Plan>, Vec<Finding>) {
    let Built { assembly, mut findings } = built;
    let s = facts.scenario;
    let workshop = in_the_room(&s.shop.workshop, &facts.room);
    let wishes = Wishes {
        lay_on: vec![Direction::Down],
        done: Some(Done { parts: vec![ROOM.to_owned()], face: Direction::Down }),
        ..Wishes::default()
    };
    let (order, said) = order::plan_order(&assembly, &workshop, &wishes, s.notation);
    // Who is needed is said at the step, by its number here.
    let said = said.into_iter().filter(|f| f.code != "needs-helper");
    findings.extend(said.map(in_install));
    let Some(order) = order else { return (None, findings) };
    let parts = plan_parts(s, &assembly, vec![None; assembly.parts.len()]);
    let mut plan = plan_of(s, &assembly, &workshop, parts, order);
    write::rewrite(facts, &mut plan);
    plan.findings = cautions::of(facts, &plan, tips);
    (Some(plan), findings)
}

fn in_install(finding: Finding) -> Finding {
    Finding { stage: Some(JobStage::Install), step: None, ..finding }
}

/// The shop's drill and people in the room: no bench, no clamps on a wall, arms that take room.
fn in_the_room(shop: &Workshop, room: &Room) -> Workshop {
    let bounds = room.solid.bounds();
    Workshop {
        bench_length: bounds.extent(0).max(bounds.extent(1)),
        bench_width: bounds.extent(0).min(bounds.extent(1)),
        // Heights count from the floor, and the room's solid goes on below it.
        bench_height: bounds.min[2] - room.floor,
        bearers: 0,
        reach_height: REACH.max(shop.reach_height),
        clamps: Vec::new(),
        offcuts: Vec::new(),
        person: Some(PERSON),
        ..shop.clone()
    }
}

fn blank(title: &str) -> Assembly {
    Assembly {
        title: title.to_owned(),
        parts: Vec::new(),
        joints: Vec::new(),
        stands_on: Direction::Down,
        bodies: vec![(MAIN.to_owned(), ROOM.to_owned())],
    }
}

/// Shims under the corners of a footprint.
fn shim_boxes(shims: [i64; 4], foot: &Box3) -> Vec<Box3> {
    let corner = |i: usize| {
        let span = |axis: usize, high: bool| {
            let wide = SHIM.min(foot.extent(axis) / 2);
            if high {
                [foot.max[axis] - wide, foot.max[axis]]
            } else {
                [foot.min[axis], foot.min[axis] + wide]
            }
        };
        let ([x0, x1], [y0, y1]) = (span(0, i % 2 == 1), span(1, i / 2 == 1));
        Box3::new([x0, y0, foot.min[2] - shims[i]], [x1, y1, foot.min[2]])
    };
    (0..4).filter(|&i| shims[i] > 0).map(corner).collect()
}

fn no_rail() -> Finding {
    Finding::new(
        Severity::Fix,
        "hang-rail",
        "build.carcass.nailer_height",
        "The piece is to hang on the wall and has no nailer that a stud lies behind.",
        "Give it a nailer under its top, and the places of the studs; or let it stand on the floor.",
    )
    .source("common practice, no source")
}

/// The assembly as it grows.
struct Built {
    assembly: Assembly,
    findings: Vec<Finding>,
}

impl Built {
    fn part(&mut self, id: &str, name: &str, solid: Solid, mass_g: i64, material: &str) {
        let bounds = solid.bounds();
        let mut sizes = [0, 1, 2].map(|a| bounds.extent(a));
        sizes.sort_unstable();
        let [thickness, width, length] = sizes.map(Length);
        self.assembly.parts.push(Part {
            id: id.to_owned(),
            name: name.to_owned(),
            group: MAIN.to_owned(),
            material: material.to_owned(),
            kind: Kind::Hardware,
            role: Role::Other,
            length,
            width,
            thickness,
            grain: Grain::None,
            mass_g,
            solid,
            set_against: Vec::new(),
        });
    }

    /// The last part comes after that one, if that is there.
    fn set_against(&mut self, id: &str) {
        if self.assembly.index_of(id).is_some()
            && let Some(last) = self.assembly.parts.last_mut()
        {
            last.set_against.push(id.to_owned());
        }
    }

    fn join(&mut self, a: &str, b: &str, more: &str, kind: JointKind, fasteners: Vec<Fastener>) {
        let (Some(p), Some(q)) = (self.assembly.index_of(a), self.assembly.index_of(b)) else {
            return;
        };
        let id = if more.is_empty() { format!("{a}+{b}") } else { format!("{a}+{more}") };
        self.assembly.joints.push(Joint { id, parts: [p, q], kind, glue: false, fasteners });
    }

    /// The counter that comes on top, screwed from below.
    fn counter(&mut self, site: &Site, thick: i64) {
        let carcass = site.empty.bounds();
        let all = around(site.boxes);
        let room = site.room;
        let x = [0, 1].map(|side| match room.beside[side] {
            crate::scenario::Neighbour::Unit => room.sides[side] + [-OVER_UNIT, OVER_UNIT][side],
            crate::scenario::Neighbour::Wall => room.sides[side],
            crate::scenario::Neighbour::Open => [all.min[0], all.max[0]][side],
        });
        let top = carcass.max[2];
        let slab = Box3::new([x[0], room.front - NOSE, top], [x[1], room.wall, top + thick]);
        let Some(fixing) = site.counter(thick) else {
            self.findings.push(in_install(no_counter_screw()));
            return;
        };
        let mass = mass::of(slab.volume(), COUNTER_DENSITY);
        self.part(COUNTER, "counter", Solid::new(slab), mass, COUNTER);
        self.join(CARCASS, COUNTER, "", JointKind::Butt, fixing.screws);
    }

    /// A bracket on the top, into a stud behind.
    fn bracket(&mut self, site: &Site) {
        let top = site.carcass.with_role(site.of, Role::Top).next();
        let Some(top) = top.map(|p| site.of.parts[p].solid.bounds()) else {
            self.findings.push(in_install(no_place_for_bracket()));
            return;
        };
        let Some((boxes, screws)) = site.bracket(&top, BRACKET) else {
            self.findings.push(in_install(no_place_for_bracket()));
            return;
        };
        self.part(
            BRACKET_ID,
            "wall bracket",
            Solid::from_boxes(boxes.to_vec()),
            BRACKET_G,
            "steel",
        );
        let [down, back] = screws;
        self.join(BRACKET_ID, CARCASS, "", JointKind::Overlay, down);
        self.join(BRACKET_ID, ROOM, "", JointKind::Overlay, back);
    }
}

fn no_counter_screw() -> Finding {
    Finding::new(
        Severity::Fix,
        "counter-fixing",
        "install.counter_screw",
        "The piece has no stretcher or top through which a screw goes up into the counter and stays inside.",
        "Give it a stretcher, or screws that are longer than the stretcher and stay 1/8 in (3 mm) short of the counter's face.",
    )
    .source("common practice, no source")
}

fn no_place_for_bracket() -> Finding {
    Finding::new(
        Severity::Fix,
        "bracket-place",
        "build.carcass.top",
        "The piece tips over before it is fixed, and it has neither a nailer nor a top for a bracket to the wall.",
        "Give it a nailer at the top, or a top, and fix it to a stud before it is loaded.",
    )
    .source("common practice, no source")
}
