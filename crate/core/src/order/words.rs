//! The sentences: verb first, part second, number third.

use std::fmt::Write as _;

use crate::assembly::{Assembly, Fastener, JointKind, Kind, Part};
use crate::geometry::{Box3, Direction};
use crate::units::{Length, Notation};

use super::bodies::{Content, Grouping, Item};
use super::placing::Refusal;
use super::scene::{Scene, members};

/// What an item is called.
pub fn item_name(assembly: &Assembly, grouping: &Grouping, item: &Item) -> String {
    match item.content {
        Content::Part(p) => assembly.parts[p].name.clone(),
        Content::Body(b) => body_name(assembly, grouping, b),
        Content::Set => {
            list(&item.parts.iter().map(|&p| assembly.parts[p].name.clone()).collect::<Vec<_>>())
        }
    }
}

/// What an item is called once it is in: a panel no longer brings its hardware along.
pub fn mate_name(scene: &Scene, grouping: &Grouping, item: usize) -> String {
    let own = &scene.items[item];
    match own.content {
        Content::Body(b) if grouping.bodies[b].is_set => own
            .parts
            .iter()
            .find(|&&p| scene.assembly.parts[p].solid.bounds() == own.datum)
            .map_or_else(
                || body_name(scene.assembly, grouping, b),
                |&p| scene.assembly.parts[p].name.clone(),
            ),
        _ => item_name(scene.assembly, grouping, own),
    }
}

/// What a body is called: a panel with what it carries, or the name it was given.
pub fn body_name(assembly: &Assembly, grouping: &Grouping, body: usize) -> String {
    let body = &grouping.bodies[body];
    if !body.is_set {
        return assembly.body_name(&body.id).to_owned();
    }
    let parts = body.items.iter().flat_map(|i| &i.parts);
    let mut parts: Vec<&Part> = parts.map(|&p| &assembly.parts[p]).collect();
    // The panel that carries the others first.
    parts.sort_by_key(|p| (p.kind == Kind::Hardware, std::cmp::Reverse(p.mass_g)));
    let carries = parts.iter().skip(1).all(|p| p.kind == Kind::Hardware);
    match parts[..] {
        [holder, carried] if carries => {
            format!("{} with its {}", holder.name, short(&carried.name, &holder.name))
        }
        [holder, _, _, ..] if carries => format!("{} with its parts", holder.name),
        [first, _, _, _, ..] => format!("{} with {} more", first.name, parts.len() - 1),
        _ => list(&parts.iter().map(|p| p.name.clone()).collect::<Vec<_>>()),
    }
}

/// `left runner` beside `left side` is just its `runner`.
fn short<'a>(name: &'a str, beside: &str) -> &'a str {
    match (name.split_once(' '), beside.split_once(' ')) {
        (Some((a, rest)), Some((b, _))) if a == b => rest,
        _ => name,
    }
}

/// `a`, `a and b`, `a, b and c`.
pub fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// The face a whole body lies on.
pub fn onto(d: Direction) -> &'static str {
    match d {
        Direction::Left => "left side",
        Direction::Right => "right side",
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Down => "underside",
        Direction::Up => "top, upside down",
    }
}

/// How a part lies with `face` down: flat, on an edge or on an end.
pub fn lying(bounds: &Box3, face: Direction) -> String {
    let mut axes = [0, 1, 2];
    axes.sort_by_key(|&a| bounds.extent(a));
    if face.axis() == axes[0] {
        let down = match face {
            Direction::Left | Direction::Right => {
                return format!("flat, its {} face down", face.side());
            }
            Direction::Front | Direction::Back => face.side(),
            Direction::Down => "under",
            Direction::Up => "upper",
        };
        if down == "under" { "flat".to_owned() } else { format!("flat, its {down} face down") }
    } else if face.axis() == axes[1] || 2 * bounds.extent(axes[2]) < 3 * bounds.extent(axes[1]) {
        // A board half as long again as it is wide has ends; a squarer one only edges.
        format!("on its {} edge", face.side())
    } else {
        format!("on its {} end", face.side())
    }
}

/// A side of a part by what it is there: `left face`, `front edge`, `upper end`.
pub fn part_side(bounds: &Box3, d: Direction) -> String {
    let mut axes = [0, 1, 2];
    axes.sort_by_key(|&a| bounds.extent(a));
    let squarish = 2 * bounds.extent(axes[2]) < 3 * bounds.extent(axes[1]);
    let what = if d.axis() == axes[0] {
        "face"
    } else if d.axis() == axes[1] || squarish {
        "edge"
    } else {
        "end"
    };
    format!("{} {what}", d.side())
}

/// Whether it lies flat rather than stands.
pub fn is_flat(bounds: &Box3, face: Direction) -> bool {
    (0..3).all(|a| bounds.extent(face.axis()) <= bounds.extent(a))
}

/// Where a screw is driven from, while `face` is down and the body lies within `around`.
pub fn driven_from(screw: &Fastener, face: Direction, around: &Box3) -> String {
    let axis = screw.direction.axis();
    // A hand's breadth behind the skin of the piece is inside it.
    let behind = (around.face(screw.direction.opposite()) - screw.entry[axis]).abs();
    if behind > 100_000 && screw.direction != face {
        return "from inside".to_owned();
    }
    from_where(screw.direction, face)
}

/// Which way something moves while `face` is down.
pub fn towards(d: Direction, face: Direction) -> &'static str {
    if d == face {
        return "down";
    }
    match d {
        Direction::Left => "to the left",
        Direction::Right => "to the right",
        Direction::Front => "to the front",
        Direction::Back => "to the back",
        Direction::Down => "to the bottom",
        Direction::Up => "to the top",
    }
}

/// Where something comes from that moves along `screw` while `face` is down.
pub fn from_where(screw: Direction, face: Direction) -> String {
    if screw == face {
        "from above".to_owned()
    } else {
        match screw.opposite() {
            Direction::Left => "from the left".to_owned(),
            Direction::Right => "from the right".to_owned(),
            Direction::Front => "from the front".to_owned(),
            Direction::Back => "from the back".to_owned(),
            Direction::Down => "from the bottom end".to_owned(),
            Direction::Up => "from the top end".to_owned(),
        }
    }
}

/// `#8 × 2 in`.
pub fn screw_size(gauge: u8, length: Length, notation: Notation) -> String {
    format!("#{gauge} × {}", notation.print(length))
}

/// `Drive 4 screws, #8 × 2 in, from the left.` One sentence for each size and side.
pub fn drive(screws: &[&Fastener], face: Direction, around: &Box3, notation: Notation) -> String {
    let mut groups: Vec<(&Fastener, usize)> = Vec::new();
    for &screw in screws {
        let same = |f: &Fastener| {
            (&f.kind, f.gauge, f.length, f.direction)
                == (&screw.kind, screw.gauge, screw.length, screw.direction)
        };
        match groups.iter_mut().find(|(f, _)| same(f)) {
            Some((_, count)) => *count += 1,
            None => groups.push((screw, 1)),
        }
    }
    let mut text = String::new();
    let mut last: Option<(&Fastener, usize)> = None;
    for (screw, count) in groups {
        let size = screw_size(screw.gauge, screw.length, notation);
        let from = driven_from(screw, face, around);
        let again = last.is_some_and(|(f, _)| {
            (&f.kind, f.gauge, f.length) == (&screw.kind, screw.gauge, screw.length)
        });
        // Writing into a string cannot fail.
        let _ = if again {
            write!(text, ", {count} {from}")
        } else {
            let plural = if count == 1 { "" } else { "s" };
            let stop = if text.is_empty() { "" } else { ". " };
            write!(text, "{stop}Drive {count} {}{plural}, {size}, {from}", screw.kind)
        };
        last = Some((screw, count));
    }
    if !text.is_empty() {
        text.push('.');
    }
    text
}

/// Where an item goes, by what it is joined to: `against the bottom`, `between the left side and
/// the right side`, `onto the nailer and the bottom`.
pub fn place_phrase(
    scene: &Scene,
    grouping: &Grouping,
    item: usize,
    set: u64,
    face: Direction,
) -> String {
    let mut sides: Vec<(Direction, String, i128)> = Vec::new();
    for other in members(set) {
        if scene.links_of(item, 1 << other) == 0 {
            continue;
        }
        if let Some(c) = scene.contacts(item, other).max_by_key(|c| c.area()) {
            sides.push((c.direction, mate_name(scene, grouping, other), c.area()));
        }
    }
    let between = sides.iter().find_map(|a| {
        sides
            .iter()
            .find(|b| a.0 == b.0.opposite() && !a.0.is_positive() && a.0.axis() != face.axis())
            .map(|b| (a.1.clone(), b.1.clone()))
    });
    if let Some((a, b)) = between {
        return format!("between the {a} and the {b}");
    }
    let below: Vec<String> =
        sides.iter().filter(|s| s.0 == face).map(|s| format!("the {}", s.1)).collect();
    if !below.is_empty() {
        return format!("onto {}", list(&below));
    }
    let all: Vec<String> = sides.iter().map(|s| format!("the {}", s.1)).collect();
    if all.is_empty() { String::new() } else { format!("against {}", list(&all)) }
}

/// The channels an item is let into: `grooves of the left side and the bottom`. Nothing when it
/// is let into none.
pub fn channels(scene: &Scene, grouping: &Grouping, item: usize, closes: u64) -> Option<String> {
    let of = |kind: JointKind| {
        let into: Vec<String> = members(closes)
            .filter(|&l| scene.links[l].kind == kind)
            .map(|l| format!("the {}", mate_name(scene, grouping, scene.ends(l, item)[1])))
            .collect();
        let many = if into.len() == 1 { 0 } else { 1 };
        let word = match kind {
            JointKind::Dado => ["dado", "dadoes"],
            _ => ["groove", "grooves"],
        };
        (!into.is_empty()).then(|| format!("{} of {}", word[many], list(&into)))
    };
    of(JointKind::Groove).or_else(|| of(JointKind::Dado))
}

/// Why an item does not go in, as it follows on "cannot go in yet".
pub fn refusal(scene: &Scene, why: &Refusal) -> String {
    let names = |set: u64| {
        let all: Vec<String> = members(set)
            .flat_map(|i| &scene.items[i].parts)
            .map(|&p| format!("the {}", scene.assembly.parts[p].name))
            .collect();
        list(&all)
    };
    match why {
        Refusal::Apart => "nothing that is in joins it".to_owned(),
        Refusal::After(missing) => format!("it is set against {}", names(*missing)),
        Refusal::BelowBench(_) => "it would lie below the bench".to_owned(),
        Refusal::Blocked(_, 0) => "it could only come up through the bench".to_owned(),
        Refusal::Blocked(_, set) => format!("{} would be in its way", names(*set)),
        Refusal::GlueOutOfReach(_) => {
            "the drill does not reach its screws here, and glue does not wait".to_owned()
        }
        Refusal::OutOfReach(_) => "the drill does not reach its screws here".to_owned(),
        Refusal::InClamp(_) => "a clamp that is still on would be in its place".to_owned(),
        Refusal::NoClamp(_) => "no clamp has a place on its joint here".to_owned(),
        Refusal::GlueWaits(minutes) => {
            format!("its glue would wait {minutes} minutes for pressure")
        }
        Refusal::Wet => "the glue has to dry first".to_owned(),
        Refusal::Loose => "nothing would keep it in its place".to_owned(),
    }
}

/// First letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
