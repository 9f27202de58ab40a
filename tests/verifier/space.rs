//! Solids as columns: the plane across a direction is cut into rectangles at every edge, and each
//! rectangle knows from where to where each solid reaches along that direction. Exact integers;
//! touching is not overlapping.

use serde::Deserialize;

/// Left, front, lower corner, then right, rear, upper corner.
pub type Block = [i64; 6];

/// One of the six directions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Way {
    /// Left.
    #[serde(rename = "-x")]
    Left,
    /// Right.
    #[serde(rename = "+x")]
    Right,
    /// To the front.
    #[serde(rename = "-y")]
    Front,
    /// To the rear.
    #[serde(rename = "+y")]
    Rear,
    /// Down.
    #[serde(rename = "-z")]
    Down,
    /// Up.
    #[serde(rename = "+z")]
    Up,
}

impl Way {
    /// All six.
    pub const ALL: [Way; 6] = [Way::Left, Way::Right, Way::Front, Way::Rear, Way::Down, Way::Up];

    /// 0, 1 or 2.
    pub fn axis(self) -> usize {
        match self {
            Way::Left | Way::Right => 0,
            Way::Front | Way::Rear => 1,
            Way::Down | Way::Up => 2,
        }
    }

    /// The two other axes, in rising order.
    pub fn across(self) -> [usize; 2] {
        match self.axis() {
            0 => [1, 2],
            1 => [0, 2],
            _ => [0, 1],
        }
    }

    /// Whether it points to growing numbers.
    pub fn grows(self) -> bool {
        matches!(self, Way::Right | Way::Rear | Way::Up)
    }

    /// The other way.
    pub fn back(self) -> Way {
        match self {
            Way::Left => Way::Right,
            Way::Right => Way::Left,
            Way::Front => Way::Rear,
            Way::Rear => Way::Front,
            Way::Down => Way::Up,
            Way::Up => Way::Down,
        }
    }

    /// How far along this way a point lies.
    pub fn depth(self, p: [i64; 3]) -> i64 {
        if self.grows() { p[self.axis()] } else { -p[self.axis()] }
    }

    /// Where a block begins and ends along this way.
    pub fn span(self, b: &Block) -> [i64; 2] {
        let a = self.axis();
        if self.grows() { [b[a], b[a + 3]] } else { [-b[a + 3], -b[a]] }
    }

    /// The block between two depths along this way, over the given rectangle across it.
    pub fn block(self, from: i64, to: i64, rect: [[i64; 2]; 2]) -> Block {
        let mut b = [0; 6];
        let a = self.axis();
        (b[a], b[a + 3]) = if self.grows() { (from, to) } else { (-to, -from) };
        for (axis, range) in self.across().into_iter().zip(rect) {
            (b[axis], b[axis + 3]) = (range[0], range[1]);
        }
        b
    }
}

/// Whether the corners are in order.
pub fn is_solid(b: &Block) -> bool {
    (0..3).all(|a| b[a] < b[a + 3])
}

/// The farthest a set of blocks reaches along a way.
pub fn reach(way: Way, blocks: &[Block]) -> Option<i64> {
    blocks.iter().map(|b| way.span(b)[1]).max()
}

/// Sides of a set of blocks taken together.
pub fn extents(blocks: &[Block]) -> Option<[i64; 3]> {
    let mut out = [0; 3];
    for (a, size) in out.iter_mut().enumerate() {
        *size = blocks.iter().map(|b| b[a + 3]).max()? - blocks.iter().map(|b| b[a]).min()?;
    }
    Some(out)
}

/// The cuts of the blocks' edges along an axis, kept to a range.
fn cuts(axis: usize, range: Option<[i64; 2]>, sets: [&[Block]; 2]) -> Vec<i64> {
    let mut all: Vec<i64> =
        sets.into_iter().flatten().flat_map(|b| [b[axis], b[axis + 3]]).collect();
    if let Some([from, to]) = range {
        all.retain(|c| from < *c && *c < to);
        all.extend([from, to]);
    }
    all.sort_unstable();
    all.dedup();
    all
}

/// The rectangles across a way, on each of which every block is either fully there or not at all.
pub fn columns(way: Way, within: Option<[[i64; 2]; 2]>, sets: [&[Block]; 2]) -> Vec<[[i64; 2]; 2]> {
    let [p, q] = way.across();
    let across = cuts(p, within.map(|w| w[0]), sets);
    let along = cuts(q, within.map(|w| w[1]), sets);
    let mut out = Vec::new();
    for u in across.windows(2) {
        for v in along.windows(2) {
            out.push([[u[0], u[1]], [v[0], v[1]]]);
        }
    }
    out
}

/// Where the blocks reach along a way over one column, joined where they touch, in rising order.
pub fn runs(way: Way, column: [[i64; 2]; 2], blocks: &[Block]) -> Vec<[i64; 2]> {
    let [p, q] = way.across();
    let over = |b: &&Block| {
        b[p] <= column[0][0]
            && column[0][1] <= b[p + 3]
            && b[q] <= column[1][0]
            && column[1][1] <= b[q + 3]
    };
    let mut spans: Vec<[i64; 2]> = blocks.iter().filter(over).map(|b| way.span(b)).collect();
    spans.sort_unstable();
    let mut out: Vec<[i64; 2]> = Vec::new();
    for s in spans {
        match out.last_mut() {
            Some(last) if s[0] <= last[1] => last[1] = last[1].max(s[1]),
            _ => out.push(s),
        }
    }
    out
}

/// Whether two solids share space.
pub fn overlap(a: &[Block], b: &[Block]) -> bool {
    // Most pairs lie far apart: no need to cut them up.
    let apart = |way: Way| matches!((reach(way, a), reach(way.back(), b)), (Some(end), Some(start)) if end <= -start);
    if Way::ALL.into_iter().any(apart) {
        return false;
    }
    columns(Way::Right, None, [a, b]).into_iter().any(|column| {
        let (ra, rb) = (runs(Way::Right, column, a), runs(Way::Right, column, b));
        ra.iter().any(|s| rb.iter().any(|t| s[0].max(t[0]) < s[1].min(t[1])))
    })
}

/// Whether a solid that comes from far off and moves along `way` to its place runs into another.
///
/// Over each column its foremost point passes everything up to its end: anything that begins
/// before that is in the way.
pub fn runs_into(way: Way, mover: &[Block], standing: &[Block]) -> bool {
    columns(way, None, [mover, standing]).into_iter().any(|column| {
        let end = runs(way, column, mover).last().map(|r| r[1]);
        let first = runs(way, column, standing).first().map(|r| r[0]);
        matches!((end, first), (Some(end), Some(first)) if first < end)
    })
}

/// Whether a solid in its place can leave along `way` to far off.
pub fn can_leave(way: Way, mover: &[Block], standing: &[Block]) -> bool {
    !runs_into(way.back(), mover, standing)
}

/// The rectangles in which the faces of `a` that look along `way` lie on faces of `b`, each with
/// the depth along `way` at which they lie.
pub fn contacts(way: Way, a: &[Block], b: &[Block]) -> Vec<(i64, [[i64; 2]; 2])> {
    let mut out = Vec::new();
    for column in columns(way, None, [a, b]) {
        let (ra, rb) = (runs(way, column, a), runs(way, column, b));
        for end in ra.iter().map(|r| r[1]) {
            if rb.iter().any(|r| r[0] == end) {
                out.push((end, column));
            }
        }
    }
    out
}

/// Whether two solids share some face area.
pub fn touch(a: &[Block], b: &[Block]) -> bool {
    Way::ALL.into_iter().any(|way| !contacts(way, a, b).is_empty())
}

/// Whether a point lies in or on one of the blocks.
pub fn holds_point(blocks: &[Block], p: [i64; 3]) -> bool {
    blocks.iter().any(|b| (0..3).all(|a| b[a] <= p[a] && p[a] <= b[a + 3]))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    type Cells = BTreeSet<[i64; 3]>;

    /// A solid of unit cells, three blocks at most, apart from `taken`.
    fn random(state: &mut u64, taken: &Cells) -> (Vec<Block>, Cells) {
        let mut roll = |n: u64| {
            *state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            i64::try_from((*state >> 33) % n).unwrap_or(0)
        };
        let (mut blocks, mut cells) = (Vec::new(), Cells::new());
        for _ in 0..3 {
            let low = [roll(5), roll(5), roll(5)];
            let high = low.map(|l| l + 1 + roll(3));
            let mut fresh = Cells::new();
            for x in low[0]..high[0] {
                for y in low[1]..high[1] {
                    fresh.extend((low[2]..high[2]).map(|z| [x, y, z]));
                }
            }
            if fresh.is_disjoint(&cells) && fresh.is_disjoint(taken) {
                blocks.push([low[0], low[1], low[2], high[0], high[1], high[2]]);
                cells.extend(fresh);
            }
        }
        (blocks, cells)
    }

    fn moved(cells: &Cells, way: Way, by: i64) -> Cells {
        let by = if way.grows() { by } else { -by };
        let shift = |c: &[i64; 3]| {
            let mut c = *c;
            c[way.axis()] += by;
            c
        };
        cells.iter().map(shift).collect()
    }

    /// The columns say what counting cells one by one says.
    #[test]
    fn columns_agree_with_counted_cells() {
        let (mut state, mut hits, mut frees, mut touches) = (1, 0, 0, 0);
        for _ in 0..2_000 {
            let (a, in_a) = random(&mut state, &Cells::new());
            let (b, in_b) = random(&mut state, &Cells::new());
            assert_eq!(overlap(&a, &b), !in_a.is_disjoint(&in_b), "{a:?} {b:?}");
            let (b, in_b) = random(&mut state, &in_a);
            for way in Way::ALL {
                let hit = (0..10).any(|t| !moved(&in_a, way.back(), t).is_disjoint(&in_b));
                assert_eq!(runs_into(way, &a, &b), hit, "{way:?} {a:?} {b:?}");
                assert_eq!(can_leave(way.back(), &a, &b), !hit, "{way:?} {a:?} {b:?}");
                let face = !moved(&in_a, way, 1).is_disjoint(&in_b);
                let shared = contacts(way, &a, &b);
                assert_eq!(!shared.is_empty(), face, "{way:?} {a:?} {b:?}");
                let area: i64 =
                    shared.iter().map(|(_, [u, v])| (u[1] - u[0]) * (v[1] - v[0])).sum();
                let counted = moved(&in_a, way, 1).intersection(&in_b).count();
                assert_eq!(area, i64::try_from(counted).unwrap_or(-1), "{way:?} {a:?} {b:?}");
                hits += usize::from(hit);
                frees += usize::from(!hit);
                touches += usize::from(face);
            }
        }
        assert!(hits > 500 && frees > 500 && touches > 500, "{hits} {frees} {touches}");
    }
}
