//! Assemblies made by chance: box-shaped parts joined face to face, with screws, glue, channels and
//! slides, and a shop to build them in. They are sound (`assembly::check` finds nothing) and nobody
//! has designed them, so they ask of the planner what no cabinet does.
//!
//! One module a question: [`shape`] where the parts are; [`added`] channels and hardware; [`joinery`]
//! how they meet; [`shop`] with what they are built; [`plan`] the file that comes of it.

pub mod added;
pub mod joinery;
pub mod plan;
pub mod shape;
pub mod shop;

use jointwise::assembly::{Assembly, check};
use jointwise::plan::Workshop;

use crate::dice::Dice;

/// The assembly of a seed, of exactly so many parts (2 to 14), and the shop it is built in. The same
/// seed and number give the same on every machine.
///
/// What is thrown is not always sound: it is thrown again until it is.
pub fn assembly(seed: u64, parts: usize) -> (Assembly, Workshop) {
    let mut dice = Dice::new(seed.wrapping_mul(32) + parts as u64);
    loop {
        let draft = shape::draft(&mut dice, parts);
        if draft.parts.len() != parts {
            continue;
        }
        let Some(made) = joinery::join(&draft, &mut dice) else { continue };
        if check::check(&made).is_empty() {
            return (made, shop::workshop(&mut dice));
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use jointwise::assembly::{JointKind, Kind};

    use super::*;

    /// What the samples are for must be in them: a kind that never comes is never tried.
    #[test]
    fn every_kind_of_joint_and_fastening_comes() {
        let mut seen: BTreeMap<String, u32> = BTreeMap::new();
        for seed in 0..300 {
            let parts = 2 + usize::try_from(seed % 13).unwrap();
            let (a, w) = assembly(seed, parts);
            assert_eq!(a.parts.len(), parts);
            let mut note = |what: &str| *seen.entry(what.to_owned()).or_default() += 1;
            for j in &a.joints {
                note(&format!("{:?}", j.kind));
                if !matches!(j.kind, JointKind::Groove | JointKind::Slide | JointKind::Touch) {
                    note(&format!("glue {}, screws {}", j.glue, !j.fasteners.is_empty()));
                }
                j.fasteners.iter().for_each(|f| note(&format!("gauge {}", f.gauge)));
            }
            for p in &a.parts {
                if p.kind == Kind::Hardware {
                    note("hardware");
                }
                if !p.set_against.is_empty() {
                    note("set against");
                }
                if p.group != "main" {
                    note("other body");
                }
                if p.solid.boxes().len() > 1 {
                    note("cut");
                }
            }
            note(&format!("{} tools", w.tools.len()));
            note(&format!("{} clamps", w.clamps.len()));
            note(&format!("bearers {}", w.bearers));
        }
        let kinds = ["Butt", "Dado", "Groove", "Overlay", "Slide", "Touch"];
        let held = [(true, true), (true, false), (false, true), (false, false)]
            .map(|(glue, screws)| format!("glue {glue}, screws {screws}"));
        let mut wanted: Vec<String> = kinds.map(str::to_owned).to_vec();
        wanted.extend(held);
        wanted.extend(["hardware", "set against", "other body", "cut"].map(str::to_owned));
        wanted.extend((0..=2).map(|n| format!("{n} tools")));
        wanted.extend((0..=3).map(|n| format!("{n} clamps")));
        wanted.extend(["bearers 0", "bearers 40000"].map(str::to_owned));
        for what in wanted {
            let times = seen.get(&what).copied().unwrap_or(0);
            assert!(times >= 10, "{what}: {times} times in {seen:#?}");
        }
    }

    #[test]
    fn the_same_seed_gives_the_same() {
        for seed in [0, 7, 99] {
            assert_eq!(assembly(seed, 6), assembly(seed, 6));
        }
        assert_ne!(assembly(1, 6).0, assembly(2, 6).0);
    }
}
