//! A step, and all that is said in one.

use serde::{Deserialize, Serialize};

use crate::geometry::{Box3, Direction, Point};

use super::Cost;
#[cfg(doc)]
use super::Workshop;

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
