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

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use jointwise::assembly::{Assembly, MAIN};
use jointwise::plan::Workshop;

use blocks::Way;
use body::{Body, Mask, bits};
use moves::{Move, State, Task};
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
        let singly: Vec<Vec<usize>> = own.iter().map(|&p| vec![p]).collect();
        all.add(Choices::new(assembly, shop, &singly).cheapest_of_all(None)?);
        // Laid aside and taken up again, as a set is.
        all.spent.add(spent::MINUTES, 2);
        items.push(own);
    }
    all.add(Choices::new(assembly, shop, &items).cheapest_of_all(Some(assembly.stands_on as Way))?);
    Some(all)
}

impl Best {
    fn add(&mut self, other: Best) {
        self.spent.plus(&other.spent);
        self.built.extend(other.built);
    }
}

/// A body with all sets that may be made ready in it, each with its cheapest order once that is
/// known.
struct Choices<'a> {
    body: Body<'a>,
    known: BTreeMap<Mask, Option<Best>>,
}

impl<'a> Choices<'a> {
    fn new(assembly: &'a Assembly, shop: &'a Workshop, items: &[Vec<usize>]) -> Self {
        Choices { body: Body::new(assembly, shop, items), known: BTreeMap::new() }
    }

    /// The cheapest way to build the whole body.
    fn cheapest_of_all(&mut self, end: Option<Way>) -> Option<Best> {
        self.cheapest(self.body.full(), end)
    }

    /// The cheapest way to build some items.
    fn cheapest(&mut self, within: Mask, end: Option<Way>) -> Option<Best> {
        let mut units = Vec::new();
        for unit in (1..=within).filter(|u| u & !within == 0) {
            if unit.count_ones() == 1 {
                units.push((unit, Spent::default()));
            } else if unit != within
                && self.is_connected(unit)
                && let Some(best) = self.set(unit)
            {
                units.push((unit, best.spent));
            }
        }
        let task = Task { body: &self.body, within, end, units, known: RefCell::default() };
        let (spent, moves) = search(&task)?;
        let mut best = Best { spent, built: Vec::new() };
        for (m, _) in &moves {
            if let Move::LayOut(unit) | Move::GoIn(unit) = m
                && let Some(Some(set)) = self.known.get(unit)
            {
                best.built.extend(set.built.clone());
            }
        }
        let parts = bits(within).map(|i| self.body.unit(1 << i).parts.clone()).collect();
        best.built.push(Built { items: parts, is_set: within != self.body.full(), moves });
        Some(best)
    }

    /// The cheapest way to make a set ready, laying it aside and taking it up again included.
    fn set(&mut self, items: Mask) -> Option<Best> {
        if !self.known.contains_key(&items) {
            let mut best = self.cheapest(items, None);
            if let Some(best) = &mut best {
                best.spent.add(spent::MINUTES, 2);
                // Several panels together take both arms.
                let panels = bits(items).filter(|&i| self.body.is_panel(i)).count();
                best.spent.add(spent::HANDLINGS, u32::from(panels > 1));
            }
            self.known.insert(items, best);
        }
        self.known.get(&items).cloned().flatten()
    }

    /// Whether joints that fasten make one whole of some items.
    fn is_connected(&self, items: Mask) -> bool {
        self.body.lumps(items, self.body.links_in(items)).len() == 1
    }
}

/// The cheapest order of a task, by weighing all of them, and each move of it with where it leads.
fn search(task: &Task) -> Option<(Spent, Vec<(Move, State)>)> {
    let mut reached: BTreeMap<State, (Spent, Option<State>, Move)> = BTreeMap::new();
    let mut open: BTreeSet<(Spent, State)> = BTreeSet::new();
    let mut next: Vec<(Spent, Option<State>, Move, State)> =
        moves::beginnings(task).into_iter().map(|(m, to, spent)| (spent, None, m, to)).collect();
    loop {
        for (spent, from, m, to) in next.drain(..) {
            if reached.get(&to).is_none_or(|known| spent < known.0) {
                reached.insert(to, (spent, from, m));
                open.insert((spent, to));
            }
        }
        let (spent, at) = open.pop_first()?;
        // A dearer way to the same state, found before.
        if reached[&at].0 < spent {
            continue;
        }
        if moves::is_done(task, &at) {
            return Some((spent, path(&reached, at)));
        }
        for (m, to, more) in moves::moves(task, &at) {
            let mut all = spent;
            all.plus(&more);
            next.push((all, Some(at), m, to));
        }
    }
}

/// How a state was reached.
fn path(reached: &BTreeMap<State, (Spent, Option<State>, Move)>, at: State) -> Vec<(Move, State)> {
    let mut path = Vec::new();
    let mut here = Some(at);
    while let Some(state) = here {
        let (_, before, m) = reached[&state];
        path.push((m, state));
        here = before;
    }
    path.reverse();
    path
}
