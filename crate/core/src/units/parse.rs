//! Reads lengths as makers write them. Exact: every number is a ratio of integers until the one
//! rounding to a micrometre at the end.

use super::{Length, LengthError, Unit};

/// The longest length that is read: far over any cabinet, far under any overflow.
pub const MAX_LENGTH: Length = Length::mm(100_000);

/// More characters than this are no length.
const MAX_CHARS: usize = 64;
/// Digits before the decimal mark, leading zeros aside.
const MAX_WHOLE_DIGITS: usize = 9;
/// Digits behind the decimal mark: what the shortest print of a double can need, and some.
const MAX_DECIMALS: usize = 20;

/// Reads a length, rounded to the nearest micrometre, halves away from zero.
///
/// Accepts whole numbers, decimals with point or comma, fractions (`5/8`, `⅝`), mixed numbers
/// (`23 5/8`, `23-5/8`), feet with inches (`1' 11 5/8"`), and the units in, ft, mm, cm, m with
/// their words and marks, straight or typographic. A bare number is in `default_unit`.
///
/// # Errors
/// A text that is not one length of zero or more up to [`MAX_LENGTH`] gives the reason.
pub fn parse_length(text: &str, default_unit: Unit) -> Result<Length, LengthError> {
    let tokens = tokens(text)?;
    if tokens.is_empty() {
        return Err(LengthError::Empty);
    }
    let mut reader = Reader { tokens: &tokens, at: 0 };
    if reader.peek_kind() == Some(&Kind::Dash) {
        return Err(LengthError::Negative);
    }
    let (first, first_unit) = reader.measure()?;
    let (number, unit) = if first_unit == Some(Unit::Foot) && reader.at < tokens.len() {
        if reader.peek_kind() == Some(&Kind::Dash) {
            reader.at += 1;
        }
        let (second, second_unit) = reader.measure()?;
        if !matches!(second_unit, None | Some(Unit::Inch)) || first.below != 1 {
            return Err(LengthError::SeveralLengths);
        }
        // Whole feet, so the sum stays over the inches' own denominator.
        let above = first.above * 12 * second.below + second.above;
        (Ratio { above, ..second }, Unit::Inch)
    } else {
        (first, first_unit.unwrap_or(default_unit))
    };
    if reader.at < tokens.len() {
        return Err(LengthError::SeveralLengths);
    }
    // In inches no one writes a thousand of them; in millimetres `1,200` means either.
    if number.thousands && unit == Unit::Millimetre {
        return Err(LengthError::AmbiguousComma);
    }
    let doubled = 2 * number.above * i128::from(unit.micrometres());
    let rounded = (doubled + number.below) / (2 * number.below);
    match i64::try_from(rounded) {
        Ok(um) if um <= MAX_LENGTH.get() => Ok(Length::um(um)),
        _ => Err(LengthError::TooBig),
    }
}

/// A decimal number as the exact ratio `above / below`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Decimal {
    /// Numerator, zero or more.
    pub above: i128,
    /// Denominator, a power of ten.
    pub below: i128,
}

/// Reads a plain decimal number without unit, such as a mass; same limits as lengths.
pub(crate) fn parse_decimal(text: &str) -> Result<Decimal, LengthError> {
    let tokens = tokens(text)?;
    match tokens.as_slice() {
        [] => Err(LengthError::Empty),
        [Token { kind: Kind::Number(n), .. }] => Ok(Decimal { above: n.above, below: n.below }),
        [Token { kind: Kind::Dash, .. }, ..] => Err(LengthError::Negative),
        _ => Err(LengthError::SeveralLengths),
    }
}

/// A number as a ratio of integers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Ratio {
    above: i128,
    below: i128,
    /// Whether its comma could as well mark thousands.
    thousands: bool,
}

#[derive(Debug, PartialEq, Eq)]
enum Kind {
    Number(Ratio),
    Slash,
    Dash,
    Unit(Unit),
}

struct Token {
    kind: Kind,
    /// Whether a space stands before it.
    spaced: bool,
}

/// Brings typographic marks to plain ones, so that one grammar reads both.
fn plain(text: &str) -> Result<Vec<char>, LengthError> {
    let mut out = Vec::new();
    for (n, c) in text.chars().enumerate() {
        if n >= MAX_CHARS {
            return Err(LengthError::TooLong);
        }
        let fraction = match c {
            '½' => "1/2",
            '⅓' => "1/3",
            '⅔' => "2/3",
            '¼' => "1/4",
            '¾' => "3/4",
            '⅛' => "1/8",
            '⅜' => "3/8",
            '⅝' => "5/8",
            '⅞' => "7/8",
            _ => "",
        };
        if fraction.is_empty() {
            out.push(match c {
                '″' | '”' | '“' | '„' => '"',
                '′' | '’' | '‘' => '\'',
                '⁄' | '∕' => '/',
                '−' | '–' | '‐' | '‑' => '-',
                // `char::is_whitespace` holds the no-break and thin spaces too.
                c if c.is_whitespace() => ' ',
                c => c,
            });
        } else {
            // `23⅝` and `23-⅝` are both mixed numbers; only the first needs a space put in.
            if out.last().is_some_and(char::is_ascii_digit) {
                out.push(' ');
            }
            out.extend(fraction.chars());
        }
    }
    Ok(out)
}

fn tokens(text: &str) -> Result<Vec<Token>, LengthError> {
    let text = plain(text)?;
    let mut found = Vec::new();
    let mut rest = text.as_slice();
    let mut spaced = false;
    while let Some((&c, after)) = rest.split_first() {
        let kind = match c {
            ' ' => {
                spaced = true;
                rest = after;
                continue;
            }
            '/' => {
                rest = after;
                Kind::Slash
            }
            '-' => {
                rest = after;
                Kind::Dash
            }
            '\'' if after.first() == Some(&'\'') => {
                rest = after.get(1..).unwrap_or_default();
                Kind::Unit(Unit::Inch)
            }
            '\'' | '"' => {
                rest = after;
                Kind::Unit(if c == '"' { Unit::Inch } else { Unit::Foot })
            }
            '0'..='9' | '.' | ',' => {
                let (number, left) = number(rest)?;
                rest = left;
                Kind::Number(number)
            }
            c if c.is_alphabetic() => {
                let length = rest.iter().take_while(|c| c.is_alphabetic()).count();
                let (word, left) = rest.split_at(length);
                let word: String = word.iter().collect();
                let Some(unit) = Unit::from_word(&word) else {
                    return Err(LengthError::Unexpected(word));
                };
                // `12 in.` is how inches are often abbreviated.
                rest = match left.split_first() {
                    Some(('.', after)) => after,
                    _ => left,
                };
                Kind::Unit(unit)
            }
            c => return Err(LengthError::Unexpected(c.to_string())),
        };
        found.push(Token { kind, spaced });
        spaced = false;
    }
    Ok(found)
}

/// Reads digits with at most one decimal mark, and gives what is left.
fn number(text: &[char]) -> Result<(Ratio, &[char]), LengthError> {
    let digits = |text: &[char]| text.iter().take_while(|c| c.is_ascii_digit()).count();
    let (whole, rest) = text.split_at(digits(text));
    let (mark, decimals, rest) = match rest.split_first() {
        Some((&mark @ ('.' | ','), after)) => {
            let (decimals, rest) = after.split_at(digits(after));
            if decimals.is_empty() || matches!(rest.first(), Some('.' | ',')) {
                return Err(LengthError::DecimalMarks);
            }
            (Some(mark), decimals, rest)
        }
        _ => (None, [].as_slice(), rest),
    };
    let leading = whole.iter().skip_while(|&&c| c == '0').count();
    if leading > MAX_WHOLE_DIGITS {
        return Err(LengthError::TooBig);
    }
    if decimals.len() > MAX_DECIMALS {
        return Err(LengthError::TooManyDigits);
    }
    let mut above: i128 = 0;
    let mut below: i128 = 1;
    for c in whole.iter().chain(decimals) {
        above = above * 10 + i128::from(c.to_digit(10).unwrap_or(0));
    }
    for _ in decimals {
        below *= 10;
    }
    let thousands = mark == Some(',') && decimals.len() == 3 && (1..=3).contains(&leading);
    Ok((Ratio { above, below, thousands }, rest))
}

struct Reader<'a> {
    tokens: &'a [Token],
    at: usize,
}

impl Reader<'_> {
    fn peek_kind(&self) -> Option<&Kind> {
        self.tokens.get(self.at).map(|t| &t.kind)
    }

    fn number(&mut self) -> Result<Ratio, LengthError> {
        match self.peek_kind() {
            Some(&Kind::Number(n)) => {
                self.at += 1;
                Ok(n)
            }
            _ => Err(LengthError::NumberMissing),
        }
    }

    /// A number, mixed or not, and the unit behind it.
    fn measure(&mut self) -> Result<(Ratio, Option<Unit>), LengthError> {
        let first = self.number()?;
        let value = if self.peek_kind() == Some(&Kind::Slash) {
            self.fraction(first)?
        } else if self.starts_fraction() {
            if self.peek_kind() == Some(&Kind::Dash) {
                self.at += 1;
            }
            let above = self.number()?;
            let part = self.fraction(above)?;
            if first.below != 1 {
                return Err(LengthError::MixedDecimalFraction);
            }
            if part.above >= part.below {
                return Err(LengthError::ImproperFraction);
            }
            Ratio { above: first.above * part.below + part.above, ..part }
        } else {
            first
        };
        let unit = match self.peek_kind() {
            Some(&Kind::Unit(unit)) => {
                self.at += 1;
                Some(unit)
            }
            _ => None,
        };
        Ok((value, unit))
    }

    /// Whether a fraction follows a whole number: `23 5/8`, or `23-5/8` without spaces, since
    /// `23 - 5/8` may be meant as a difference.
    fn starts_fraction(&self) -> bool {
        let ahead = |n: usize| self.tokens.get(self.at + n);
        let dash = ahead(0).is_some_and(|t| t.kind == Kind::Dash && !t.spaced);
        let from = usize::from(dash);
        let number =
            ahead(from).is_some_and(|t| matches!(t.kind, Kind::Number(_)) && t.spaced != dash);
        number && ahead(from + 1).is_some_and(|t| t.kind == Kind::Slash)
    }

    /// The rest of a fraction whose upper number is read.
    fn fraction(&mut self, above: Ratio) -> Result<Ratio, LengthError> {
        self.at += 1;
        let below = self.number()?;
        if above.below != 1 || below.below != 1 {
            return Err(LengthError::MixedDecimalFraction);
        }
        if below.above == 0 {
            return Err(LengthError::ZeroDenominator);
        }
        Ok(Ratio { above: above.above, below: below.above, thousands: false })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(text: &str) -> Result<i64, LengthError> {
        parse_length(text, Unit::Inch).map(Length::get)
    }

    fn mm(text: &str) -> Result<i64, LengthError> {
        parse_length(text, Unit::Millimetre).map(Length::get)
    }

    #[test]
    fn reads_what_makers_write() {
        // 23 5/8 in is 600.075 mm.
        for text in [
            "23 5/8",
            "23-5/8\"",
            "1' 11 5/8\"",
            "1'-11 5/8\"",
            "1' - 11 5/8\"",
            "23⅝",
            "23 ⅝ in",
            "23-⅝",
            "1′ 11⅝″",
            "1’ 11 5/8”",
            "23\u{a0}5/8",
            "23\u{202f}5⁄8 in.",
            "23.625",
            "23,625",
            "1 ft 11 5/8 in",
            "1 ft 11 5/8",
            "  23   5/8  ",
            "23 5/8''",
            "189/8",
            "23 5/8 INCHES",
        ] {
            assert_eq!(inch(text), Ok(600_075), "{text}");
        }
        for text in ["600", "60 cm", "600 mm", "0.6 m", "600mm", "0,6 m", "600.0", "600,00 mm"] {
            assert_eq!(mm(text), Ok(600_000), "{text}");
        }
        assert_eq!(mm("571,2"), Ok(571_200));
        assert_eq!(mm("0.5 m"), Ok(500_000));
        assert_eq!(mm("5/8 in"), Ok(15_875));
        assert_eq!(inch("5/8"), Ok(15_875));
        assert_eq!(inch(".5"), Ok(12_700));
        assert_eq!(inch("3'"), Ok(914_400));
        assert_eq!(inch("1.5 ft"), Ok(457_200));
        assert_eq!(inch("0"), Ok(0));
    }

    #[test]
    fn rounds_once_at_the_end() {
        assert_eq!(inch("1/64"), Ok(397), "396.875");
        assert_eq!(inch("1/16"), Ok(1_588), "1587.5, half away from zero");
        assert_eq!(inch("1/3"), Ok(8_467), "8466.67");
        assert_eq!(mm("0.0005"), Ok(1));
        assert_eq!(mm("0.00049999999999999999"), Ok(0));
    }

    #[test]
    fn refuses_with_the_reason() {
        use LengthError as E;
        let cases: &[(&str, E)] = &[
            ("", E::Empty),
            (" \u{a0} ", E::Empty),
            ("-5", E::Negative),
            ("−5 mm", E::Negative),
            ("NaN", E::Unexpected("NaN".into())),
            ("Infinity", E::Unexpected("Infinity".into())),
            ("1e9", E::Unexpected("e".into())),
            ("+5", E::Unexpected("+".into())),
            ("5 yd", E::Unexpected("yd".into())),
            ("5 µm", E::Unexpected("µm".into())),
            ("٥", E::Unexpected("٥".into())),
            ("5/0", E::ZeroDenominator),
            ("1 3/0 in", E::ZeroDenominator),
            ("5/", E::NumberMissing),
            ("/8", E::NumberMissing),
            ("mm", E::NumberMissing),
            ("1 5/4", E::ImproperFraction),
            ("1 8/8", E::ImproperFraction),
            ("1.5 1/2", E::MixedDecimalFraction),
            ("1.5/2", E::MixedDecimalFraction),
            ("1.2.3", E::DecimalMarks),
            ("1.234,5", E::DecimalMarks),
            ("5.", E::DecimalMarks),
            ("5 5", E::SeveralLengths),
            ("23 - 5/8", E::SeveralLengths),
            ("1/2/3", E::SeveralLengths),
            ("5 in 3 mm", E::SeveralLengths),
            ("1' 3 mm", E::SeveralLengths),
            ("1.5' 3\"", E::SeveralLengths),
            ("5 mm mm", E::SeveralLengths),
            ("100001 mm", E::TooBig),
            ("999999999999999999999999999999999999999999", E::TooBig),
            ("999999999 ft", E::TooBig),
            ("0.000000000000000000000000001", E::TooManyDigits),
        ];
        for (text, error) in cases {
            assert_eq!(mm(text).as_ref(), Err(error), "{text}");
            assert!(error.to_string().ends_with('.'));
        }
        assert_eq!(mm(&"9".repeat(10_000)), Err(E::TooLong));
        assert_eq!(mm(&" ".repeat(10_000)), Err(E::TooLong));
        assert_eq!(mm("100 m"), Ok(MAX_LENGTH.get()));
    }

    #[test]
    fn a_comma_that_could_mark_thousands_is_refused_in_millimetres_only() {
        assert_eq!(mm("1,200"), Err(LengthError::AmbiguousComma));
        assert_eq!(mm("1.200"), Ok(1_200));
        assert_eq!(mm("0,125"), Ok(125));
        assert_eq!(mm("1,2"), Ok(1_200));
        assert_eq!(mm("1,200 m"), Ok(1_200_000));
        assert_eq!(inch("23,625"), Ok(600_075));
    }
}
