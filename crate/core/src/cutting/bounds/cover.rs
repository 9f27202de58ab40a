//! The least money for sheets that together hold enough: a knapsack turned round.

/// A size of sheet: what one holds, what it costs, how many there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Holds {
    pub holds: i128,
    pub price: i64,
    pub count: u32,
}

/// Nodes looked at before the relaxed answer must do.
const MOST_NODES: u32 = 20_000;

/// The least price, sheets divisible; none if all of them do not hold enough.
pub(super) fn relaxed(sheets: &[Holds], wanted: i128) -> Option<i64> {
    let mut order: Vec<&Holds> = sheets.iter().filter(|s| s.holds > 0 && s.count > 0).collect();
    order.sort_by(|a, b| by_price(a, b));
    relaxed_sorted(&order, wanted)
}

/// The least price in whole sheets, or something below it when there are too many ways.
pub(super) fn least(sheets: &[Holds], wanted: i128) -> Option<i64> {
    let mut order: Vec<&Holds> = sheets.iter().filter(|s| s.holds > 0 && s.count > 0).collect();
    order.sort_by(|a, b| by_price(a, b));
    let start = relaxed_sorted(&order, wanted)?;
    let mut search = Search { best: i64::MAX, nodes: 0 };
    search.visit(&order, wanted, 0);
    Some(if search.nodes > MOST_NODES { start } else { search.best })
}

struct Search {
    best: i64,
    nodes: u32,
}

impl Search {
    fn visit(&mut self, order: &[&Holds], wanted: i128, spent: i64) {
        self.nodes += 1;
        if self.nodes > MOST_NODES {
            return;
        }
        if wanted <= 0 {
            self.best = self.best.min(spent);
            return;
        }
        let Some((first, rest)) = order.split_first() else { return };
        let Some(more) = relaxed_sorted(order, wanted) else { return };
        if spent.saturating_add(more) >= self.best {
            return;
        }
        let most = i128::from(first.count).min((wanted + first.holds - 1) / first.holds);
        for n in (0..=most).rev() {
            let price = i64::try_from(n).unwrap_or(i64::MAX).saturating_mul(first.price);
            self.visit(rest, wanted - n * first.holds, spent.saturating_add(price));
        }
    }
}

fn by_price(a: &Holds, b: &Holds) -> std::cmp::Ordering {
    (i128::from(a.price) * b.holds)
        .cmp(&(i128::from(b.price) * a.holds))
        .then(b.holds.cmp(&a.holds))
}

fn relaxed_sorted(order: &[&Holds], wanted: i128) -> Option<i64> {
    let mut wanted = wanted;
    let mut price = 0i64;
    for s in order {
        if wanted <= 0 {
            break;
        }
        let whole = i128::from(s.count).min(wanted / s.holds);
        price = price.saturating_add(i64::try_from(whole).ok()?.saturating_mul(s.price));
        wanted -= whole * s.holds;
        if wanted > 0 && whole < i128::from(s.count) {
            let part = (wanted * i128::from(s.price) + s.holds - 1) / s.holds;
            price = price.saturating_add(i64::try_from(part).ok()?);
            wanted = 0;
        }
    }
    (wanted <= 0).then_some(price)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every combination of up to three sizes against the search.
    #[test]
    fn the_least_is_that_of_all_combinations() {
        let mut tried = 0;
        for seed in 0..300i64 {
            let sheet = |k: i64| Holds {
                holds: i128::from(1 + (seed * 7 + k * 13) % 11),
                price: 1 + (seed * 5 + k * 3) % 9,
                count: (1 + (seed + k) % 3) as u32,
            };
            let sheets = [sheet(1), sheet(2), sheet(3)];
            let wanted = i128::from(seed % 40);
            let mut best = None;
            for a in 0..=sheets[0].count {
                for b in 0..=sheets[1].count {
                    for c in 0..=sheets[2].count {
                        let n = [a, b, c];
                        let holds: i128 =
                            n.iter().zip(&sheets).map(|(n, s)| i128::from(*n) * s.holds).sum();
                        let price: i64 =
                            n.iter().zip(&sheets).map(|(n, s)| i64::from(*n) * s.price).sum();
                        if holds >= wanted && best.is_none_or(|b| price < b) {
                            best = Some(price);
                        }
                    }
                }
            }
            assert_eq!(least(&sheets, wanted), best, "seed {seed}");
            assert!(relaxed(&sheets, wanted) <= best || best.is_none());
            tried += 1;
        }
        assert_eq!(tried, 300);
    }
}
