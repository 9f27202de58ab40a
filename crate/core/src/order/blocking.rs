//! What is in whose way.

use crate::geometry::Direction;

use super::bodies::Item;

/// For each direction and item, the items it would run into when moved that way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blocking {
    masks: [Vec<u64>; 6],
}

impl Blocking {
    /// Works it out for all pairs, exactly.
    pub fn new(items: &[Item]) -> Self {
        let masks = Direction::ALL.map(|d| {
            items
                .iter()
                .enumerate()
                .map(|(i, a)| {
                    items.iter().enumerate().fold(0, |mask, (j, b)| {
                        let hit = i != j && a.solid.hits_when_moved(d, &b.solid);
                        mask | (u64::from(hit) << j)
                    })
                })
                .collect()
        });
        Blocking { masks }
    }

    /// Adds the items of `members` as one more item that moves as a whole.
    pub fn add_set(&mut self, members: u64) {
        for masks in &mut self.masks {
            let all = super::scene::members(members).fold(0, |mask, i| mask | masks[i]);
            masks.push(all & !members);
        }
    }

    /// The items of `set` that `item` would meet when it leaves along `direction`.
    pub fn leaving(&self, item: usize, direction: Direction, set: u64) -> u64 {
        self.masks[direction.index()][item] & set
    }

    /// The items of `set` that `item` would meet when it comes in along `direction`.
    pub fn entering(&self, item: usize, direction: Direction, set: u64) -> u64 {
        self.leaving(item, direction.opposite(), set)
    }

    /// Whether `item` cannot leave `set` in any direction.
    pub fn is_captive(&self, item: usize, set: u64) -> bool {
        Direction::ALL.into_iter().all(|d| self.leaving(item, d, set) != 0)
    }
}
