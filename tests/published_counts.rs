//! Counts of what could be assembled: examples from print, and graphs whose counts have closed forms.
//!
//! Each table says where its numbers come from: read, recalled, or derived by a program of our own.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the helpers of a test fail, too")]

use jointwise::order::splits::{Counts, Splits, States};

/// Neighbour sets from pairs of part numbers.
fn liaisons(parts: usize, pairs: &[[usize; 2]]) -> Vec<u64> {
    let mut near = vec![0u64; parts];
    for &[a, b] in pairs {
        near[a] |= 1 << b;
        near[b] |= 1 << a;
    }
    near
}

/// The graph of a product, its counts and its states.
fn counted(near: &[u64], feasible: impl FnMut(u64, u64) -> bool) -> (Splits, Counts, States) {
    let splits = Splits::new(near, feasible).unwrap();
    let (counts, states) = (splits.counts().unwrap(), splits.states().unwrap());
    (splits, counts, states)
}

/// All counts in the order of the tables: nodes, hyperarcs, trees, orders, states, edges of states,
/// linear orders.
fn row(counts: Counts, states: States) -> [u128; 7] {
    let Counts { nodes, hyperarcs, trees, orders, linear } = counts;
    [nodes, hyperarcs, trees, orders, states.states, states.edges, linear]
}

/// The simple product of L. S. Homem de Mello and A. C. Sanderson, "AND/OR graph representation of
/// assembly plans" (1986): cap, stick, receptacle and handle. The example and its 15 hyperarcs are
/// from memory, the other numbers derived by a program of our own.
#[test]
fn the_simple_product_has_fifteen_hyperarcs() {
    let [cap, stick, receptacle, handle] = [1u64, 2, 4, 8];
    let near = liaisons(4, &[[0, 1], [0, 2], [1, 2], [1, 3], [2, 3]]);
    // With both ends closed the stick no longer goes in, nor, without it, the receptacle on.
    let shut = [cap | receptacle | handle, cap | stick | handle];
    let (splits, counts, states) =
        counted(&near, |half, rest| !shut.contains(&half) && !shut.contains(&rest));
    assert_eq!(row(counts, states), [12, 15, 8, 10, 11, 19, 6]);
    assert_eq!(
        splits.of(splits.whole()),
        [
            [cap, stick | receptacle | handle],
            [cap | stick, receptacle | handle],
            [cap | receptacle, stick | handle],
            [cap | stick | receptacle, handle],
        ]
    );
    for three in [cap | stick | receptacle, stick | receptacle | handle] {
        assert_eq!(splits.of(three).len(), 3);
    }
    let (_, counts, states) = counted(&near, |_, _| true);
    assert_eq!(row(counts, states), [14, 21, 12, 14, 13, 25, 10]);
}

/// The ballpoint pen of A. Bourjault (1984) and of T. L. De Fazio and D. E. Whitney, "Simplified
/// generation of all mechanical assembly sequences" (1987), with the two rules printed in D. G.
/// Ullman, "The Mechanical Design Process": the tube is on the head before the ink is in the tube, the
/// head on the body before the cap. What the liaisons join is inferred from the order given there. 30
/// is derived by a program of our own. With a third rule, the ink in before head and button have both
/// closed the body, there are 12: derived, and from memory the number published for the pen.
#[test]
fn the_pen_has_thirty_orders_and_twelve_with_the_ink_in_time() {
    // Body, head, button, tube, ink, cap; a tree, so that each join closes one liaison.
    let [body, head, button, ink, cap] = [1u64, 2, 4, 16, 32];
    let near = liaisons(6, &[[1, 0], [2, 0], [3, 1], [4, 3], [5, 0]]);
    let joins = |half: u64, rest: u64, part: u64| {
        [(half, rest), (rest, half)].into_iter().find(|pair| pair.0 == part).map(|pair| pair.1)
    };
    let printed = |half: u64, rest: u64| {
        joins(half, rest, ink).is_none_or(|with| with & head != 0)
            && joins(half, rest, cap).is_none_or(|with| with & head != 0)
    };
    let in_time = |half: u64, rest: u64| {
        let open = |with: u64| with & (body | button) != body | button;
        printed(half, rest) && joins(half, rest, ink).is_none_or(open)
    };
    assert_eq!(counted(&near, printed).1.orders, 30);
    assert_eq!(counted(&near, in_time).1.orders, 12);

    // The same rules on the orders of the liaisons themselves, one by one.
    let mut orders = vec![Vec::new()];
    for _ in 0..5 {
        let longer = |order: Vec<u32>| {
            let more = order.clone();
            (1..=5).filter(move |l| !order.contains(l)).map(move |l| [&more[..], &[l]].concat())
        };
        orders = orders.into_iter().flat_map(longer).collect();
    }
    assert_eq!(orders.len(), 120);
    let at = |order: &[u32], liaison: u32| order.iter().position(|&l| l == liaison);
    orders.retain(|o| at(o, 3) < at(o, 4) && at(o, 1) < at(o, 5));
    assert_eq!(orders.len(), 30);
    assert!(orders.contains(&vec![2, 3, 4, 1, 5]), "the order printed as an example");
    orders.retain(|o| !(at(o, 1) < at(o, 4) && at(o, 2) < at(o, 4)));
    assert_eq!(orders.len(), 12);
}

/// A tree of parts grown from its root: A–B, B–C, B–D, C–E, D–F. The six sequences are quoted from
/// "Ways to Find an Upper Bound on the Number of Assembly Paths", a question and its answer, and
/// counted again.
#[test]
fn a_rooted_tree_has_six_sequences() {
    let near = liaisons(6, &[[0, 1], [1, 2], [1, 3], [2, 4], [3, 5]]);
    // The half with the root stays; one part at a time comes off.
    let (splits, counts, _) = counted(&near, |half, rest| half & 1 == 1 && rest.count_ones() == 1);
    assert_eq!((counts.linear, counts.trees), (6, 6));
    fn sequences(splits: &Splits, set: u64) -> Vec<String> {
        if set == 1 {
            return vec!["A".to_owned()];
        }
        let with = |[half, last]: [u64; 2]| {
            let letter = char::from(b'A' + u8::try_from(last.trailing_zeros()).unwrap());
            sequences(splits, half).into_iter().map(move |s| format!("{s}{letter}"))
        };
        splits.of(set).into_iter().flat_map(with).collect()
    }
    let mut found = sequences(&splits, splits.whole());
    found.sort_unstable();
    assert_eq!(found, ["ABCDEF", "ABCDFE", "ABCEDF", "ABDCEF", "ABDCFE", "ABDFCE"]);
}

/// The sets of liaisons of a product, broken one at a time: 2^L nodes and L·2^(L−1) edges. For three
/// liaisons, 8 and 12, as in the worked example published with K. Nagpal and N. Mehr, "Optimal robotic
/// assembly sequence planning" (2023): its code was read, the title is from memory.
///
/// Where no liaisons close in a ring, each break parts the product, and those sets are its states. The
/// example is a triangle: there the third liaison closes with the second, and of the 8 sets 5 are
/// states.
#[test]
fn liaisons_broken_one_at_a_time_are_a_lattice() {
    for l in 1..=7usize {
        let chain: Vec<[usize; 2]> = (0..l).map(|i| [i, i + 1]).collect();
        let star: Vec<[usize; 2]> = (0..l).map(|i| [0, i + 1]).collect();
        let (sets, edges) = (1 << l, (l as u128) << (l - 1));
        for pairs in [chain, star] {
            let (_, _, states) = counted(&liaisons(l + 1, &pairs), |_, _| true);
            assert_eq!(states, States { states: sets, edges });
        }
        if l == 3 {
            assert_eq!((sets, edges), (8, 12));
        }
    }
    let triangle = liaisons(3, &[[0, 1], [1, 2], [0, 2]]);
    assert_eq!(counted(&triangle, |_, _| true).2, States { states: 5, edges: 6 });
}

fn factorial(n: u128) -> u128 {
    (1..=n).product()
}

fn choose(n: u128, k: u128) -> u128 {
    factorial(n) / factorial(k) / factorial(n - k)
}

/// Ways to part n things into k heaps.
fn stirling(n: u128, k: u128) -> u128 {
    match (n, k) {
        (0, 0) => 1,
        (0, _) | (_, 0) => 0,
        _ => k * stirling(n - 1, k) + stirling(n - 1, k - 1),
    }
}

/// Chain, ring, star and complete graph, nothing in anything's way. The closed forms are derived by a
/// program of our own, which counted them for 3 to 7 parts; those of the states of ring and star were
/// added here. For the theory see A. Vince and M. Bóna, "The Number of Ways to Assemble a Graph",
/// Electronic Journal of Combinatorics 19(4) (2012), P54.
#[test]
fn four_families_of_graphs_have_closed_forms() {
    for parts in 3..=7usize {
        let n = parts as u128;
        let two = |k: u128| 1u128 << k;
        let chain: Vec<[usize; 2]> = (1..parts).map(|i| [i - 1, i]).collect();
        let ring = [&chain[..], &[[parts - 1, 0]]].concat();
        let star: Vec<[usize; 2]> = (1..parts).map(|i| [0, i]).collect();
        let complete: Vec<[usize; 2]> =
            (0..parts).flat_map(|a| (0..a).map(move |b| [a, b])).collect();
        let all = |pairs: &[[usize; 2]]| {
            let (_, counts, states) = counted(&liaisons(parts, pairs), |_, _| true);
            row(counts, states)
        };
        let tree_states = [two(n - 1), (n - 1) * two(n - 2)];
        assert_eq!(
            all(&chain),
            [
                n * (n + 1) / 2,
                choose(n + 1, 3),
                choose(2 * n - 2, n - 1) / n,
                factorial(n - 1),
                tree_states[0],
                tree_states[1],
                two(n - 2),
            ],
            "a chain of {n}"
        );
        // Whole, or cut in two places or more; each further cut is one split.
        let ring_edges = choose(n, 2) + (2..=n).map(|k| choose(n, k) * (n - k)).sum::<u128>();
        assert_eq!(
            all(&ring),
            [
                n * (n - 1) + 1,
                n * (n - 1) * (n - 1) / 2,
                choose(2 * n - 3, n - 1),
                factorial(n) / 2,
                two(n) - n,
                ring_edges,
                n * two(n) / 8,
            ],
            "a ring of {n}"
        );
        assert_eq!(
            all(&star),
            [
                two(n - 1) + n - 1,
                (n - 1) * two(n - 2),
                factorial(n - 1),
                factorial(n - 1),
                tree_states[0],
                tree_states[1],
                factorial(n - 1),
            ],
            "a star of {n}"
        );
        // Each edge joins two of the blocks of a partition.
        let bell = (0..=n).map(|k| stirling(n, k)).sum();
        let joins = (2..=n).map(|k| stirling(n, k) * choose(k, 2)).sum();
        assert_eq!(
            all(&complete),
            [
                two(n) - 1,
                (3u128.pow(u32::try_from(parts).unwrap()) - two(n + 1)).div_ceil(2),
                (1..n).map(|k| 2 * k - 1).product(),
                factorial(n) * factorial(n - 1) / two(n - 1),
                bell,
                joins,
                factorial(n) / 2,
            ],
            "a complete graph of {n}"
        );
    }
}

/// The row for five parts, and the frame of four sides, written out.
#[test]
fn five_parts_in_numbers() {
    let near = |pairs: &[[usize; 2]]| {
        let counts = counted(&liaisons(5, pairs), |_, _| true).1;
        [counts.nodes, counts.hyperarcs, counts.trees, counts.orders, counts.linear]
    };
    assert_eq!(near(&[[0, 1], [1, 2], [2, 3], [3, 4]]), [15, 20, 14, 24, 8]);
    assert_eq!(near(&[[0, 1], [1, 2], [2, 3], [3, 4], [4, 0]]), [21, 40, 35, 60, 20]);
    assert_eq!(near(&[[0, 1], [0, 2], [0, 3], [0, 4]]), [20, 32, 24, 24, 24]);
    let all: Vec<[usize; 2]> = (0..5).flat_map(|a| (0..a).map(move |b| [a, b])).collect();
    assert_eq!(near(&all), [31, 90, 105, 180, 60]);
}
