//! Numbers by chance, the same each time.

/// A generator after Steele, Lea and Flood, Fast splittable pseudorandom number generators (2014).
pub struct Chance(pub u64);

impl Chance {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From `least` to `most`, both included.
    pub fn within(&mut self, least: i64, most: i64) -> i64 {
        let span = u64::try_from(most - least + 1).unwrap();
        least + i64::try_from(self.next() % span).unwrap()
    }
}
