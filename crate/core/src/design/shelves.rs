//! Fixed shelves between the sides.

use super::Job;
use super::piece::{Panel, Piece, block};
use super::{Frame, Sheets, carcass};
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::scenario::Shelves;
use crate::units::Length;

/// Least clear height between two panels: a hand goes in.
const CLEAR: i64 = 50_000;

/// Under- and upper face of each shelf, lowest first, each with its id.
pub fn places(
    s: &Job,
    shelves: &Shelves,
    sheets: &Sheets,
    f: &Frame,
    findings: &mut Vec<Finding>,
) -> Vec<(String, [i64; 2])> {
    let t = sheets.shelf.map_or(f.t, |m| m.thickness.get());
    let floor = f.toe + f.t;
    let tops: Vec<i64> = if shelves.heights.is_empty() {
        let n = i64::from(shelves.count);
        let spread = |ceiling: i64| -> Vec<i64> {
            let air = ceiling - floor - n * t;
            (1..=n).map(|i| floor + air * i / (n + 1) + i * t).collect()
        };
        let even = spread(f.h - f.t);
        // Where the uppermost would run into the nailer, they share the room below it.
        let clear = even.last().is_none_or(|&top| top <= f.h - f.nailer - CLEAR);
        if clear { even } else { spread(f.h - f.nailer) }
    } else {
        shelves.heights.iter().map(|h| h.get()).collect()
    };
    let p = |um: i64| s.notation.print(Length(um));
    let mut below = floor;
    for &top in &tops {
        // The nailer stands at the rear edge: a shelf may not reach into it.
        let most = f.h - f.nailer - CLEAR.min(f.nailer);
        let least = below + CLEAR + t;
        if top < least || top > most {
            findings.push(
                Finding::new(
                    Severity::Stop,
                    "shelf-room",
                    "build.shelves",
                    format!("A shelf at {} has no room there.", p(top)),
                    format!(
                        "Give the shelves from the lowest up, this one from {} to {}; or ask for fewer.",
                        p(least),
                        p(most)
                    ),
                )
                .number("height", p(top))
                .number("least", p(least))
                .number("most", p(most)),
            );
        }
        below = top;
    }
    let many = tops.len() > 1;
    let id = |i: usize| {
        if many { format!("shelf-{}", i + 1) } else { "shelf".to_owned() }
    };
    tops.iter().enumerate().map(|(i, &top)| (id(i), [top - t, top])).collect()
}

/// The highest of the clear heights between bottom, shelves and stretcher.
pub fn tallest_bay(f: &Frame, places: &[(String, [i64; 2])]) -> i64 {
    let mut floor = f.toe + f.t;
    let mut tallest = 0;
    for (_, [low, high]) in places {
        tallest = tallest.max(low - floor);
        floor = *high;
    }
    tallest.max(f.h - f.t - floor)
}

/// Adds the shelves.
pub fn add(
    piece: &mut Piece,
    s: &Job,
    shelves: &Shelves,
    sheets: &Sheets,
    f: &Frame,
    places: &[(String, [i64; 2])],
) {
    let material = sheets.shelf.unwrap_or(sheets.carcass);
    let x = [f.t - f.dado, f.w - f.t + f.dado];
    let kind = if f.dado > 0 { JointKind::Dado } else { JointKind::Butt };
    for (id, z) in places {
        let panel = Panel { id, group: MAIN, role: Role::Shelf, material, thin: 2, grain: 0 };
        piece.panel(panel, block(x, [shelves.setback.get(), f.sd], *z), &[]);
        carcass::to_sides(piece, id, kind, s.build.carcass.glue);
    }
}
