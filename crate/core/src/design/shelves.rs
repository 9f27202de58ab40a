//! Shelves: fixed between upright panels, or loose on pins in rows of holes.
//!
//! Pins are pressed into the panels before anything is put together, and shown on them: a shelf goes
//! in over them last.

use super::bay::Bay;
use super::levels::Loose;
use super::piece::{Panel, Piece, block, row};
use super::{Frame, Job, Sheets};
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction};
use crate::scenario::{HoleRows, Shelves};
use crate::units::Length;

/// Least clear height between two panels: a hand goes in. Common practice, no source.
pub const CLEAR: i64 = 50_000;

/// How far a pin stands out of its hole, and how deep that is. Common practice, no source.
const PIN: i64 = 7_000;
const HOLE: i64 = 9_000;

/// Wood left of a divider between two dadoes. Common practice, no source.
const LEFT_BETWEEN: i64 = 3_000;

/// The lowest hole of a row above the bottom, and the highest below the ceiling, at least: three steps of
/// the 32 mm grid. Common practice, no source.
pub const FIRST_HOLE: i64 = 96_000;

/// Under- and upper face of each shelf below `ceiling`, lowest first, each with its id. On pins, a
/// shelf takes the hole nearest below.
pub fn places(
    s: &Job,
    shelves: &Shelves,
    sheets: &Sheets,
    f: &Frame,
    ceiling: i64,
    findings: &mut Vec<Finding>,
) -> Vec<(String, [i64; 2])> {
    let t = sheets.shelf.map_or(f.t, |m| m.thickness.get());
    let floor = f.floor();
    let under_nailer = ceiling.min(f.clear_of_nailer());
    let tops: Vec<i64> = if shelves.heights.is_empty() {
        let n = i64::from(shelves.count);
        let even = |ceiling: i64, n: i64, i: i64| {
            let air = ceiling - floor - n * t;
            floor + air * i / (n + 1) + i * t
        };
        // The uppermost stays clear of the nailer; the others share the room below it.
        let last = even(ceiling, n, n).min(under_nailer - CLEAR);
        (1..n).map(|i| even(last - t, n - 1, i)).chain((n > 0).then_some(last)).collect()
    } else {
        shelves.heights.iter().map(|h| h.get()).collect()
    };
    let on_hole = |top: i64| match shelves.pins {
        Some(r) => {
            let first = floor + FIRST_HOLE + r.hole.get() / 2;
            let up = (top - t - first).max(0);
            first + up / r.pitch.get().max(1) * r.pitch.get() + t
        }
        None => top,
    };
    let tops: Vec<i64> = tops.into_iter().map(on_hole).collect();
    let p = |um: i64| s.notation.print(Length(um));
    let mut below = floor;
    for &top in &tops {
        // The nailer stands at the rear edge: a shelf may not reach into it.
        let most = under_nailer - CLEAR.min(f.nailer);
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

/// Clear heights between bottom, shelves and `ceiling`, from the lowest up.
pub fn clear_heights(f: &Frame, ceiling: i64, places: &[(String, [i64; 2])]) -> Vec<i64> {
    let floors = std::iter::once(f.floor()).chain(places.iter().map(|p| p.1[1]));
    let ceilings = places.iter().map(|p| p.1[0]).chain([ceiling]);
    floors.zip(ceilings).map(|(floor, above)| above - floor).collect()
}

/// How the shelves may be moved: those on pins of which no heights are given.
pub fn loose(
    shelves: &Shelves,
    f: &Frame,
    ceiling: i64,
    places: &[(String, [i64; 2])],
) -> Option<Loose> {
    let rows = shelves.pins.filter(|_| shelves.heights.is_empty())?;
    let [low, high] = places.first()?.1;
    Some(Loose {
        z: [f.floor(), ceiling],
        most: ceiling.min(f.clear_of_nailer()) - CLEAR.min(f.nailer),
        first: f.floor() + FIRST_HOLE + rows.hole.get() / 2,
        pitch: rows.pitch.get().max(1),
        thick: high - low,
    })
}

/// A shelf in its bay.
#[derive(Debug)]
pub struct Placed {
    id: String,
    outer: Box3,
    /// Whether it meets the carcass' own side on the left, and not a divider.
    outer_left: bool,
    /// How far its left and right end are let in, and into which panels.
    into: [i64; 2],
    walls: [String; 2],
    /// On pins: those of the left and of the right end.
    pins: Option<[Vec<Box3>; 2]>,
}

impl Placed {
    /// Its id and its heights.
    pub fn edge(&self) -> (String, [i64; 2]) {
        (self.id.clone(), [self.outer.min[2], self.outer.max[2]])
    }

    /// What it cuts into the panels beside it, by their ids.
    pub fn cuts(&self, f: &Frame) -> Vec<(String, Box3)> {
        let mut cuts = Vec::new();
        let (x, z) =
            ([self.outer.min[0], self.outer.max[0]], [self.outer.min[2], self.outer.max[2]]);
        let ends = [[x[0], x[0] + self.into[0]], [x[1] - self.into[1], x[1]]];
        for (end, wall) in self.walls.iter().enumerate() {
            if self.into[end] > 0 {
                cuts.push((wall.clone(), block(ends[end], [0, f.inner], z)));
            }
        }
        cuts
    }
}

/// The shelves of all bays.
///
/// Beside a divider the next bay's shelf is in the way of screws: a fixed shelf is screwed from its
/// right and lies in a dado on the left.
pub fn in_bays(
    s: &Job,
    shelves: &Shelves,
    f: &Frame,
    bays: &[Bay],
    places: &[(String, [i64; 2])],
    findings: &mut Vec<Finding>,
) -> Vec<Placed> {
    let front = f.plane.max(shelves.setback.get());
    if bays.len() > 1
        && shelves.pins.is_none()
        && !places.is_empty()
        && 2 * f.dado + LEFT_BETWEEN > f.t
    {
        findings.push(Finding::new(
            Severity::Stop,
            "divider-dado",
            "build.carcass.dado_depth",
            "Dadoes from both sides would leave nothing of a divider.",
            format!(
                "Give {} at most, or lay the shelves on pins.",
                s.notation.print(Length(((f.t - LEFT_BETWEEN) / 2).max(0)))
            ),
        ));
    }
    let mut placed = Vec::new();
    for bay in bays {
        let first = bay.number.is_none_or(|n| n == 1);
        for (id, z) in places {
            let side = f.cut(*z);
            let into = match &shelves.pins {
                Some(_) => [0, 0],
                None => [if first { side } else { f.dado }, side],
            };
            placed.push(Placed {
                id: match bay.number {
                    // Numbered on from bay to bay.
                    Some(_) => format!("shelf-{}", placed.len() + 1),
                    None => id.clone(),
                },
                outer: block([bay.x[0] - into[0], bay.x[1] + into[1]], [front, f.inner], *z),
                outer_left: first,
                into,
                walls: bay.walls.clone(),
                pins: shelves.pins.map(|rows| pins(&rows, f, bay, front, z[0])),
            });
        }
    }
    placed
}

/// The pins under the left and under the right end of a shelf.
fn pins(rows: &HoleRows, f: &Frame, bay: &Bay, front: i64, under: i64) -> [Vec<Box3>; 2] {
    let hole = rows.hole.get();
    let ys = [front + rows.inset.get(), f.inner - rows.inset.get()];
    let at = |x: [i64; 2]| {
        ys.map(|y| block(x, [y - hole / 2, y - hole / 2 + hole], [under - hole, under])).to_vec()
    };
    [at([bay.x[0], bay.x[0] + PIN]), at([bay.x[1] - PIN, bay.x[1]])]
}

/// Adds the shelves, with their pins.
pub fn add(piece: &mut Piece, s: &Job, sheets: &Sheets, shelves: &Shelves, placed: Vec<Placed>) {
    let play = shelves.pins.map_or(0, |r| r.play.get());
    let material = sheets.shelf.unwrap_or(sheets.carcass);
    let glue = s.build.carcass.glue;
    for shelf in placed {
        let id = shelf.id.as_str();
        let panel = Panel { id, group: MAIN, role: Role::Shelf, material, thin: 2, grain: 0 };
        piece.panel(panel, shelf.outer, &[]);
        let [left, right] = shelf.walls.each_ref().map(String::as_str);
        if let Some(pins) = shelf.pins {
            if let Some(hint) = piece.last_hint() {
                hint.air[0] = 2 * play;
            }
            for (wall, boxes) in [(left, &pins[0]), (right, &pins[1])] {
                piece.knobs(wall, boxes);
                piece.join(id, wall, JointKind::Slide, false, None);
            }
            continue;
        }
        let kind = |end: usize| if shelf.into[end] > 0 { JointKind::Dado } else { JointKind::Butt };
        // Beside a divider the next bay's shelf is in the screws' way.
        let through = shelf.outer_left;
        // Glue without screws would want a clamp, whose jaw the next shelf keeps away.
        let screws = through.then(|| row(Direction::Right)).flatten();
        piece.join(left, id, kind(0), glue && through, screws);
        piece.join(right, id, kind(1), glue, row(Direction::Left));
    }
}

/// Notes the rows of holes on the panels that have them: from the first hole up to the ceiling, in
/// front and behind.
pub fn rows(piece: &mut Piece, shelves: &Shelves, f: &Frame, bays: &[Bay], ceiling: i64) {
    let Some(rows) = &shelves.pins else { return };
    let (pitch, first) = (rows.pitch.get().max(1), f.floor() + FIRST_HOLE);
    let Ok(count) = u32::try_from((ceiling - FIRST_HOLE - first).max(0) / pitch + 1) else {
        return;
    };
    let front = f.plane.max(shelves.setback.get());
    let lowest = first + rows.hole.get() / 2;
    for bay in bays {
        for (wall, holes) in bay.walls.iter().zip(pins(rows, f, bay, front, lowest)) {
            let Some(n) = piece.parts.iter().position(|p| p.id == *wall) else { continue };
            let into = |pin: &Box3| {
                let mut hole = *pin;
                let left = pin.min[0] == bay.x[0];
                let x =
                    if left { [bay.x[0] - HOLE, bay.x[0]] } else { [bay.x[1], bay.x[1] + HOLE] };
                (hole.min[0], hole.max[0]) = (x[0], x[1]);
                hole
            };
            let inside: Vec<Box3> = holes.iter().map(into).collect();
            piece.hints[n].rows.extend(inside.into_iter().map(|hole| (hole, pitch, count)));
        }
    }
}
