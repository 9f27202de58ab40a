//! The section `cut` of the file.

use serde::Deserialize;

/// What the maker has decided about cutting.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Cutting {
    /// Ids of parts that nobody sees, up to 200, besides stretchers, nailers and backings: they may come
    /// from stock that is `hidden_only`. Default: none.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<String>>", length(max = 200), example = serde_json::json!(["nailer"])))]
    pub hidden: Option<Vec<Option<String>>>,
    /// Ids of parts that may lie across the grain of the sheet, up to 200. Default: none; every part follows
    /// the grain where there is one.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<String>>", length(max = 200), example = serde_json::json!(["back"])))]
    pub any_grain: Option<Vec<Option<String>>>,
    /// Parts that come from one board side by side in this order, so that the grain runs on, up to 20
    /// sequences of 2 to 12 ids. Default: none.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<Vec<String>>>", length(max = 20), example = serde_json::json!([["front-left", "front-right"]])))]
    pub sequences: Option<Vec<Option<Vec<Option<String>>>>>,
}
