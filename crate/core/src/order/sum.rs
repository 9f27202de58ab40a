//! A cost as one number, so that a search adds and compares it in one go.

use std::ops::{Add, Sub};

use crate::plan::Cost;

/// The fields of a [`Cost`] one beside the other in the bits of one number, the first that decides in
/// the highest: sums and comparisons of numbers are those of costs.
///
/// Fields are as wide as the largest body can make them, with room to spare; what would not fit counts
/// as the most that does.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sum(u128);

/// Bits of each field, the last first: lifted, turns, scatter, minutes, tool changes, measured, holds,
/// handlings, by feel, steps for two.
const BITS: [u32; 10] = [10, 10, 15, 24, 12, 12, 12, 11, 10, 10];

impl Sum {
    /// Nothing.
    pub const ZERO: Sum = Sum(0);

    /// More than any order costs.
    pub const NEVER: Sum = Sum(1 << 126);

    /// More than any order costs, and still less than [`Sum::NEVER`] when that is added to.
    pub const LAST: Sum = Sum(1 << 125);

    /// Back as a cost.
    pub fn cost(self) -> Cost {
        let mut rest = self.0;
        let fields = BITS.map(|bits| {
            let field = rest & ((1 << bits) - 1);
            rest >>= bits;
            field as u32
        });
        let [lifted, turns, scatter, minutes, tool_changes, measured, holds, ..] = fields;
        let [.., handlings, by_feel, helper_steps] = fields;
        Cost {
            helper_steps,
            by_feel,
            handlings,
            holds,
            measured,
            tool_changes,
            minutes,
            scatter,
            turns,
            lifted,
        }
    }
}

impl From<Cost> for Sum {
    fn from(c: Cost) -> Sum {
        let fields = [
            c.lifted,
            c.turns,
            c.scatter,
            c.minutes,
            c.tool_changes,
            c.measured,
            c.holds,
            c.handlings,
            c.by_feel,
            c.helper_steps,
        ];
        let both = fields.into_iter().zip(BITS).rev();
        Sum(both.fold(0, |all, (field, bits)| all << bits | u128::from(field.min((1 << bits) - 1))))
    }
}

impl Add for Sum {
    type Output = Sum;

    fn add(self, other: Sum) -> Sum {
        Sum(self.0.saturating_add(other.0))
    }
}

impl Sub for Sum {
    type Output = Sum;

    fn sub(self, other: Sum) -> Sum {
        Sum(self.0.saturating_sub(other.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn costs() -> impl Strategy<Value = Cost> {
        proptest::array::uniform10(0u32..40).prop_map(|f| Cost {
            helper_steps: f[0],
            by_feel: f[1],
            handlings: f[2],
            holds: f[3],
            measured: f[4],
            tool_changes: f[5],
            minutes: 1000 * f[6],
            scatter: f[7],
            turns: f[8],
            lifted: f[9],
        })
    }

    proptest! {
        #[test]
        fn it_adds_and_compares_as_costs_do(a in costs(), b in costs()) {
            let (x, y) = (Sum::from(a), Sum::from(b));
            prop_assert_eq!(x.cost(), a);
            prop_assert_eq!((x + y).cost(), a.plus(b));
            prop_assert_eq!(x.cmp(&y), a.cmp(&b));
            prop_assert!(x < Sum::NEVER);
        }
    }
}
