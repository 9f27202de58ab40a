//! What happens when an item joins a body, and what that costs.

use std::borrow::Cow;

use crate::geometry::Direction;
use crate::plan::Cost;

use super::checks;
use super::clamps::left_over;
use super::holding::{self, Holding, Rest};
use super::locate;
use super::scene::{Scene, members};
use super::state::State;

/// Mass above which a turn takes a second person, in grams. The load constant of the revised
/// lifting equation (DHHS (NIOSH) 94-110) is 23 kg for one person; tipping a piece over its edge
/// takes about half its weight. Not a lifting assessment.
pub const TURN_ALONE: i64 = 46_000;

/// What a placing does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placing {
    /// The way the item moves.
    pub direction: Direction,
    /// Links closed by it.
    pub closes: u64,
    /// Of these, the links that a clamp presses until their glue has cured.
    pub wet: u64,
    /// What is held.
    pub holding: Holding,
    /// Whether it locks a frame, see [`checks::braces`].
    pub braces: bool,
}

/// Why an item cannot join now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// Nothing that is in joins it.
    Apart,
    /// It waits for these items.
    After(u64),
    /// It would reach below the bench by that much.
    BelowBench(i64),
    /// Every way in is blocked: the best of them and what is in its way; nothing but the bench
    /// when that is empty.
    Blocked(Direction, u64),
    /// A glued joint cannot be closed now: no tool reaches its screws. The link.
    GlueOutOfReach(usize),
    /// No tool reaches the screws that would keep it. The link.
    OutOfReach(usize),
    /// It would stand in every place of the clamp that presses a wet joint. The link.
    InClamp(usize),
    /// A glued joint without screws finds no clamp or no place for one. The link.
    NoClamp(usize),
    /// Its glue would wait that many minutes for pressure.
    GlueWaits(u32),
    /// Nothing keeps it once the hand is gone.
    Loose,
    /// It is built on its own, and the glue of what is there has to dry first.
    Wet,
}

/// The way an item moves in: against its largest joint where that is clear and not upwards off the
/// bench, else down, else any clear way.
fn way_in(scene: &Scene, item: usize, set: u64, face: Direction) -> Result<Direction, Refusal> {
    let clear = |d: Direction| d != face.opposite() && scene.blocking.entering(item, d, set) == 0;
    let against = scene.against(item).filter(|&(mate, _)| set >> mate & 1 == 1).map(|(_, d)| d);
    let found = against.chain([face]).chain(Direction::ALL).find(|&d| clear(d));
    found.ok_or_else(|| {
        let best = Direction::ALL
            .into_iter()
            .filter(|&d| d != face.opposite())
            .min_by_key(|&d| scene.blocking.entering(item, d, set).count_ones())
            .unwrap_or(face);
        Refusal::Blocked(best, scene.blocking.entering(item, best, set))
    })
}

/// What happens when `item` joins `state`.
///
/// # Errors
/// Why it cannot.
pub fn placing(scene: &Scene, within: u64, item: usize, state: &State) -> Result<Placing, Refusal> {
    let (set, face) = (state.set, state.face());
    let links = scene.links_of(item, set);
    if links == 0 {
        return Err(Refusal::Apart);
    }
    // Building it takes the bench, and perhaps the clamps.
    if state.wet != 0 && scene.items[item].parts.len() > 1 {
        return Err(Refusal::Wet);
    }
    let missing = scene.after[item] & within & !set;
    if missing != 0 {
        return Err(Refusal::After(missing));
    }
    let below = scene.reach[item][face.index()] - scene.plane(set, face);
    if below > 0 {
        return Err(Refusal::BelowBench(below));
    }
    let direction = way_in(scene, item, set, face)?;
    let there = set | scene.masks[item];
    let closable = scene.closable(there, face, links);
    // Glue does not wait: every joint it is spread on closes in the same step.
    if let Some(late) = members(links & !closable).find(|&l| scene.links[l].glue) {
        return Err(Refusal::GlueOutOfReach(late));
    }
    let plane = scene.plane(there, face);
    let wet = members(links).filter(|&l| scene.links[l].cures).fold(0, |m, l| m | 1 << l);
    let spans = |links: u64| members(links).map(|l| scene.links[l].clamping.opening);
    let on_hand = if state.wet | wet == 0 {
        Some(Cow::Borrowed(&scene.clamps[..]))
    } else {
        let all_spans: Vec<i64> = spans(state.wet | wet).collect();
        left_over(&scene.clamps, &all_spans).map(Cow::Owned)
    };
    let placed =
        |l: &usize| scene.links[*l].clamping.place(there, face, plane, scene.workshop).is_some();
    let placeless = members(wet).find(|l| !placed(l));
    let Some(on_hand) = on_hand.filter(|_| placeless.is_none()) else {
        let link = placeless.or_else(|| members(wet).next());
        // Without wet joints of its own, those there have their clamps already.
        return Err(link.map_or(Refusal::Loose, Refusal::NoClamp));
    };
    // The clamps that are on stay where they are until the wait.
    if let Some(link) = members(state.wet).find(|l| !placed(l)) {
        return Err(Refusal::InClamp(link));
    }
    let holding = holding::decide(scene, item, set, face, &on_hand);
    let glued = members(links).filter(|&l| scene.links[l].glue).count() as u32;
    let waits = 2 + glued.saturating_sub(1) + holding.count();
    let glue = &scene.workshop.glue;
    if glued > 0 && waits > glue.open + glue.closed {
        return Err(Refusal::GlueWaits(waits));
    }
    if !members(closable).any(|l| scene.links[l].fastens) {
        // What would keep it may be a screw that no tool reaches here.
        let screws = members(links & !closable).find(|&l| scene.links[l].fastens);
        keeps(scene, item, set, face, &holding)
            .map_err(|loose| screws.map_or(loose, Refusal::OutOfReach))?;
    }
    let braces = checks::braces(scene, item, set).is_some();
    Ok(Placing { direction, closes: closable, wet, holding, braces })
}

/// Without anything that fastens it, an item must be let into a channel, or slide on something
/// that carries it.
fn keeps(
    scene: &Scene,
    item: usize,
    set: u64,
    face: Direction,
    holding: &Holding,
) -> Result<(), Refusal> {
    let stands = holding.rest == Rest::Stands;
    let links = scene.links_of(item, set);
    // A channel carries it whether or not its screws are in yet.
    let let_in = members(links).any(|l| scene.links[l].kind.is_channel());
    if let_in && (stands || scene.blocking.leaving(item, face, set) != 0) {
        return Ok(());
    }
    if scene.only_slides(links) && stands { Ok(()) } else { Err(Refusal::Loose) }
}

/// What a placing costs, apart from the making ready of a set and from locking a frame unmeasured.
pub fn price(scene: &Scene, within: u64, item: usize, state: &State, p: &Placing) -> Cost {
    let (set, face) = (state.set, state.face());
    let locate::Unset { measured, by_feel } = locate::unset(scene, within, item, set, face);
    let own = scene.masks[item];
    let before = (own & own.wrapping_neg()).wrapping_sub(1);
    let ahead = (within & !set & !own & before).count_ones();
    let lifted = u32::from(p.holding.rest == Rest::Lifted);
    let clamps = p.wet.count_ones();
    let cost = Cost {
        helper_steps: u32::from(p.holding.helper()),
        by_feel,
        handlings: lifted,
        holds: p.holding.count(),
        measured,
        tool_changes: p.holding.clamps() + clamps,
        minutes: 2 + p.holding.count() + p.holding.clamps() + measured + 2 * clamps,
        scatter: ahead,
        turns: 0,
        lifted,
    };
    cost.plus(driving(scene, p.closes, set | own, face))
}

/// Cost of driving the screws of some links in one step: a minute each, a change of bit for each
/// gauge and head after the first, and one for each joint that another tool than the drill drives.
pub fn driving(scene: &Scene, links: u64, there: u64, face: Direction) -> Cost {
    let mut bits = 0u64;
    let mut cost = Cost::default();
    let plane = scene.plane(there, face);
    for l in members(links) {
        let link = &scene.links[l];
        cost.minutes += link.screws;
        bits |= link.bits;
        if link.screws > 0 && link.rooms.len() > 1 {
            let other = scene.tool(l, there, face, plane).is_some_and(|t| t > 0);
            cost.tool_changes += u32::from(other);
        }
    }
    cost.tool_changes += bits.count_ones().saturating_sub(1);
    cost
}

/// What laying out the first item costs.
pub fn laying_out(scene: &Scene, within: u64, item: usize, face: Direction) -> Cost {
    let own = scene.masks[item];
    let stands = scene.stands(own, face);
    let before = (own & own.wrapping_neg()).wrapping_sub(1);
    Cost {
        helper_steps: u32::from(holding::unwieldy(scene, item)),
        holds: u32::from(!stands),
        minutes: 1 + u32::from(!stands),
        scatter: (within & !own & before).count_ones(),
        ..Cost::default()
    }
}

/// What each turn costs, whatever is turned.
pub const TURN: Cost = Cost {
    helper_steps: 0,
    by_feel: 0,
    handlings: 1,
    holds: 0,
    measured: 0,
    tool_changes: 0,
    minutes: 2,
    scatter: 0,
    turns: 1,
    lifted: 0,
};

/// What a turn costs, driving what it lets the tools reach included.
pub fn turning(scene: &Scene, set: u64, closes: u64, face: Direction) -> Cost {
    let helper_steps = u32::from(scene.mass(set) > TURN_ALONE);
    let cost = Cost { helper_steps, ..TURN };
    cost.plus(driving(scene, closes, set, face))
}
