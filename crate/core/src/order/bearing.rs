//! How heavy and how large a set is, and on which faces it stands.

use crate::assembly::Kind;
use crate::geometry::{Box3, Direction, Point};

use super::scene::{Scene, members};
use super::stability;

impl Scene<'_> {
    /// Centre of gravity of a set.
    pub fn centre(&self, set: u64) -> Point {
        let twice = 2 * self.mass(set).max(1);
        std::array::from_fn(|a| {
            let moment: i128 = members(set).map(|i| self.items[i].moments[a]).sum();
            // Nearly always it fits, and is divided many times faster.
            match i64::try_from(moment) {
                Ok(moment) => moment / twice,
                Err(_) => i64::try_from(moment / i128::from(twice)).unwrap_or(0),
            }
        })
    }

    /// The least box around a set.
    pub fn around(&self, set: u64) -> Box3 {
        let mut all = members(set).map(|i| self.items[i].bounds);
        let first = all.next().unwrap_or(Box3::new([0; 3], [0; 3]));
        all.fold(first, |a, b| a.union(&b))
    }

    /// Whether an own item is more than a piece of hardware.
    pub fn is_panel(&self, item: usize) -> bool {
        self.items[item].parts.iter().any(|&p| self.assembly.parts[p].kind == Kind::Panel)
    }

    /// Mass of a set in grams.
    pub fn mass(&self, set: u64) -> i64 {
        members(set).map(|i| self.items[i].mass).sum()
    }

    /// The rectangles in which `set` lies on a bench at `plane`.
    pub fn footprint(&self, set: u64, face: Direction, plane: i64) -> Vec<Box3> {
        members(set)
            .filter(|&i| self.reach[i][face.index()] == plane)
            .flat_map(|i| self.items[i].solid.boxes())
            .filter(|b| b.face(face) * face.sign() == plane)
            .copied()
            .collect()
    }

    /// Whether a rigid set stands on `face` with margin.
    pub fn stands(&self, set: u64, face: Direction) -> bool {
        let key = (set, face.index() as u8);
        if let Some(&known) = self.standing.borrow().get(&key) {
            return known;
        }
        let plane = self.plane(set, face);
        let feet = self.footprint(set, face, plane);
        let (centre, level) = (self.centre(set), plane * face.sign());
        // What stands on one foot stands on all; what would not on one foot as wide as all, does not.
        let on = |foot: &Box3| stability::stands_on_rectangle(centre, foot, face, level);
        let all = feet.iter().skip(1).fold(feet.first().copied(), |all, f| all.map(|a| a.union(f)));
        let stands = all.is_some_and(|all| on(&all))
            && (feet.len() == 1
                || feet.iter().any(on)
                || stability::stands(centre, &feet, face, level));
        self.standing.borrow_mut().insert(key, stands);
        stands
    }
}
