//! The ways to take something apart in two hands: its AND/OR graph, counted.
//!
//! A *subassembly* is a set of parts that hang together. A *split* parts it into two subassemblies;
//! read backwards it is a join. The subassemblies that splits reach from the whole, with all their
//! splits, are the AND/OR graph of L. S. Homem de Mello and A. C. Sanderson, "AND/OR graph
//! representation of assembly plans" (1986, 1990): its nodes and its hyperarcs. It rests on their
//! assumptions: two bodies are joined at a time, what is joined stays joined, and whether a join can
//! be made does not depend on how the two came about. So it says what *could* come apart; what the
//! drill reaches, what stands and what must be held is for the search.
//!
//! Sets are words with a bit for each part. Everything is counted in whole numbers, and a count that
//! does not fit is none.

use std::collections::{BTreeMap, BTreeSet};

use crate::geometry::Direction;

use super::blocking::Blocking;
use super::bodies::Item;
use super::scene::members;

/// Most parts of one product.
pub const MOST_PARTS: usize = 20;

/// Most halves looked at, and most partitions: a product with more is too large to count.
pub const MOST_WORK: usize = 5_000_000;

/// The directions in which every item of `half` leaves `rest` without meeting any of it, all of it
/// moving as one.
///
/// This is the blocking graph of R. H. Wilson and J.-C. Latombe, "Geometric reasoning about
/// mechanical assembly", Artificial Intelligence 71 (1994), asked for one split: a half is free
/// along a direction when no arc leaves it.
pub fn free_directions(blocking: &Blocking, half: u64, rest: u64) -> Vec<Direction> {
    let free = |d: &Direction| members(half).all(|i| blocking.leaving(i, *d, rest) == 0);
    Direction::ALL.into_iter().filter(free).collect()
}

/// All that a product can be split into.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Splits {
    whole: u64,
    halves: BTreeMap<u64, Vec<u64>>,
}

/// What an AND/OR graph comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counts {
    /// Subassemblies reached from the whole, the whole and the single parts among them.
    pub nodes: u128,
    /// Splits of them.
    pub hyperarcs: u128,
    /// Choices of one split for each subassembly that comes up, down to single parts.
    pub trees: u128,
    /// Orders of the joins, one less than there are parts: a tree whose branches hold a and b joins
    /// counts once for each way to interleave them.
    pub orders: u128,
    /// Orders that add one part at a time; which of the first two was there first does not count.
    pub linear: u128,
}

/// Partitions of the parts into subassemblies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct States {
    /// Those reached from the whole by splits of one block at a time.
    pub states: u128,
    /// Pairs of a state and a split of one of its blocks.
    pub edges: u128,
}

impl Splits {
    /// Splits a product of as many parts as `liaisons` has entries: entry i is the set of parts that
    /// part i is joined to. `feasible` is asked for two halves that each hang together and says
    /// whether they can be parted; it must not care which comes first.
    ///
    /// None when there are no parts or more than [`MOST_PARTS`], when they do not hang together, or
    /// with more than [`MOST_WORK`] halves to look at.
    ///
    /// ```
    /// use jointwise::order::splits::Splits;
    /// // Four boards joined end to end in a ring, each free to come off.
    /// let ring = Splits::new(&[0b1010, 0b0101, 0b1010, 0b0101], |_, _| true).unwrap();
    /// let counts = ring.counts().unwrap();
    /// assert_eq!((counts.nodes, counts.hyperarcs), (13, 18));
    /// assert_eq!((counts.trees, counts.orders, counts.linear), (10, 12, 8));
    /// ```
    pub fn new(liaisons: &[u64], mut feasible: impl FnMut(u64, u64) -> bool) -> Option<Splits> {
        if liaisons.is_empty() || liaisons.len() > MOST_PARTS {
            return None;
        }
        let whole = (1u64 << liaisons.len()) - 1;
        if !hangs_together(whole, liaisons) {
            return None;
        }
        let mut halves = BTreeMap::new();
        let mut open = vec![whole];
        let mut work = 0;
        while let Some(set) = open.pop() {
            if halves.contains_key(&set) {
                continue;
            }
            let mut found = Vec::new();
            // The half with the lowest part, so that no split comes twice.
            let lowest = set & set.wrapping_neg();
            let others = set & !lowest;
            let mut taken = others;
            while taken != 0 {
                work += 1;
                if work > MOST_WORK {
                    return None;
                }
                taken = (taken - 1) & others;
                let (half, rest) = (lowest | taken, others & !taken);
                if hangs_together(half, liaisons)
                    && hangs_together(rest, liaisons)
                    && feasible(half, rest)
                {
                    found.push(half);
                    open.extend([half, rest]);
                }
            }
            found.sort_unstable();
            halves.insert(set, found);
        }
        Some(Splits { whole, halves })
    }

    /// Splits a body: items that share a face are joined, and two halves part when one of the six
    /// directions is free. None as for [`Splits::new`].
    pub fn of_items(items: &[Item], blocking: &Blocking) -> Option<Splits> {
        if items.len() > MOST_PARTS {
            return None;
        }
        let touching = |(i, a): (usize, &Item)| {
            items.iter().enumerate().fold(0, |set, (j, b)| {
                let joined = i != j && !a.solid.contacts(&b.solid).is_empty();
                set | (u64::from(joined) << j)
            })
        };
        let liaisons: Vec<u64> = items.iter().enumerate().map(touching).collect();
        Splits::new(&liaisons, |half, rest| !free_directions(blocking, half, rest).is_empty())
    }

    /// All parts.
    pub fn whole(&self) -> u64 {
        self.whole
    }

    /// Every subassembly with its splits, each as the half that holds its lowest part.
    pub fn nodes(&self) -> &BTreeMap<u64, Vec<u64>> {
        &self.halves
    }

    /// The splits of a subassembly as pairs of halves; none when it is never reached.
    pub fn of(&self, set: u64) -> Vec<[u64; 2]> {
        let halves = self.halves.get(&set).map_or(&[][..], Vec::as_slice);
        halves.iter().map(|&half| [half, set & !half]).collect()
    }

    /// Counts the graph; none when a count does not fit.
    pub fn counts(&self) -> Option<Counts> {
        // What is smaller comes first: a half before what it is a half of.
        let mut sets: Vec<u64> = self.halves.keys().copied().collect();
        sets.sort_by_key(|s| s.count_ones());
        let mut known: BTreeMap<u64, [u128; 3]> = BTreeMap::new();
        let mut hyperarcs = 0u128;
        for set in sets {
            if set.count_ones() == 1 {
                known.insert(set, [1; 3]);
                continue;
            }
            let mut sums = [0u128; 3];
            for [half, rest] in self.of(set) {
                hyperarcs += 1;
                let ([t1, o1, l1], [t2, o2, l2]) = (known.get(&half)?, known.get(&rest)?);
                let [a, b] = [half, rest].map(|s| s.count_ones() - 1);
                let ways = binomial(a + b, a)?;
                let linear = if a == 0 || b == 0 { l1.checked_mul(*l2)? } else { 0 };
                let add = [t1.checked_mul(*t2)?, o1.checked_mul(*o2)?.checked_mul(ways)?, linear];
                for (sum, more) in sums.iter_mut().zip(add) {
                    *sum = sum.checked_add(more)?;
                }
            }
            known.insert(set, sums);
        }
        let [trees, orders, linear] = *known.get(&self.whole)?;
        Some(Counts { nodes: self.halves.len() as u128, hyperarcs, trees, orders, linear })
    }

    /// Counts the partitions; none when there are more than [`MOST_WORK`].
    pub fn states(&self) -> Option<States> {
        let mut seen = BTreeSet::from([vec![self.whole]]);
        let mut open = vec![vec![self.whole]];
        let mut edges = 0;
        while let Some(state) = open.pop() {
            for (at, &block) in state.iter().enumerate() {
                for pair in self.of(block) {
                    edges += 1;
                    let mut next = state.clone();
                    next.splice(at..=at, pair);
                    next.sort_unstable();
                    if !seen.contains(&next) {
                        if seen.len() == MOST_WORK {
                            return None;
                        }
                        seen.insert(next.clone());
                        open.push(next);
                    }
                }
            }
        }
        Some(States { states: seen.len() as u128, edges })
    }
}

/// Whether the parts of a set are one over their liaisons.
fn hangs_together(set: u64, liaisons: &[u64]) -> bool {
    let mut reached = set & set.wrapping_neg();
    loop {
        let near = members(reached).fold(reached, |all, i| all | liaisons[i]) & set;
        if near == reached {
            return reached == set;
        }
        reached = near;
    }
}

/// The number of ways to choose `k` of `n`.
fn binomial(n: u32, k: u32) -> Option<u128> {
    // Multiplied before divided: each step is a binomial itself, so nothing is lost.
    (0..u128::from(k)).try_fold(1u128, |ways, i| {
        ways.checked_mul(u128::from(n) - i).map(|product| product / (i + 1))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn too_many_parts_or_none_are_not_counted() {
        assert_eq!(Splits::new(&[], |_, _| true), None);
        assert_eq!(Splits::new(&[0; MOST_PARTS + 1], |_, _| true), None);
        let all = (1u64 << MOST_PARTS) - 1;
        assert_eq!(Splits::new(&[all; MOST_PARTS], |_, _| true), None);
    }

    #[test]
    fn a_single_part_is_there_already() {
        let counts = Splits::new(&[0], |_, _| true).and_then(|s| s.counts()).unwrap();
        assert_eq!((counts.nodes, counts.hyperarcs, counts.trees, counts.orders), (1, 0, 1, 1));
    }

    #[test]
    fn parts_that_are_not_joined_make_no_whole() {
        assert_eq!(Splits::new(&[0, 0], |_, _| true), None);
    }

    #[test]
    fn the_longest_chain_is_counted() {
        let chain: Vec<u64> = (0..20).map(|i| (5u64 << i >> 1) & ((1 << MOST_PARTS) - 1)).collect();
        let counts = Splits::new(&chain, |_, _| true).and_then(|s| s.counts()).unwrap();
        assert_eq!((counts.nodes, counts.hyperarcs), (210, 1330));
        // Nineteen joins in any order.
        assert_eq!(counts.orders, (1..=19).product());
    }
}
