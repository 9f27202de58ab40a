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
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holding {
    /// How the new part lies.
    pub rest: Rest,
    /// Whether the body itself would tip.
    pub body_tips: bool,
    /// What holds the part, if it needs holding.
    pub part_with: Option<HoldWith>,
    /// What holds the body, if it needs holding.
    pub body_with: Option<HoldWith>,
}

impl Holding {
    /// How many things are held.
    pub fn count(&self) -> u32 {
        u32::from(self.part_with.is_some()) + u32::from(self.body_with.is_some())
    }

    /// Whether a second person is needed.
    pub fn helper(&self) -> bool {
        [self.part_with, self.body_with].contains(&Some(HoldWith::Helper))
    }

    /// Clamps used.
    pub fn clamps(&self) -> u32 {
        [self.part_with, self.body_with].iter().filter(|w| **w == Some(HoldWith::Clamp)).count()
            as u32
    }
}

/// How `item` lies when `set` is on the bench on `face`, before anything holds it to the set.
pub fn rest(scene: &Scene, item: usize, set: u64, face: Direction) -> Rest {
    let plane = scene.plane(set | 1 << item, face);
    let mut carried: Vec<Box3> = scene.footprint(1 << item, face, plane);
    // Tipping is judged about the lowest thing that carries it: the safe side.
    let mut level = if carried.is_empty() { i64::MIN } else { plane };
    for other in members(set & !(1 << item)) {
        for contact in &scene.contacts[item][other] {
            if contact.direction == face {
                carried.push(contact.face);
                level = level.max(contact.face.min[face.axis()] * face.sign());
            }
        }
    }
    if carried.is_empty() {
        return Rest::Lifted;
    }
    let centre = scene.centre(1 << item);
    if stability::stands(centre, &carried, face, level * face.sign()) {
        Rest::Stands
    } else {
        let flat = stability::flat_axes(face);
        // Carried at one end only, it would drop: that is holding it in the air, not steadying it.
        let over = |a: usize| {
            let low = carried.iter().map(|b| b.min[a]).min().unwrap_or(0);
            let high = carried.iter().map(|b| b.max[a]).max().unwrap_or(0);
            low <= centre[a] && centre[a] <= high
        };
        if flat.into_iter().all(over) { Rest::Tips } else { Rest::Lifted }
    }
}

/// Clear span of a clamp that presses `item` against what it joins: the extent of both along the
/// axis of their largest contact.
fn span(scene: &Scene, item: usize, set: u64) -> Option<i64> {
    let own = &scene.items[item];
    members(scene.links_of(item, set))
        .filter_map(|l| {
            let other = scene.links[l].items.into_iter().find(|&i| i != item)?;
            let contacts = &scene.contacts[item][other];
            let largest =
                contacts.iter().max_by_key(|c| (c.area(), std::cmp::Reverse(c.direction)))?;
            let axis = largest.direction.axis();
            Some(own.bounds.union(&scene.items[other].bounds).extent(axis))
        })
        .min()
}

/// Decides what holds what: a clamp that reaches, then one hand while the other drives, then a
/// helper. Two things to hold take one clamp and one hand, or a helper.
pub fn decide(scene: &Scene, item: usize, set: u64, face: Direction) -> Holding {
    let rest = rest(scene, item, set, face);
    let body_tips = set != 0 && !scene.stands(set, face);
    let mut holding = Holding { rest, body_tips, part_with: None, body_with: None };
    let clamp = set != 0
        && span(scene, item, set)
            .is_some_and(|s| scene.workshop.clamps.iter().any(|&opening| opening >= s));
    let mut hands = 1;
    let mut take = |can_clamp: bool| {
        if can_clamp {
            HoldWith::Clamp
        } else if hands > 0 {
            hands -= 1;
            HoldWith::Hand
        } else {
            HoldWith::Helper
        }
    };
    if body_tips {
        holding.body_with = Some(take(false));
    }
    if rest != Rest::Stands {
        // A clamp takes two hands to put on: it helps where the part rests on something meanwhile.
        holding.part_with = Some(take(clamp && (rest == Rest::Tips || body_tips)));
    }
    holding
}
