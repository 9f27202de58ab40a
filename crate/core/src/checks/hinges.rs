//! Hinges: are there enough of them for a door's mass and height?

use crate::assembly::Role;
use crate::assembly::hinges::{MOST_G, usual};
use crate::findings::{JobStage, Severity};

use super::facts::Facts;
use super::row::{CheckRow, Said, Theme};

const USUAL: &str = "2 hinges up to 6 kg, 3 to 12, 4 to 17, 5 to 22, for doors up to 600 mm wide: from memory, not seen; 2 up to 900 mm of height and one more for each 500 mm: common practice, no source; the hinge's own sheet comes first";

pub fn check(f: &Facts, said: &mut Said) {
    for door in f.with_role(Role::Door) {
        let hinges = hinges_of(f, door);
        if hinges > 0 {
            judge(f, door, hinges, said);
        }
    }
}

/// How many hinges are screwed to a door.
fn hinges_of(f: &Facts, door: usize) -> usize {
    let id = &f.part(door).id;
    let joined = f.plan.joints.iter().filter(|j| j.parts.contains(id));
    let others = joined.filter_map(|j| f.ends(j)).flatten();
    others.filter(|&i| f.part(i).role == Role::Hinge).count()
}

fn judge(f: &Facts, door: usize, hinges: usize, said: &mut Said) {
    let (part, tall) = (f.part(door), f.bounds[door].extent(2));
    let wanted = usual(part.mass_g, tall).map(usize::from);
    let most = || format!("a door of at most {}", f.mass(MOST_G));
    let place = format!("part {}", part.id);
    let row = CheckRow::new("hinge-count", Theme::Fronts, JobStage::Size, place)
        .says(
            format!("Has the {} enough hinges?", part.name),
            "the more of what its mass and its height ask for",
            USUAL,
        )
        .with("mass", f.mass(part.mass_g))
        .with("height", f.length(tall))
        .gives(format!("{hinges} hinges"), wanted.map_or_else(most, |n| format!("at least {n}")));
    let enough = wanted.is_some_and(|n| hinges >= n);
    said.judge(row, enough, Severity::Caution, || {
        let [weighs, high] = [f.mass(part.mass_g), f.length(tall)];
        let message = format!(
            "The {} weighs {weighs} and is {high} tall: {hinges} hinges are few for that.",
            part.name
        );
        let hint = match wanted {
            Some(n) => format!("Give it {n} hinges (`build.doors.hinges`), or cut it from a lighter or thinner sheet."),
            None => format!("No number of them is enough above {}: make two leaves of it (`build.doors.count`), or cut it from a lighter or thinner sheet.", f.mass(MOST_G)),
        };
        [message, hint]
    });
}
