//! Where a part goes best, and how a plan is filled up.

use super::chance::Chance;
use super::job::Aim;
use super::problem::{Cost, Problem, Way};
use super::tree::{NIL, Node, Place, Plan, Use};

/// How a plan is filled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Filling {
    /// Of 1024 places, how many are overlooked: a search that always takes the best one sees little.
    pub blink: usize,
    /// Of 1024 parts, how many begin a strip wide enough for another part beside them.
    pub wide: usize,
    /// What the sheets may cost: less than this.
    pub below: Cost,
}

/// Puts in what is missing, the kind that fits into the fewest leftovers first, until nothing more goes in.
pub(super) fn fill(
    plan: &mut Plan,
    problem: &Problem,
    filling: Filling,
    chance: &mut Chance,
    room: &mut Vec<Want>,
) {
    room.clear();
    for (kind, n) in plan.missing.iter().enumerate() {
        if *n > 0 {
            let fits = plan.leftovers.iter().filter(|l| fits(plan, problem, kind, **l)).count();
            let last = match problem.aim {
                // Not all go in: one after another by value for the area, more or less.
                Aim::MostValue => {
                    let dense = i128::from(problem.kinds[kind].weight) * (1 << 20)
                        / i128::from(problem.kinds[kind].area().max(1));
                    let last = dense * (512 + chance.below(1024) as i128);
                    i64::try_from(last).map_or(i64::MIN, |last| -last)
                }
                _ => 0,
            };
            room.push(Want { kind, fits, last });
        }
    }
    // The weightiest first, so that of those with as many leftovers the first is the one.
    room.sort_unstable_by_key(|w| (w.last, -problem.kinds[w.kind].weight, w.kind));
    while let Some(at) = scarcest(room) {
        let kind = room[at].kind;
        let mut place = None;
        if room[at].fits > 0 {
            if filling.wide > 0 && chance.often(filling.wide) {
                place = wide_place(plan, problem, kind, room, chance);
            }
            place = place.or_else(|| best_place(plan, problem, kind, filling.blink, chance));
        }
        let place = place.or_else(|| {
            let sheet = new_sheet(plan, problem, kind, filling, chance)?;
            let root = plan.begin(problem, sheet);
            count(plan, problem, room, &[root], true);
            best_on(plan, problem, kind, root, filling.blink, chance)
        });
        let Some(place) = place else {
            room.remove(at);
            continue;
        };
        put(plan, problem, kind, place, room);
        if plan.missing[kind] == 0 {
            room.remove(at);
        }
    }
}

/// Puts in what is missing, kinds in that order; new sheets where nothing else will do.
pub(super) fn fill_in_order(
    plan: &mut Plan,
    problem: &Problem,
    order: &[usize],
    filling: Filling,
    chance: &mut Chance,
) {
    for &kind in order {
        while plan.missing[kind] > 0 {
            let place = best_place(plan, problem, kind, filling.blink, chance).or_else(|| {
                let sheet = new_sheet(plan, problem, kind, filling, chance)?;
                let root = plan.begin(problem, sheet);
                best_on(plan, problem, kind, root, filling.blink, chance)
            });
            let Some(place) = place else { break };
            plan.put(problem, kind, place);
        }
    }
}

/// A kind that is missing, and how many leftovers it fits into.
#[derive(Debug, Clone, Copy)]
pub(super) struct Want {
    kind: usize,
    fits: usize,
    /// Higher ones wait; the same for all but where values tell them apart.
    last: i64,
}

/// Of the kinds that do not wait the one that fits into the fewest leftovers, and of those the first.
fn scarcest(room: &[Want]) -> Option<usize> {
    let last = room.first()?.last;
    let now = room.iter().take_while(|w| w.last == last).enumerate();
    now.min_by_key(|(_, w)| w.fits).map(|(at, _)| at)
}

/// Puts a part in and keeps the counts of leftovers up to date.
fn put(plan: &mut Plan, problem: &Problem, kind: usize, place: Place, room: &mut [Want]) {
    count(plan, problem, room, &[place.leftover], false);
    let before = plan.leftovers.len() - 1;
    plan.put(problem, kind, place);
    // Whatever was left is at the end of the list.
    let made = plan.leftovers.len() - before;
    let mut new = [NIL; 3];
    for (to, from) in new.iter_mut().zip(&plan.leftovers[before..]) {
        *to = *from;
    }
    count(plan, problem, room, &new[..made.min(3)], true);
}

fn count(plan: &Plan, problem: &Problem, room: &mut [Want], leftovers: &[u32], more: bool) {
    for want in room {
        let n = leftovers.iter().filter(|l| fits(plan, problem, want.kind, **l)).count();
        want.fits = if more { want.fits + n } else { want.fits.saturating_sub(n) };
    }
}

/// Whether a kind fits into a leftover at all, stages aside.
fn fits(plan: &Plan, problem: &Problem, kind: usize, leftover: u32) -> bool {
    let node = &plan.nodes[leftover as usize];
    let ways = problem.ways(kind, node.sheet as usize);
    [Way::Straight, Way::Turned]
        .into_iter()
        .any(|w| ways.has(w) && problem.fits(problem.kinds[kind].lying(w), node.size))
}

/// The place that costs the least worth, some being overlooked.
fn best_place(
    plan: &Plan,
    problem: &Problem,
    kind: usize,
    blink: usize,
    chance: &mut Chance,
) -> Option<Place> {
    let mut best: Option<(i64, Place)> = None;
    for &leftover in &plan.leftovers {
        best_in(plan, problem, kind, leftover, blink, chance, &mut best);
    }
    best.map(|b| b.1)
}

/// A good place on a sheet just begun. The first piece decides much about a sheet: the best is overlooked more often.
fn best_on(
    plan: &Plan,
    problem: &Problem,
    kind: usize,
    root: u32,
    blink: usize,
    chance: &mut Chance,
) -> Option<Place> {
    let mut best = None;
    best_in(plan, problem, kind, root, 2 * blink, chance, &mut best);
    if best.is_none() {
        best_in(plan, problem, kind, root, 0, chance, &mut best);
    }
    best.map(|b| b.1)
}

/// Somewhere at random, in a strip wide enough for this part and one that is still missing, or for that one alone.
fn wide_place(
    plan: &Plan,
    problem: &Problem,
    kind: usize,
    room: &[Want],
    chance: &mut Chance,
) -> Option<Place> {
    let one_of = |at: usize| if at == 0 { Way::Straight } else { Way::Turned };
    let leftover = plan.leftovers[chance.below(plan.leftovers.len())];
    let node = &plan.nodes[leftover as usize];
    let (way, other_way) = (one_of(chance.below(2)), one_of(chance.below(2)));
    let first = chance.below(2) as u8;
    let (along, across) = (usize::from(first), usize::from(1 - first));
    let part = problem.kinds[kind].lying(way);
    let other = room[chance.below(room.len())].kind;
    let beside = problem.kinds[other].lying(other_way)[along];
    let wide = if chance.often(768) { part[along] + beside } else { beside };
    let allowed = problem.ways(kind, node.sheet as usize).has(way)
        && problem.ways(other, node.sheet as usize).has(other_way);
    let enough = |rest: i64| rest > 0 && rest >= problem.least_gap;
    let nested = node.parent == NIL || plan.nodes[node.parent as usize].used != Use::Cut(first);
    let good = allowed
        && enough(node.size[along] - wide)
        && enough(wide - part[along])
        && enough(node.size[across] - part[across])
        && node.depth + 2 + u16::from(nested) <= problem.most_depth;
    good.then_some(Place { leftover, way, first, wide: Some(wide) })
}

/// Keeps the best place and the worth it gains (less than nothing), those within a leftover included.
fn best_in(
    plan: &Plan,
    problem: &Problem,
    kind: usize,
    leftover: u32,
    blink: usize,
    chance: &mut Chance,
    best: &mut Option<(i64, Place)>,
) {
    let node = &plan.nodes[leftover as usize];
    let ways = problem.ways(kind, node.sheet as usize);
    for way in [Way::Straight, Way::Turned] {
        let part = problem.kinds[kind].lying(way);
        if !ways.has(way) || !problem.fits(part, node.size) {
            continue;
        }
        for first in [0u8, 1] {
            let Some(gain) = gain(plan, problem, node, part, first) else { continue };
            if best.is_none_or(|b| gain > b.0) && !(blink > 0 && chance.often(blink)) {
                *best = Some((gain, Place { leftover, way, first, wide: None }));
            }
        }
    }
}

/// What leftovers are worth more after a part went into one, the first cut parting along an axis; none if the stages
/// do not allow it, or the first cut would cut nothing off.
fn gain(plan: &Plan, problem: &Problem, node: &Node, part: [i64; 2], first: u8) -> Option<i64> {
    let (along, across) = (usize::from(first), usize::from(1 - first));
    let rest = [node.size[along] - part[along], node.size[across] - part[across]];
    if rest[0] == 0 && (rest[1] > 0 || first > 0) {
        return None;
    }
    if rest == [0, 0] {
        return Some(-node.worth);
    }
    let beside = node.parent != NIL && plan.nodes[node.parent as usize].used == Use::Cut(first);
    let depth = node.depth + u16::from(!beside) + u16::from(rest[1] > 0);
    if depth > problem.most_depth {
        return None;
    }
    let left =
        problem.worth.of(rest[0] * node.size[across]) + problem.worth.of(part[along] * rest[1]);
    Some(left - node.worth)
}

/// A sheet to begin for a part of a kind: mostly the one that costs the least for its area.
fn new_sheet(
    plan: &Plan,
    problem: &Problem,
    kind: usize,
    filling: Filling,
    chance: &mut Chance,
) -> Option<usize> {
    let can = |s: &usize| {
        let sheet = &problem.sheets[*s];
        problem.ways(kind, *s).any()
            && plan.begun[*s] < sheet.count
            && plan.cost.plus(sheet.cost) < filling.below
    };
    let count = (0..problem.sheets.len()).filter(can).count();
    if count > 1 && filling.blink > 0 && chance.often(512) {
        let at = chance.below(count);
        return (0..problem.sheets.len()).filter(can).nth(at);
    }
    (0..problem.sheets.len()).filter(can).min_by_key(|s| {
        let sheet = &problem.sheets[*s];
        let area = i128::from(sheet.area());
        (i128::from(sheet.cost.price) * (1 << 40) / area.max(1), -area)
    })
}
