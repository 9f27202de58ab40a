//! The runners, as plain as their fit allows: what lies against wood, what carries, what slides.

use super::mass::RUNNER_MEMBER_G;
use super::piece::{Bought, Piece, at, block};
use super::pullout::{BOX, BoxFrame};
use super::{Frame, Job};
use crate::assembly::screws::Heads;
use crate::assembly::{JointKind, MAIN, Role};
use crate::geometry::{Box3, Direction, Point};
use crate::scenario::{PullOut, RunnerKind};

/// A runner with its stop reaches this far behind its box (1/2 in). From memory.
pub const BEHIND_BOX: i64 = 12_700;
/// Steel of an undermount runner's flange and foot. Common practice, no source.
pub const FOOT: i64 = 2000;
/// Least room beside the box: the flange or both webs, and the heads of their screws.
pub const LEAST_GAP: i64 = 4500;

/// Steel of a side-mount member's web. Common practice, no source.
const WEB: i64 = 1500;
/// Behind the front edges, so that the front closes against wood. Common practice, no source.
const SETBACK: i64 = 2000;
/// Height of an undermount runner's flange: its screws clear a drill that stands on the bottom.
const FLANGE: i64 = 45_000;
/// Width of an undermount runner's rail, and its air beside the box's side.
const RAIL: i64 = 12_000;
const RAIL_AIR: i64 = 1000;
/// From a runner's ends to its first and last screw (37 mm: the common line of runner holes).
const FIRST_SCREW: i64 = 37_000;

/// The distance that a drill needs between its axis and a wall beside it.
pub fn drill_room(s: &Job) -> i64 {
    s.shop.workshop.drill_width / 2 + 2000
}

/// Adds both runners; the box must be there.
pub fn add(piece: &mut Piece, s: &Job, p: &PullOut, f: &Frame, b: &BoxFrame) {
    match p.runner.kind {
        RunnerKind::Undermount => undermount(piece, s, p, f, b),
        RunnerKind::SideMount => side_mount(piece, s, p, f, b),
    }
}

/// The box seen in a mirror.
fn mirrored(b: Box3, w: i64) -> Box3 {
    block([w - b.max[0], w - b.min[0]], [b.min[1], b.max[1]], [b.min[2], b.max[2]])
}

fn stations(b: &BoxFrame) -> [i64; 3] {
    let (first, last) = (SETBACK + FIRST_SCREW, b.length - FIRST_SCREW);
    [first, i64::midpoint(first, last), last]
}

/// A flange on the carcass side, a foot under the box side, a rail under the box bottom.
fn undermount(piece: &mut Piece, s: &Job, p: &PullOut, f: &Frame, b: &BoxFrame) {
    let low = b.z[0] - FOOT;
    let high = (low + FLANGE).min(b.ceiling);
    let inner = b.x[0] + b.side;
    let rail =
        [inner + RAIL_AIR, inner + RAIL_AIR + RAIL.min(p.runner.notch_width.get() - 2 * RAIL_AIR)];
    let rise = b.recess.min(p.runner.notch_height.get());
    let y = [SETBACK, b.length + BEHIND_BOX];
    let left = [
        block([f.t, f.t + FOOT], y, [low, high]),
        block([f.t + FOOT, rail[1]], y, [low, b.z[0]]),
        // The rail starts behind the box's front, which reaches down to the sides' lower edges.
        block(rail, [b.side + RAIL_AIR, y[1]], [b.z[0], b.z[0] + rise]),
    ];
    let z = screw_height(s, f, [low + FOOT, high]);
    let sides = [
        ("left-runner", "left-side", Direction::Left, left.to_vec()),
        ("right-runner", "right-side", Direction::Right, left.map(|x| mirrored(x, f.w)).to_vec()),
    ];
    for (id, side, direction, boxes) in sides {
        let size = [b.length, high - low, rail[1] - f.t];
        // One bought part, two members.
        piece.bought(
            Bought { id, group: MAIN, role: Role::Runner, size, mass_g: 2 * RUNNER_MEMBER_G },
            boxes,
        );
        let points: Vec<Point> = stations(b).map(|y| [0, y, z]).to_vec();
        piece.join(id, side, JointKind::Overlay, false, at(direction, Heads::Pan, points));
    }
}

/// As high as the drill needs above the carcass bottom, within the metal.
fn screw_height(s: &Job, f: &Frame, metal: [i64; 2]) -> i64 {
    let margin = ((metal[1] - metal[0]) / 4).min(6000);
    (f.toe + f.t + drill_room(s)).clamp(metal[0] + margin, metal[1] - margin)
}

/// Two members on each side: the carcass's with a ledge, the box's with a tongue that lies on it.
fn side_mount(piece: &mut Piece, s: &Job, p: &PullOut, f: &Frame, b: &BoxFrame) {
    let tall = p.runner.height.get();
    // A third of the way up the box's side, where the pull of the load is nearest.
    let above = (b.z[1] - b.z[0] - tall) / 3;
    let low = b.z[0] + above;
    let (quarter, half) = (low + tall / 4, low + tall / 2);
    let (wood, skin) = (f.t, b.x[0]);
    let y = [SETBACK, b.length];
    let carcass = [
        block([wood, wood + WEB], y, [low, low + tall]),
        block([wood + WEB, skin - WEB], y, [low, quarter]),
    ];
    let member = [
        block([skin - WEB, skin], y, [low, low + tall]),
        block([wood + WEB, skin - WEB], y, [quarter, half]),
    ];
    let metal = [half + (tall / 16), low + tall];
    let z = screw_height(s, f, metal);
    let points: Vec<Point> = stations(b).map(|y| [0, y, z]).to_vec();
    let size = [b.length, tall, p.runner.thickness.get() / 2];
    let mirror = |boxes: [Box3; 2]| boxes.map(|x| mirrored(x, f.w)).to_vec();
    let members = [
        ("left-runner", MAIN, "left-side", Direction::Left, carcass.to_vec()),
        ("right-runner", MAIN, "right-side", Direction::Right, mirror(carcass)),
        ("left-box-runner", BOX, "box-left", Direction::Right, member.to_vec()),
        ("right-box-runner", BOX, "box-right", Direction::Left, mirror(member)),
    ];
    for (id, group, wood, direction, boxes) in members {
        piece
            .bought(Bought { id, group, role: Role::Runner, size, mass_g: RUNNER_MEMBER_G }, boxes);
        piece.join(id, wood, JointKind::Overlay, false, at(direction, Heads::Pan, points.clone()));
    }
}
