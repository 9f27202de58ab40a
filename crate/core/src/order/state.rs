//! Where a body stands in its building, and what can be done next.

use crate::geometry::Direction;

use super::scene::Scene;
use super::{moves, placing};

/// A body at some point of its building.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct State {
    /// Own items that are in.
    pub set: u64,
    /// Links that are closed.
    pub closed: u64,
    /// Of these, the links whose glue has not cured.
    pub wet: u64,
    /// Index of the face on the bench.
    pub face: u8,
}

impl State {
    /// Nothing is there yet.
    pub const EMPTY: State = State { set: 0, closed: 0, wet: 0, face: 6 };

    /// The face on the bench.
    pub fn face(&self) -> Direction {
        Direction::ALL[usize::from(self.face) % 6]
    }
}

/// One thing to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Move {
    /// The first item is laid on the bench.
    LayOut(usize, Direction),
    /// An item joins, moving in that direction.
    Place(usize, Direction),
    /// The body is turned onto another face, and what can now be reached is screwed.
    Turn(Direction),
    /// Glue cures, and its clamps come off.
    Wait,
}

/// The states of a path: where it starts, then where each move leads.
pub fn states(scene: &Scene, start: State, path: &[Move]) -> Vec<State> {
    let mut at = start;
    let mut all = vec![at];
    for m in path {
        at = match *m {
            Move::LayOut(item, face) => moves::laid_out(scene, item, face),
            Move::Place(item, _) => match placing::placing(scene, scene.full(), item, &at) {
                Ok(p) => moves::placed(scene, item, &at, &p),
                Err(_) => at,
            },
            Move::Turn(face) => {
                let pending = scene.links_in(at.set) & !at.closed;
                let closes = scene.closable(at.set, face, pending);
                State { closed: at.closed | closes, face: face.index() as u8, ..at }
            }
            Move::Wait => State { wet: 0, ..at },
        };
        all.push(at);
    }
    all
}
