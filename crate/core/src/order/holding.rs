//! What must be held while a part is fastened, and by what.

use crate::geometry::{Box3, Direction};
use crate::plan::HoldWith;

use super::scene::{Scene, members};
use super::stability;

/// How a part lies before it is fastened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// On the bench or on the body, by itself.
    Stands,
    /// On the bench or the body, but it would tip.
    Tips,
    /// On nothing: it is held in the air.
    Lifted,
}

/// Who and what holds during one placing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Holding {
    /// How the new part lies.
    pub rest: Rest,
    /// Whether the body itself would tip.
    pub body_tips: bool,
    /// What holds the part, if it needs holding.
    pub part_with: Option<HoldWith>,
    /// What holds the body, if it needs holding.
    pub body_with: Option<HoldWith>,
    /// The clamp that holds the part: the link over which it goes, and which of that link's places.
    pub clamp: Option<(usize, usize)>,
    /// Whether the part is too heavy or too long for one person.
    pub unwieldy: bool,
}

/// Mass that one person places, in grams: the load constant of the revised lifting equation (DHHS
/// (NIOSH) 94-110). Not a lifting assessment.
pub const PLACE_ALONE: i64 = 23_000;

/// Length that one person places: the span of two arms, common practice, no source.
pub const SPAN_ALONE: i64 = 1_800_000;

/// Whether an item is too heavy or too long for one person.
pub fn unwieldy(scene: &Scene, item: usize) -> bool {
    takes_two(scene.items[item].mass, &scene.items[item].bounds)
}

/// Whether something of that mass in grams, with that least box around it, is too heavy or too long for
/// one person.
pub fn takes_two(mass: i64, bounds: &Box3) -> bool {
    mass > PLACE_ALONE || (0..3).any(|a| bounds.extent(a) > SPAN_ALONE)
}

impl Holding {
    /// How many things are held.
    pub fn count(&self) -> u32 {
        u32::from(self.part_with.is_some()) + u32::from(self.body_with.is_some())
    }

    /// Whether a second person is needed.
    pub fn helper(&self) -> bool {
        self.unwieldy || [self.part_with, self.body_with].contains(&Some(HoldWith::Helper))
    }

    /// Clamps used.
    pub fn clamps(&self) -> u32 {
        [self.part_with, self.body_with].iter().filter(|w| **w == Some(HoldWith::Clamp)).count()
            as u32
    }
}

/// The own items that are.
pub fn all_unwieldy(scene: &Scene) -> u64 {
    (0..scene.basics).filter(|&i| unwieldy(scene, i)).fold(0, |mask, i| mask | 1 << i)
}

/// How `item` lies on `face` among the items `near` it, on the bench or not, before anything holds it
/// to them.
pub fn rest(scene: &Scene, item: usize, near: u64, lies: bool, face: Direction) -> Rest {
    let own = scene.masks[item];
    let mut carried: Vec<Box3> = if lies { scene.underside(item, face) } else { Vec::new() };
    // Tipping is judged about the lowest thing that carries it: the safe side.
    let mut level = if lies { scene.reach[item][face.index()] } else { i64::MIN };
    for other in members(near & !own) {
        for contact in scene.contacts(item, other) {
            if contact.direction == face {
                carried.push(contact.face);
                level = level.max(contact.face.min[face.axis()] * face.sign());
            }
        }
    }
    if carried.is_empty() {
        return Rest::Lifted;
    }
    let centre = scene.centre(own);
    if stability::stands(centre, &carried, face, level * face.sign()) {
        Rest::Stands
    } else {
        // Carried at one end only, it would drop: that is holding it in the air, not steadying it.
        let weight = stability::Weight::at(centre);
        if stability::balanced(&weight, &carried, face) { Rest::Tips } else { Rest::Lifted }
    }
}

/// A place for a clamp, of those on hand, that presses `item` against something of the set.
fn clamp(
    scene: &Scene,
    item: usize,
    set: u64,
    face: Direction,
    clamps: &[i64],
) -> Option<(usize, usize)> {
    let there = set | scene.masks[item];
    let plane = scene.plane(there, face);
    let mut links: Vec<usize> = members(scene.links_of(item, set)).collect();
    links.sort_by_key(|&l| (scene.links[l].clamping.opening, l));
    links.into_iter().find_map(|l| {
        let clamping = &scene.links[l].clamping;
        clamps.iter().find(|&&c| c >= clamping.opening)?;
        Some((l, clamping.place(there, face, plane, scene.workshop)?))
    })
}

/// Decides what holds what: a clamp that has a place, then one hand while the other drives, then a
/// helper. `clamps` are those that no wet joint needs.
pub fn decide(scene: &Scene, item: usize, set: u64, face: Direction, clamps: &[i64]) -> Holding {
    let rest = scene.surroundings(item, set, face).rest;
    // Held as well when it would topple under the new item.
    let there = set | scene.masks[item];
    let body_tips = set != 0 && !(scene.stands(set, face) && scene.stands(there, face));
    let unwieldy = unwieldy(scene, item);
    let mut holding =
        Holding { rest, body_tips, part_with: None, body_with: None, clamp: None, unwieldy };
    let mut hands = 1;
    let mut hand = || {
        hands -= 1;
        if hands >= 0 { HoldWith::Hand } else { HoldWith::Helper }
    };
    if body_tips {
        holding.body_with = Some(hand());
    }
    if rest != Rest::Stands {
        // A clamp takes two hands to put on: it helps where the part rests on something meanwhile.
        if rest == Rest::Tips || body_tips {
            holding.clamp = clamp(scene, item, set, face, clamps);
        }
        // Held up in the air in a room, not over a bench: one hand takes only so much.
        let most = scene.workshop.person.map_or(i64::MAX, |p| p.hand_g);
        let heavy = rest == Rest::Lifted && scene.items[item].mass > most;
        holding.part_with = Some(match holding.clamp {
            Some(_) => HoldWith::Clamp,
            None if heavy => HoldWith::Helper,
            None => hand(),
        });
    }
    holding
}
