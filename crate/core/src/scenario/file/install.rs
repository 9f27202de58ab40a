//! The sections `install` and `accepted` of the file.

use serde::Deserialize;

use super::scalar::Written;

/// How the piece is fixed in the room, as far as it is decided. Screws of which no length is given are
/// told what length they need.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Install {
    /// Whether it will be fixed to the wall before it is loaded. Default: not decided, so the checks take
    /// it to stand free.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub to_wall: Option<bool>,
    /// Thickness of what covers the studs, 0 to 60 mm. Default: 1/2 in or 12.5 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"1/2", example = &"12.5 mm"))]
    pub wall_board: Option<Written>,
    /// Middles of the studs from the left end of the opening, up to 20, 0 to 3000 mm each. Default: not
    /// known.
    #[cfg_attr(feature = "schema", schemars(length(max = 20), example = serde_json::json!(["4", "20"])))]
    pub studs: Option<Vec<Written>>,
    /// Whether a rail is screwed across two studs first, and the nailer to it. Default: false.
    #[cfg_attr(feature = "schema", schemars(example = true))]
    pub rail: Option<bool>,
    /// Length of the screws through the nailer into the studs, 20 to 200 mm. Default: not decided.
    #[cfg_attr(feature = "schema", schemars(example = &"2 1/2", example = &"65 mm"))]
    pub wall_screw: Option<Written>,
    /// Thickness of the counter that comes on top, 5 to 100 mm. Default: none.
    #[cfg_attr(feature = "schema", schemars(example = &"1 1/2", example = &"38 mm"))]
    pub counter: Option<Written>,
    /// Length of the screws through the stretcher up into the counter, 8 to 120 mm. Default: not decided.
    #[cfg_attr(feature = "schema", schemars(example = &"1 1/2", example = &"40 mm"))]
    pub counter_screw: Option<Written>,
    /// Length of the screws that join this cabinet to the next, 8 to 120 mm. Default: not decided.
    #[cfg_attr(feature = "schema", schemars(example = &"1 1/8", example = &"30 mm"))]
    pub joining_screw: Option<Written>,
    /// Thickness of the next cabinet's side, 5 to 60 mm. Default: 3/4 in or 18 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"5/8", example = &"16 mm"))]
    pub neighbour_side: Option<Written>,
    /// From stud to stud, where `studs` are not known, 200 to 1000 mm. Default: 16 in or 400 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"24", example = &"600 mm"))]
    pub stud_spacing: Option<Written>,
    /// Underside of the piece above the floor, of a piece that hangs on the wall, 0 to 2200 mm.
    /// Default: 0, it stands on the floor.
    #[cfg_attr(feature = "schema", schemars(example = &"54", example = &"1400 mm"))]
    pub height: Option<Written>,
    /// Heights of the floor under the corners of the piece, above any level line. Default: by the
    /// slopes of `space.floor`.
    #[cfg_attr(feature = "schema", schemars(example = serde_json::json!({
        "front_left": "1/4", "front_right": "0", "rear_left": "1/2", "rear_right": "1/8"
    })))]
    pub corners: Option<Corners>,
    /// Length of the spirit level on hand, 150 to 2500 mm. Default: 24 in or 600 mm.
    #[cfg_attr(feature = "schema", schemars(example = &"48", example = &"1200 mm"))]
    pub level: Option<Written>,
}

/// Heights of the floor, 0 to 100 mm each, above one level line.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Corners {
    /// At the front left. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"1/4", example = &"6 mm"))]
    pub front_left: Option<Written>,
    /// At the front right. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"0"))]
    pub front_right: Option<Written>,
    /// At the rear left. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"1/2", example = &"12 mm"))]
    pub rear_left: Option<Written>,
    /// At the rear right. Required.
    #[cfg_attr(feature = "schema", schemars(required, example = &"1/8", example = &"3 mm"))]
    pub rear_right: Option<Written>,
}

/// A remark that the maker has weighed and accepts.
#[derive(Debug, Clone, Default, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Accepted {
    /// The remark's code. Required.
    #[cfg_attr(feature = "schema", schemars(required, length(min = 1, max = 60), example = &"tip-open"))]
    pub code: Option<String>,
    /// What it concerns, as the remark says. Required.
    #[serde(rename = "where")]
    #[cfg_attr(feature = "schema", schemars(required, length(min = 1, max = 200), example = &"body main"))]
    pub place: Option<String>,
    /// Why it is accepted, 1 to 200 characters. Required.
    #[cfg_attr(
        feature = "schema",
        schemars(required, length(min = 1, max = 200), example = &"It is screwed to its neighbours.")
    )]
    pub reason: Option<String>,
}
