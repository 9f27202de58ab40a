//! A piece listed part by part: every part is where the file says; joints and screws follow.

use super::making::{Hint, makings};
use super::{Design, mass, sizes};
use crate::assembly::joints::{Means, Screws, Wanted, join};
use crate::assembly::screws::Heads;
use crate::assembly::{Assembly, Grain, Joint, JointKind, Kind, MAIN, Part, check};
use crate::findings::{Finding, Severity};
use crate::geometry::{Contact, Direction, Solid};
use crate::scenario::{
    Head, ListedGrain, ListedJoint, ListedKind, ListedPart, ListedPiece, ListedScrews,
    MaterialKind, Scenario, Shop, Stuff,
};
use crate::units::Length;

/// Thinner parts cannot take a countersunk head.
const COUNTERSINKS: i64 = 9000;

/// Designs a listed piece. The design is there even beside a `stop`, so that its sizes can be shown.
pub fn design(s: &Scenario, piece: &ListedPiece) -> (Option<Design>, Vec<Finding>) {
    let mut findings = Vec::new();
    let parts: Vec<Part> = piece.parts.iter().map(|p| part(p, &s.shop)).collect();
    let kinds: Vec<Option<MaterialKind>> = piece.parts.iter().map(|p| kind(p, &s.shop)).collect();
    let mut wanted = Vec::new();
    for (n, joint) in piece.joints.iter().enumerate() {
        wanted.extend(want(n, joint, piece, &parts, &mut findings));
    }
    let means = Means { screws: &s.shop.screws, notation: s.notation };
    let (joints, said) = join(&parts, &kinds, &wanted, means);
    findings.extend(said);
    let assembly = Assembly {
        title: s.title.clone(),
        bodies: piece.bodies.clone(),
        parts,
        joints,
        stands_on: piece.stands_on,
    };
    apart(&assembly, &mut findings);
    // What is joined to nothing is told above, with all that hangs on it.
    let known: Vec<String> =
        findings.iter().filter(|f| f.code == "not-joined").map(|f| f.place.clone()).collect();
    let sound = check::check(&assembly).into_iter();
    findings.extend(sound.filter(|f| f.code != "part-loose" || !known.contains(&f.place)));
    let mut rows = sizes::Rows::new(s.notation);
    rows.listed(&assembly, &s.shop);
    let hint = |p: &ListedPart| Hint { cuts: p.cuts.clone(), ..Hint::default() };
    let hints: Vec<Hint> = piece.parts.iter().map(hint).collect();
    let making = makings(&assembly, &hints, 0, [true, true]);
    (Some(Design { sizes: rows.done(), assembly, making }), findings)
}

/// A part in its place, cut out and weighed.
fn part(p: &ListedPart, shop: &Shop) -> Part {
    let mut solid = Solid::new(p.outer);
    for cut in &p.cuts {
        solid.cut(cut);
    }
    let mut across: Vec<i64> = (0..3).map(|a| p.outer.extent(a)).collect();
    let (material, kind, thickness, grain, density) = match &p.stuff {
        Stuff::Sheet { material, thin, grain } => {
            let thickness = across.remove(*thin);
            across.sort_unstable();
            let grain = match grain {
                ListedGrain::Length => Grain::Length,
                ListedGrain::Width => Grain::Width,
                ListedGrain::None => Grain::None,
            };
            let density = shop.material(material).map_or(0, |m| m.density);
            (material, Kind::Panel, thickness, grain, density)
        }
        Stuff::Bought(name) => {
            across.sort_unstable();
            (name, Kind::Hardware, across.remove(0), Grain::None, 0)
        }
    };
    Part {
        id: p.id.clone(),
        name: p.name.clone(),
        group: p.body.clone(),
        material: material.clone(),
        kind,
        role: p.role,
        length: Length(across.last().copied().unwrap_or(0)),
        width: Length(across.first().copied().unwrap_or(0)),
        thickness: Length(thickness),
        grain,
        mass_g: p.mass_g.unwrap_or_else(|| mass::of(solid.volume(), density)),
        solid,
        set_against: p.set_against.clone(),
    }
}

fn kind(p: &ListedPart, shop: &Shop) -> Option<MaterialKind> {
    match &p.stuff {
        Stuff::Sheet { material, .. } => shop.material(material).map(|m| m.kind),
        Stuff::Bought(_) => None,
    }
}

/// A joint as it is made, unless its parts do not meet as it says.
fn want(
    n: usize,
    joint: &ListedJoint,
    piece: &ListedPiece,
    parts: &[Part],
    findings: &mut Vec<Finding>,
) -> Option<Wanted> {
    let [first, second] = joint.parts.map(|i| parts.get(i));
    let (first, second) = (first?, second?);
    let contacts = first.solid.contacts(&second.solid);
    let kind = match joint.kind {
        ListedKind::Butt => JointKind::Butt,
        ListedKind::Dado => JointKind::Dado,
        ListedKind::Groove => JointKind::Groove,
        ListedKind::Overlay => JointKind::Overlay,
        ListedKind::Slide => JointKind::Slide,
    };
    let mut screws = None;
    // Parts that do not meet at all, or overlap, are told of by the check of the whole.
    if !contacts.is_empty() {
        if !first.solid.intersects(&second.solid) {
            findings.extend(not_let_in(n, joint.kind, [first, second], &contacts));
        }
        if let Some(asked) = &joint.screws {
            let thin = match piece.parts.get(joint.parts[0]).map(|p| &p.stuff) {
                Some(Stuff::Sheet { thin, .. }) => Some(*thin),
                _ => None,
            };
            match drive(asked, thin, &contacts) {
                Some(direction) => screws = Some(placed(asked, direction, first)),
                None => findings.push(does_not_meet(n, asked, [first, second], &contacts)),
            }
        }
    }
    Some(Wanted { parts: joint.parts, kind, glue: joint.glue, screws })
}

/// The way the screws go: as asked, if the parts meet that way; through the thickness of the first
/// part, if they meet that way; across the largest face.
fn drive(asked: &ListedScrews, thin: Option<usize>, contacts: &[Contact]) -> Option<Direction> {
    let area = |d: Direction| -> i128 {
        contacts.iter().filter(|c| c.direction == d).map(Contact::area).sum()
    };
    let meeting = Direction::ALL.into_iter().filter(|d| area(*d) > 0);
    if let Some(wanted) = asked.drive {
        return meeting.into_iter().find(|d| *d == wanted);
    }
    // The last of equals wins `max_by_key`: reversed, the first does.
    meeting.rev().max_by_key(|d| (Some(d.axis()) == thin, area(*d)))
}

fn placed(asked: &ListedScrews, direction: Direction, first: &Part) -> Screws {
    let through = first.solid.bounds().extent(direction.axis());
    let heads = match asked.head {
        Some(Head::Flat) => Heads::Flat,
        Some(Head::Pan) => Heads::Pan,
        None if first.kind == Kind::Hardware || through < COUNTERSINKS => Heads::Pan,
        None => Heads::Flat,
    };
    Screws { direction, heads, at: asked.at.clone() }
}

fn place(n: usize) -> String {
    format!("piece.joints[{n}]")
}

/// A groove holds because it has two cheeks, a dado because it has a bottom and a cheek: whoever plans
/// on them must find them.
fn not_let_in(
    n: usize,
    kind: ListedKind,
    parts: [&Part; 2],
    contacts: &[Contact],
) -> Option<Finding> {
    let meets = |d: Direction| contacts.iter().any(|c| c.direction == d);
    let ways = Direction::ALL.into_iter().filter(|d| meets(*d)).count();
    let between = Direction::ALL.into_iter().any(|d| meets(d) && meets(d.opposite()));
    let (name, cure) = match kind {
        ListedKind::Groove if !between => ("groove", "two opposite cheeks"),
        ListedKind::Dado if ways < 2 => ("dado", "its bottom and a cheek at least"),
        _ => return None,
    };
    Some(Finding::new(
        Severity::Stop,
        "not-let-in",
        place(n),
        format!(
            "{} and {} are to meet in a {name}, but neither lies in a channel of the other.",
            parts[0].name, parts[1].name
        ),
        format!("Cut the channel so that they touch at {cure}, or give the joint another kind."),
    ))
}

fn does_not_meet(
    n: usize,
    asked: &ListedScrews,
    parts: [&Part; 2],
    contacts: &[Contact],
) -> Finding {
    let word = |d: Direction| ["left", "right", "front", "back", "down", "up"][d.index()];
    let mut ways: Vec<&str> = contacts.iter().map(|c| word(c.direction)).collect();
    ways.dedup();
    let (ways, wanted) = (ways.join(", "), asked.drive.map_or("", word));
    Finding::new(
        Severity::Stop,
        "drive-past",
        place(n),
        format!(
            "Driven {wanted}, screws through {} do not reach {}.",
            parts[0].name, parts[1].name
        ),
        format!(
            "Drive them one of these ways: {ways}. Or name the part that they go through first."
        ),
    )
    .number("meet", ways)
    .number("drive", wanted)
}

/// Parts that no joint ties to the rest: of the body that they are built as, then of the whole.
fn apart(a: &Assembly, findings: &mut Vec<Finding>) {
    let bodies = a.bodies.iter().filter(|(id, _)| id != MAIN);
    for (id, name) in bodies {
        let own = |i: &usize| a.parts.get(*i).is_some_and(|p| p.group == *id);
        findings.extend(scattered(a, (0..a.parts.len()).filter(own).collect(), name));
    }
    if findings.iter().all(|f| f.code != "not-joined") {
        findings.extend(scattered(a, (0..a.parts.len()).collect(), a.body_name(MAIN)));
    }
}

/// One finding for each group of parts that joints do not tie to the largest.
fn scattered(a: &Assembly, mut left: Vec<usize>, whole: &str) -> Vec<Finding> {
    let among = left.clone();
    let mut groups: Vec<Vec<usize>> = Vec::new();
    while let Some(&first) = left.first() {
        let mut group = vec![first];
        let mut next = 0;
        while let Some(&i) = group.get(next) {
            next += 1;
            let tied = |j: &&Joint| j.kind != JointKind::Touch && j.parts.contains(&i);
            for other in a.joints.iter().filter(tied).map(|j| j.other(i)) {
                if among.contains(&other) && !group.contains(&other) {
                    group.push(other);
                }
            }
        }
        left.retain(|i| !group.contains(i));
        groups.push(group);
    }
    let most = groups.iter().map(Vec::len).max().unwrap_or(0);
    let largest = groups.iter().position(|g| g.len() == most);
    let rest = groups.iter().enumerate().filter(|(n, _)| Some(*n) != largest);
    rest.filter_map(|(_, group)| loose(a, group, whole)).collect()
}

fn loose(a: &Assembly, group: &[usize], body: &str) -> Option<Finding> {
    let first = a.parts.get(*group.first()?)?;
    let message = match group.len() {
        1 => format!("{} is joined to no other part of the {body}.", first.name),
        n => format!(
            "{} and what it is joined to, {n} parts, are not joined to the rest of the {body}.",
            first.name
        ),
    };
    Some(Finding::new(
        Severity::Stop,
        "not-joined",
        format!("part {}", first.id),
        message,
        "Add the joint to `piece.joints`, a `slide` where it stays movable; or give the part another body.",
    ))
}

#[cfg(test)]
mod tests;
