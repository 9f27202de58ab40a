//! Bodies: what is built on its own and then joined whole.

use crate::assembly::{Assembly, JointKind, MAIN};
use crate::geometry::{Box3, Solid};

/// What a body is made of: a part, or another body ready-made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Content {
    /// Index of the part.
    Part(usize),
    /// Index of the body in its [`Grouping`].
    Body(usize),
}

/// One thing that goes in at once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// A part or a body.
    pub content: Content,
    /// Indices of all parts in it.
    pub parts: Vec<usize>,
    /// All of them as one solid.
    pub solid: Solid,
    /// The least box around it.
    pub bounds: Box3,
    /// The least box around its heaviest part, by which it is set in place.
    pub datum: Box3,
    /// Mass in grams.
    pub mass: i64,
    /// Mass times twice the centre, along each axis.
    pub moments: [i128; 3],
}

/// A body and the things that make it up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Body {
    /// Its name in the plan.
    pub id: String,
    /// Its items, in the order of the cut list.
    pub items: Vec<Item>,
    /// Whether it is a panel with the hardware it alone carries.
    pub is_set: bool,
}

/// All bodies of a plan, each after the bodies it takes in; the last is [`MAIN`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grouping {
    /// The bodies.
    pub bodies: Vec<Body>,
}

impl Item {
    fn new(content: Content, parts: Vec<usize>, assembly: &Assembly) -> Item {
        let mut boxes = Vec::new();
        let mut mass = 0;
        let mut moments = [0i128; 3];
        for &p in &parts {
            let part = &assembly.parts[p];
            boxes.extend_from_slice(part.solid.boxes());
            let m = part.mass_g.max(1);
            mass += m;
            let volume = part.solid.volume().max(1);
            for (sum, moment) in moments.iter_mut().zip(part.solid.doubled_moments()) {
                *sum += i128::from(m) * moment / volume;
            }
        }
        let solid = Solid::from_boxes(boxes);
        let heaviest =
            parts.iter().copied().max_by_key(|&p| (assembly.parts[p].mass_g, std::cmp::Reverse(p)));
        let datum = heaviest.map_or(solid.bounds(), |p| assembly.parts[p].solid.bounds());
        Item { datum, content, parts, bounds: solid.bounds(), solid, mass, moments }
    }
}

/// The ways to group an assembly's parts into bodies: as given, and with every panel that alone
/// carries some hardware or cleat made ready beforehand, in each body or only in some. Likely the
/// cheapest first: it bounds the search of the others.
pub fn groupings(assembly: &Assembly) -> Vec<Grouping> {
    let sets = sets(assembly);
    let mut groups: Vec<&str> = Vec::new();
    for (holder, _) in &sets {
        let name = assembly.parts[*holder].group.as_str();
        if !groups.contains(&name) {
            groups.push(name);
        }
    }
    // Few bodies carry hardware: past three, either all of them have it made ready, or none.
    let choices: Vec<u32> =
        if groups.len() <= 3 { (0..1 << groups.len()).rev().collect() } else { vec![u32::MAX, 0] };
    let ready = |choice: u32, holder: usize| {
        groups
            .iter()
            .position(|g| *g == assembly.parts[holder].group)
            .is_some_and(|g| choice >> g & 1 == 1)
    };
    choices
        .into_iter()
        .map(|choice| {
            let chosen: Vec<_> =
                sets.iter().filter(|(holder, _)| ready(choice, *holder)).cloned().collect();
            group(assembly, &chosen)
        })
        .collect()
}

/// Each panel with the parts that are fastened to it and to nothing else.
fn sets(assembly: &Assembly) -> Vec<(usize, Vec<usize>)> {
    let fastened_to = |p: usize| -> Vec<usize> {
        let mut others: Vec<usize> = assembly
            .joints
            .iter()
            .filter(|j| j.parts.contains(&p))
            .filter(|j| !matches!(j.kind, JointKind::Touch | JointKind::Slide))
            .map(|j| j.other(p))
            .collect();
        others.sort_unstable();
        others.dedup();
        others
    };
    let mut found: Vec<(usize, Vec<usize>)> = Vec::new();
    for (p, part) in assembly.parts.iter().enumerate() {
        let [holder] = fastened_to(p)[..] else {
            continue;
        };
        let same_body = assembly.parts[holder].group == part.group;
        if !same_body || !part.set_against.is_empty() || fastened_to(holder).len() < 2 {
            continue;
        }
        match found.iter_mut().find(|(h, _)| *h == holder) {
            Some((_, carried)) => carried.push(p),
            None => found.push((holder, vec![p])),
        }
    }
    found
}

fn group(assembly: &Assembly, sets: &[(usize, Vec<usize>)]) -> Grouping {
    let mut bodies: Vec<Body> = Vec::new();
    for (holder, carried) in sets {
        let mut parts = vec![*holder];
        parts.extend(carried);
        bodies.push(Body {
            id: format!("{}-ready", assembly.parts[*holder].id),
            items: parts.iter().map(|&p| Item::new(Content::Part(p), vec![p], assembly)).collect(),
            is_set: true,
        });
    }
    let mut names: Vec<&str> = Vec::new();
    for part in &assembly.parts {
        if part.group != MAIN && !names.contains(&part.group.as_str()) {
            names.push(&part.group);
        }
    }
    names.push(MAIN);
    for name in names {
        let mut items = Vec::new();
        for (p, part) in assembly.parts.iter().enumerate() {
            if part.group != name || sets.iter().any(|(_, carried)| carried.contains(&p)) {
                continue;
            }
            match sets.iter().position(|(holder, _)| *holder == p) {
                Some(s) => {
                    let all = bodies[s].items.iter().flat_map(|i| i.parts.clone()).collect();
                    items.push(Item::new(Content::Body(s), all, assembly));
                }
                None => items.push(Item::new(Content::Part(p), vec![p], assembly)),
            }
        }
        if name == MAIN {
            for (b, body) in bodies.iter().enumerate() {
                if !body.is_set {
                    let all = body.items.iter().flat_map(|i| i.parts.clone()).collect();
                    items.push(Item::new(Content::Body(b), all, assembly));
                }
            }
        }
        bodies.push(Body { id: name.to_owned(), items, is_set: false });
    }
    Grouping { bodies }
}
