//! Doors on concealed hinges: leaves, borings and overlay. No hinge of any maker: a cup, an arm and a
//! plate as plain as their fit allows.

use super::Frame;
use super::bay::Bay;
use super::front::{Outline, Site, halves};
use super::mass;
use super::piece::{Bought, Panel, Piece, at, block, mirrored};
use crate::assembly::screws::Heads;
use crate::assembly::{JointKind, Role, hinges};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction};
use crate::scenario::Doors;
use crate::units::Length;

/// From here on two leaves close a bay. Common practice, no source.
const TWO_LEAVES: i64 = 600_000;
/// Thickness of a hinge's metal; half the height of flange, plate and arm; how high the arm stands
/// above the side; its mass in grams. Common practice, no source.
const METAL: i64 = 2_000;
const FLANGE: i64 = 30_000;
const PLATE: i64 = 26_000;
const ARM: i64 = 7_000;
const HIGH: i64 = 14_000;
const HINGE_G: i64 = 110;
/// From the cup's middle to its screws along and across the door's edge. From memory.
const CUP_SCREWS: [i64; 2] = [9_500, 24_000];
/// Half the distance of the plate's screws: two holes of the 32 mm grid. Common practice, no source.
const PLATE_SCREWS: i64 = 16_000;
/// The plate reaches so far behind its screws. Common practice, no source.
const BEHIND_ROW: i64 = 18_000;
/// Left of the door behind the cup, and between the wall's metal and the cup's screws. Common practice, no source.
const BEHIND_CUP: i64 = 1_000;
const BESIDE_CUP: i64 = 4_000;

/// A leaf in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Leaf {
    pub outline: Outline,
    /// Whether it hangs on the right-hand wall of its bay.
    pub right: bool,
    /// Heights of its hinges.
    pub hinges: Vec<i64>,
}

/// The leaves of a bay between `z`; `level` are the heights of panels that hinges must clear.
pub fn leaves(
    site: &Site,
    doors: &Doors,
    z: [i64; 2],
    level: &[[i64; 2]],
    findings: &mut Vec<Finding>,
) -> Vec<Leaf> {
    let (bay, front, thickness) = (site.bay, site.front, site.board.thickness.get());
    let [x, _] = site.field();
    let two = doors.count.map_or(x[1] - x[0] >= TWO_LEAVES, |n| n == 2);
    let outlines = if two {
        let [left, right] = halves(x, front.reveal.get());
        vec![(bay.id("left-door"), left, false), (bay.id("right-door"), right, true)]
    } else {
        vec![(bay.id("door"), x, doors.hung_right)]
    };
    let tall = z[1] - z[0];
    let hinges = heights(number(site, doors, &outlines, tall), doors, site.f, z, level);
    let print = |um: i64| site.s.notation.print(Length(um));
    let clear = |h: &i64| level.iter().all(|l| h + FLANGE <= l[0] || h - FLANGE >= l[1]);
    let apart = hinges.windows(2).all(|p| p[1] - p[0] >= 2 * FLANGE);
    if !apart || !hinges.iter().all(clear) {
        findings.push(
            Finding::new(
                Severity::Stop,
                "hinge-room",
                "build.doors.hinge_inset",
                format!("{} hinges have no room on a door of {}.", hinges.len(), print(tall)),
                "Give fewer hinges or another `hinge_inset`, or move the shelves.",
            )
            .number("door", print(tall)),
        );
    }
    let wall = if front.inset { 0 } else { bay.x[0] - x[0] };
    let (edge, cup) = (doors.cup_edge.get(), doors.cup.get());
    // The flange's screws stand beside the side's edge, and the cup does not come through.
    let covered = wall + METAL + BESIDE_CUP > edge + cup / 2 + CUP_SCREWS[0];
    if covered || doors.cup_depth.get() + BEHIND_CUP > thickness || 2 * (edge + cup) > x[1] - x[0] {
        findings.push(
            Finding::new(
                Severity::Stop,
                "hinge-cup",
                "build.doors.cup",
                format!(
                    "A cup of {} bored {} deep and {} from the edge does not go into a door {} thick that covers {} of the side.",
                    print(cup),
                    print(doors.cup_depth.get()),
                    print(edge),
                    print(thickness),
                    print(wall)
                ),
                format!(
                    "Read cup, depth and distance from the sheet of your hinges: up to {} deep here, for an overlay up to {}.",
                    print((thickness - BEHIND_CUP).max(0)),
                    print((edge + cup / 2 + CUP_SCREWS[0] - METAL - BESIDE_CUP).max(0))
                ),
            )
            .number("overlay", print(wall)),
        );
    }
    outlines
        .into_iter()
        .map(|(id, x, right)| Leaf { outline: Outline { id, x, z }, right, hinges: hinges.clone() })
        .collect()
}

/// Hinges on each leaf: as the file says, or as its mass and height ask for. A leaf that is too heavy for any
/// number gets the most that a file may ask for, and is told by the checks.
fn number(site: &Site, doors: &Doors, outlines: &[(String, [i64; 2], bool)], tall: i64) -> i64 {
    const MOST: u8 = 6;
    let widest = outlines.iter().map(|(_, x, _)| x[1] - x[0]).max().unwrap_or(0);
    let volume = [widest, site.board.thickness.get(), tall].map(i128::from).iter().product();
    let usual = || hinges::usual(mass::of(volume, site.board.density), tall).unwrap_or(MOST);
    doors.hinges.map_or_else(|| i64::from(usual()), i64::from).max(2)
}

/// Heights of so many hinges' middles, moved off the panels that are in their way.
fn heights(n: i64, doors: &Doors, f: &Frame, z: [i64; 2], level: &[[i64; 2]]) -> Vec<i64> {
    let inset = doors.hinge_inset.get();
    let least = (z[0] + inset).max(f.floor() + FLANGE + METAL);
    let most = z[1] - inset;
    let clear = |h: i64| level.iter().all(|l| h + FLANGE <= l[0] || h - FLANGE >= l[1]);
    // A quarter of the 32 mm grid, up to four of its steps either way.
    const STEP: i64 = 8_000;
    (0..n)
        .map(|i| {
            let even = least + (most - least) * i / (n - 1);
            let moved = (0..=16).flat_map(|k| [even + k * STEP, even - k * STEP]);
            let mut within = moved.filter(|h| *h >= f.floor() + FLANGE && h + FLANGE <= z[1]);
            within.find(|h| clear(*h)).unwrap_or(even)
        })
        .collect()
}

/// Adds the leaves of a bay, each with its hinges as a body of its own.
pub fn add(piece: &mut Piece, site: &Site, doors: &Doors, leaves: &[Leaf]) {
    let (f, bay, material) = (site.f, site.bay, site.board);
    let y = site.depth();
    for leaf in leaves {
        let id = leaf.outline.id.as_str();
        let group = format!("{id}-hung");
        piece.body(&group, &format!("{} with its hinges", id.replace('-', " ")));
        let turned = |b: Box3| if leaf.right { mirrored(b, bay.x) } else { b };
        // Where the edge lies as seen from a left-hand wall.
        let edge =
            if leaf.right { bay.x[0] + bay.x[1] - leaf.outline.x[1] } else { leaf.outline.x[0] };
        let cups: Vec<Box3> = leaf.hinges.iter().map(|h| turned(cup(doors, f, edge, *h))).collect();
        let panel = Panel { id, group: &group, role: Role::Door, material, thin: 1, grain: 2 };
        piece.panel(panel, block(leaf.outline.x, y, leaf.outline.z), &cups);
        piece.banded_all_round();
        let (wall, before) = (usize::from(leaf.right), leaves.first().filter(|l| *l != leaf));
        let mut against = vec![bay.walls[wall].as_str()];
        against.extend(before.map(|l| l.outline.id.as_str()));
        piece.set_last_against(&against);
        for (n, (h, cup)) in leaf.hinges.iter().zip(&cups).enumerate() {
            let hinge = format!("{id}-hinge-{}", n + 1);
            let mut boxes: Vec<Box3> =
                metal(doors, f, bay.x[0], edge, *h).into_iter().map(turned).collect();
            boxes.push(*cup);
            let size = [doors.plate_row.get() + BEHIND_ROW, 2 * FLANGE, doors.cup.get()];
            let bought =
                Bought { id: &hinge, group: &group, role: Role::Hinge, size, mass_g: HINGE_G };
            piece.bought(bought, boxes);
            let middle = i64::midpoint(cup.min[0], cup.max[0]);
            let [off, up] = CUP_SCREWS;
            let x = if leaf.right { middle - off } else { middle + off };
            let flange = vec![[x, 0, h - up], [x, 0, h + up]];
            let screws = at(Direction::Front, Heads::Pan, flange);
            piece.join(&hinge, id, JointKind::Overlay, false, screws);
            let row = f.plane + doors.plate_row.get();
            let plate = vec![[0, row, h - PLATE_SCREWS], [0, row, h + PLATE_SCREWS]];
            let way = if leaf.right { Direction::Right } else { Direction::Left };
            let screws = at(way, Heads::Pan, plate);
            piece.join(&hinge, &bay.walls[wall], JointKind::Overlay, false, screws);
        }
    }
}

/// The cup in the door, seen from a left-hand wall.
fn cup(doors: &Doors, f: &Frame, edge: i64, h: i64) -> Box3 {
    let (wide, from) = (doors.cup.get(), edge + doors.cup_edge.get());
    let z = [h - wide / 2, h - wide / 2 + wide];
    block([from, from + wide], [f.plane - doors.cup_depth.get(), f.plane], z)
}

/// Flange on the door, plate on the wall and the arm between them, seen from a left-hand wall.
fn metal(doors: &Doors, f: &Frame, wall: i64, edge: i64, h: i64) -> [Box3; 3] {
    let around = |half: i64| [h - half, h + half];
    let across = edge + doors.cup_edge.get() + doors.cup.get();
    let from = [f.plane, f.plane + METAL];
    let back = f.plane + doors.plate_row.get() + BEHIND_ROW;
    [
        block([wall, across], from, around(FLANGE)),
        block([wall, wall + METAL], [from[1], back], around(PLATE)),
        block([wall + METAL, wall + HIGH], [from[1], back], around(ARM)),
    ]
}

/// What a door covers of the wall it hangs on, and where its cups lie: for the size table.
pub fn overlay(bay: &Bay, leaf: &Leaf) -> i64 {
    if leaf.right { leaf.outline.x[1] - bay.x[1] } else { bay.x[0] - leaf.outline.x[0] }
}
