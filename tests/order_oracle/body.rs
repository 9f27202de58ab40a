//! One body: its items, their joints, and what can be said of some of them together.

use jointwise::assembly::{Assembly, JointKind, Kind};
use jointwise::plan::Workshop;

use super::blocks::{
    Block, Contact, Point, WAYS, Way, across, any_runs_into, around, axis, contacts, largest,
};
use super::{standing, tools};

/// A choice of items: bit `i` for item `i`. Likewise of joints.
pub type Mask = u64;

/// The bits of a mask, lowest first.
pub fn bits(mask: Mask) -> impl Iterator<Item = usize> {
    (0..64).filter(move |i| mask >> i & 1 == 1)
}

/// What goes in at once: a part, a set, or a body.
#[derive(Debug, Clone)]
pub struct Item {
    /// Its parts, in the order of the cut list.
    pub parts: Vec<usize>,
    /// The room it takes.
    pub blocks: Vec<Block>,
    /// The least box around it.
    pub around: Block,
    /// The least box around its heaviest part.
    pub datum: Block,
    /// Grams.
    pub mass: i64,
    /// Grams times twice the centre.
    pub moments: [i128; 3],
}

/// A joint between two items.
#[derive(Debug, Clone)]
pub struct Link {
    /// Its place in the assembly.
    pub joint: usize,
    /// The items.
    pub ends: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether it is glued.
    pub glue: bool,
    /// Whether it has screws.
    pub screws: bool,
    /// The opening of a clamp that presses it.
    pub opening: i64,
}

impl Link {
    /// A groove or a slide: it guides and does not fasten.
    pub fn guides(&self) -> bool {
        matches!(self.kind, JointKind::Groove | JointKind::Slide)
    }

    /// Pressed by a clamp until it has cured.
    pub fn cures(&self) -> bool {
        self.glue && !self.screws && !self.guides()
    }

    /// Whether it makes the two one once it is closed.
    pub fn fastens(&self) -> bool {
        self.screws || self.cures()
    }

    /// The other item.
    fn other(&self, item: usize) -> usize {
        if self.ends[0] == item { self.ends[1] } else { self.ends[0] }
    }
}

/// The blocks of a part.
pub fn blocks_of(assembly: &Assembly, part: usize) -> Vec<Block> {
    let boxes = assembly.parts[part].solid.boxes();
    boxes.iter().map(|b| Block { lo: b.min, hi: b.max }).collect()
}

impl Item {
    fn new(assembly: &Assembly, parts: &[usize]) -> Item {
        let mut blocks = Vec::new();
        let mut moments = [0; 3];
        let mut mass = 0;
        let mut heaviest = parts.first().copied().unwrap_or(0);
        for &p in parts {
            let own = blocks_of(assembly, p);
            let grams = assembly.parts[p].mass_g;
            let volume: i128 = own.iter().map(Block::volume).sum();
            for (a, moment) in moments.iter_mut().enumerate() {
                let twice: i128 =
                    own.iter().map(|b| b.volume() * i128::from(b.lo[a] + b.hi[a])).sum();
                *moment += i128::from(grams) * twice / volume;
            }
            mass += grams;
            if grams > assembly.parts[heaviest].mass_g {
                heaviest = p;
            }
            blocks.extend(own);
        }
        let datum = around(&blocks_of(assembly, heaviest));
        // Nothing at all takes no room, but lies somewhere.
        let around = if blocks.is_empty() { datum } else { around(&blocks) };
        Item { parts: parts.to_vec(), around, blocks, datum, mass, moments }
    }

    /// Centre of gravity, to the micrometre.
    pub fn centre(&self) -> Point {
        self.moments.map(|m| i64::try_from(m / (2 * i128::from(self.mass))).unwrap_or(0))
    }

    /// Longest side of the least box around it.
    pub fn longest(&self) -> i64 {
        (0..3).map(|a| self.around.size(a)).max().unwrap_or(0)
    }
}

/// A body to be built.
pub struct Body<'a> {
    /// The whole piece.
    pub assembly: &'a Assembly,
    /// What it is built with.
    pub shop: &'a Workshop,
    /// Parts in the order of the cut list, then bodies that join whole.
    pub items: Vec<Item>,
    /// Every choice of them as one, by its mask.
    units: Vec<Item>,
    /// Joints between two of them.
    pub links: Vec<Link>,
    /// Contacts from each item to each other.
    touching: Vec<Vec<Vec<Contact>>>,
    /// What each item is set against.
    after: Vec<Mask>,
    /// The axes along which a panel is laid over each item and another.
    laid_over: Vec<[bool; 3]>,
}

impl<'a> Body<'a> {
    /// From the parts of each item.
    pub fn new(assembly: &'a Assembly, shop: &'a Workshop, items: &[Vec<usize>]) -> Body<'a> {
        let unit = |mask: Mask| {
            let mut parts: Vec<usize> = bits(mask).flat_map(|i| items[i].iter().copied()).collect();
            parts.sort_unstable();
            Item::new(assembly, &parts)
        };
        let units: Vec<Item> = (0..1 << items.len()).map(unit).collect();
        let parts = items;
        let items: Vec<Item> = (0..items.len()).map(|i| units[1 << i].clone()).collect();
        let item_of = |part: usize| parts.iter().position(|p| p.contains(&part));
        let mut links = Vec::new();
        for (joint, j) in assembly.joints.iter().enumerate() {
            if let [Some(a), Some(b)] = j.parts.map(item_of)
                && a != b
                && j.kind != JointKind::Touch
            {
                links.push(Link {
                    joint,
                    ends: [a, b],
                    kind: j.kind,
                    glue: j.glue,
                    screws: !j.fasteners.is_empty(),
                    opening: tools::opening(assembly, joint),
                });
            }
        }
        let mut after = vec![0; items.len()];
        for (i, item) in items.iter().enumerate() {
            for &p in &item.parts {
                for id in &assembly.parts[p].set_against {
                    let other = assembly.parts.iter().position(|q| q.id == *id).and_then(item_of);
                    if let Some(o) = other.filter(|&o| o != i) {
                        after[i] |= 1 << o;
                    }
                }
            }
        }
        let touching: Vec<Vec<Vec<Contact>>> = (0..items.len())
            .map(|i| {
                let to = |j: usize| {
                    if i == j { vec![] } else { contacts(&items[i].blocks, &items[j].blocks) }
                };
                (0..items.len()).map(to).collect()
            })
            .collect();
        let laid_over = laid_over(&links, &touching);
        Body { assembly, shop, items, units, links, touching, after, laid_over }
    }

    /// All items.
    pub fn full(&self) -> Mask {
        (1 << self.items.len()) - 1
    }

    /// Whether an item is or holds a panel.
    pub fn is_panel(&self, item: usize) -> bool {
        self.items[item].parts.iter().any(|&p| self.assembly.parts[p].kind == Kind::Panel)
    }

    /// Some items as one.
    pub fn unit(&self, items: Mask) -> &Item {
        &self.units[items as usize]
    }

    /// The faces on which some items, finished, fit the bench; all when they fit on none.
    pub fn faces(&self, items: Mask) -> Vec<Way> {
        let all = self.unit(items).around;
        let fits = |face: &Way| {
            let [a, b] = across(axis(*face)).map(|a| all.size(a));
            a.max(b) <= self.shop.bench_length && a.min(b) <= self.shop.bench_width
        };
        let faces: Vec<Way> = WAYS.into_iter().filter(fits).collect();
        if faces.is_empty() { WAYS.to_vec() } else { faces }
    }

    /// All that a unit is set against besides itself.
    pub fn after(&self, unit: Mask) -> Mask {
        bits(unit).fold(0, |all, i| all | self.after[i]) & !unit
    }

    /// Whether a panel is laid over some of a unit and another along an axis.
    pub fn laid_over(&self, unit: Mask, axis: usize) -> bool {
        bits(unit).any(|i| self.laid_over[i][axis])
    }

    /// Contacts from a unit to an item outside it.
    pub fn contacts(&self, unit: Mask, other: usize) -> Vec<Contact> {
        bits(unit).flat_map(|i| self.touching[i][other].iter().copied()).collect()
    }

    /// The joints within a set.
    pub fn links_in(&self, set: Mask) -> Mask {
        let inside = |l: &usize| self.links[*l].ends.iter().all(|&e| set >> e & 1 == 1);
        (0..self.links.len()).filter(inside).fold(0, |all, l| all | 1 << l)
    }

    /// The joints between a unit and a set.
    pub fn links_between(&self, unit: Mask, set: Mask) -> Vec<usize> {
        let joins = |l: &usize| {
            let [a, b] = self.links[*l].ends.map(|e| 1 << e);
            unit & a != 0 && set & b != 0 || unit & b != 0 && set & a != 0
        };
        (0..self.links.len()).filter(joins).collect()
    }

    /// The two items of a joint, that of the unit first.
    pub fn ends(&self, link: usize, unit: Mask) -> [usize; 2] {
        let [a, b] = self.links[link].ends;
        if unit >> a & 1 == 1 { [a, b] } else { [b, a] }
    }

    /// Level of the plane a set lies on.
    pub fn plane(&self, set: Mask, face: Way) -> i64 {
        self.unit(set).around.reach(face)
    }

    /// The rectangles of some items that lie in a plane.
    pub fn feet(&self, items: Mask, face: Way, plane: i64) -> Vec<Block> {
        let blocks = self.unit(items).blocks.iter();
        blocks.filter(|b| b.reach(face) == plane).copied().collect()
    }

    /// Whether a set, or an item alone, stands on a face.
    pub fn stands(&self, set: Mask, face: Way) -> bool {
        let plane = self.plane(set, face);
        let feet = self.feet(set, face, plane);
        standing::stands(self.unit(set).centre(), &feet, face, plane * super::blocks::sign(face))
    }

    /// What is fastened together by closed joints.
    pub fn lumps(&self, set: Mask, closed: Mask) -> Vec<Mask> {
        let mut lumps: Vec<Mask> = bits(set).map(|i| 1 << i).collect();
        for l in bits(closed).filter(|&l| self.links[l].fastens()) {
            let [a, b] = self.links[l].ends;
            let both = 1 << a | 1 << b;
            let (touched, mut rest): (Vec<Mask>, Vec<Mask>) =
                lumps.into_iter().partition(|lump| lump & both != 0);
            rest.push(touched.into_iter().fold(0, |all, lump| all | lump));
            lumps = rest;
        }
        lumps
    }

    /// Whether a set is one: around its largest lump, every other is shut in by the rest, or is let
    /// off for another reason, which is given.
    pub fn is_one(&self, set: Mask, closed: Mask, let_off: impl Fn(Mask, Mask) -> bool) -> bool {
        let mut lumps = self.lumps(set, closed);
        // Of equals the one with the first item of the cut list.
        lumps.sort_by_key(|l| (std::cmp::Reverse(l.count_ones()), l.trailing_zeros()));
        let shut_in = |lump: Mask| {
            let own = &self.unit(lump).blocks;
            let rest = &self.unit(set & !lump).blocks;
            WAYS.into_iter().all(|way| any_runs_into(own, way, rest))
        };
        let main = lumps[0];
        lumps.iter().skip(1).all(|&lump| shut_in(lump) || let_off(lump, main))
    }

    /// Whether some of a set are fastened in a ring.
    pub fn has_ring(&self, set: Mask, closed: Mask) -> bool {
        let fastened = bits(closed).filter(|&l| self.links[l].fastens()).count();
        // Without a ring, each fastened joint makes one lump of two.
        fastened + self.lumps(set, closed).len() > set.count_ones() as usize
    }
}

/// For each item the axes along which some other is laid over it and one more.
fn laid_over(links: &[Link], touching: &[Vec<Vec<Contact>>]) -> Vec<[bool; 3]> {
    let mut over = vec![[false; 3]; touching.len()];
    for (panel, to) in touching.iter().enumerate() {
        for way in WAYS {
            let mut under: Vec<usize> = links
                .iter()
                .filter(|l| l.kind == JointKind::Overlay && l.ends.contains(&panel))
                .map(|l| l.other(panel))
                .filter(|&o| {
                    largest(&to[o]).is_some_and(|c| {
                        if std::env::var("AXIS").is_ok() {
                            c.way / 2 == way / 2
                        } else {
                            c.way == way
                        }
                    })
                })
                .collect();
            under.sort_unstable();
            under.dedup();
            if under.len() >= 2 {
                under.into_iter().for_each(|o| over[o][axis(way)] = true);
            }
        }
    }
    over
}
