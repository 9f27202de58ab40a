//! Figures along the edges of a part's drawing: every distance from the corner, none left out.

/// Places of figures along an edge, each as near to its own as their least distance lets it be; none
/// before the corner.
///
/// `wanted` ascends. Figures that would stand in each other share out the room around them.
pub fn spread(wanted: &[i128], apart: i128) -> Vec<i128> {
    // Less the room that those before it take, each may stand where the one before does.
    let count = |n: usize| i128::try_from(n).unwrap_or(0);
    let mut groups: Vec<(i128, usize)> = Vec::new();
    for (n, at) in wanted.iter().enumerate() {
        groups.push((at - count(n) * apart, 1));
        while let [.., (before, some), (last, more)] = groups[..]
            && last * count(some) <= before * count(more)
        {
            groups.truncate(groups.len() - 2);
            groups.push((before + last, some + more));
        }
    }
    let middles = groups.into_iter().flat_map(|(sum, n)| {
        let middle = sum.div_euclid(count(n).max(1)).max(0);
        std::iter::repeat_n(middle, n)
    });
    middles.enumerate().map(|(n, middle)| middle + count(n) * apart).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_that_have_room_stay_where_they_are() {
        assert_eq!(spread(&[0, 50, 200], 30), [0, 50, 200]);
        assert_eq!(spread(&[], 30), []);
    }

    #[test]
    fn crowded_figures_share_the_room() {
        assert_eq!(spread(&[100, 110], 30), [90, 120]);
        assert_eq!(spread(&[5, 6, 7], 30), [0, 30, 60]);
        assert_eq!(spread(&[100, 125, 150], 30), [95, 125, 155]);
    }

    #[test]
    fn no_two_stand_in_each_other_whatever_is_wanted() {
        for seed in 0..500_i128 {
            let mut wanted: Vec<i128> =
                (0..9).map(|n| (seed * 7919 + n * n * 104_729) % 997).collect();
            wanted.sort_unstable();
            let got = spread(&wanted, 40);
            assert!(
                got[0] >= 0 && got.windows(2).all(|p| p[1] - p[0] >= 40),
                "{wanted:?}: {got:?}"
            );
        }
    }
}
