//! The section `space` of the file.

use serde::Deserialize;

use super::scalar::{Written, object, objects};

/// The gap in the room.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Space {
    /// Clear width as measured, at up to 20 heights. Default: none, then the contents or
    /// `build.carcass.width` decide the width.
    #[serde(default, deserialize_with = "objects")]
    #[cfg_attr(feature = "schema", schemars(length(max = 20), example = serde_json::json!([
        { "at": "2", "width": "20 1/8" }, { "at": "34", "width": "20 1/16" }
    ])))]
    pub widths: Option<Vec<WidthAt>>,
    /// Clear height from the floor to what is above, 200 to 3000 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"34 3/4", example = &"880 mm")
    )]
    pub height: Option<Written>,
    /// Clear depth from the front line to the wall, 100 to 1500 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"24", example = &"600 mm")
    )]
    pub depth: Option<Written>,
    /// What stands left. Default: `unit`.
    #[cfg_attr(feature = "schema", schemars(example = &"unit"))]
    pub left: Option<Neighbour>,
    /// What stands right. Default: `unit`.
    #[cfg_attr(feature = "schema", schemars(example = &"wall"))]
    pub right: Option<Neighbour>,
    /// The floor. Default: level.
    #[serde(default, deserialize_with = "object")]
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
}
