//! What stands in the way of an order, said in words and in facts by name.

use crate::assembly::Assembly;
use crate::geometry::Direction;
use crate::units::Length;

use super::cures::Asked;
use super::obstacle::{NoTurn, Obstacle};
use super::words;

/// What a part is called; nothing when there is no such part.
pub(super) fn name(assembly: &Assembly, part: usize) -> String {
    assembly.parts.get(part).map_or_else(String::new, |p| p.name.clone())
}

fn names(assembly: &Assembly, parts: &[usize]) -> String {
    let all: Vec<String> = parts.iter().map(|&p| format!("the {}", name(assembly, p))).collect();
    words::list(&all)
}

fn moving(direction: Direction) -> &'static str {
    match direction {
        Direction::Left => "left",
        Direction::Right => "right",
        Direction::Front => "forwards",
        Direction::Back => "backwards",
        Direction::Down => "down",
        Direction::Up => "up",
    }
}

/// The two parts of a joint.
pub(super) fn both(assembly: &Assembly, joint: usize) -> String {
    let [a, b] = assembly.joints[joint].parts.map(|p| name(assembly, p));
    format!("the {a} and the {b}")
}

/// The faces that the maker lets the piece lie on.
fn wished(asked: Asked) -> String {
    let Asked { assembly, wishes, .. } = asked;
    let on = |f: &Direction| wishes.lets_lie_on(*f, assembly.stands_on);
    let all: Vec<String> =
        Direction::ALL.into_iter().filter(on).map(|f| words::onto(f).to_owned()).collect();
    words::list(&all)
}

/// One obstacle as a sentence.
pub(super) fn sentence(asked: Asked, obstacle: &Obstacle) -> String {
    let Asked { assembly, notation, .. } = asked;
    let the = |part: &usize| format!("The {}", name(assembly, *part));
    match obstacle {
        Obstacle::NoWayIn { part, direction, blockers } if blockers.is_empty() => {
            format!("{} could only go in up through the bench, {}.", the(part), moving(*direction))
        }
        Obstacle::NoWayIn { part, direction, blockers } => format!(
            "{} has no way in: moving {}, the least blocked way, it meets {}.",
            the(part),
            moving(*direction),
            names(assembly, blockers)
        ),
        Obstacle::ScrewOutOfReach { joint, blockers, .. } if blockers.is_empty() => format!(
            "The drill does not reach the screws of {}: the bench is in its way, or they are above the arm's reach, on every face the piece can lie on by then.",
            both(assembly, *joint)
        ),
        Obstacle::ScrewOutOfReach { joint, blockers, .. } => format!(
            "The drill does not reach the screws of {}: in its room {} {}.",
            both(assembly, *joint),
            if blockers.len() == 1 { "is" } else { "are" },
            names(assembly, blockers)
        ),
        Obstacle::NoClamp { joint, opening } => format!(
            "The glued joint of {} has no screws, and no clamp on hand finds a place on it: it takes one that opens {}.",
            both(assembly, *joint),
            notation.print(Length(*opening))
        ),
        Obstacle::GlueWaits { part, minutes } => format!(
            "The glue on {} would wait {minutes} minutes for pressure, longer than it may.",
            names(assembly, &[*part])
        ),
        Obstacle::NothingKeeps { part } => {
            format!("{} would fall off again: nothing fastens it where it goes in.", the(part))
        }
        Obstacle::NothingJoins { part } => format!("{} joins nothing that is in.", the(part)),
        Obstacle::Waits { part, other } => {
            format!("{} waits for {}.", the(part), names(assembly, &[*other]))
        }
        Obstacle::BelowBench { part } => {
            format!("{} would lie below the bench on every face.", the(part))
        }
        Obstacle::StaysLoose { parts } => {
            let stays = if parts.len() == 1 { "stays" } else { "stay" };
            format!("{} {stays} loose: nothing fastens or shuts them in.", {
                words::capital(&names(assembly, parts))
            })
        }
        Obstacle::CannotTurn { part, face, why: NoTurn::NotWished } => format!(
            "{} goes in with it lying on its {}, and `order.lay_on` lets it lie only on its {}.",
            the(part),
            words::onto(*face),
            wished(asked)
        ),
        Obstacle::ScrewsNotWished { joint, face } => format!(
            "The screws of {} are reached with it lying on its {}, and `order.lay_on` lets it lie only on its {}.",
            both(assembly, *joint),
            words::onto(*face),
            wished(asked)
        ),
        Obstacle::CannotTurn { part, face, why } => {
            let why = match why {
                NoTurn::Loose(loose) => format!("{} would come loose", names(assembly, loose)),
                NoTurn::TooLarge => "it is larger than the bench that way".to_owned(),
                NoTurn::Falls | NoTurn::NotWished => "it would not stand there".to_owned(),
            };
            format!(
                "{} goes in with it lying on its {}, and it cannot be turned onto that: {why}.",
                the(part),
                words::onto(*face)
            )
        }
        Obstacle::Unsteady { parts } => format!(
            "While the glue cures, {} would have to stand together by themselves, and would tip.",
            names(assembly, parts)
        ),
        Obstacle::NotUpright => {
            "It cannot be turned onto the face that it must lie on next: it would not stand there, or comes apart.".to_owned()
        }
        Obstacle::TakesHelper { part } => {
            format!("{} takes a second person.", the(part))
        }
    }
}

/// The facts of an obstacle by name.
pub(super) fn numbers(assembly: &Assembly, obstacle: &Obstacle) -> Vec<(&'static str, String)> {
    let id = |p: &usize| assembly.parts.get(*p).map_or_else(String::new, |p| p.id.clone());
    let ids = |all: &[usize]| all.iter().map(id).collect::<Vec<_>>().join(" ");
    match obstacle {
        Obstacle::NoWayIn { part, direction, blockers } => vec![
            ("part", id(part)),
            ("direction", direction.code().to_owned()),
            ("blockers", ids(blockers)),
        ],
        Obstacle::ScrewOutOfReach { joint, screw, blockers } => {
            let joint = &assembly.joints[*joint];
            let screw = joint.fasteners.get(*screw).map_or_else(String::new, |s| s.id.clone());
            vec![("joint", joint.id.clone()), ("screw", screw), ("blockers", ids(blockers))]
        }
        Obstacle::NoClamp { joint, opening } => {
            vec![("joint", assembly.joints[*joint].id.clone()), ("opening", opening.to_string())]
        }
        Obstacle::GlueWaits { part, minutes } => {
            vec![("part", id(part)), ("minutes", minutes.to_string())]
        }
        Obstacle::CannotTurn { part, face, .. } => {
            vec![("part", id(part)), ("face", face.code().to_owned())]
        }
        Obstacle::ScrewsNotWished { joint, face } => {
            vec![("joint", assembly.joints[*joint].id.clone()), ("face", face.code().to_owned())]
        }
        Obstacle::Waits { part, other } => vec![("part", id(part)), ("waits-for", id(other))],
        Obstacle::NothingKeeps { part }
        | Obstacle::NothingJoins { part }
        | Obstacle::BelowBench { part }
        | Obstacle::TakesHelper { part } => vec![("part", id(part))],
        Obstacle::StaysLoose { parts } | Obstacle::Unsteady { parts } => {
            vec![("parts", ids(parts))]
        }
        Obstacle::NotUpright => Vec::new(),
    }
}
