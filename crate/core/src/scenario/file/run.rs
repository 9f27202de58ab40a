//! The section `run` of the file.

use serde::Deserialize;

use super::scalar::{Amount, Written};
use super::space::Neighbour;

/// A wall filled with bought units of standard widths and one that is made for it.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Clear length of the wall, at its least, 300 to 12000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"126 1/2", example = &"3210 mm"))]
    pub wall: Option<Written>,
    /// Step from one width that units are sold in to the next, 10 to 600 mm. Default: 3 in or 50 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3", example = &"100 mm"))]
    pub step: Option<Written>,
    /// The narrowest unit sold, 100 to 1500 mm. Default: 9 in or 300 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"9", example = &"300 mm"))]
    pub least: Option<Written>,
    /// The widest unit sold, 100 to 1500 mm. Default: 36 in or 900 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"36", example = &"900 mm"))]
    pub most: Option<Written>,
    /// How many bought units, beside those that must be there, 0 to 40. Default: as many as fill it best.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 40), example = 3))]
    pub count: Option<Amount>,
    /// Units that must be there, up to 12 widths. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([{ "width": "36", "count": 1 }])))]
    pub wanted: Option<Vec<Wanted>>,
    /// The place kept for the piece of this file. Default: its usual range.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "least": "18", "most": "24" })))]
    pub custom: Option<Custom>,
    /// The narrowest filler that can be cut and fixed, 0 to 100 mm. Default: 3/4 in or 20 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3/4", example = &"20 mm"))]
    pub filler_least: Option<Written>,
    /// The widest filler at one end, 0 to 300 mm. Default: 3 in or 75 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3", example = &"75 mm"))]
    pub filler_most: Option<Written>,
    /// What the run meets at its left end. Default: `wall`.
    #[cfg_attr(feature = "schema", schemars(example = &"wall"))]
    pub left: Option<Neighbour>,
    /// What the run meets at its right end. Default: `wall`.
    #[cfg_attr(feature = "schema", schemars(example = &"open"))]
    pub right: Option<Neighbour>,
}

/// Units that must be in the run.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// Their width, 100 to 1500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"36", example = &"800 mm"))]
    pub width: Option<Written>,
    /// How many of them, 1 to 12. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 12), example = 2))]
    pub count: Option<Amount>,
}

/// The place of the piece that is made for the run.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Custom {
    /// Its least width, 100 to 3000 mm. Default: 12 in or 300 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"18", example = &"450 mm"))]
    pub least: Option<Written>,
    /// Its greatest width, 100 to 3000 mm. Default: 36 in or 900 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"24", example = &"600 mm"))]
    pub most: Option<Written>,
    /// The width it should come near, 100 to 3000 mm. Default: any.
    #[cfg_attr(feature = "schema", schemars(example = &"20", example = &"500 mm"))]
    pub wish: Option<Written>,
}
