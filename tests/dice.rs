//! Seeded chance for generated cases: the same seed gives the same case on every machine.

/// A generator of 64-bit numbers.
///
/// George Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (2003), issue 14: the triple
/// 13, 7, 17.
#[derive(Debug, Clone)]
pub struct Dice {
    state: u64,
}

impl Dice {
    /// Dice for a seed; neighbouring seeds are spread apart first, so that their first throws differ.
    pub fn new(seed: u64) -> Self {
        let spread = (seed + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let mut dice = Dice { state: spread | 1 };
        for _ in 0..8 {
            dice.next();
        }
        dice
    }

    fn next(&mut self) -> u64 {
        self.state ^= self.state << 13;
        self.state ^= self.state >> 7;
        self.state ^= self.state << 17;
        self.state
    }

    /// A whole number from `least` to `most`, both included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        let count = most.saturating_sub(least).max(0).unsigned_abs() + 1;
        least + i64::try_from((self.next() >> 11) % count).unwrap_or(0)
    }

    /// True once in `n` throws on average.
    pub fn once_in(&mut self, n: i64) -> bool {
        self.between(1, n) == 1
    }

    /// One of several; none when there are none.
    pub fn pick<T: Clone>(&mut self, from: &[T]) -> Option<T> {
        let last = i64::try_from(from.len()).unwrap_or(0) - 1;
        let at = usize::try_from(self.between(0, last.max(0))).unwrap_or(0);
        from.get(at).cloned()
    }
}
