//! One body's items with everything worked out beforehand that the search asks again and again.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::assembly::{Assembly, Joint, JointKind};
use crate::geometry::{Box3, Contact, Direction, Point};
use crate::plan::{Cost, Workshop};

use super::MOST_LINKS;
use super::access::ToolRoom;
use super::blocking::Blocking;
use super::bodies::{Body, Content, Item};
use super::search::Placing;
use super::stability;

/// Placings already priced, by the set, the item and the face.
type Priced = BTreeMap<(u64, u8, u8), Option<(Placing, Cost)>>;

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
    /// Room for each of its screws.
    pub rooms: Vec<ToolRoom>,
}

/// A body to be ordered.
pub struct Scene<'a> {
    /// The whole assembly.
    pub assembly: &'a Assembly,
    /// Tools and room.
    pub workshop: &'a Workshop,
    /// The body's items.
    pub items: &'a [Item],
    /// What is in whose way.
    pub blocking: Blocking,
    /// Faces each item shares with each other.
    pub contacts: Vec<Vec<Vec<Contact>>>,
    /// Joints between items, at most 64.
    pub links: Vec<Link>,
    /// Links between each two items.
    between: Vec<Vec<u64>>,
    /// For each item the items that must be in before it.
    pub after: Vec<u64>,
    /// For each item the axes along which it must be level with others, for a panel laid over them.
    pub laid_over: Vec<[bool; 3]>,
    /// Coordinate times sign of each item's six faces.
    pub reach: Vec<[i64; 6]>,
    /// Faces the finished body fits the bench on.
    pub faces: Vec<Direction>,
    standing: RefCell<BTreeMap<(u64, u8), bool>>,
    pub(super) priced: RefCell<Priced>,
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
    pub fn new(assembly: &'a Assembly, workshop: &'a Workshop, items: &'a [Item]) -> Self {
        let item_of = |part: usize| items.iter().position(|i| i.parts.contains(&part));
        let mut links = Vec::new();
        for (j, joint) in assembly.joints.iter().enumerate() {
            let (Some(a), Some(b)) = (item_of(joint.parts[0]), item_of(joint.parts[1])) else {
                continue;
            };
            if a == b || joint.kind == JointKind::Touch || links.len() == MOST_LINKS {
                continue;
            }
            links.push(Link {
                joint: j,
                items: [a, b],
                kind: joint.kind,
                fastens: !joint.fasteners.is_empty()
                    || (joint.glue && !matches!(joint.kind, JointKind::Groove | JointKind::Slide)),
                rooms: joint.fasteners.iter().map(|f| ToolRoom::new(f, workshop, items)).collect(),
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
        let reach: Vec<[i64; 6]> =
            items.iter().map(|i| Direction::ALL.map(|d| i.bounds.face(d) * d.sign())).collect();
        let all = items
            .iter()
            .skip(1)
            .fold(items.first().map_or(Box3::new([0; 3], [0; 3]), |i| i.bounds), |a, i| {
                a.union(&i.bounds)
            });
        let fits = |face: &Direction| {
            let [a, b] = stability::flat_axes(*face).map(|axis| all.extent(axis));
            let (long, short) = (a.max(b), a.min(b));
            long <= workshop.bench_length && short <= workshop.bench_width
        };
        let mut faces: Vec<Direction> = Direction::ALL.into_iter().filter(fits).collect();
        if faces.is_empty() {
            faces = Direction::ALL.to_vec();
        }
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
        let mut between = vec![vec![0u64; items.len()]; items.len()];
        for (l, link) in links.iter().enumerate() {
            let [a, b] = link.items;
            between[a][b] |= 1 << l;
            between[b][a] |= 1 << l;
        }
        let laid_over = laid_over(&contacts, &links);
        Scene {
            assembly,
            workshop,
            items,
            laid_over,
            blocking: Blocking::new(items),
            contacts,
            between,
            links,
            after,
            reach,
            faces,
            standing: RefCell::default(),
            priced: RefCell::default(),
        }
    }

    /// All items.
    pub fn full(&self) -> u64 {
        (1u64 << self.items.len()) - 1
    }

    /// All links.
    pub fn all_links(&self) -> u64 {
        if self.links.len() == 64 { u64::MAX } else { (1u64 << self.links.len()) - 1 }
    }

    /// Level of the bench top under a set lying on `face`, as coordinate times sign.
    pub fn plane(&self, set: u64, face: Direction) -> i64 {
        members(set).map(|i| self.reach[i][face.index()]).max().unwrap_or(0)
    }

    /// Links that can be closed between the items of `set` lying on `face`, of those in `among`.
    pub fn closable(&self, set: u64, face: Direction, among: u64) -> u64 {
        let plane = self.plane(set, face);
        members(among)
            .filter(|&l| {
                let link = &self.links[l];
                link.items.iter().all(|&i| set >> i & 1 == 1)
                    && link.rooms.iter().all(|r| r.is_free(set, face, plane, self.workshop))
            })
            .fold(0, |mask, l| mask | 1 << l)
    }

    /// Links between items of `set`.
    pub fn links_in(&self, set: u64) -> u64 {
        members(set).fold(0, |mask, i| mask | self.links_of(i, set))
    }

    /// Links of `item` with items of `set`.
    pub fn links_of(&self, item: usize, set: u64) -> u64 {
        members(set).fold(0, |mask, other| mask | self.between[item][other])
    }

    /// Whether the set can be turned as one: what is fastened together is one lump, and every lump
    /// but the first is shut in by the others, however it would move.
    pub fn is_one(&self, set: u64, closed: u64) -> bool {
        let mut rest = set;
        let mut lumps = Vec::new();
        while rest != 0 {
            let lump = self.lump(rest & rest.wrapping_neg(), closed) & set;
            lumps.push(lump);
            rest &= !lump;
        }
        let shut_in = |lump: u64| {
            Direction::ALL
                .into_iter()
                .all(|d| members(lump).any(|i| self.blocking.leaving(i, d, set & !lump) != 0))
        };
        // The lump of most items is what is turned; the others go with it.
        let largest = lumps.iter().copied().max_by_key(|l| l.count_ones()).unwrap_or(0);
        !lumps.is_empty() && lumps.into_iter().all(|lump| lump == largest || shut_in(lump))
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
        let mut group: Vec<usize> = (0..self.items.len()).collect();
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

    /// Whether the item is a body joined whole.
    pub fn is_body(&self, item: usize) -> bool {
        matches!(self.items[item].content, Content::Body(_))
    }
}

/// Axes along which items must be level, because one panel is laid over several of them.
fn laid_over(contacts: &[Vec<Vec<Contact>>], links: &[Link]) -> Vec<[bool; 3]> {
    let normals: Vec<Option<usize>> = links
        .iter()
        .map(|link| {
            let [a, b] = link.items;
            let largest = contacts[a][b].iter().max_by_key(|c| c.area())?;
            (link.kind == JointKind::Overlay).then_some(largest.direction.axis())
        })
        .collect();
    let mut over = vec![[false; 3]; contacts.len()];
    for (panel, along) in (0..contacts.len()).flat_map(|p| [(p, 0), (p, 1), (p, 2)]) {
        let under: Vec<usize> = links
            .iter()
            .zip(&normals)
            .filter(|(l, n)| **n == Some(along) && l.items.contains(&panel))
            .map(|(l, _)| if l.items[0] == panel { l.items[1] } else { l.items[0] })
            .collect();
        if under.len() > 1 {
            under.iter().for_each(|&item| over[item][along] = true);
        }
    }
    over
}
