//! How lengths are printed.

use serde::{Deserialize, Serialize};

use super::{Length, Unit};

/// Inches to a fraction, or millimetres to a decimal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Notation {
    /// To a sixteenth of an inch.
    #[serde(rename = "inch-16")]
    Inch16,
    /// To a thirty-second of an inch.
    #[serde(rename = "inch-32")]
    Inch32,
    /// To a sixty-fourth of an inch.
    #[serde(rename = "inch-64")]
    Inch64,
    /// To half a millimetre.
    #[serde(rename = "mm-half")]
    MmHalf,
    /// To a tenth of a millimetre.
    #[serde(rename = "mm-tenth")]
    MmTenth,
}

impl Notation {
    /// Every notation.
    pub const ALL: [Notation; 5] =
        [Notation::Inch16, Notation::Inch32, Notation::Inch64, Notation::MmHalf, Notation::MmTenth];

    /// The finest notation of the same unit.
    pub const fn finest(self) -> Notation {
        match self {
            Notation::Inch16 | Notation::Inch32 | Notation::Inch64 => Notation::Inch64,
            Notation::MmHalf | Notation::MmTenth => Notation::MmTenth,
        }
    }

    /// The unit of a bare number typed where lengths are shown in this notation.
    pub const fn unit(self) -> Unit {
        match self {
            Notation::Inch16 | Notation::Inch32 | Notation::Inch64 => Unit::Inch,
            Notation::MmHalf | Notation::MmTenth => Unit::Millimetre,
        }
    }

    /// How many steps of this notation make one of its [`unit`](Notation::unit).
    pub const fn steps(self) -> i64 {
        match self {
            Notation::Inch16 => 16,
            Notation::Inch32 => 32,
            Notation::Inch64 => 64,
            Notation::MmHalf => 2,
            Notation::MmTenth => 10,
        }
    }

    /// The length as text with its unit, rounded to the nearest step, halves away from zero:
    /// `23 5/8 in`, `7/16 in`, `0 in`, `571.5 mm`, `600 mm`. Fractions are in lowest terms.
    pub fn print(self, length: Length) -> String {
        let steps = i128::from(self.steps());
        let unit = i128::from(self.unit().micrometres());
        let um = i128::from(length.get());
        let count = (2 * um.abs() * steps + unit) / (2 * unit);
        let (whole, part) = (count / steps, count % steps);
        let sign = if um < 0 && count != 0 { "-" } else { "" };
        if self.unit() == Unit::Inch {
            let fraction = in_lowest_terms(part, steps);
            match (whole, part) {
                (_, 0) => format!("{sign}{whole} in"),
                (0, _) => format!("{sign}{fraction} in"),
                _ => format!("{sign}{whole} {fraction} in"),
            }
        } else if part == 0 {
            format!("{sign}{whole} mm")
        } else {
            let tenths = part * (10 / steps);
            format!("{sign}{whole}.{tenths} mm")
        }
    }
}

/// `part/of` in lowest terms; `of` is a power of two.
fn in_lowest_terms(part: i128, of: i128) -> String {
    let shared = part.trailing_zeros().min(of.trailing_zeros());
    format!("{}/{}", part >> shared, of >> shared)
}

#[cfg(test)]
mod tests {
    use super::super::parse_length;
    use super::*;

    #[test]
    fn prints_what_a_rule_shows() {
        let inches = |n, d| Notation::Inch16.print(Length::inch(n, d));
        assert_eq!(inches(189, 8), "23 5/8 in");
        assert_eq!(inches(7, 16), "7/16 in");
        assert_eq!(inches(0, 1), "0 in");
        assert_eq!(inches(-3, 8), "-3/8 in");
        assert_eq!(inches(12, 1), "12 in");
        assert_eq!(Notation::MmTenth.print(Length::um(571_500)), "571.5 mm");
        assert_eq!(Notation::MmHalf.print(Length::um(600_000)), "600 mm");
        assert_eq!(Notation::MmHalf.print(Length::um(11_906)), "12 mm");
        assert_eq!(Notation::MmTenth.print(Length::um(11_906)), "11.9 mm");
    }

    #[test]
    fn halves_go_away_from_zero() {
        // 1/32 in is exactly half a sixteenth.
        let half = Length::um(793);
        assert_eq!(Notation::Inch16.print(half), "0 in", "793 µm is just under half a sixteenth");
        assert_eq!(Notation::Inch16.print(Length::inch(1, 32)), "1/16 in");
        assert_eq!(Notation::MmHalf.print(Length::um(250)), "0.5 mm");
        assert_eq!(Notation::MmHalf.print(Length::um(249)), "0 mm");
        assert_eq!(Notation::MmHalf.print(Length::um(-250)), "-0.5 mm");
        assert_eq!(Notation::MmHalf.print(Length::um(-249)), "0 mm");
    }

    #[test]
    fn rounding_up_carries_into_the_whole() {
        assert_eq!(Notation::Inch16.print(Length::um(25_399)), "1 in");
        assert_eq!(Notation::MmTenth.print(Length::um(9_960)), "10 mm");
    }

    #[test]
    fn the_ends_of_the_range_print() {
        for notation in Notation::ALL {
            assert!(notation.print(Length::um(i64::MAX)).ends_with(['n', 'm']));
            assert!(notation.print(Length::um(i64::MIN)).starts_with('-'));
        }
    }

    #[test]
    fn sixty_fourths_survive_print_and_read() {
        assert_eq!(Length::inch(1, 64), Length::um(397), "396.875 µm");
        for n in 0..=64 * 12 {
            let length = Length::inch(n, 64);
            let text = Notation::Inch64.print(length);
            assert_eq!(parse_length(&text, Unit::Millimetre), Ok(length), "{text}");
        }
    }
}
