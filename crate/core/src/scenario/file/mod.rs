//! The scenario file as it is written: JSON, every field optional in the types, so that what is
//! missing is told by name together with everything else that is wrong.
//!
//! The comments on the fields become the JSON Schema's descriptions.

mod build;
mod contents;
mod cutting;
mod install;
mod made;
mod order;
mod piece;
mod run;
mod scalar;
mod shop;
mod space;
mod stock;
mod supplies;

use serde::Deserialize;

pub use build::{
    Back, BackSet, Banding, Build, Carcass, Dividers, Doors, Drawers, Fixing, Foot, Front,
    FrontStyle, Fronts, Hung, Joint, Mount, PullOut, Runner, RunnerKind, Seam, Shelves, Top,
};
pub use contents::{Arrange, Content};
pub use cutting::Cutting;
pub use install::{Accepted, Corners, Install};
pub use made::{Made, MadePart, MadeSheet};
pub use order::{Done, Face, Order};
pub use piece::{
    Body, Cut, Grain, Joint as ListedJoint, JointKind as ListedKind, Part, Piece, Screws, Way,
};
pub use run::{Custom, Run, Wanted};
pub use scalar::{Amount, Place, Written};
pub use shop::{Bench, Drill, Head, Material, MaterialKind, Screw, Shop, SquareCheck};
pub use space::{
    Above, DepthAt, Diagonals, End, Floor, HeightAt, Lean, Neighbour, Obstacle, ObstacleKind,
    Passage, Side, Slope, Space, Walls, WidthAt,
};
pub use stock::{Edge, Saw, Stock, Supply};
pub use supplies::{Glue, Offcut, Tool};

use crate::units::Notation;

/// The version of the file that this program reads.
pub const FORMAT: &str = "jointwise-scenario/1";

/// A cabinet: the space it must fill, what goes in, how it is built. Or a piece of any kind, listed part
/// by part. Besides, what the shop holds and what is decided about the order.
///
/// A length is a text with its unit (`"23 5/8 in"`, `"600 mm"`, `"1' 11 5/8\""`) or, in the
/// file's `unit`, a bare text (`"23 5/8"`) or number (`600`).
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(
    title = "Jointwise scenario",
    // Stated here because fields with a reader of their own do not pass it on.
    extend("required" = ["format", "unit"]),
    extend("oneOf" = [{ "required": ["space", "build"] }, { "required": ["piece"] }])
))]
#[serde(deny_unknown_fields)]
pub struct File {
    /// Where an editor finds this schema. Not used by the program.
    #[serde(rename = "$schema")]
    #[cfg_attr(feature = "schema", schemars(example = &"schema/scenario-1.json"))]
    pub schema: Option<String>,
    /// The version of the file. Required.
    #[cfg_attr(feature = "schema", schemars(required, extend("const" = FORMAT), example = FORMAT))]
    pub format: Option<String>,
    /// What is built, 1 to 200 characters. Default: `Cabinet`, or `Piece` when it is listed.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 200), example = &"Pull-out for two bins")
    )]
    pub title: Option<String>,
    /// The unit of lengths written without one, and which set of defaults is used: inch or metric.
    /// Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"in", example = &"mm"))]
    pub unit: Option<FileUnit>,
    /// How lengths are printed. Default: `inch-16` for inches, `mm-half` for millimetres and centimetres.
    #[cfg_attr(feature = "schema", schemars(example = &"inch-16"))]
    pub print: Option<Notation>,
    /// The gap in the room. Required unless `piece` is given.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "widths": [{ "at": "2", "width": "20 1/8" }], "height": "34 3/4", "depth": "24"
    })))]
    pub space: Option<Space>,
    /// The wall that bought units and the one of this file fill together. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "wall": "126 1/2", "step": "3", "custom": { "least": "18", "most": "24" }
    })))]
    pub run: Option<Run>,
    /// What goes in, up to 12 kinds; a pull-out needs at least one. Default: nothing goes in.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([
        { "name": "bin", "width": "14 1/2", "depth": "9 1/2", "height": "18", "count": 2 }
    ])))]
    pub contents: Option<Vec<Content>>,
    /// How it is built: whether the carcass holds a pull-out or shelves. Required unless `piece` is given.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "pull_out": { "runner": { "kind": "undermount" } }, "front": { "style": "one" }
    })))]
    pub build: Option<Build>,
    /// A piece of any kind, listed part by part. Instead of `space`, `contents` and `build`.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "parts": [
            { "id": "end", "material": "ply-18", "at": [0, 0, 0], "size": [18, 200, 150] },
            { "id": "floor", "material": "ply-18", "at": [18, 0, 0], "size": [300, 200, 18] }
        ],
        "joints": [{ "parts": ["end", "floor"], "glue": true, "screws": {} }]
    })))]
    pub piece: Option<Piece>,
    /// What is in the shop. Default: every default below.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "people": 1 })))]
    pub shop: Option<Shop>,
    /// What is decided already about the order of work. Default: everything is open.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "alone": true })))]
    pub order: Option<Order>,
    /// How it is fixed in the room, for the checks. Default: nothing is decided.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "to_wall": true })))]
    pub install: Option<Install>,
    /// Remarks that you have weighed and accept, up to 100. They stay listed, with your reason. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 100), example = serde_json::json!([
        { "code": "tip-open", "where": "body main", "reason": "It is screwed to its neighbours." }
    ])))]
    pub accepted: Option<Vec<Accepted>>,
    /// What is cut already, and what was measured on it. Default: nothing is cut.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "parts": [{ "id": "left-side", "length": "571.2 mm" }],
        "sheets": [{ "material": "ply-18", "thickness": "18.3 mm" }]
    })))]
    pub made: Option<Made>,
    /// What is decided about cutting. Default: everything is open.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "hidden": ["nailer"] })))]
    pub cut: Option<Cutting>,
}

/// Unit of lengths written without one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum FileUnit {
    /// Inches.
    #[serde(rename = "in")]
    Inch,
    /// Millimetres.
    #[serde(rename = "mm")]
    Millimetre,
    /// Centimetres.
    #[serde(rename = "cm")]
    Centimetre,
}

/// The JSON Schema of the file, as text that ends in a line break.
#[cfg(feature = "schema")]
pub fn schema() -> String {
    let schema = schemars::schema_for!(File);
    format!("{:#}\n", schema.as_value())
}
