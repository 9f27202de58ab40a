//! The units lengths are written in.

use serde::{Deserialize, Serialize};

/// A unit of length. All are whole micrometres, so conversion is exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Unit {
    /// Inch, 25.4 mm.
    #[serde(rename = "in")]
    Inch,
    /// Foot, 12 inches.
    #[serde(rename = "ft")]
    Foot,
    /// Millimetre.
    #[serde(rename = "mm")]
    Millimetre,
    /// Centimetre.
    #[serde(rename = "cm")]
    Centimetre,
    /// Metre.
    #[serde(rename = "m")]
    Metre,
}

impl Unit {
    /// Micrometres in one.
    pub const fn micrometres(self) -> i64 {
        match self {
            Unit::Inch => 25_400,
            Unit::Foot => 304_800,
            Unit::Millimetre => 1_000,
            Unit::Centimetre => 10_000,
            Unit::Metre => 1_000_000,
        }
    }

    /// Whether it belongs to inches and feet.
    pub const fn is_imperial(self) -> bool {
        matches!(self, Unit::Inch | Unit::Foot)
    }

    /// The unit a word or mark stands for, whatever its case.
    pub(super) fn from_word(word: &str) -> Option<Unit> {
        match word.to_ascii_lowercase().as_str() {
            "\"" | "in" | "inch" | "inches" => Some(Unit::Inch),
            "'" | "ft" | "foot" | "feet" => Some(Unit::Foot),
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
                Some(Unit::Millimetre)
            }
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
                Some(Unit::Centimetre)
            }
            "m" | "metre" | "metres" | "meter" | "meters" => Some(Unit::Metre),
            _ => None,
        }
    }
}
