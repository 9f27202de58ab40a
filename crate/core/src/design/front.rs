//! The applied front: one board on the box, or false fronts on a backing board.

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

/// The backing board stays this far inside the outline, out of sight (1/4 in).
const BACKING_INSET: i64 = 6350;
/// From the edge of a false front to its nearest screw.
const SCREW_INSET: i64 = 40_000;
/// Lowest front that still holds two rows of screws clear of its edges.
const LEAST_FRONT: i64 = 60_000;
/// Widest spacing of the screws into a front. Common practice, no source.
const SPACING: i64 = 300_000;

/// A front: its id, its extents along x and along z.
pub type Outline = (&'static str, [i64; 2], [i64; 2]);

/// An open base has nothing that a front could be screwed to.
pub fn nothing_to_hold_it() -> Finding {
    Finding::new(
        Severity::Fix,
        "front-without-box",
        "build.front",
        "An applied front is carried by a pull-out box, and this base has none: the front is left out.",
        "Leave `front` out, or give the base a `pull_out`.",
    )
}

/// Adds the front and says what it consists of.
pub fn add(
    piece: &mut Piece,
    s: &Job,
    front: &Front,
    sheets: [&Material; 2],
    f: &Frame,
    b: &BoxFrame,
    findings: &mut Vec<Finding>,
) -> Vec<Outline> {
    let [board, backing] = sheets;
    let t = board.thickness.get();
    let reveal = front.reveal.get();
    let (x, z) = ([reveal / 2, f.w - reveal / 2], [f.toe, f.h - reveal]);
    findings.extend(stands_high(s, z, b));
    let panel = |id, role, material| Panel { id, group: MAIN, role, material, thin: 1, grain: 2 };
    match front.style {
        FrontStyle::One => {
            piece.panel(panel("front", Role::Front, board), block(x, [-t, 0], z), &[]);
            piece.set_last_against(&["left-side", "right-side", "box-front"]);
            let screws = at(Direction::Front, Heads::Any, from_inside_the_box(s, b));
            piece.join("box-front", "front", JointKind::Overlay, false, screws);
            vec![("front", x, z)]
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
            let middle = i64::midpoint(x[0], x[1]);
            let left = [x[0], middle - reveal / 2];
            let right = [middle - reveal / 2 + reveal, x[1]];
            let inset = |r: [i64; 2]| [r[0] + BACKING_INSET, r[1] - BACKING_INSET];
            // False fronts and backing board are one body: their screws are out of reach in place.
            let panel = |id, role, material| Panel { group: FRONT, ..panel(id, role, material) };
            piece.panel(
                panel("front-panel", Role::Backing, backing),
                block(inset(x), [-bt, 0], inset(z)),
                &[],
            );
            piece.set_last_against(&["left-side", "right-side", "box-front"]);
            let screws = at(Direction::Front, Heads::Any, from_inside_the_box(s, b));
            piece.join("box-front", "front-panel", JointKind::Overlay, false, screws);
            let fronts: [(Outline, &[&str]); 3] = [
                (("left-door-front", left, doors), &["left-side"]),
                (("right-door-front", right, doors), &["left-door-front", "right-side"]),
                (("drawer-front", x, [split, z[1]]), &["left-door-front", "right-door-front"]),
            ];
            for ((id, x, z), against) in fronts {
                piece.panel(panel(id, Role::FalseFront, board), block(x, [-bt - t, -bt], z), &[]);
                piece.set_last_against(against);
                // Countersunk: the heads lie between the board and what it is screwed to.
                let screws = at(Direction::Front, Heads::Flat, through_the_backing(x, z));
                piece.join("front-panel", id, JointKind::Overlay, s.build.carcass.glue, screws);
            }
            fronts.map(|f| f.0).to_vec()
        }
    }
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
