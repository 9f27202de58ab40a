//! What else lies in the shop: other drivers, glue, offcuts.

use serde::Deserialize;

use super::scalar::{Amount, Written};

/// A tool that drives screws where the drill has no room: an offset or short driver.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Tool {
    /// What it is called, 1 to 60 characters. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"offset driver")
    )]
    pub name: Option<String>,
    /// From the tip of the bit to its back, along the screw, 15 to 600 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"2 1/2", example = &"65 mm"))]
    pub length: Option<Written>,
    /// Its widest part, 5 to 200 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"1 1/2", example = &"40 mm"))]
    pub width: Option<Written>,
    /// How far the bit stands out of its body, 5 to 400 mm and less than `length`. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"1", example = &"25 mm"))]
    pub bit_length: Option<Written>,
    /// Clear width round the bit, 5 to 60 mm and no more than `width`. Default: 1/2 in or 12 mm, or
    /// the width where that is less.
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"12 mm"))]
    pub bit_width: Option<Written>,
}

/// How long the glue waits, as its maker states it for the room's temperature.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Glue {
    /// From spreading until the faces are brought together, 1 to 120 minutes. Default: 5 (from memory,
    /// to be read off the bottle).
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 120), example = 5))]
    pub open_minutes: Option<Amount>,
    /// From bringing together until pressure is on, 0 to 120 minutes. Default: 10 (from memory, to be
    /// read off the bottle).
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 120), example = 10))]
    pub closed_minutes: Option<Amount>,
    /// For how long the pressure stays on, 5 to 2880 minutes. Default: 30 (from memory, to be read off
    /// the bottle).
    #[cfg_attr(feature = "schema", schemars(range(min = 5, max = 2880), example = 30))]
    pub clamp_minutes: Option<Amount>,
    /// The coldest at which it holds, in whole degrees Celsius, 0 to 30. Default: 10 (a seller's page, read; the
    /// bottle comes first).
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 30), example = 10))]
    pub least_c: Option<Amount>,
}

/// A piece left over whose size may be the distance to set. Give `thickness` or `material`.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
    { "required": ["thickness"] },
    { "required": ["material"] }
])))]
#[serde(deny_unknown_fields)]
pub struct Offcut {
    /// Short name used in the plan, 1 to 60 characters, no two alike and none a part's. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"offcut-1")
    )]
    pub id: Option<String>,
    /// As a maker says it, 1 to 60 characters. Default: the id.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"offcut of the bottom")
    )]
    pub name: Option<String>,
    /// Its long way, as measured, 5 to 3000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"12", example = &"300 mm"))]
    pub length: Option<Written>,
    /// Across, as measured, 5 to 1500 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"4", example = &"100 mm"))]
    pub width: Option<Written>,
    /// Its thickness as measured, 1 to 100 mm. Default: that of `material`.
    #[cfg_attr(feature = "schema", schemars(example = &"3/4", example = &"18 mm"))]
    pub thickness: Option<Written>,
    /// Id of the material it was cut from. Default: none, when `thickness` is given.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-3/4"))]
    pub material: Option<String>,
}
