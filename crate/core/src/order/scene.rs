//! One body's items with everything worked out beforehand that the search asks again and again.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::assembly::{Assembly, Joint, JointKind, Kind};
use crate::geometry::{Box3, Contact, Direction, Point};
use crate::plan::Workshop;

use super::MOST_LINKS;
use super::access::{ToolRoom, drivers};
use super::blocking::Blocking;
use super::bodies::{Body, Content, Item};
use super::clamps::Clamping;
use super::stability;

/// A joint between two items of the body.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// Index into the assembly's joints.
    pub joint: usize,
    /// The two items.
    pub items: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether it makes the two one rigid thing once closed.
    pub fastens: bool,
    /// Whether glue goes on.
    pub glue: bool,
    /// Whether it is wet until its glue has cured: nothing but glue fastens it.
    pub cures: bool,
    /// Room for each of its screws, for each tool.
    pub rooms: Vec<Vec<ToolRoom>>,
    /// Places for a clamp.
    pub clamping: Clamping,
}

/// A body to be ordered.
///
/// Items below [`Scene::basics`] are the body's own; sets of items are sets of these. Those from
/// there on are sets that may be made ready beforehand and join whole.
pub struct Scene<'a> {
    /// The whole assembly.
    pub assembly: &'a Assembly,
    /// Tools and room.
    pub workshop: &'a Workshop,
    /// The body's items, then sets of them.
    pub items: Vec<Item>,
    /// How many of the items are the body's own.
    pub basics: usize,
    /// For each item the own items in it.
    pub masks: Vec<u64>,
    /// What is in whose way.
    pub blocking: Blocking,
    /// Faces each own item shares with each other.
    contacts: Vec<Vec<Vec<Contact>>>,
    /// Joints between items, at most 64.
    pub links: Vec<Link>,
    /// Links at each own item.
    at: Vec<u64>,
    /// For each item the items that must be in before it.
    pub after: Vec<u64>,
    /// For each item the axes along which it must be level with others, for a panel laid over them.
    pub laid_over: Vec<[bool; 3]>,
    /// Coordinate times sign of each item's six faces.
    pub reach: Vec<[i64; 6]>,
    standing: RefCell<BTreeMap<(u64, u8), bool>>,
}

/// How many joints hold the items of a body together.
pub fn joints_in(assembly: &Assembly, body: &Body) -> usize {
    let item_of = |part: usize| body.items.iter().position(|i| i.parts.contains(&part));
    let counts = |joint: &&Joint| {
        let [a, b] = joint.parts.map(item_of);
        joint.kind != JointKind::Touch && a.is_some() && b.is_some() && a != b
    };
    assembly.joints.iter().filter(counts).count()
}

/// Items of a set, lowest first.
pub fn members(set: u64) -> impl Iterator<Item = usize> {
    let mut rest = set;
    std::iter::from_fn(move || {
        (rest != 0).then(|| {
            let i = rest.trailing_zeros() as usize;
            rest &= rest - 1;
            i
        })
    })
}

impl<'a> Scene<'a> {
    /// Works out everything for a body.
    pub fn new(assembly: &'a Assembly, workshop: &'a Workshop, items: &[Item]) -> Self {
        let item_of = |part: usize| items.iter().position(|i| i.parts.contains(&part));
        let tools = drivers(workshop);
        let mut links = Vec::new();
        for (j, joint) in assembly.joints.iter().enumerate() {
            let (Some(a), Some(b)) = (item_of(joint.parts[0]), item_of(joint.parts[1])) else {
                continue;
            };
            if a == b || joint.kind == JointKind::Touch || links.len() == MOST_LINKS {
                continue;
            }
            let guided = matches!(joint.kind, JointKind::Groove | JointKind::Slide);
            let screwed = !joint.fasteners.is_empty();
            let all =
                |tool| joint.fasteners.iter().map(|f| ToolRoom::new(f, tool, items)).collect();
            links.push(Link {
                joint: j,
                items: [a, b],
                kind: joint.kind,
                fastens: screwed || (joint.glue && !guided),
                glue: joint.glue,
                cures: joint.glue && !screwed && !guided,
                rooms: tools.iter().map(all).collect(),
                clamping: Clamping::new(assembly, joint, items, workshop),
            });
        }
        let after = items
            .iter()
            .map(|item| {
                let mut mask = 0;
                for &p in &item.parts {
                    for id in &assembly.parts[p].set_against {
                        let other = assembly.index_of(id).and_then(item_of);
                        mask |= other.map_or(0, |o| 1 << o);
                    }
                }
                mask
            })
            .enumerate()
            .map(|(i, mask): (usize, u64)| mask & !(1 << i))
            .collect();
        let contacts: Vec<Vec<Vec<Contact>>> = items
            .iter()
            .enumerate()
            .map(|(i, a)| {
                let with = |(j, b): (usize, &Item)| {
                    if i == j { Vec::new() } else { a.solid.contacts(&b.solid) }
                };
                items.iter().enumerate().map(with).collect()
            })
            .collect();
        let mut at = vec![0u64; items.len()];
        for (l, link) in links.iter().enumerate() {
            link.items.iter().for_each(|&i| at[i] |= 1 << l);
        }
        let laid_over = laid_over(&contacts, &links);
        Scene {
            assembly,
            workshop,
            items: items.to_vec(),
            basics: items.len(),
            masks: (0..items.len()).map(|i| 1 << i).collect(),
            laid_over,
            blocking: Blocking::new(items),
            contacts,
            at,
            links,
            after,
            reach: items.iter().map(reach).collect(),
            standing: RefCell::default(),
        }
    }

    /// Adds a set of own items that may be made ready beforehand.
    pub fn add_set(&mut self, mask: u64) {
        let members: Vec<usize> = members(mask).collect();
        let parts: Vec<&Item> = members.iter().map(|&i| &self.items[i]).collect();
        let item = Item::of(Content::Set, &parts, self.assembly);
        self.reach.push(reach(&item));
        self.items.push(item);
        self.masks.push(mask);
        self.blocking.add_set(mask);
        self.after.push(members.iter().fold(0, |all, &i| all | self.after[i]) & !mask);
        let over = |axis: usize| members.iter().any(|&i| self.laid_over[i][axis]);
        self.laid_over.push([0, 1, 2].map(over));
    }

    /// Faces on which the items of `set` fit the bench; all when they fit on none.
    pub fn faces(&self, set: u64) -> Vec<Direction> {
        let all = self.around(set);
        let fits = |face: &Direction| {
            let [a, b] = stability::flat_axes(*face).map(|axis| all.extent(axis));
            let (long, short) = (a.max(b), a.min(b));
            long <= self.workshop.bench_length && short <= self.workshop.bench_width
        };
        let faces: Vec<Direction> = Direction::ALL.into_iter().filter(fits).collect();
        if faces.is_empty() { Direction::ALL.to_vec() } else { faces }
    }

    /// Faces that an item shares with one of the body's own.
    pub fn contacts(&self, item: usize, other: usize) -> impl Iterator<Item = &Contact> {
        members(self.masks[item]).flat_map(move |i| &self.contacts[i][other])
    }

    /// All items.
    pub fn full(&self) -> u64 {
        (1u64 << self.basics) - 1
    }

    /// All links.
    pub fn all_links(&self) -> u64 {
        if self.links.len() == 64 { u64::MAX } else { (1u64 << self.links.len()) - 1 }
    }

    /// Level of the bench top under a set lying on `face`, as coordinate times sign.
    pub fn plane(&self, set: u64, face: Direction) -> i64 {
        members(set).map(|i| self.reach[i][face.index()]).max().unwrap_or(0)
    }

    /// The first tool that reaches every screw of a link between items of `set`.
    pub fn tool(&self, link: usize, set: u64, face: Direction, plane: i64) -> Option<usize> {
        self.links[link]
            .rooms
            .iter()
            .position(|rooms| rooms.iter().all(|r| r.is_free(set, face, plane, self.workshop)))
    }

    /// Links that the tools close between the items of `set` lying on `face`, of those in `among`.
    /// Links that cure take a clamp besides.
    pub fn closable(&self, set: u64, face: Direction, among: u64) -> u64 {
        let plane = self.plane(set, face);
        members(among)
            .filter(|&l| {
                self.links[l].items.iter().all(|&i| set >> i & 1 == 1)
                    && self.tool(l, set, face, plane).is_some()
            })
            .fold(0, |mask, l| mask | 1 << l)
    }

    /// Links at any item of `set`.
    fn links_at(&self, set: u64) -> u64 {
        members(set).fold(0, |mask, i| mask | self.at[i])
    }

    /// Links between items of `set`.
    pub fn links_in(&self, set: u64) -> u64 {
        self.links_at(set) & !self.links_at(self.full() & !set)
    }

    /// Links of `item` with items of `set`, which does not hold it.
    pub fn links_of(&self, item: usize, set: u64) -> u64 {
        self.links_at(self.masks[item]) & self.links_at(set & !self.masks[item])
    }

    /// The two items of a link, that of `item` first.
    pub fn ends(&self, link: usize, item: usize) -> [usize; 2] {
        let [a, b] = self.links[link].items;
        if self.masks[item] >> a & 1 == 1 { [a, b] } else { [b, a] }
    }

    /// Whether the set can be turned as one: what is fastened together is one lump, and every lump
    /// but the largest is shut in by the others, however it would move.
    pub fn is_one(&self, set: u64, closed: u64) -> bool {
        self.loose(set, closed).is_some_and(|loose| loose.is_empty())
    }

    /// Whether what is finished hangs together: every lump is shut in by the others or slides on
    /// the largest.
    pub fn hangs_together(&self, set: u64, closed: u64) -> bool {
        let Some(loose) = self.loose(set, closed) else { return false };
        let largest = self.lumps(set, closed).first().copied().unwrap_or(0);
        let slides = |lump: u64| {
            members(lump).any(|i| {
                members(self.links_of(i, largest)).any(|l| self.links[l].kind == JointKind::Slide)
            })
        };
        loose.into_iter().all(slides)
    }

    /// The lumps of a set that could move on their own; nothing for an empty set.
    pub fn loose(&self, set: u64, closed: u64) -> Option<Vec<u64>> {
        let lumps = self.lumps(set, closed);
        let shut_in = |lump: u64| {
            Direction::ALL
                .into_iter()
                .all(|d| members(lump).any(|i| self.blocking.leaving(i, d, set & !lump) != 0))
        };
        // The lump of most items is what is turned; the others go with it.
        let (_, others) = lumps.split_first()?;
        Some(others.iter().copied().filter(|&lump| !shut_in(lump)).collect())
    }

    /// What is fastened together, the lump of most items first.
    fn lumps(&self, set: u64, closed: u64) -> Vec<u64> {
        let mut rest = set;
        let mut lumps = Vec::new();
        while rest != 0 {
            let lump = self.lump(rest & rest.wrapping_neg(), closed) & set;
            lumps.push(lump);
            rest &= !lump;
        }
        lumps.sort_by_key(|l| std::cmp::Reverse(l.count_ones()));
        lumps
    }

    /// Everything fastened, over however many joints, to the items it starts from.
    fn lump(&self, from: u64, closed: u64) -> u64 {
        let mut lump = from;
        loop {
            let before = lump;
            for l in members(closed).filter(|&l| self.links[l].fastens) {
                let [a, b] = self.links[l].items.map(|i| 1u64 << i);
                if lump & (a | b) != 0 {
                    lump |= a | b;
                }
            }
            if lump == before {
                return lump;
            }
        }
    }

    /// Whether some parts of the set are fastened in a ring, so that it has diagonals to measure.
    pub fn has_ring(&self, set: u64, closed: u64) -> bool {
        let mut group: Vec<usize> = (0..self.basics).collect();
        for l in members(closed).filter(|&l| self.links[l].fastens) {
            let [a, b] = self.links[l].items.map(|i| group[i]);
            if self.links[l].items.iter().any(|&i| set >> i & 1 == 0) {
                continue;
            }
            if a == b {
                return true;
            }
            for g in &mut group {
                if *g == b {
                    *g = a;
                }
            }
        }
        false
    }

    /// Centre of gravity of a set.
    pub fn centre(&self, set: u64) -> Point {
        let mass: i128 = members(set).map(|i| i128::from(self.items[i].mass)).sum();
        let twice = 2 * mass.max(1);
        std::array::from_fn(|a| {
            let moment: i128 = members(set).map(|i| self.items[i].moments[a]).sum();
            i64::try_from(moment / twice).unwrap_or(0)
        })
    }

    /// The least box around a set.
    pub fn around(&self, set: u64) -> Box3 {
        let mut all = members(set).map(|i| self.items[i].bounds);
        let first = all.next().unwrap_or(Box3::new([0; 3], [0; 3]));
        all.fold(first, |a, b| a.union(&b))
    }

    /// Whether an own item is more than a piece of hardware.
    pub fn is_panel(&self, item: usize) -> bool {
        self.items[item].parts.iter().any(|&p| self.assembly.parts[p].kind == Kind::Panel)
    }

    /// Mass of a set in grams.
    pub fn mass(&self, set: u64) -> i64 {
        members(set).map(|i| self.items[i].mass).sum()
    }

    /// The rectangles in which `set` lies on a bench at `plane`.
    pub fn footprint(&self, set: u64, face: Direction, plane: i64) -> Vec<Box3> {
        members(set)
            .filter(|&i| self.reach[i][face.index()] == plane)
            .flat_map(|i| self.items[i].solid.boxes())
            .filter(|b| b.face(face) * face.sign() == plane)
            .copied()
            .collect()
    }

    /// Whether a rigid set stands on `face` with margin.
    pub fn stands(&self, set: u64, face: Direction) -> bool {
        let key = (set, face.index() as u8);
        if let Some(&known) = self.standing.borrow().get(&key) {
            return known;
        }
        let plane = self.plane(set, face);
        let feet = self.footprint(set, face, plane);
        let stands = stability::stands(self.centre(set), &feet, face, plane * face.sign());
        self.standing.borrow_mut().insert(key, stands);
        stands
    }
}

/// Coordinate times sign of an item's six faces.
fn reach(item: &Item) -> [i64; 6] {
    Direction::ALL.map(|d| item.bounds.face(d) * d.sign())
}

/// Axes along which items must be level, because one panel is laid over several of them.
fn laid_over(contacts: &[Vec<Vec<Contact>>], links: &[Link]) -> Vec<[bool; 3]> {
    let overlays = |panel: usize| {
        let of_it = move |l: &&Link| l.kind == JointKind::Overlay && l.items.contains(&panel);
        links.iter().filter(of_it).filter_map(move |l| {
            let other = if l.items[0] == panel { l.items[1] } else { l.items[0] };
            let largest = contacts[panel][other]
                .iter()
                .min_by_key(|c| (std::cmp::Reverse(c.area()), c.direction))?;
            Some((other, largest.direction))
        })
    };
    let mut over = vec![[false; 3]; contacts.len()];
    for panel in 0..contacts.len() {
        for towards in Direction::ALL {
            let mut under: Vec<usize> =
                overlays(panel).filter(|&(_, d)| d == towards).map(|(other, _)| other).collect();
            under.sort_unstable();
            under.dedup();
            if under.len() > 1 {
                under.iter().for_each(|&item| over[item][towards.axis()] = true);
            }
        }
    }
    over
}
