//! The runners, as plain as their fit allows: what lies against wood, what carries, what slides.

use super::Job;
use super::mass::RUNNER_MEMBER_G;
use super::piece::{Bought, Piece, at, block, mirrored};
use super::pullout::BoxFrame;
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
/// Height of an undermount runner's flange: its screws clear a drill that stands on the bottom. Common
/// practice, no source, as what follows.
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
pub fn add(piece: &mut Piece, s: &Job, p: &PullOut, b: &BoxFrame) {
    match p.runner.kind {
        RunnerKind::Undermount => undermount(piece, s, p, b),
        RunnerKind::SideMount => side_mount(piece, s, p, b),
    }
}

/// The id of a member: that of the only box goes without the box's name.
fn member(b: &BoxFrame, of_only: &str, what: &str) -> String {
    if b.id == "box" { of_only.to_owned() } else { b.part(what) }
}

fn stations(b: &BoxFrame) -> [i64; 3] {
    let (first, last) = (b.front + SETBACK + FIRST_SCREW, b.front + b.length - FIRST_SCREW);
    [first, i64::midpoint(first, last), last]
}

/// A flange on the carcass side, a foot under the box side, a rail under the box bottom.
fn undermount(piece: &mut Piece, s: &Job, p: &PullOut, b: &BoxFrame) {
    let low = b.z[0] - FOOT;
    let high = (low + FLANGE).min(b.ceiling);
    let wood = b.bay[0];
    let inner = b.x[0] + b.side;
    let rail =
        [inner + RAIL_AIR, inner + RAIL_AIR + RAIL.min(p.runner.notch_width.get() - 2 * RAIL_AIR)];
    let rise = b.recess.min(p.runner.notch_height.get());
    let y = [b.front + SETBACK, b.front + b.length + BEHIND_BOX];
    let left = [
        block([wood, wood + FOOT], y, [low, high]),
        block([wood + FOOT, rail[1]], y, [low, b.z[0]]),
        // The rail starts behind the box's front, which reaches down to the sides' lower edges.
        block(rail, [b.front + b.side + RAIL_AIR, y[1]], [b.z[0], b.z[0] + rise]),
    ];
    let z = screw_height(s, b, [low + FOOT, high]);
    let right = left.map(|x| mirrored(x, b.bay));
    let sides = [("left-runner", Direction::Left, left), ("right-runner", Direction::Right, right)];
    for (wall, (what, direction, boxes)) in b.walls.iter().zip(sides) {
        let id = member(b, what, what);
        let size = [b.length, high - low, rail[1] - wood];
        // One bought part, two members.
        let bought =
            Bought { id: &id, group: MAIN, role: Role::Runner, size, mass_g: 2 * RUNNER_MEMBER_G };
        piece.bought(bought, boxes.to_vec());
        let points: Vec<Point> = stations(b).map(|y| [0, y, z]).to_vec();
        piece.join(&id, wall, JointKind::Overlay, false, at(direction, Heads::Pan, points));
    }
}

/// As high as the drill needs above what lies under the box, within the metal.
fn screw_height(s: &Job, b: &BoxFrame, metal: [i64; 2]) -> i64 {
    let margin = ((metal[1] - metal[0]) / 4).min(6000);
    (b.under + drill_room(s)).clamp(metal[0] + margin, metal[1] - margin)
}

/// Two members on each side: the carcass's with a ledge, the box's with a tongue that lies on it.
fn side_mount(piece: &mut Piece, s: &Job, p: &PullOut, b: &BoxFrame) {
    let tall = p.runner.height.get();
    // A third of the way up the box's side, where the pull of the load is nearest.
    let above = (b.z[1] - b.z[0] - tall) / 3;
    let low = b.z[0] + above;
    let (quarter, half) = (low + tall / 4, low + tall / 2);
    let (wood, skin) = (b.bay[0], b.x[0]);
    let y = [b.front + SETBACK, b.front + b.length];
    let carcass = [
        block([wood, wood + WEB], y, [low, low + tall]),
        block([wood + WEB, skin - WEB], y, [low, quarter]),
    ];
    let tongue = [
        block([skin - WEB, skin], y, [low, low + tall]),
        block([wood + WEB, skin - WEB], y, [quarter, half]),
    ];
    let metal = [half + (tall / 16), low + tall];
    let z = screw_height(s, b, metal);
    let points: Vec<Point> = stations(b).map(|y| [0, y, z]).to_vec();
    let size = [b.length, tall, p.runner.thickness.get() / 2];
    let mirror = |boxes: [Box3; 2]| boxes.map(|x| mirrored(x, b.bay));
    let left = [b.part("left"), b.part("right")];
    let names = [
        member(b, "left-runner", "left-runner"),
        member(b, "right-runner", "right-runner"),
        member(b, "left-box-runner", "left-inner-runner"),
        member(b, "right-box-runner", "right-inner-runner"),
    ];
    let members = [
        (&names[0], MAIN, &b.walls[0], Direction::Left, carcass),
        (&names[1], MAIN, &b.walls[1], Direction::Right, mirror(carcass)),
        (&names[2], b.id.as_str(), &left[0], Direction::Right, tongue),
        (&names[3], b.id.as_str(), &left[1], Direction::Left, mirror(tongue)),
    ];
    for (id, group, wood, direction, boxes) in members {
        piece.bought(
            Bought { id, group, role: Role::Runner, size, mass_g: RUNNER_MEMBER_G },
            boxes.to_vec(),
        );
        piece.join(id, wood, JointKind::Overlay, false, at(direction, Heads::Pan, points.clone()));
    }
}
