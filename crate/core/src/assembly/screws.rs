//! Which screw on hand holds two parts together, and where along a joint the screws go.

use super::{Fastener, gauge};
use crate::scenario::{Head, MaterialKind, Screw};
use crate::units::{Length, Notation};

/// A tip stays at least this far short of the far face (1/8 in). Common practice, no source.
pub const SHORT_OF_FACE: i64 = 3000;

/// Widest spacing of screws along a joint (8 in). Common practice, no source.
pub const SPACING: i64 = 203_200;

/// A rail up to this wide (4 3/8 in) gets two screws whatever the end distances say.
/// Common practice, no source: one screw lets it turn.
pub const NARROW: i64 = 111_000;

/// Air wanted between two screws placed here.
const APART: i64 = 3000;

/// Which heads suit a joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heads {
    /// Countersunk: shows, or something lies on it.
    Flat,
    /// A head that lies on the face: thin sheet or metal cannot be countersunk.
    Pan,
    /// Either; countersunk when both are on hand.
    Any,
}

impl Heads {
    fn take(self, head: Head) -> bool {
        match self {
            Heads::Flat => head == Head::Flat,
            Heads::Pan => head == Head::Pan,
            Heads::Any => true,
        }
    }
}

/// What a screw goes through and into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stack {
    /// Thickness it goes through.
    pub through: i64,
    /// Material there is to bite into, along the screw.
    pub into: i64,
    /// Thickness of the edge it bites into, when it is an edge.
    pub edge: Option<i64>,
    /// Heads that suit.
    pub heads: Heads,
}

/// How well a screw suits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// Two thirds of it, or an inch, bite.
    Good,
    /// At least half of it bites, or it fills three fifths of the part it bites into.
    Fair,
    /// Less: better than none, not enough.
    Poor,
}

/// Thickest screw for an edge of this thickness.
///
/// #8 in 3/4 in and #6 in 1/2 in stock: common practice, no source; thicker ones split the edge.
pub fn thickest(edge: i64) -> u8 {
    match edge {
        25_000.. => 10,
        17_400.. => 8,
        11_000.. => 6,
        _ => 4,
    }
}

/// How a screw suits the stack; none when it would come through, not reach, or split the edge.
///
/// Two thirds of the length, or an inch, in the second part: common practice, no source. So is
/// the leave to do with less between two faces, as 1 1/4 in through 3/4 in into 3/4 in: there
/// the far face sets the limit.
pub fn fit(screw: &Screw, stack: &Stack) -> Option<Fit> {
    let bites = screw.length.get() - stack.through;
    let allowed = stack.into - SHORT_OF_FACE;
    let split = stack.edge.is_some_and(|e| screw.gauge > thickest(e));
    if bites <= 0 || bites > allowed || split || !stack.heads.take(screw.head) {
        return None;
    }
    Some(if bites * 3 >= screw.length.get() * 2 || bites >= Length::INCH {
        Fit::Good
    } else if bites * 2 >= screw.length.get() || bites * 5 >= stack.into * 3 {
        Fit::Fair
    } else {
        Fit::Poor
    })
}

/// The best of the screws on hand: the best fit, then the thickest, then the shortest
/// that holds well, or the longest where none does.
pub fn choose(on_hand: &[Screw], stack: &Stack) -> Option<(Screw, Fit)> {
    on_hand.iter().filter_map(|s| fit(s, stack).map(|f| (*s, f))).min_by_key(|(s, f)| {
        let length = s.length.get();
        let by_length = if *f == Fit::Good { length } else { -length };
        (*f, s.head == Head::Pan, std::cmp::Reverse(s.gauge), by_length)
    })
}

/// A screw as a maker asks for it: `#8 × 2 in flat head`.
pub fn name(screw: &Screw, notation: Notation) -> String {
    let head = match screw.head {
        Head::Flat => "flat head",
        Head::Pan => "pan head",
    };
    format!("#{} × {} {head}", screw.gauge, notation.print(screw.length))
}

/// Screws that are commonly sold and would suit, best first.
pub fn would_do(stack: &Stack, notation: Notation) -> Vec<Screw> {
    let lengths: Vec<Length> = match notation {
        Notation::Inch16 | Notation::Inch32 | Notation::Inch64 => {
            [3, 4, 5, 6, 8, 10, 12, 13, 14, 16, 18, 20, 24]
                .iter()
                .map(|&n| Length::inch(n, 8))
                .collect()
        }
        Notation::MmHalf | Notation::MmTenth => {
            [10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80]
                .iter()
                .map(|&n| Length::mm(n))
                .collect()
        }
    };
    let heads: &[Head] = match stack.heads {
        Heads::Flat => &[Head::Flat],
        Heads::Pan => &[Head::Pan],
        Heads::Any => &[Head::Flat, Head::Pan],
    };
    let mut found: Vec<(Fit, Screw)> = Vec::new();
    for &head in heads {
        for gauge in [8, 6, 4] {
            for &length in &lengths {
                let screw = Screw { gauge, length, head };
                if let Some(f) = fit(&screw, stack).filter(|f| *f != Fit::Poor) {
                    found.push((f, screw));
                }
            }
        }
    }
    found.sort_by_key(|(f, _)| *f);
    found.into_iter().map(|(_, s)| s).collect()
}

/// How far from the end of an edge the first screw sits.
///
/// MDF 70 mm: European panel industry, mdf-info.eu "Screwing", edge screws; particleboard alike.
/// Others 2 in: common practice, no source.
pub fn end_distance(kind: MaterialKind) -> i64 {
    match kind {
        MaterialKind::Mdf | MaterialKind::Particleboard => 70_000,
        _ => 50_800,
    }
}

/// Places along a joint of this length, from its start.
pub fn stations(length: i64, end: i64) -> Vec<i64> {
    if length < 40_000 {
        return vec![length / 2];
    }
    if length <= NARROW || length < 2 * end {
        return vec![length / 4, length - length / 4];
    }
    let run = length - 2 * end;
    let bays = ((run + SPACING - 1) / SPACING).max(1);
    (0..=bays).map(|i| end + run * i / bays).collect()
}

/// Whether two screws come nearer to each other than 3 mm of air.
pub fn crowd(a: &Fastener, b: &Fastener) -> bool {
    nearer_than(a, b, APART)
}

/// Whether two screws run into each other.
pub fn clash(a: &Fastener, b: &Fastener) -> bool {
    nearer_than(a, b, 0)
}

fn nearer_than(a: &Fastener, b: &Fastener, air: i64) -> bool {
    let wanted = gauge::diameter(a.gauge).get() / 2 + gauge::diameter(b.gauge).get() / 2 + air;
    let ([a0, a1], [b0, b1]) = (span(a), span(b));
    (0..3).all(|i| b0[i] - a1[i] < wanted && a0[i] - b1[i] < wanted)
}

/// The least and the greatest point of a screw's axis.
fn span(f: &Fastener) -> [[i64; 3]; 2] {
    let mut tip = f.entry;
    tip[f.direction.axis()] += f.direction.sign() * f.length.get();
    [
        std::array::from_fn(|i| f.entry[i].min(tip[i])),
        std::array::from_fn(|i| f.entry[i].max(tip[i])),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn screw(gauge: u8, n: i64, d: i64, head: Head) -> Screw {
        Screw { gauge, length: Length::inch(n, d), head }
    }

    #[test]
    fn the_screw_holds_and_stays_inside() {
        let on_hand = [
            screw(8, 2, 1, Head::Flat),
            screw(8, 5, 4, Head::Flat),
            screw(6, 5, 4, Head::Flat),
            screw(6, 3, 4, Head::Pan),
            screw(6, 1, 1, Head::Pan),
            screw(6, 1, 2, Head::Pan),
        ];
        let edge = Stack { through: 19_050, into: 500_000, edge: Some(19_050), heads: Heads::Flat };
        assert_eq!(choose(&on_hand, &edge), Some((on_hand[0], Fit::Good)));
        let thin_edge =
            Stack { through: 11_906, into: 400_000, edge: Some(11_906), heads: Heads::Flat };
        assert_eq!(choose(&on_hand, &thin_edge), Some((on_hand[2], Fit::Fair)));
        let front = Stack { through: 11_906, into: 19_050, edge: None, heads: Heads::Any };
        assert_eq!(choose(&on_hand, &front), Some((on_hand[4], Fit::Fair)));
        let flange = Stack { through: 2000, into: 19_050, edge: None, heads: Heads::Pan };
        assert_eq!(choose(&on_hand, &flange), Some((on_hand[5], Fit::Good)));
        // The trade's usual screw for two faces of 3/4 in.
        let faces = Stack { through: 19_050, into: 19_050, edge: None, heads: Heads::Flat };
        assert_eq!(choose(&on_hand, &faces), Some((on_hand[1], Fit::Fair)));
        let paper = Stack { through: 19_050, into: 3000, edge: None, heads: Heads::Any };
        assert_eq!(choose(&on_hand, &paper), None);
    }

    #[test]
    fn what_would_do_fits() {
        let stack =
            Stack { through: 18_000, into: 400_000, edge: Some(18_000), heads: Heads::Flat };
        let some = would_do(&stack, Notation::MmHalf);
        assert!(some.contains(&Screw { gauge: 8, length: Length::mm(45), head: Head::Flat }));
        assert!(!some.iter().any(|s| s.length < Length::mm(35)));
    }

    #[test]
    fn stations_keep_the_end_distance_and_the_spacing() {
        for length in (40_000..2_000_000).step_by(7919) {
            for end in [50_800, 70_000] {
                let at = stations(length, end);
                assert!(at.len() >= 2 && at[0] + at[at.len() - 1] == length, "{length} {at:?}");
                assert!(at.windows(2).all(|w| w[0] < w[1] && w[1] - w[0] <= SPACING + 1));
                if length >= 2 * end && length > NARROW {
                    assert_eq!(at[0], end);
                }
            }
        }
    }
}
