//! Dual feasible functions: they stretch sizes so that what fitted before still fits, and what is wasted shows.
//!
//! Fekete and Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
//! Mathematical Methods of Operations Research 60 (2004); Carlier, Clautiaux and Moukrim, "New reduction procedures
//! and lower bounds for the two-dimensional bin packing problem with fixed orientation", Computers and Operations
//! Research 34 (2007); Clautiaux, Alves and Valério de Carvalho, "A survey of dual-feasible and superadditive
//! functions", Annals of Operations Research 179 (2010).

use std::collections::BTreeSet;

/// A function on the lengths from 0 to a side. If lengths add up to at most the side, their images add up to at most
/// the image of the side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stretch {
    /// Lengths as they are.
    Same,
    /// Less than k is nothing; more than the side less k is the whole side.
    Threshold(i64),
    /// Whole k's, counted from the near end below half the side and from the far end above.
    Steps(i64),
    /// As `Steps` above half, one each below: how many k's a big piece keeps from fitting.
    Count(i64),
    /// Rounded down to whole parts of the side, k + 1 to it.
    Rounded(i64),
}

impl Stretch {
    /// The image of a length on that side.
    pub fn of(self, side: i64, x: i64) -> i64 {
        match self {
            Stretch::Same => x,
            Stretch::Threshold(k) if x > side - k => side,
            Stretch::Threshold(k) if x < k => 0,
            Stretch::Threshold(_) => x,
            Stretch::Steps(k) if 2 * x > side => 2 * (side / k - (side - x) / k),
            Stretch::Steps(k) if 2 * x == side => side / k,
            Stretch::Steps(k) => 2 * (x / k),
            Stretch::Count(k) if 2 * x > side => side / k - (side - x) / k,
            Stretch::Count(k) => i64::from(x >= k),
            Stretch::Rounded(k) if (k + 1) * x % side == 0 => k * x,
            Stretch::Rounded(k) => side * ((k + 1) * x / side),
        }
    }

    /// Whether the images of two lengths never add up to more than the image of their sum: then the function also
    /// says how much a shorter side holds.
    fn superadditive(self) -> bool {
        matches!(self, Stretch::Same | Stretch::Threshold(_) | Stretch::Steps(_))
    }
}

/// The functions that tell these lengths apart on a side, each once, the plain one first.
pub(super) fn stretches(side: i64, lengths: &[i64], superadditive: bool) -> Vec<Stretch> {
    let mut at: BTreeSet<i64> = BTreeSet::new();
    for &x in lengths.iter().filter(|x| (1..=side).contains(*x)) {
        at.insert(if 2 * x <= side { x } else { side - x });
    }
    let at: Vec<i64> = at.into_iter().filter(|k| (1..=side / 2).contains(k)).collect();
    let kinds = [Stretch::Threshold, Stretch::Steps, Stretch::Count];
    let all = [Stretch::Same]
        .into_iter()
        .chain(kinds.into_iter().flat_map(|kind| at.iter().map(move |k| kind(*k))))
        .chain((1..=100).map(Stretch::Rounded))
        .filter(|s| !superadditive || s.superadditive());
    let mut seen = BTreeSet::new();
    all.filter(|s| {
        let image: Vec<i64> = lengths.iter().chain([&side]).map(|x| s.of(side, *x)).collect();
        seen.insert(image)
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The defining property, tried on all multisets of up to four lengths on a small side.
    #[test]
    fn what_fits_still_fits() {
        let side = 12;
        let lengths: Vec<i64> = (1..=side).collect();
        for s in stretches(side, &lengths, false) {
            let f = |x| s.of(side, x);
            for a in 0..=side {
                for b in a..=side - a {
                    for c in (b..=side - a - b).chain([0]) {
                        for d in (c..=(side - a - b - c).max(0)).chain([0]) {
                            if a + b + c + d <= side {
                                assert!(
                                    f(a) + f(b) + f(c) + f(d) <= f(side),
                                    "{s:?} {a} {b} {c} {d}"
                                );
                            }
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn the_superadditive_ones_are() {
        for side in [9, 10, 12, 25] {
            let lengths: Vec<i64> = (1..=side).collect();
            for s in stretches(side, &lengths, true) {
                for a in 0..=side {
                    for b in 0..=side - a {
                        assert!(
                            s.of(side, a) + s.of(side, b) <= s.of(side, a + b),
                            "{s:?} {a} {b}"
                        );
                    }
                }
            }
        }
    }
}
