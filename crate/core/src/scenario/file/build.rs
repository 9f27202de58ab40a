//! The section `build` of the file.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::scalar::{Amount, Written};

/// How the cabinet is built. Either a `pull_out`, or one or more of `shelves`, `drawers` and `doors`: drawers
/// stand over the rest, doors before the shelves.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
    { "required": ["pull_out"] },
    { "anyOf": [{ "required": ["shelves"] }, { "required": ["drawers"] }, { "required": ["doors"] }] }
])))]
#[serde(deny_unknown_fields)]
pub struct Build {
    /// The carcass. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "material": "mdf-3/4", "joint": "butt" })))]
    pub carcass: Option<Carcass>,
    /// The back. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "material": "ply-1/4", "pieces": 1 })))]
    pub back: Option<Back>,
    /// A box on runners. Instead of `shelves`.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "runner": { "kind": "undermount" } })))]
    pub pull_out: Option<PullOut>,
    /// Shelves, open or behind doors. Not beside `pull_out`.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "count": 1 })))]
    pub shelves: Option<Shelves>,
    /// Drawers one over the other, above doors or shelves when there are any. Not beside `pull_out`. Default:
    /// none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "count": 3 })))]
    pub drawers: Option<Drawers>,
    /// Hinged doors. Not beside `pull_out`. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "count": 2 })))]
    pub doors: Option<Doors>,
    /// Upright panels that share the width out evenly, each bay filled alike. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "count": 1 })))]
    pub dividers: Option<Dividers>,
    /// Edge banding on the edges that show. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "thickness": "1 mm" })))]
    pub banding: Option<Banding>,
    /// Sizes that must come out so, by the id of their row in the size table, up to 12; the rest follows.
    /// Default: none.
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "box-inside-width": "400 mm" })))]
    pub pins: Option<BTreeMap<String, Written>>,
    /// The front. Default: no front; before drawers and doors every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "style": "one" })))]
    pub front: Option<Front>,
}

/// The carcass.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Carcass {
    /// Id of the material of sides, bottom and rails. Default: the first material 15 mm thick or more.
    #[cfg_attr(feature = "schema", schemars(example = &"mdf-3/4"))]
    pub material: Option<String>,
    /// Outside width, 100 to 3000 mm. Default: the opening less the gaps, or the least that takes the contents.
    #[cfg_attr(feature = "schema", schemars(example = &"18", example = &"450 mm"))]
    pub width: Option<Written>,
    /// Outside height, 200 to 3000 mm. Default: the space's height less the gap above.
    #[cfg_attr(feature = "schema", schemars(example = &"34 1/2", example = &"870 mm"))]
    pub height: Option<Written>,
    /// Outside depth with the back, without the front, 100 to 1500 mm. Default: the space's depth less the front.
    #[cfg_attr(feature = "schema", schemars(example = &"23 1/4", example = &"560 mm"))]
    pub depth: Option<Written>,
    /// Air left on each side towards a neighbour, 0 to 50 mm. Default: 1/16 in or 1.5 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/16", example = &"1.5 mm"))]
    pub side_gap: Option<Written>,
    /// Air left above, 0 to 100 mm. Default: 1/8 in or 3 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/8", example = &"3 mm"))]
    pub top_gap: Option<Written>,
    /// How bottom, top and shelves meet the sides. Default: `butt`.
    #[cfg_attr(feature = "schema", schemars(example = &"butt"))]
    pub joint: Option<Joint>,
    /// Depth of the dadoes and rabbets, when there are any, 1 to 20 mm, leaving 3 mm of the side. Default: 1/4 in or 6 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/4", example = &"6 mm"))]
    pub dado_depth: Option<Written>,
    /// Whether joints are glued too. Default: true.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub glue: Option<bool>,
    /// Underside of the bottom above the floor, 0 (no toe kick) to 300 mm. Default: 4 in or 100 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"4", example = &"100 mm"))]
    pub toe_height: Option<Written>,
    /// How far the toe-kick board stands behind the front edges, 0 to 200 mm. Default: 3 in or 75 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3", example = &"75 mm"))]
    pub toe_recess: Option<Written>,
    /// What stands under the bottom, when there is a toe kick. Default: `integral`.
    #[cfg_attr(feature = "schema", schemars(example = &"platform"))]
    pub foot: Option<Foot>,
    /// What closes it above. Default: `stretcher`.
    #[cfg_attr(feature = "schema", schemars(example = &"panel"))]
    pub top: Option<Top>,
    /// How far a top of kind `over` reaches before the sides' front edges, 0 to 100 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"1", example = &"25 mm"))]
    pub top_overhang: Option<Written>,
    /// Width of the front stretcher, lying flat at the top, 40 to 300 mm. Default: 4 in or 100 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"4", example = &"100 mm"))]
    pub stretcher_width: Option<Written>,
    /// Height of the rear nailer, standing at the top, 40 to 300 mm. Default: 4 in or 100 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"4", example = &"100 mm"))]
    pub nailer_height: Option<Written>,
}

/// How panels meet the sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Joint {
    /// Butted and screwed.
    Butt,
    /// Let into dadoes and screwed.
    Dado,
    /// Let into rabbets at the ends of the sides, butted elsewhere, and screwed.
    Rabbet,
}

/// What stands under the bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Foot {
    /// The sides reach the floor, with a board between them.
    Integral,
    /// A frame of boards, built on its own.
    Platform,
    /// Bought legs, screwed under the bottom.
    Legs,
}

/// What closes the carcass above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Top {
    /// A stretcher in front and a nailer behind: a counter comes on top.
    Stretcher,
    /// A panel between the sides.
    Panel,
    /// A panel over everything, screwed from below: a seat.
    Over,
}

/// The back.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Back {
    /// Id of its material. Default: the first material 9 mm thick or less.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-1/4"))]
    pub material: Option<String>,
    /// 1, or 2 when it is made of scraps. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 2), example = 1))]
    pub pieces: Option<Amount>,
    /// How it is set. Default: `applied`.
    #[cfg_attr(feature = "schema", schemars(example = &"groove"))]
    pub set: Option<BackSet>,
    /// Which way the seam of two pieces runs. Default: `upright`.
    #[cfg_attr(feature = "schema", schemars(example = &"upright"))]
    pub seam: Option<Seam>,
}

/// How the back is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum BackSet {
    /// Laid onto the rear edges from behind.
    Applied,
    /// Let into rabbets along the sides' rear edges.
    Rabbet,
    /// In grooves before the nailer; in one piece.
    Groove,
}

/// Which way the seam of a two-piece back runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Seam {
    /// Upright, in the middle of the width.
    Upright,
    /// Level, in the middle of the height.
    Level,
}

/// A box on runners.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PullOut {
    /// Id of the material of the box's sides, front and back. Default: the first material from 9 mm
    /// to under 15 mm thick, or the carcass's.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-1/2"))]
    pub material: Option<String>,
    /// Id of the material of its bottom. Default: the first material 9 mm thick or less.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-1/4"))]
    pub bottom_material: Option<String>,
    /// Height of the box's sides, 50 to 1000 mm. Default: a third of what goes in.
    #[cfg_attr(feature = "schema", schemars(example = &"8", example = &"200 mm"))]
    pub side_height: Option<Written>,
    /// Depth of the grooves for the bottom, 1 to 15 mm, leaving 3 mm of the side. Default: 1/4 in or 6 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/4", example = &"6 mm"))]
    pub groove_depth: Option<Written>,
    /// From the box's lower edge to the underside of its bottom, 0 to 60 mm. Default: 1/2 in or 13 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"13 mm"))]
    pub bottom_recess: Option<Written>,
    /// Room the bottom is cut small by, in total each way, 0 to 10 mm. Default: 1/16 in or 1.5 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/16", example = &"1.5 mm"))]
    pub bottom_play: Option<Written>,
    /// The runners. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "kind": "side-mount" })))]
    pub runner: Option<Runner>,
}

/// The runners. Read every number from the sheet that comes with them; the defaults are generic.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Runner {
    /// Where they sit. Default: `undermount`.
    #[cfg_attr(feature = "schema", schemars(example = &"undermount"))]
    pub kind: Option<RunnerKind>,
    /// Lengths to be had, 1 to 40 of them, 150 to 1200 mm each. Default, undermount: 9, 12, 15, 18, 21 in or
    /// 250 to 550 by 50 mm; side-mount: 10 to 28 by 2 in or 250 to 700 by 50 mm.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 40), example = serde_json::json!(["15", "18", "21"])))]
    pub lengths: Option<Vec<Written>>,
    /// Undermount: the opening less this is the box's inside width, 20 to 100 mm. Default: 42 mm
    /// (from memory: the generic metric rule).
    #[cfg_attr(feature = "schema", schemars(example = &"1 5/8", example = &"42 mm"))]
    pub inside_deduction: Option<Written>,
    /// Undermount: the thickest box side that fits, 8 to 30 mm. Default: 16 mm (from memory).
    #[cfg_attr(feature = "schema", schemars(example = &"5/8", example = &"16 mm"))]
    pub side_limit: Option<Written>,
    /// Side-mount: thickness of the runner on each side, 5 to 40 mm. Default: 12.7 mm (common practice, no source).
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"12.7 mm"))]
    pub thickness: Option<Written>,
    /// Side-mount: height of the runner, 10 to 120 mm. Default: 45 mm (from memory).
    #[cfg_attr(feature = "schema", schemars(example = &"1 3/4", example = &"45 mm"))]
    pub height: Option<Written>,
    /// Free height between the carcass bottom and the box, 0 to 100 mm. Default: 3 mm undermount, 10 mm
    /// side-mount (from memory).
    #[cfg_attr(feature = "schema", schemars(example = &"3/8", example = &"10 mm"))]
    pub under: Option<Written>,
    /// Undermount: width of the notches at the lower corners of the box's back, 5 to 80 mm. Default: 35 mm (from memory).
    #[cfg_attr(feature = "schema", schemars(example = &"1 3/8", example = &"35 mm"))]
    pub notch_width: Option<Written>,
    /// Undermount: height of those notches, 5 to 40 mm. Default: 13 mm (from memory).
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"13 mm"))]
    pub notch_height: Option<Written>,
    /// How far they let the box out, 100 to 1500 mm. Default: all of it (full extension).
    #[cfg_attr(feature = "schema", schemars(example = &"15", example = &"380 mm"))]
    pub travel: Option<Written>,
    /// What one pair carries by its sheet, box and front included, in kilograms, 1 to 300; 75 lb are 34 kg.
    /// Default: not known, and the class that is needed is told.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 300), example = 34))]
    pub rating_kg: Option<Amount>,
}

/// Where runners sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum RunnerKind {
    /// Hidden under the box.
    Undermount,
    /// Between box and carcass side.
    SideMount,
}

/// Shelves.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Shelves {
    /// Id of the material. Default: the carcass's.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-18"))]
    pub material: Option<String>,
    /// Upper faces above the floor, up to 10 of them, 50 to 3000 mm each. Default: spaced evenly.
    #[cfg_attr(feature = "schema", schemars(length(max = 10), example = serde_json::json!(["480 mm"])))]
    pub heights: Option<Vec<Written>>,
    /// How many when no heights are given, 0 to 10. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 10), example = 1))]
    pub count: Option<Amount>,
    /// How far each stands behind the front edges, 0 to 500 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"0", example = &"20 mm"))]
    pub setback: Option<Written>,
    /// How they are held. Default: `fixed`.
    #[cfg_attr(feature = "schema", schemars(example = &"pins"))]
    pub fixing: Option<Fixing>,
    /// On pins: distance from hole to hole in a row, 10 to 100 mm. Default: 32 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"32 mm", example = &"1"))]
    pub pitch: Option<Written>,
    /// On pins: distance of the rows from the front edges, and from the back, 15 to 150 mm. Default: 37 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"37 mm"))]
    pub row_inset: Option<Written>,
    /// On pins: diameter of the holes, 3 to 12 mm. Default: 5 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"5 mm", example = &"1/4"))]
    pub hole: Option<Written>,
    /// On pins: air at each end of a shelf, 0 to 5 mm. Default: 1/32 in or 1 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1 mm"))]
    pub play: Option<Written>,
}

/// How shelves are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Fixing {
    /// Screwed, or in dadoes as the carcass is.
    Fixed,
    /// Loose on pins in rows of holes.
    Pins,
}

/// Drawers.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Drawers {
    /// How many, one over the other, 1 to 5. Default: 1 over doors or shelves, else 3.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 5), example = 3))]
    pub count: Option<Amount>,
    /// How the heights of the fronts go where none is given. Default: `graduated`; over doors or shelves
    /// each is 6 in or 150 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"equal"))]
    pub fronts: Option<Fronts>,
    /// Heights of the fronts from the top down, up to 5, 50 to 1000 mm each; those not given share the rest.
    /// Default: as `fronts` says.
    #[cfg_attr(feature = "schema", schemars(length(max = 5), example = serde_json::json!(["6", "10"])))]
    pub heights: Option<Vec<Written>>,
    /// Their boxes. `side_height` is the highest box side; lower fronts have lower boxes. Default: every
    /// default of a `pull_out`.
    #[serde(default, rename = "box")]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "runner": { "kind": "side-mount" } })))]
    pub boxes: Option<PullOut>,
}

/// How the heights of drawer fronts go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Fronts {
    /// Each a step higher than the one above.
    Graduated,
    /// All alike.
    Equal,
}

/// Doors on concealed hinges.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Doors {
    /// 1 or 2 in each bay. Default: 2 from 600 mm on, else 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 2), example = 2))]
    pub count: Option<Amount>,
    /// The side on which a single door hangs. Default: `left`.
    #[cfg_attr(feature = "schema", schemars(example = &"left"))]
    pub hung: Option<Hung>,
    /// Hinges on each door, 2 to 6. Default: 2 up to 6 kg and 900 mm of height, then more.
    #[cfg_attr(feature = "schema", schemars(range(min = 2, max = 6), example = 2))]
    pub hinges: Option<Amount>,
    /// From the door's ends to the middle of the outer hinges, 50 to 400 mm. Default: 4 in or 100 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"100 mm"))]
    pub hinge_inset: Option<Written>,
    /// Diameter of the cup's boring, 20 to 45 mm. Default: 35 mm (common practice, no source).
    #[cfg_attr(feature = "schema", schemars(example = &"35 mm"))]
    pub cup: Option<Written>,
    /// Depth of the cup's boring, 5 to 20 mm. Default: 12 mm (common practice, no source).
    #[cfg_attr(feature = "schema", schemars(example = &"12 mm"))]
    pub cup_depth: Option<Written>,
    /// From the door's edge to the cup's boring, 2 to 10 mm. Default: 4 mm (common practice, no source).
    #[cfg_attr(feature = "schema", schemars(example = &"4 mm"))]
    pub cup_edge: Option<Written>,
    /// From the front edge to the row of the plate's screws, 25 to 60 mm. Default: 37 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"37 mm"))]
    pub plate_row: Option<Written>,
}

/// The side on which a door hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Hung {
    /// Left, seen from the front.
    Left,
    /// Right, seen from the front.
    Right,
}

/// Edge banding.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Banding {
    /// Its thickness, 0.2 to 5 mm, which is taken off the part as it is cut. Default: 1 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1 mm", example = &"1/32"))]
    pub thickness: Option<Written>,
}

/// Dividers.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Dividers {
    /// How many, 1 to 4. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 4), example = 1))]
    pub count: Option<Amount>,
}

/// The front: of a pull-out, of drawers, doors.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Front {
    /// Id of the material. Default: the carcass's.
    #[cfg_attr(feature = "schema", schemars(example = &"mdf-3/4"))]
    pub material: Option<String>,
    /// What the front of a pull-out looks like. Default: `one`.
    #[cfg_attr(feature = "schema", schemars(example = &"one"))]
    pub style: Option<FrontStyle>,
    /// Height of the upper front of `drawer-over-doors`, 50 to 600 mm. Default: 6 in or 150 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"6", example = &"150 mm"))]
    pub drawer_height: Option<Written>,
    /// Whether it lies before the edges of the carcass or between its sides. Default: `overlay`.
    #[cfg_attr(feature = "schema", schemars(example = &"inset"))]
    pub mount: Option<Mount>,
    /// Gap to neighbours and between fronts, 0 to 20 mm. Default: 1/8 in or 3 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/8", example = &"3 mm"))]
    pub reveal: Option<Written>,
    /// How far handles stand out before the fronts, 0 to 100 mm. Default: 40 mm (common practice, no source).
    #[cfg_attr(feature = "schema", schemars(example = &"1 1/2", example = &"35 mm"))]
    pub handle: Option<Written>,
}

/// Where fronts lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Mount {
    /// Before the edges of the carcass, covering them.
    Overlay,
    /// Between the sides, flush with their edges.
    Inset,
}

/// What the front looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum FrontStyle {
    /// One board.
    One,
    /// A drawer's front over two doors' fronts, all on one box.
    DrawerOverDoors,
}
