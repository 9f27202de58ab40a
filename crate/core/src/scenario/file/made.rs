//! The section `made` of the file.

use serde::Deserialize;

use super::scalar::Written;

/// What is cut already, and what was measured on it. What is not listed is still to be cut.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Made {
    /// Parts that are cut, up to 200. Default: none.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 200), example = serde_json::json!([
        { "id": "left-side", "length": "571.2 mm" }
    ])))]
    pub parts: Option<Vec<MadePart>>,
    /// Sheets measured since, up to 50. Default: none, then each is as thick as `shop.materials` says.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 50), example = serde_json::json!([
        { "material": "ply-18", "thickness": "18.3 mm" }
    ])))]
    pub sheets: Option<Vec<MadeSheet>>,
}

/// A part that is cut.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MadePart {
    /// Its id, as in the parts list. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"left-side")
    )]
    pub id: Option<String>,
    /// Its length as measured after cutting, 1 to 6000 mm. Default: as planned.
    #[cfg_attr(feature = "schema", schemars(example = &"571.2 mm", example = &"22 1/2"))]
    pub length: Option<Written>,
    /// Its width as measured after cutting, 1 to 6000 mm. Default: as planned.
    #[cfg_attr(feature = "schema", schemars(example = &"560 mm", example = &"22"))]
    pub width: Option<Written>,
    /// Its thickness as measured, 2 to 60 mm. Default: that of its sheet.
    #[cfg_attr(feature = "schema", schemars(example = &"18.3 mm"))]
    pub thickness: Option<Written>,
    /// It came out so badly that it is to be cut again: then it is as if it were not cut yet.
    /// Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub spoiled: Option<bool>,
}

/// A sheet that was measured.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MadeSheet {
    /// Which of `shop.materials`. Required.
    #[cfg_attr(feature = "schema", schemars(required, length(min = 1, max = 60), example = &"ply-18"))]
    pub material: Option<String>,
    /// Its thickness as measured, 2 to 60 mm; it holds for every part of it that was not measured
    /// by itself. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"18.3 mm"))]
    pub thickness: Option<Written>,
}
