//! The section `piece` of the file: a piece of any kind, listed part by part.

use serde::Deserialize;

use super::order::Face;
use super::scalar::{Amount, Place};
use super::shop::Head;
use crate::scenario::Role;

/// A piece listed part by part, in the place each part has in the finished, standing piece. Places
/// are measured from one corner of it: to the right, to the back, up.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
// Stated here because fields with a reader of their own do not pass it on.
#[cfg_attr(feature = "schema", schemars(extend("required" = ["parts", "joints"])))]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// The face it stands on when finished. Default: `bottom`.
    #[cfg_attr(feature = "schema", schemars(example = &"bottom"))]
    pub stands_on: Option<Face>,
    /// What is built on its own and joins the rest whole, such as a drawer, up to 40. The rest is `main`
    /// and may be listed to give it a name. Default: all parts are one body.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 40), example = serde_json::json!([
        { "id": "drawer", "name": "drawer" }
    ])))]
    pub bodies: Option<Vec<Body>>,
    /// Every part once, 2 to 200, in the order in which a maker would list them. Required.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(required, length(min = 2, max = 200), example = serde_json::json!([
        { "id": "end", "material": "ply-18", "at": [0, 0, 0], "size": [18, 200, 150] },
        { "id": "floor", "material": "ply-18", "at": [18, 0, 0], "size": [300, 200, 18] }
    ])))]
    pub parts: Option<Vec<Part>>,
    /// Which parts are joined, and how, 1 to 600. Two parts that touch and are not named only touch.
    /// Required.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(required, length(min = 1, max = 600), example = serde_json::json!([
        { "parts": ["end", "floor"], "kind": "butt", "glue": true, "screws": {} }
    ])))]
    pub joints: Option<Vec<Joint>>,
}

/// Parts that are built on their own.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Body {
    /// Short name used in the list of parts: letters, digits, hyphens, up to 60. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"drawer")
    )]
    pub id: Option<String>,
    /// As a maker says it, 1 to 60 characters. Default: the id with blanks for hyphens.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"left drawer")
    )]
    pub name: Option<String>,
}

/// One part. Give `material` when it is cut, `bought` when it is not.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("oneOf" = [
    { "required": ["material"] },
    { "required": ["bought", "mass_kg"] }
])))]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Short name, no two alike: letters, digits, hyphens, up to 60. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 60), example = &"left-side")
    )]
    pub id: Option<String>,
    /// As a maker says it, 1 to 60 characters. Default: the id with blanks for hyphens.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"left side")
    )]
    pub name: Option<String>,
    /// Id of the material it is cut from. Default: none, when `bought` is given.
    #[cfg_attr(feature = "schema", schemars(example = &"ply-18"))]
    pub material: Option<String>,
    /// What it is bought as, 1 to 60 characters; then `mass_kg` is needed. Default: it is cut.
    #[cfg_attr(
        feature = "schema",
        schemars(length(min = 1, max = 60), example = &"runner, 400 mm")
    )]
    pub bought: Option<String>,
    /// What it is for, where the checks are to know. Default: `other`.
    #[cfg_attr(feature = "schema", schemars(example = &"shelf"))]
    pub role: Option<Role>,
    /// Id of the body it belongs to. Default: `main`.
    #[cfg_attr(feature = "schema", schemars(example = &"drawer"))]
    pub body: Option<String>,
    /// Its left, front, lower corner: to the right, to the back and up, 0 to 10 000 mm each. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!([0, 0, "100 mm"])))]
    pub at: Option<Place>,
    /// Its size left to right, front to back and up, 1 to 6000 mm each, tongues and what lies in a groove
    /// included. One of the three is the thickness of its material. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!([18, 400, 720])))]
    pub size: Option<Place>,
    /// What is cut out of it, up to 12: grooves, rabbets, dadoes, notches. Default: nothing.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12), example = serde_json::json!([
        { "at": [12, 0, 300], "size": [6, 380, 18] }
    ])))]
    pub cuts: Option<Vec<Cut>>,
    /// Which way its grain runs. Default: along its length where the material shows a grain.
    #[cfg_attr(feature = "schema", schemars(example = &"width"))]
    pub grain: Option<Grain>,
    /// Its mass in kilograms, 0 to 500. Default: its volume times the density of its material.
    #[cfg_attr(
        feature = "schema",
        schemars(range(min = 0, max = 500), example = 0.35, example = 4)
    )]
    pub mass_kg: Option<Amount>,
    /// Ids of parts that must be in before it because its gaps are set against them, up to 20.
    /// Default: none.
    #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<String>>", length(max = 20), example = serde_json::json!(["left-door"])))]
    pub set_against: Option<Vec<Option<String>>>,
}

/// A box that is cut out of a part.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Its left, front, lower corner, measured from that corner of the part before it is cut. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!([12, 0, 300])))]
    pub at: Option<Place>,
    /// Its size left to right, front to back and up; it does not reach beyond the part. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = serde_json::json!([6, 380, 18])))]
    pub size: Option<Place>,
}

/// Which way the grain of a part runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// Along the longer of its two ways.
    Length,
    /// Along the shorter.
    Width,
    /// It does not matter.
    None,
}

/// A joint of two parts that share a face.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Joint {
    /// Ids of its two parts; screws go through the first into the second. Required.
    #[cfg_attr(feature = "schema", schemars(required, with = "Option<Vec<String>>", length(min = 2, max = 2), example = serde_json::json!(["left-side", "bottom"])))]
    pub parts: Option<Vec<Option<String>>>,
    /// How they meet. Default: `butt`.
    #[cfg_attr(feature = "schema", schemars(example = &"groove"))]
    pub kind: Option<JointKind>,
    /// Whether glue goes on. Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub glue: Option<bool>,
    /// Its screws; with nothing inside the braces they are chosen and placed. Default: no screws.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({}), example = serde_json::json!({ "drive": "down" })))]
    pub screws: Option<Screws>,
}

/// How two parts meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum JointKind {
    /// End or edge against a face.
    Butt,
    /// One let into a channel or a stopped recess of the other.
    Dado,
    /// An edge of one captured in a channel of the other.
    Groove,
    /// One laid on the other from outside.
    Overlay,
    /// They slide on each other and stay loose.
    Slide,
}

/// The screws of a joint: from those on hand, the one that suits.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Screws {
    /// The way they are driven. Default: through the thickness of the first part where the two meet that
    /// way, else across the largest face at which they meet.
    #[cfg_attr(feature = "schema", schemars(example = &"down"))]
    pub drive: Option<Way>,
    /// The head. Default: `flat`, but `pan` through bought parts and what is thinner than 9 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"flat"))]
    pub head: Option<Head>,
    /// Where, 1 to 40 places in the piece; along the drive any place in the joint will do. Default: along
    /// the middle of the joint, at the usual distances.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 40), example = serde_json::json!([[9, 50, 150], [9, 350, 150]])))]
    pub at: Option<Vec<Place>>,
}

/// A way to move or drive, as one stands before the finished piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Towards oneself.
    Front,
    /// Away from oneself.
    Back,
    /// Down.
    Down,
    /// Up.
    Up,
}
