//! Parts as they are cut and worked: sizes less banding and air, what shows, grooves and borings from
//! named edges, mirror pairs, a label to write on.

use crate::assembly::probe::others;
use crate::assembly::{Assembly, Kind, Part, Role};
use crate::geometry::{Box3, Direction};
use crate::plan::{Making, Work, WorkKind, mark};

/// What the design knows of a part besides its solid.
#[derive(Debug, Clone, Default)]
pub struct Hint {
    /// The panel itself, without what stands out of it; else all of its solid.
    pub outer: Option<Box3>,
    /// What was cut out of it.
    pub cuts: Vec<Box3>,
    /// Whether square pockets in it stand for round borings.
    pub round: bool,
    /// Rows of holes: the first hole, distance and number, upwards.
    pub rows: Vec<(Box3, i64, u32)>,
    /// How much smaller than its place it is cut, along each axis.
    pub air: [i64; 3],
    /// Whether all its edges are banded: a front.
    pub all_round: bool,
}

/// Where the piece stands open to the eye: its left and its right side.
pub fn makings(a: &Assembly, hints: &[Hint], banding: i64, open: [bool; 2]) -> Vec<Option<Making>> {
    let whole = a.parts.iter().map(|p| p.solid.bounds()).reduce(|x, y| x.union(&y));
    let mut all: Vec<Option<Making>> = Vec::new();
    for (n, part) in a.parts.iter().enumerate() {
        let Some((hint, whole)) = hints.get(n).zip(whole).filter(|_| part.kind == Kind::Panel)
        else {
            all.push(None);
            continue;
        };
        let bounds = hint.outer.unwrap_or(part.solid.bounds());
        let thin = thin(part, &bounds);
        let shows = shows(a, n, &whole, open);
        let edges = |d: &Direction| d.axis() != thin;
        let every = Direction::ALL.into_iter().filter(edges);
        // No tape sticks to the edge of a sheet as thin as a back.
        let banded: Vec<Direction> = if banding == 0 || part.role == Role::Back {
            Vec::new()
        } else if hint.all_round {
            every.collect()
        } else {
            shows.iter().copied().filter(edges).collect()
        };
        let cut = |axis: usize| {
            let edges = banded.iter().filter(|d| d.axis() == axis).count();
            bounds.extent(axis) - hint.air[axis] - banding * i64::try_from(edges).unwrap_or(0)
        };
        let (u, v) = others(thin);
        let (long, short) = if bounds.extent(v) > bounds.extent(u) { (v, u) } else { (u, v) };
        let off = |d: Direction| if banded.contains(&d) { banding } else { 0 };
        let twin = a.parts[..n].iter().zip(&all).find(|(p, m)| m.is_some() && mirrors(p, part));
        all.push(Some(Making {
            label: format!("{} {}", mark(n), part.name),
            cut: [cut(long), cut(short)],
            work: work(&bounds, hint, thin, off),
            shows,
            banding: if banded.is_empty() { 0 } else { banding },
            banded,
            mirrors: twin.map(|(p, _)| p.id.clone()),
        }));
    }
    all
}

/// The axis along which a panel is as thick as its sheet.
fn thin(part: &Part, b: &Box3) -> usize {
    (0..3).find(|a| b.extent(*a) == part.thickness.get()).unwrap_or(0)
}

/// A face shows towards the front when nothing stands before it; at the sides where no neighbour
/// stands; on top only as a seat.
fn shows(a: &Assembly, n: usize, whole: &Box3, open: [bool; 2]) -> Vec<Direction> {
    let part = &a.parts[n];
    let bounds = part.solid.bounds();
    let free = |d: Direction| {
        let others = a.parts.iter().enumerate().filter(|(m, _)| *m != n);
        let mut others = others.map(|(_, p)| p);
        !others.any(|p| part.solid.hits_when_moved(d, &p.solid))
    };
    let outer = |d: Direction| bounds.face(d) == whole.face(d);
    let seat = part.role == Role::Top && outer(Direction::Up) && bounds.min[0] == whole.min[0];
    let seen = |d: &Direction| match d {
        Direction::Front => free(*d),
        Direction::Left => open[0] && outer(*d),
        Direction::Right => open[1] && outer(*d),
        Direction::Up => seat,
        Direction::Back | Direction::Down => false,
    };
    Direction::ALL.into_iter().filter(seen).collect()
}

/// Whether one part is the other seen in a mirror, and not just the same again.
fn mirrors(a: &Part, b: &Part) -> bool {
    if a.material != b.material || a.solid.boxes().len() != b.solid.boxes().len() {
        return false;
    }
    let (x, y) = (a.solid.bounds(), b.solid.bounds());
    let at_home = |part: &Part, from: &Box3, flip: bool| {
        let mut boxes: Vec<Box3> = part
            .solid
            .boxes()
            .iter()
            .map(|p| {
                let mut p = p.moved([0, 1, 2].map(|i| -from.min[i]));
                if flip {
                    let wide = from.extent(0);
                    (p.min[0], p.max[0]) = (wide - p.max[0], wide - p.min[0]);
                }
                p
            })
            .collect();
        boxes.sort_unstable();
        boxes
    };
    // Split differently, mirrored solids may be of other boxes: then nothing is claimed.
    let plain = at_home(b, &y, false);
    at_home(a, &x, true) == plain && at_home(a, &x, false) != plain
}

/// What is cut into a part, measured from its front or left, and its lower or front edge.
fn work(outer: &Box3, hint: &Hint, thin: usize, off: impl Fn(Direction) -> i64) -> Vec<Work> {
    let (u, v) = others(thin);
    let from = |axis: usize, at: i64| {
        let edge = Direction::from_axis(axis, false);
        (edge, at - outer.min[axis] - off(edge) - hint.air[axis] / 2)
    };
    let mut all = Vec::new();
    for cut in &hint.cuts {
        let Some(c) = cut.intersection(outer).filter(|c| c.volume() > 0) else { continue };
        let through = c.extent(thin) == outer.extent(thin);
        let whole = |axis: usize| c.extent(axis) == outer.extent(axis);
        let edge = |axis: usize| c.min[axis] == outer.min[axis] || c.max[axis] == outer.max[axis];
        let round = hint.round && !through && c.extent(u) == c.extent(v) && !edge(u) && !edge(v);
        let runs = if c.extent(u) >= c.extent(v) { u } else { v };
        let other = if runs == u { v } else { u };
        let long = if outer.extent(u) >= outer.extent(v) { u } else { v };
        let kind = if through {
            WorkKind::Notch
        } else if round {
            WorkKind::Boring
        } else if whole(runs) && edge(other) {
            WorkKind::Rabbet
        } else if runs == long {
            WorkKind::Groove
        } else {
            WorkKind::Dado
        };
        let half = |axis: usize| if round { c.extent(axis) / 2 } else { 0 };
        all.push(Work {
            kind,
            face: Direction::from_axis(thin, c.max[thin] == outer.max[thin]),
            from: [from(u, c.min[u] + half(u)), from(v, c.min[v] + half(v))],
            size: [c.extent(u), c.extent(v)],
            depth: c.extent(thin),
            row: None,
        });
    }
    for (first, pitch, count) in &hint.rows {
        let middle = |axis: usize| i64::midpoint(first.min[axis], first.max[axis]);
        all.push(Work {
            kind: WorkKind::Holes,
            face: Direction::from_axis(thin, first.max[thin] >= outer.max[thin]),
            from: [from(u, middle(u)), from(v, middle(v))],
            size: [first.extent(u), first.extent(v)],
            depth: first.extent(thin),
            row: Some((Direction::Down, *pitch, *count)),
        });
    }
    all
}
