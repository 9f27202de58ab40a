//! Which box is drawn before which, so that what is nearer covers what is farther.
//!
//! All boxes are in view axes: the eye looks along (-1, -1, -1), so growing coordinates are
//! nearer on every axis. For two boxes that are apart, a gap on any axis tells which is behind;
//! where their pictures overlap, all such axes agree. Three or more boxes may still lie behind
//! one another in a ring; then one of them is split along a face of another, which ends because
//! every cut lies in one of the finitely many planes given at the start.

/// A box in view axes, with the index of what it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ViewBox {
    /// Far corner.
    pub min: [i128; 3],
    /// Near corner.
    pub max: [i128; 3],
    /// What it is a piece of; kept when it is split.
    pub item: usize,
    /// Whether it may be split; a screw stays whole.
    pub splits: bool,
}

/// Beyond this much work (splits times the square of the boxes left) rings are broken by depth
/// of the centres: a drawing must come, and come soon, even of a plan that makes no sense.
const WORK: usize = 10_000_000;

/// Beyond so many boxes the order is by depth of the centres alone.
const MOST: usize = 2_000;

impl ViewBox {
    /// Whether the corners are in order on every axis.
    pub fn is_valid(&self) -> bool {
        self.min.iter().zip(&self.max).all(|(a, b)| a < b)
    }

    /// Twice the depth of the centre, times three: greater is nearer.
    fn nearness(&self) -> i128 {
        self.min.iter().sum::<i128>() + self.max.iter().sum::<i128>()
    }

    /// The extent of the picture across the three directions of its hexagon's sides.
    fn spans(&self) -> [(i128, i128); 3] {
        let [x0, y0, z0] = self.min;
        let [x1, y1, z1] = self.max;
        [(x0 - y1, x1 - y0), (y0 - z1, y1 - z0), (z0 - x1, z1 - x0)]
    }

    /// Whether the pictures of the two share more than a line.
    fn overlaps_in_picture(&self, other: &ViewBox) -> bool {
        let pairs = self.spans().into_iter().zip(other.spans());
        pairs.into_iter().all(|((a0, a1), (b0, b1))| a0 < b1 && b0 < a1)
    }

    /// Whether this box must be drawn before the other.
    fn behind(&self, other: &ViewBox) -> bool {
        if !self.overlaps_in_picture(other) {
            return false;
        }
        if self.max.iter().zip(&other.min).any(|(a, b)| a <= b) {
            return true;
        }
        if other.max.iter().zip(&self.min).any(|(a, b)| a <= b) {
            return false;
        }
        // They run into each other: no right answer exists, but there must be one.
        self.nearness() < other.nearness()
    }

    /// The two parts on either side of the first face of `other` that goes through this box.
    fn split_by(&self, other: &ViewBox) -> Option<[ViewBox; 2]> {
        if !self.splits {
            return None;
        }
        let axes = self.min.iter().zip(&self.max).zip(other.min.iter().zip(&other.max));
        let (axis, at) = axes.enumerate().find_map(|(axis, ((lo, hi), (a, b)))| {
            [a, b].into_iter().find(|p| lo < *p && *p < hi).map(|p| (axis, *p))
        })?;
        let (mut far, mut near) = (*self, *self);
        *far.max.get_mut(axis)? = at;
        *near.min.get_mut(axis)? = at;
        Some([far, near])
    }
}

/// The least box around all boxes given.
pub fn bounds<'b>(boxes: impl IntoIterator<Item = &'b ViewBox>) -> Option<ViewBox> {
    boxes.into_iter().copied().reduce(|a, b| {
        let pick = |p: [i128; 3], q: [i128; 3], f: fn(i128, i128) -> i128| {
            let [[a, b, c], [d, e, g]] = [p, q];
            [f(a, d), f(b, e), f(c, g)]
        };
        ViewBox { min: pick(a.min, b.min, i128::min), max: pick(a.max, b.max, i128::max), ..a }
    })
}

/// The boxes from the farthest to the nearest, some of them split. The same boxes in the same
/// order always give the same answer.
pub fn back_to_front(boxes: &[ViewBox]) -> Vec<ViewBox> {
    let mut left: Vec<ViewBox> = boxes.iter().copied().filter(ViewBox::is_valid).collect();
    let mut drawn = Vec::with_capacity(left.len());
    if left.len() > MOST {
        left.sort_by_key(ViewBox::nearness);
        return left;
    }
    let mut work = 0_usize;
    while !left.is_empty() {
        let (free, stuck) = peel(&left);
        drawn.extend(free);
        left = stuck;
        if left.is_empty() {
            break;
        }
        work = work.saturating_add(left.len().saturating_mul(left.len()));
        if work > WORK || !split_a_ring(&mut left) {
            let farthest = (0..left.len()).min_by_key(|&i| left.get(i).map(ViewBox::nearness));
            drawn.push(left.remove(farthest.unwrap_or(0)));
        }
    }
    drawn
}

/// Takes away, again and again, the first box that nothing left is behind. What cannot be taken
/// is, or lies in front of, a ring.
fn peel(boxes: &[ViewBox]) -> (Vec<ViewBox>, Vec<ViewBox>) {
    let mut before = vec![0_usize; boxes.len()];
    let mut after: Vec<Vec<usize>> = vec![Vec::new(); boxes.len()];
    for (i, (a, list)) in boxes.iter().zip(&mut after).enumerate() {
        for (j, (b, count)) in boxes.iter().zip(&mut before).enumerate() {
            if i != j && a.behind(b) {
                list.push(j);
                *count += 1;
            }
        }
    }
    let mut ready: std::collections::BTreeSet<usize> =
        before.iter().enumerate().filter(|(_, n)| **n == 0).map(|(i, _)| i).collect();
    let mut taken = vec![false; boxes.len()];
    let mut free = Vec::new();
    while let Some(i) = ready.pop_first() {
        let (Some(a), Some(list)) = (boxes.get(i), after.get(i)) else {
            continue;
        };
        free.push(*a);
        if let Some(t) = taken.get_mut(i) {
            *t = true;
        }
        for &j in list {
            if let Some(count) = before.get_mut(j) {
                *count -= 1;
                if *count == 0 {
                    ready.insert(j);
                }
            }
        }
    }
    let stuck = boxes.iter().zip(&taken).filter(|(_, t)| !**t).map(|(b, _)| *b).collect();
    (free, stuck)
}

/// Splits one box of a ring by a face of another of the same ring. False if none can be split,
/// which only happens when boxes run into each other or are not to be split.
fn split_a_ring(left: &mut Vec<ViewBox>) -> bool {
    let ring = ring(left);
    for &i in &ring {
        for &j in &ring {
            let (Some(a), Some(b)) = (left.get(i), left.get(j)) else {
                continue;
            };
            if let Some([far, near]) = a.split_by(b) {
                if let Some(place) = left.get_mut(i) {
                    *place = far;
                }
                left.insert(i + 1, near);
                return true;
            }
        }
    }
    false
}

/// A ring among boxes each of which has one behind it: walk back until a box comes again.
fn ring(left: &[ViewBox]) -> Vec<usize> {
    let mut path: Vec<usize> = Vec::new();
    let mut at = 0;
    loop {
        if let Some(from) = path.iter().position(|&p| p == at) {
            return path.split_off(from);
        }
        path.push(at);
        let Some(here) = left.get(at) else {
            return path;
        };
        match left.iter().position(|other| other != here && other.behind(here)) {
            Some(next) => at = next,
            None => return path,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A small generator of our own: the tests must give the same boxes everywhere.
    struct Dice(u64);

    impl Dice {
        fn roll(&mut self, sides: i128) -> i128 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            i128::from(self.0 >> 33) % sides
        }
    }

    fn boxed(item: usize, min: [i128; 3], size: [i128; 3]) -> ViewBox {
        let max = std::array::from_fn(|a| min[a] + size[a]);
        ViewBox { min, max, item, splits: true }
    }

    fn apart(a: &ViewBox, b: &ViewBox) -> bool {
        (0..3).any(|k| a.max[k] <= b.min[k] || b.max[k] <= a.min[k])
    }

    /// Where the ray (p + t) with t along (1, 1, 1) leaves the box, if it goes through its inside.
    fn leaves(b: &ViewBox, p: [i128; 3]) -> Option<i128> {
        let enter = (0..3).map(|k| b.min[k] - p[k]).max()?;
        let leave = (0..3).map(|k| b.max[k] - p[k]).min()?;
        (enter < leave).then_some(leave)
    }

    /// Compares what is drawn last at each sample with what a ray meets first.
    fn compare(boxes: &[ViewBox], reach: i128) -> usize {
        let drawn = back_to_front(boxes);
        let volume = |all: &[ViewBox]| -> i128 {
            all.iter().map(|b| (0..3).map(|k| b.max[k] - b.min[k]).product::<i128>()).sum()
        };
        assert_eq!(volume(&drawn), volume(boxes), "splitting loses nothing");
        let mut hits = 0;
        for a in -reach..reach {
            for b in -reach..reach {
                // Corners are multiples of 6 and these samples never are, nor their differences,
                // so no ray runs along an edge.
                let p = [6 * a + 1, 6 * b + 3, 0];
                let seen = boxes.iter().filter_map(|v| leaves(v, p).map(|t| (t, v.item))).max();
                let painted = drawn.iter().rev().find(|v| leaves(v, p).is_some()).map(|v| v.item);
                assert_eq!(painted, seen.map(|s| s.1), "at {p:?} of {boxes:?}");
                hits += usize::from(painted.is_some());
            }
        }
        hits
    }

    #[test]
    fn what_is_painted_last_is_what_a_ray_meets_first() {
        let mut dice = Dice(7);
        let (mut hits, mut rings) = (0, 0);
        for round in 0..80 {
            let mut boxes: Vec<ViewBox> = Vec::new();
            for _ in 0..60 {
                // Sticks, panels and blocks: thin things make rings.
                let size: [i128; 3] = std::array::from_fn(|_| {
                    6 * if dice.roll(2) == 0 { 1 + dice.roll(2) } else { 1 + dice.roll(14) }
                });
                let min = std::array::from_fn(|_| 6 * dice.roll(14));
                let b = boxed(boxes.len(), min, size);
                if boxes.iter().all(|o| apart(o, &b)) && boxes.len() < 6 + round % 14 {
                    boxes.push(b);
                }
            }
            hits += compare(&boxes, 30);
            rings += usize::from(peel(&boxes).0.len() < boxes.len());
        }
        assert!(rings > 0, "the boxes must make rings");
        assert!(hits > 10_000, "the samples must meet boxes: {hits}");
    }

    /// Three sticks, each of which lies behind the next.
    fn three_in_a_ring() -> [ViewBox; 3] {
        [
            boxed(0, [-90, 60, 0], [240, 12, 12]),
            boxed(1, [0, -90, 60], [12, 240, 12]),
            boxed(2, [60, 0, -90], [12, 12, 240]),
        ]
    }

    #[test]
    fn a_ring_is_split_and_then_right() {
        let boxes = three_in_a_ring();
        assert!(peel(&boxes).0.is_empty(), "this must be a ring");
        let drawn = back_to_front(&boxes);
        assert!(drawn.len() > 3);
        compare(&boxes, 40);
    }

    #[test]
    fn boxes_that_run_into_each_other_still_come_out() {
        let mut dice = Dice(3);
        let boxes: Vec<_> = (0..60)
            .map(|i| {
                let min = std::array::from_fn(|_| dice.roll(30));
                boxed(i, min, std::array::from_fn(|_| 1 + dice.roll(30)))
            })
            .collect();
        let drawn = back_to_front(&boxes);
        let items: std::collections::BTreeSet<_> = drawn.iter().map(|b| b.item).collect();
        assert_eq!(items.len(), boxes.len());
    }

    #[test]
    fn a_box_without_inside_is_left_out() {
        assert!(back_to_front(&[boxed(0, [0; 3], [1, 0, 1])]).is_empty());
    }
}
