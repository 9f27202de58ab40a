//! What slides out: load on the runners, how far it hangs out, air over the contents.

use crate::assembly::Role;
use crate::findings::{JobStage, Severity};

use super::facts::{Facts, Moves, Set};
use super::num::{self, GRAVITY};
use super::row::{CheckRow, Said, Theme};

/// Classes of runners by the load they are tested with: 50 lb residential, 75 commercial, 100 heavy.
const CLASSES: [(i64, &str); 3] =
    [(22_680, "50 lb (23 kg)"), (34_019, "75 lb (34 kg)"), (45_359, "100 lb (45 kg)")];

const LOAD: &str = "classes of 50, 75 and 100 lb: Architectural Woodwork Standards, 1st ed. 2009, appendix B (read); a runner's class is gross, so the box counts; no rating: read your runner's sheet";
const HANGS: &str = "worked out; full extension assumed: the whole box comes out";
const AIR: &str = "common practice, no source: 1/4 in of air over what slides out under a rail";

pub fn check(f: &Facts, said: &mut Said) {
    let sliding: Vec<&Set> = f.sets.iter().filter(|s| s.moves == Moves::Slides).collect();
    for set in sliding {
        let own = f.weigh(set.parts.iter().copied()).mass_g;
        let load = if set.parts.iter().any(|&i| f.part(i).role == Role::BoxBottom) {
            f.load_of_a_box()
        } else {
            0
        };
        let Some(first) = set.parts.first() else { continue };
        let body = f.part(*first).group.clone();
        let name = f.plan.name_of(&body).to_owned();
        let place = format!("body {body}");
        let gross = own + load;
        let needs = CLASSES.iter().find(|c| c.0 >= gross);
        let row = CheckRow::new("runner-load", Theme::PullOut, JobStage::Size, place.clone())
            .says(
                format!("What do the runners of the {name} carry?"),
                "box with its front + contents, on one pair",
                LOAD,
            )
            .with("box with its front", f.mass(own))
            .with("contents", f.mass(load))
            .gives(
                format!(
                    "{}: {}",
                    f.mass(gross),
                    needs.map_or("more than any common class".to_owned(), |c| format!(
                        "a pair of the class {} or more",
                        c.1
                    ))
                ),
                format!("up to {}", f.mass(CLASSES[2].0)),
            );
        said.judge(row, needs.is_some(), Severity::Caution, || {
            [
                format!(
                    "The {name} weighs {} loaded, more than common runners are made for.",
                    f.mass(gross)
                ),
                format!(
                    "Put {} in at most, or share it between two boxes.",
                    f.mass((CLASSES[2].0 - own).max(0))
                ),
            ]
        });
        hangs(f, set, &name, &place, gross, said);
        above(f, set, &name, &place, said);
    }
}

/// The moment of what hangs out, about the front edges.
fn hangs(f: &Facts, set: &Set, name: &str, place: &str, gross: i64, said: &mut Said) {
    let (Some(out), Some(b)) = (extension(f, set), f.around(set.parts.iter().copied())) else {
        return;
    };
    let middle = (b.min[1] + b.max[1]) / 2 - out;
    let front = f.around(f.standing()).map_or(0, |s| s.min[1]);
    let before = front - middle;
    // g um mm/s² to hundredths of a newton-metre.
    let moment = num::div(i128::from(gross) * i128::from(before) * GRAVITY, 10_000_000_000);
    let row = CheckRow::new("runner-overhang", Theme::PullOut, JobStage::Size, place)
        .says(
            format!("How much does the {name} pull on its runners, full out?"),
            "mass × 9.81 × distance of its middle before the front edges",
            HANGS,
        )
        .with("out by", f.length(out))
        .with("mass", f.mass(gross))
        .with("middle before the front", f.length(before))
        .gives(format!("{} N·m", num::decimal(moment, 100, 1)), "");
    said.tell(row);
}

/// How far a box comes out: its whole depth behind the front.
pub fn extension(f: &Facts, set: &Set) -> Option<i64> {
    let shown = [Role::Front, Role::FalseFront, Role::Backing];
    let box_parts = set.parts.iter().copied().filter(|&i| !shown.contains(&f.part(i).role));
    f.around(box_parts).map(|b| b.extent(1))
}

/// Air between the contents and what they pass under.
fn above(f: &Facts, set: &Set, name: &str, place: &str, said: &mut Said) {
    let bottom = set.parts.iter().copied().find(|&i| f.part(i).role == Role::BoxBottom);
    let (Some(bottom), Some(cabinet)) = (bottom, f.cabinet()) else { return };
    let Some(tall) = cabinet.contents.iter().map(|c| c.height.get()).max() else { return };
    if f.boxes().count() != 1 {
        return;
    }
    let floor = f.bounds[bottom].max[2];
    let b = &f.bounds[bottom];
    let over = f
        .standing()
        .map(|i| &f.bounds[i])
        // What stands behind the box is not in its way out.
        .filter(|o| o.min[2] >= floor && o.overlap(b, 0) > 0 && o.min[1] < b.max[1])
        .map(|o| o.min[2])
        .min();
    let Some(over) = over else { return };
    let air = over - floor - tall;
    const LEAST: i64 = 6_000;
    let row = CheckRow::new("bin-air", Theme::PullOut, JobStage::Size, place)
        .says(
            format!("Do the contents of the {name} pass under the rail?"),
            "underside of the rail − bottom of the box − height of the tallest",
            AIR,
        )
        .with("room above the bottom", f.length(over - floor))
        .with("tallest", f.length(tall))
        .gives(f.length(air), format!("at least {}", f.length(LEAST)));
    said.judge(row, air >= LEAST, Severity::Caution, || {
        [
            format!(
                "The tallest of the contents passes under the rail with {} of air.",
                f.length(air)
            ),
            format!(
                "Choose what is {} high at most, or a higher carcass.",
                f.length(over - floor - LEAST)
            ),
        ]
    });
}
