//! Drawers one over the other: how the fronts share the height, and a box behind each.

use super::front::{self, LEAST_FRONT, Outline, Site};
use super::piece::Piece;
use super::pullout::{self, BoxFrame, Slot, UNDER_STRETCHER};
use super::runner;
use crate::findings::{Finding, Severity};
use crate::scenario::{Drawers, Material};
use crate::units::Length;

/// Air over a box below another one. Common practice, no source.
const AIR: i64 = 10_000;

/// The fronts of a bay from the top down, and what is left of `z` below them.
///
/// Graduated fronts go as 3, 4, 5 and so on from the top (common practice, no source).
pub fn fronts(
    site: &Site,
    drawers: &Drawers,
    fill: bool,
    findings: &mut Vec<Finding>,
) -> Option<(Vec<[i64; 2]>, [i64; 2])> {
    let print = |um: i64| site.s.notation.print(Length(um));
    let [_, z] = site.field();
    let reveal = site.front.reveal.get();
    let n = usize::from(drawers.count);
    let gaps = i64::try_from(n).unwrap_or(1) - 1;
    let room = z[1] - z[0] - gaps * reveal;
    let given: Vec<i64> = drawers.heights.iter().map(|h| h.get()).collect();
    let rest = room - given.iter().sum::<i64>();
    let open = given.len()..n;
    let weight = |i: usize| if drawers.graduated { 3 + i64::try_from(i).unwrap_or(0) } else { 1 };
    let all: i64 = open.clone().map(weight).sum();
    let mut heights = given;
    let mut left = rest;
    for i in open.clone() {
        let height = if i + 1 == n { left } else { rest * weight(i) / all };
        left -= height;
        heights.push(height);
    }
    // What fills the whole height must add up; what stands over doors must leave some to them.
    let spare = room - heights.iter().sum::<i64>();
    let wrong = if fill { spare != 0 } else { spare < reveal + LEAST_FRONT };
    if wrong || heights.iter().any(|h| *h < LEAST_FRONT) {
        let hint = if fill {
            format!(
                "Leave the lowest height out, or let all of them add up to {}; each takes {} at least.",
                print(room),
                print(LEAST_FRONT)
            )
        } else {
            format!(
                "Give fewer or lower drawers: all of them from {} to {} together.",
                print(LEAST_FRONT),
                print((room - reveal - LEAST_FRONT).max(LEAST_FRONT))
            )
        };
        let listed: Vec<String> = heights.iter().map(|h| print(*h)).collect();
        let message = format!(
            "Drawer fronts of {} do not share out a height of {}.",
            listed.join(", "),
            print(room)
        );
        findings.push(
            Finding::new(Severity::Stop, "front-height", "build.drawers.heights", message, hint)
                .number("room", print(room)),
        );
        return None;
    }
    let mut top = z[1];
    let mut places = Vec::new();
    for height in heights {
        places.push([top - height, top]);
        top -= height + reveal;
    }
    Some((places, [z[0], top]))
}

/// Works out the box behind each front of a bay, top down; `first` is the number of the uppermost.
pub fn boxes(
    site: &Site,
    drawers: &Drawers,
    [side, bottom]: [&Material; 2],
    fronts: &[[i64; 2]],
    fill: bool,
    findings: &mut Vec<Finding>,
) -> Option<Vec<BoxFrame>> {
    let (n, bay) = (fronts.len(), site.bay);
    let first = (bay.number.unwrap_or(1) - 1) * n;
    let mut all = Vec::new();
    for (i, front) in fronts.iter().enumerate() {
        let id = format!("drawer-{}", first + i + 1);
        let low = if fill && i + 1 == n { bay.z[0] } else { front[0].max(bay.z[0]) };
        let high = if i == 0 { bay.z[1] } else { front[1] };
        let slot = Slot {
            field: "build.drawers.box",
            id: &id,
            bay,
            z: [low, high],
            under: if i == 0 { UNDER_STRETCHER } else { AIR },
            need: None,
            full: true,
        };
        all.push(pullout::sizes(site.s, &drawers.boxes, [side, bottom], site.f, slot, findings)?);
    }
    Some(all)
}

/// Adds boxes, runners and fronts of a bay; `below` are the doors that the lowest front is set against.
pub fn add(
    piece: &mut Piece,
    site: &Site,
    drawers: &Drawers,
    sheets: [&Material; 2],
    places: &[(BoxFrame, [i64; 2])],
    below: &[Outline],
) -> Vec<Outline> {
    let [x, _] = site.field();
    for (b, _) in places {
        pullout::add(piece, site.s, &drawers.boxes, sheets, b);
        runner::add(piece, site.s, &drawers.boxes, b);
    }
    let id = |b: &BoxFrame| b.id.replace("drawer", "front");
    let mut outlines = Vec::new();
    for (i, (b, z)) in places.iter().enumerate() {
        let outline = Outline { id: id(b), x, z: *z };
        let next = places.get(i + 1).map(|(b, _)| id(b));
        let mut against: Vec<&str> = site.bay.walls.iter().map(String::as_str).collect();
        match &next {
            Some(next) => against.push(next),
            None => against.extend(below.iter().map(|o| o.id.as_str())),
        }
        front::board(piece, site, b, &outline, &against);
        outlines.push(outline);
    }
    outlines
}
