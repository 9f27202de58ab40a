//! The section `order` of the file.

use serde::Deserialize;

/// What the maker has decided already about the order; the rest is planned from there.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Order {
    /// Id of the part that the finished piece starts with, as in the parts list. Default: the
    /// planner chooses.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 60), example = &"left-side"))]
    pub first: Option<String>,
    /// Nobody helps, not even for one step: no order that takes a second person is accepted. Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub alone: Option<bool>,
    /// The only faces that may lie on the bench, 1 to 6; the face it stands on is always one.
    /// Default: all six.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<Face>>", length(min = 1, max = 6), example = serde_json::json!(["back", "left"])))]
    pub lay_on: Option<Vec<Option<Face>>>,
    /// What is put together already and lies on the bench. Default: nothing.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({ "parts": ["left-side", "bottom"], "face": "left" })))]
    pub done: Option<Done>,
}

/// A half-built piece.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// Ids of the parts in it, 1 to 200, each once; every joint between two of them counts as closed.
    /// Required.
    #[cfg_attr(feature = "schema", schemars(required, with = "Option<Vec<String>>", length(min = 1, max = 200), example = serde_json::json!(["left-side", "bottom"])))]
    pub parts: Option<Vec<Option<String>>>,
    /// The face it lies on. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"left"))]
    pub face: Option<Face>,
}

/// A face of the finished piece, as one stands before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Face {
    /// The left side.
    Left,
    /// The right side.
    Right,
    /// The front.
    Front,
    /// The back.
    Back,
    /// The underside.
    Bottom,
    /// The upper side.
    Top,
}
