//! Cuts the text of a length into numbers, marks and units.

use super::{LengthError, Unit};

/// More characters than this are no length.
const MAX_CHARS: usize = 64;
/// Digits before the decimal mark, leading zeros aside.
const MAX_WHOLE_DIGITS: usize = 9;
/// Digits behind the decimal mark: what the shortest print of a double can need, and some.
const MAX_DECIMALS: usize = 20;
/// A number as a ratio of integers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ratio {
    pub above: i128,
    pub below: i128,
    /// Whether its comma could as well mark thousands.
    pub thousands: bool,
}

/// What a piece of the text is.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Number(Ratio),
    Slash,
    Dash,
    Unit(Unit),
}

/// A piece of the text.
pub(super) struct Token {
    pub kind: Kind,
    /// Whether a space stands before it.
    pub spaced: bool,
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

/// The pieces of a text, or the first that can be none.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, LengthError> {
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
