//! Moments about the line on which the front feet stand.

use super::num::{ONE, div};

/// A mass, and how far its centre lies behind the line (negative: before it). Grams, micrometres.
pub type Load = (i64, i64);

/// Moments that hold and that tip, in gram-micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moments {
    /// Of what lies behind the line.
    pub holds: i128,
    /// Of what lies before it.
    pub tips: i128,
}

/// The two moments of these loads.
pub fn moments(loads: &[Load]) -> Moments {
    let mut m = Moments { holds: 0, tips: 0 };
    for (mass, behind) in loads {
        let moment = i128::from(*mass) * i128::from(*behind);
        if moment >= 0 { m.holds += moment } else { m.tips -= moment }
    }
    m
}

impl Moments {
    /// What holds over what tips, in millionths; none when nothing tips.
    pub fn ratio(&self) -> Option<i128> {
        (self.tips > 0).then(|| div(self.holds * ONE, self.tips))
    }

    /// What holds less what tips, in thousandths of a newton-metre, with this gravity in mm/s².
    pub fn sum_mnm(&self, gravity: i128) -> i128 {
        // g um mm/s² = 1e-3 kg 1e-6 m 1e-3 m/s² = 1e-12 N m = 1e-9 mN m.
        div((self.holds - self.tips) * gravity, 1_000_000_000)
    }
}
