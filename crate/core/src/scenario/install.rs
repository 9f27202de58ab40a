//! How the piece is fixed in the room, and what the maker has accepted.

use crate::units::Length;

/// How the piece is fixed in the room, as far as it is decided.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Install {
    /// Whether it will be fixed to the wall before it is loaded; absent: not decided.
    pub to_wall: Option<bool>,
    /// Thickness of what covers the studs.
    pub wall_board: Length,
    /// Middles of the studs from the left end of the opening; empty: not known.
    pub studs: Vec<Length>,
    /// Whether a rail goes across two studs first.
    pub rail: bool,
    /// Length of the screws into the studs.
    pub wall_screw: Option<Length>,
    /// Thickness of the counter that comes on top.
    pub counter: Option<Length>,
    /// Length of the screws into the counter.
    pub counter_screw: Option<Length>,
    /// Length of the screws to the next cabinet.
    pub joining_screw: Option<Length>,
    /// Thickness of the next cabinet's side.
    pub neighbour_side: Length,
    /// From stud to stud where their places are not known.
    pub stud_spacing: Length,
    /// Underside of the piece above the floor: of a piece that hangs on the wall. Zero: it stands.
    pub height: Length,
    /// Heights of the floor under the front left, front right, rear left and rear right corner, above
    /// any level line.
    pub corners: Option<[Length; 4]>,
    /// Length of the spirit level on hand.
    pub level: Length,
}

/// A finding that the maker accepts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Accepted {
    /// The finding's code.
    pub code: String,
    /// What it concerns.
    pub place: String,
    /// Why.
    pub reason: String,
}
