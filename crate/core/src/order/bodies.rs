//! Bodies: what is built on its own and then joined whole.

use crate::assembly::{Assembly, MAIN};
use crate::geometry::{Box3, Solid};

/// What a body is made of: a part, or another body ready-made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Content {
    /// Index of the part.
    Part(usize),
    /// Index of the body in its [`Grouping`].
    Body(usize),
    /// Several items that the search might make ready beforehand.
    Set,
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
    /// Its items, in the order of the cut list; also those that come in a set.
    pub items: Vec<Item>,
    /// The sets that join it whole: which items each holds, and the index of its body.
    pub sets: Vec<(u64, usize)>,
    /// Whether the search chose to make it ready beforehand; else the assembly names it.
    pub is_set: bool,
}

/// All bodies of a plan, each after the bodies it takes in; the last is [`MAIN`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grouping {
    /// The bodies.
    pub bodies: Vec<Body>,
}

impl Item {
    /// Several items as one.
    pub fn of(content: Content, items: &[&Item], assembly: &Assembly) -> Item {
        let parts = items.iter().flat_map(|i| i.parts.iter().copied()).collect();
        Item::new(content, parts, assembly)
    }

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

/// The bodies that the assembly names, each part of theirs an item; a body joined to [`MAIN`] whole
/// is one item there.
pub fn named(assembly: &Assembly) -> Grouping {
    let mut names: Vec<&str> = Vec::new();
    for part in &assembly.parts {
        if part.group != MAIN && !names.contains(&part.group.as_str()) {
            names.push(&part.group);
        }
    }
    let own = |name: &str| -> Vec<Item> {
        let of_it = assembly.parts.iter().enumerate().filter(|(_, part)| part.group == name);
        of_it.map(|(p, _)| Item::new(Content::Part(p), vec![p], assembly)).collect()
    };
    let mut bodies: Vec<Body> = names
        .iter()
        .map(|&name| Body {
            id: name.to_owned(),
            items: own(name),
            sets: Vec::new(),
            is_set: false,
        })
        .collect();
    let mut items = own(MAIN);
    for (b, body) in bodies.iter().enumerate() {
        let all: Vec<&Item> = body.items.iter().collect();
        items.push(Item::of(Content::Body(b), &all, assembly));
    }
    bodies.push(Body { id: MAIN.to_owned(), items, sets: Vec::new(), is_set: false });
    Grouping { bodies }
}
