//! What a leftover is worth to the search: more than its share of the area, the bigger it is.
//!
//! Area to the power 1.2, after Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D
//! variable-sized bin packing problem with guillotine constraints", European Journal of Operational Research 301
//! (2022): one big leftover beats two small ones of the same area together. A table, so that integers do.

/// Steps of the table.
const STEPS: usize = 4096;
/// Areas are first brought to this many parts of the biggest sheet.
const FINE: u32 = 20;

/// Worth by area.
#[derive(Debug, Clone)]
pub(super) struct Worth {
    /// 2^(64 + FINE) over the biggest area: a product and a shift instead of a division.
    scale: u128,
    table: Vec<i64>,
}

impl Worth {
    /// For areas up to `most`.
    pub fn new(most: i64) -> Self {
        Worth::table(most, power)
    }

    /// Area squared: the biggest leftover outweighs all others.
    pub fn steep(most: i64) -> Self {
        Worth::table(most, |step| (step * step) as i64)
    }

    fn table(most: i64, power: impl Fn(u128) -> i64) -> Self {
        let most = u128::from(most.max(1).unsigned_abs());
        let table = (0..=STEPS as u128 + 1).map(power).collect();
        Worth { scale: (1 << (64 + FINE)) / most, table }
    }

    /// Of a leftover with that area.
    pub fn of(&self, area: i64) -> i64 {
        let fine = self.fine(area);
        let (step, rest) = ((fine >> 8) as usize, fine & 255);
        let (low, high) = (self.table[step], self.table[step + 1]);
        low + (((high - low) * rest) >> 8)
    }

    /// The area on the scale of [`Worth::of`]: equal to it at the biggest sheet and at nothing.
    pub fn linear(&self, area: i64) -> i64 {
        (self.fine(area) * self.table[STEPS]) >> FINE
    }

    fn fine(&self, area: i64) -> i64 {
        let area = u128::from(area.max(0).unsigned_abs());
        // Areas stay below 2^54 and the scale below 2^84 / area: the product holds.
        i64::try_from((area * self.scale) >> 64).unwrap_or(i64::MAX).min(1 << FINE)
    }
}

/// `step` to the power 6/5, times 2048: the fifth root, rounded down.
fn power(step: u128) -> i64 {
    let sixth = step.pow(6) << 55;
    let below = |x: u128| (0..4).try_fold(x, |p, _| p.checked_mul(x)).is_some_and(|p| p <= sixth);
    let mut root = 0u128;
    for bit in (0..27).rev() {
        if below(root | (1 << bit)) {
            root |= 1 << bit;
        }
    }
    root as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_the_power_it_says() {
        // 4096^1.2 = 2^14.4 = 21618.8; times 2048 = 44275327 to eight digits (from memory of 2^0.4 = 1.3195079).
        let top = power(4096);
        assert!((44_275_000..44_276_000).contains(&top), "{top}");
        assert_eq!(power(0), 0);
        assert_eq!(power(32), 64 * 2048);
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
