//! The opening: air beside and above, how far out of square the carcass may be, the floor.
//!
//! What does not fit is found while the piece is designed; these rows show the numbers.

use crate::findings::JobStage;
use crate::measure::rectangle;
use crate::scenario::Cabinet;

use super::diagonals::difference;
use super::facts::Facts;
use super::row::{CheckRow, Said, Theme};

const FITS: &str = "worked out from the sizes as measured";
const SQUARE: &str = "d1² − d2² = 4 a s (worked out); within 1/16 in, aim at 1/32 in: common practice (sawmillcreek.org; read), no published tolerance found";
const LEVEL: &str = "a run is set level within 1/8 in over 6 ft: common practice, no source";

pub fn check(f: &Facts, said: &mut Said) {
    let (Some(cabinet), Some(carcass)) = (f.cabinet(), f.around(f.standing())) else { return };
    let [w, h] = [carcass.extent(0), carcass.extent(2)];
    if let Some(opening) = rectangle::width(&cabinet.space) {
        let rest = opening - w;
        let row = row("opening-width", "space.widths")
            .says(
                "Does it go into the opening's width?",
                "width of the rectangle that fits − outside width",
                FITS,
            )
            .with("width that fits", f.length(opening))
            .with("outside width", f.length(w))
            .gives(f.length(rest), "at least 0");
        tell(row, rest >= 0, said);
        let row = row_square(f, w, h, rest.max(0));
        said.tell(row);
    }
    height(f, cabinet, h, said);
}

fn row(rule: &str, place: &str) -> CheckRow {
    CheckRow::new(rule, Theme::Fit, JobStage::Size, place)
}

/// A row whose failure the design has told already.
fn tell(mut row: CheckRow, passed: bool, said: &mut Said) {
    row.passed = Some(passed);
    said.tell(row);
}

fn row_square(f: &Facts, w: i64, h: i64, rest: i64) -> CheckRow {
    row("square-room", "space.widths")
        .says(
            "How far may the carcass be out of square before it no longer goes in?",
            "the sides lean by the air that is left: d1 − d2 from d1² − d2² = 4 a s",
            SQUARE,
        )
        .with("width", f.length(w))
        .with("height", f.length(h))
        .with("air beside it", f.length(rest))
        .gives(format!("diagonals {} apart", f.length(difference(w, h, rest))), "")
}

fn height(f: &Facts, cabinet: &Cabinet, h: i64, said: &mut Said) {
    let space = &cabinet.space;
    let (high, fall) = (rectangle::height(space), rectangle::fall_left(space));
    let rest = high - h;
    let row = row("floor-fall", "space.floor.out_of_level")
        .says(
            "Does it go under what is above, shimmed level?",
            "height of the rectangle that fits − outside height − what the floor falls besides",
            LEVEL,
        )
        .with("height that fits", f.length(high))
        .with("outside height", f.length(h))
        .with("the floor falls besides", f.length(fall))
        .gives(f.length(rest - fall), "at least 0");
    tell(row, rest >= fall, said);
}
