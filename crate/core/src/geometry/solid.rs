//! A part's body: boxes that touch but never overlap, with grooves and notches cut out.

use serde::{Deserialize, Serialize};

use super::{Box3, Direction, Point};

/// A union of disjoint boxes. The outer box minus its cuts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Solid {
    boxes: Vec<Box3>,
}

/// A face that two solids share.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Contact {
    /// From the first solid to the second, across the face.
    pub direction: Direction,
    /// The shared rectangle, as a box without thickness along `direction`.
    pub face: Box3,
}

impl Contact {
    /// Area in square micrometres.
    pub fn area(&self) -> i128 {
        let axis = self.direction.axis();
        (0..3).filter(|&a| a != axis).map(|a| i128::from(self.face.extent(a))).product()
    }
}

impl Solid {
    /// A whole box.
    pub fn new(outer: Box3) -> Self {
        Solid { boxes: vec![outer] }
    }

    /// A solid from boxes that the caller knows to be disjoint.
    pub fn from_boxes(boxes: Vec<Box3>) -> Self {
        Solid { boxes }
    }

    /// The boxes, disjoint, in a fixed order: as given, sorted once something was cut.
    pub fn boxes(&self) -> &[Box3] {
        &self.boxes
    }

    /// Takes `cut` away, splitting the boxes it meets into at most six each.
    ///
    /// ```
    /// use jointwise::geometry::{Box3, Solid};
    /// let mut side = Solid::new(Box3::new([0, 0, 0], [18, 560, 720]));
    /// side.cut(&Box3::new([12, 0, 350], [18, 560, 368]));
    /// assert_eq!(side.volume(), 18 * 560 * 720 - 6 * 560 * 18);
    /// ```
    pub fn cut(&mut self, cut: &Box3) {
        let mut rest = Vec::with_capacity(self.boxes.len() + 5);
        for piece in &self.boxes {
            let Some(gone) = piece.intersection(cut) else {
                rest.push(*piece);
                continue;
            };
            // Peel a slab off each side of the cut; what is left at the end is the cut itself.
            let mut core = *piece;
            for axis in 0..3 {
                if core.min[axis] < gone.min[axis] {
                    let mut slab = core;
                    slab.max[axis] = gone.min[axis];
                    rest.push(slab);
                    core.min[axis] = gone.min[axis];
                }
                if core.max[axis] > gone.max[axis] {
                    let mut slab = core;
                    slab.min[axis] = gone.max[axis];
                    rest.push(slab);
                    core.max[axis] = gone.max[axis];
                }
            }
        }
        rest.sort_unstable();
        self.boxes = rest;
    }

    /// The least box around the solid; a box of nothing when it is empty.
    pub fn bounds(&self) -> Box3 {
        let mut all = self.boxes.iter();
        let first = all.next().copied().unwrap_or(Box3::new([0; 3], [0; 3]));
        all.fold(first, |a, b| a.union(b))
    }

    /// Volume in cubic micrometres.
    pub fn volume(&self) -> i128 {
        self.boxes.iter().map(Box3::volume).sum()
    }

    /// Twice the first moments (volume times centre) along the three axes,
    /// exact; divide by twice the volume for the centre of gravity.
    pub fn doubled_moments(&self) -> [i128; 3] {
        std::array::from_fn(|a| {
            self.boxes.iter().map(|b| b.volume() * i128::from(b.min[a] + b.max[a])).sum()
        })
    }

    /// Whether the insides of the two solids share space.
    pub fn intersects(&self, other: &Solid) -> bool {
        self.boxes.iter().any(|a| other.boxes.iter().any(|b| a.intersects(b)))
    }

    /// Whether the solid holds the point in its inside or on its skin.
    pub fn holds(&self, p: Point) -> bool {
        self.boxes.iter().any(|b| (0..3).all(|a| b.min[a] <= p[a] && p[a] <= b.max[a]))
    }

    /// Whether this solid, moved along `direction`, would run into `other`.
    pub fn hits_when_moved(&self, direction: Direction, other: &Solid) -> bool {
        self.boxes.iter().any(|a| other.boxes.iter().any(|b| a.hits_when_moved(direction, b)))
    }

    /// All faces shared with `other`, in a fixed order.
    pub fn contacts(&self, other: &Solid) -> Vec<Contact> {
        let mut found = Vec::new();
        for a in &self.boxes {
            for b in &other.boxes {
                for direction in Direction::ALL {
                    let axis = direction.axis();
                    if a.face(direction) != b.face(direction.opposite()) {
                        continue;
                    }
                    if (0..3).filter(|&i| i != axis).any(|i| a.overlap(b, i) <= 0) {
                        continue;
                    }
                    let face = Box3 {
                        min: std::array::from_fn(|i| {
                            if i == axis { a.face(direction) } else { a.min[i].max(b.min[i]) }
                        }),
                        max: std::array::from_fn(|i| {
                            if i == axis { a.face(direction) } else { a.max[i].min(b.max[i]) }
                        }),
                    };
                    found.push(Contact { direction, face });
                }
            }
        }
        found.sort_unstable();
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cut_leaves_disjoint_boxes_of_the_right_volume() {
        let mut s = Solid::new(Box3::new([0; 3], [10, 20, 30]));
        s.cut(&Box3::new([2, 3, 4], [5, 6, 7]));
        s.cut(&Box3::new([4, 5, 6], [50, 7, 8]));
        let overlap = 1; // [4,5]x[5,6]x[6,7]
        assert_eq!(s.volume(), 6000 - 27 - 6 * 2 * 2 + overlap);
        for (i, a) in s.boxes().iter().enumerate() {
            assert!(a.is_valid());
            assert!(s.boxes()[i + 1..].iter().all(|b| !a.intersects(b)));
        }
    }

    #[test]
    fn a_through_dado_lets_the_shelf_out_to_front_and_back_only() {
        let mut side = Solid::new(Box3::new([0, 0, 0], [18, 560, 720]));
        side.cut(&Box3::new([12, 0, 350], [18, 560, 368]));
        let shelf = Solid::new(Box3::new([12, 0, 350], [500, 560, 368]));
        assert!(!shelf.intersects(&side));
        let free: Vec<_> =
            Direction::ALL.into_iter().filter(|&d| !shelf.hits_when_moved(d, &side)).collect();
        assert_eq!(free, [Direction::Right, Direction::Front, Direction::Back]);
        let touching: Vec<_> = shelf.contacts(&side).iter().map(|c| c.direction).collect();
        assert_eq!(touching, [Direction::Left, Direction::Down, Direction::Up]);
    }

    #[test]
    fn contacts_of_boxes_apart_or_edge_to_edge_are_none() {
        let a = Solid::new(Box3::new([0; 3], [10; 3]));
        assert!(a.contacts(&Solid::new(Box3::new([10, 10, 0], [20, 20, 10]))).is_empty());
        assert!(a.contacts(&Solid::new(Box3::new([11, 0, 0], [20, 10, 10]))).is_empty());
        let c = a.contacts(&Solid::new(Box3::new([10, 4, 0], [20, 10, 10])));
        assert_eq!((c.len(), c[0].area()), (1, 60));
    }
}
