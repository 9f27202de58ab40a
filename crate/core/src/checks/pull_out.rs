//! What slides out: load on the runners, how far it hangs out, air over the contents, lifting them out.

use crate::assembly::Role;
use crate::findings::{JobStage, Severity};
use crate::geometry::Box3;
use crate::measure::Extension;
use crate::scenario::Runner;

use super::facts::{Facts, Moves, Set};
use super::num::{self, GRAVITY};
use super::row::{CheckRow, Said, Theme};

/// Classes of runners by the load they are tested with: 50 lb residential, 75 commercial, 100 heavy.
const CLASSES: [(i64, &str); 3] =
    [(22_680, "50 lb (23 kg)"), (34_019, "75 lb (34 kg)"), (45_359, "100 lb (45 kg)")];

const LOAD: &str = "classes of 50, 75 and 100 lb: Architectural Woodwork Standards, 1st ed. 2009, appendix B (read); a runner's class is gross, so the box counts; no rating: read your runner's sheet";
const SHEET: &str = "the number that you read on your runner's sheet; nothing is claimed of it here. A runner's load is gross, so the box counts: Architectural Woodwork Standards, 1st ed. 2009, appendix B (read)";
const HANGS: &str =
    "worked out; it comes out by the travel on your runner's sheet, else by the whole box";
const AIR: &str = "common practice, no source: 1/4 in of air over what slides out under a rail";
const OUT: &str = "worked out: what stands further back than the box comes out stays under what is above; standard extension leaves 4 to 6 in inside: Architectural Woodwork Standards, 1st ed. 2009, appendix B (read)";

/// A box or front that slides, with what it carries.
struct Pulled<'a> {
    set: &'a Set,
    name: String,
    place: String,
    /// What stands in it.
    load: i64,
}

pub fn check(f: &Facts, said: &mut Said) {
    for set in f.sets.iter().filter(|s| s.moves == Moves::Slides) {
        let Some(first) = set.parts.first() else { continue };
        let body = f.part(*first).group.clone();
        let bottom = set.parts.iter().any(|&i| f.part(i).role == Role::BoxBottom);
        let pulled = Pulled {
            set,
            name: f.plan.name_of(&body).to_owned(),
            place: format!("body {body}"),
            load: if bottom { f.load_of_a_box() } else { 0 },
        };
        carries(f, &pulled, said);
        hangs(f, &pulled, said);
        above(f, set, &pulled.name, &pulled.place, said);
        lift_out(f, &pulled, said);
    }
}

fn row(rule: &str, pulled: &Pulled) -> CheckRow {
    CheckRow::new(rule, Theme::PullOut, JobStage::Size, pulled.place.clone())
}

/// The runners of the boxes and their field, unless the piece is listed part by part.
fn runner<'a>(f: &Facts<'a>) -> Option<(&'a Runner, &'static str)> {
    let build = &f.cabinet()?.build;
    let field = if build.drawers.is_some() { "build.drawers.box" } else { "build.pull_out" };
    build.boxes().map(|b| (&b.runner, field))
}

/// The load on one pair: by the sheet where its number is given, else by the greatest common class.
fn carries(f: &Facts, pulled: &Pulled, said: &mut Said) {
    let (name, load) = (&pulled.name, pulled.load);
    let own = f.weigh(pulled.set.parts.iter().copied()).mass_g;
    let gross = own + load;
    let asked = format!("What do the runners of the {name} carry?");
    let row = row("runner-load", pulled)
        .with("box with its front", f.mass(own))
        .with("contents", f.mass(load));
    if let Some((rating, field)) = runner(f).and_then(|(r, at)| Some((r.rating_g?, at))) {
        let row = row
            .says(asked, "box with its front + contents, against one pair by its sheet", SHEET)
            .gives(f.mass(gross), format!("up to {}", f.mass(rating)));
        said.judge(row, gross <= rating, Severity::Fix, || {
            [
                format!(
                    "The {name} weighs {} loaded; your runner's sheet gives {} for a pair.",
                    f.mass(gross),
                    f.mass(rating)
                ),
                format!(
                    "Put {} in at most, share it between two boxes, or take runners whose sheet gives more and enter it (`{field}.runner.rating_kg`).",
                    f.mass((rating - own).max(0))
                ),
            ]
        });
        return;
    }
    let needs = CLASSES.iter().find(|c| c.0 >= gross);
    let class = needs.map_or("more than any common class".to_owned(), |c| {
        format!("a pair of the class {} or more", c.1)
    });
    let most = CLASSES[2].0;
    let row = row
        .says(asked, "box with its front + contents, on one pair", LOAD)
        .gives(format!("{}: {class}", f.mass(gross)), format!("up to {}", f.mass(most)));
    said.judge(row, needs.is_some(), Severity::Caution, || {
        [
            format!(
                "The {name} weighs {} loaded, more than common runners are made for.",
                f.mass(gross)
            ),
            format!(
                "Put {} in at most, or share it between two boxes.",
                f.mass((most - own).max(0))
            ),
        ]
    });
}

/// The moment of what hangs out, about the front edges: of the box where it balances, a heavy front
/// included, and of the contents in the middle of the box.
fn hangs(f: &Facts, pulled: &Pulled, said: &mut Said) {
    let set = pulled.set;
    let (Some(out), Some(b)) = (extension(f, set), behind_front(f, set)) else { return };
    let front = f.around(f.standing()).map_or(0, |s| s.min[1]);
    let own = f.weigh(set.parts.iter().copied());
    let moment: i128 = [(own.mass_g, own.centre()[1]), (pulled.load, (b.min[1] + b.max[1]) / 2)]
        .into_iter()
        .map(|(mass, middle)| i128::from(mass) * i128::from(front - middle + out))
        .sum();
    let gross = own.mass_g + pulled.load;
    // g um mm/s² to hundredths of a newton-metre.
    let hundredths = num::div(moment * GRAVITY, 10_000_000_000);
    let row = row("runner-overhang", pulled)
        .says(
            format!("How much does the {} pull on its runners, full out?", pulled.name),
            "Σ mass × 9.81 × distance before the front edges",
            HANGS,
        )
        .with("out by", f.length(out))
        .with("mass", f.mass(gross))
        .with("centre before the front", f.length(num::small(num::div(moment, i128::from(gross)))))
        .gives(format!("{} N·m", num::decimal(hundredths, 100, 1)), "");
    said.tell(row);
}

/// A box without what shows in front of it.
fn behind_front(f: &Facts, set: &Set) -> Option<Box3> {
    let shown = [Role::Front, Role::FalseFront, Role::Backing];
    f.around(set.parts.iter().copied().filter(|&i| !shown.contains(&f.part(i).role)))
}

/// How far a box comes out: by its runner's sheet, else its whole depth behind the front.
pub fn extension(f: &Facts, set: &Set) -> Option<i64> {
    let whole = behind_front(f, set)?.extent(1);
    let travel = runner(f).and_then(|(r, _)| r.travel);
    Some(travel.map_or(whole, |t| t.get()))
}

/// Whether the contents are clear of what is above when the box is out.
fn lift_out(f: &Facts, pulled: &Pulled, said: &mut Said) {
    let set = pulled.set;
    let wall =
        |role: Role| set.parts.iter().find(|&&i| f.part(i).role == role).map(|&i| &f.bounds[i]);
    let (Some(front), Some(back)) = (wall(Role::BoxFront), wall(Role::BoxBack)) else { return };
    let (Some(cabinet), Some(whole)) = (f.cabinet(), behind_front(f, set)) else { return };
    let (Some((_, field)), Some(out)) = (runner(f), extension(f, set)) else { return };
    if pulled.load == 0 || f.boxes().count() != 1 {
        return;
    }
    let inside = back.min[1] - front.max[1];
    let stays = (whole.extent(1) - out).max(0);
    let (clear, all) = Extension::Leaves(stays).clear(&cabinet.contents, inside);
    let row = row("lift-out", pulled)
        .says(
            format!("Do the contents of the {} lift straight out?", pulled.name),
            "how many stand before what stays inside",
            OUT,
        )
        .with("box inside, front to back", f.length(inside))
        .with("comes out by", f.length(out))
        .with("stays inside", f.length(stays))
        .gives(format!("{clear} of {all}"), format!("{all} of {all}"));
    said.judge(row, clear >= all, Severity::Caution, || {
        [
            format!(
                "Full out, {} of the {} stay under what is above: {clear} of {all} lift straight out.",
                f.length(stays),
                pulled.name
            ),
            format!(
                "Take runners that let all of it out, {} (`{field}.runner.travel`), or have nothing stand at the back.",
                f.length(whole.extent(1))
            ),
        ]
    });
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
