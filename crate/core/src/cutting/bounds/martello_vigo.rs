//! The bound L2 of Martello and Vigo, "Exact solution of the two-dimensional finite bin packing problem", Management
//! Science 44 (1998), for parts that may not turn: counts the parts too big to lie beside each other.

/// A part: sizes along x and y, and how many.
pub(super) type Item = ([i64; 2], i64);

/// Least number of sheets of that size.
pub(super) fn least_sheets(side: [i64; 2], items: &[Item]) -> i64 {
    let swapped: Vec<Item> = items.iter().map(|(s, n)| ([s[1], s[0]], *n)).collect();
    one_way(side, items).max(one_way([side[1], side[0]], &swapped))
}

fn one_way([w, h]: [i64; 2], items: &[Item]) -> i64 {
    let wide = wide(w, h, items);
    let mut best = wide;
    for q in thresholds(w, items.iter().map(|(s, _)| s[0])) {
        let mut tall = 0i128;
        let mut area = 0i128;
        for ([x, y], n) in items {
            let (x, y, n) = (i128::from(*x), i128::from(*y), i128::from(*n));
            if x > i128::from(w - q) {
                tall += y * n;
            } else if x >= i128::from(q) {
                area += x * y * n;
            }
        }
        let (w, h) = (i128::from(w), i128::from(h));
        let more = ceiling(area - (h * i128::from(wide) - tall) * w, w * h);
        best = best.max(wide + i64::try_from(more.max(0)).unwrap_or(0));
    }
    best
}

/// Counts only parts wider than half the sheet: no two of them lie side by side.
fn wide(w: i64, h: i64, items: &[Item]) -> i64 {
    let heights: Vec<(i64, i64)> =
        items.iter().filter(|(s, _)| 2 * s[0] > w).map(|(s, n)| (s[1], *n)).collect();
    let over_half: i64 = heights.iter().filter(|(y, _)| 2 * y > h).map(|(_, n)| n).sum();
    let mut more = 0;
    for p in thresholds(h, heights.iter().map(|(y, _)| *y)) {
        let (mut free, mut small, mut small_count, mut slots) = (0i128, 0i128, 0i64, 0i64);
        for (y, n) in &heights {
            if *y > h - p {
                continue;
            }
            if 2 * y > h {
                free += i128::from(h - y) * i128::from(*n);
                slots += (h - y) / p * n;
            } else if *y >= p {
                small += i128::from(*y) * i128::from(*n);
                small_count += n;
            }
        }
        let by_length = ceiling(small - free, i128::from(h));
        let by_count = ceiling(i128::from(small_count - slots), i128::from(h / p));
        more = more.max(i64::try_from(by_length.max(by_count)).unwrap_or(0));
    }
    over_half + more
}

/// The values at which the classes of lengths change.
fn thresholds(side: i64, lengths: impl Iterator<Item = i64>) -> Vec<i64> {
    let mut all: Vec<i64> = lengths
        .flat_map(|x| [x, side - x])
        .chain([1])
        .filter(|x| *x >= 1 && 2 * *x <= side)
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

fn ceiling(a: i128, b: i128) -> i128 {
    a.div_euclid(b) + i128::from(a.rem_euclid(b) > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_over_half_in_both_directions_need_a_sheet_each() {
        assert_eq!(least_sheets([10, 10], &[([6, 6], 5)]), 5);
        assert_eq!(least_sheets([10, 10], &[([6, 6], 5), ([6, 4], 5)]), 5);
        assert_eq!(least_sheets([10, 10], &[([6, 6], 5), ([6, 4], 6)]), 6);
        assert_eq!(least_sheets([10, 10], &[([6, 5], 4)]), 2);
        assert_eq!(least_sheets([10, 10], &[([5, 5], 4)]), 1);
    }

    /// Three of height 4 do not fit above each other in 10 twice over: the count, not the length, says so.
    #[test]
    fn the_count_of_slots_says_more_than_the_length() {
        assert_eq!(least_sheets([10, 10], &[([6, 4], 5)]), 3);
    }
}
