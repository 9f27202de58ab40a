//! Loose bodies on top of each other, lying flat.
//!
//! Of every body together with all that rests on it, directly or not, ask what one body is asked: is
//! its centre of gravity over the hull of the faces below it? Whether that decides:
//!
//! - It is always *necessary*: such a part of the pile is carried by nothing else.
//! - It is *sufficient* where each body rests on one thing only, the bench or one other body. What a
//!   body pushes down with is then known: its own weight and all above, at their common centre.
//! - It is sufficient, too, where what a body shares with others to rest on are *columns*: bodies on
//!   the bench that stand by themselves and carry all their load over their own footing. Wherever in
//!   the shared faces that load goes, it cannot tip them.
//! - Otherwise it is not. A beam across two loose boxes that overhang their footing divides its weight
//!   in a way that one division may tip them and another not. Balance then takes a linear program over
//!   all the forces, and even that says only that some division is balanced.

use crate::geometry::{Box3, Direction, Solid};

use super::{Weight, balanced, hull};

/// A body that nothing is fastened to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loose {
    /// What it weighs, and where.
    pub weight: Weight,
    /// Its body.
    pub solid: Solid,
}

/// Below a body: faces it rests on, each with the body that has it; none for the bench.
type Footing = Vec<(Option<usize>, Box3)>;

/// What each body of a pile rests on. The bench is level with the lowest of them.
fn footings(pile: &[Loose]) -> Vec<Footing> {
    let bench = pile.iter().map(|b| b.solid.bounds().min[2]).min().unwrap_or(0);
    pile.iter()
        .enumerate()
        .map(|(i, body)| {
            let flat = |b: &&Box3| b.min[2] == bench;
            let foot = |b: &Box3| Box3::new(b.min, [b.max[0], b.max[1], bench]);
            let on_bench = body.solid.boxes().iter().filter(flat).map(|b| (None, foot(b)));
            let on_others = pile.iter().enumerate().filter(|(j, _)| *j != i).flat_map(|(j, o)| {
                let below = body.solid.contacts(&o.solid).into_iter();
                below.filter(|c| c.direction == Direction::Down).map(move |c| (Some(j), c.face))
            });
            on_bench.chain(on_others).collect()
        })
        .collect()
}

/// Whether each body is `from` or rests on it, over however many others.
fn all_on(from: usize, footings: &[Footing]) -> Vec<bool> {
    let mut on = vec![false; footings.len()];
    on[from] = true;
    loop {
        let rests = |i: usize| footings[i].iter().any(|(below, _)| below.is_some_and(|b| on[b]));
        let Some(next) = (0..footings.len()).find(|&i| !on[i] && rests(i)) else {
            return on;
        };
        on[next] = true;
    }
}

/// The bodies of a pile which, with all that rests on them, are not balanced on what is below: these
/// fall. When there is none, the pile is balanced if [`is_decided`].
///
/// ```
/// use jointwise::geometry::{Box3, Solid};
/// use jointwise::order::stability::{Weight, pile::{Loose, topples}};
/// let brick = |x: i64, z: i64| {
///     let solid = Solid::new(Box3::new([x, 0, z], [x + 60, 100, z + 30]));
///     Loose { weight: Weight::of(&solid), solid }
/// };
/// // The second brick may overhang by half its length; with a third on it, no more.
/// assert!(topples(&[brick(0, 0), brick(30, 30)]).is_empty());
/// assert_eq!(topples(&[brick(0, 0), brick(30, 30), brick(60, 60)]), [1]);
/// ```
pub fn topples(pile: &[Loose]) -> Vec<usize> {
    let footings = footings(pile);
    (0..pile.len())
        .filter(|&i| {
            let on = all_on(i, &footings);
            let above = || (0..pile.len()).filter(|&j| on[j]);
            let weight = above()
                .filter(|&j| j != i)
                .fold(pile[i].weight, |sum, j| sum.with(&pile[j].weight));
            let below: Vec<Box3> = above()
                .flat_map(|j| &footings[j])
                .filter(|(body, _)| body.is_none_or(|b| !on[b]))
                .map(|(_, face)| *face)
                .collect();
            !balanced(&weight, &below, Direction::Down)
        })
        .collect()
}

/// Whether [`topples`] decides of this pile: each body rests on one thing only, or what it rests on
/// besides the bench are columns.
pub fn is_decided(pile: &[Loose]) -> bool {
    let footings = footings(pile);
    let column = |i: usize| {
        let foot: Vec<Box3> = footings[i].iter().map(|f| f.1).collect();
        let load = footings.iter().flatten().filter(|f| f.0 == Some(i)).map(|f| f.1);
        footings[i].iter().all(|f| f.0.is_none())
            && balanced(&pile[i].weight, &foot, Direction::Down)
            && hull(&foot, [0, 1])
                == hull(&foot.iter().copied().chain(load).collect::<Vec<_>>(), [0, 1])
    };
    footings.iter().all(|footing| {
        let mut below: Vec<Option<usize>> = footing.iter().map(|f| f.0).collect();
        below.sort_unstable();
        below.dedup();
        below.len() < 2 || below.into_iter().flatten().all(column)
    })
}
