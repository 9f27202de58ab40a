//! A finished assembly: parts, the joints between them, and their fasteners.
//!
//! This is all the order search sees of a piece: it knows nothing of cabinets.

pub mod check;
pub mod gauge;
pub mod hinges;
pub mod joints;
pub mod lengths;
pub mod probe;
pub mod screws;

use serde::{Deserialize, Serialize};

use crate::geometry::{Direction, Point, Solid};
pub use crate::scenario::Role;
use crate::units::Length;

/// The name of the body that the finished piece is.
pub const MAIN: &str = "main";

/// Which way the grain of a part runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Along the part's length.
    Length,
    /// Along the part's width.
    Width,
    /// The material has none.
    None,
}

/// What a part is to the cutting plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Cut from sheet.
    Panel,
    /// Bought: a runner, a member of one.
    Hardware,
}

/// One part in the pose it has in the finished, standing piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Stable and unique, such as `left-side`.
    pub id: String,
    /// As a maker says it: `left side`.
    pub name: String,
    /// The body it belongs to: [`MAIN`], or a body joined to it whole, such as `box`.
    pub group: String,
    /// Id of the material, or what it is when bought.
    pub material: String,
    /// Panel or hardware.
    pub kind: Kind,
    /// What it is for.
    pub role: Role,
    /// Longest way, as cut.
    pub length: Length,
    /// Across, as cut.
    pub width: Length,
    /// Measured thickness of the sheet.
    pub thickness: Length,
    /// Which way its grain runs.
    pub grain: Grain,
    /// Mass in grams.
    pub mass_g: i64,
    /// Its body, grooves and notches cut out.
    pub solid: Solid,
    /// Ids of parts that must be in before it, because its gaps are set against them. Those in
    /// other bodies count with the body they belong to.
    pub set_against: Vec<String>,
}

/// How two parts meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JointKind {
    /// End or edge against a face.
    Butt,
    /// A panel let into a channel across the face of another.
    Dado,
    /// A panel's edge captured in a channel along another.
    Groove,
    /// Face on edge or face on face, laid on from outside.
    Overlay,
    /// Parts that slide on each other and stay loose.
    Slide,
    /// One part turns on the other and is held as soon as it is hung, without a tool.
    Hinge,
    /// They only touch, or steady each other: nothing holds them together.
    Touch,
}

impl JointKind {
    /// Whether the one part lies in a channel of the other, which carries it.
    pub fn is_channel(self) -> bool {
        matches!(self, JointKind::Groove | JointKind::Dado)
    }
}

/// A screw or the like. Its entry is the point on the outer skin where the tip goes in;
/// it travels along `direction`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fastener {
    /// Unique in the assembly.
    pub id: String,
    /// `screw` or `pan-head screw`.
    pub kind: String,
    /// Gauge number, as #8.
    pub gauge: u8,
    /// From under the head to the tip (countersunk: the whole length).
    pub length: Length,
    /// Diameter of the pilot hole.
    pub pilot: Length,
    /// Where the tip goes in.
    pub entry: Point,
    /// The way it is driven.
    pub direction: Direction,
}

/// Two parts, how they meet and what holds them together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Joint {
    /// Unique, such as `left-side+bottom`.
    pub id: String,
    /// Indices into [`Assembly::parts`], each a different part.
    pub parts: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether glue goes on.
    pub glue: bool,
    /// Screws, all through the first part into the second; none for a groove, a slide or a touch.
    pub fasteners: Vec<Fastener>,
}

impl Joint {
    /// Whether glue alone holds it, so that it must cure under a clamp.
    pub fn cures(&self) -> bool {
        let guided = matches!(self.kind, JointKind::Groove | JointKind::Slide);
        self.glue && self.fasteners.is_empty() && !guided
    }

    /// The other part of the joint.
    pub fn other(&self, part: usize) -> usize {
        if self.parts[0] == part { self.parts[1] } else { self.parts[0] }
    }
}

/// A piece whose parts, joints and screws are all placed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assembly {
    /// What it is.
    pub title: String,
    /// All parts, in the order of the cut list.
    pub parts: Vec<Part>,
    /// All joints: every two parts of it that share a face have one.
    pub joints: Vec<Joint>,
    /// The face it stands on when finished.
    pub stands_on: Direction,
    /// What each body is called, [`MAIN`] among them: id and name.
    pub bodies: Vec<(String, String)>,
}

impl Assembly {
    /// Place of a part by its id.
    pub fn index_of(&self, id: &str) -> Option<usize> {
        self.parts.iter().position(|p| p.id == id)
    }

    /// What a body is called; its id when it has no name.
    pub fn body_name<'a>(&'a self, id: &'a str) -> &'a str {
        self.bodies.iter().find(|(i, _)| i == id).map_or(id, |(_, name)| name)
    }
}
