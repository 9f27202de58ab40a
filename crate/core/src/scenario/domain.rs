//! The scenario as the design uses it: every value present, in range and in one unit.

use super::{Accepted, Install, ListedPiece, Made};
use crate::units::{Length, Notation};

/// A whole scenario.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scenario {
    /// What is built, for whom it need not say.
    pub title: String,
    /// How lengths are printed.
    pub notation: Notation,
    /// What is to be built.
    pub subject: Subject,
    /// What is in the shop.
    pub shop: Shop,
    /// What is decided already about the order.
    pub wishes: crate::wishes::Wishes,
    /// What is cut already.
    pub made: Made,
    /// What is decided about cutting.
    pub cut: super::CutWishes,
    /// How it is fixed in the room.
    pub install: Install,
    /// What the maker has accepted.
    pub accepted: Vec<Accepted>,
}

/// What is to be built.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subject {
    /// A cabinet that fills a gap: its parts are worked out.
    Cabinet(Box<Cabinet>),
    /// A piece of any kind, listed part by part.
    Listed(ListedPiece),
}

/// A cabinet for a gap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cabinet {
    /// The gap in the room.
    pub space: Space,
    /// What goes in. May be empty for an open base.
    pub contents: Vec<Content>,
    /// How it is built.
    pub build: Build,
}

/// The gap in the room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Space {
    /// Clear width as measured at several heights. Empty when the contents or a given width of the
    /// carcass decide.
    pub widths: Vec<WidthAt>,
    /// Clear height from the floor to what is above (the underside of a counter).
    pub height: Length,
    /// Clear depth from the front line to the wall.
    pub depth: Length,
    /// What stands left.
    pub left: Neighbour,
    /// What stands right.
    pub right: Neighbour,
    /// The floor under it.
    pub floor: Floor,
}

impl Space {
    /// The least width measured.
    pub fn least_width(&self) -> Option<Length> {
        self.widths.iter().map(|w| w.width).min()
    }
}

/// One measurement of the opening's width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WidthAt {
    /// Height above the floor at which it was taken.
    pub at: Length,
    /// Clear width there.
    pub width: Length,
}

/// What stands beside the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Neighbour {
    /// A bought unit.
    Unit,
    /// A wall.
    Wall,
    /// Nothing.
    Open,
}

/// The floor under the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Floor {
    /// How much the floor rises or falls over the gap, never negative; zero for level.
    pub out_of_level: Length,
}

/// Things of one size that go in. They stand in one row; the rows of a list stand one behind the
/// other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Content {
    /// What it is: `bin`.
    pub name: String,
    /// Left to right.
    pub width: Length,
    /// Front to back.
    pub depth: Length,
    /// Up.
    pub height: Length,
    /// How many.
    pub count: u32,
    /// Air around and between.
    pub clearance: Length,
    /// Mass of one, full, in grams.
    pub mass_g: i64,
    /// How they stand: side by side across the width, or in line front to back.
    pub arrange: Arrange,
}

/// How several equal things stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrange {
    /// Across the width.
    SideBySide,
    /// Front to back.
    InLine,
}

/// How the cabinet is built.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Build {
    /// What it is inside.
    pub interior: Interior,
    /// The carcass.
    pub carcass: Carcass,
    /// The back.
    pub back: Back,
    /// The front, if it has one.
    pub front: Option<Front>,
}

/// What the carcass holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Interior {
    /// A box on runners.
    PullOut(PullOut),
    /// Open, with fixed shelves.
    Shelves(Shelves),
}

/// The carcass. Sizes that are absent follow from the space or the contents.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Carcass {
    /// Material of sides, bottom and rails.
    pub material: String,
    /// Outside width; absent: the opening less the fitting gaps, or the least that takes the contents.
    pub width: Option<Length>,
    /// Outside height; absent: the space's height less the fitting gap.
    pub height: Option<Length>,
    /// Outside depth with the back, without the front; absent: the space's depth less the front.
    pub depth: Option<Length>,
    /// Air left on each side towards a neighbour.
    pub side_gap: Length,
    /// Air left above.
    pub top_gap: Length,
    /// How bottom and shelves meet the sides.
    pub joint: CarcassJoint,
    /// Depth of a dado, when there is one.
    pub dado_depth: Length,
    /// Whether joints are glued too.
    pub glue: bool,
    /// Height of the toe kick: the bottom's underside above the floor. Zero: none.
    pub toe_height: Length,
    /// How far the toe-kick board stands behind the front edges.
    pub toe_recess: Length,
    /// Width of the front stretcher, lying flat at the top.
    pub stretcher_width: Length,
    /// Height of the rear nailer, standing at the top.
    pub nailer_height: Length,
}

/// How panels meet the sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CarcassJoint {
    /// Butted and screwed.
    Butt,
    /// Let into dadoes and screwed.
    Dado,
}

/// The back, laid onto the rear edges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Back {
    /// Its material.
    pub material: String,
    /// One or two pieces.
    pub pieces: u8,
    /// Which way the seam runs when there are two.
    pub seam: Seam,
}

/// Which way the seam of a two-piece back runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seam {
    /// Upright, in the middle of the width.
    Upright,
    /// Level, in the middle of the height.
    Level,
}

/// A box on runners.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PullOut {
    /// Material of sides, front and back of the box.
    pub material: String,
    /// Material of its bottom.
    pub bottom_material: String,
    /// Height of the box's sides; absent: a third of what goes in, within the carcass.
    pub side_height: Option<Length>,
    /// Depth of the grooves for the bottom.
    pub groove_depth: Length,
    /// From the box's lower edge to the underside of the bottom.
    pub bottom_recess: Length,
    /// Room the bottom is cut small by, in total on each way.
    pub bottom_play: Length,
    /// The runners.
    pub runner: Runner,
}

/// Runners: every number is read from the maker's own runner sheet; defaults are generic.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Runner {
    /// Where they sit.
    pub kind: RunnerKind,
    /// Lengths to choose from, shortest first.
    pub lengths: Vec<Length>,
    /// Undermount: the carcass's inside width less this is the box's inside width.
    pub inside_deduction: Length,
    /// Undermount: thickest box side that fits.
    pub side_limit: Length,
    /// Side-mount: thickness of the runner on each side.
    pub thickness: Length,
    /// Side-mount: its height.
    pub height: Length,
    /// Free height under the box to the carcass bottom.
    pub under: Length,
    /// Undermount: width of the notches at the box back's lower corners.
    pub notch_width: Length,
    /// Undermount: height of those notches.
    pub notch_height: Length,
}

/// Where runners sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RunnerKind {
    /// Hidden under the box.
    Undermount,
    /// Between box and carcass side.
    SideMount,
}

/// Fixed shelves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shelves {
    /// Material; usually the carcass's.
    pub material: String,
    /// Upper faces above the floor, lowest first. Empty: spaced evenly.
    pub heights: Vec<Length>,
    /// How many, when no heights are given.
    pub count: u8,
    /// How far each stands behind the front edges.
    pub setback: Length,
}

/// The applied front.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Front {
    /// Its material.
    pub material: String,
    /// One board, or false fronts that look like its neighbours.
    pub style: FrontStyle,
    /// Gap to neighbours and between fronts.
    pub reveal: Length,
}

/// What the front looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrontStyle {
    /// One board.
    One,
    /// A drawer's front over two doors' fronts, all on one box.
    DrawerOverDoors {
        /// Height of the upper front.
        drawer_height: Length,
    },
}

/// What is in the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shop {
    /// Sheets, each with its measured thickness.
    pub materials: Vec<Material>,
    /// Screws on hand.
    pub screws: Vec<Screw>,
    /// Tools and room.
    pub workshop: crate::plan::Workshop,
    /// Sheets and scraps to cut from, for every material at least one.
    pub stock: Vec<super::Stock>,
    /// The saw.
    pub saw: super::Saw,
    /// What of the shopping list is there already, and prices.
    pub supplies: Vec<super::Supply>,
}

impl Shop {
    /// A material by its id.
    pub fn material(&self, id: &str) -> Option<&Material> {
        self.materials.iter().find(|m| m.id == id)
    }
}

/// A sheet material.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Material {
    /// Short id used in the file.
    pub id: String,
    /// As it is sold: `3/4 in plywood`.
    pub name: String,
    /// What it is made of.
    pub kind: MaterialKind,
    /// Thickness as measured.
    pub thickness: Length,
    /// Density in kilograms per cubic metre.
    pub density: i64,
    /// Whether its face shows a grain.
    pub grain: bool,
}

/// What a sheet is made of; decides pilots and screw distances.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MaterialKind {
    /// Medium-density fibreboard.
    Mdf,
    /// Veneer plywood.
    Plywood,
    /// Particleboard.
    Particleboard,
    /// Solid softwood.
    Softwood,
    /// Solid hardwood.
    Hardwood,
    /// Hardboard and thin fibreboard.
    Hardboard,
}

/// A screw on hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Screw {
    /// Gauge number.
    pub gauge: u8,
    /// Length.
    pub length: Length,
    /// What head it has.
    pub head: Head,
}

/// A screw's head.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Head {
    /// Countersunk, flush with the face.
    Flat,
    /// Lies on the face: for hardware and thin backs.
    Pan,
}
