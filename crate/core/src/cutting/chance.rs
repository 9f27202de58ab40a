//! Seeded chance: the same seed gives the same throws on every machine.

/// A generator of 64-bit numbers.
///
/// Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (2003), issue 14, triple 13, 7, 17; the seed is
/// spread by the finaliser of Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014.
#[derive(Debug, Clone)]
pub(super) struct Chance {
    state: u64,
}

impl Chance {
    pub fn new(seed: u64) -> Self {
        let mut z = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        // A state of zero would stay zero.
        Chance { state: (z ^ (z >> 31)) | 1 }
    }

    fn next(&mut self) -> u64 {
        self.state ^= self.state << 13;
        self.state ^= self.state >> 7;
        self.state ^= self.state << 17;
        self.state
    }

    /// A number below `n`; 0 when `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        // The high half of a product: no division, and a bias far below what a search can feel. Half of the bits do, as
        // long as what is counted is in memory, and a browser has no wider product.
        (((self.next() >> 32) * n as u64) >> 32) as usize
    }

    /// True `share` times in 1024.
    pub fn often(&mut self, share: usize) -> bool {
        self.below(1024) < share
    }
}

#[cfg(test)]
mod tests {
    use super::Chance;

    #[test]
    fn throws_stay_below_and_reach_everything() {
        let mut chance = Chance::new(0);
        let mut seen = [0u32; 7];
        for _ in 0..7000 {
            seen[chance.below(7)] += 1;
        }
        assert!(seen.iter().all(|n| (800..1200).contains(n)), "{seen:?}");
        assert_eq!(chance.below(0), 0);
        assert_eq!(chance.below(1), 0);
    }

    #[test]
    fn a_seed_repeats_and_neighbours_differ() {
        let throws = |seed| {
            let mut chance = Chance::new(seed);
            (0..4).map(|_| chance.below(1000)).collect::<Vec<_>>()
        };
        assert_eq!(throws(5), throws(5));
        assert_ne!(throws(5), throws(6));
    }
}
