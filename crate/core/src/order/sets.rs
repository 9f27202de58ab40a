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
        let links = members(scene.links_of(item, scene.full()));
        let joined = links.filter(|&l| scene.links[l].kind != JointKind::Slide);
        each_once(joined.map(|l| scene.ends(l, item)[1]).collect())
    };
    let partners: Vec<Vec<usize>> = (0..scene.basics).map(partners).collect();
    let carried = carried(&partners, |item| scene.after[item] != 0);
    let sets = carried.into_iter().enumerate().filter(|(_, own)| !own.is_empty());
    sets.map(|(holder, own)| own.into_iter().fold(1 << holder, |all, i| all | 1 << i)).collect()
}

/// For each item what it alone carries: what is joined to it and to nothing else, and does not wait for
/// anything.
pub fn carried(partners: &[Vec<usize>], waits: impl Fn(usize) -> bool) -> Vec<Vec<usize>> {
    let mut carried = vec![Vec::new(); partners.len()];
    for (item, own) in partners.iter().enumerate() {
        if let [holder] = own[..]
            && !waits(item)
            && partners[holder].len() > 1
        {
            carried[holder].push(item);
        }
    }
    carried
}

/// Some items in order, each once.
pub fn each_once(mut items: Vec<usize>) -> Vec<usize> {
    items.sort_unstable();
    items.dedup();
    items
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
