//! Boxes along the axes: its own arithmetic, so that a slip in the library's is seen.

/// A point in micrometres.
pub type Point = [i64; 3];

/// One of the six directions, `-x +x -y +y -z +z` as 0 to 5; also names the faces.
pub type Way = usize;

/// All of them.
pub const WAYS: [Way; 6] = [0, 1, 2, 3, 4, 5];

/// The axis along a direction.
pub fn axis(way: Way) -> usize {
    way / 2
}

/// The direction the other way.
pub fn back(way: Way) -> Way {
    way ^ 1
}

/// +1 towards growing coordinates, else -1.
pub fn sign(way: Way) -> i64 {
    if way % 2 == 1 { 1 } else { -1 }
}

/// The direction along an axis.
pub fn along(axis: usize, growing: bool) -> Way {
    axis * 2 + usize::from(growing)
}

/// The two axes across one, in order.
pub fn across(axis: usize) -> [usize; 2] {
    match axis {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    }
}

/// A box from its lowest to its highest corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Block {
    /// Lowest corner.
    pub lo: Point,
    /// Highest corner.
    pub hi: Point,
}

impl Block {
    /// Coordinate of the face on that side.
    pub fn end(&self, way: Way) -> i64 {
        if sign(way) > 0 { self.hi[axis(way)] } else { self.lo[axis(way)] }
    }

    /// How far it reaches in a direction: more is further.
    pub fn reach(&self, way: Way) -> i64 {
        self.end(way) * sign(way)
    }

    /// Size along an axis.
    pub fn size(&self, axis: usize) -> i64 {
        self.hi[axis] - self.lo[axis]
    }

    /// Length that the two share along an axis; less than nothing when they are apart.
    pub fn shared(&self, other: &Block, axis: usize) -> i64 {
        self.hi[axis].min(other.hi[axis]) - self.lo[axis].max(other.lo[axis])
    }

    /// Whether the two take some of the same room.
    pub fn meets(&self, other: &Block) -> bool {
        (0..3).all(|a| self.shared(other, a) > 0)
    }

    /// Whether it runs into `other` somewhere on its way, however far it goes.
    pub fn runs_into(&self, way: Way, other: &Block) -> bool {
        let level = across(axis(way)).into_iter().all(|a| self.shared(other, a) > 0);
        level && other.reach(way) > -self.reach(back(way))
    }

    /// The least box around both.
    pub fn with(&self, other: &Block) -> Block {
        let mut all = *self;
        for a in 0..3 {
            all.lo[a] = all.lo[a].min(other.lo[a]);
            all.hi[a] = all.hi[a].max(other.hi[a]);
        }
        all
    }

    /// Whether a point is in it or on its skin.
    pub fn holds(&self, p: Point) -> bool {
        (0..3).all(|a| self.lo[a] <= p[a] && p[a] <= self.hi[a])
    }

    /// Volume in cubic micrometres.
    pub fn volume(&self) -> i128 {
        (0..3).map(|a| i128::from(self.size(a))).product()
    }
}

/// The least box around some.
pub fn around(blocks: &[Block]) -> Block {
    blocks.iter().skip(1).fold(blocks[0], |all, b| all.with(b))
}

/// Whether any of the one meets any of the other.
pub fn any_meet(a: &[Block], b: &[Block]) -> bool {
    a.iter().any(|x| b.iter().any(|y| x.meets(y)))
}

/// Whether the one, moved, runs into the other.
pub fn any_runs_into(a: &[Block], way: Way, b: &[Block]) -> bool {
    a.iter().any(|x| b.iter().any(|y| x.runs_into(way, y)))
}

/// A rectangle that two solids share.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Contact {
    /// From the first to the second.
    pub way: Way,
    /// The rectangle, a box without thickness.
    pub face: Block,
    /// Its area.
    pub area: i128,
}

/// All rectangles that two solids share, by direction and then by place.
pub fn contacts(a: &[Block], b: &[Block]) -> Vec<Contact> {
    let mut found = Vec::new();
    for x in a {
        for y in b {
            for way in WAYS {
                let [u, v] = across(axis(way));
                if x.end(way) != y.end(back(way)) || x.shared(y, u) <= 0 || x.shared(y, v) <= 0 {
                    continue;
                }
                let mut face = *x;
                for s in [u, v] {
                    face.lo[s] = x.lo[s].max(y.lo[s]);
                    face.hi[s] = x.hi[s].min(y.hi[s]);
                }
                face.lo[axis(way)] = x.end(way);
                face.hi[axis(way)] = x.end(way);
                let area = i128::from(x.shared(y, u)) * i128::from(x.shared(y, v));
                found.push(Contact { way, face, area });
            }
        }
    }
    found.sort_by_key(|c| (c.way, c.face));
    found
}

/// The largest of some contacts; of equals the first.
pub fn largest(contacts: &[Contact]) -> Option<Contact> {
    let mut best: Option<Contact> = None;
    for c in contacts {
        if best.is_none_or(|b| c.area > b.area) {
            best = Some(*c);
        }
    }
    best
}
