//! The main body: sides, bottom, toe kick, rails.

use super::Job;
use super::piece::{Panel, Piece, block, row};
use super::{Frame, Sheets};
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction};
use crate::scenario::CarcassJoint;
use crate::units::Length;

/// Says where the rails and boards of the carcass leave no room for each other.
pub fn check(s: &Job, f: &Frame, findings: &mut Vec<Finding>) {
    let p = |um: i64| s.notation.print(Length(um));
    let mut too_big = |field: &str, what: &str, value: i64, most: i64| {
        if value > most {
            findings.push(
                Finding::new(
                    Severity::Stop,
                    "carcass-room",
                    format!("build.carcass.{field}"),
                    format!("{} for the {what} is more than the carcass has room for.", p(value)),
                    format!("Give {} at most, or a bigger carcass.", p(most.max(0))),
                )
                .number("value", p(value))
                .number("most", p(most.max(0))),
            );
        }
    };
    // 50 mm of clear room between boards: enough to call it an inside.
    const CLEAR: i64 = 50_000;
    too_big("width", "thickness of both sides", 2 * f.t, f.w - CLEAR);
    too_big("depth", "thickness of the back", f.bt, f.d - CLEAR);
    too_big("stretcher_width", "stretcher", f.stretcher, f.sd - f.t);
    too_big("nailer_height", "nailer", f.nailer, f.h - f.toe - f.t - CLEAR);
    if f.toe > 0 {
        too_big("toe_height", "toe kick", f.toe, f.h - 2 * f.t - CLEAR);
        too_big("toe_recess", "toe recess", f.recess, f.sd - 2 * f.t);
    }
    if s.build.carcass.joint == CarcassJoint::Dado {
        too_big("dado_depth", "dado", f.dado, f.t * 2 / 3);
    }
}

/// The dado for a panel between `z`, in the left and in the right side, over the whole depth.
pub fn dadoes(f: &Frame, z: [i64; 2]) -> [Box3; 2] {
    [block([f.t - f.dado, f.t], [0, f.sd], z), block([f.w - f.t, f.w - f.t + f.dado], [0, f.sd], z)]
}

/// Adds the carcass; `across` are the heights of further panels let into the sides.
pub fn add(piece: &mut Piece, s: &Job, sheets: &Sheets, f: &Frame, across: &[[i64; 2]]) {
    let panel = |id, role, thin, grain| Panel {
        id,
        group: MAIN,
        role,
        material: sheets.carcass,
        thin,
        grain,
    };
    let (t, inside) = (f.t, [f.t, f.w - f.t]);
    let bottom = [f.toe, f.toe + t];

    let mut cuts = [Vec::new(), Vec::new()];
    for (side, x) in [[0, t], [f.w - t, f.w]].into_iter().enumerate() {
        if f.toe > 0 && f.recess > 0 {
            cuts[side].push(block(x, [0, f.recess], [0, f.toe]));
        }
        if f.dado > 0 {
            for z in std::iter::once(&bottom).chain(across) {
                cuts[side].push(dadoes(f, *z)[side]);
            }
        }
    }
    piece.panel(panel("left-side", Role::Side, 0, 2), block([0, t], [0, f.sd], [0, f.h]), &cuts[0]);
    piece.panel(
        panel("right-side", Role::Side, 0, 2),
        block([f.w - t, f.w], [0, f.sd], [0, f.h]),
        &cuts[1],
    );
    piece.panel(
        panel("bottom", Role::Bottom, 2, 0),
        block([t - f.dado, f.w - t + f.dado], [0, f.sd], bottom),
        &[],
    );
    if f.toe > 0 {
        let rear = [f.sd - t, f.sd];
        piece.panel(
            panel("toe-kick", Role::ToeKick, 1, 0),
            block(inside, [f.recess, f.recess + t], [0, f.toe]),
            &[],
        );
        piece.panel(panel("rear-board", Role::Rail, 1, 0), block(inside, rear, [0, f.toe]), &[]);
    }
    piece.panel(
        panel("nailer", Role::Nailer, 1, 0),
        block(inside, [f.sd - t, f.sd], [f.h - f.nailer, f.h]),
        &[],
    );
    piece.panel(
        panel("stretcher", Role::Stretcher, 2, 0),
        block(inside, [0, f.stretcher], [f.h - t, f.h]),
        &[],
    );

    let glue = s.build.carcass.glue;
    let let_in = if f.dado > 0 { JointKind::Dado } else { JointKind::Butt };
    to_sides(piece, "bottom", let_in, glue);
    for id in ["toe-kick", "rear-board", "nailer", "stretcher"] {
        to_sides(piece, id, JointKind::Butt, glue);
    }
    for id in ["toe-kick", "rear-board"] {
        piece.join("bottom", id, JointKind::Butt, glue, row(Direction::Down));
    }
}

/// Fixes a panel between the sides, with screws from outside.
pub fn to_sides(piece: &mut Piece, id: &str, kind: JointKind, glue: bool) {
    piece.join("left-side", id, kind, glue, row(Direction::Right));
    piece.join("right-side", id, kind, glue, row(Direction::Left));
}
