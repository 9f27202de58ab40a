//! The finished plan: the file `plan.json`, and what the page, the command and the exports show.
//!
//! Lengths are integer micrometres, masses grams, positions in the standing pose.
//! Fields may be added, never renamed.

mod cutting;

use serde::{Deserialize, Serialize};

use crate::assembly::{Fastener, Grain, JointKind, Kind, Role};
pub use cutting::*;

use crate::findings::Finding;
use crate::geometry::{Box3, Direction, Point};

/// The version written to every plan.
pub const FORMAT: &str = "jointwise-plan/1";

/// Everything the maker follows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Plan {
    /// [`FORMAT`].
    pub format: String,
    /// What is built.
    pub title: String,
    /// How lengths are printed in its sentences.
    pub unit: crate::units::Notation,
    /// What stands in the shop, as far as the order was proved for it.
    pub workshop: Workshop,
    /// What each body is called.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bodies: Vec<PlanBody>,
    /// Every part once.
    pub parts: Vec<PlanPart>,
    /// Every joint once.
    pub joints: Vec<PlanJoint>,
    /// The order.
    pub steps: Vec<Step>,
    /// What the order costs, most weighty first.
    pub cost: Cost,
    /// How far the search got.
    pub proof: Proof,
    /// How the parts are cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cutting: Option<Cutting>,
    /// How the piece comes into its room and is fixed there: a plan of its own kind, whose parts are
    /// the room and what is carried into it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub install: Option<Box<Plan>>,
    /// Everything there is to say about it.
    pub findings: Vec<Finding>,
}

/// A, B, … Z, AA, AB, …: what is chalked on the part of that index in [`Plan::parts`].
pub fn mark(index: usize) -> String {
    let mut left = index;
    let mut letters = Vec::new();
    loop {
        // `left % 26` is below 26 and so fits.
        letters.push(char::from(b'A' + u8::try_from(left % 26).unwrap_or(0)));
        if left < 26 {
            break;
        }
        left = left / 26 - 1;
    }
    letters.iter().rev().collect()
}

impl Plan {
    /// What the part, body or offcut with that id is called; the id itself when there is none.
    pub fn name_of<'a>(&'a self, id: &'a str) -> &'a str {
        let part = self.parts.iter().find(|p| p.id == id).map(|p| p.name.as_str());
        let body = || self.bodies.iter().find(|b| b.id == id).map(|b| b.name.as_str());
        let offcut = || self.workshop.offcuts.iter().find(|o| o.id == id).map(|o| o.name.as_str());
        part.or_else(body).or_else(offcut).unwrap_or(id)
    }
}

/// [`Workshop::square_check`] of a shop that has a square in hand, and no tape long enough or none to hold its end.
pub const BY_SQUARE: &str = "square";

/// Tools and room that the order was proved for. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Workshop {
    /// From the tip of the bit to the back of the drill.
    pub drill_length: i64,
    /// Width of the widest part of the drill.
    pub drill_width: i64,
    /// Clear width round the bit itself.
    pub bit_width: i64,
    /// How far the bit stands out of the drill's body.
    pub bit_length: i64,
    /// Bench top, the long way.
    pub bench_length: i64,
    /// Bench top, the short way.
    pub bench_width: i64,
    /// Bench top above the floor.
    pub bench_height: i64,
    /// Height of the two straight strips the work lies on, so that drill and clamps get under it.
    #[serde(default)]
    pub bearers: i64,
    /// Highest point above the floor at which a screw is driven.
    pub reach_height: i64,
    /// Longest opening of each clamp on hand.
    pub clamps: Vec<i64>,
    /// Who is there.
    pub people: u8,
    /// What square is checked with: `tape` or [`BY_SQUARE`].
    pub square_check: String,
    /// Other ways to drive a screw, tried where the drill has no room.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<Driver>,
    /// The glue's times.
    #[serde(default)]
    pub glue: Glue,
    /// Offcuts at hand that may serve as spacers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub offcuts: Vec<Offcut>,
    /// The person's own room, where the work cannot be walked round. Absent at the bench.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub person: Option<Person>,
}

/// What a person takes up who drives screws inside something. Lengths in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Person {
    /// Width and height of the room that an arm takes.
    pub arm: i64,
    /// From the back of the tool to the shoulder.
    pub reach: i64,
    /// Across the shoulders.
    pub shoulders: i64,
    /// Front to back, and in height, of what is behind the arm.
    pub chest: i64,
    /// The heaviest thing in grams that one hand holds up while the other drives.
    pub hand_g: i64,
}

/// A tool that drives screws: an offset or short driver. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Driver {
    /// As a maker calls it: `offset driver`.
    pub name: String,
    /// From the tip of the bit to its back, along the screw.
    pub length: i64,
    /// Its widest part.
    pub width: i64,
    /// Clear width round the bit itself.
    pub bit_width: i64,
    /// How far the bit stands out.
    pub bit_length: i64,
}

/// How long a glue waits, in minutes, as its maker states it for the room's temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Glue {
    /// From spreading until the faces are brought together.
    pub open: u32,
    /// From bringing together until pressure is on.
    pub closed: u32,
    /// For how long the pressure stays on.
    pub clamp: u32,
}

impl Default for Glue {
    /// A white or yellow wood glue in a warm room: from memory, to be read off the bottle.
    fn default() -> Self {
        Glue { open: 5, closed: 10, clamp: 30 }
    }
}

/// A piece left over whose size may be the distance to set. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Offcut {
    /// Stable id, none of a part.
    pub id: String,
    /// As a maker says it.
    pub name: String,
    /// Longest way.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// Measured thickness.
    pub thickness: i64,
}

/// A body: a piece that is built on its own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanBody {
    /// As the steps name it.
    pub id: String,
    /// As a maker says it: `left side with its runner`.
    pub name: String,
}

/// A part as the plan shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanPart {
    /// Stable id.
    pub id: String,
    /// As a maker says it.
    pub name: String,
    /// The body it belongs to.
    pub group: String,
    /// Id of the material.
    pub material: String,
    /// As it is bought: `3/4 in MDF`.
    pub material_name: String,
    /// Cut from sheet or bought.
    pub kind: Kind,
    /// What it is for; absent when nothing special is known.
    #[serde(default, skip_serializing_if = "Role::is_other")]
    pub role: Role,
    /// Longest way.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// Measured thickness.
    pub thickness: i64,
    /// Which way the grain runs.
    pub grain: Grain,
    /// Mass.
    pub mass_g: i64,
    /// The solid as disjoint boxes.
    pub boxes: Vec<Box3>,
    /// How it is made. Absent for bought parts and in plans without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub making: Option<Making>,
}

impl PlanPart {
    /// Length and width as it is cut: without its banding, and with the air it has in grooves.
    pub fn as_cut(&self) -> [i64; 2] {
        self.making.as_ref().map_or([self.length, self.width], |m| m.cut)
    }
}

/// How a part is cut and worked. Lengths in micrometres, directions in the standing pose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Making {
    /// What to write on it.
    pub label: String,
    /// Length and width as it is cut: without its banding, and with the air it has in grooves.
    pub cut: [i64; 2],
    /// Faces and edges that show when all is in place.
    pub shows: Vec<Direction>,
    /// Edges that are banded.
    pub banded: Vec<Direction>,
    /// The banding's thickness; zero without.
    pub banding: i64,
    /// The part that this one is the mirror image of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mirrors: Option<String>,
    /// Grooves, dadoes, rabbets, notches and borings.
    pub work: Vec<Work>,
}

/// Something cut or bored into a part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Work {
    /// What it is.
    pub kind: WorkKind,
    /// The face it is cut into.
    pub face: Direction,
    /// Two edges of the part as cut, and how far from each it starts; of borings, the middle of the
    /// first.
    pub from: [(Direction, i64); 2],
    /// How far it reaches away from those edges; of borings, the diameter twice.
    pub size: [i64; 2],
    /// How deep.
    pub depth: i64,
    /// Of a row of holes: which edge it runs away from, distance from hole to hole, and how many.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<(Direction, i64, u32)>,
}

/// What is cut or bored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WorkKind {
    /// A channel along the part's length.
    Groove,
    /// A channel across.
    Dado,
    /// A step along an edge.
    Rabbet,
    /// Through the whole thickness.
    Notch,
    /// A round hole that does not go through.
    Boring,
    /// A row of borings.
    Holes,
}

/// A joint as the plan shows it; parts by id.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanJoint {
    /// Stable id.
    pub id: String,
    /// Ids of its two parts.
    pub parts: [String; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether glue goes on.
    pub glue: bool,
    /// Its screws.
    pub fasteners: Vec<Fastener>,
}

/// Where a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Stage {
    /// In the shop.
    Bench,
    /// In the room.
    Install,
}

/// What a step is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Action {
    /// The first part of a body is laid on the bench.
    LayOut,
    /// A part joins the body.
    Place,
    /// Screws only.
    Drive,
    /// The body is turned onto another face.
    Turn,
    /// A measurement.
    Check,
    /// Tried without glue.
    DryFit,
    /// A clamp goes on.
    Clamp,
    /// A clamp comes off.
    Unclamp,
    /// Glue cures.
    Wait,
    /// The body leaves the bench for later.
    SetAside,
    /// A body set aside comes back.
    BringIn,
    /// A part or body that stays movable goes in: a box on its runners.
    Hang,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// From 1.
    pub n: u32,
    /// Where it is done.
    pub stage: Stage,
    /// What it is.
    pub action: Action,
    /// The sentence: verb, part, number.
    pub text: String,
    /// The face of the piece that lies on the bench, a direction of the standing pose.
    pub bench_face: Direction,
    /// The body on the bench.
    pub body: String,
    /// Ids of the parts that join the body here, each once in the whole plan.
    pub parts: Vec<String>,
    /// Instead of parts: the body that joins this one whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joins: Option<String>,
    /// The way the new parts move going in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub direction: Option<Direction>,
    /// Ids of the screws driven here, in their order.
    pub fasteners: Vec<String>,
    /// Ids of the joints closed here.
    pub joints: Vec<String>,
    /// How many people it takes.
    pub people: u8,
    /// By the rule in the documentation of [`crate::order`].
    pub minutes: u32,
    /// Screws of this step that another tool drives than the drill.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub drivers: Vec<DriverUse>,
    /// Clamps that press glued joints without screws, put on here and left on until an `unclamp`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clamps: Vec<ClampPlace>,
    /// What must not move meanwhile.
    pub hold: Vec<Hold>,
    /// What sets a distance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spacer: Option<Spacer>,
    /// What to measure.
    pub checks: Vec<Check>,
    /// Lines to draw for its screws.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lines: Vec<ScrewLine>,
    /// Why now and what was proved.
    pub why: Vec<Reason>,
    /// The best of the other things that could have been done here, and what it comes to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instead: Option<Instead>,
}

/// Screws that another tool drives than the drill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DriverUse {
    /// Name of the tool in [`Workshop::tools`].
    pub tool: String,
    /// Ids of the screws.
    pub fasteners: Vec<String>,
}

/// A clamp in its place: two jaws and the bar that joins them, in the standing pose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClampPlace {
    /// Ids of the two parts it presses together.
    pub parts: [String; 2],
    /// Distance between the jaws.
    pub opening: i64,
    /// Fixed jaw, then the jaw with the screw behind it.
    pub jaws: [Box3; 2],
    /// The bar.
    pub bar: Box3,
}

/// A rejected alternative.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Instead {
    /// What else could have been done, and why it was not.
    pub text: String,
    /// The least that the whole order costs that way. Absent when it cannot be done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost: Option<Cost>,
}

/// A line to draw on a panel for the screws into something hidden behind it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScrewLine {
    /// Id of the panel it is drawn on.
    pub part: String,
    /// Id of the part behind it that the screws go into.
    pub behind: String,
    /// The side of the panel from which it is measured.
    pub side: Direction,
    /// What that side is called.
    pub edge: String,
    /// How far from there.
    pub distance: i64,
    /// All of that as a sentence.
    pub text: String,
    /// How to find it without measuring; empty when there is no such way.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tip: String,
}

/// One thing that must be kept from moving.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hold {
    /// Id of the part or name of the body.
    pub what: String,
    /// What it is called, when that is not the name of the part or body: less than all of the body
    /// lies there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What holds it.
    pub with: HoldWith,
    /// Why it would move.
    pub why: String,
    /// Where the clamp goes, when a clamp holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clamp: Option<ClampPlace>,
}

/// What holds a part, in order of preference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HoldWith {
    /// It lies on the bench.
    Bench,
    /// A clamp.
    Clamp,
    /// A spacer under it.
    Spacer,
    /// One hand, the other drives.
    Hand,
    /// A second person.
    Helper,
}

/// A loose part or offcut that sets a distance while a joint is closed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spacer {
    /// Id of the loose part.
    pub part: String,
    /// The dimension used.
    pub dimension: i64,
    /// What it sets, in words.
    pub sets: String,
    /// Where it lies meanwhile, in the standing pose.
    pub at: Box3,
    /// The way it comes out again.
    pub out: Direction,
}

/// What a check is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CheckKind {
    /// The two diagonals of a frame.
    Diagonals,
    /// A width at two ends.
    EqualWidths,
    /// Two faces level.
    Flush,
    /// A part tried without glue.
    DryFit,
    /// A gap of given width.
    Gap,
    /// Two points at one height, or one above the other, by a spirit level.
    Level,
    /// Something that moves or holds, tried by hand.
    Works,
}

/// One measurement with its wanted values.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {
    /// What it is.
    pub kind: CheckKind,
    /// Wanted values, one for each pair of points. Without points: 0 for faces that are to be
    /// level, and none where the sentence alone says it.
    pub expected: Vec<i64>,
    /// By how much what is measured may be off.
    pub tolerance: i64,
    /// The points to measure between.
    pub between: Vec<[Point; 2]>,
    /// The check as a sentence, with what to do when it is off.
    pub text: String,
}

/// A reason or a proved fact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reason {
    /// Stable name, such as `clear-path`.
    pub rule: String,
    /// In words.
    pub text: String,
    /// The facts behind it, in the order the words use them.
    pub numbers: Vec<i64>,
}

/// What the order costs. Compared in the order of its fields: the first that differs decides.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
// Fields were added over time: a plan that lacks one reads as nothing spent there.
#[serde(default)]
pub struct Cost {
    /// Steps that need a second person.
    pub helper_steps: u32,
    /// Faces that a panel is laid over and that only a fingertip or the tape sets level, not the
    /// bench or a stop; and panels that lock a frame before its diagonals can be measured.
    pub by_feel: u32,
    /// Turns of a body and parts held in the air: each takes both arms.
    pub handlings: u32,
    /// Parts and bodies held by hand, clamp or helper, in the air or not.
    pub holds: u32,
    /// Distances that nothing sets: they are measured.
    pub measured: u32,
    /// Changes of the driver's bit within a step, and clamps put on.
    pub tool_changes: u32,
    /// Estimated working time, by the rule in the documentation of [`crate::order`].
    pub minutes: u32,
    /// Departures from the cut list's order: for each part that goes in, how many before it in the
    /// list are still out.
    pub scatter: u32,
    /// Of the handlings, the turns of a body onto another face.
    pub turns: u32,
    /// Of the handlings, the parts held in the air while they are fastened.
    pub lifted: u32,
}

impl Cost {
    /// Both together, field by field.
    #[must_use]
    pub fn plus(self, other: Cost) -> Cost {
        self.with(other, |a, b| a + b)
    }

    /// What is left without the other, field by field; never below nothing.
    #[must_use]
    pub fn less(self, other: Cost) -> Cost {
        self.with(other, u32::saturating_sub)
    }

    fn with(self, other: Cost, both: impl Fn(u32, u32) -> u32) -> Cost {
        Cost {
            helper_steps: both(self.helper_steps, other.helper_steps),
            by_feel: both(self.by_feel, other.by_feel),
            handlings: both(self.handlings, other.handlings),
            holds: both(self.holds, other.holds),
            measured: both(self.measured, other.measured),
            tool_changes: both(self.tool_changes, other.tool_changes),
            minutes: both(self.minutes, other.minutes),
            scatter: both(self.scatter, other.scatter),
            turns: both(self.turns, other.turns),
            lifted: both(self.lifted, other.lifted),
        }
    }
}

/// How far the search got.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Proof {
    /// Whether all orders that the search may choose from were weighed, so that none of them is
    /// cheaper. False when it stopped at its limit of states.
    pub optimal: bool,
    /// States the search expanded.
    pub states: u64,
    /// When `optimal`, the cost of the plan: none of those orders costs less, checks and dry fits,
    /// which are added to the order found, left aside. Else all zeros.
    pub bound: Cost,
}
