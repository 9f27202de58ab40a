//! What of a body is one: what is fastened together is a lump, and moves as one.

use crate::assembly::JointKind;
use crate::geometry::Direction;

use super::scene::{Scene, members};

impl Scene<'_> {
    /// Whether the set can be turned as one: what is fastened together is one lump, and every lump
    /// but the largest is shut in by the others, however it would move.
    pub fn is_one(&self, set: u64, closed: u64) -> bool {
        self.loose(set, closed).is_some_and(|loose| loose.is_empty())
    }

    /// Whether what is finished hangs together: every lump is shut in by the others or slides on
    /// the largest.
    pub fn hangs_together(&self, set: u64, closed: u64) -> bool {
        let Some(loose) = self.loose(set, closed) else { return false };
        let largest = self.lumps(set, closed).first().copied().unwrap_or(0);
        let slides = |lump: u64| {
            members(lump).any(|i| {
                members(self.links_of(i, largest)).any(|l| self.links[l].kind == JointKind::Slide)
            })
        };
        loose.into_iter().all(slides)
    }

    /// The lumps of a set that could move on their own; nothing for an empty set.
    pub fn loose(&self, set: u64, closed: u64) -> Option<Vec<u64>> {
        let lumps = self.lumps(set, closed);
        let shut_in = |lump: u64| {
            Direction::ALL
                .into_iter()
                .all(|d| members(lump).any(|i| self.blocking.leaving(i, d, set & !lump) != 0))
        };
        // The lump of most items is what is turned; the others go with it.
        let (_, others) = lumps.split_first()?;
        Some(others.iter().copied().filter(|&lump| !shut_in(lump)).collect())
    }

    /// What is fastened together, the lump of most items first.
    fn lumps(&self, set: u64, closed: u64) -> Vec<u64> {
        let mut rest = set;
        let mut lumps = Vec::new();
        while rest != 0 {
            let lump = self.lump(rest & rest.wrapping_neg(), closed) & set;
            lumps.push(lump);
            rest &= !lump;
        }
        lumps.sort_by_key(|l| std::cmp::Reverse(l.count_ones()));
        lumps
    }

    /// Everything fastened, over however many joints, to the items it starts from.
    fn lump(&self, from: u64, closed: u64) -> u64 {
        let mut lump = from;
        loop {
            let before = lump;
            for l in members(closed).filter(|&l| self.links[l].fastens) {
                let [a, b] = self.links[l].items.map(|i| 1u64 << i);
                if lump & (a | b) != 0 {
                    lump |= a | b;
                }
            }
            if lump == before {
                return lump;
            }
        }
    }

    /// Whether some parts of the set are fastened in a ring, so that it has diagonals to measure.
    pub fn has_ring(&self, set: u64, closed: u64) -> bool {
        let mut group: Vec<usize> = (0..self.basics).collect();
        for l in members(closed).filter(|&l| self.links[l].fastens) {
            let [a, b] = self.links[l].items.map(|i| group[i]);
            if self.links[l].items.iter().any(|&i| set >> i & 1 == 0) {
                continue;
            }
            if a == b {
                return true;
            }
            for g in &mut group {
                if *g == b {
                    *g = a;
                }
            }
        }
        false
    }
}
