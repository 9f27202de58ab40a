//! A piece listed part by part, as the design uses it.

use super::{Head, Role};
use crate::geometry::{Box3, Direction, Point};

/// A piece listed part by part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedPiece {
    /// The face it stands on when finished.
    pub stands_on: Direction,
    /// Ids and names of its bodies, the piece itself (`main`) among them.
    pub bodies: Vec<(String, String)>,
    /// Its parts, in the order of the cut list. Ids are unique.
    pub parts: Vec<ListedPart>,
    /// How they meet.
    pub joints: Vec<ListedJoint>,
}

/// One part in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedPart {
    /// Short and unique.
    pub id: String,
    /// As a maker says it.
    pub name: String,
    /// Id of the body it belongs to.
    pub body: String,
    /// What it is for.
    pub role: Role,
    /// What it is cut from or bought as.
    pub stuff: Stuff,
    /// What it fills before it is cut.
    pub outer: Box3,
    /// What is cut out of it, each inside `outer`.
    pub cuts: Vec<Box3>,
    /// Mass in grams, where it is not to be worked out.
    pub mass_g: Option<i64>,
    /// Ids of parts that its gaps are set against.
    pub set_against: Vec<String>,
}

/// What a part is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stuff {
    /// Cut from a sheet or board in the shop.
    Sheet {
        /// Id of the material.
        material: String,
        /// The axis along which the part is as thick as the material.
        thin: usize,
        /// Which way the grain runs.
        grain: ListedGrain,
    },
    /// Bought, under this name.
    Bought(String),
}

/// Which way a part's grain runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListedGrain {
    /// Along the longer of its two ways.
    Length,
    /// Along the shorter.
    Width,
    /// It has none, or it does not matter.
    None,
}

/// How two parts meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedJoint {
    /// Places of the two in [`ListedPiece::parts`]; screws go through the first into the second.
    pub parts: [usize; 2],
    /// How they meet.
    pub kind: ListedKind,
    /// Whether glue goes on.
    pub glue: bool,
    /// Its screws, if any.
    pub screws: Option<ListedScrews>,
}

/// How two parts meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListedKind {
    /// End or edge against a face.
    Butt,
    /// Let into a channel or a stopped recess.
    Dado,
    /// An edge captured in a channel.
    Groove,
    /// Laid on from outside.
    Overlay,
    /// One slides on the other and stays loose.
    Slide,
}

/// The screws of a joint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedScrews {
    /// The way they are driven; none: as the faces at which the parts meet suggest.
    pub drive: Option<Direction>,
    /// The head; none: as the first part's thickness suggests.
    pub head: Option<Head>,
    /// Where; none: along the middle of the joint.
    pub at: Option<Vec<Point>>,
}
