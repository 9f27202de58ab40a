//! The sections `install` and `accepted`.

use super::context::{Context, mm};
use crate::scenario::{Accepted, Install, file};
use crate::units::Length;

/// Most remarks that can be accepted.
const MOST: usize = 100;

pub(super) fn read(ctx: &mut Context, from: Option<&file::Install>) -> Install {
    let usual = file::Install::default();
    let i = from.unwrap_or(&usual);
    let inches = ctx.unit.is_imperial();
    let either = |inch: Length, metric: i64| if inches { inch } else { Length::um(metric) };
    let board = either(Length::inch(1, 2), 12_500);
    let side = either(Length::inch(3, 4), 18_000);
    let studs = i.studs.as_deref().unwrap_or_default();
    Install {
        to_wall: i.to_wall,
        wall_board: ctx.length("install.wall_board", i.wall_board.as_ref(), mm(0, 60), board),
        studs: ctx.lengths("install.studs", studs, mm(0, 3000), 20),
        rail: i.rail.unwrap_or(false),
        wall_screw: ctx.length_if_any("install.wall_screw", i.wall_screw.as_ref(), mm(20, 200)),
        counter: ctx.length_if_any("install.counter", i.counter.as_ref(), mm(5, 100)),
        counter_screw: ctx.length_if_any(
            "install.counter_screw",
            i.counter_screw.as_ref(),
            mm(8, 120),
        ),
        joining_screw: ctx.length_if_any(
            "install.joining_screw",
            i.joining_screw.as_ref(),
            mm(8, 120),
        ),
        neighbour_side: ctx.length(
            "install.neighbour_side",
            i.neighbour_side.as_ref(),
            mm(5, 60),
            side,
        ),
        stud_spacing: ctx.length(
            "install.stud_spacing",
            i.stud_spacing.as_ref(),
            mm(200, 1000),
            either(Length::inch(16, 1), 400_000),
        ),
        height: ctx.length("install.height", i.height.as_ref(), mm(0, 2200), Length(0)),
        corners: i.corners.as_ref().map(|c| corners(ctx, c)),
        level: ctx.length(
            "install.level",
            i.level.as_ref(),
            mm(150, 2500),
            either(Length::inch(24, 1), 600_000),
        ),
    }
}

fn corners(ctx: &mut Context, from: &file::Corners) -> [Length; 4] {
    let all = [
        ("front_left", &from.front_left),
        ("front_right", &from.front_right),
        ("rear_left", &from.rear_left),
        ("rear_right", &from.rear_right),
    ];
    all.map(|(name, written)| {
        let place = format!("install.corners.{name}");
        if written.is_none() {
            ctx.missing(&place, "Measure from one level line to the floor at all four corners.");
        }
        ctx.length(&place, written.as_ref(), mm(0, 100), Length(0))
    })
}

pub(super) fn accepted(ctx: &mut Context, from: Option<&[file::Accepted]>) -> Vec<Accepted> {
    let listed = from.unwrap_or_default();
    ctx.count("accepted", listed.len(), 0, MOST);
    let mut all = Vec::new();
    for (n, entry) in listed.iter().take(MOST).enumerate() {
        let mut needed = |field: &str, written: Option<&str>, most: usize, hint: &str| {
            let place = format!("accepted[{n}].{field}");
            if written.is_none() {
                ctx.missing(&place, hint);
            }
            ctx.text(&place, written, most, "")
        };
        all.push(Accepted {
            code: needed("code", entry.code.as_deref(), 60, "Write the code of the remark."),
            place: needed("where", entry.place.as_deref(), 200, "Write what the remark concerns."),
            reason: needed("reason", entry.reason.as_deref(), 200, "Write why you accept it."),
        });
    }
    all
}
