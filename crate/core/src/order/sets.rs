//! Which items of a body might be made ready beforehand, as a set that joins whole.

use crate::assembly::JointKind;

use super::scene::{Scene, members};

/// Bodies of at most that many items may have any connected choice of items made ready.
pub const ANY_UP_TO: usize = 7;

/// Most items of a set that is tried in a larger body when nothing else works.
const MOST_IN_A_SET: u32 = 4;

/// Most sets tried then: the smallest first.
const MOST_SETS: usize = 400;

/// The sets tried at first: all connected choices in a small body, else each panel with all that
/// is fastened to it and to nothing else.
pub fn likely(scene: &Scene) -> Vec<u64> {
    if scene.basics <= ANY_UP_TO { connected(scene, scene.basics as u32 - 1) } else { ready(scene) }
}

/// The sets tried in a larger body when there is no order without, or none for one person.
pub fn further(scene: &Scene) -> Vec<u64> {
    if scene.basics <= ANY_UP_TO {
        return Vec::new();
    }
    let known = ready(scene);
    let mut sets = connected(scene, MOST_IN_A_SET);
    sets.retain(|set| !known.contains(set));
    sets.truncate(MOST_SETS);
    sets
}

/// Each panel with the items that are fastened, or let in, to it and to nothing else.
fn ready(scene: &Scene) -> Vec<u64> {
    let partners = |item: usize| {
        let mut all: Vec<usize> = members(scene.links_of(item, scene.full()))
            .filter(|&l| scene.links[l].kind != JointKind::Slide)
            .map(|l| scene.ends(l, item)[1])
            .collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let mut sets: Vec<u64> = Vec::new();
    let mut carried = vec![0u64; scene.basics];
    for item in 0..scene.basics {
        if let [holder] = partners(item)[..]
            && scene.after[item] == 0
            && partners(holder).len() > 1
        {
            carried[holder] |= 1 << item;
        }
    }
    for (holder, carried) in carried.into_iter().enumerate() {
        if carried != 0 {
            sets.push(carried | 1 << holder);
        }
    }
    sets
}

/// All choices of 2 up to `most` items, not all of them, that joints which fasten connect; small
/// ones first.
fn connected(scene: &Scene, most: u32) -> Vec<u64> {
    let mut next = vec![0u64; scene.basics];
    for link in scene.links.iter().filter(|l| l.fastens) {
        let [a, b] = link.items;
        next[a] |= 1 << b;
        next[b] |= 1 << a;
    }
    let mut layer: Vec<u64> = (0..scene.basics).map(|i| 1 << i).collect();
    let mut sets = Vec::new();
    for _ in 2..=most {
        let mut grown: Vec<u64> = layer
            .iter()
            .flat_map(|&set| {
                let around = members(set).fold(0, |all, i| all | next[i]) & !set;
                members(around).map(move |i| set | 1 << i)
            })
            .collect();
        grown.sort_unstable();
        grown.dedup();
        grown.retain(|&set| set != scene.full());
        sets.extend(&grown);
        layer = grown;
    }
    sets
}
