//! The section `contents` of the file.

use serde::Deserialize;

use super::scalar::{Amount, Written};

/// Things of one size that go in.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Content {
    /// What one is called, 1 to 60 characters. Default: `bin`.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"bin")
    )]
    pub name: Option<String>,
    /// Outside, left to right as it stands in the cabinet, 10 to 2000 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"14 1/2", example = &"365 mm")
    )]
    pub width: Option<Written>,
    /// Outside, front to back as it stands in the cabinet, 10 to 2000 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"9 1/2", example = &"240 mm")
    )]
    pub depth: Option<Written>,
    /// Outside, with lid or handle, 10 to 2000 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"18", example = &"460 mm")
    )]
    pub height: Option<Written>,
    /// How many, 1 to 24. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 24), example = 2))]
    pub count: Option<Amount>,
    /// Air around each and between them, 0 to 200 mm. Default: 1/4 in or 6 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/4", example = &"6 mm"))]
    pub clearance: Option<Written>,
    /// Mass of one, full, in kilograms, 0 to 500. Default: 10 (common practice, no source).
    #[cfg_attr(
        feature = "schema",
        schemars(range(min = 0, max = 500), example = 9, example = 7.5)
    )]
    pub mass_kg: Option<Amount>,
    /// How they stand. Default: `side-by-side`.
    #[cfg_attr(feature = "schema", schemars(example = &"in-line"))]
    pub arrange: Option<Arrange>,
    /// In a grid: how many stand across the width, 1 to 24. Default: as square as it goes.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 24), example = 3))]
    pub across: Option<Amount>,
    /// How far it is raised before it comes out, 0 to 2000 mm. Default: its height.
    #[cfg_attr(feature = "schema", schemars(example = &"8", example = &"200 mm"))]
    pub lift: Option<Written>,
}

/// How several equal things stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Arrange {
    /// Across the width.
    SideBySide,
    /// One behind the other, front to back.
    InLine,
    /// In rows of `across`, the rows one behind the other.
    Grid,
}
