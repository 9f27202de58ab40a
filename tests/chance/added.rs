//! What is done to parts in their places: some are let into others, some carry hardware.

use jointwise::assembly::Kind;
use jointwise::geometry::{Box3, Solid};

use super::shape::{Channel, Draft};
use crate::dice::Dice;

const MM: i64 = 1000;

/// Lets some parts that end at the face of another into it, in a channel as long as the part or
/// through to both ends.
pub fn let_in(dice: &mut Dice, draft: &mut Draft) {
    let count = draft.parts.len();
    for inner in 0..count {
        for outer in 0..count {
            let contacts = Solid::new(draft.parts[inner].outer)
                .contacts(&Solid::new(draft.parts[outer].outer));
            let [contact] = contacts[..] else { continue };
            let (way, axis) = (contact.direction, contact.direction.axis());
            let (own, host) = (draft.parts[inner].outer, draft.parts[outer].outer);
            let panel = |b: &Box3| (0..3).all(|a| b.extent(axis) <= b.extent(a));
            // An end or an edge against a broad face.
            if !panel(&host) || panel(&own) || host.extent(axis) > 40 * MM || !dice.once_in(4) {
                continue;
            }
            let depth = host.extent(axis) / 3;
            let mut longer = own;
            if way.is_positive() {
                longer.max[axis] += depth;
            } else {
                longer.min[axis] -= depth;
            }
            let mut cut = longer;
            let run = (0..3).filter(|&a| a != axis).max_by_key(|&a| own.extent(a)).unwrap_or(0);
            if dice.once_in(2) {
                cut.min[run] = cut.min[run].min(host.min[run]);
                cut.max[run] = cut.max[run].max(host.max[run]);
            }
            let known = draft.channels.iter().any(|c| c.0 == inner || c.1 == inner);
            if known || !draft.is_free(&longer, &[inner, outer]) {
                continue;
            }
            draft.parts[inner].outer = longer;
            draft.parts[inner].solid = Solid::new(longer);
            draft.parts[outer].solid.cut(&cut);
            let kind = if dice.once_in(3) { Channel::Groove } else { Channel::Dado };
            draft.channels.push((inner, outer, kind));
        }
    }
}

/// A small bought part on the broad face of a panel.
pub fn hardware(dice: &mut Dice, draft: &mut Draft) {
    let last = draft.parts.len() as i64 - 1;
    let host = usize::try_from(dice.between(0, last)).unwrap_or(0);
    let on = draft.parts[host].outer;
    let axis = (0..3).min_by_key(|&a| on.extent(a)).unwrap_or(0);
    if draft.parts[host].kind == Kind::Hardware || on.extent(axis) < 12 * MM {
        return;
    }
    let mut size = [30 * MM; 3];
    size[axis] = dice.between(8, 15) * MM;
    let along = (axis + if dice.once_in(2) { 1 } else { 2 }) % 3;
    size[along] = dice.between(80, 400) * MM;
    let mut b = on;
    for (a, own) in size.into_iter().enumerate() {
        let room = on.extent(a) - own;
        if a != axis && room < 0 {
            return;
        }
        let high = dice.once_in(2);
        b.min[a] = match (a == axis, high) {
            (true, true) => on.max[a],
            (true, false) => on.min[a] - own,
            (false, _) => on.min[a] + dice.between(0, room),
        };
        b.max[a] = b.min[a] + own;
    }
    if draft.is_free(&b, &[]) {
        draft.add(b);
        if let Some(new) = draft.parts.last_mut() {
            new.kind = Kind::Hardware;
            new.host = Some(host);
        }
    }
}
