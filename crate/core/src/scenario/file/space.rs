//! The section `space` of the file.

use serde::Deserialize;

use super::scalar::{Place, Written};

/// The gap in the room.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Space {
    /// Clear width as measured, at up to 20 heights. Default: none, then the contents or
    /// `build.carcass.width` decide the width.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 20), example = serde_json::json!([
        { "at": "2", "width": "20 1/8" }, { "at": "34", "width": "20 1/16" }
    ])))]
    pub widths: Option<Vec<WidthAt>>,
    /// Clear height from the floor to what is above, 200 to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"34 3/4", example = &"880 mm"))]
    pub height: Option<Written>,
    /// Clear heights left and right, up to 12; the least counts. Default: none beside `height`.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([
        { "side": "left", "height": "34 3/4" }, { "side": "right", "height": "34 5/8" }
    ])))]
    pub heights: Option<Vec<HeightAt>>,
    /// Clear depth from the front line to the wall, 100 to 1500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"24", example = &"600 mm"))]
    pub depth: Option<Written>,
    /// Clear depths at several places, up to 12; the least counts. Default: none beside `depth`.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([
        { "at": "2", "side": "left", "depth": "24" }, { "at": "34", "side": "left", "depth": "23 7/8" }
    ])))]
    pub depths: Option<Vec<DepthAt>>,
    /// The opening's diagonals, corner to corner across its front. Default: not measured.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "rising": "40 1/8", "falling": "40 1/4" })))]
    pub diagonals: Option<Diagonals>,
    /// Walls beside and behind that are out of plumb. Default: plumb.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "right": { "over": "24", "gap": "3/16", "way": "in" }
    })))]
    pub walls: Option<Walls>,
    /// What is above the gap. Default: `counter`.
    #[cfg_attr(feature = "schema", schemars(example = &"ceiling"))]
    pub above: Option<Above>,
    /// What stands in the gap and must be stayed clear of, up to 20. Default: nothing.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 20), example = serde_json::json!([
        { "kind": "baseboard", "at": ["0", "23 1/2", "0"], "size": ["20", "1/2", "3 1/2"] }
    ])))]
    pub obstacles: Option<Vec<Obstacle>>,
    /// Doors, stairs and corridors on the way to the gap, up to 12. Default: none that matters.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([
        { "name": "cellar door", "width": "29 1/2", "height": "78" }
    ])))]
    pub passages: Option<Vec<Passage>>,
    /// What stands left. Default: `unit`.
    #[cfg_attr(feature = "schema", schemars(example = &"unit"))]
    pub left: Option<Neighbour>,
    /// What stands right. Default: `unit`.
    #[cfg_attr(feature = "schema", schemars(example = &"wall"))]
    pub right: Option<Neighbour>,
    /// The floor. Default: level.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "out_of_level": "1/8" })))]
    pub floor: Option<Floor>,
}

/// One measurement of the opening's width.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WidthAt {
    /// Height above the floor at which it was taken, 0 to 3000 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"18", example = &"450 mm"))]
    pub at: Option<Written>,
    /// Clear width there, 100 to 3000 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"20 1/8", example = &"511,5")
    )]
    pub width: Option<Written>,
    /// Whether it was taken at the front or at the back. Default: `front`.
    #[cfg_attr(feature = "schema", schemars(example = &"back"))]
    pub from: Option<End>,
}

/// One measurement of the opening's height.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct HeightAt {
    /// Where it was taken. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"left"))]
    pub side: Option<Side>,
    /// Clear height there, 200 to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"34 3/4", example = &"880 mm"))]
    pub height: Option<Written>,
}

/// One measurement of the opening's depth.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct DepthAt {
    /// Height above the floor at which it was taken, 0 to 3000 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"18", example = &"450 mm"))]
    pub at: Option<Written>,
    /// Where it was taken. Default: `middle`.
    #[cfg_attr(feature = "schema", schemars(example = &"left"))]
    pub side: Option<Side>,
    /// Clear depth there, 100 to 1500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"24", example = &"600 mm"))]
    pub depth: Option<Written>,
}

/// Left, middle or right, as one stands before the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// At the left.
    Left,
    /// In the middle.
    Middle,
    /// At the right.
    Right,
}

/// At the front or at the back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// At the front line.
    Front,
    /// At the wall behind.
    Back,
}

/// The two diagonals of the opening.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Diagonals {
    /// From the lower left to the upper right corner, 200 to 4500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"40 1/8", example = &"1056 mm"))]
    pub rising: Option<Written>,
    /// From the upper left to the lower right corner, 200 to 4500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"40 1/4", example = &"1059 mm"))]
    pub falling: Option<Written>,
}

/// Walls out of plumb.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Walls {
    /// The left one, from the floor up. Default: plumb.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "over": "24", "gap": "3/16", "way": "in" })))]
    pub left: Option<Slope>,
    /// The right one, from the floor up. Default: plumb.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "over": "24", "gap": "3/16", "way": "out" })))]
    pub right: Option<Slope>,
    /// The one behind, from the floor up. Default: plumb.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "over": "30", "first": "2", "second": "1 7/8" })))]
    pub back: Option<Slope>,
}

/// How far something is out of plumb or level: a level with its bubble in the middle and the gap
/// that is open at one end, or two distances from a level or plumb line. Of a floor, from left to
/// right or from front to back; of a wall, from the floor up.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Slope {
    /// Length of the level, or from one reading to the other, 200 to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"24", example = &"600 mm"))]
    pub over: Option<Written>,
    /// The gap under the level's end, 0 to 100 mm. Default: none, then two distances are given.
    #[cfg_attr(feature = "schema", schemars(example = &"3/16", example = &"5 mm"))]
    pub gap: Option<Written>,
    /// Which way it goes: a floor `rises` or `falls`, a wall leans `in` or `out` of the gap.
    /// Default: none; required with a gap.
    #[cfg_attr(feature = "schema", schemars(example = &"in"))]
    pub way: Option<Lean>,
    /// Distance of the first end from the line, 0 to 3000 mm. Default: none, then `gap` is
    /// given.
    #[cfg_attr(feature = "schema", schemars(example = &"2", example = &"50 mm"))]
    pub first: Option<Written>,
    /// Distance of the other end from the line, 0 to 3000 mm. Default: none, then `gap` is
    /// given.
    #[cfg_attr(feature = "schema", schemars(example = &"1 7/8", example = &"47 mm"))]
    pub second: Option<Written>,
}

/// Which way a floor or wall is out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Lean {
    /// A floor: higher at the right, or at the back.
    Rises,
    /// A floor: lower at the right, or at the back.
    Falls,
    /// A wall: its top stands into the gap.
    In,
    /// A wall: its top stands away from the gap.
    Out,
}

/// What is above the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Above {
    /// A counter: the piece is pushed in under it.
    Counter,
    /// The ceiling: the piece is tilted up under it.
    Ceiling,
    /// Nothing.
    Open,
}

/// What stands in the gap.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// What it is called, 1 to 60 characters. Default: its kind.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 60), example = &"waste pipe"))]
    pub name: Option<String>,
    /// What it is. Default: `other`.
    #[cfg_attr(feature = "schema", schemars(example = &"pipe"))]
    pub kind: Option<ObstacleKind>,
    /// Its left, front, lower corner, from the gap's left wall, the front line and the floor, each 0
    /// to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!(["4", "22", "0"])))]
    pub at: Option<Place>,
    /// Its width, depth and height, each 0 to 3000 mm; what lies flat in the wall has a depth of 0.
    /// Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!(["2", "2", "30"])))]
    pub size: Option<Place>,
    /// Air to leave around it, 0 to 300 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"10 mm"))]
    pub clear: Option<Written>,
}

/// What an obstacle is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum ObstacleKind {
    /// A board along the foot of the wall.
    Baseboard,
    /// A pipe.
    Pipe,
    /// A socket or switch: it must stay within reach.
    Outlet,
    /// An opening that air passes through: it must stay open.
    Vent,
    /// Anything else.
    Other,
}

/// A door, stair or corridor that the finished piece must pass.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Passage {
    /// What it is called, 1 to 60 characters. Default: `door`.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 60), example = &"cellar stair"))]
    pub name: Option<String>,
    /// Clear width, 300 to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"29 1/2", example = &"750 mm"))]
    pub width: Option<Written>,
    /// Clear height; of a stair the headroom, square to the steps; 300 to 4000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"78", example = &"1980 mm"))]
    pub height: Option<Written>,
    /// Clear width behind a square bend, 300 to 3000 mm. Default: it goes straight on.
    #[cfg_attr(feature = "schema", schemars(example = &"36", example = &"900 mm"))]
    pub turn: Option<Written>,
}

/// What stands beside the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Neighbour {
    /// A bought or built unit.
    Unit,
    /// A wall.
    Wall,
    /// Nothing.
    Open,
}

/// The floor under the gap.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Floor {
    /// How much the floor rises or falls over the gap, 0 to 100 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"1/8", example = &"4 mm"))]
    pub out_of_level: Option<Written>,
    /// From left to right, as measured. Default: level.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "over": "24", "gap": "1/8", "way": "falls" })))]
    pub across: Option<Slope>,
    /// From front to back, as measured. Default: level.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "over": "24", "first": "6", "second": "6 1/8" })))]
    pub along: Option<Slope>,
}
