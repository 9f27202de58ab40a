//! What every way on from a state still costs at least.

use crate::geometry::Direction;
use crate::plan::Cost;

use super::holding;
use super::scene::{Scene, members};
use super::search::Task;
use super::state::State;

/// The least that is still to come, field by field: the items and screws that are not in yet take
/// their minutes, glue its clamps and its curing, what is unwieldy a second person, and a body on
/// another face than its last must be turned.
///
/// Never more than the truth, and it never falls by more than a move costs: the first goal that a
/// best-first search reaches is the cheapest.
pub struct Least {
    within: u64,
    links: u64,
    /// Screws of each link.
    screws: Vec<u32>,
    cures: u64,
    unwieldy: u64,
    curing: u32,
    end: Option<Direction>,
}

impl Least {
    /// For a task.
    pub fn new(scene: &Scene, task: &Task) -> Self {
        let screws =
            scene.links.iter().map(|l| l.rooms.first().map_or(0, Vec::len) as u32).collect();
        let cures =
            scene.links.iter().enumerate().filter(|(_, l)| l.cures).fold(0, |m, (l, _)| m | 1 << l);
        Least {
            within: task.within,
            links: scene.links_in(task.within),
            screws,
            cures,
            unwieldy: holding::all_unwieldy(scene),
            curing: scene.workshop.glue.clamp,
            end: task.end,
        }
    }

    /// From a state on.
    pub fn still_to_come(&self, state: &State) -> Cost {
        let out = self.within & !state.set;
        let open = self.links & !state.closed;
        let screws: u32 = members(open).map(|l| self.screws[l]).sum();
        let clamps = (open & self.cures).count_ones();
        let curing = if clamps > 0 || state.wet != 0 { self.curing } else { 0 };
        let turned = u32::from(state.set != 0 && self.end.is_some_and(|e| e != state.face()));
        Cost {
            helper_steps: (out & self.unwieldy).count_ones(),
            handlings: turned,
            turns: turned,
            tool_changes: clamps,
            minutes: (2 * out.count_ones()).saturating_sub(u32::from(state.set == 0))
                + screws
                + 2 * clamps
                + curing,
            ..Cost::default()
        }
    }
}
