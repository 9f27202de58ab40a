//! Where the parts are: boxes that touch, and channels cut where one is let into another.

use jointwise::assembly::Kind;
use jointwise::geometry::{Box3, Direction, Solid};

use super::added;
use crate::dice::Dice;

const MM: i64 = 1000;

/// How one part is let into another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Channel {
    /// Let into a channel across a face.
    Dado,
    /// Its edge runs in a channel.
    Groove,
}

/// A part before it has joints.
#[derive(Debug, Clone)]
pub struct Piece {
    /// The least box around it.
    pub outer: Box3,
    /// What is left of it.
    pub solid: Solid,
    /// Panel or hardware; hardware is fastened to `host` alone.
    pub kind: Kind,
    /// The part that carries it, of hardware.
    pub host: Option<usize>,
}

/// Parts in their places.
#[derive(Debug, Clone, Default)]
pub struct Draft {
    /// The parts, disjoint.
    pub parts: Vec<Piece>,
    /// Which part is let into which.
    pub channels: Vec<(usize, usize, Channel)>,
}

/// The sizes of one piece: few, so that the same come again as they do in a workshop.
#[derive(Debug, Clone)]
struct Sizes {
    thick: Vec<i64>,
    long: Vec<i64>,
}

impl Sizes {
    fn new(dice: &mut Dice) -> Self {
        // Most are whole millimetres; some fall where they fall.
        let odd = dice.once_in(4);
        let most = if dice.once_in(12) { 2300 } else { 900 };
        let mut size = |least: i64, most: i64| {
            dice.between(least, most) * MM + if odd { dice.between(-499, 499) } else { 0 }
        };
        Sizes {
            thick: vec![size(12, 25), size(9, 19)],
            long: (0..4).map(|n| size(60, if n == 0 { most } else { 600 })).collect(),
        }
    }

    fn thick(&self, dice: &mut Dice) -> i64 {
        dice.pick(&self.thick).unwrap_or(18 * MM)
    }

    fn long(&self, dice: &mut Dice) -> i64 {
        dice.pick(&self.long).unwrap_or(300 * MM)
    }
}

impl Draft {
    /// Adds a panel.
    pub fn add(&mut self, outer: Box3) {
        self.parts.push(Piece { outer, solid: Solid::new(outer), kind: Kind::Panel, host: None });
    }

    /// Whether no part but those named takes any of that place.
    pub fn is_free(&self, b: &Box3, but: &[usize]) -> bool {
        let others = self.parts.iter().enumerate().filter(|(i, _)| !but.contains(i));
        b.is_valid() && others.into_iter().all(|(_, p)| !p.outer.intersects(b))
    }
}

/// Parts made in one of several ways; not always as many as asked for.
pub fn draft(dice: &mut Dice, parts: usize) -> Draft {
    let sizes = Sizes::new(dice);
    let mut draft = Draft::default();
    let hardware = if parts > 2 && dice.once_in(4) { dice.between(1, 2) } else { 0 };
    let panels = parts - usize::try_from(hardware).unwrap_or(0).min(parts - 2);
    match dice.between(1, 5) {
        1 => subdivide(dice, &sizes, panels, &mut draft),
        2 | 3 if panels > 2 => frame(dice, &sizes, panels, &mut draft),
        4 => stick(dice, &sizes, panels, true, &mut draft),
        _ => {}
    }
    stick(dice, &sizes, panels, false, &mut draft);
    added::let_in(dice, &mut draft);
    for _ in 0..60 {
        if draft.parts.len() < parts {
            added::hardware(dice, &mut draft);
        }
    }
    draft
}

/// A box cut up along whole planes; some of what it is cut into is air.
fn subdivide(dice: &mut Dice, sizes: &Sizes, parts: usize, draft: &mut Draft) {
    let size = [sizes.long(dice), sizes.long(dice), sizes.long(dice)];
    let mut pieces = vec![Box3::new([0; 3], size)];
    let air = usize::try_from(dice.between(0, 2)).unwrap_or(0);
    for _ in 0..40 {
        if pieces.len() >= parts + air {
            break;
        }
        let at = usize::try_from(dice.between(0, pieces.len() as i64 - 1)).unwrap_or(0);
        let axis = usize::try_from(dice.between(0, 2)).unwrap_or(0);
        let b = pieces[at];
        let part = if dice.once_in(4) { sizes.long(dice) } else { sizes.thick(dice) };
        if b.extent(axis) < part + 9 * MM {
            continue;
        }
        let cut = if dice.once_in(2) { b.min[axis] + part } else { b.max[axis] - part };
        let (mut low, mut high) = (b, b);
        low.max[axis] = cut;
        high.min[axis] = cut;
        pieces[at] = low;
        pieces.push(high);
    }
    // The largest become air, as the inside of a carcass is.
    pieces.sort_by_key(Box3::volume);
    pieces.truncate(parts);
    shuffle(dice, &mut pieces);
    pieces.into_iter().for_each(|b| draft.add(b));
}

/// Two sides with what stands between them, and a back that is laid on or captured.
fn frame(dice: &mut Dice, sizes: &Sizes, parts: usize, draft: &mut Draft) {
    let t = sizes.thick(dice);
    let [w, d, h] = [sizes.long(dice) + 2 * t, sizes.long(dice), sizes.long(dice) + 3 * t];
    let floor = if dice.once_in(2) { 0 } else { dice.between(20, 100) * MM };
    let ceiling = h - t;
    if floor + 2 * t + 60 * MM > ceiling {
        return;
    }
    let thin = dice.between(5, 12) * MM;
    let let_in = if dice.once_in(2) { thin.min(t / 3) } else { 0 };
    let behind = if let_in > 0 { d - dice.between(0, 20) * MM - thin } else { d };
    let front = if let_in > 0 { behind } else { d };
    if front < 50 * MM {
        return;
    }
    let rail = dice.between(50, 90) * MM;
    let mut all = vec![
        Box3::new([0, 0, 0], [t, d, h]),
        Box3::new([t, 0, floor], [w - t, front, floor + t]),
        Box3::new([w - t, 0, 0], [w, d, h]),
    ];
    let back = if let_in > 0 {
        Box3::new([t - let_in, behind, floor], [w - t + let_in, behind + thin, h])
    } else {
        Box3::new([0, d, floor], [w, d + thin, h])
    };
    let shelf = (floor + t + ceiling) / 2;
    let mut more = vec![
        if dice.once_in(2) {
            Box3::new([t, 0, ceiling], [w - t, front, h])
        } else {
            Box3::new([t, 0, ceiling], [w - t, rail.min(front), h])
        },
        back,
        Box3::new([t, 0, shelf], [w - t, front, shelf + t]),
        Box3::new([t, front - t, h - rail.max(t) - t], [w - t, front, ceiling]),
    ];
    if floor > 0 {
        more.push(Box3::new([t, t, 0], [w - t, 2 * t, floor]));
    }
    shuffle(dice, &mut more);
    all.extend(more);
    all.truncate(parts);
    shuffle(dice, &mut all);
    for b in all {
        let hosts: Vec<usize> =
            (0..draft.parts.len()).filter(|&i| draft.parts[i].outer.intersects(&b)).collect();
        // The back and the sides are the only ones that share space: the back is let in.
        if hosts.iter().any(|&i| draft.parts[i].outer != back && b != back) {
            continue;
        }
        let new = draft.parts.len();
        draft.add(b);
        for host in hosts {
            let (inner, outer) = if b == back { (new, host) } else { (host, new) };
            draft.channels.push((inner, outer, Channel::Groove));
        }
    }
    for &(inner, outer, _) in &draft.channels {
        let mut cut = draft.parts[inner].outer;
        if dice.once_in(2) {
            cut.max[2] = draft.parts[outer].outer.max[2];
        }
        draft.parts[outer].solid.cut(&cut);
    }
}

/// New parts against the faces of those there; in a chain always against the last.
fn stick(dice: &mut Dice, sizes: &Sizes, parts: usize, chain: bool, draft: &mut Draft) {
    if draft.parts.is_empty() {
        let outer = Box3::new([0; 3], extents(dice, sizes));
        draft.add(outer);
    }
    for _ in 0..80 {
        if draft.parts.len() >= parts {
            return;
        }
        let last = draft.parts.len() as i64 - 1;
        let host = usize::try_from(if chain { last } else { dice.between(0, last) }).unwrap_or(0);
        let size = extents(dice, sizes);
        let b = beside(dice, sizes, draft.parts[host].outer, size);
        if draft.is_free(&b, &[]) {
            draft.add(b);
        }
    }
}

/// A panel's sizes, or now and then a block's, along the three axes.
fn extents(dice: &mut Dice, sizes: &Sizes) -> [i64; 3] {
    let mut size = [sizes.thick(dice), sizes.long(dice), sizes.long(dice)];
    if dice.once_in(6) {
        size[0] = dice.between(30, 120) * MM;
    }
    size.rotate_right(usize::try_from(dice.between(0, 2)).unwrap_or(0));
    size
}

/// A box of that size against a face of the host: level with an edge, in the middle, or by a size.
fn beside(dice: &mut Dice, sizes: &Sizes, host: Box3, size: [i64; 3]) -> Box3 {
    let side = dice.pick(&Direction::ALL).unwrap_or(Direction::Up);
    let mut b = Box3::new([0; 3], size);
    for (axis, own) in size.into_iter().enumerate() {
        let room = host.extent(axis) - own;
        let from = if axis == side.axis() {
            if side.is_positive() { host.extent(axis) } else { -own }
        } else {
            match dice.between(1, 5) {
                1 | 2 => 0,
                3 => room,
                4 => room / 2,
                _ => sizes.long(dice).min(host.extent(axis) - 9 * MM),
            }
        };
        b.min[axis] = host.min[axis] + from;
        b.max[axis] = b.min[axis] + own;
    }
    b
}

/// Puts a list into an order by chance.
pub fn shuffle<T>(dice: &mut Dice, list: &mut [T]) {
    for i in (1..list.len()).rev() {
        list.swap(i, usize::try_from(dice.between(0, i as i64)).unwrap_or(0));
    }
}
