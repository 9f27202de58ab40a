//! Which loose part, offcut or strip serves as a spacer, and where it lies.
//!
//! A part not yet fixed whose size equals a distance sets it, if it fits beside everything, touches both ends of the
//! distance, and comes out again afterwards.

use crate::assembly::Kind;
use crate::geometry::{Box3, Direction};

use super::locate::{Gap, touches};
use super::scene::{Scene, members};

/// By how much a spacer's size may differ from the distance: 0.3 mm, common practice, no source.
pub const SPACER_TOLERANCE: i64 = 300;

/// Length of a strip that is sawn to set a distance: a hand's width, common practice, no source.
const STRIP: i64 = 100_000;

/// Nothing narrower is sawn to set a distance, 25 mm: common practice, no source.
const NARROWEST_STRIP: i64 = 25_000;

/// A loose thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loose {
    /// Index of a part in the assembly.
    Part(usize),
    /// Index of an offcut in the workshop.
    Offcut(usize),
}

/// A spacer in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// What it is.
    pub loose: Loose,
    /// Where it lies.
    pub at: Box3,
    /// Its size across the gap.
    pub dimension: i64,
    /// The way it comes out.
    pub out: Direction,
    /// What it sets.
    pub gap: Gap,
}

/// A strip that is still to be sawn, in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Strip {
    /// The gap, its length, its thickness.
    pub sizes: [i64; 3],
    /// Where it lies.
    pub at: Box3,
    /// The way it comes out.
    pub out: Direction,
}

/// A place for a spacer, with all that does not hang on what is in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spacing {
    /// The items that fit there, while they are loose.
    panels: u64,
    /// Whether an offcut does.
    offcut: bool,
    /// The items that show a face level with an end of it: one must be there.
    marked: u64,
    /// The items in its room.
    blockers: u64,
    /// The items in its way out, for each direction.
    leaving: [u64; 6],
    /// Its reach in each direction, as coordinate times sign.
    reach: [i64; 6],
    /// For each tool the links of the new part whose screws it would be in the way of.
    in_the_way: Vec<u64>,
}

impl Spacing {
    /// Whether something loose, of the items `out` or an offcut, fits when `item` joins `set`.
    pub(super) fn fits(
        &self,
        scene: &Scene,
        item: usize,
        set: u64,
        out: u64,
        face: Direction,
        plane: i64,
    ) -> bool {
        let there = set | scene.masks[item];
        let hinders = |l: usize| {
            let tool = scene.tool(l, there, face, plane);
            tool.is_some_and(|t| self.in_the_way.get(t).is_some_and(|m| m >> l & 1 == 1))
        };
        let all = self.in_the_way.iter().fold(0, |all, m| all | m);
        (self.offcut || self.panels & out != 0)
            && self.marked & there != 0
            && self.blockers & there == 0
            && self.reach[face.index()] <= plane
            && Direction::ALL.into_iter().any(|d| d != face && self.leaving[d.index()] & there == 0)
            && !members(scene.links_of(item, set) & all).any(hinders)
    }
}

/// All places where a spacer may lie that sets a gap of an item.
pub fn spacings(scene: &Scene, item: usize, gap: Gap) -> Vec<Spacing> {
    let Some((normal, wall)) = side_of(scene, item, &gap) else { return Vec::new() };
    let axis = gap.direction.axis();
    let third = 3 - axis - normal.axis();
    let ends = [gap.from.min(gap.to), gap.from.max(gap.to)];
    let width = ends[1] - ends[0];
    let mut found: Vec<(Box3, Spacing)> = Vec::new();
    for (loose, sizes) in loose(scene, scene.full() & !scene.masks[item]) {
        let (panel, offcut) = match loose {
            Loose::Part(p) => (scene.item_of(p), false),
            Loose::Offcut(_) => (0, true),
        };
        for (thick, long) in across(sizes, width) {
            for at in places(scene, scene.full(), item, wall, normal, third, ends, thick, long) {
                if let Some((_, known)) = found.iter_mut().find(|(known, _)| *known == at) {
                    known.panels |= panel;
                    known.offcut |= offcut;
                } else if touches_both(scene, item, &gap, &at) {
                    found.push((at, spacing(scene, item, third, at, panel, offcut)));
                }
            }
        }
    }
    found.into_iter().map(|(_, spacing)| spacing).collect()
}

fn spacing(
    scene: &Scene,
    item: usize,
    third: usize,
    at: Box3,
    panels: u64,
    offcut: bool,
) -> Spacing {
    let boxes = |i: usize| scene.items[i].solid.boxes();
    let those = |is: &dyn Fn(&Box3) -> bool| {
        let some = |i: &usize| boxes(*i).iter().any(is);
        (0..scene.basics).filter(some).fold(0u64, |all, i| all | 1 << i)
    };
    let ends = [at.min[third], at.max[third]];
    let tools = scene.links.iter().map(|l| l.rooms.len()).max().unwrap_or(0);
    let hit = |tool: usize| {
        let hits = |l: &usize| {
            let rooms = scene.links[*l].rooms.get(tool).into_iter().flatten();
            rooms.flat_map(|r| r.solid.boxes()).any(|b| b.intersects(&at))
        };
        members(scene.links_of(item, scene.full())).filter(hits).fold(0, |all, l| all | 1 << l)
    };
    Spacing {
        panels,
        offcut,
        marked: those(&|b| [b.min[third], b.max[third]].iter().any(|m| ends.contains(m))),
        blockers: those(&|b| b.intersects(&at)),
        leaving: Direction::ALL.map(|d| those(&|b| at.hits_when_moved(d, b))),
        reach: Direction::ALL.map(|d| at.face(d) * d.sign()),
        in_the_way: (0..tools).map(hit).collect(),
    }
}

/// Everything loose, with its sizes: panels not in yet, in the order of the cut list, then offcuts.
fn loose(scene: &Scene, out: u64) -> Vec<(Loose, [i64; 3])> {
    let parts = members(out).filter_map(|i| {
        let [part] = scene.items[i].parts[..] else { return None };
        let p = &scene.assembly.parts[part];
        let sizes = [p.length.get(), p.width.get(), p.thickness.get()];
        (p.kind == Kind::Panel).then_some((Loose::Part(part), sizes))
    });
    let offcuts = scene.workshop.offcuts.iter().enumerate();
    parts
        .chain(offcuts.map(|(o, c)| (Loose::Offcut(o), [c.length, c.width, c.thickness])))
        .collect()
}

/// A loose part that fits the gap, the one that reaches furthest along the new part.
pub(super) fn spacer(
    scene: &Scene,
    within: u64,
    item: usize,
    set: u64,
    face: Direction,
    gap: Gap,
    stops: &[Box3],
) -> Option<Placed> {
    let mut best: Option<(Loose, Lying)> = None;
    let mut tried: Vec<[i64; 3]> = Vec::new();
    for (loose, sizes) in loose(scene, within & !set & !scene.masks[item]) {
        // Of several alike the first would be taken.
        if tried.contains(&sizes) {
            continue;
        }
        tried.push(sizes);
        let Some(found) = lying(scene, item, set, face, gap, stops, sizes) else { continue };
        if best.as_ref().is_none_or(|(_, b)| found.key() > b.key()) {
            best = Some((loose, found));
        }
    }
    best.map(|(loose, Lying { at, dimension, out, .. })| Placed { loose, at, dimension, out, gap })
}

/// Where a strip would lie that is sawn to set a gap which nothing else sets: for each thickness one, if it fits there.
pub fn strips(
    scene: &Scene,
    item: usize,
    set: u64,
    face: Direction,
    gap: Gap,
    thicknesses: &[i64],
) -> Vec<Strip> {
    let width = (gap.to - gap.from).abs();
    if width < NARROWEST_STRIP {
        return Vec::new();
    }
    let each = thicknesses.iter().filter_map(|thickness| {
        let sizes = [width, STRIP, *thickness];
        let Lying { at, out, .. } = lying(scene, item, set, face, gap, &[], sizes)?;
        Some(Strip { sizes, at, out })
    });
    each.collect()
}

/// Something loose in its place.
#[derive(Debug, Clone, Copy)]
struct Lying {
    rests: bool,
    reach: i64,
    at: Box3,
    dimension: i64,
    out: Direction,
}

impl Lying {
    /// More is better: resting on something, then far from the stop that sets the other end, and long.
    fn key(&self) -> (bool, i64) {
        (self.rests, self.reach)
    }
}

/// The best place for something of those sizes to set a gap; of equal ones the first.
fn lying(
    scene: &Scene,
    item: usize,
    set: u64,
    face: Direction,
    gap: Gap,
    stops: &[Box3],
    sizes: [i64; 3],
) -> Option<Lying> {
    let axis = gap.direction.axis();
    let ends = [gap.from.min(gap.to), gap.from.max(gap.to)];
    let (normal, wall) = side_of(scene, item, &gap)?;
    let third = 3 - axis - normal.axis();
    let plane = scene.plane(set | scene.masks[item], face);
    let mut best: Option<Lying> = None;
    for (thick, long) in across(sizes, ends[1] - ends[0]) {
        let dimension = sizes.iter().sum::<i64>() - thick - long;
        for at in places(scene, set, item, wall, normal, third, ends, thick, long) {
            let Some(out) = fits(scene, item, set, face, plane, gap, at) else { continue };
            let reach = scene.items[item].bounds.overlap(&at, third);
            let free = stops.iter().map(|s| s.overlap(&at, third).max(0)).max().unwrap_or(0);
            let rests = rests(scene, set, face, plane, at);
            let found = Lying { rests, reach: reach - free, at, dimension, out };
            if best.is_none_or(|b| found.key() > b.key()) {
                best = Some(found);
            }
        }
    }
    best
}

/// The side of an item on which its mate lies beside a gap, and where the mate's face is.
fn side_of(scene: &Scene, item: usize, gap: &Gap) -> Option<(Direction, i64)> {
    let beside = scene
        .contacts(item, gap.mate)
        .filter(|c| c.direction.axis() != gap.direction.axis())
        .max_by_key(|c| (c.area(), std::cmp::Reverse(c.direction)))?;
    Some((beside.direction, beside.face.min[beside.direction.axis()]))
}

/// The two other sizes of what has a size of that width, either way round.
fn across(sizes: [i64; 3], width: i64) -> impl Iterator<Item = (i64, i64)> {
    (0..3).filter(move |&a| (sizes[a] - width).abs() <= SPACER_TOLERANCE).flat_map(move |a| {
        let [b, c] = [sizes[(a + 1) % 3], sizes[(a + 2) % 3]];
        [(b, c), (c, b)]
    })
}

/// Where a spacer could lie: against the mate's face, its ends at some face already there.
#[allow(clippy::too_many_arguments, reason = "the box has three axes, each with its own rule")]
fn places(
    scene: &Scene,
    set: u64,
    item: usize,
    wall: i64,
    normal: Direction,
    third: usize,
    [low, high]: [i64; 2],
    thick: i64,
    long: i64,
) -> Vec<Box3> {
    let axis = 3 - normal.axis() - third;
    let mut marks: Vec<i64> = members(set | scene.masks[item])
        .flat_map(|i| scene.items[i].solid.boxes())
        .flat_map(|b| [b.min[third], b.max[third]])
        .collect();
    marks.sort_unstable();
    marks.dedup();
    let mut found = Vec::new();
    for mark in marks {
        for from in [mark, mark - long] {
            let mut b = Box3::new([0; 3], [0; 3]);
            b.min[axis] = low;
            b.max[axis] = high;
            b.min[third] = from;
            b.max[third] = from + long;
            let n = normal.axis();
            // `normal` points from the new part to its mate: the spacer lies on the near side.
            (b.min[n], b.max[n]) =
                if normal.is_positive() { (wall - thick, wall) } else { (wall, wall + thick) };
            // Beside the new part, or it could not set it.
            if b.is_valid() && scene.items[item].bounds.overlap(&b, third) > 0 {
                found.push(b);
            }
        }
    }
    found
}

/// Whether a spacer touches the new part and is flush with the end of its mate.
fn touches_both(scene: &Scene, item: usize, gap: &Gap, at: &Box3) -> bool {
    let boxes = |i: usize| scene.items[i].solid.boxes();
    let meets_part = boxes(item).iter().any(|b| at.shares_face(gap.direction, b));
    // Its other end is felt flush with the mate's end, where the mate has one beside it.
    let end = gap.side;
    let beside = |b: &Box3| {
        b.face(end) == gap.from && (0..3).filter(|&a| a != end.axis()).all(|a| touches(b, at, a))
    };
    let lies_on = || {
        Direction::ALL
            .into_iter()
            .filter(|d| d.axis() != end.axis())
            .any(|d| boxes(gap.mate).iter().any(|b| at.shares_face(d, b)))
    };
    meets_part && boxes(gap.mate).iter().any(beside) && lies_on()
}

/// Whether a spacer fits there, touches both ends, and comes out; the way out.
#[allow(clippy::too_many_arguments, reason = "the question has that many sides")]
fn fits(
    scene: &Scene,
    item: usize,
    set: u64,
    face: Direction,
    plane: i64,
    gap: Gap,
    at: Box3,
) -> Option<Direction> {
    if at.face(face) * face.sign() > plane {
        return None;
    }
    // The quick questions first: most places fail them.
    if !touches_both(scene, item, &gap, &at) {
        return None;
    }
    let boxes = |i: usize| scene.items[i].solid.boxes();
    let there = set | scene.masks[item];
    if members(there).any(|i| {
        scene.items[i].bounds.intersects(&at) && boxes(i).iter().any(|b| b.intersects(&at))
    }) {
        return None;
    }
    let clear = |out: Direction| {
        out != face && members(there).all(|i| boxes(i).iter().all(|b| !at.hits_when_moved(out, b)))
    };
    let out = Direction::ALL.into_iter().find(|&out| clear(out))?;
    // It lies there while the screws are driven.
    let in_the_way = |l: usize| {
        let tool = scene.tool(l, there, face, scene.plane(there, face));
        let rooms = tool.map(|t| &scene.links[l].rooms[t]);
        rooms.into_iter().flatten().any(|r| r.solid.boxes().iter().any(|b| b.intersects(&at)))
    };
    (!members(scene.links_of(item, set)).any(in_the_way)).then_some(out)
}

/// Whether the spacer lies on the bench or on something in the body.
fn rests(scene: &Scene, set: u64, face: Direction, plane: i64, at: Box3) -> bool {
    at.face(face) * face.sign() == plane
        || members(set)
            .any(|i| scene.items[i].solid.boxes().iter().any(|b| at.shares_face(face, b)))
}
