//! What every way on from a state still costs at least.

use crate::geometry::Direction;
use crate::plan::Cost;

use super::access::ToolRoom;
use super::easiest;
use super::holding;
use super::links::Link;
use super::placing;
use super::scene::{Scene, members};
use super::search::Task;
use super::state::State;
use super::sum::Sum;

/// The least that is still to come.
///
/// Whatever the way on is, the body lies on some faces in its course, at a turn for each but the first,
/// and one more when it lies on its last face already and leaves it.
/// Given these faces, each item costs at least what [`Easiest`](super::easiest::Easiest) says for the
/// best of them, and each joint its screws or its clamp; and each must be reached on one of them. Of a
/// set that may be made ready, either the items cost that, or the set does, with its own order. The
/// least over all choices of faces is never more than the truth, and never falls by more than a move
/// costs: the first goal that a best-first search reaches is the cheapest.
pub struct Least {
    within: u64,
    links: u64,
    /// What closing each link costs.
    closing: Vec<Sum>,
    cures: u64,
    unwieldy: u64,
    /// What waiting for glue costs.
    curing: Sum,
    end: Option<Direction>,
    /// For each link and tool the items that are in the room of some screw.
    in_rooms: Vec<Vec<u64>>,
    /// Links that fasten.
    fastening: u64,
    /// Items that nothing ever fastens or shuts in: with one of them in, the body is not turned.
    sliding: u64,
    /// What so many turns cost.
    turns: [Sum; 7],
    /// Sets that may be made ready, when they are apart from each other.
    sets: Vec<u64>,
    /// Items that are in one of them.
    grouped: u64,
    /// Choices of faces, fewest first.
    choices: Vec<Choice>,
}

/// Some faces on which the body lies in the course of its building.
struct Choice {
    /// A bit for each.
    faces: u8,
    /// What each item costs at least.
    items: Vec<Sum>,
    /// What each set costs at least, or its items, when all of it is out.
    sets: Vec<Sum>,
    /// The links that may close on some of them.
    closable: u64,
}

impl Least {
    /// For a task. `ready` says what making a set ready costs, when it can be.
    pub fn new(scene: &Scene, task: &Task, mut ready: impl FnMut(usize) -> Option<Sum>) -> Self {
        let within = task.within;
        let usable = |&item: &usize| {
            let own = scene.masks[item];
            own & !within == 0 && own != within
        };
        let sets: Vec<usize> = (scene.basics..scene.items.len()).filter(usable).collect();
        let all = sets.iter().fold(0, |all, &s| all | scene.masks[s]);
        let apart =
            sets.iter().map(|&s| scene.masks[s].count_ones()).sum::<u32>() == all.count_ones();
        let links = scene.links_in(within);
        let cures =
            (0..scene.links.len()).filter(|&l| scene.links[l].cures).fold(0, |m, l| m | 1 << l);
        let closing: Vec<Sum> = (0..scene.links.len()).map(|l| closing(scene, l)).collect();
        let minutes = scene.workshop.glue.clamp;
        let those = |is: &dyn Fn(usize) -> bool| {
            (0..scene.links.len()).filter(|&l| is(l)).fold(0u64, |all, l| all | 1 << l)
        };
        let in_rooms = |link: &Link| {
            let all = |rooms: &Vec<ToolRoom>| rooms.iter().fold(0, |all, r| all | r.blockers);
            link.rooms.iter().map(all).collect()
        };
        let slides = |&i: &usize| {
            let free = |d: Direction| scene.blocking.leaving(i, d, within) == 0;
            !members(scene.links_of(i, within)).any(|l| scene.links[l].fastens)
                && Direction::ALL.into_iter().any(free)
        };
        let mut turns = [Sum::ZERO; 7];
        for n in 1..turns.len() {
            turns[n] = turns[n - 1] + placing::TURN.into();
        }
        let mut least = Least {
            within,
            links,
            cures,
            unwieldy: holding::all_unwieldy(scene),
            curing: Cost { minutes, ..Cost::default() }.into(),
            end: task.end,
            in_rooms: scene.links.iter().map(in_rooms).collect(),
            fastening: those(&|l| scene.links[l].fastens),
            sliding: members(within).filter(slides).fold(0, |all, i| all | 1 << i),
            turns,
            sets: Vec::new(),
            grouped: 0,
            choices: Vec::new(),
            closing,
        };
        // What a set costs with its own order, without its joints: they count by themselves.
        let mut wholes = Vec::new();
        if apart {
            least.sets = sets.iter().map(|&s| scene.masks[s]).collect();
            least.grouped = all;
            for &s in &sets {
                let inner = least.joints(scene.links_in(scene.masks[s]));
                wholes.push(ready(s).map_or(Sum::NEVER, |cost| cost - inner));
            }
        }
        let within_sets = sets.iter().fold(0, |all, &s| all | scene.links_in(scene.masks[s]));
        least.choices = choices(task)
            .into_iter()
            .map(|faces| {
                let on = |f: &usize| faces >> f & 1 == 1;
                let best = |item: usize| {
                    let costs = (0..6).filter(on).filter_map(|f| scene.easiest().joining(item, f));
                    costs.min().unwrap_or(Sum::NEVER)
                };
                let items: Vec<Sum> = (0..scene.basics)
                    .map(|i| {
                        let in_one =
                            (!apart && all >> i & 1 == 1).then(|| in_some_set(scene, &sets, i));
                        best(i).min(in_one.unwrap_or(Sum::NEVER))
                    })
                    .collect();
                let set = |(&s, &whole): (&usize, &Sum)| {
                    let single = members(scene.masks[s]).fold(Sum::ZERO, |sum, i| sum + items[i]);
                    single.min(whole + best(s))
                };
                let sets = sets.iter().zip(&wholes).map(set).collect();
                let reached = |l: &usize| scene.easiest().closes_on[*l] & faces != 0;
                let closable =
                    (0..scene.links.len()).filter(reached).fold(within_sets, |m, l| m | 1 << l);
                Choice { faces, items, sets, closable }
            })
            .collect();
        least
    }

    /// Whether something has no way in any more, or no tool a way to a screw: what is in stays in.
    fn is_shut_out(&self, scene: &Scene, state: &State, out: u64, open: u64) -> bool {
        let set = state.set;
        let no_way =
            |i: usize| Direction::ALL.into_iter().all(|d| scene.blocking.leaving(i, d, set) != 0);
        // A joint of which nothing is in may close in a set, away from here.
        let begun = |l: usize| scene.links[l].items.iter().any(|&i| set >> i & 1 == 1);
        let no_tool = |l: usize| self.in_rooms[l].iter().all(|blockers| blockers & set != 0);
        members(out).any(no_way) || members(open).any(|l| begun(l) && no_tool(l))
    }

    /// Whether something that slides is in and is not what the rest would go with in a turn: of lumps of
    /// equally many items that is the one with the first item. Nothing fastened, each item is a lump.
    fn stays(&self, state: &State) -> bool {
        let loose = state.set & self.sliding;
        let first = state.set & state.set.wrapping_neg();
        loose & !first != 0 || loose != 0 && state.closed & self.fastening != 0
    }

    fn joints(&self, links: u64) -> Sum {
        members(links).fold(Sum::ZERO, |sum, l| sum + self.closing[l])
    }

    /// From a state on.
    pub fn still_to_come(&self, scene: &Scene, state: &State) -> Sum {
        let out = self.within & !state.set;
        let open = self.links & !state.closed;
        let mut joints = self.joints(open);
        if open & self.cures != 0 || state.wet != 0 {
            joints = joints + self.curing;
        }
        let fewest = || {
            let items = 2 * out.count_ones();
            let helper_steps = (out & self.unwieldy).count_ones();
            let minutes = items.saturating_sub(u32::from(state.set == 0));
            Sum::from(Cost { helper_steps, minutes, ..Cost::default() }) + joints
        };
        if state.set == 0 {
            return fewest();
        }
        let mut single = out;
        let mut whole = 0u64;
        for (s, &set) in self.sets.iter().enumerate() {
            if set & !out == 0 {
                single &= !set;
                whole |= 1 << s;
            }
        }
        let stays = self.stays(state);
        if self.is_shut_out(scene, state, out, open) || stays && bars(scene, state, out) {
            return fewest() + Sum::LAST;
        }
        let face = 1u8 << state.face().index();
        // What is in and still open waits for a turn.
        let pending = open != 0 && scene.links_in(state.set) & open != 0;
        let leaves_last = self.end == Some(state.face());
        let mut best = Sum::NEVER;
        for choice in &self.choices {
            let others = choice.faces.count_ones() as usize - 1;
            let turns = self.turns[others + usize::from(leaves_last && others > 0)];
            if turns >= best {
                break;
            }
            if choice.faces & face == 0
                || open & !choice.closable != 0
                || pending && choice.faces == face
                || stays && choice.faces != face
            {
                continue;
            }
            let mut sum = turns;
            for s in members(whole) {
                sum = sum + choice.sets[s];
            }
            let mut rest = single;
            while rest != 0 && sum < best {
                sum = sum + choice.items[rest.trailing_zeros() as usize];
                rest &= rest - 1;
            }
            best = best.min(sum);
        }
        if best < Sum::NEVER {
            return best + joints;
        }
        // No way on leads to a finished piece: to be looked at last.
        fewest() + Sum::LAST
    }
}

/// Whether something that is out cannot go in any more on the face that is down: it would come up through
/// the bench, or reach below it. What is in only bars more ways later, and never goes lower.
fn bars(scene: &Scene, state: &State, out: u64) -> bool {
    let (set, face) = (state.set, state.face());
    let plane = scene.plane(set, face);
    let may = |d: Direction| d != face.opposite();
    let no_way = |i: usize| {
        let blocked = |d: Direction| scene.blocking.entering(i, d, set) != 0;
        Direction::ALL.into_iter().filter(|&d| may(d)).all(blocked)
    };
    members(out).any(|i| scene.reach[i][face.index()] > plane || no_way(i))
}

/// Choices of faces among those that a task allows: with the last, when that matters, and fewest first.
fn choices(task: &Task) -> Vec<u8> {
    let bit = |d: &Direction| 1u8 << d.index();
    let start = if task.start.set == 0 { 0 } else { bit(&task.start.face()) };
    let end = task.end.as_ref().map_or(0, bit);
    let may = task.faces.iter().fold(start | end, |all, d| all | bit(d));
    let mut all: Vec<u8> = (1..64).filter(|f| f & !may == 0 && f & end == end).collect();
    all.sort_by_key(|f| (f.count_ones(), *f));
    all
}

/// What an item costs at least that may come in one of several sets, or sets within sets.
fn in_some_set(scene: &Scene, sets: &[usize], item: usize) -> Sum {
    let anywhere = |item: usize| {
        let all = (0..6).filter_map(|f| scene.easiest().joining(item, f));
        all.min().unwrap_or(Sum::NEVER)
    };
    let laid_out = easiest::laying_out(scene, item);
    let of_it = sets.iter().filter(|&&s| scene.masks[s] >> item & 1 == 1);
    let first = of_it.map(|&s| laid_out + scene.aside(s).into() + anywhere(s)).min();
    anywhere(item).min(first.unwrap_or(Sum::NEVER))
}

/// What closing a link costs at least.
fn closing(scene: &Scene, link: usize) -> Sum {
    let link = &scene.links[link];
    let screws = link.rooms.first().map_or(0, Vec::len) as u32;
    let clamps = u32::from(link.cures);
    Cost { tool_changes: clamps, minutes: screws + 2 * clamps, ..Cost::default() }.into()
}
