//! Fixed-point arithmetic and how its results are printed. No floats: micrometres, grams, millionths.

use crate::units::{Length, Notation};

/// One, in millionths.
pub const ONE: i128 = 1_000_000;
/// Micrograms of a pound, exact by definition.
pub const POUND_UG: i128 = 453_592_370;
/// Acceleration of gravity in mm/s², as the published sag formulas round it.
pub const GRAVITY: i128 = 9_810;

/// `a / b`, rounded to the nearest, halves away from zero; zero when `b` is.
pub fn div(a: i128, b: i128) -> i128 {
    if b == 0 {
        return 0;
    }
    a.signum() * b.signum() * ((a.abs() + b.abs() / 2) / b.abs())
}

/// The greatest whole number whose square is no more; zero for what is negative.
pub fn root(value: i128) -> i128 {
    if value <= 0 { 0 } else { value.isqrt() }
}

/// The greatest whole number whose cube is no more; up to 10^12.
pub fn cube_root(value: i128) -> i128 {
    let (mut low, mut high) = (0_i128, 1_000_000_000_000);
    while low < high {
        let middle = (low + high + 1) / 2;
        if middle * middle * middle <= value { low = middle } else { high = middle - 1 }
    }
    low
}

/// A whole number for what is printed or compared as a length.
pub fn small(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(if value.is_negative() { i64::MIN } else { i64::MAX })
}

/// `value / scale` with so many decimals, rounded.
pub fn decimal(value: i128, scale: i128, places: u32) -> String {
    let tens = 10_i128.pow(places);
    let rounded = div(value * tens, scale);
    let sign = if rounded < 0 { "-" } else { "" };
    let (whole, part) = (rounded.abs() / tens, rounded.abs() % tens);
    if places == 0 {
        return format!("{sign}{whole}");
    }
    format!("{sign}{whole}.{part:0width$}", width = places as usize)
}

/// Whether lengths are printed in inches.
pub fn imperial(notation: Notation) -> bool {
    notation.unit().is_imperial()
}

/// A length too small for the notation's own steps: thousandths of an inch or hundredths of a millimetre.
pub fn fine(notation: Notation, um: i128) -> String {
    if imperial(notation) {
        format!("{} in", decimal(um, 25_400, 3))
    } else {
        format!("{} mm", decimal(um, 1_000, 2))
    }
}

/// A length as the notation prints it.
pub fn length(notation: Notation, um: i64) -> String {
    notation.print(Length(um))
}

/// A mass: kilograms, or pounds with the kilograms behind.
pub fn mass(notation: Notation, g: i64) -> String {
    let kg = format!("{} kg", decimal(i128::from(g), 1_000, 1));
    if imperial(notation) {
        format!("{} lb ({kg})", decimal(i128::from(g) * ONE, POUND_UG, 0))
    } else {
        kg
    }
}

/// A force given in millinewtons.
pub fn force(notation: Notation, mn: i128) -> String {
    let newtons = format!("{} N", decimal(mn, 1_000, 0));
    // A pound-force is 4.448222 N: 0.45359237 kg times 9.80665 m/s², exact by definition.
    if imperial(notation) { format!("{} lbf ({newtons})", decimal(mn, 4_448, 0)) } else { newtons }
}

/// Millionths with two decimals.
pub fn ratio(millionths: i128) -> String {
    decimal(millionths, ONE, 2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn division_rounds_to_the_nearest_and_halves_away_from_zero() {
        assert_eq!(
            [div(7, 2), div(-7, 2), div(7, -2), div(1, 3), div(-2, 3), div(-1, -2), div(5, 0)],
            [4, -4, -4, 0, -1, 1, 0]
        );
    }

    #[test]
    fn what_is_no_length_any_more_is_the_longest_there_is() {
        assert_eq!([small(-7), small(7), small(i128::MIN)], [-7, 7, i64::MIN]);
        assert_eq!(small(i128::MAX), i64::MAX);
    }

    #[test]
    fn roots_are_the_greatest_that_fit() {
        for n in 0..2000_i128 {
            assert!(root(n) * root(n) <= n && (root(n) + 1) * (root(n) + 1) > n);
            let c = cube_root(n);
            assert!(c * c * c <= n && (c + 1) * (c + 1) * (c + 1) > n);
        }
        assert_eq!(root(-1), 0);
        assert_eq!(cube_root(1_000_000_000_000_000_000), 1_000_000);
    }

    #[test]
    fn numbers_are_printed_rounded_with_their_sign() {
        assert_eq!(decimal(-1234, 1000, 2), "-1.23");
        assert_eq!(decimal(1235, 1000, 2), "1.24");
        assert_eq!(decimal(5, 1000, 0), "0");
        assert_eq!(mass(Notation::MmHalf, 12_345), "12.3 kg");
        assert_eq!(mass(Notation::Inch16, 10_000), "22 lb (10.0 kg)");
        assert_eq!(force(Notation::MmHalf, 44_482), "44 N");
        assert_eq!(force(Notation::Inch16, 44_482), "10 lbf (44 N)");
        assert_eq!(fine(Notation::Inch16, 254), "0.010 in");
        assert_eq!(fine(Notation::MmHalf, 254), "0.25 mm");
    }
}
