//! The sizes of a design that others follow, and which parts hang on which.

use super::compare;
use crate::design::{self, Design};
use crate::scenario::{Build, Interior, Scenario, Subject};
use crate::units::Length;

/// A size that may be moved: a number in this list, then the thicknesses of the shop's sheets.
pub type Pin = usize;

/// What it is called, the row of its worked-out value where the file may leave it out, and where it
/// stands.
type Named<'a> = (&'static str, &'static str, Field<'a>);

enum Field<'a> {
    Given(&'a mut Length),
    Open(&'a mut Option<Length>),
}

/// Fronts of drawers, from the top down.
const FRONTS: [&str; 5] = [
    "the uppermost drawer front's height",
    "the second drawer front's height",
    "the third drawer front's height",
    "the fourth drawer front's height",
    "the fifth drawer front's height",
];

fn fields(b: &mut Build) -> Vec<Named<'_>> {
    use Field::{Given, Open};
    let c = &mut b.carcass;
    let mut all: Vec<Named> = vec![
        ("the carcass' height", "carcass-height", Open(&mut c.height)),
        ("the carcass' width", "carcass-width", Open(&mut c.width)),
        ("the carcass' depth", "carcass-depth", Open(&mut c.depth)),
        ("the toe kick's height", "", Given(&mut c.toe_height)),
        ("the stretcher's width", "", Given(&mut c.stretcher_width)),
        ("the nailer's height", "", Given(&mut c.nailer_height)),
        ("the toe kick's recess", "", Given(&mut c.toe_recess)),
        ("the dado's depth", "", Given(&mut c.dado_depth)),
    ];
    let (boxes, pulled) = match (&mut b.interior, &mut b.drawers) {
        (Interior::PullOut(p), _) => (Some(p), true),
        (Interior::Shelves(_), Some(d)) => {
            let heights = d.heights.iter_mut().zip(FRONTS);
            all.extend(heights.map(|(height, name)| (name, "", Given(height))));
            (Some(&mut d.boxes), false)
        }
        (Interior::Shelves(_), None) => (None, false),
    };
    if let Some(p) = boxes {
        // The sides of drawers follow from their fronts; given, their height is the most.
        if pulled || p.side_height.is_some() {
            all.push(("the box sides' height", "box-height", Open(&mut p.side_height)));
        }
        all.push(("the box bottom's play", "", Given(&mut p.bottom_play)));
        all.push(("the groove's depth", "", Given(&mut p.groove_depth)));
    }
    if let Some(front) = &mut b.front {
        all.push(("the reveal", "", Given(&mut front.reveal)));
    }
    all
}

/// Moves a size; none when there is no such size or it would be less than nothing.
pub fn shift(s: &mut Scenario, now: &Design, pin: Pin, by: i64) -> Option<()> {
    let Subject::Cabinet(cabinet) = &mut s.subject else { return None };
    let mut fields = fields(&mut cabinet.build);
    let field = match pin.checked_sub(fields.len()) {
        Some(sheet) => &mut s.shop.materials.get_mut(sheet)?.thickness,
        None => {
            let (_, row, field) = fields.swap_remove(pin);
            match field {
                Field::Given(length) => length,
                Field::Open(length) => {
                    let worked = || now.sizes.iter().find(|r| r.id == row).map(|r| Length(r.value));
                    *length = length.or_else(worked);
                    length.as_mut()?
                }
            }
        }
    };
    field.0 += by;
    (field.0 >= 0).then_some(())
}

/// What a size is called.
pub fn name(s: &Scenario, pin: Pin) -> String {
    let Subject::Cabinet(cabinet) = &s.subject else { return String::new() };
    let mut build = cabinet.build.clone();
    let fields = fields(&mut build);
    match pin.checked_sub(fields.len()) {
        Some(sheet) => s
            .shop
            .materials
            .get(sheet)
            .map_or_else(String::new, |m| format!("the thickness of {}", m.name)),
        None => fields[pin].0.to_owned(),
    }
}

/// For each size by how much the parts' sizes move when it grows by a millimetre: part, which of its
/// sizes, and the sign where it is a millimetre too.
pub fn moves(s: &Scenario, now: &Design) -> Vec<(Pin, String, usize, i64)> {
    const STEP: i64 = 1_000;
    let count = match &s.subject {
        Subject::Cabinet(c) => fields(&mut c.build.clone()).len() + s.shop.materials.len(),
        Subject::Listed(_) => 0,
    };
    let mut all = Vec::new();
    for pin in 0..count {
        let mut tried = s.clone();
        if shift(&mut tried, now, pin, STEP).is_none() {
            continue;
        }
        let Some(design) = design::design(&tried).0 else { continue };
        for part in &design.assembly.parts {
            let Some(i) = now.assembly.index_of(&part.id) else { continue };
            let before = compare::sizes(&now.assembly.parts[i]);
            for (way, (new, old)) in compare::sizes(part).into_iter().zip(before).enumerate() {
                if (new - old).abs() == STEP {
                    all.push((pin, part.id.clone(), way, (new - old) / STEP));
                }
            }
        }
    }
    all
}

/// The sizes that a part's size hangs on, with the sign.
pub fn hanging<'a>(
    moves: &'a [(Pin, String, usize, i64)],
    part: &'a str,
    way: usize,
) -> impl Iterator<Item = (Pin, i64)> + 'a {
    moves.iter().filter(move |m| m.1 == part && m.2 == way).map(|m| (m.0, m.3))
}
