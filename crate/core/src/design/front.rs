//! Fronts: where they lie, and what is screwed to a box: one board, or false fronts on a backing board.

use super::bay::Bay;
use super::piece::{Panel, Piece, at, block};
use super::pullout::BoxFrame;
use super::runner::drill_room;
use super::{Frame, Job};
use crate::assembly::screws::Heads;
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::{Direction, Point};
use crate::scenario::{Front, FrontStyle, Material};
use crate::units::Length;

/// The body that false fronts and their backing board are.
pub const FRONT: &str = "front";

/// The backing board stays this far inside the outline, out of sight (1/4 in). Common practice, no
/// source, as what follows.
const BACKING_INSET: i64 = 6350;
/// From the edge of a false front to its nearest screw.
const SCREW_INSET: i64 = 40_000;
/// Lowest front that still holds two rows of screws clear of its edges.
pub const LEAST_FRONT: i64 = 60_000;
/// Widest spacing of the screws into a front. Common practice, no source.
const SPACING: i64 = 300_000;

/// A front: its id, its extents along x and along z.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    pub id: String,
    pub x: [i64; 2],
    pub z: [i64; 2],
}

/// A bay with the fronts that close it.
#[derive(Debug, Clone, Copy)]
pub struct Site<'a> {
    pub s: &'a Job<'a>,
    pub f: &'a Frame,
    pub bay: &'a Bay,
    pub front: &'a Front,
    pub board: &'a Material,
}

impl Site<'_> {
    /// What its fronts share: from the outside, or from its panels, less the gaps.
    pub fn field(&self) -> [[i64; 2]; 2] {
        let (f, bay, reveal) = (self.f, self.bay, self.front.reveal.get());
        if self.front.inset {
            let within = |r: [i64; 2]| [r[0] + reveal, r[1] - reveal];
            return [within(bay.x), within(bay.z)];
        }
        let left = if bay.cover[0] == 0 { reveal / 2 } else { reveal - reveal / 2 };
        [[bay.cover[0] + left, bay.cover[1] - reveal / 2], [f.toe, f.crown - reveal]]
    }

    /// Extents of a front along y.
    pub fn depth(&self) -> [i64; 2] {
        [self.f.plane - self.board.thickness.get(), self.f.plane]
    }
}

/// An open base has nothing that a front could be screwed to.
pub fn nothing_to_hold_it() -> Finding {
    Finding::new(
        Severity::Fix,
        "front-without-box",
        "build.front",
        "A front is carried by a pull-out box, a drawer or hinges, and this base has none: the front is left out.",
        "Leave `front` out, or give the base a `pull_out`, `drawers` or `doors`.",
    )
}

/// Adds one board on a box, set against `against`.
pub fn board(piece: &mut Piece, site: &Site, b: &BoxFrame, outline: &Outline, against: &[&str]) {
    let id = outline.id.as_str();
    let panel =
        Panel { id, group: MAIN, role: Role::Front, material: site.board, thin: 1, grain: 2 };
    piece.panel(panel, block(outline.x, site.depth(), outline.z), &[]);
    piece.banded_all_round();
    piece.set_last_against(against);
    let screws = at(Direction::Front, Heads::Any, from_inside_the_box(site.s, b));
    piece.join(&b.part("front"), id, JointKind::Overlay, false, screws);
}

/// Adds the front of a pull-out and says what it consists of.
pub fn add(
    piece: &mut Piece,
    site: &Site,
    backing: &Material,
    b: &BoxFrame,
    findings: &mut Vec<Finding>,
) -> Vec<Outline> {
    let (s, bay, material) = (site.s, site.bay, site.board);
    let t = material.thickness.get();
    let reveal = site.front.reveal.get();
    let [x, z] = site.field();
    findings.extend(stands_high(s, z, b));
    let inner_front = b.part("front");
    let set = [bay.walls[0].as_str(), bay.walls[1].as_str(), inner_front.as_str()];
    match site.front.style {
        FrontStyle::One => {
            let outline = Outline { id: bay.id("front"), x, z };
            board(piece, site, b, &outline, &set);
            vec![outline]
        }
        FrontStyle::DrawerOverDoors { drawer_height } => {
            let bt = backing.thickness.get();
            let split = z[1] - drawer_height.get();
            let doors = [z[0], split - reveal];
            if drawer_height.get() < LEAST_FRONT || doors[1] - doors[0] < LEAST_FRONT {
                let most = z[1] - z[0] - reveal - LEAST_FRONT;
                let print = |um: i64| s.notation.print(Length(um));
                findings.push(
                    Finding::new(
                        Severity::Stop,
                        "front-height",
                        "build.front.drawer_height",
                        format!(
                            "A drawer front of {} leaves no room for itself or for the doors.",
                            print(drawer_height.get())
                        ),
                        format!(
                            "Give a height from {} to {}.",
                            print(LEAST_FRONT),
                            print(most.max(LEAST_FRONT))
                        ),
                    )
                    .number("value", print(drawer_height.get())),
                );
                return Vec::new();
            }
            let [left, right] = halves(x, reveal);
            let inset = |r: [i64; 2]| [r[0] + BACKING_INSET, r[1] - BACKING_INSET];
            // False fronts and backing board are one body: their screws are out of reach in place.
            let group = bay.id(FRONT);
            piece.body(&group, &group.replace('-', " "));
            let panel = |id, role, material| Panel {
                id,
                group: group.as_str(),
                role,
                material,
                thin: 1,
                grain: 2,
            };
            let behind = bay.id("front-panel");
            piece.panel(
                panel(&behind, Role::Backing, backing),
                block(inset(x), [-bt, 0], inset(z)),
                &[],
            );
            piece.set_last_against(&set);
            let screws = at(Direction::Front, Heads::Any, from_inside_the_box(s, b));
            piece.join(&inner_front, &behind, JointKind::Overlay, false, screws);
            let ids = ["left-door-front", "right-door-front", "drawer-front"].map(|id| bay.id(id));
            let against: [&[&str]; 3] =
                [&[set[0]], &[ids[0].as_str(), set[1]], &[ids[0].as_str(), ids[1].as_str()]];
            let places = [(left, doors), (right, doors), (x, [split, z[1]])];
            for ((id, against), (x, z)) in ids.iter().zip(against).zip(places) {
                piece.panel(
                    panel(id, Role::FalseFront, material),
                    block(x, [-bt - t, -bt], z),
                    &[],
                );
                piece.banded_all_round();
                piece.set_last_against(against);
                // Countersunk: the heads lie between the board and what it is screwed to.
                let screws = at(Direction::Front, Heads::Flat, through_the_backing(x, z));
                piece.join(&behind, id, JointKind::Overlay, s.build.carcass.glue, screws);
            }
            let outline = |(id, (x, z)): (String, _)| Outline { id, x, z };
            ids.into_iter().zip(places).map(outline).collect()
        }
    }
}

/// Two halves with a gap in the middle.
pub fn halves(x: [i64; 2], reveal: i64) -> [[i64; 2]; 2] {
    let left = i64::midpoint(x[0], x[1]) - reveal / 2;
    [[x[0], left], [left + reveal, x[1]]]
}

/// A front that stands far above the box it hangs on is pulled by its upper edge.
///
/// More than one and a half times the height of the box: common practice, no source.
fn stands_high(s: &Job, z: [i64; 2], b: &BoxFrame) -> Option<Finding> {
    let (above, tall) = (z[1] - b.z[1], b.z[1] - b.z[0]);
    if above * 2 <= tall * 3 {
        return None;
    }
    let print = |um: i64| s.notation.print(Length(um));
    Some(
        Finding::new(
            Severity::Caution,
            "front-stands-high",
            "build.front",
            format!(
                "The front stands {} above the box, whose sides are {} high: a pull at its top bends the joint.",
                print(above),
                print(tall)
            ),
            "Make the sides of the box higher, set the pull low, or brace the front from the box sides with corner blocks.",
        )
        .number("above the box", print(above))
        .number("box sides", print(tall))
        .source("common practice, no source"),
    )
}

/// Screws through the box's front, far enough from sides and bottom for the drill.
fn from_inside_the_box(s: &Job, b: &BoxFrame) -> Vec<Point> {
    let room = drill_room(s);
    let inner = [b.x[0] + b.side, b.x[1] - b.side];
    let rows = ends([b.floor() + room, b.z[1] - 25_000], [b.floor(), b.z[1]]);
    grid(ends([inner[0] + room, inner[1] - room], inner), rows)
}

/// Screws through the backing board into a false front, driven while both lie on the bench.
fn through_the_backing(x: [i64; 2], z: [i64; 2]) -> Vec<Point> {
    let inset = |a: [i64; 2]| {
        let by = SCREW_INSET.min((a[1] - a[0]) / 4);
        ends([a[0] + by, a[1] - by], a)
    };
    grid(inset(x), inset(z))
}

/// From one end to the other when they lie well apart, else the middle of the `whole`.
fn ends(range: [i64; 2], whole: [i64; 2]) -> Vec<i64> {
    let run = range[1] - range[0];
    if run < 50_000 {
        let middle = if run >= 0 {
            i64::midpoint(range[0], range[1])
        } else {
            i64::midpoint(whole[0], whole[1])
        };
        return vec![middle];
    }
    let bays = ((run + SPACING - 1) / SPACING).max(1);
    (0..=bays).map(|i| range[0] + run * i / bays).collect()
}

fn grid(columns: Vec<i64>, rows: Vec<i64>) -> Vec<Point> {
    rows.iter().flat_map(|&z| columns.iter().map(move |&x| [x, 0, z])).collect()
}
