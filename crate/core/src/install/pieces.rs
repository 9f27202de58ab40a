//! What is carried into the room: the carcass, and what slides, hangs or lies loose in it.

use crate::assembly::{Assembly, Joint, JointKind, MAIN, Role};
use crate::geometry::{Box3, Direction, Solid};

/// How a piece is held in the carcass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    /// It is the carcass.
    Itself,
    /// It slides, on runners or over pins.
    Slides,
    /// It hangs on hinges.
    Hangs,
}

/// A piece that is carried by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    /// Stable id, none of a part.
    pub id: String,
    /// As a maker says it: `pull-out box with its front`.
    pub name: String,
    /// Indices of its parts.
    pub parts: Vec<usize>,
    /// How it is held.
    pub held: Held,
}

impl Piece {
    /// All its boxes.
    pub fn boxes(&self, of: &Assembly) -> Vec<Box3> {
        self.parts.iter().flat_map(|&p| of.parts[p].solid.boxes()).copied().collect()
    }

    /// All its boxes as one solid.
    pub fn solid(&self, of: &Assembly) -> Solid {
        Solid::from_boxes(self.boxes(of))
    }

    /// Mass in grams.
    pub fn mass(&self, of: &Assembly) -> i64 {
        self.parts.iter().map(|&p| of.parts[p].mass_g).sum()
    }

    /// Its parts that are for something.
    pub fn with_role<'a>(
        &'a self,
        of: &'a Assembly,
        role: Role,
    ) -> impl Iterator<Item = usize> + 'a {
        self.parts.iter().copied().filter(move |&p| of.parts[p].role == role)
    }
}

/// Whether a joint is undone to carry the piece: it slides, or it is a hinge's plate.
fn comes_apart(of: &Assembly, joint: &Joint) -> Option<Held> {
    let [a, b] = joint.parts.map(|p| &of.parts[p]);
    let plate = [(a, b), (b, a)]
        .into_iter()
        .any(|(hinge, other)| hinge.role == Role::Hinge && other.group != hinge.group);
    match joint.kind {
        JointKind::Slide => Some(Held::Slides),
        _ if plate => Some(Held::Hangs),
        _ => None,
    }
}

/// The pieces, the carcass first.
pub(super) fn split(of: &Assembly) -> Vec<Piece> {
    let n = of.parts.len();
    let mut lump: Vec<usize> = (0..n).collect();
    let mut unite = |a: usize, b: usize| {
        let (from, to) = (lump[a].max(lump[b]), lump[a].min(lump[b]));
        lump.iter_mut().filter(|l| **l == from).for_each(|l| *l = to);
    };
    for joint in of.joints.iter().filter(|j| j.kind != JointKind::Touch) {
        if comes_apart(of, joint).is_none() {
            unite(joint.parts[0], joint.parts[1]);
        }
    }
    let mass =
        |l: usize| -> i64 { (0..n).filter(|&p| lump[p] == l).map(|p| of.parts[p].mass_g).sum() };
    let mut heads: Vec<usize> = (0..n).filter(|&p| lump[p] == p).collect();
    // The carcass is the heaviest lump with a part of the piece itself.
    let own = |l: usize| (0..n).any(|p| lump[p] == l && of.parts[p].group == MAIN);
    let Some(&carcass) = heads.iter().max_by_key(|&&l| (own(l), mass(l), std::cmp::Reverse(l)))
    else {
        return Vec::new();
    };
    heads.retain(|&l| l != carcass);
    let held = |l: usize| {
        let mut apart = of.joints.iter().filter(|j| {
            let [a, b] = j.parts.map(|p| lump[p]);
            a != b && (a == l || b == l)
        });
        apart.find_map(|j| comes_apart(of, j))
    };
    let parts = |l: usize| (0..n).filter(|&p| lump[p] == l).collect::<Vec<usize>>();
    let mut pieces = vec![Piece {
        id: "carcass".to_owned(),
        name: "carcass".to_owned(),
        parts: parts(carcass),
        held: Held::Itself,
    }];
    for l in heads {
        match held(l) {
            // What only touches stays with the carcass.
            None => pieces[0].parts.extend(parts(l)),
            Some(held) => {
                let parts = parts(l);
                let (id, name) = called(of, &parts);
                pieces.push(Piece { id, name, parts, held });
            }
        }
    }
    pieces[0].parts.sort_unstable();
    pieces
}

/// What such a piece is called: by its only panel, or by the body that it is built as.
fn called(of: &Assembly, parts: &[usize]) -> (String, String) {
    let group = parts.iter().map(|&p| &of.parts[p].group).find(|g| *g != MAIN);
    let shows = parts.iter().any(|&p| of.parts[p].role == Role::Front);
    match (group, parts) {
        (Some(group), _) => {
            let name = of.body_name(group);
            let front = if shows && !name.contains("front") { " with its front" } else { "" };
            (format!("{group}-whole"), format!("{name}{front}"))
        }
        (None, [first, ..]) => {
            (format!("{}-loose", of.parts[*first].id), of.parts[*first].name.clone())
        }
        (None, []) => (String::new(), String::new()),
    }
}

/// The least box around some boxes.
pub(super) fn around(boxes: &[Box3]) -> Box3 {
    let first = boxes.first().copied().unwrap_or(Box3::new([0; 3], [0; 3]));
    boxes.iter().fold(first, |all, b| all.union(b))
}

/// Whether a box has room among some others: it shares space with none.
pub(super) fn is_free(at: &Box3, boxes: &[Box3]) -> bool {
    !boxes.iter().any(|b| b.intersects(at))
}

/// The box between two coordinates of a box along a direction's axis.
pub(super) fn span(mut b: Box3, d: Direction, from: i64, to: i64) -> Box3 {
    let a = d.axis();
    (b.min[a], b.max[a]) = (from.min(to), from.max(to));
    b
}
