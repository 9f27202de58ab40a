//! What can be done next to a body, where it leads, and what it costs.

use crate::geometry::Direction;
use crate::plan::Cost;

use super::least::Least;
use super::placing::{self, Placing};
use super::scene::Scene;
use super::search::{Searcher, Task};
use super::state::{Move, State};
use super::sum::Sum;

impl Searcher<'_> {
    /// Where one move leads, and what it costs besides making a set ready.
    pub fn step(&self, task: &Task, from: &State, m: Move) -> Option<(State, Cost)> {
        let scene = self.scene;
        match m {
            Move::LayOut(item, face) => Some((
                laid_out(scene, item, face),
                placing::laying_out(scene, task.within, item, face),
            )),
            Move::Place(item, _) => {
                let p = placing::placing(scene, task.within, item, from).ok()?;
                let cost = placing::price(scene, task.within, item, from, &p)
                    .plus(locking(scene, from, &p));
                Some((placed(scene, item, from, &p), cost))
            }
            Move::Turn(face) => {
                let pending = scene.links_in(from.set) & !from.closed;
                let closes = scene.closable(from.set, face, pending);
                let to = State { closed: from.closed | closes, face: face.index() as u8, ..*from };
                Some((to, placing::turning(scene, from.set, closes, face)))
            }
            Move::Wait => {
                let minutes = scene.workshop.glue.clamp;
                Some((State { wet: 0, ..*from }, Cost { minutes, ..Cost::default() }))
            }
        }
    }

    /// All moves from a state, with where they lead and what they cost; without what making a set
    /// ready costs.
    pub(super) fn expand(&self, task: &Task, state: &State) -> Vec<(Move, State, Cost)> {
        let mut out = self.moves(task, state);
        if self.alone {
            out.retain(|(_, _, more)| more.helper_steps == 0);
        }
        out
    }

    fn moves(&self, task: &Task, state: &State) -> Vec<(Move, State, Cost)> {
        let scene = self.scene;
        let mut out = Vec::new();
        let usable = |item: usize| {
            let own = scene.masks[item];
            own & state.set == 0 && own & !task.within == 0 && own != task.within
        };
        if state.set == 0 {
            let starts = |item: usize| {
                let own = scene.masks[item];
                let first = task.first.is_none_or(|f| own >> f & 1 == 1);
                first && scene.after[item] & task.within == 0
            };
            let whole = |item: usize| scene.masks[item] == task.within && item < scene.basics;
            for item in (0..scene.items.len()).filter(|&i| (usable(i) || whole(i)) && starts(i)) {
                for &face in &task.faces {
                    let m = Move::LayOut(item, face);
                    let cost = placing::laying_out(scene, task.within, item, face);
                    out.push((m, laid_out(scene, item, face), cost));
                }
            }
            return out;
        }
        for item in (0..scene.items.len()).filter(|&i| usable(i)) {
            let Ok(p) = placing::placing(scene, task.within, item, state) else { continue };
            let cost = placing::price(scene, task.within, item, state, &p);
            let m = Move::Place(item, p.direction);
            out.push((m, placed(scene, item, state, &p), cost.plus(locking(scene, state, &p))));
        }
        if state.wet != 0 {
            // Nobody holds it that long.
            if scene.stands(state.set, state.face())
                && let Some((to, cost)) = self.step(task, state, Move::Wait)
            {
                out.push((Move::Wait, to, cost));
            }
        } else if state.set.count_ones() > 1 && scene.is_one(state.set, state.closed) {
            for &face in &task.faces {
                if face != state.face()
                    && scene.stands(state.set, face)
                    && let Some((to, cost)) = self.step(task, state, Move::Turn(face))
                {
                    out.push((Move::Turn(face), to, cost));
                }
            }
        }
        out
    }

    /// All moves from a state, with where they lead and what the order costs from there at least.
    pub fn ways(&self, task: &Task, least: &Least, state: &State) -> Vec<(Move, State, Cost)> {
        let all = self.expand(task, state);
        let all_of =
            |to: &State, more: Cost| (Sum::from(more) + least.still_to_come(self.scene, to)).cost();
        all.into_iter().map(|(m, to, more)| (m, to, all_of(&to, more))).collect()
    }
}

/// The state after an item is laid out.
pub fn laid_out(scene: &Scene, item: usize, face: Direction) -> State {
    let set = scene.masks[item];
    State { set, closed: scene.links_in(set), wet: 0, face: face.index() as u8 }
}

/// The state after an item has joined.
pub fn placed(scene: &Scene, item: usize, from: &State, p: &Placing) -> State {
    let own = scene.masks[item];
    let closed = from.closed | p.closes | scene.links_in(own);
    State { set: from.set | own, closed, wet: from.wet | p.wet, face: from.face }
}

/// What it counts to lock a frame that has no diagonals to measure yet.
fn locking(scene: &Scene, from: &State, p: &Placing) -> Cost {
    let unmeasured = p.braces && !scene.has_ring(from.set, from.closed);
    Cost { by_feel: u32::from(unmeasured), ..Cost::default() }
}
