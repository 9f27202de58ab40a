//! Orders every body of an assembly, and keeps the sets that the cheapest order makes ready.

use crate::assembly::{Assembly, MAIN};
use crate::plan::{Cost, Workshop};

use super::alike::Likeness;
use super::bodies::{Body, Content, Grouping, Item, named};
use super::holding;
use super::obstacle::{self, NoOrder};
use super::scene::{Scene, members};
use super::search::{self, Found, Path, Searcher, Task};
use super::state::{Move, State};
use super::{BUDGET, EXACT_UP_TO, SHORT_BUDGET, sets};
use crate::wishes::Wishes;

/// The cheapest order of each body.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// The bodies, sets among them; each after those it takes in.
    pub grouping: Grouping,
    /// The moves of each.
    pub paths: Vec<Vec<Move>>,
    /// What the maker has decided.
    pub wishes: Wishes,
    /// Whether the finished piece stands by itself.
    pub stands: bool,
    /// All of them together.
    pub cost: Cost,
    /// No order costs less.
    pub bound: Cost,
    /// States expanded, once for bodies that are alike.
    pub states: u64,
    /// Whether all was looked at that could be cheaper.
    pub complete: bool,
}

/// Orders every body of an assembly.
///
/// # Errors
/// When some body has no order; says which part, and what stands in its way.
pub fn plan(
    assembly: &Assembly,
    workshop: &Workshop,
    wishes: &Wishes,
    longest: u64,
) -> Result<Planned, Box<NoOrder>> {
    let grouping = named(assembly);
    let mut planned = Planned {
        grouping: Grouping { bodies: Vec::new() },
        paths: Vec::new(),
        wishes: wishes.clone(),
        stands: false,
        // A body built on its own is laid aside and taken up again.
        cost: Cost { minutes: 2 * (grouping.bodies.len() as u32 - 1), ..Cost::default() },
        bound: Cost::default(),
        states: 0,
        complete: true,
    };
    planned.bound = planned.cost;
    // Where each named body ends up among the bodies with sets.
    let mut places: Vec<usize> = Vec::new();
    let mut ordered: Vec<Ordered> = Vec::new();
    for body in &grouping.bodies {
        let done = wishes.done.as_ref().is_some_and(|done| {
            body.id != MAIN
                && body
                    .items
                    .iter()
                    .flat_map(|i| &i.parts)
                    .all(|&p| done.parts.contains(&assembly.parts[p].id))
        });
        if done {
            places.push(planned.grouping.bodies.len());
            planned.grouping.bodies.push(body.clone());
            planned.paths.push(Vec::new());
            continue;
        }
        // In a room it counts where a body stands; else what is alike is searched once.
        let likeness = Likeness::of(assembly, body).filter(|_| workshop.person.is_none());
        let twin = ordered.iter().position(|o| likeness.is_some() && o.likeness == likeness);
        let (scene, n) = match twin {
            Some(n) => {
                let mut scene = Scene::new(assembly, workshop, &body.items);
                ordered[n].sets.iter().for_each(|&set| scene.add_set(set));
                (scene, n)
            }
            None => {
                let (scene, known, found) = order(assembly, workshop, wishes, body, longest);
                planned.states += found.states;
                planned.complete &= found.complete;
                let Some(path) = found.path.clone() else {
                    return Err(Box::new(obstacle::explain(&scene, &body.id, wishes, &found)));
                };
                let sets = scene.masks[scene.basics..].to_vec();
                ordered.push(Ordered { likeness, sets, known, path, bound: found.bound });
                (scene, ordered.len() - 1)
            }
        };
        let Ordered { known, path, bound, .. } = &ordered[n];
        planned.bound = planned.bound.plus(*bound);
        planned.cost = planned.cost.plus(path.cost);
        let mut unfold = Unfold { scene: &scene, known, places: &places, out: &mut planned };
        let place = unfold.body(scene.full(), &path.moves, Some(&body.id));
        places.push(place);
        if body.id == MAIN {
            planned.stands = scene.stands(scene.full(), assembly.stands_on);
        }
    }
    Ok(planned)
}

type Known = std::collections::BTreeMap<u64, Found>;

/// What was found for a body, and for all that are like it.
struct Ordered {
    likeness: Option<Likeness>,
    /// The sets it was searched with.
    sets: Vec<u64>,
    known: Known,
    path: Path,
    bound: Cost,
}

/// The cheapest order of one body, with the sets it was searched with.
pub(super) fn order<'a>(
    assembly: &'a Assembly,
    workshop: &'a Workshop,
    wishes: &Wishes,
    body: &Body,
    longest: u64,
) -> (Scene<'a>, Known, Found) {
    let mut scene = Scene::new(assembly, workshop, &body.items);
    sets::likely(&scene).into_iter().for_each(|set| scene.add_set(set));
    let task = task(&scene, wishes, body, longest);
    let (mut known, mut found) = run(&scene, wishes, &task);
    if found.path.is_none() && !found.complete && longest > BUDGET {
        // Once more from the start, with less to weigh and more to try.
        let (known_too, wide) =
            run(&scene, wishes, &Task { budget: 0, width: search::WIDE, ..task.clone() });
        let bound = found.bound;
        found = Found { states: found.states + wide.states, bound, ..wide };
        known = known_too;
    }
    // What is too heavy or too long for one takes a second person however it is grouped.
    let unwieldy = holding::all_unwieldy(&scene).count_ones();
    if found.path.as_ref().is_some_and(|p| p.cost.helper_steps <= unwieldy) {
        return (scene, known, found);
    }
    let more = sets::further(&scene);
    if more.is_empty() {
        return (scene, known, found);
    }
    more.into_iter().for_each(|set| scene.add_set(set));
    let under = found.path.as_ref().map(|p| p.cost);
    let (known_too, mut again) = run(&scene, wishes, &Task { under, ..task });
    again.states += found.states;
    again.complete &= found.complete;
    if again.path.is_some() || found.path.is_none() {
        return (scene, known_too, again);
    }
    let found = Found { states: again.states, complete: again.complete, ..found };
    (scene, known, found)
}

fn run<'a>(scene: &'a Scene<'a>, wishes: &Wishes, task: &Task) -> (Known, Found) {
    let mut searcher = Searcher::new(scene, wishes.alone);
    let found = searcher.search(task);
    (searcher.sets, found)
}

/// What is asked of the search for one body. Of what the maker wishes, all but doing without a
/// helper concerns [`MAIN`] alone.
pub fn task(scene: &Scene, wishes: &Wishes, body: &Body, longest: u64) -> Task {
    let within = scene.full();
    let mut task = Task {
        within,
        end: None,
        faces: scene.faces(within),
        first: None,
        start: State::EMPTY,
        // Above that many items a search that is exact would take too long: it looks for a good
        // order and says how much better one might be.
        budget: longest.min(if scene.basics <= EXACT_UP_TO { BUDGET } else { SHORT_BUDGET }),
        width: search::WIDTH,
        under: None,
    };
    if body.id == MAIN {
        let end = scene.assembly.stands_on;
        task.end = Some(end);
        task.faces.retain(|f| wishes.lets_lie_on(*f, end));
        if task.faces.is_empty() {
            task.faces.clone_from(&wishes.lay_on);
        }
        let item_of = |id: &String| {
            let part = scene.assembly.index_of(id)?;
            body.items.iter().position(|i| i.parts.contains(&part))
        };
        task.first = wishes.first.as_ref().and_then(item_of);
        task.start = start(scene, wishes);
    }
    task
}

/// What stands on the bench already.
fn start(scene: &Scene, wishes: &Wishes) -> State {
    let Some(done) = &wishes.done else { return State::EMPTY };
    let is_done =
        |item: &Item| item.parts.iter().all(|&p| done.parts.contains(&scene.assembly.parts[p].id));
    let set =
        (0..scene.basics).filter(|&i| is_done(&scene.items[i])).fold(0, |set, i| set | 1 << i);
    if set == 0 {
        return State::EMPTY;
    }
    State { set, closed: scene.links_in(set), wet: 0, face: done.face.index() as u8 }
}

/// Makes bodies of the sets that a path joins.
struct Unfold<'a> {
    scene: &'a Scene<'a>,
    known: &'a Known,
    places: &'a [usize],
    out: &'a mut Planned,
}

impl Unfold<'_> {
    /// Adds the body with these items, after the sets it takes in; its place among the bodies.
    fn body(&mut self, within: u64, moves: &[Move], id: Option<&str>) -> usize {
        let scene = self.scene;
        let own: Vec<usize> = members(within).collect();
        let own_mask = |mask: u64| {
            own.iter()
                .enumerate()
                .filter(|(_, i)| mask >> **i & 1 == 1)
                .fold(0, |m, (n, _)| m | 1 << n)
        };
        // The sets it takes in, in the order in which they join.
        let mut joins: Vec<usize> = Vec::new();
        let mut sets: Vec<(u64, usize)> = Vec::new();
        for m in moves {
            let (Move::LayOut(item, _) | Move::Place(item, _)) = *m else { continue };
            if item < scene.basics {
                continue;
            }
            let mask = scene.masks[item];
            let path = self.known.get(&mask).and_then(|f| f.path.clone());
            let inner = path.map(|p| p.moves).unwrap_or_default();
            joins.push(item);
            sets.push((own_mask(mask), self.body(mask, &inner, None)));
        }
        let items: Vec<Item> = own
            .iter()
            .map(|&i| {
                let mut item = scene.items[i].clone();
                if let Content::Body(named) = item.content {
                    item.content = Content::Body(self.places.get(named).copied().unwrap_or(named));
                }
                item
            })
            .collect();
        let now = |old: usize| {
            let single = own.iter().position(|&i| i == old);
            let set = || joins.iter().position(|&i| i == old).map(|n| own.len() + n);
            single.or_else(set).unwrap_or(0)
        };
        let moves = moves.iter().map(|m| match *m {
            Move::LayOut(item, face) => Move::LayOut(now(item), face),
            Move::Place(item, direction) => Move::Place(now(item), direction),
            other => other,
        });
        self.out.paths.push(moves.collect());
        let id_of = |id: &str| self.out.grouping.bodies.iter().any(|b| b.id == id);
        let id = id.map_or_else(
            || {
                let own = self.set_name(within);
                let numbered = (2..).map(|n| format!("{own}-{n}"));
                let mut names = std::iter::once(own.clone()).chain(numbered);
                names.find(|name| !id_of(name)).unwrap_or(own)
            },
            str::to_owned,
        );
        let is_set = within != scene.full();
        self.out.grouping.bodies.push(Body { id, items, sets, is_set });
        self.out.grouping.bodies.len() - 1
    }

    /// A set is named after its heaviest part.
    fn set_name(&self, within: u64) -> String {
        let parts = &self.scene.assembly.parts;
        let all = members(within).flat_map(|i| &self.scene.items[i].parts);
        let heaviest = all.max_by_key(|&&p| (parts[p].mass_g, std::cmp::Reverse(p)));
        heaviest.map_or_else(|| "set".to_owned(), |&p| format!("{}-ready", parts[p].id))
    }
}
