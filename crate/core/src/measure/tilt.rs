//! Whether a piece that is built lying down can be tilted up where it stands.

use super::{Found, Standing, rectangle};
use crate::findings::Severity;
use crate::scenario::{Above, Cabinet};

/// Whether a piece `height` tall and `depth` deep turns up, on its rear lower edge, under a ceiling:
/// the diagonal is what passes upright. Exact.
pub fn tilts_up(height: i64, depth: i64, ceiling: i64) -> bool {
    diagonal(height, depth) <= ceiling
}

/// The diagonal, rounded up.
fn diagonal(a: i64, b: i64) -> i64 {
    let square = |n: i64| u128::from(n.unsigned_abs()) * u128::from(n.unsigned_abs());
    let sum = square(a) + square(b);
    let root = sum.isqrt();
    i64::try_from(root + u128::from(root * root < sum)).unwrap_or(i64::MAX)
}

pub(super) fn judge(found: &mut Found, c: &Cabinet, standing: &Standing) {
    let (height, depth) = (standing.size[2], standing.carcass);
    if c.space.measured.above != Above::Ceiling {
        return;
    }
    let ceiling = rectangle::height(&c.space);
    let needs = diagonal(height, depth);
    let why = format!(
        "the diagonal of {} high and {} deep is {}; the ceiling is at {}",
        found.fine(height),
        found.fine(depth),
        found.fine(needs),
        found.fine(ceiling)
    );
    found.row("tilt", "Height to tilt it up", needs, why);
    if needs <= ceiling {
        return;
    }
    // The tallest that still turns up, which leaves a gap to be closed with a strip.
    let square = |n: i64| i128::from(n) * i128::from(n);
    let lowest = u128::try_from(square(ceiling) - square(depth)).map_or(0, u128::isqrt);
    let lowest = i64::try_from(lowest).unwrap_or(0);
    let toe = c.build.carcass.toe_height.get();
    let (n, has, most) = (found.p(needs), found.p(ceiling), found.p(lowest));
    let apart = if toe > 0 && tilts_up(height - toe, depth, ceiling) {
        format!(
            " Or build the toe kick as a platform of its own: the rest, {} high, turns up.",
            found.p(height - toe)
        )
    } else {
        String::new()
    };
    let finding = found.say(
        Severity::Fix,
        "no-tilt",
        "space.height",
        format!("Lying on its back the piece cannot be tilted up: it needs {n} and `space.height` leaves {has}."),
        format!("Stand it up where there is more height and slide it in upright, or make `build.carcass.height` {most} at most.{apart}"),
    );
    *finding = finding
        .clone()
        .number("needs", n)
        .number("has", has)
        .number("highest that turns up", most)
        .source("geometry: the diagonal of height and depth passes upright");
}
