//! Cut trees as the search changes them.
//!
//! The root is a sheet. A node is a part, a leftover, or cut across in one direction into two or more pieces that are
//! as wide as it is in the other; the pieces' own cuts run the other way. Pieces of one node have no order yet, so
//! all that is left of it is one leftover.

use super::problem::{Cost, Problem, Way};

/// No node.
pub(super) const NIL: u32 = u32::MAX;

/// What a node is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Use {
    Leftover,
    Part {
        kind: u32,
        way: Way,
    },
    /// Cut into pieces that follow each other along that axis: 0 is x, 1 is y.
    Cut(u8),
    /// Not part of any tree.
    Free,
}

/// A rectangle of a sheet. Sizes include the kerf.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub size: [i64; 2],
    /// Of a leftover, what it is worth.
    pub worth: i64,
    pub parent: u32,
    pub child: u32,
    pub next: u32,
    pub previous: u32,
    /// Of a leftover, its place in [`Plan::leftovers`].
    at: u32,
    /// Index into the problem's sheets.
    pub sheet: u32,
    pub used: Use,
    pub depth: u16,
}

/// Where a part goes: into that leftover, lying that way, the first cut parting along that axis. A wide strip is cut off
/// first where another part is to lie beside this one in it, so that blocks arise that no single part spans.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    pub leftover: u32,
    pub way: Way,
    pub first: u8,
    /// Width of that strip.
    pub wide: Option<i64>,
}

/// Sheets being cut, and what is still to be placed.
#[derive(Debug)]
pub(super) struct Plan {
    pub nodes: Vec<Node>,
    free: Vec<u32>,
    /// All leftovers, in no order.
    pub leftovers: Vec<u32>,
    /// Roots of the sheets begun.
    pub roots: Vec<u32>,
    /// Sheets begun, by the problem's sheets.
    pub begun: Vec<u32>,
    /// Parts to place, by kind.
    pub missing: Vec<u32>,
    /// Weight of the parts to place.
    pub missing_weight: i64,
    pub cost: Cost,
    /// What all leftovers are worth.
    pub worth: i64,
}

impl Clone for Plan {
    fn clone(&self) -> Self {
        Plan {
            nodes: self.nodes.clone(),
            free: self.free.clone(),
            leftovers: self.leftovers.clone(),
            roots: self.roots.clone(),
            begun: self.begun.clone(),
            missing: self.missing.clone(),
            ..*self
        }
    }

    /// Into the room there is: the search goes back to an earlier plan all the time.
    fn clone_from(&mut self, from: &Self) {
        self.nodes.clone_from(&from.nodes);
        self.free.clone_from(&from.free);
        self.leftovers.clone_from(&from.leftovers);
        self.roots.clone_from(&from.roots);
        self.begun.clone_from(&from.begun);
        self.missing.clone_from(&from.missing);
        self.missing_weight = from.missing_weight;
        self.cost = from.cost;
        self.worth = from.worth;
    }
}

impl Plan {
    /// Nothing begun, everything missing.
    pub fn new(problem: &Problem) -> Self {
        Plan {
            nodes: Vec::new(),
            free: Vec::new(),
            leftovers: Vec::new(),
            roots: Vec::new(),
            begun: vec![0; problem.sheets.len()],
            missing: problem.kinds.iter().map(|k| k.count).collect(),
            missing_weight: problem.kinds.iter().map(|k| i64::from(k.count) * k.weight).sum(),
            cost: Cost::default(),
            worth: 0,
        }
    }

    /// Values all leftovers again, as another problem of the same sheets and parts does.
    pub fn value_again(&mut self, problem: &Problem) {
        self.worth = 0;
        for id in &self.leftovers {
            let node = &mut self.nodes[*id as usize];
            node.worth = problem.worth.of(node.size[0] * node.size[1]);
            self.worth += node.worth;
        }
    }

    /// Whether every part has its place.
    pub fn complete(&self) -> bool {
        self.missing.iter().all(|n| *n == 0)
    }

    fn node(&self, id: u32) -> &Node {
        &self.nodes[id as usize]
    }

    fn node_mut(&mut self, id: u32) -> &mut Node {
        &mut self.nodes[id as usize]
    }

    /// Pieces of a node, in no order.
    pub fn children(&self, id: u32) -> impl Iterator<Item = u32> + '_ {
        let first = self.node(id).child;
        std::iter::successors((first != NIL).then_some(first), |c| {
            Some(self.node(*c).next).filter(|n| *n != NIL)
        })
    }

    /// Begins a sheet; its root is a leftover.
    pub fn begin(&mut self, problem: &Problem, sheet: usize) -> u32 {
        let s = &problem.sheets[sheet];
        let root = self.make(NIL, s.size, sheet as u32, 0);
        self.roots.push(root);
        self.begun[sheet] += 1;
        self.cost = self.cost.plus(s.cost);
        self.leave(problem, root);
        root
    }

    /// Puts a part of a kind where it fits.
    pub fn put(&mut self, problem: &Problem, kind: usize, place: Place) {
        let part = problem.kinds[kind].lying(place.way);
        let (first, other) = (usize::from(place.first), usize::from(1 - place.first));
        let mut piece = place.leftover;
        if let Some(wide) = place.wide {
            piece = self.cut_off(problem, piece, place.first, wide);
            piece = self.cut_off(problem, piece, 1 - place.first, part[other]);
        }
        if self.node(piece).size[first] > part[first] {
            piece = self.cut_off(problem, piece, place.first, part[first]);
        }
        if self.node(piece).size[other] > part[other] {
            piece = self.cut_off(problem, piece, 1 - place.first, part[other]);
        }
        self.unleave(piece);
        self.node_mut(piece).used = Use::Part { kind: kind as u32, way: place.way };
        self.missing[kind] -= 1;
        self.missing_weight -= problem.kinds[kind].weight;
    }

    /// Parts a leftover in two along an axis; the piece of that width is a leftover, and so is the rest.
    fn cut_off(&mut self, problem: &Problem, id: u32, axis: u8, width: i64) -> u32 {
        let along = usize::from(axis);
        let Node { size, parent, sheet, depth, .. } = *self.node(id);
        let (mut piece, mut rest) = (size, size);
        piece[along] = width;
        rest[along] -= width;
        self.unleave(id);
        let beside = parent != NIL && self.node(parent).used == Use::Cut(axis);
        let piece = if beside {
            self.node_mut(id).size = rest;
            self.leave(problem, id);
            self.make(parent, piece, sheet, depth)
        } else {
            self.node_mut(id).used = Use::Cut(axis);
            let rest = self.make(id, rest, sheet, depth + 1);
            self.leave(problem, rest);
            self.make(id, piece, sheet, depth + 1)
        };
        self.leave(problem, piece);
        piece
    }

    /// Takes a node with all that is in it out again. A sheet with nothing left on it goes back to the stock.
    pub fn take(&mut self, problem: &Problem, id: u32) {
        self.clear(problem, id);
        let mut id = id;
        loop {
            let Node { parent, size, .. } = *self.node(id);
            if parent == NIL {
                self.give_back(problem, id);
                return;
            }
            let Use::Cut(axis) = self.node(parent).used else { return };
            let left = self.children(parent).find(|c| self.node(*c).used == Use::Leftover);
            if let Some(left) = left.filter(|l| *l != id) {
                let along = usize::from(axis);
                let more = self.node(left).size[along];
                self.node_mut(id).size[along] = size[along] + more;
                self.unleave(left);
                self.unlink(left);
            }
            let first = self.node(parent).child;
            if first != id || self.node(id).next != NIL {
                break;
            }
            self.unlink(id);
            id = parent;
            self.node_mut(id).used = Use::Free;
        }
        self.leave(problem, id);
    }

    /// Frees all below a node and makes it nothing.
    fn clear(&mut self, problem: &Problem, id: u32) {
        match self.node(id).used {
            Use::Part { kind, .. } => {
                self.missing[kind as usize] += 1;
                self.missing_weight += problem.kinds[kind as usize].weight;
            }
            Use::Leftover => self.unleave(id),
            Use::Cut(_) => {
                let mut child = self.node(id).child;
                while child != NIL {
                    let next = self.node(child).next;
                    self.clear(problem, child);
                    self.free.push(child);
                    child = next;
                }
                self.node_mut(id).child = NIL;
            }
            Use::Free => {}
        }
        self.node_mut(id).used = Use::Free;
    }

    fn give_back(&mut self, problem: &Problem, root: u32) {
        let sheet = self.node(root).sheet as usize;
        self.roots.retain(|r| *r != root);
        self.begun[sheet] -= 1;
        self.cost = self.cost.minus(problem.sheets[sheet].cost);
        self.free.push(root);
    }

    fn make(&mut self, parent: u32, size: [i64; 2], sheet: u32, depth: u16) -> u32 {
        let next = if parent == NIL { NIL } else { self.node(parent).child };
        let node = Node {
            size,
            worth: 0,
            parent,
            child: NIL,
            next,
            previous: NIL,
            at: NIL,
            sheet,
            used: Use::Free,
            depth,
        };
        let id = match self.free.pop() {
            Some(id) => {
                *self.node_mut(id) = node;
                id
            }
            None => {
                self.nodes.push(node);
                self.nodes.len() as u32 - 1
            }
        };
        if next != NIL {
            self.node_mut(next).previous = id;
        }
        if parent != NIL {
            self.node_mut(parent).child = id;
        }
        id
    }

    /// Takes a node without children out of its parent.
    fn unlink(&mut self, id: u32) {
        let Node { parent, previous, next, .. } = *self.node(id);
        if previous == NIL {
            self.node_mut(parent).child = next;
        } else {
            self.node_mut(previous).next = next;
        }
        if next != NIL {
            self.node_mut(next).previous = previous;
        }
        self.node_mut(id).used = Use::Free;
        self.free.push(id);
    }

    /// Makes a node a leftover.
    fn leave(&mut self, problem: &Problem, id: u32) {
        let at = self.leftovers.len() as u32;
        self.leftovers.push(id);
        let node = &mut self.nodes[id as usize];
        node.used = Use::Leftover;
        node.at = at;
        node.worth = problem.worth.of(node.size[0] * node.size[1]);
        self.worth += node.worth;
    }

    fn unleave(&mut self, id: u32) {
        let Node { at, worth, .. } = *self.node(id);
        self.worth -= worth;
        self.leftovers.swap_remove(at as usize);
        if let Some(moved) = self.leftovers.get(at as usize).copied() {
            self.node_mut(moved).at = at;
        }
        self.node_mut(id).used = Use::Free;
    }
}
