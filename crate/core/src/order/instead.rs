//! What else could have been done at a step, and what the whole order would cost then.

use std::cell::RefCell;

use crate::plan::{Cost, Instead};

use super::least::Least;
use super::placing;
use super::planned::{self, Planned};
use super::scene::{Scene, members};
use super::search::{Found, Searcher, Task};
use super::state::{Move, State};
use super::steps::Writer;
use super::words;

/// States that the other ways of one body may take to weigh, all steps together.
const BUDGET: u64 = 1_500;

/// How many of the other ways are looked into, until one leads to a finished piece.
const TRIED: usize = 4;

/// The other ways at each step of one body.
pub(super) struct Others<'a> {
    scene: &'a Scene<'a>,
    /// One for all steps: what making a set ready costs is asked again and again.
    searcher: RefCell<Searcher<'a>>,
    least: Least,
    states: &'a [State],
    /// What the body was searched for.
    task: Task,
    /// What the moves up to each state cost, and all of them.
    spent: Vec<Cost>,
    /// The cost of the whole plan.
    whole: Cost,
    /// States for each step.
    share: u64,
}

impl<'a> Others<'a> {
    /// For the path of body `b` through `states`.
    pub(super) fn new(
        scene: &'a Scene<'a>,
        planned: &'a Planned,
        b: usize,
        states: &'a [State],
    ) -> Self {
        let body = &planned.grouping.bodies[b];
        let task = Task { width: 1, ..planned::task(scene, &planned.wishes, body, BUDGET) };
        let mut searcher = Searcher::new(scene, planned.wishes.alone);
        let least = searcher.least(&task);
        let mut spent = vec![Cost::default()];
        for (m, from) in planned.paths[b].iter().zip(states) {
            let more = searcher.step(&task, from, *m).map_or(Cost::default(), |(_, cost)| cost);
            let more = more.plus(searcher.beforehand(&task, *m));
            let last = spent.last().copied().unwrap_or_default();
            spent.push(last.plus(more));
        }
        let share = BUDGET / (states.len() as u64).max(1);
        let searcher = RefCell::new(searcher);
        Others { scene, searcher, least, states, task, spent, whole: planned.cost, share }
    }

    /// The best of the other things that could be done instead of move `k`.
    pub(super) fn instead(&self, writer: &Writer, k: usize, taken: Move) -> Option<Instead> {
        let at = self.states[k];
        let mut searcher = self.searcher.borrow_mut();
        let mut ways = searcher.ways(&self.task, &self.least, &at);
        ways.retain(|(m, ..)| *m != taken && !same_start(*m, taken));
        // A set that joins has been made ready before.
        for (m, _, least) in &mut ways {
            *least = least.plus(searcher.beforehand(&self.task, *m));
        }
        ways.sort_by_key(|(m, _, least)| (*least, *m));
        if ways.is_empty() {
            return self.impossible(writer, &at, taken);
        }
        // The best of them that leads somewhere.
        let mut nowhere = None;
        for &(m, to, first) in ways.iter().take(TRIED) {
            let rest = Task { start: to, budget: self.share, ..self.task.clone() };
            let found = searcher.search(&rest);
            if found.complete && found.path.is_none() {
                nowhere.get_or_insert(m);
                continue;
            }
            return self.dearer(writer, &mut searcher, k, (m, first), &found);
        }
        let text =
            format!("{} instead would lead to no finished piece.", self.what(writer, nowhere?));
        Some(Instead { text, cost: None })
    }

    /// By how much another move is dearer, given what was found after it.
    fn dearer(
        &self,
        writer: &Writer,
        searcher: &mut Searcher,
        k: usize,
        (m, first): (Move, Cost),
        found: &Found,
    ) -> Option<Instead> {
        let step = searcher.step(&self.task, &self.states[k], m).map(|(_, cost)| cost)?;
        let what = self.what(writer, m);
        let rest = match &found.path {
            Some(path) if found.complete => path.cost,
            _ => found.bound,
        };
        let beforehand = searcher.beforehand(&self.task, m);
        let by_search = self.spent[k].plus(step).plus(beforehand).plus(rest);
        let by_bound = self.spent[k].plus(first);
        let own = self.spent.last().copied().unwrap_or_default();
        // No order is cheaper than the one found.
        let least = self.whole.less(own).plus(by_search.max(by_bound)).max(self.whole);
        Some(Instead {
            text: format!("{what} instead: {}.", dearer(self.whole, least)),
            cost: Some(least),
        })
    }

    /// Why the first of the parts still out, in the order of the cut list, does not go in here.
    fn impossible(&self, writer: &Writer, at: &State, taken: Move) -> Option<Instead> {
        if at.set == 0 {
            return None;
        }
        let out = self.scene.full() & !at.set;
        let other = members(out).find(|&i| !matches!(taken, Move::Place(item, _) if item == i))?;
        let name = words::item_name(writer.assembly, writer.grouping(), &self.scene.items[other]);
        let why = placing::placing(self.scene, self.scene.full(), other, at).err()?;
        let text = format!("The {name} cannot go in yet: {}.", words::refusal(self.scene, &why));
        Some(Instead { text, cost: None })
    }

    fn what(&self, writer: &Writer, m: Move) -> String {
        let name = |item: usize| {
            words::item_name(writer.assembly, writer.grouping(), &self.scene.items[item])
        };
        match m {
            Move::LayOut(item, face) => format!(
                "Starting with the {} {}",
                name(item),
                words::lying(&self.scene.items[item].bounds, face)
            ),
            Move::Place(item, _) => format!("The {}", name(item)),
            Move::Turn(face) => format!("Turning it onto its {}", words::onto(face)),
            Move::Wait => "Waiting for the glue".to_owned(),
        }
    }
}

/// Two placings of the same item are the same thing done.
fn same_start(a: Move, b: Move) -> bool {
    matches!((a, b), (Move::Place(x, _), Move::Place(y, _)) if x == y)
}

/// By what the first field that differs is dearer, in words.
fn dearer(best: Cost, other: Cost) -> String {
    let fields = [
        (best.helper_steps, other.helper_steps, "step for two people", "steps for two people"),
        (best.by_feel, other.by_feel, "face set level by feel", "faces set level by feel"),
        (
            best.handlings,
            other.handlings,
            "turn or part held in the air",
            "turns or parts held in the air",
        ),
        (best.holds, other.holds, "thing to hold", "things to hold"),
        (best.measured, other.measured, "distance to measure", "distances to measure"),
        (
            best.tool_changes,
            other.tool_changes,
            "change of bit or clamp",
            "changes of bit or clamp",
        ),
        (best.minutes, other.minutes, "minute", "minutes"),
    ];
    for (ours, theirs, one, many) in fields {
        if theirs > ours {
            let more = theirs - ours;
            return format!("at least {more} more {}", if more == 1 { one } else { many });
        }
        if theirs < ours {
            break;
        }
    }
    "no better, and less like the order of the cut list".to_owned()
}
