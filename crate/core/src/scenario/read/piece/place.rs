//! Places and sizes, three lengths each, and the rounding of inches between them.

use super::super::context::{Context, Range};
use crate::geometry::{Box3, Point};
use crate::scenario::file::Place;

/// Three lengths; a finding when they are missing or one is wrong.
pub(in crate::scenario::read) fn three(
    ctx: &mut Context,
    place: &str,
    written: Option<&Place>,
    range: Range,
) -> Option<Point> {
    let Some(Place(lengths)) = written.filter(|p| !p.0.is_empty()) else {
        ctx.missing(place, "Write three lengths in brackets: left to right, front to back, up.");
        return None;
    };
    if lengths.len() != 3 {
        ctx.stop(
            "list-length",
            place,
            format!("`{place}` has {} entries.", lengths.len()),
            "Write three lengths: left to right, front to back, up.",
        );
        return None;
    }
    let mut read = [0; 3];
    let mut whole = true;
    for (axis, length) in lengths.iter().enumerate() {
        match ctx.length_if_any(&format!("{place}[{axis}]"), Some(length), range) {
            Some(length) => read[axis] = length.get(),
            None => whole = false,
        }
    }
    whole.then_some(read)
}

/// The box of a size from a corner.
pub(super) fn from(corner: Point, size: Point) -> Box3 {
    Box3::new(corner, std::array::from_fn(|a| corner[a] + size[a]))
}

/// Fractions of an inch are rounded to micrometres one by one, so that sums of them may miss each
/// other by so much. Nobody means a distance as small as that.
pub(super) const ROUNDED: i64 = 3;

/// Brings faces that miss each other by rounding into one plane.
pub(super) fn level(boxes: &mut [&mut Box3]) {
    for axis in 0..3 {
        let mut all: Vec<i64> = boxes.iter().flat_map(|b| [b.min[axis], b.max[axis]]).collect();
        all.sort_unstable();
        let mut planes: Vec<i64> = Vec::new();
        for at in all {
            if planes.last().is_none_or(|last| at - last > ROUNDED) {
                planes.push(at);
            }
        }
        let plane = |at: i64| {
            let above = planes.partition_point(|p| *p <= at);
            planes.get(above.saturating_sub(1)).copied().unwrap_or(at)
        };
        for b in boxes.iter_mut() {
            b.min[axis] = plane(b.min[axis]);
            b.max[axis] = plane(b.max[axis]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn sums_of_sixteenths_meet() {
        let inch = |n| Length::inch(n, 16).get();
        // 3/16 + 5/16 and 1/2 are the same place, though not to the micrometre.
        let mut a = from([0, 0, 0], [inch(3) + inch(5), inch(1), inch(1)]);
        let mut b = from([inch(8), 0, 0], [inch(7), inch(1), inch(1)]);
        assert_ne!(a.max[0], b.min[0], "nothing to test");
        level(&mut [&mut a, &mut b]);
        assert_eq!(a.max[0], b.min[0]);
        assert!(a.is_valid() && b.is_valid());
    }

    #[test]
    fn a_gap_that_somebody_means_stays() {
        let mut a = from([0, 0, 0], [10_000, 10_000, 10_000]);
        let mut b = from([10_100, 0, 0], [10_000, 10_000, 10_000]);
        let before = (a, b);
        level(&mut [&mut a, &mut b]);
        assert_eq!((a, b), before);
    }
}
