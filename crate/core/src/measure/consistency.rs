//! Whether four sides and two diagonals of an opening can all be true.
//!
//! Four sides and one diagonal fix a quadrilateral; the second diagonal is a check. Placing the
//! corners from the foot, both heights and both diagonals gives the width at the top, which was
//! measured too.

use super::Found;
use super::rectangle::{ends, wider};
use crate::findings::Severity;
use crate::scenario::Space;

/// How far every reading may be off at once before they are taken to contradict each other: a
/// sixteenth of an inch, what a tape is read to (common practice, no source).
const READING: i64 = 1_588;
/// A step to see how much the width at the top depends on each reading.
const STEP: i64 = 1_000;

/// Sides and diagonals of an opening, in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quadrilateral {
    /// Width at the foot.
    pub bottom: i64,
    /// Width at the top.
    pub top: i64,
    /// Height at the left.
    pub left: i64,
    /// Height at the right.
    pub right: i64,
    /// From the lower left to the upper right corner.
    pub rising: i64,
    /// From the upper left to the lower right corner.
    pub falling: i64,
}

/// The place of a corner at distances `a` from (0, 0) and `b` from (w, 0), above the foot; none when
/// the three are no triangle. Twice the foot's width times x is exact; x and y are rounded down.
fn corner(w: i64, a: i64, b: i64) -> Option<[i64; 2]> {
    let (w2, a2, b2) = (i128::from(w), i128::from(a), i128::from(b));
    let x = (a2 * a2 - b2 * b2 + w2 * w2).div_euclid(2 * w2.max(1));
    let y2 = a2 * a2 - x * x;
    let y = u128::try_from(y2).ok()?.isqrt();
    Some([i64::try_from(x).ok()?, i64::try_from(y).ok()?])
}

impl Quadrilateral {
    /// From the readings: at least two widths at different heights, and both diagonals.
    pub fn of(space: &Space) -> Option<Quadrilateral> {
        let [rising, falling] = space.measured.diagonals?.map(crate::units::Length::get);
        let [low, high] = ends(space)?;
        let side = |n: u8| {
            let there = space.measured.heights.iter().filter(|h| h.0 == n);
            there.map(|h| h.1.get()).min().unwrap_or(space.height.get())
        };
        let (left, right) = (side(0), side(2));
        let (z0, z1) = (low.at.get(), high.at.get());
        if z0 >= z1 {
            return None;
        }
        // Straight walls: what the widths would be at the floor and under the top.
        let at = |z: i64| low.width.get() + wider(&low, &high, z - z0);
        Some(Quadrilateral {
            bottom: at(0),
            top: at(left.min(right)),
            left,
            right,
            rising,
            falling,
        })
    }

    fn corners(&self) -> Option<[[i64; 2]; 2]> {
        let right = corner(self.bottom, self.rising, self.right)?;
        let left = corner(self.bottom, self.left, self.falling)?;
        Some([left, right])
    }

    /// The width at the top that follows from all but the one measured; none when there is no such
    /// quadrilateral at all.
    pub fn top_that_follows(&self) -> Option<i64> {
        let [left, right] = self.corners()?;
        let [x, y] = [right[0] - left[0], right[1] - left[1]].map(i128::from);
        i64::try_from(u128::try_from(x * x + y * y).ok()?.isqrt()).ok()
    }

    /// How far the left wall's top leans into the gap, square to the foot.
    pub fn lean(&self) -> Option<i64> {
        self.corners().map(|[left, _]| left[0])
    }

    /// The same against the plumb line: where the floor was measured, its own slope is taken off.
    pub fn leans_in(&self, space: &Space) -> Option<i64> {
        let floor = space.measured.floor[0].map_or(0, |s| s.along(self.left));
        self.lean().map(|lean| lean - floor)
    }

    fn readings(&mut self) -> [&mut i64; 5] {
        [&mut self.bottom, &mut self.left, &mut self.right, &mut self.rising, &mut self.falling]
    }
}

/// By how much each of the six readings must be off, all of them in the worst way at once, before
/// they can all be true; none when not even that helps. To first order.
pub fn worst_error(q: Quadrilateral) -> Option<i64> {
    let follows = q.top_that_follows()?;
    let mut leverage = STEP;
    for n in 0..5 {
        let mut moved = q;
        *moved.readings()[n] += STEP;
        leverage += (moved.top_that_follows()? - follows).abs();
    }
    let off = i128::from((follows - q.top).abs()) * i128::from(STEP);
    i64::try_from(off / i128::from(leverage)).ok()
}

/// Says whether the readings can all be true, and how far the opening is out of square.
pub(super) fn check(found: &mut Found, space: &Space) {
    within_the_opening(found, space);
    let Some([rising, falling]) =
        space.measured.diagonals.map(|d| d.map(crate::units::Length::get))
    else {
        return;
    };
    let Some(q) = Quadrilateral::of(space) else {
        found.say(
            Severity::Note,
            "diagonals-alone",
            "space.diagonals",
            "The diagonals can only be checked against widths at two heights, or no more than one was measured.".to_owned(),
            "Measure the width low and high as well.".to_owned(),
        );
        return;
    };
    let error = worst_error(q);
    if error.is_none_or(|e| e > READING) {
        let off = error.map_or_else(|| "more than a tape can be".to_owned(), |e| found.fine(e));
        let allowed = found.fine(READING);
        let numbers = [
            ("rising", q.rising),
            ("falling", q.falling),
            ("width at the foot", q.bottom),
            ("width at the top", q.top),
            ("height left", q.left),
            ("height right", q.right),
        ]
        .map(|(n, v)| (n, found.fine(v)));
        let follows = q.top_that_follows().map(|t| found.fine(t));
        let finding = found.say(
            Severity::Fix,
            "measurements-contradict",
            "space.diagonals",
            format!("These sides and diagonals cannot all be true: each of the six would have to be off by {off}."),
            format!("Measure the diagonals again, from corner to corner, then widths and heights; each should be right within {allowed}."),
        );
        for (name, value) in numbers {
            *finding = finding.clone().number(name, value);
        }
        if let Some(follows) = follows {
            *finding = finding.clone().number("width at the top that follows", follows);
        }
        *finding = finding.clone().source("geometry: four sides and one diagonal fix the other; reading error common practice, no source");
        return;
    }
    let d = rising - falling;
    let lean = q.leans_in(space).unwrap_or(0);
    let why = format!(
        "{} rising − {} falling = {} between the diagonals",
        found.fine(rising),
        found.fine(falling),
        if d < 0 { format!("−{}", found.fine(-d)) } else { found.fine(d) }
    );
    let text = match lean {
        0 => "plumb".to_owned(),
        l if l > 0 => format!("{} to the right", found.p(l)),
        l => format!("{} to the left", found.p(-l)),
    };
    found.said("gap-lean", "Left side of the opening leans, foot to top", lean, text, why);
}

/// A width is taken between floor and top; one above that is left of another opening.
fn within_the_opening(found: &mut Found, space: &Space) {
    for (n, w) in space.widths.iter().enumerate().filter(|(_, w)| w.at > space.height) {
        let [at, high] = [w.at, space.height].map(|l| found.p(l.get()));
        let finding = found.say(
            Severity::Caution,
            "width-above",
            &format!("space.widths[{n}].at"),
            format!(
                "A width is said to be taken {at} above the floor, and the opening ends at {high}."
            ),
            format!("Measure it again below {high} and give that height, or take this width out."),
        );
        *finding = finding.clone().number("at", at).number("height of the opening", high);
    }
}
