//! The states that a search has reached, and the queue of those to look at.

use std::cmp::Reverse;

use super::least::Least;
use super::scene::Scene;
use super::state::{Move, State};
use super::sum::Sum;
use super::table::{Key, Table, mix};

impl Key for State {
    fn mixed(&self) -> u64 {
        mix([self.set, self.closed, self.wet, u64::from(self.face)])
    }
}

/// A state that was reached.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub state: State,
    pub cost: Sum,
    /// Whether everything cheaper had been looked at when its moves were tried.
    pub settled: bool,
    /// From which node, by which move.
    pub from: Option<(u32, Move)>,
}

/// All states that were reached, each at the least cost known.
#[derive(Default)]
pub(super) struct Reached {
    nodes: Vec<Node>,
    index: Table<State, u32>,
}

impl Reached {
    /// Keeps a state when nothing cheaper leads there; its node then.
    pub fn keep(&mut self, state: State, cost: Sum, from: Option<(u32, Move)>) -> Option<u32> {
        if let Some(&n) = self.index.get(&state) {
            let node = &mut self.nodes[n as usize];
            if cost >= node.cost {
                return None;
            }
            *node = Node { cost, from, ..*node };
            return Some(n);
        }
        let n = self.nodes.len() as u32;
        self.nodes.push(Node { state, cost, settled: false, from });
        self.index.insert(state, n);
        Some(n)
    }

    /// One of them.
    pub fn node(&mut self, n: u32) -> &mut Node {
        &mut self.nodes[n as usize]
    }

    /// The moves that lead there.
    pub fn moves_to(&self, n: u32) -> Vec<Move> {
        let mut moves = Vec::new();
        let mut at = n;
        while let Some((from, m)) = self.nodes[at as usize].from {
            moves.push(m);
            at = from;
        }
        moves.reverse();
        moves
    }
}

/// An entry of the queue: least cost of all first, among equals the fuller set, then the state
/// itself, so that nothing hangs on when it was reached. With a move, the node is where that move
/// starts, and its set has not been priced yet.
pub(super) type Entry = Reverse<(Sum, Reverse<u32>, State, Option<Move>, u32)>;

/// The entry of a node, by what its order costs at least.
pub(super) fn entry(scene: &Scene, least: &Least, node: &Node, n: u32) -> Entry {
    let all = node.cost + least.still_to_come(scene, &node.state);
    Reverse((all, Reverse(node.state.set.count_ones()), node.state, None, n))
}
