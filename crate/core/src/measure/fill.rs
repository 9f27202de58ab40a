//! What is left between the piece and the walls: to scribe, to fill, or to leave as air.

use super::{Found, Standing, rectangle};
use crate::scenario::{Neighbour, Space};

/// Up to here a gap is closed by scribing a strip or the front's edge; wider ones take a filler that
/// is cut to the taper (common practice, no source).
const SCRIBE: i64 = 20_000;

/// What caulk closes, and how much it may widen over its length (common practice, no source).
const CAULK: i64 = 3_000;
const EVEN: i64 = 1_000;

/// What to do about a gap that is so wide at its least and at its greatest.
fn cure(neighbour: Neighbour, least: i64, most: i64) -> &'static str {
    match neighbour {
        Neighbour::Open => "nothing to fill: the side shows",
        _ if most - least <= EVEN && most <= CAULK => "leave it, or close it with caulk",
        _ if most <= SCRIBE => "scribe a strip to it",
        _ => "cut a filler to this taper",
    }
}

pub(super) fn rows(found: &mut Found, space: &Space, standing: &Standing) {
    if rectangle::sides(space).is_none() {
        return;
    }
    let [x, height] = [standing.at[0], standing.size[2]];
    for (side, neighbour) in [space.left, space.right].into_iter().enumerate() {
        let at = |z: i64| {
            let face = rectangle::face(space, side, z);
            if side == 0 { x - face } else { face - x - standing.size[0] }
        };
        let mut places: Vec<i64> = space.widths.iter().map(|w| w.at.get().min(height)).collect();
        places.extend([0, height]);
        places.sort_unstable();
        places.dedup();
        let gaps: Vec<i64> = places.iter().map(|&z| at(z)).collect();
        let (Some(&low), Some(&high)) = (gaps.first(), gaps.last()) else { continue };
        let least = gaps.iter().copied().min().unwrap_or(0);
        let most = gaps.iter().copied().max().unwrap_or(0);
        let (id, name) = if side == 0 { ("fill-left", "left") } else { ("fill-right", "right") };
        let (foot, head) = (found.p(low), found.p(high));
        let text =
            if foot == head { foot } else { format!("{foot} at the foot, {head} at the top") };
        let (narrow, wide) = (found.fine(least), found.fine(most));
        let range = if narrow == wide { wide } else { format!("{narrow} to {wide}") };
        let mut why = format!(
            "{range} between the side and what stands there: {}",
            cure(neighbour, least, most)
        );
        if neighbour == Neighbour::Unit && most > CAULK {
            why.push_str("; beside a cabinet pull the two together and fill the other side");
        }
        found.said(id, &format!("Gap on the {name}"), most, text, why);
    }
}
