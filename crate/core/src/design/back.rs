//! The back: laid onto the rear edges from behind, in rabbets, or in grooves.

use super::Job;
use super::piece::{Panel, Piece, block, pan_row, row};
use super::{Frame, Sheets};
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::scenario::{BackSet, Seam, Top};
use crate::units::Length;

/// Thinner sheets cannot take a countersunk head.
const COUNTERSINKS: i64 = 9000;

/// Least distance kept between a seam and the edge of a shelf behind which it would fall, so that
/// the screws into the shelf's edge do not split the strip of back beside the seam.
const CLEAR_OF_SHELF: i64 = 20_000;

/// A back in grooves is cut small by this, in total. Common practice, no source.
pub const PLAY: i64 = 1_500;

/// Adds the back. `edges` are the panels behind which it lies besides sides, bottom and nailer:
/// their ids and heights.
pub fn add(
    piece: &mut Piece,
    s: &Job,
    sheets: &Sheets,
    f: &Frame,
    edges: &[(String, [i64; 2])],
    findings: &mut Vec<Finding>,
) {
    let panel = |id, grain| Panel {
        id,
        group: MAIN,
        role: Role::Back,
        material: sheets.back,
        thin: 1,
        grain,
    };
    if f.back == BackSet::Groove {
        return in_grooves(piece, sheets, f);
    }
    let y = [f.inner, f.d];
    let wide = if f.back == BackSet::Rabbet { f.dado - f.t } else { 0 };
    let x = [-wide, f.w + wide];
    let ids: &[&str] = match (s.build.back.pieces, s.build.back.seam) {
        (0 | 1, _) => {
            piece.panel(panel("back", 2), block(x, y, [f.toe, f.crown]), &[]);
            &["back"]
        }
        (_, Seam::Upright) => {
            let seam = f.w / 2;
            piece.panel(panel("back-left", 2), block([x[0], seam], y, [f.toe, f.crown]), &[]);
            piece.panel(panel("back-right", 2), block([seam, x[1]], y, [f.toe, f.crown]), &[]);
            findings.push(seam_note(
                s,
                "from the left",
                seam,
                "one side, the bottom and the nailer",
            ));
            &["back-left", "back-right"]
        }
        (_, Seam::Level) => {
            let seam = level_seam(f, edges);
            piece.panel(panel("back-lower", 2), block(x, y, [f.toe, seam]), &[]);
            piece.panel(panel("back-upper", 2), block(x, y, [seam, f.crown]), &[]);
            let held = "both sides and either the bottom or the nailer";
            findings.push(seam_note(s, "above the floor", seam, held));
            &["back-lower", "back-upper"]
        }
    };
    let screws = || {
        if f.bt < COUNTERSINKS { pan_row(Direction::Front) } else { row(Direction::Front) }
    };
    let fixed = ["left-side", "right-side", "bottom", "nailer"].into_iter();
    let above = (f.top == Top::Panel).then_some("top");
    let edges: Vec<&str> = fixed.chain(above).chain(edges.iter().map(|e| e.0.as_str())).collect();
    for id in ids {
        for edge in &edges {
            if meet(piece, id, edge) {
                piece.join(id, edge, JointKind::Overlay, false, screws());
            }
        }
    }
}

/// A panel that slides into grooves of the sides and the bottom, and of the top if that is a panel.
fn in_grooves(piece: &mut Piece, sheets: &Sheets, f: &Frame) {
    let x = [f.t - f.dado + PLAY / 2, f.w - f.t + f.dado - PLAY / 2];
    let above = match f.top {
        Top::Stretcher => f.crown,
        Top::Panel => f.ceiling() + f.dado - PLAY,
        Top::Over => f.ceiling(),
    };
    let z = [f.floor() - f.dado, above];
    let panel = Panel {
        id: "back",
        group: MAIN,
        role: Role::Back,
        material: sheets.back,
        thin: 1,
        grain: 2,
    };
    piece.panel(panel, block(x, [f.inner, f.inner + f.bt], z), &[]);
    let grooved = ["left-side", "right-side", "bottom"].into_iter();
    for id in grooved.chain((f.top == Top::Panel).then_some("top")) {
        piece.join(id, "back", JointKind::Groove, false, None);
    }
}

/// Half-way up, or just under the shelf that stands there.
fn level_seam(f: &Frame, edges: &[(String, [i64; 2])]) -> i64 {
    let mut seam = i64::midpoint(f.toe, f.crown);
    for (_, [low, high]) in edges.iter().rev() {
        if seam > low - CLEAR_OF_SHELF && seam < high + CLEAR_OF_SHELF {
            seam = low - CLEAR_OF_SHELF;
        }
    }
    seam
}

fn meet(piece: &Piece, a: &str, b: &str) -> bool {
    let find = |id: &str| piece.parts.iter().find(|p| p.id == id);
    match (find(a), find(b)) {
        (Some(a), Some(b)) => !a.solid.contacts(&b.solid).is_empty(),
        _ => false,
    }
}

fn seam_note(s: &Job, from: &str, at: i64, held: &str) -> Finding {
    let at = s.notation.print(Length(at));
    Finding::new(
        Severity::Note,
        "back-seam",
        "build.back",
        format!("The seam of the back lies {at} {from}, with air behind it."),
        format!(
            "It needs no rail: each piece is screwed along three of its edges ({held}), which keeps it flat and \
             the carcass square; the fourth edge carries nothing."
        ),
    )
    .number("seam", at)
}
