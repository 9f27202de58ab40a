//! The opening and what goes in: which outside size follows, and whether it fits.

use crate::findings::{Finding, Severity};
use crate::measure::rectangle;
use crate::units::{Length, Notation};

pub use super::contents::{Need, lost_in_box, lost_in_carcass, need, round_up};
use super::{Job, Sheets};

/// What the width loses from the outside of the carcass to the room for the contents.
pub fn lost_width(s: &Job, sheets: &Sheets) -> i64 {
    let boxed = match (s.build.boxes(), sheets.box_side) {
        (Some(p), Some(side)) if !s.build.on_shelves() => lost_in_box(&p.runner, side.thickness),
        _ => 0,
    };
    lost_in_carcass(s.build.dividers, sheets.carcass.thickness, boxed)
}

/// The outside width of the carcass, with the sum behind it.
pub fn outside_width(
    s: &Job,
    sheets: &Sheets,
    need: Option<Need>,
    findings: &mut Vec<Finding>,
) -> Option<(i64, String)> {
    let p = |um: i64| s.notation.finest().print(Length(um));
    let gap = s.build.carcass.side_gap.get();
    let opening = rectangle::width(s.space);
    if let Some(pinned) = s.build.carcass.width.map(Length::get) {
        if let Some(opening) = opening {
            too_big(s, "build.carcass.width", "width", pinned, opening, 2 * gap, findings);
        }
        return Some((pinned, format!("{} as given", p(pinned))));
    }
    if let Some(opening) = opening {
        let width = opening - 2 * gap;
        return Some((
            width,
            format!("{} opening − 2 × {} gap = {}", p(opening), p(gap), p(width)),
        ));
    }
    if let Some(need) = need {
        let lost = lost_width(s, sheets);
        let width = round_up(need.width + lost, s.notation);
        let why = format!(
            "{} for the contents + {} for sides and runners, rounded up = {}",
            p(need.width),
            p(lost),
            p(width)
        );
        return Some((width, why));
    }
    findings.push(Finding::new(
        Severity::Stop,
        "no-width",
        "space.widths",
        "Neither an opening, nor contents, nor a width of the carcass is given.",
        "Measure the opening at three heights, or say what goes in.",
    ));
    None
}

/// The outside height of the carcass.
pub fn outside_height(s: &Job, findings: &mut Vec<Finding>) -> (i64, String) {
    let p = |um: i64| s.notation.finest().print(Length(um));
    let (space, gap) = (rectangle::height(s.space), s.build.carcass.top_gap.get());
    let fall = rectangle::fall_left(s.space);
    if fall > gap {
        findings.push(
            Finding::new(
                Severity::Caution,
                "floor-fall",
                "space.floor.out_of_level",
                "Shimmed level from the highest point of the floor, the cabinet rises by more than the gap left above it.",
                "Check that the height was measured from the highest point, or leave a wider gap above.",
            )
            .number("fall", p(fall))
            .number("gap above", p(gap)),
        );
    }
    if let Some(pinned) = s.build.carcass.height.map(Length::get) {
        too_big(s, "build.carcass.height", "height", pinned, space, gap, findings);
        return (pinned, format!("{} as given", p(pinned)));
    }
    (space - gap, format!("{} space − {} gap = {}", p(space), p(gap), p(space - gap)))
}

/// The depth of the carcass with its back and without its front.
pub fn carcass_depth(s: &Job, front: i64, findings: &mut Vec<Finding>) -> (i64, String) {
    let p = |um: i64| s.notation.finest().print(Length(um));
    let space = rectangle::depth(s.space);
    if let Some(pinned) = s.build.carcass.depth.map(Length::get) {
        too_big(s, "build.carcass.depth", "depth", pinned + front, space, 0, findings);
        return (pinned, format!("{} as given", p(pinned)));
    }
    let depth = space - front;
    let why = if front == 0 {
        format!("{} space", p(space))
    } else {
        format!("{} space − {} front = {}", p(space), p(front), p(depth))
    };
    (depth, why)
}

/// A size that was given and does not go into the space, or only without its gap.
fn too_big(
    s: &Job,
    field: &str,
    way: &str,
    size: i64,
    space: i64,
    gap: i64,
    findings: &mut Vec<Finding>,
) {
    let p = |um: i64| s.notation.print(Length(um));
    let (severity, message) = if size > space {
        (
            Severity::Stop,
            format!("The cabinet is too big for the space in {way}, by {}.", p(size - space)),
        )
    } else if size + gap > space {
        (Severity::Caution, format!("The cabinet goes in, but without the whole gap in {way}."))
    } else {
        return;
    };
    findings.push(
        Finding::new(
            severity,
            "too-big",
            field,
            message,
            format!("Make it {} at most, or leave the field out.", p(space - gap)),
        )
        .number("size", p(size))
        .number("space", p(space))
        .number("gap", p(gap)),
    );
}

/// Up to the next width that units are commonly sold in: 3 in, or 50 mm, steps
/// (common practice, no source).
pub fn standard_width(um: i64, notation: Notation) -> i64 {
    let step = match notation {
        Notation::Inch16 | Notation::Inch32 | Notation::Inch64 => 3 * Length::INCH,
        Notation::MmHalf | Notation::MmTenth => 50_000,
    };
    (um + step - 1).div_euclid(step) * step
}

/// Whether the contents go in between the sides, and what is left over.
pub fn contents_in_width(
    s: &Job,
    room: i64,
    outside: i64,
    lost: i64,
    need: Need,
    findings: &mut Vec<Finding>,
) {
    let p = |um: i64| s.notation.print(Length(um));
    if need.width > room {
        let cure = format!(
            "Widen the opening to take a carcass of {}, choose narrower things, or let them stand in line front to back.",
            p(round_up(need.width + lost, s.notation))
        );
        contents_in(s, "width", "contents-too-wide", need.width, room, &cure, findings);
        return;
    }
    let left = room - need.width;
    let least = round_up(need.width + lost, s.notation);
    if left == 0 || least >= outside {
        return;
    }
    let standard = standard_width(least, s.notation);
    let hint = if standard < outside {
        format!(
            "A carcass of the standard width {} takes them too; a filler of {} closes the rest.",
            p(standard),
            p(outside - standard)
        )
    } else {
        "No narrower standard width takes them: leave the room as air, or share it out with spacers in the box.".to_owned()
    };
    findings.push(
        Finding::new(
            Severity::Note,
            "room-left",
            "contents",
            format!(
                "The contents leave {} of width free; the least carcass for them is {} wide.",
                p(left),
                p(least)
            ),
            hint,
        )
        .number("left over", p(left))
        .number("least carcass", p(least))
        .number("standard width", p(standard)),
    );
}

/// Whether the contents go in along one of the other ways.
pub fn contents_in(
    s: &Job,
    way: &str,
    code: &str,
    needs: i64,
    has: i64,
    cure: &str,
    findings: &mut Vec<Finding>,
) {
    let p = |um: i64| s.notation.print(Length(um));
    if needs > has {
        findings.push(
            Finding::new(
                Severity::Stop,
                code,
                "contents",
                format!(
                    "The contents need {} of {way} but have {}: {} is missing.",
                    p(needs),
                    p(has),
                    p(needs - has)
                ),
                cure,
            )
            .number("needs", p(needs))
            .number("has", p(has))
            .number("missing", p(needs - has)),
        );
    }
}
