//! A clamp as simple solids: two jaws, the screw behind one of them, the bar, and the two arms that
//! hold jaw and screw to the bar. The arms are drawn for the eye alone: the plan's room is that of
//! jaws, screw and bar.

use crate::geometry::Box3;
use crate::plan::{Action, ClampPlace, Step};

/// A jaw longer than this, along the bar, has its screw in it. Micrometres, as all here.
const JAW: i64 = 20_000;
/// Thickness of the arms along the bar.
const ARM: i64 = 12_000;

/// Since when a clamp is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// Put on in this step.
    Now,
    /// Put on before, and left on.
    Before,
    /// Put on before; it comes off in this step.
    Off,
}

/// The clamps that are seen in the step at place `at`, those put on first in front.
pub fn seen(steps: &[Step], at: usize) -> Vec<(&ClampPlace, Since)> {
    let Some(step) = steps.get(at) else { return Vec::new() };
    let mut left_on: Vec<&ClampPlace> = Vec::new();
    for earlier in steps.iter().take(at).filter(|s| s.body == step.body) {
        if earlier.action == Action::Unclamp {
            left_on.clear();
        }
        left_on.extend(&earlier.clamps);
    }
    let since = if step.action == Action::Unclamp { Since::Off } else { Since::Before };
    let now = step.clamps.iter().chain(step.hold.iter().filter_map(|h| h.clamp.as_ref()));
    left_on.into_iter().map(|c| (c, since)).chain(now.map(|c| (c, Since::Now))).collect()
}

/// The clamp's solids, apart from each other; those that are no boxes are left out.
pub fn solids(clamp: &ClampPlace) -> Vec<Box3> {
    let mut found = vec![clamp.bar];
    let [low, high] = &clamp.jaws;
    let before = |a: &Box3, b: &Box3, k: usize| a.max[k] <= b.min[k];
    let apart = |a: &Box3, b: &Box3| (0..3).find(|&k| before(a, b, k) || before(b, a, k));
    match apart(low, high) {
        Some(along) => {
            for (jaw, other) in [(low, high), (high, low)] {
                found.extend(end(jaw, before(other, jaw, along), along, &clamp.bar));
            }
        }
        None => found.extend(clamp.jaws),
    }
    found.retain(Box3::is_valid);
    found
}

/// One end of the clamp: the jaw, its screw if it has one, and the arm to the bar. `up` says that
/// its back looks towards growing coordinates.
fn end(jaw: &Box3, up: bool, along: usize, bar: &Box3) -> Vec<Box3> {
    let back = if up { jaw.max[along] } else { jaw.min[along] };
    // Cut at `depth` from the face or the back: what is in front, what is behind.
    let cut = |b: &Box3, at: i64, behind: bool| {
        let mut b = *b;
        if up == behind {
            b.min[along] = at.max(b.min[along]);
        } else {
            b.max[along] = at.min(b.max[along]);
        }
        b
    };
    let face = if up { jaw.min[along] } else { jaw.max[along] };
    let inwards = |at: i64, by: i64| if up { at.saturating_sub(by) } else { at.saturating_add(by) };
    let pad = cut(jaw, inwards(face, -JAW), false);
    let mut screw = cut(jaw, inwards(face, -JAW), true);
    for k in (0..3).filter(|&k| k != along) {
        let third = jaw.max[k].saturating_sub(jaw.min[k]) / 3;
        screw.min[k] = screw.min[k].saturating_add(third);
        screw.max[k] = screw.max[k].saturating_sub(third);
    }
    let held = if screw.is_valid() { screw } else { pad };
    let mut arm = cut(&held, inwards(back, ARM), true);
    let beside = |k: usize| bar.max[k] <= held.min[k] || held.max[k] <= bar.min[k];
    match (0..3).find(|&k| k != along && beside(k)) {
        Some(k) if bar.max[k] <= held.min[k] => {
            (arm.min[k], arm.max[k]) = (bar.max[k], held.min[k]);
        }
        Some(k) => (arm.min[k], arm.max[k]) = (held.max[k], bar.min[k]),
        // It touches the bar already.
        None => arm.max = arm.min,
    }
    vec![pad, screw, arm]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    #[test]
    fn jaws_screw_bar_and_arms_lie_apart_and_inside_the_clamps_own_room() {
        let clamp = sample::clamp();
        let all = solids(&clamp);
        assert_eq!(all.len(), 6, "bar, two jaws, two arms, one screw: {all:?}");
        let room = clamp.jaws[0].union(&clamp.jaws[1]).union(&clamp.bar);
        for (i, a) in all.iter().enumerate() {
            assert!(a.is_valid() && a.union(&room) == room, "{a:?}");
            assert!(all.iter().skip(i + 1).all(|b| !a.intersects(b)), "{a:?}");
        }
    }

    #[test]
    fn the_jaws_face_each_other_at_the_opening() {
        for turned in [false, true] {
            let mut clamp = sample::clamp();
            if turned {
                clamp.jaws.reverse();
            }
            let all = solids(&clamp);
            let (lowest, highest) = (0, 500_000);
            assert!(all.iter().any(|b| b.max[0] == lowest && b.extent(0) == JAW));
            assert!(all.iter().any(|b| b.min[0] == highest && b.extent(0) == JAW));
        }
    }

    #[test]
    fn wild_clamps_are_drawn_as_far_as_they_are_boxes() {
        let far = Box3::new([i64::MIN; 3], [i64::MAX; 3]);
        let flat = Box3::new([0; 3], [0; 3]);
        for (a, b) in [(far, far), (far, flat), (flat, flat)] {
            let mut clamp = sample::clamp();
            (clamp.jaws, clamp.bar) = ([a, b], a);
            assert!(solids(&clamp).iter().all(Box3::is_valid));
        }
    }

    #[test]
    fn a_clamp_is_seen_until_it_comes_off_and_only_with_its_body() {
        let plan = sample::clamped();
        let since = |n: usize| -> Vec<Since> {
            seen(&plan.steps, n - 1).into_iter().map(|(_, since)| since).collect()
        };
        assert_eq!(since(2), [Since::Now]);
        assert_eq!(since(3), [Since::Now]);
        assert_eq!(since(4), [Since::Before]);
        assert_eq!(since(5), [Since::Off]);
        assert!(since(6).is_empty() && since(99).is_empty());
    }
}
