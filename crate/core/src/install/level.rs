//! Levelling: how the floor lies under the corners, and what goes under each.

use crate::scenario::{Install, Space};

/// Thinner shims are not worth laying (common practice, no source).
const LEAST: i64 = 500;
/// A run is set level within 1/8 in over 6 ft (common practice, no source).
const RISE: i64 = 3_175;
const OVER: i64 = 1_828_800;
/// Finer than this nobody reads a bubble (common practice, no source).
const READS: i64 = 500;

/// What the corners are called, in their order.
pub const CORNERS: [&str; 4] = ["front left", "front right", "rear left", "rear right"];

/// Heights under four corners: front left, front right, rear left, rear right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Heights(pub [i64; 4]);

/// The plane nearest to four heights, by least squares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plane {
    /// How much it rises from left to right.
    pub across: i64,
    /// How much it rises from front to back.
    pub back: i64,
    /// By how much every corner lies off the plane, up and down in turn: how far the piece rocks.
    pub twist: i64,
}

impl Heights {
    /// Under the corners of a footprint `x`, `y` in the gap; none when only the amount is known by
    /// which the floor is out of level.
    pub(crate) fn of(
        space: &Space,
        install: &Install,
        x: [i64; 2],
        y: [i64; 2],
    ) -> Option<Heights> {
        if let Some(given) = install.corners {
            return Some(Heights(given.map(|l| l.get())));
        }
        let [across, along] = space.measured.floor;
        if across.is_none() && along.is_none() && space.floor.out_of_level.get() != 0 {
            return None;
        }
        let at =
            |x: i64, y: i64| across.map_or(0, |s| s.along(x)) + along.map_or(0, |s| s.along(y));
        Some(Heights([at(x[0], y[0]), at(x[1], y[0]), at(x[0], y[1]), at(x[1], y[1])]))
    }

    /// What goes under each corner so that the piece stands level on the highest.
    pub fn shims(self) -> [i64; 4] {
        let highest = self.0.into_iter().max().unwrap_or(0);
        self.0.map(|h| if highest - h < LEAST { 0 } else { highest - h })
    }

    /// The highest corner, the first of equals.
    pub fn highest(self) -> usize {
        (0..4).max_by_key(|&i| (self.0[i], std::cmp::Reverse(i))).unwrap_or(0)
    }

    /// The plane nearest to them. On the corners of a rectangle the least squares have this closed
    /// form (worked out).
    pub fn plane(self) -> Plane {
        let [fl, fr, rl, rr] = self.0;
        Plane {
            across: (fr + rr - fl - rl) / 2,
            back: (rl + rr - fl - fr) / 2,
            twist: (fl - fr - rl + rr).abs() / 4,
        }
    }
}

/// By how much two points so far apart may differ in height.
pub fn tolerance(apart: i64) -> i64 {
    (apart * RISE / OVER).max(READS)
}

/// The shim for a gap under the low end of a spirit level, by the rule of three.
pub fn shim_for(gap: i64, level: i64, apart: i64) -> i64 {
    i64::try_from(i128::from(gap) * i128::from(apart) / i128::from(level.max(1))).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shims_bring_every_corner_to_the_highest() {
        let floor = Heights([4_000, 0, 12_000, 3_800]);
        assert_eq!(floor.shims(), [8_000, 12_000, 0, 8_200]);
        assert_eq!(floor.highest(), 2);
        assert_eq!(Heights([0, 400, 0, 0]).shims(), [0; 4], "too thin to lay");
    }

    #[test]
    fn a_gap_under_the_level_becomes_a_shim_under_the_foot() {
        // 2 mm under a level of 600 mm on a piece 900 mm wide.
        assert_eq!(shim_for(2_000, 600_000, 900_000), 3_000);
    }

    #[test]
    fn a_level_run_keeps_an_eighth_in_six_feet() {
        assert_eq!(tolerance(1_828_800), 3_175);
        assert_eq!(tolerance(100_000), 500);
    }
}
