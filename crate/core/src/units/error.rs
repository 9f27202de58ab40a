//! Why a text is not a length.

use std::fmt;

/// Why a text cannot be read as a length. Its `Display` is a sentence for the maker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LengthError {
    /// Nothing was written.
    Empty,
    /// Longer than any length a person writes.
    TooLong,
    /// Something that is neither a number nor a unit, with the first such piece.
    Unexpected(String),
    /// A number is missing where one must stand.
    NumberMissing,
    /// A minus sign in front.
    Negative,
    /// A fraction over nothing.
    ZeroDenominator,
    /// A whole number followed by a fraction of one or more: `1 5/4`.
    ImproperFraction,
    /// A fraction made of decimals, or decimals followed by a fraction: `1.5/8`.
    MixedDecimalFraction,
    /// Two decimal marks in a number, or a mark with nothing behind it.
    DecimalMarks,
    /// `1,200` in millimetres: a decimal comma or a thousands mark.
    AmbiguousComma,
    /// More digits than can mean anything.
    TooManyDigits,
    /// Over [`MAX_LENGTH`](super::MAX_LENGTH).
    TooBig,
    /// More than one number or unit that do not go together.
    SeveralLengths,
}

impl fmt::Display for LengthError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LengthError::Empty => out.write_str("Nothing is written here."),
            LengthError::TooLong => out.write_str("This is too long to be a length."),
            LengthError::Unexpected(piece) => {
                write!(out, "“{piece}” is neither a number nor a unit of length.")
            }
            LengthError::NumberMissing => out.write_str("A number is missing."),
            LengthError::Negative => out.write_str("A length cannot be negative."),
            LengthError::ZeroDenominator => {
                out.write_str("The number under the fraction bar is zero.")
            }
            LengthError::ImproperFraction => {
                out.write_str("The fraction behind the whole number is one or more.")
            }
            LengthError::MixedDecimalFraction => {
                out.write_str("Decimals and a fraction do not go together in one number.")
            }
            LengthError::DecimalMarks => {
                out.write_str("The decimal mark must stand once, with digits behind it.")
            }
            LengthError::AmbiguousComma => out.write_str(
                "This comma may mark thousands or decimals; write it without a comma, or with a point.",
            ),
            LengthError::TooManyDigits => out.write_str("There are too many digits."),
            LengthError::TooBig => out.write_str("This is more than 100 m."),
            LengthError::SeveralLengths => {
                out.write_str("There is more than one length here, or two units that do not go together.")
            }
        }
    }
}

impl std::error::Error for LengthError {}
