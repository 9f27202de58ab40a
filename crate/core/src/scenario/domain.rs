//! The scenario as the design uses it: every value present, in range and in one unit.

pub use super::file::{BackSet, Foot, Top};
use super::{Accepted, Install, ListedPiece, Made, Measured, Run};
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
    /// The wall it shares with bought units.
    pub run: Option<Run>,
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
    /// The least clear height from the floor to what is above (the underside of a counter).
    pub height: Length,
    /// The least clear depth from the front line to the wall.
    pub depth: Length,
    /// What stands left.
    pub left: Neighbour,
    /// What stands right.
    pub right: Neighbour,
    /// The floor under it.
    pub floor: Floor,
    /// What else was measured.
    pub measured: Measured,
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
    /// Taken at the back and not at the front line.
    pub back: bool,
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
    /// How they stand: side by side across the width, in line front to back, or in a grid.
    pub arrange: Arrange,
    /// How far one is raised before it comes out.
    pub lift: Length,
}

/// How several equal things stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrange {
    /// Across the width.
    SideBySide,
    /// Front to back.
    InLine,
    /// So many across the width, the rest behind.
    Grid(u32),
}

/// How the cabinet is built.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Build {
    /// What it is inside.
    pub interior: Interior,
    /// Drawers over the shelves.
    pub drawers: Option<Drawers>,
    /// Doors before the shelves.
    pub doors: Option<Doors>,
    /// Upright panels between the sides, sharing the width out evenly.
    pub dividers: u8,
    /// Thickness of the banding on edges that show, if there is any.
    pub banding: Length,
    /// Sizes that must come out so, by the id of their row.
    pub pins: Vec<(String, Length)>,
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
    /// A box on runners, in each bay.
    PullOut(PullOut),
    /// Shelves, or none; open, behind doors or under drawers.
    Shelves(Shelves),
}

impl Build {
    /// The boxes that go in: of the pull-out, or of the drawers.
    pub fn boxes(&self) -> Option<&PullOut> {
        match (&self.interior, &self.drawers) {
            (Interior::PullOut(p), _) => Some(p),
            (Interior::Shelves(_), Some(d)) => Some(&d.boxes),
            (Interior::Shelves(_), None) => None,
        }
    }

    /// Whether what goes in stands on bottom and shelves; else in the boxes.
    pub fn on_shelves(&self) -> bool {
        let shelves = |i: &Interior| matches!(i, Interior::Shelves(i) if i.count > 0 || !i.heights.is_empty());
        self.boxes().is_none() || self.doors.is_some() || shelves(&self.interior)
    }
}

/// Drawers one over the other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawers {
    /// How many, 1 to 5.
    pub count: u8,
    /// Whether the fronts of which no height is given grow downwards; else they are alike.
    pub graduated: bool,
    /// Heights of the fronts from the top down, as far as they are given.
    pub heights: Vec<Length>,
    /// Their boxes; `side_height` is the most.
    pub boxes: PullOut,
}

/// Doors on concealed hinges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doors {
    /// 1 or 2 in each bay; absent: by the width.
    pub count: Option<u8>,
    /// Whether a single door hangs on the right.
    pub hung_right: bool,
    /// Hinges on each; absent: by the height.
    pub hinges: Option<u8>,
    /// From the door's ends to the middle of the outer hinges.
    pub hinge_inset: Length,
    /// Diameter and depth of the cup's boring.
    pub cup: Length,
    /// See [`Doors::cup`].
    pub cup_depth: Length,
    /// From the door's edge to the boring.
    pub cup_edge: Length,
    /// From the front edge to the row of the plate's screws.
    pub plate_row: Length,
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
    /// What stands under the bottom, when there is a toe kick.
    pub foot: Foot,
    /// What closes it above.
    pub top: Top,
    /// How far a top of kind `over` reaches before the front edges.
    pub top_overhang: Length,
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
    /// Let into rabbets at the ends of the sides, butted elsewhere.
    Rabbet,
}

/// The back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Back {
    /// Its material.
    pub material: String,
    /// How it is set.
    pub set: BackSet,
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
    /// How far they let the box out, by their sheet; absent: all of it.
    pub travel: Option<Length>,
    /// What one pair carries by its sheet, box and front included, in grams; absent: not known.
    pub rating_g: Option<i64>,
}

/// Where runners sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RunnerKind {
    /// Hidden under the box.
    Undermount,
    /// Between box and carcass side.
    SideMount,
}

/// Shelves.
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
    /// Rows of holes, when they lie loose on pins.
    pub pins: Option<HoleRows>,
}

/// Rows of holes for shelf pins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoleRows {
    /// From hole to hole.
    pub pitch: Length,
    /// From the front edge to the front row, and from the back to the rear row.
    pub inset: Length,
    /// Diameter.
    pub hole: Length,
    /// Air at each end of a shelf.
    pub play: Length,
}

/// The front: of a pull-out, of drawers, of doors.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Front {
    /// Its material.
    pub material: String,
    /// One board, or false fronts that look like its neighbours.
    pub style: FrontStyle,
    /// Whether it lies between the sides, flush with their edges, instead of before them.
    pub inset: bool,
    /// Gap to neighbours and between fronts.
    pub reveal: Length,
    /// How far handles stand out before it.
    pub handle: Length,
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
    /// How warm it is where it is glued, in whole degrees Celsius; absent: not known.
    pub room_c: Option<i64>,
    /// Down to what the glue holds, by its bottle, in whole degrees Celsius.
    pub glue_least_c: i64,
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
