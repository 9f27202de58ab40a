//! The section `shop` of the file.

use serde::Deserialize;

use super::scalar::{Amount, Written};
use super::stock::{Saw, Stock, Supply};
use super::supplies::{Glue, Offcut, Tool};

/// What is in the shop.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Shop {
    /// Sheet materials, 1 to 50. Default, inches: `mdf-3/4` 3/4, `ply-3/4` 23/32, `ply-1/2` 15/32,
    /// `ply-1/4` 7/32. Default, metric: `mdf-18` 18, `ply-18` 18, `ply-12` 12, `ply-6` 6 mm.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 50), example = serde_json::json!([
        { "id": "ply-3/4", "kind": "plywood", "thickness": "23/32" }
    ])))]
    pub materials: Option<Vec<Material>>,
    /// Screws on hand, 1 to 60 sizes. Default, inches: #8 × 2 and 1 1/4 flat, #6 × 1 1/4
    /// and 1 flat, #6 × 1, 3/4 and 1/2 pan, #4 × 3/8 pan. Default, metric: #8 × 50 and 30 flat,
    /// #6 × 30 and 25 flat, #6 × 25, 20 and 12 pan, #4 × 10 pan.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 60), example = serde_json::json!([
        { "gauge": 8, "length": "2", "head": "flat" }
    ])))]
    pub screws: Option<Vec<Screw>>,
    /// The drill driver with its bit. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "length": "10", "width": "3" })))]
    pub drill: Option<Drill>,
    /// Longest opening of each clamp on hand, up to 40 clamps of 50 to 3000 mm. Default: none.
    #[cfg_attr(feature = "schema", schemars(length(max = 40), example = serde_json::json!(["24", "36"])))]
    pub clamps: Option<Vec<Written>>,
    /// The bench. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "length": "72", "width": "30", "height": "34" })))]
    pub bench: Option<Bench>,
    /// Highest point above the floor at which a screw is driven, 1000 to 2500 mm. Default: 62 in or 1575 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"62", example = &"1575 mm"))]
    pub reach_height: Option<Written>,
    /// How many people work, 1 to 4. Default: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 4), example = 1))]
    pub people: Option<Amount>,
    /// How warm room, wood and glue are when it is glued, in whole degrees Celsius, 0 to 50; 50 °F are 10.
    /// Default: not known, and a note asks for it.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 50), example = 18))]
    pub room_c: Option<Amount>,
    /// What square is checked with: with `square`, a check of diagonals says what a square shows as well. Default: `tape`.
    #[cfg_attr(feature = "schema", schemars(example = &"tape"))]
    pub square_check: Option<SquareCheck>,
    /// Other tools that drive screws, up to 10, tried in this order where the drill has no room.
    /// Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 10), example = serde_json::json!([
        { "name": "offset driver", "length": "2 1/2", "width": "1 1/2", "bit_length": "1" }
    ])))]
    pub tools: Option<Vec<Tool>>,
    /// The glue's times. Default: every default below, which are from memory: read them off the bottle.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "open_minutes": 5, "clamp_minutes": 30 })))]
    pub glue: Option<Glue>,
    /// Offcuts at hand that may serve as spacers, up to 40. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 40), example = serde_json::json!([
        { "id": "offcut-1", "length": "12", "width": "4", "material": "ply-3/4" }
    ])))]
    pub offcuts: Option<Vec<Offcut>>,
    /// Sheets and scraps to cut from, up to 60. Default: for each material without any, as many sheets
    /// of 96 × 48 in or 2440 × 1220 mm as it takes.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 60), example = serde_json::json!([
        { "material": "ply-18", "length": "2500 mm", "width": "1250 mm", "price": 74.5 },
        { "id": "scrap-1", "material": "ply-18", "length": "900 mm", "width": "400 mm", "scrap": true }
    ])))]
    pub stock: Option<Vec<Stock>>,
    /// The saw. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "kerf": "3.2 mm", "fence": "760 mm" })))]
    pub saw: Option<Saw>,
    /// What is there of the things on the shopping list, and what they cost, up to 100. Default: nothing
    /// is there and no price is known.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 100), example = serde_json::json!([
        { "id": "glue", "on_hand": 250 }
    ])))]
    pub supplies: Option<Vec<Supply>>,
}

/// A sheet material.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Short name used elsewhere in the file, 1 to 60 characters, no two alike. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"ply-3/4")
    )]
    pub id: Option<String>,
    /// As it is sold, 1 to 60 characters. Default: the id.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"3/4 in plywood")
    )]
    pub name: Option<String>,
    /// What it is made of. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"plywood"))]
    pub kind: Option<MaterialKind>,
    /// Thickness as measured, not as named, 2 to 60 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"23/32", example = &"17.6 mm")
    )]
    pub thickness: Option<Written>,
    /// Density in kilograms per cubic metre, 100 to 1500. Default by kind: MDF 750, plywood 600,
    /// particleboard 680, softwood 500, hardwood 700, hardboard 900.
    #[cfg_attr(feature = "schema", schemars(range(min = 100, max = 1500), example = 600))]
    pub density: Option<Amount>,
    /// Whether the face shows a grain. Default by kind: plywood, softwood and hardwood do.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub grain: Option<bool>,
}

/// What a sheet is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum MaterialKind {
    /// Medium-density fibreboard.
    Mdf,
    /// Veneer plywood.
    Plywood,
    /// Particleboard.
    Particleboard,
    /// Solid softwood or softwood panel.
    Softwood,
    /// Solid hardwood or hardwood panel.
    Hardwood,
    /// Hardboard and thin fibreboard.
    Hardboard,
}

/// A screw on hand.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Screw {
    /// Gauge number, 4 to 14. Required. A 3.5 mm screw is near gauge 6, 4 mm near 8, 5 mm near 10.
    #[cfg_attr(feature = "schema", schemars(required, range(min = 4, max = 14), example = 8))]
    pub gauge: Option<Amount>,
    /// Length from what lies flush to the tip, 8 to 100 mm. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, example = &"1 1/4", example = &"50 mm")
    )]
    pub length: Option<Written>,
    /// The head. Default: `flat`.
    #[cfg_attr(feature = "schema", schemars(example = &"flat"))]
    pub head: Option<Head>,
}

/// A screw's head.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Head {
    /// Countersunk, flush with the face.
    Flat,
    /// Lies on the face: for hardware and thin backs.
    Pan,
}

/// The drill driver with its bit: what must fit where a screw is driven.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Drill {
    /// From the tip of the bit to the back of the drill, 50 to 600 mm. Default: 10 in or 250 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"10", example = &"250 mm"))]
    pub length: Option<Written>,
    /// Its widest part, 20 to 200 mm. Default: 3 in or 75 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3", example = &"75 mm"))]
    pub width: Option<Written>,
    /// How far the bit stands out of the drill's body, 20 to 400 mm and less than `length`.
    /// Default: 3 1/2 in or 90 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"3 1/2", example = &"90 mm"))]
    pub bit_length: Option<Written>,
    /// Clear width round the bit, 5 to 60 mm and no more than `width`. Default: 1/2 in or 12 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"12 mm"))]
    pub bit_width: Option<Written>,
}

/// The bench.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Bench {
    /// The top, the long way, 300 to 6000 mm. Default: 72 in or 1830 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"72", example = &"1830 mm"))]
    pub length: Option<Written>,
    /// The top, the short way, 200 to 3000 mm. Default: 30 in or 760 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"30", example = &"760 mm"))]
    pub width: Option<Written>,
    /// The top above the floor, 0 (the floor itself) to 1300 mm. Default: 34 in or 865 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"34", example = &"865 mm"))]
    pub height: Option<Written>,
    /// Height of the two straight strips the work lies on, so that drill and clamps get under it,
    /// 0 to 300 mm. Default: 1 5/8 in or 40 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1 5/8", example = &"40 mm"))]
    pub bearers: Option<Written>,
}

/// What square is checked with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum SquareCheck {
    /// A tape across the diagonals.
    Tape,
    /// A try square in the corners.
    Square,
}
