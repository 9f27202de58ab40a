//! The shop, as far as the order is proved for it.

use serde::{Deserialize, Serialize};

/// [`Workshop::square_check`] of a shop that has a square in hand, and no tape long enough or none to hold its end.
pub const BY_SQUARE: &str = "square";

/// Tools and room that the order was proved for. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Workshop {
    /// From the tip of the bit to the back of the drill.
    pub drill_length: i64,
    /// Width of the widest part of the drill.
    pub drill_width: i64,
    /// Clear width round the bit itself.
    pub bit_width: i64,
    /// How far the bit stands out of the drill's body.
    pub bit_length: i64,
    /// Bench top, the long way.
    pub bench_length: i64,
    /// Bench top, the short way.
    pub bench_width: i64,
    /// Bench top above the floor.
    pub bench_height: i64,
    /// Height of the two straight strips the work lies on, so that drill and clamps get under it.
    #[serde(default)]
    pub bearers: i64,
    /// Highest point above the floor at which a screw is driven.
    pub reach_height: i64,
    /// Longest opening of each clamp on hand.
    pub clamps: Vec<i64>,
    /// Who is there.
    pub people: u8,
    /// What square is checked with: `tape` or [`BY_SQUARE`].
    pub square_check: String,
    /// Other ways to drive a screw, tried where the drill has no room.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<Driver>,
    /// The glue's times.
    #[serde(default)]
    pub glue: Glue,
    /// Offcuts at hand that may serve as spacers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub offcuts: Vec<Offcut>,
    /// The person's own room, where the work cannot be walked round. Absent at the bench.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub person: Option<Person>,
}

/// What a person takes up who drives screws inside something. Lengths in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Person {
    /// Width and height of the room that an arm takes.
    pub arm: i64,
    /// From the back of the tool to the shoulder.
    pub reach: i64,
    /// Across the shoulders.
    pub shoulders: i64,
    /// Front to back, and in height, of what is behind the arm.
    pub chest: i64,
    /// The heaviest thing in grams that one hand holds up while the other drives.
    pub hand_g: i64,
}

/// A tool that drives screws: an offset or short driver. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Driver {
    /// As a maker calls it: `offset driver`.
    pub name: String,
    /// From the tip of the bit to its back, along the screw.
    pub length: i64,
    /// Its widest part.
    pub width: i64,
    /// Clear width round the bit itself.
    pub bit_width: i64,
    /// How far the bit stands out.
    pub bit_length: i64,
}

/// How long a glue waits, in minutes, as its maker states it for the room's temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Glue {
    /// From spreading until the faces are brought together.
    pub open: u32,
    /// From bringing together until pressure is on.
    pub closed: u32,
    /// For how long the pressure stays on.
    pub clamp: u32,
}

impl Default for Glue {
    /// A white or yellow wood glue in a warm room: from memory, to be read off the bottle.
    fn default() -> Self {
        Glue { open: 5, closed: 10, clamp: 30 }
    }
}

/// A piece left over whose size may be the distance to set. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Offcut {
    /// Stable id, none of a part.
    pub id: String,
    /// As a maker says it.
    pub name: String,
    /// Longest way.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// Measured thickness.
    pub thickness: i64,
}
