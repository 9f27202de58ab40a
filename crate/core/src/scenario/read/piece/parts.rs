//! The parts of a listed piece.

use super::super::build::{LEAST_LEFT, material};
use super::super::context::{Context, mm};
use super::place::{ROUNDED, from, level, three};
use super::{alone, find, id};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Solid};
use crate::scenario::{ListedGrain, ListedPart, Shop, Stuff, file};
use crate::units::Length;

/// Most parts of a piece.
const MOST: usize = 200;
/// Most cuts in one part, and in all of them.
const MOST_CUTS: usize = 12;
const MOST_CUTS_IN_ALL: usize = 300;
/// Most parts that one is set against.
const MOST_AGAINST: usize = 20;
/// A box for what could not be read: the scenario is stopped, nothing looks at it.
const NOTHING: Box3 = Box3 { min: [0; 3], max: [0; 3] };

pub(super) fn read(
    ctx: &mut Context,
    listed: Option<&[file::Part]>,
    bodies: &[(String, String)],
    shop: &Shop,
) -> Vec<ListedPart> {
    let Some(listed) = listed else {
        ctx.missing("piece.parts", "List the parts, each with its id, material, place and size.");
        return Vec::new();
    };
    ctx.count("piece.parts", listed.len(), 2, MOST);
    let cuts: usize = listed.iter().map(|p| p.cuts.as_ref().map_or(0, Vec::len)).sum();
    if cuts > MOST_CUTS_IN_ALL {
        ctx.stop(
            "too-many-cuts",
            "piece.parts",
            format!("`piece.parts` has {cuts} cuts in all."),
            format!(
                "Give {MOST_CUTS_IN_ALL} at most; one long cut is better than many short ones."
            ),
        );
        return Vec::new();
    }
    let mut parts = Vec::new();
    for (n, p) in listed.iter().take(MOST).enumerate() {
        let part = part(ctx, n, p, bodies, &parts, shop);
        parts.push(part);
    }
    level(
        &mut parts
            .iter_mut()
            .flat_map(|p| p.cuts.iter_mut().chain([&mut p.outer]))
            .collect::<Vec<_>>(),
    );
    let ids: Vec<String> = parts.iter().map(|p| p.id.clone()).collect();
    let known: Vec<&str> = ids.iter().map(String::as_str).collect();
    for (n, (p, part)) in listed.iter().zip(&mut parts).enumerate() {
        let place = format!("piece.parts[{n}]");
        part.set_against = against(ctx, &place, p, &part.id, &known);
        if ctx.blamed_within(&place) {
            continue;
        }
        measure(ctx, &place, part, p, shop);
        cut(ctx, &place, part);
    }
    parts
}

/// One part as written, not yet measured.
fn part(
    ctx: &mut Context,
    n: usize,
    p: &file::Part,
    bodies: &[(String, String)],
    before: &[ListedPart],
    shop: &Shop,
) -> ListedPart {
    let place = format!("piece.parts[{n}]");
    let at = |field: &str| format!("{place}.{field}");
    let id = id(ctx, &at("id"), p.id.as_deref(), "left-side");
    let taken: Vec<&str> = before
        .iter()
        .map(|p| p.id.as_str())
        .chain(bodies.iter().map(|(id, _)| id.as_str()))
        .collect();
    alone(ctx, &at("id"), &id, &taken);
    let body = match &p.body {
        Some(body) => {
            let known: Vec<&str> = bodies.iter().map(|(id, _)| id.as_str()).collect();
            find(ctx, "unknown-body", &at("body"), Some(body), &known, "piece.bodies")
        }
        None => Some(0),
    };
    let stuff = match (&p.material, &p.bought) {
        (Some(written), None) => Stuff::Sheet {
            material: material(ctx, &at("material"), Some(written), shop, |_| None),
            thin: 0,
            grain: ListedGrain::None,
        },
        (None, Some(bought)) => {
            if p.mass_kg.is_none() {
                ctx.missing(&at("mass_kg"), "Put it on a scale, or read its mass off its sheet.");
            }
            Stuff::Bought(ctx.text(&at("bought"), Some(bought), 60, ""))
        }
        (given, _) => {
            let has = if given.is_some() { "both" } else { "neither" };
            ctx.stop(
                "cut-or-bought",
                &place,
                format!("`{place}` has {has} of `material` and `bought`."),
                "Give the material it is cut from, or what it is bought as, not both.",
            );
            Stuff::Bought(String::new())
        }
    };
    let corner = three(ctx, &at("at"), p.at.as_ref(), mm(0, 10_000));
    let size = three(ctx, &at("size"), p.size.as_ref(), mm(1, 6_000));
    let listed = p.cuts.as_deref().unwrap_or_default();
    ctx.count(&at("cuts"), listed.len(), 0, MOST_CUTS);
    let mut cuts = Vec::new();
    for (c, cut) in listed.iter().take(MOST_CUTS).enumerate() {
        let at = |field: &str| format!("{place}.cuts[{c}].{field}");
        let place = three(ctx, &at("at"), cut.at.as_ref(), mm(0, 6_000));
        let size = three(ctx, &at("size"), cut.size.as_ref(), mm(1, 6_000));
        if let (Some(corner), Some(place), Some(size)) = (corner, place, size) {
            cuts.push(from(std::array::from_fn(|a| corner[a] + place[a]), size));
        }
    }
    let written = p.mass_kg.as_ref();
    let mass_g = written.map(|_| ctx.thousandths(&at("mass_kg"), written, 0, 500, 0));
    ListedPart {
        name: ctx.text(&at("name"), p.name.as_deref(), 60, &id.replace('-', " ")),
        id,
        body: body.and_then(|b| bodies.get(b)).map(|(id, _)| id.clone()).unwrap_or_default(),
        stuff,
        outer: corner.zip(size).map_or(NOTHING, |(corner, size)| from(corner, size)),
        cuts,
        mass_g,
        set_against: Vec::new(),
    }
}

/// The ids of the parts that one is set against.
fn against(
    ctx: &mut Context,
    place: &str,
    p: &file::Part,
    own: &str,
    known: &[&str],
) -> Vec<String> {
    let listed = p.set_against.as_deref().unwrap_or_default();
    let place = format!("{place}.set_against");
    ctx.count(&place, listed.len(), 0, MOST_AGAINST);
    let mut read = Vec::new();
    for (i, other) in listed.iter().take(MOST_AGAINST).enumerate() {
        let place = format!("{place}[{i}]");
        let found = find(ctx, "unknown-part", &place, other.as_deref(), known, "piece.parts");
        let Some(other) = found.and_then(|f| known.get(f)) else { continue };
        if *other == own {
            ctx.stop(
                "set-against-itself",
                &place,
                format!("`{place}` is {own}, the part itself."),
                "Name the parts that must be in before it, or leave the field out.",
            );
        }
        read.push((*other).to_owned());
    }
    read
}

/// Finds the way along which a part is as thick as its material, and its grain.
fn measure(ctx: &mut Context, place: &str, part: &mut ListedPart, p: &file::Part, shop: &Shop) {
    let Stuff::Sheet { material, thin, grain } = &mut part.stuff else { return };
    let Some(sheet) = shop.material(material) else { return };
    if ctx.list_blamed("shop.materials", ".thickness") {
        return;
    }
    let off = |axis: &usize| (part.outer.extent(*axis) - sheet.thickness.get()).abs();
    let Some(axis) = (0..3).find(|axis| off(axis) <= ROUNDED) else {
        let place = format!("{place}.size");
        let print = |um| ctx.exactly(Length::um(um));
        let size: Vec<String> = (0..3).map(|a| print(part.outer.extent(a))).collect();
        let (size, thickness) = (size.join(" × "), print(sheet.thickness.get()));
        let message = format!("`{place}` is {size}, but `{material}` is {thickness} thick.");
        let hint =
            format!("Make one of the three {thickness}, or name the material it is cut from.");
        ctx.stop_with(
            "thickness-mismatch",
            &place,
            message,
            hint,
            &[("size", size), ("thickness", thickness)],
        );
        return;
    };
    *thin = axis;
    *grain = match p.grain {
        Some(file::Grain::Length) => ListedGrain::Length,
        Some(file::Grain::Width) => ListedGrain::Width,
        Some(file::Grain::None) => ListedGrain::None,
        None if sheet.grain => ListedGrain::Length,
        None => ListedGrain::None,
    };
}

/// Says which cuts reach beyond the part, leave too little of it, or take it apart.
fn cut(ctx: &mut Context, place: &str, part: &ListedPart) {
    let print = |ctx: &Context, um| ctx.exactly(Length::um(um));
    let mut solid = Solid::new(part.outer);
    for (c, cut) in part.cuts.iter().enumerate() {
        let place = format!("{place}.cuts[{c}]");
        let beyond = (0..3)
            .map(|a| (part.outer.min[a] - cut.min[a]).max(cut.max[a] - part.outer.max[a]))
            .max()
            .unwrap_or(0);
        if beyond > 0 {
            let beyond = print(ctx, beyond);
            ctx.stop_with(
                "cut-outside",
                &place,
                format!("`{place}` reaches {beyond} beyond {}.", part.name),
                "A cut is measured from the part's own left, front, lower corner: let it end at the part's faces.".to_owned(),
                &[("beyond", beyond)],
            );
            return;
        }
        if let Stuff::Sheet { thin, .. } = part.stuff {
            let under = cut.min[thin] - part.outer.min[thin];
            let over = part.outer.max[thin] - cut.max[thin];
            let left =
                [under, over].into_iter().filter(|l| *l > 0).min().unwrap_or(LEAST_LEFT.get());
            if left < LEAST_LEFT.get() - ROUNDED {
                let (left, least) = (print(ctx, left), print(ctx, LEAST_LEFT.get()));
                ctx.blame(
                    Finding::new(
                        Severity::Stop,
                        "cut-too-deep",
                        &place,
                        format!("`{place}` leaves only {left} of the thickness of {}.", part.name),
                        format!("Leave {least} at least, or cut right through."),
                    )
                    .number("left", left)
                    .source("common practice, no source"),
                );
                return;
            }
        }
        solid.cut(cut);
    }
    let place = format!("{place}.cuts");
    if solid.boxes().is_empty() || solid.bounds() != part.outer {
        ctx.stop(
            "cut-away",
            &place,
            format!(
                "`{place}` take away a whole end, side or face of {}, or all of it.",
                part.name
            ),
            "Give the part the smaller size instead, and only cut what stays inside it.",
        );
    } else if !whole(&solid) {
        ctx.stop(
            "part-in-two",
            &place,
            format!("`{place}` part {} in two.", part.name),
            "Make the cut shorter, or list two parts.",
        );
    }
}

/// Whether all boxes of a solid hang together by their faces.
fn whole(solid: &Solid) -> bool {
    let boxes = solid.boxes();
    let touch = |a: &Box3, b: &Box3| {
        let over: Vec<i64> = (0..3).map(|axis| a.overlap(b, axis)).collect();
        over.iter().all(|o| *o >= 0) && over.iter().filter(|o| **o == 0).count() == 1
    };
    let mut reached: Vec<usize> = if boxes.is_empty() { Vec::new() } else { vec![0] };
    let mut next = 0;
    while let Some(a) = reached.get(next).and_then(|&i| boxes.get(i)) {
        next += 1;
        for (j, b) in boxes.iter().enumerate() {
            if !reached.contains(&j) && touch(a, b) {
                reached.push(j);
            }
        }
    }
    reached.len() == boxes.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_groove_leaves_a_part_whole_and_a_saw_cut_does_not() {
        let board = || Solid::new(Box3::new([0; 3], [18, 200, 600]));
        let (mut grooved, mut sawn) = (board(), board());
        grooved.cut(&Box3::new([12, 0, 300], [18, 200, 318]));
        sawn.cut(&Box3::new([0, 0, 300], [18, 200, 303]));
        assert!(whole(&board()) && whole(&grooved) && !whole(&sawn));
        // Corner to corner is no whole either.
        let corners = vec![Box3::new([0; 3], [1; 3]), Box3::new([1, 1, 0], [2, 2, 1])];
        assert!(!whole(&Solid::from_boxes(corners)));
    }
}
