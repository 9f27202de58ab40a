//! What a part is for.

use serde::{Deserialize, Serialize};

/// What a part is for. The order of assembly never asks; checks and drawings do.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// An outer upright panel of a carcass.
    Side,
    /// The lowest level panel of a carcass.
    Bottom,
    /// The uppermost level panel of a carcass.
    Top,
    /// The panel that closes the rear.
    Back,
    /// A level panel that carries things.
    Shelf,
    /// An inner upright panel.
    Divider,
    /// A rail that ties the sides together at the top.
    Stretcher,
    /// A rail that is screwed to the wall.
    Nailer,
    /// The board behind the toe recess.
    ToeKick,
    /// Another narrow board between two others.
    Rail,
    /// A leg or foot.
    Leg,
    /// A strip that closes what is left of an opening.
    Filler,
    /// A side of a box or drawer.
    BoxSide,
    /// The front of a box or drawer, behind what shows.
    BoxFront,
    /// The back of a box or drawer.
    BoxBack,
    /// The bottom of a box or drawer.
    BoxBottom,
    /// What shows in front of a box or drawer.
    Front,
    /// A board that looks like a front or door and moves with another.
    FalseFront,
    /// The board that false fronts are screwed to.
    Backing,
    /// A door on hinges.
    Door,
    /// A runner or a member of one.
    Runner,
    /// A hinge.
    Hinge,
    /// Anything else.
    #[default]
    Other,
}

impl Role {
    /// Whether nothing special is known of it.
    pub fn is_other(&self) -> bool {
        *self == Role::Other
    }
}
