//! The greatest upright rectangle that fits in what was measured.
//!
//! Straight walls are taken between readings. Where a wall's lean was measured, its readings say
//! where it stands at each height; else the diagonals do; else the left wall is taken as plumb.

use super::Found;
use super::consistency::Quadrilateral;
use crate::findings::Severity;
use crate::scenario::{Slope, Space, WidthAt};

/// How far two readings of one thing may differ before one of them is taken as a slip: a tape hooked
/// and read at two places (common practice, no source).
pub const SLIP: i64 = 5_000;

/// How far the left wall's top leans into the gap at height `z`.
fn left_lean(space: &Space, z: i64) -> i64 {
    let walls = &space.measured.walls;
    if let Some(left) = walls[0] {
        return left.along(z);
    }
    match (walls[1], ends(space)) {
        // The right wall's lean and the widths give the left one's.
        (Some(right), Some([low, high])) if low.at < high.at => {
            -wider(&low, &high, z) - right.along(z)
        }
        _ => Quadrilateral::of(space)
            .and_then(|q| q.leans_in(space))
            .map_or(0, |lean| Slope { rise: lean, over: space.height.get().max(1) }.along(z)),
    }
}

/// The lowest and the highest width.
pub fn ends(space: &Space) -> Option<[WidthAt; 2]> {
    let low = space.widths.iter().min_by_key(|w| (w.at, w.width))?;
    let high = space.widths.iter().max_by_key(|w| (w.at, -w.width.get()))?;
    Some([*low, *high])
}

/// How much wider than between two widths' lower one it is so far above it, straight between readings.
pub(super) fn wider(low: &WidthAt, high: &WidthAt, up: i64) -> i64 {
    let more = i128::from((high.width - low.width).get()) * i128::from(up);
    i64::try_from(more / i128::from((high.at - low.at).get())).unwrap_or(0)
}

/// Where the rectangle's left and right sides stand, from the left wall's foot; none when no width
/// was measured.
pub fn sides(space: &Space) -> Option<[i64; 2]> {
    let top = space.height.get();
    let one_height = ends(space).is_some_and(|[low, high]| low.at == high.at);
    let mut left = left_lean(space, top).max(0);
    let mut right = i64::MAX;
    for w in &space.widths {
        let z = w.at.get().min(top);
        let face = left_lean(space, z);
        left = left.max(face);
        right = right.min(face + w.width.get());
        if let (Some(lean), true) = (space.measured.walls[1], one_height) {
            // One width only: the wall's own lean says where it stands elsewhere.
            let foot = face + w.width.get() + lean.along(z);
            right = right.min(foot).min(foot - lean.along(top));
        }
    }
    (right != i64::MAX).then_some([left, right])
}

/// Its width.
pub fn width(space: &Space) -> Option<i64> {
    sides(space).map(|[left, right]| right - left)
}

/// How far the floor rises or falls over the gap.
pub fn fall(space: &Space) -> i64 {
    let [across, along] = space.measured.floor;
    let over = space.least_width().map_or(0, crate::units::Length::get);
    let across = across.map_or(0, |s| s.along(over).abs());
    let along = along.map_or(0, |s| s.along(space.depth.get()).abs());
    space.floor.out_of_level.get().max(across + along)
}

/// Its height, from the highest point of the floor to the lowest above. A cabinet stands level.
pub fn height(space: &Space) -> i64 {
    let (Some(across), Some(over)) = (space.measured.floor[0], space.least_width()) else {
        return space.height.get();
    };
    let floor = |side: u8| across.along(over.get() * i64::from(side) / 2);
    let heights = &space.measured.heights;
    let highest = floor(0).max(floor(2));
    let ceiling = heights.iter().map(|&(side, h)| floor(side) + h.get()).min();
    // Beside heights at both ends the rise is known; else the least height is all there is.
    let both = [0, 2].iter().all(|s| heights.iter().any(|h| h.0 == *s));
    ceiling.filter(|_| both).map_or(space.height.get(), |c| c - highest).min(space.height.get())
}

/// What the floor falls and the height does not know of: where the rise is measured beside the heights, it is taken
/// off already.
pub fn fall_left(space: &Space) -> i64 {
    if height(space) < space.height.get() { 0 } else { fall(space) }
}

/// Its depth: the wall behind may lean in above or below where the depth was read.
pub fn depth(space: &Space) -> i64 {
    let least = space.depth.get();
    let Some(back) = space.measured.walls[2] else { return least };
    let depths = &space.measured.depths;
    let (low, high) = (depths.iter().map(|d| d.0).min(), depths.iter().map(|d| d.0).max());
    if low != high {
        return least;
    }
    let read_at = back.along(low.map_or(0, crate::units::Length::get));
    least - (back.along(space.height.get()) - read_at).max(-read_at).max(0)
}

/// Whether widths and leans contradict each other; says so.
pub(super) fn readings_agree(found: &mut Found, space: &Space) -> bool {
    let [left, right, _] = space.measured.walls;
    let (Some(left), Some(right), Some([low, high])) = (left, right, ends(space)) else {
        return false;
    };
    let over = (high.at - low.at).get();
    let narrower = (low.width - high.width).get();
    let leans = left.along(over) + right.along(over);
    if over == 0 || (narrower - leans).abs() <= SLIP {
        return false;
    }
    let (n, l, m) = (found.fine(narrower), found.fine(leans), found.fine(SLIP));
    let finding = found.say(
        Severity::Caution,
        "walls-against-widths",
        "space.walls",
        format!("The widths say that the opening narrows by {n} towards the top, the walls that it narrows by {l}."),
        format!("Measure the widths and the walls again; they should agree within {m}."),
    );
    *finding = finding
        .clone()
        .number("by the widths", n)
        .number("by the walls", l)
        .number("allowed", m)
        .source("common practice, no source");
    true
}

/// The rectangle, with the sums behind it.
pub(super) fn rows(found: &mut Found, space: &Space) {
    if let (Some(width), Some(least)) = (width(space), space.least_width()) {
        let least = least.get();
        let why = if (width - least).abs() < 100 {
            format!("{} is the least of {} widths", found.fine(least), space.widths.len())
        } else {
            format!(
                "{} is the least width − {} because the walls do not stand plumb over each other = {}",
                found.fine(least),
                found.fine(least - width),
                found.fine(width)
            )
        };
        found.row("fits-width", "Rectangle that fits, width", width, why);
    }
    let (h, d, fall) = (height(space), depth(space), fall(space));
    let least = space.height.get();
    let why = if h == least {
        format!("{} is the least height", found.fine(h))
    } else {
        format!(
            "{} above the highest point of the floor, which is out of level by {}",
            found.fine(h),
            found.fine(fall)
        )
    };
    found.row("fits-height", "Rectangle that fits, height", h, why);
    let least = space.depth.get();
    let why = if d == least {
        format!("{} is the least depth", found.fine(d))
    } else {
        format!(
            "{} least depth − {} that the wall behind leans in = {}",
            found.fine(least),
            found.fine(least - d),
            found.fine(d)
        )
    };
    found.row("fits-depth", "Rectangle that fits, depth", d, why);
    if fall > 0 {
        let why =
            "the floor rises or falls by so much under the piece: shim from its highest point"
                .to_owned();
        found.row("shim", "Shims, at the most", fall, why);
    }
}

/// Where the left (0) or right (1) wall's face is at height `z`, straight between readings.
pub(super) fn face(space: &Space, side: usize, z: i64) -> i64 {
    let left = left_lean(space, z);
    if side == 0 {
        return left;
    }
    let mut widths: Vec<&WidthAt> = space.widths.iter().collect();
    widths.sort_by_key(|w| (w.at, w.width));
    widths.dedup_by_key(|w| w.at);
    let [low, high] = match widths.as_slice() {
        [] => return left,
        [one] => {
            let lean = space.measured.walls[1].map_or(0, |s| s.along(z) - s.along(one.at.get()));
            return left_lean(space, one.at.get()) + one.width.get() - lean;
        }
        many => {
            let next = many.iter().position(|w| w.at.get() >= z).unwrap_or(many.len() - 1).max(1);
            [many[next - 1], many[next]]
        }
    };
    left + low.width.get() + wider(low, high, z - low.at.get())
}
