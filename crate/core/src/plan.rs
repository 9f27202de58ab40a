//! The finished plan: the file `plan.json`, and what the page, the command and the exports show.
//!
//! Lengths are integer micrometres, masses grams, positions in the standing pose.
//! Fields may be added, never renamed.

mod cutting;
mod step;
mod workshop;

use serde::{Deserialize, Serialize};

pub use cutting::*;
pub use step::*;
pub use workshop::*;

use crate::assembly::{Fastener, Grain, JointKind, Kind, Role};
use crate::findings::Finding;
use crate::geometry::{Box3, Direction};
use crate::units::Length;

/// The version written to every plan.
pub const FORMAT: &str = "jointwise-plan/1";

/// Id of the part that is the room itself, in the plan of the steps there.
pub const ROOM: &str = "room";

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

    /// A spacer's size across its gap, printed; of an offcut, or of a strip that is sawn for it, as sawn and not
    /// rounded.
    pub fn spacer_size(&self, spacer: &Spacer) -> String {
        let is_part = self.parts.iter().any(|p| p.id == spacer.part);
        let unit = if is_part { self.unit } else { self.unit.finest() };
        unit.print(Length::um(spacer.dimension))
    }
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
