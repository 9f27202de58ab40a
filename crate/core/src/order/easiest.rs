//! What bringing in an item costs at least, whatever else is in by then.

use crate::geometry::Direction;
use crate::plan::Cost;

use super::holding::{self, Rest};
use super::scene::{Scene, members};
use super::sum::Sum;

/// Items with more around them than that are not looked into: all choices of these are tried.
const MOST_AROUND: u32 = 8;

/// What joining costs each item at least, on each face; without the driving of screws and the clamps
/// of its joints. Nothing where it cannot join on that face.
///
/// How an item lies, what sets its place, whether a way in is free and a tool reaches its joints hangs
/// on what is around it. All choices of that are tried; of all else whatever is easiest is taken.
pub struct Easiest {
    joining: Vec<[Option<Sum>; 6]>,
    /// For each link the faces on which it may close, a bit for each.
    pub closes_on: Vec<u8>,
}

impl Easiest {
    /// Of all items of a scene.
    pub fn new(scene: &Scene) -> Self {
        let all = |item| Direction::ALL.map(|face| joining(scene, item, scene.full(), face));
        let closes = |l: usize| {
            let [a, b] = scene.links[l].items;
            let both = 1u64 << a | 1 << b;
            let planes = |f: Direction| [scene.plane(both, f), scene.plane(scene.full(), f)];
            let on = |f: &Direction| reached(scene, l, both, *f, planes(*f));
            Direction::ALL.into_iter().filter(on).fold(0, |mask, f| mask | 1 << f.index())
        };
        Easiest {
            joining: (0..scene.items.len()).map(all).collect(),
            closes_on: (0..scene.links.len()).map(closes).collect(),
        }
    }

    /// What an item costs on a face.
    pub fn joining(&self, item: usize, face: usize) -> Option<Sum> {
        self.joining[item][face]
    }
}

/// What laying an item out costs at least.
pub fn laying_out(scene: &Scene, item: usize) -> Sum {
    let helper_steps = u32::from(holding::unwieldy(scene, item));
    Cost { helper_steps, minutes: 1, ..Cost::default() }.into()
}

/// What `item` costs at least that joins others of `within`, lying on `face`.
pub fn joining(scene: &Scene, item: usize, within: u64, face: Direction) -> Option<Sum> {
    let helper_steps = u32::from(holding::unwieldy(scene, item));
    let least = Cost { helper_steps, minutes: 2, ..Cost::default() };
    let near = scene.near(item, within);
    if near.count_ones() > MOST_AROUND {
        return Some(least.into());
    }
    let f = face.index();
    let own = scene.masks[item];
    let reach = scene.reach[item][f];
    let highest = scene.plane(within, face);
    let flat = members(within & !own).any(|i| scene.reach[i][f] == reach);
    let above = highest > reach;
    let mut best: Option<Sum> = None;
    let mut there = near;
    while there != 0 {
        let level = scene.plane(there, face).max(reach);
        // On the bench, where the others let it down so far, or off it.
        let lying = [(true, flat && level == reach), (false, above)];
        for (lies, _) in lying.into_iter().filter(|&(_, can)| can) {
            let planes = if lies { [reach; 2] } else { [level, highest] };
            if let Some(cost) = among(scene, item, there, lies, face, planes, least) {
                best = Some(best.map_or(cost, |b| b.min(cost)));
            }
        }
        if best == Some(least.into()) {
            break;
        }
        there = (there - 1) & near;
    }
    best
}

/// The same when of what is around an item these are in.
fn among(
    scene: &Scene,
    item: usize,
    there: u64,
    lies: bool,
    face: Direction,
    planes: [i64; 2],
    least: Cost,
) -> Option<Sum> {
    let links = scene.links_of(item, there);
    let own = scene.masks[item];
    let clear = |d: Direction| d != face.opposite() && scene.blocking.entering(item, d, there) == 0;
    if links == 0 || !Direction::ALL.into_iter().any(clear) {
        return None;
    }
    let closes = |l: &usize| reached(scene, *l, there | own, face, planes);
    let mut open = members(links).filter(|l| !closes(l));
    if open.any(|l| scene.links[l].glue) {
        return None;
    }
    let surroundings = scene.surrounded(item, there, lies, face);
    let stands = surroundings.rest == Rest::Stands;
    let channel = |l: usize| scene.links[l].kind.is_channel();
    let kept = members(links).any(|l| channel(l) || scene.links[l].fastens && closes(&l))
        || stands && scene.only_slides(links);
    if !kept {
        return None;
    }
    let unset = surroundings.unset(|s| s.offcut || s.panels & !there & !own != 0);
    let held = u32::from(!stands);
    let lifted = u32::from(surroundings.rest == Rest::Lifted);
    let more = Cost {
        by_feel: unset.by_feel,
        handlings: lifted,
        holds: held,
        measured: unset.measured,
        minutes: held + unset.measured,
        lifted,
        ..Cost::default()
    };
    Some(least.plus(more).into())
}

/// Whether a tool may reach all screws of a link past the items `there`, with the lowest of all at
/// some level between `planes`.
fn reached(scene: &Scene, link: usize, there: u64, face: Direction, planes: [i64; 2]) -> bool {
    scene.links[link]
        .rooms
        .iter()
        .any(|rooms| rooms.iter().all(|r| r.may_be_free(there, face, planes, scene.workshop)))
}
