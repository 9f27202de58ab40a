//! What a leftover is worth to the search: more than its share of the area, the bigger it is.
//!
//! Area to the power 1.2, after Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D
//! variable-sized bin packing problem with guillotine constraints", European Journal of Operational Research 301
//! (2022): one big leftover beats two small ones of the same area together. A table, so that integers do.

/// Steps of the table.
const STEPS: usize = 4096;
/// Areas are first brought to this many parts of the biggest sheet.
const FINE: u32 = 20;
/// Bits of an area that count: half of what a product has, less the sign.
const BITS: u32 = 31;

/// Worth by area. A product and a shift instead of a division, in 64 bits: a browser has no wider ones, and the search
/// asks for little else.
#[derive(Debug, Clone)]
pub(super) struct Worth {
    /// Areas lose so many bits, so that the biggest has no more than [`BITS`].
    shift: u32,
    /// 2^([`BITS`] + [`FINE`]) over the biggest area, shifted.
    scale: u64,
    table: Vec<u32>,
}

impl Worth {
    /// For areas up to `most`.
    pub fn new(most: i64) -> Self {
        Worth::table(most, powers())
    }

    /// Area squared: the biggest leftover outweighs all others.
    pub fn steep(most: i64) -> Self {
        Worth::table(most, (0..=STEPS as u32 + 1).map(|step| step * step).collect())
    }

    fn table(most: i64, table: Vec<u32>) -> Self {
        let most = most.max(1).unsigned_abs();
        let shift = (u64::BITS - most.leading_zeros()).saturating_sub(BITS);
        Worth { shift, scale: (1 << (BITS + FINE)) / (most >> shift), table }
    }

    /// Of a leftover with that area.
    pub fn of(&self, area: i64) -> i64 {
        let fine = self.fine(area);
        let (step, rest) = ((fine >> 8) as usize, fine & 255);
        let (low, high) = (i64::from(self.table[step]), i64::from(self.table[step + 1]));
        low + (((high - low) * rest) >> 8)
    }

    /// The area on the scale of [`Worth::of`]: equal to it at the biggest sheet and at nothing.
    pub fn linear(&self, area: i64) -> i64 {
        (self.fine(area) * i64::from(self.table[STEPS])) >> FINE
    }

    fn fine(&self, area: i64) -> i64 {
        let area = area.max(0).unsigned_abs() >> self.shift;
        // Of the biggest, 31 bits by 52 less those; of nothing bigger is asked.
        (area.saturating_mul(self.scale) >> BITS).min(1 << FINE) as i64
    }
}

/// Each step to the power 6/5, times 2048: fifth roots, rounded down.
fn powers() -> Vec<u32> {
    let mut table: Vec<u32> = Vec::with_capacity(STEPS + 2);
    for step in 0..=STEPS as u128 + 1 {
        let sixth = step.pow(6) << 55;
        let below = |x: u32| {
            let x = u128::from(x);
            (0..4).try_fold(x, |p, _| p.checked_mul(x)).is_some_and(|p| p <= sixth)
        };
        // They grow more and more, so the next is no less than a straight line says, but for the rounding.
        let mut root = match table[..] {
            [.., a, b] => (2 * b - a).saturating_sub(2),
            _ => 0,
        };
        let mut stride = 1;
        while below(root + stride) {
            root += stride;
            stride *= 2;
        }
        while stride > 0 {
            if below(root + stride) {
                root += stride;
            }
            stride /= 2;
        }
        table.push(root);
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_the_power_it_says() {
        // 4096^1.2 = 2^14.4 = 21618.8; times 2048 = 44275327 to eight digits (from memory of 2^0.4 = 1.3195079).
        let table = powers();
        let top = table[4096];
        assert!((44_275_000..44_276_000).contains(&top), "{top}");
        assert_eq!(table[0], 0);
        assert_eq!(table[32], 64 * 2048);
        for (step, root) in table.iter().enumerate() {
            let (sixth, fifth) = ((step as u128).pow(6) << 55, |x: u32| u128::from(x).pow(5));
            assert!(fifth(*root) <= sixth && sixth < fifth(*root + 1), "{step}: {root}");
        }
    }

    #[test]
    fn one_big_leftover_beats_two_of_half_its_size() {
        let worth = Worth::new(2_500_000 * 1_250_000);
        let big = 2_000_000 * 600_000;
        assert!(worth.of(big) > 2 * worth.of(big / 2));
        assert!(worth.of(big) <= worth.linear(big));
        assert_eq!(worth.of(0), 0);
    }
}
