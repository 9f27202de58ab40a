//! One body's items with everything worked out beforehand that the search asks again and again.

use std::cell::{OnceCell, RefCell};
use std::cmp::Reverse;
use std::rc::Rc;

use crate::assembly::{Assembly, JointKind};
use crate::geometry::{Box3, Contact, Direction};
use crate::plan::{Cost, Workshop};

use super::blocking::Blocking;
use super::bodies::{Body, Content, Item};
use super::easiest::Easiest;
use super::links::{self, Link};
use super::locate::{Gap, Surroundings};
use super::spacer::{self, SPACER_TOLERANCE, Spacing};
use super::stability;
use super::table::{Key, Table, mix};

/// Minutes for laying a set aside and taking it up again.
const ASIDE: u32 = 2;

/// Where spacers may lie, worked out once.
type Spacings = Rc<[Spacing]>;

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
    /// For each item the items that must be in before it.
    pub after: Vec<u64>,
    /// For each item the axes along which it must be level with others, for a panel laid over them.
    pub laid_over: Vec<[bool; 3]>,
    /// Coordinate times sign of each item's six faces.
    pub reach: Vec<[i64; 6]>,
    /// For each item the own items that it touches, is joined to, or is set against.
    near: Vec<u64>,
    /// For each item its links, each with the own item at the other end.
    at: Vec<Vec<(usize, usize)>>,
    /// For each item its contacts with what it is joined to, the largest first: with which own item,
    /// and in which direction.
    against: Vec<Vec<(usize, Direction)>>,
    /// The openings of the clamps on hand, the shortest first.
    pub clamps: Vec<i64>,
    /// What is known of standing, for a set and a face.
    pub(super) standing: RefCell<Table<(u64, u8), bool>>,
    /// Where spacers may lie, for an item, its mate and an axis.
    spacing: RefCell<Table<(u64, u64), Spacings>>,
    surroundings: RefCell<Table<(u64, u64), Surroundings>>,
    /// What joining costs at least.
    easiest: OnceCell<Easiest>,
}

impl Key for (u64, u8) {
    fn mixed(&self) -> u64 {
        mix([self.0, u64::from(self.1)])
    }
}

impl Key for (u64, u64) {
    fn mixed(&self) -> u64 {
        mix([self.0, self.1])
    }
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
        let links = links::between(assembly, workshop, items);
        let laid_over = laid_over(&contacts, &links);
        let mut scene = Scene {
            assembly,
            workshop,
            items: items.to_vec(),
            basics: items.len(),
            masks: (0..items.len()).map(|i| 1 << i).collect(),
            laid_over,
            blocking: Blocking::new(items),
            contacts,
            links,
            after,
            reach: items.iter().map(reach).collect(),
            near: Vec::new(),
            at: Vec::new(),
            against: Vec::new(),
            clamps: {
                let mut clamps = workshop.clamps.clone();
                clamps.sort_unstable();
                clamps
            },
            standing: RefCell::default(),
            spacing: RefCell::default(),
            surroundings: RefCell::default(),
            easiest: OnceCell::new(),
        };
        (0..items.len()).for_each(|item| scene.look_round(item));
        scene
    }

    /// Notes what an item is joined to and what it touches.
    fn look_round(&mut self, item: usize) {
        let own = self.masks[item];
        let ends = self.links.iter().enumerate().filter_map(|(l, link)| {
            let [a, b] = link.items.map(|i| own >> i & 1 == 1);
            let other = link.items[usize::from(a)];
            (a != b).then_some((l, other))
        });
        let at: Vec<(usize, usize)> = ends.collect();
        let touches = |&other: &usize| self.contacts(item, other).next().is_some();
        let touching = (0..self.basics).filter(touches).fold(0, |all, i| all | 1 << i);
        let joined = at.iter().fold(0, |all, &(_, i)| all | 1 << i);
        self.near.push((touching | joined | self.after[item]) & !own);
        let mut against: Vec<(Reverse<i128>, Direction, usize)> = members(joined)
            .flat_map(|mate| {
                self.contacts(item, mate).map(move |c| (Reverse(c.area()), c.direction, mate))
            })
            .collect();
        against.sort_unstable();
        self.against.push(against.into_iter().map(|(_, d, mate)| (mate, d)).collect());
        self.at.push(at);
    }

    /// An item's contacts with what it is joined to, the largest first.
    pub fn against(&self, item: usize) -> impl Iterator<Item = (usize, Direction)> {
        self.against[item].iter().copied()
    }

    /// What laying a set aside and taking it up again costs. Several panels together take both arms,
    /// off the bench and back; a panel with its hardware is carried as it would be without.
    pub fn aside(&self, item: usize) -> Cost {
        let panels = members(self.masks[item]).filter(|&i| self.is_panel(i)).count();
        Cost { handlings: u32::from(panels > 1), minutes: ASIDE, ..Cost::default() }
    }

    /// Works out everything for a body, with the sets that join it.
    pub fn of(assembly: &'a Assembly, workshop: &'a Workshop, body: &Body) -> Self {
        let mut scene = Scene::new(assembly, workshop, &body.items);
        for &(mask, other) in &body.sets {
            scene.add_set(mask);
            if let Some(item) = scene.items.last_mut() {
                item.content = Content::Body(other);
            }
        }
        scene
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
        self.look_round(self.items.len() - 1);
        self.easiest = OnceCell::new();
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

    /// Links between items of `set`.
    pub fn links_in(&self, set: u64) -> u64 {
        if set & set.wrapping_sub(1) == 0 {
            return 0;
        }
        let within = |link: &Link| link.items.iter().all(|&i| set >> i & 1 == 1);
        let links = self.links.iter().enumerate();
        links.fold(0, |mask, (l, link)| mask | u64::from(within(link)) << l)
    }

    /// Links of `item` with items of `set`, which does not hold it.
    pub fn links_of(&self, item: usize, set: u64) -> u64 {
        self.at[item].iter().fold(0, |mask, &(l, other)| mask | (set >> other & 1) << l)
    }

    /// Whether all of these links are slides.
    pub fn only_slides(&self, links: u64) -> bool {
        members(links).all(|l| self.links[l].kind == JointKind::Slide)
    }

    /// What of `set` an item touches, is joined to, or is set against.
    pub fn near(&self, item: usize, set: u64) -> u64 {
        self.near[item] & set
    }

    /// Whether an item that joins `set` lies on the bench.
    pub fn lies(&self, item: usize, set: u64, face: Direction) -> bool {
        self.reach[item][face.index()] == self.plane(set, face)
    }

    /// The rectangles in which an item lies on a bench.
    pub fn underside(&self, item: usize, face: Direction) -> Vec<Box3> {
        self.footprint(self.masks[item], face, self.reach[item][face.index()])
    }

    /// How an item lies that joins `set`, and what sets its place.
    pub fn surroundings(&self, item: usize, set: u64, face: Direction) -> Surroundings {
        self.surrounded(item, self.near(item, set), self.lies(item, set, face), face)
    }

    /// The same for an item among the items `near` it.
    pub fn surrounded(&self, item: usize, near: u64, lies: bool, face: Direction) -> Surroundings {
        let key = (near, (item as u64) << 4 | (face.index() as u64) << 1 | u64::from(lies));
        if let Some(&known) = self.surroundings.borrow().get(&key) {
            return known;
        }
        let found = Surroundings::new(self, item, near, lies, face);
        self.surroundings.borrow_mut().insert(key, found);
        found
    }

    /// The own item that is a part, alone.
    pub fn item_of(&self, part: usize) -> u64 {
        let is = |i: &usize| self.items[*i].parts == [part];
        (0..self.basics).find(is).map_or(0, |i| 1 << i)
    }

    /// The panels and offcuts that have a size within the tolerance of a spacer: the own items, and
    /// whether there is an offcut.
    pub fn as_wide(&self, gap: i64) -> (u64, bool) {
        let close = |size: i64| (size - gap).abs() <= SPACER_TOLERANCE;
        let fits = |i: &usize| {
            let [part] = self.items[*i].parts[..] else { return false };
            let part = &self.assembly.parts[part];
            [part.length, part.width, part.thickness].into_iter().any(|l| close(l.get()))
        };
        let panels = (0..self.basics).filter(fits).fold(0, |all, i| all | 1 << i);
        let offcuts = self.workshop.offcuts.iter();
        (panels, offcuts.flat_map(|o| [o.length, o.width, o.thickness]).any(close))
    }

    /// Where a spacer may lie that sets a gap of an item.
    pub fn spacing(&self, item: usize, gap: &Gap) -> Rc<[Spacing]> {
        let key = (item as u64, (gap.mate as u64) << 2 | gap.direction.axis() as u64);
        if let Some(known) = self.spacing.borrow().get(&key) {
            return Rc::clone(known);
        }
        let found: Rc<[Spacing]> = spacer::spacings(self, item, *gap).into();
        self.spacing.borrow_mut().insert(key, Rc::clone(&found));
        found
    }

    /// What joining costs each item at least.
    pub fn easiest(&self) -> &Easiest {
        self.easiest.get_or_init(|| Easiest::new(self))
    }

    /// The two items of a link, that of `item` first.
    pub fn ends(&self, link: usize, item: usize) -> [usize; 2] {
        let [a, b] = self.links[link].items;
        if self.masks[item] >> a & 1 == 1 { [a, b] } else { [b, a] }
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
