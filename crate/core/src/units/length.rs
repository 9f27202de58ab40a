//! A length in integer micrometres.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// A length in micrometres. An inch is 25 400; a sixteenth is 1587.5 and is kept as 1588.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Length(pub i64);

impl Length {
    /// Nothing.
    pub const ZERO: Length = Length(0);
    /// Micrometres in an inch.
    pub const INCH: i64 = 25_400;

    /// From whole micrometres.
    pub const fn um(um: i64) -> Length {
        Length(um)
    }

    /// From whole millimetres.
    pub const fn mm(mm: i64) -> Length {
        Length(mm * 1000)
    }

    /// From `n/d` inches, to the nearest micrometre, halves away from zero.
    pub const fn inch(n: i64, d: i64) -> Length {
        let scaled = 2 * n * Length::INCH;
        let half = if scaled < 0 { -d } else { d };
        Length((scaled + half) / (2 * d))
    }

    /// In whole micrometres.
    pub const fn get(self) -> i64 {
        self.0
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, times: i64) -> Length {
        Length(self.0 * times)
    }
}

impl Div<i64> for Length {
    type Output = Length;
    fn div(self, by: i64) -> Length {
        Length(self.0 / by)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        self.0 += other.0;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Length) {
        self.0 -= other.0;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(all: I) -> Length {
        Length(all.map(|l| l.0).sum())
    }
}
