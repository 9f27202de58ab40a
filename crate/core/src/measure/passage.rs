//! Doors, stairs and bends that the finished piece must pass.

use super::{Found, Standing};
use crate::findings::Severity;
use crate::scenario::Space;

/// Steps of the turn in a bend. Between two of them the room changes by hundredths of a millimetre.
const TURNS: i64 = 256;

/// Whether a rectangle `p` by `q` goes through one that is `a` by `b`, straight or tilted. Exact.
///
/// The condition for the tilted case is Carver's: with p > a >= b >= q it fits when
/// ((a + b) / (p + q))² + ((a − b) / (p − q))² >= 2 (L. Carver 1957; J. E. Wetzel, Rectangles in
/// rectangles, Mathematics Magazine 73, 2000; from memory).
fn through(p: i64, q: i64, a: i64, b: i64) -> bool {
    let [p, q] = [p.max(q), p.min(q)].map(i128::from);
    let [a, b] = [a.max(b), a.min(b)].map(i128::from);
    if p <= a && q <= b {
        return true;
    }
    if q > b || p == q {
        return false;
    }
    let square = |n: i128| n * n;
    // Tenths of a millimetre, the piece rounded up and the door down, keep the fourth powers in range.
    let (p, q, a, b) = ((p + 99) / 100, (q + 99) / 100, a / 100, b / 100);
    p > q && square((a + b) * (p - q)) + square((a - b) * (p + q)) >= 2 * square((p - q) * (p + q))
}

/// Whether a box goes straight through a door, one of its three ways ahead.
pub fn passes_door(size: [i64; 3], width: i64, height: i64) -> bool {
    (0..3).any(|ahead| through(size[(ahead + 1) % 3], size[(ahead + 2) % 3], width, height))
}

/// Whether a rectangle `long` by `thick` can be carried round a square bend between passages of
/// widths `a` and `b`: sideways, or turning with its ends along the outer walls.
fn round(long: i64, thick: i64, a: i64, b: i64) -> bool {
    if (thick <= a && long <= b) || (thick <= b && long <= a) {
        return true;
    }
    // sin = 2nN / (N² + n²), cos = (N² − n²) / (N² + n²), n from 0 to N: all angles, as fractions.
    thick <= a.min(b)
        && (0..=TURNS).all(|n| {
            let (sin, cos, one) = (2 * n * TURNS, TURNS * TURNS - n * n, TURNS * TURNS + n * n);
            (a * cos + b * sin) * one - long * sin * cos >= thick * one * one
        })
}

/// Whether a box gets round a bend, upright or lying.
pub fn passes_bend(size: [i64; 3], width: i64, turn: i64, height: i64) -> bool {
    (0..3).any(|up| {
        let (one, other) = (size[(up + 1) % 3], size[(up + 2) % 3]);
        size[up] <= height && round(one.max(other), one.min(other), width, turn)
    })
}

/// Which way round a box goes through a door, and the bend behind it if there is one; upright before
/// lying, straight before tilted.
pub(crate) fn way_through(
    size: [i64; 3],
    width: i64,
    height: i64,
    turn: Option<i64>,
) -> Option<&'static str> {
    let fits = |across: usize, up: usize| size[across] <= width && size[up] <= height;
    let bends = |up: usize| {
        let (one, other) = (size[(up + 1) % 3], size[(up + 2) % 3]);
        turn.is_none_or(|turn| round(one.max(other), one.min(other), width, turn))
    };
    let straight = [
        (0, 2, "upright, front or back ahead"),
        (1, 2, "upright, a side ahead"),
        (0, 1, "lying on its back, top or foot ahead"),
        (1, 0, "lying on a side, top or foot ahead"),
        (2, 1, "lying on its back, a side ahead"),
        (2, 0, "lying on a side, front or back ahead"),
    ];
    let found = straight.into_iter().find(|&(across, up, _)| fits(across, up) && bends(up));
    let tilted = passes_door(size, width, height)
        && turn.is_none_or(|turn| passes_bend(size, width, turn, height));
    found.map(|(.., way)| way).or_else(|| tilted.then_some("tilted"))
}

pub(super) fn judge(found: &mut Found, space: &Space, standing: &Standing) {
    let [width, _, height] = standing.size;
    let carcass = [width, standing.carcass, height];
    for (n, passage) in space.measured.passages.iter().enumerate() {
        let (width, height) = (passage.width.get(), passage.height.get());
        let passes = |size| {
            passes_door(size, width, height)
                && passage.turn.is_none_or(|turn| passes_bend(size, width, turn.get(), height))
        };
        let size = standing.size.map(|v| found.p(v)).join(" × ");
        let name = &passage.name;
        if passes(standing.size) {
            let text = "it passes".to_owned();
            let bend = passage.turn.map_or_else(String::new, |t| {
                format!(" and round a bend into {}", found.fine(t.get()))
            });
            let why =
                format!("{size} through {} × {}{bend}", found.fine(width), found.fine(height));
            found.said(&format!("passage-{}", n + 1), &format!("Through the {name}"), 1, text, why);
            continue;
        }
        let hint = if passes(carcass) {
            "Carry the carcass in by itself and hang box and front where it stands."
        } else {
            "Assemble it where it stands, or build it as two pieces that are screwed together there."
        };
        let place = format!("space.passages[{n}]");
        let (w, h) = (found.p(width), found.p(height));
        let turn = passage.turn.map(|t| found.p(t.get()));
        let around = turn.as_ref().map_or_else(String::new, |t| format!(" and the bend into {t}"));
        let finding = found.say(
            Severity::Fix,
            "no-way-in",
            &place,
            format!(
                "The finished piece, {size}, does not go through the {name}: {w} × {h}{around}."
            ),
            hint.to_owned(),
        );
        *finding = finding.clone().number("piece", size).number("width", w).number("height", h).source("geometry: a box through a rectangle and round a square bend, straight or tilted about one axis");
        if let Some(turn) = turn {
            *finding = finding.clone().number("behind the bend", turn);
        }
    }
}
