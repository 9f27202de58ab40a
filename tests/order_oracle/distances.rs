//! What sets the place of a new item along each axis.

use jointwise::assembly::Kind;

use super::blocks::{
    Block, Contact, WAYS, Way, along, any_meet, any_runs_into, axis, contacts, sign,
};
use super::body::{Body, Mask, bits};
use super::tools::driver_room;

/// By how much a spacer may differ from the distance.
const SPACER_TOLERANCE: i64 = 300;

/// What sets a distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// The bench, a face, a channel or a spacer.
    Stop,
    /// A neighbour's face that a fingertip feels.
    Flush,
    /// The tape.
    Tape,
}

/// A distance: from a side of a neighbour to a face of the new item.
#[derive(Clone, Copy)]
struct Gap {
    mate: usize,
    side: Way,
    /// From the one to the other.
    way: Way,
    from: i64,
    to: i64,
}

/// What sets the place of `item` along each axis when it joins `set` on `face`; what else is `within`
/// the body and not in yet is loose.
pub fn set_by(body: &Body, within: Mask, item: Mask, set: Mask, face: Way) -> [By; 3] {
    std::array::from_fn(|axis| set_along(body, within, item, set, face, axis))
}

fn set_along(body: &Body, within: Mask, item: Mask, set: Mask, face: Way, a: usize) -> By {
    let links = body.links_between(item, set);
    if links.iter().all(|&l| body.links[l].guides()) {
        return By::Stop;
    }
    let datum = body.unit(item).datum;
    let mut stops: Vec<Block> = Vec::new();
    if axis(face) == a {
        stops.extend(body.feet(item, face, body.plane(set, face)));
    }
    for other in bits(set) {
        stops
            .extend(body.contacts(item, other).iter().filter(|c| axis(c.way) == a).map(|c| c.face));
    }
    // Stopped over at least half of it, both ways across.
    let half = |b: usize| {
        let low = stops.iter().map(|s| s.lo[b]).min().unwrap_or(0);
        let high = stops.iter().map(|s| s.hi[b]).max().unwrap_or(0);
        2 * (high - low) >= datum.size(b)
    };
    if !stops.is_empty() && (0..3).filter(|&b| b != a).all(half) {
        return By::Stop;
    }
    if let Some(mate) = bits(body.after(item) & set).next()
        && stops.is_empty()
    {
        let gap = nearest(body, item, mate, a);
        return if gap.from == gap.to { By::Flush } else { By::Tape };
    }
    // Neighbours it is joined to and lies against across this axis, the largest contact first.
    let mut mates: Vec<(i128, usize)> = Vec::new();
    for other in bits(set).filter(|&o| links.iter().any(|&l| body.ends(l, item)[1] == o)) {
        let beside = body.contacts(item, other).into_iter().filter(|c| axis(c.way) != a);
        mates.extend(beside.map(|c| c.area).max().map(|area| (-area, other)));
    }
    mates.sort_unstable();
    let Some(&(_, mate)) = mates.first() else { return By::Stop };
    let gap = nearest(body, item, mate, a);
    if gap.from != gap.to && has_spacer(body, within, item, set, face, gap) {
        return By::Stop;
    }
    let flush = |mate: usize| {
        [true, false].into_iter().any(|g| is_flush(&datum, &body.items[mate].blocks, along(a, g)))
    };
    if mates.iter().any(|&(_, m)| flush(m)) {
        return By::Flush;
    }
    match (stops.is_empty(), gap.from == gap.to) {
        (false, _) => By::Stop,
        (true, true) => By::Flush,
        (true, false) => By::Tape,
    }
}

/// Whether the neighbour shows a face on that side, level with ours and beside it.
fn is_flush(own: &Block, theirs: &[Block], side: Way) -> bool {
    theirs.iter().any(|b| {
        let beside = (0..3).filter(|&a| a != axis(side)).all(|a| b.shared(own, a) >= 0);
        if b.end(side) != own.end(side) || !beside {
            return false;
        }
        let mut outside =
            std::array::from_fn(|a| (b.lo[a].max(own.lo[a]) + b.hi[a].min(own.hi[a])) / 2);
        outside[axis(side)] = own.end(side) + sign(side);
        !theirs.iter().any(|t| t.holds(outside))
    })
}

/// The distance between the two when they are beside each other along an axis, else the shorter of
/// those between their ends.
fn nearest(body: &Body, item: Mask, mate: usize, a: usize) -> Gap {
    let (own, theirs) = (body.unit(item).datum, body.items[mate].datum);
    let (low, high) = (along(a, false), along(a, true));
    if own.lo[a] >= theirs.hi[a] {
        return Gap { mate, side: high, way: high, from: theirs.hi[a], to: own.lo[a] };
    }
    if own.hi[a] <= theirs.lo[a] {
        return Gap { mate, side: low, way: low, from: theirs.lo[a], to: own.hi[a] };
    }
    if (own.lo[a] - theirs.lo[a]).abs() <= (own.hi[a] - theirs.hi[a]).abs() {
        Gap { mate, side: low, way: high, from: theirs.lo[a], to: own.lo[a] }
    } else {
        Gap { mate, side: high, way: low, from: theirs.hi[a], to: own.hi[a] }
    }
}

/// Whether some loose part fills the gap and comes out again.
fn has_spacer(body: &Body, within: Mask, item: Mask, set: Mask, face: Way, gap: Gap) -> bool {
    let a = axis(gap.way);
    let beside: Vec<Contact> =
        body.contacts(item, gap.mate).iter().filter(|c| axis(c.way) != a).copied().collect();
    let Some(most) = beside.iter().map(|c| c.area).max() else { return false };
    let Some(wall) =
        beside.iter().filter(|c| c.area == most).min_by_key(|c| (c.way, std::cmp::Reverse(c.face)))
    else {
        return false;
    };
    let (low, high) = (gap.from.min(gap.to), gap.from.max(gap.to));
    let n = axis(wall.way);
    let third = 3 - a - n;
    let mut marks: Vec<i64> = Vec::new();
    for b in &body.unit(set | item).blocks {
        marks.extend([b.lo[third], b.hi[third]]);
    }
    for loose in bits(within & !set & !item) {
        let [part] = body.items[loose].parts[..] else { continue };
        let part = &body.assembly.parts[part];
        if part.kind != Kind::Panel {
            continue;
        }
        let sizes = [part.length.0, part.width.0, part.thickness.0];
        for (fills, thick, long) in
            [(0, 1, 2), (0, 2, 1), (1, 0, 2), (1, 2, 0), (2, 0, 1), (2, 1, 0)]
        {
            if (sizes[fills] - (high - low)).abs() > SPACER_TOLERANCE {
                continue;
            }
            for mark in marks.iter().flat_map(|&m| [m, m - sizes[long]]) {
                let mut at = Block { lo: [0; 3], hi: [0; 3] };
                (at.lo[a], at.hi[a]) = (low, high);
                (at.lo[third], at.hi[third]) = (mark, mark + sizes[long]);
                // It lies against the mate's face, on the new item's side of it.
                let level = wall.face.lo[n];
                (at.lo[n], at.hi[n]) = if sign(wall.way) > 0 {
                    (level - sizes[thick], level)
                } else {
                    (level, level + sizes[thick])
                };
                if fits(body, item, set, face, gap, at) {
                    return true;
                }
            }
        }
    }
    false
}

/// Whether a spacer has room there, touches both ends of the gap, and comes out.
fn fits(body: &Body, item: Mask, set: Mask, face: Way, gap: Gap, at: Block) -> bool {
    let there = &body.unit(set | item).blocks;
    let mate = &body.items[gap.mate].blocks;
    let own = [at];
    if at.reach(face) > body.plane(set | item, face) || any_meet(&own, there) {
        return false;
    }
    let meets_item = contacts(&own, &body.unit(item).blocks).iter().any(|c| c.way == gap.way);
    let lies_on_mate = contacts(&own, mate).iter().any(|c| axis(c.way) != axis(gap.side));
    let shows_its_end = mate.iter().any(|b| {
        let beside = (0..3).filter(|&a| a != axis(gap.side)).all(|a| b.shared(&at, a) >= 0);
        b.end(gap.side) == gap.from && beside
    });
    let driven_past = body.links_between(item, set).into_iter().all(|link| {
        let room = driver_room(body, link, set | item, face);
        !any_meet(&room, &own)
    });
    let comes_out = WAYS.into_iter().any(|way| way != face && !any_runs_into(&own, way, there));
    meets_item && lies_on_mate && shows_its_end && driven_past && comes_out
}
