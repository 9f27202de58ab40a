//! What there is to cut from and what it is cut with.

use serde::Deserialize;

use super::scalar::{Amount, Written};

/// Sheets or scraps of one material and size. Its length lies from left to right, its width from front to back.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// Short name to chalk on it, 1 to 60 characters, no two alike. Default: the material with a number.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"scrap-1")
    )]
    pub id: Option<String>,
    /// Id of one of `shop.materials`. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"ply-18"))]
    pub material: Option<String>,
    /// The long way as named or, of a scrap, as measured, 20 to 10 000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"96", example = &"2440 mm"))]
    pub length: Option<Written>,
    /// Across, 20 to 10 000 mm. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"48", example = &"1220 mm"))]
    pub width: Option<Written>,
    /// By how much it is larger than named, each way, 0 to 100 mm. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"1", example = &"20 mm"))]
    pub oversize: Option<Written>,
    /// How many there are, 0 to 1000; nothing of them is bought. Default: 1 of a scrap; of sheets as
    /// many as it takes, to be bought.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 1000), example = 2))]
    pub count: Option<Amount>,
    /// What one costs, in any money, from 0 to 1 000 000. Default: nothing of a scrap; sheets of a material
    /// without any price count by their area.
    #[cfg_attr(feature = "schema", schemars(example = 74.5))]
    pub price: Option<Amount>,
    /// It is left over from something else. Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub scrap: Option<bool>,
    /// Good enough only for the parts listed in `cut.hidden`. Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub hidden_only: Option<bool>,
    /// Edges that are rough or out of square and are trimmed first, up to 4. Default: all four of a
    /// sheet, none of a scrap.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<Edge>>", length(max = 4), example = serde_json::json!(["left", "front"])))]
    pub rough: Option<Vec<Option<Edge>>>,
    /// Which way its grain runs. Default: along the length where the material shows a grain.
    #[cfg_attr(feature = "schema", schemars(example = &"length"))]
    pub grain: Option<super::Grain>,
}

/// An edge of a sheet that lies with its length from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Edge {
    /// The left end.
    Left,
    /// The right end.
    Right,
    /// The near long edge.
    Front,
    /// The far long edge.
    Back,
}

/// The saw and what one may do with it.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Saw {
    /// Width of the slot the blade leaves, more than 0, up to 10 mm. Default: 1/8 in or 3.2 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/8", example = &"3.2 mm"))]
    pub kerf: Option<Written>,
    /// What is taken off a rough edge, its kerf included, 0 to 100 mm. Default: 1/4 in or 6 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/4", example = &"6 mm"))]
    pub trim: Option<Written>,
    /// Widest rip between fence and blade, 100 to 5000 mm. Default: 30 in or 760 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"30", example = &"760 mm"))]
    pub fence: Option<Written>,
    /// Longest panel that is pushed over the saw; a longer one is broken down first. 300 to 10 000 mm.
    /// Default: 72 in or 1830 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"72", example = &"1830 mm"))]
    pub panel_length: Option<Written>,
    /// Widest panel that is pushed over the saw, 200 to 10 000 mm. Default: 36 in or 920 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"36", example = &"920 mm"))]
    pub panel_width: Option<Written>,
    /// Heaviest sheet that is lifted onto the saw, in kilograms, 1 to 200; a heavier one is broken
    /// down first. Default: 25.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 200), example = 25))]
    pub lift_kg: Option<Amount>,
    /// No strip narrower than this is cut off or left, 0 to 300 mm; 0 for any. Default: 0.
    #[cfg_attr(feature = "schema", schemars(example = &"3/4", example = &"20 mm"))]
    pub least_cut: Option<Written>,
    /// How often the cuts of a sheet change direction, the last trim to size included: 2 (rip, crosscut), 3
    /// (rip, crosscut, trim) or 4. Default: 3.
    #[cfg_attr(feature = "schema", schemars(range(min = 2, max = 4), example = 3))]
    pub stages: Option<Amount>,
}

/// Something on the shopping list: what of it is there, and what it costs.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Supply {
    /// Its id on the shopping list, such as `screw-8x2-in`, 1 to 100 characters. Required.
    #[cfg_attr(feature = "schema", schemars(required, length(min = 1, max = 100), example = &"glue"))]
    pub id: Option<String>,
    /// How much of it is there, in the unit of the list, 0 to 1 000 000. Default: 0.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 1_000_000), example = 40))]
    pub on_hand: Option<Amount>,
    /// What one unit of the list costs, in any money, from 0 to 1 000 000. Default: not known.
    #[cfg_attr(feature = "schema", schemars(example = 0.08))]
    pub price: Option<Amount>,
}
