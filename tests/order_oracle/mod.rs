//! The least that an assembly can cost, by weighing every order of every choice of sets.
//!
//! It follows `docs/order.md` and nothing else: it reads the values of an assembly and a workshop
//! and uses none of the library's geometry, checks or search. No bound, no shortcut: each state of a
//! body is expanded once, cheapest first, and each way to make sets ready is tried.
//!
//! One module a question: [`blocks`] boxes; [`body`] items and joints; [`standing`]; [`tools`] room
//! for drivers and clamps; [`distances`] what sets a place; [`moves`] what may be done next;
//! [`spent`] what it costs. Here: the sets, and the search.

pub mod blocks;
pub mod body;
pub mod distances;
pub mod moves;
pub mod spent;
pub mod standing;
pub mod tools;

use std::collections::{BTreeMap, BTreeSet};

use jointwise::assembly::{Assembly, MAIN};
use jointwise::plan::Workshop;

use blocks::Way;
use body::{Body, Mask, bits};
use moves::{Move, State};
use spent::Spent;

/// More items than this in a body are not tried: beyond it the rules for sets are others.
pub const MOST: usize = 7;

/// A cheapest order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Best {
    /// What it costs.
    pub spent: Spent,
    /// Every body and set, each after what it takes in.
    pub built: Vec<Built>,
}

/// How one body or set is built.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Built {
    /// The parts of each item.
    pub items: Vec<Vec<usize>>,
    /// Whether it is a set that the search chose.
    pub is_set: bool,
    /// What is done, and how it lies afterwards.
    pub moves: Vec<(Move, State)>,
}

/// The cheapest order of an assembly, or none when it cannot be built. Bodies may have at most
/// [`MOST`] items.
pub fn best(assembly: &Assembly, shop: &Workshop) -> Option<Best> {
    let mut names: Vec<&str> = assembly.parts.iter().map(|p| p.group.as_str()).collect();
    names.retain(|n| *n != MAIN);
    names.sort_unstable();
    names.dedup();
    let of = |name: &str| -> Vec<usize> {
        (0..assembly.parts.len()).filter(|&p| assembly.parts[p].group == name).collect()
    };
    let mut all = Best { spent: Spent::default(), built: Vec::new() };
    let mut items: Vec<Vec<usize>> = of(MAIN).into_iter().map(|p| vec![p]).collect();
    for name in names {
        let own = of(name);
        let mut choices = Choices::new(assembly, shop, own.iter().map(|&p| vec![p]).collect());
        all.add(choices.cheapest(choices.body.full(), None)?);
        // Laid aside and taken up again, as a set is.
        all.spent.add(spent::MINUTES, 2);
        items.push(own);
    }
    let mut choices = Choices::new(assembly, shop, items);
    all.add(choices.cheapest(choices.body.full(), Some(assembly.stands_on as usize))?);
    Some(all)
}

impl Best {
    fn add(&mut self, other: Best) {
        self.spent.plus(&other.spent);
        self.built.extend(other.built);
    }
}

/// The sets of a body, each with its cheapest order once that is known.
struct Choices<'a> {
    body: Body<'a>,
    known: BTreeMap<Mask, Option<Best>>,
}

impl<'a> Choices<'a> {
    fn new(assembly: &'a Assembly, shop: &'a Workshop, items: Vec<Vec<usize>>) -> Self {
        Choices { body: Body::new(assembly, shop, &items), known: BTreeMap::new() }
    }

    /// The cheapest way to build some items, over all choices of sets among them.
    fn cheapest(&mut self, items: Mask, end: Option<Way>) -> Option<Best> {
        if let Some(known) = self.known.get(&items) {
            return known.clone();
        }
        let mut cheapest: Option<Best> = None;
        for units in self.divisions(items, items) {
            let mut all = Best { spent: Spent::default(), built: Vec::new() };
            let sets = units.iter().filter(|u| u.count_ones() > 1);
            let ready = sets.into_iter().all(|&set| {
                all.spent.add(spent::MINUTES, 2);
                self.cheapest(set, None).map(|b| all.add(b)).is_some()
            });
            if !ready {
                continue;
            }
            let parts = |unit: &Mask| -> Vec<usize> {
                bits(*unit).flat_map(|i| self.body.items[i].parts.clone()).collect()
            };
            let parts: Vec<Vec<usize>> = units.iter().map(parts).collect();
            let body = Body::new(self.body.assembly, self.body.shop, &parts);
            if let Some((spent, moves)) = search(&body, end) {
                all.spent.plus(&spent);
                let parts = body.items.into_iter().map(|i| i.parts).collect();
                all.built.push(Built { items: parts, is_set: items != self.body.full(), moves });
                if cheapest.as_ref().is_none_or(|c| all.spent < c.spent) {
                    cheapest = Some(all);
                }
            }
        }
        self.known.insert(items, cheapest.clone());
        cheapest
    }

    /// All ways to divide `rest` into single items and sets; never all of `whole` in one.
    fn divisions(&self, rest: Mask, whole: Mask) -> Vec<Vec<Mask>> {
        if rest == 0 {
            return vec![Vec::new()];
        }
        let first = rest & rest.wrapping_neg();
        let others = rest & !first;
        let mut found = Vec::new();
        // Every choice of the others goes with the first.
        let mut choice = others;
        loop {
            let unit = first | choice;
            let single = unit == first;
            if single || (std::env::var("NOSETS").is_err() && unit != whole && self.is_connected(unit)) {
                for mut more in self.divisions(rest & !unit, whole) {
                    more.push(unit);
                    found.push(more);
                }
            }
            if choice == 0 {
                return found;
            }
            choice = (choice - 1) & others;
        }
    }

    /// Whether joints that fasten make one whole of some items.
    fn is_connected(&self, items: Mask) -> bool {
        let inside = |l: &usize| self.body.links[*l].ends.iter().all(|&e| items >> e & 1 == 1);
        let links = (0..self.body.links.len()).filter(inside).fold(0, |all, l| all | 1 << l);
        self.body.lumps(items, links).len() == 1
    }
}

/// The cheapest order of a body's items, by weighing all of them.
fn search(body: &Body, end: Option<Way>) -> Option<(Spent, Vec<(Move, State)>)> {
    let mut from: BTreeMap<State, (Spent, Option<State>, Move)> = BTreeMap::new();
    let mut open: BTreeSet<(Spent, State)> = BTreeSet::new();
    let note = |open: &mut BTreeSet<(Spent, State)>,
                from: &mut BTreeMap<State, (Spent, Option<State>, Move)>,
                to: State,
                spent: Spent,
                by: (Option<State>, Move)| {
        if from.get(&to).is_none_or(|known| spent < known.0) {
            from.insert(to, (spent, by.0, by.1));
            open.insert((spent, to));
        }
    };
    for (m, to, spent) in moves::beginnings(body) {
        note(&mut open, &mut from, to, spent, (None, m));
    }
    let mut done: BTreeSet<State> = BTreeSet::new();
    while let Some((spent, at)) = open.pop_first() {
        if !done.insert(at) {
            continue;
        }
        if moves::is_done(body, &at, end) {
            let mut path = Vec::new();
            let mut here = Some(at);
            while let Some(state) = here {
                let (_, before, m) = from[&state];
                path.push((m, state));
                here = before;
            }
            path.reverse();
            return Some((spent, path));
        }
        for (m, to, more) in moves::moves(body, &at) {
            let mut all = spent;
            all.plus(&more);
            note(&mut open, &mut from, to, all, (Some(at), m));
        }
    }
    None
}
