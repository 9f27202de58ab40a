//! What to say when there is no order, and the smallest change with which there is one.

use crate::assembly::Assembly;
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::plan::Workshop;
use crate::units::{Length, Notation};

use super::obstacle::{NoOrder, NoTurn, Obstacle};
use super::obstacle_words::{both, name, numbers, sentence};
use super::planned;
use super::words;
use crate::wishes::Wishes;

/// States that each try may expand.
const LONGEST: u64 = 20_000;

/// What an order is asked for.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The assembly.
    pub assembly: &'a Assembly,
    /// Tools and room.
    pub workshop: &'a Workshop,
    /// What the maker has decided.
    pub wishes: &'a Wishes,
    /// How lengths are printed.
    pub notation: Notation,
}

/// A change to what was asked, in words that follow on "It works".
struct Change {
    assembly: Assembly,
    workshop: Workshop,
    wishes: Wishes,
    says: String,
}

/// The finding that says why there is no order, with the nearest change that works as its cure.
pub fn finding(asked: Asked, why: &NoOrder) -> Finding {
    let Asked { assembly, .. } = asked;
    let name = assembly.body_name(&why.body);
    let said: Vec<String> = why.obstacles.iter().take(3).map(|o| sentence(asked, o)).collect();
    let (code, message) = if why.complete {
        ("no-order", format!("No order builds the {name}. {}", said.join(" ")))
    } else {
        (
            "no-order-found",
            format!(
                "No order for the {name} was found in {} states. {}",
                why.states,
                said.join(" ")
            ),
        )
    };
    let works = changes(asked, why)
        .into_iter()
        .find(|c| planned::plan(&c.assembly, &c.workshop, &c.wishes, LONGEST).is_ok());
    let hint = works.map_or_else(
        || {
            "Neither a helper, a shorter driver, the floor as bench, higher bearers, clamps, slower \
             glue, a moved screw nor leaving one part off makes it possible: change the joints of \
             the parts named."
                .to_owned()
        },
        |c| format!("It works {}.", c.says),
    );
    let mut finding =
        Finding::new(Severity::Stop, code, format!("body {}", why.body), message, hint);
    if let Some(first) = why.obstacles.first() {
        for (key, value) in numbers(assembly, first) {
            finding = finding.number(key, value);
        }
    }
    finding
}

/// Changes worth trying, the smallest first.
fn changes(asked: Asked, why: &NoOrder) -> Vec<Change> {
    let Asked { assembly, workshop, wishes, notation } = asked;
    let same = || Change {
        assembly: assembly.clone(),
        workshop: workshop.clone(),
        wishes: wishes.clone(),
        says: String::new(),
    };
    let mut all = Vec::new();
    let mut add = |says: &str, change: &dyn Fn(&mut Change)| {
        let mut changed = same();
        changed.says = says.to_owned();
        change(&mut changed);
        all.push(changed);
    };
    if wishes.alone {
        add("with a helper", &|c| c.wishes.alone = false);
    }
    if let Some(first) = &wishes.first {
        let first = assembly.index_of(first).map_or_else(String::new, |p| name(assembly, p));
        add(&format!("when it may start with another part than the {first}"), &|c| {
            c.wishes.first = None;
        });
    }
    // What is built into a room stays where it is.
    let in_room = workshop.person.is_some();
    if !wishes.lay_on.is_empty() && !in_room {
        for face in not_wished(why) {
            add(&format!("when it may lie on its {} too", words::onto(face)), &|c| {
                c.wishes.lay_on.push(face);
            });
        }
        add("when it may lie on other faces too", &|c| c.wishes.lay_on.clear());
    }
    if wishes.done.is_some() && !in_room {
        add("when what is done already is taken apart again", &|c| c.wishes.done = None);
    }
    let screws = |o: &Obstacle| matches!(o, Obstacle::ScrewOutOfReach { .. });
    if why.obstacles.iter().any(screws) {
        for less in [20_000, 40_000, 60_000, 80_000, 100_000, 120_000, 150_000, 180_000] {
            let length = workshop.drill_length - less;
            if length >= 50_000 {
                let says = format!(
                    "with a driver {} shorter than the drill",
                    notation.print(Length(less))
                );
                add(&says, &|c| {
                    c.workshop.drill_length = length;
                    c.workshop.bit_length = c.workshop.bit_length.min(length / 2);
                });
            }
        }
        add("with a right-angle driver of 60 × 40 mm", &|c| {
            c.workshop.drill_length = 60_000;
            c.workshop.bit_length = 25_000;
            c.workshop.drill_width = 40_000;
        });
        for bearers in [40_000, 100_000, 150_000] {
            if bearers > workshop.bearers {
                let says = format!("on bearers of {}", notation.print(Length(bearers)));
                add(&says, &|c| c.workshop.bearers = bearers);
            }
        }
        if workshop.bench_height > 0 {
            add("on the floor instead of the bench", &|c| c.workshop.bench_height = 0);
        }
        for o in &why.obstacles {
            let Obstacle::ScrewOutOfReach { joint, screw, .. } = *o else { continue };
            for by in [-10, 10, -20, 20, -30, 30] {
                if let Some(moved) = moved_screw(assembly, joint, screw, by * 1000) {
                    let says = format!(
                        "when one screw of {} is moved by {}",
                        both(assembly, joint),
                        notation.print(Length(by.abs() * 1000))
                    );
                    add(&says, &|c| c.assembly = moved.clone());
                }
            }
        }
    }
    for o in &why.obstacles {
        match o {
            Obstacle::NoClamp { opening, .. } => {
                let says = format!(
                    "with more clamps that open {} or a little further",
                    notation.print(Length(*opening))
                );
                add(&says, &|c| c.workshop.clamps.extend([opening + 50_000; 4]));
            }
            Obstacle::GlueWaits { minutes, .. } => {
                add(&format!("with a glue that waits {minutes} minutes"), &|c| {
                    c.workshop.glue.closed = *minutes;
                });
            }
            _ => {}
        }
    }
    for part in named(why) {
        let without = without(assembly, part);
        let says = format!("when the {} is left off, or made in two pieces", name(assembly, part));
        add(&says, &|c| c.assembly = without.clone());
    }
    all
}

/// The faces that would help and are not wished, each once.
fn not_wished(why: &NoOrder) -> Vec<Direction> {
    let face = |o: &Obstacle| match o {
        Obstacle::ScrewsNotWished { face, .. }
        | Obstacle::CannotTurn { face, why: NoTurn::NotWished, .. } => Some(*face),
        _ => None,
    };
    let mut faces: Vec<Direction> = why.obstacles.iter().filter_map(face).collect();
    faces.sort_unstable();
    faces.dedup();
    faces
}

/// Parts that the obstacles name, each once: what does not go in, then what blocks it.
fn named(why: &NoOrder) -> Vec<usize> {
    let mut all: Vec<usize> = Vec::new();
    for o in &why.obstacles {
        if let Obstacle::NoWayIn { part, .. } | Obstacle::NothingKeeps { part } = o {
            all.push(*part);
        }
    }
    for o in &why.obstacles {
        if let Obstacle::NoWayIn { blockers, .. } | Obstacle::ScrewOutOfReach { blockers, .. } = o {
            all.extend(blockers);
        }
    }
    let mut once: Vec<usize> = Vec::new();
    for p in all {
        if !once.contains(&p) {
            once.push(p);
        }
    }
    once.truncate(6);
    once
}

/// The assembly with one screw moved along the joint, if it still sits in both parts there.
fn moved_screw(assembly: &Assembly, joint: usize, screw: usize, by: i64) -> Option<Assembly> {
    let mut moved = assembly.clone();
    let [a, b] = moved.joints[joint].parts;
    let contacts = assembly.parts[a].solid.contacts(&assembly.parts[b].solid);
    let screw = moved.joints[joint].fasteners.get_mut(screw)?;
    let axis = screw.direction.axis();
    let face =
        contacts.iter().filter(|c| c.direction.axis() == axis).max_by_key(|c| c.area())?.face;
    let long = (0..3).filter(|&x| x != axis).max_by_key(|&x| face.extent(x))?;
    screw.entry[long] += by;
    let gauge_room = 5_000;
    let inside = face.min[long] + gauge_room <= screw.entry[long]
        && screw.entry[long] <= face.max[long] - gauge_room;
    inside.then_some(moved)
}

/// The assembly without one part.
fn without(assembly: &Assembly, part: usize) -> Assembly {
    let mut rest = assembly.clone();
    let id = rest.parts.remove(part).id;
    rest.joints.retain(|j| !j.parts.contains(&part));
    for joint in &mut rest.joints {
        joint.parts = joint.parts.map(|p| if p > part { p - 1 } else { p });
    }
    for p in &mut rest.parts {
        p.set_against.retain(|other| *other != id);
    }
    rest
}
