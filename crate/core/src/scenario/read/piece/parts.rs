//! The parts of a listed piece.

use super::super::build::material;
use super::super::context::{Context, mm};
use super::place::{ROUNDED, from, level, three};
use super::{alone, cuts, find, id};
use crate::geometry::Box3;
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
        cuts::check(ctx, &place, part);
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
        role: p.role.unwrap_or_default(),
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
