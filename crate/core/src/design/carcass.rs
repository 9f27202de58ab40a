//! The main body: sides, bottom, rails, top, and what stands under the bottom.

use super::bay::{Bay, CLEAR};
use super::piece::{Bought, Panel, Piece, at, block, row};
use super::{Frame, Job, Sheets};
use crate::assembly::screws::Heads;
use crate::assembly::{JointKind, MAIN, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction, Point};
use crate::scenario::{BackSet, CarcassJoint, Foot, Top};
use crate::units::Length;

/// The body that a separate platform is.
const PLATFORM: &str = "platform";
/// Wider than this, the bottom is carried in its middle too. Common practice, no source.
const CARRIED: i64 = 900_000;
/// From the panels beside a bay to screws into a seat or a platform: the drill passes them, and
/// runners too. Common practice, no source.
const FROM_WALL: i64 = 80_000;
/// A leg: half its plate, half its post, thickness of its plate, distance from the edges, mass in
/// grams. Common practice, no source.
const LEG: [i64; 5] = [30_000, 15_000, 4_000, 60_000, 120];

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
    // 50 mm of clear room between boards: enough to call it an inside (common practice, no source).
    const CLEAR: i64 = 50_000;
    let dividers = i64::from(s.build.dividers);
    too_big(
        "width",
        "thickness of the upright panels",
        (2 + dividers) * f.t,
        f.w - CLEAR * (dividers + 1),
    );
    too_big("depth", "thickness of the back", f.d - f.inner, f.d - CLEAR);
    let rails = if f.top == Top::Over { f.rear / 2 } else { f.rear - f.t };
    too_big("stretcher_width", "stretcher", f.stretcher, rails);
    too_big("nailer_height", "nailer", f.nailer, f.nailer_z()[1] - f.floor() - CLEAR);
    if f.toe > 0 {
        too_big("toe_height", "toe kick", f.toe, f.crown - 2 * f.t - CLEAR);
        too_big("toe_recess", "toe recess", f.recess, f.rear - 2 * f.t);
    }
    if f.joint != CarcassJoint::Butt || f.back != BackSet::Applied {
        too_big("dado_depth", "dado", f.dado, f.t * 2 / 3);
    }
    let least = LEG[2] + 20_000;
    if f.foot == Foot::Legs && f.toe > 0 && f.toe < least {
        findings.push(
            Finding::new(
                Severity::Stop,
                "carcass-room",
                "build.carcass.toe_height",
                format!("Legs do not fit under a bottom {} above the floor.", p(f.toe)),
                format!("Give {} at least, or another `foot`.", p(least)),
            )
            .number("value", p(f.toe))
            .number("least", p(least)),
        );
    }
}

/// The dado for the bottom or the top between `z`, in the left and in the right side.
fn dadoes(f: &Frame, z: [i64; 2]) -> [Box3; 2] {
    let (cut, y) = (f.cut(z), [0, f.rear]);
    [block([f.t - cut, f.t], y, z), block([f.w - f.t, f.w - f.t + cut], y, z)]
}

/// Adds the carcass; `further` are cuts that something else asks of the sides, by their ids.
pub fn add(
    piece: &mut Piece,
    s: &Job,
    sheets: &Sheets,
    f: &Frame,
    bays: &[Bay],
    further: &[(String, Box3)],
) {
    let panel = |id, role, thin, grain| Panel {
        id,
        group: MAIN,
        role,
        material: sheets.carcass,
        thin,
        grain,
    };
    let (t, inside) = (f.t, [f.t, f.w - f.t]);
    let bottom = [f.toe, f.floor()];
    let top = [f.crown - t, f.crown];

    let mut cuts = [Vec::new(), Vec::new()];
    for (side, x) in [[0, t], [f.w - t, f.w]].into_iter().enumerate() {
        if f.low == 0 && f.toe > 0 && f.recess > 0 {
            cuts[side].push(block(x, [0, f.recess], [0, f.toe]));
        }
        let upper = (f.top == Top::Panel).then_some(&top);
        for z in std::iter::once(&bottom).chain(upper) {
            cuts[side].push(dadoes(f, *z)[side]);
        }
        let id = ["left-side", "right-side"][side];
        cuts[side].extend(further.iter().filter(|(wall, _)| wall == id).map(|(_, cut)| *cut));
        // Rabbet or groove for the back.
        let inner = if side == 0 { [t - f.dado, t] } else { [f.w - t, f.w - t + f.dado] };
        cuts[side].push(match f.back {
            BackSet::Applied => block([0, 0], [0, 0], [0, 0]),
            BackSet::Rabbet => block(inner, [f.inner, f.sd], [f.low, f.crown]),
            BackSet::Groove => block(inner, [f.inner, f.inner + f.bt], [f.low, f.crown]),
        });
    }
    let (y, z) = ([0, f.sd], [f.low, f.crown]);
    piece.panel(panel("left-side", Role::Side, 0, 2), block([0, t], y, z), &cuts[0]);
    piece.panel(panel("right-side", Role::Side, 0, 2), block([f.w - t, f.w], y, z), &cuts[1]);
    // The groove for the back, in the face of a panel that looks into the carcass.
    let groove = |z: [i64; 2]| match f.back {
        BackSet::Groove => vec![block([0, f.w], [f.inner, f.inner + f.bt], z)],
        BackSet::Applied | BackSet::Rabbet => Vec::new(),
    };
    let wide = |z| [t - f.cut(z), f.w - t + f.cut(z)];
    let below = groove([f.floor() - f.dado, f.floor()]);
    piece.panel(
        panel("bottom", Role::Bottom, 2, 0),
        block(wide(bottom), [0, f.rear], bottom),
        &below,
    );
    let rear = [f.rear - t, f.rear];
    if f.toe > 0 && f.foot == Foot::Integral {
        piece.panel(
            panel("toe-kick", Role::ToeKick, 1, 0),
            block(inside, [f.recess, f.recess + t], [0, f.toe]),
            &[],
        );
        piece.panel(panel("rear-board", Role::Rail, 1, 0), block(inside, rear, [0, f.toe]), &[]);
    }
    piece.panel(panel("nailer", Role::Nailer, 1, 0), block(inside, rear, f.nailer_z()), &[]);
    match f.top {
        Top::Stretcher | Top::Over => {
            piece.panel(
                panel("stretcher", Role::Stretcher, 2, 0),
                block(inside, [0, f.stretcher], top),
                &[],
            );
        }
        Top::Panel => {
            let above = groove([top[0], top[0] + f.dado]);
            piece.panel(panel("top", Role::Top, 2, 0), block(wide(top), [0, f.rear], top), &above);
        }
    }
    if f.top == Top::Over {
        let y = [f.rear - f.stretcher, f.rear];
        piece.panel(panel("rear-stretcher", Role::Stretcher, 2, 0), block(inside, y, top), &[]);
        let seat = block([0, f.w], [-s.build.carcass.top_overhang.get(), f.d], [f.crown, f.h]);
        piece.panel(panel("top", Role::Top, 2, 0), seat, &[]);
    }

    let glue = s.build.carcass.glue;
    let let_in = |z| if f.cut(z) > 0 { JointKind::Dado } else { JointKind::Butt };
    to_sides(piece, "bottom", let_in(bottom), glue);
    for id in ["toe-kick", "rear-board", "nailer", "stretcher", "rear-stretcher"] {
        to_sides(piece, id, JointKind::Butt, glue);
    }
    for id in ["toe-kick", "rear-board"] {
        piece.join("bottom", id, JointKind::Butt, glue, row(Direction::Down));
    }
    match f.top {
        Top::Stretcher => {}
        Top::Panel => {
            to_sides(piece, "top", let_in(top), glue);
            piece.join("top", "nailer", JointKind::Butt, glue, row(Direction::Down));
        }
        Top::Over => {
            piece.join("rear-stretcher", "nailer", JointKind::Butt, glue, row(Direction::Down));
            for id in ["stretcher", "rear-stretcher"] {
                let y = if id == "stretcher" { f.stretcher / 2 } else { f.rear - f.stretcher / 2 };
                let screws = at(Direction::Up, Heads::Flat, in_bays(bays, y));
                piece.join(id, "top", JointKind::Overlay, false, screws);
            }
        }
    }
    match f.foot {
        _ if f.toe == 0 => {}
        Foot::Integral => {}
        Foot::Platform => platform(piece, s, sheets, f, bays),
        Foot::Legs => legs(piece, f),
    }
}

/// A frame of boards under the carcass, flush with the sides. Its rear board stands so far before back and nailer
/// that the drill passes them: the carcass, finished, is screwed down from inside.
fn platform(piece: &mut Piece, s: &Job, sheets: &Sheets, f: &Frame, bays: &[Bay]) {
    piece.body(PLATFORM, "platform");
    let t = f.t;
    let panel = |id, role, thin, grain| Panel {
        id,
        group: PLATFORM,
        role,
        material: sheets.carcass,
        thin,
        grain,
    };
    let z = [0, f.toe];
    let front = [f.recess, f.recess + t];
    let behind = f.inner.min(f.rear - t) - CLEAR + t / 2;
    let rear = [behind - t, behind];
    piece.panel(panel("platform-front", Role::ToeKick, 1, 0), block([0, f.w], front, z), &[]);
    piece.panel(panel("platform-rear", Role::Rail, 1, 0), block([0, f.w], rear, z), &[]);
    let middle = (f.w > CARRIED).then_some(("platform-middle", f.w / 2 - t / 2));
    let ends = [("platform-left", 0), ("platform-right", f.w - t)];
    for (id, x) in ends.into_iter().chain(middle) {
        piece.panel(panel(id, Role::Rail, 0, 1), block([x, x + t], [front[1], rear[0]], z), &[]);
        let glue = s.build.carcass.glue;
        piece.join("platform-front", id, JointKind::Butt, glue, row(Direction::Back));
        piece.join("platform-rear", id, JointKind::Butt, glue, row(Direction::Front));
    }
    for (id, y) in [("platform-front", front), ("platform-rear", rear)] {
        let points = in_bays(bays, i64::midpoint(y[0], y[1]));
        let screws = at(Direction::Down, Heads::Flat, points);
        piece.join("bottom", id, JointKind::Butt, false, screws);
    }
}

/// Legs under the bottom, near its corners.
fn legs(piece: &mut Piece, f: &Frame) {
    let [plate, post, thick, inset, mass_g] = LEG;
    let mut columns = vec![f.t + inset, f.w - f.t - inset];
    if f.w > CARRIED {
        columns.insert(1, f.w / 2);
    }
    let rows = [f.recess + plate, f.rear - inset];
    for (n, (x, y)) in rows.iter().flat_map(|y| columns.iter().map(move |x| (*x, *y))).enumerate() {
        let id = format!("leg-{}", n + 1);
        let around = |at: i64, half: i64| [at - half, at + half];
        let boxes = vec![
            block(around(x, plate), around(y, plate), [f.toe - thick, f.toe]),
            block(around(x, post), around(y, post), [0, f.toe - thick]),
        ];
        let size = [f.toe, 2 * plate, 2 * plate];
        piece.bought(Bought { id: &id, group: MAIN, role: Role::Leg, size, mass_g }, boxes);
        let by = plate - 8_000;
        let points = [[-by, -by], [by, -by], [-by, by], [by, by]];
        let points = points.map(|[dx, dy]| [x + dx, y + dy, 0]).to_vec();
        let screws = at(Direction::Up, Heads::Pan, points);
        piece.join(&id, "bottom", JointKind::Overlay, false, screws);
    }
}

/// Two points in every bay, clear of the panels beside it: under a divider the drill has no room.
fn in_bays(bays: &[Bay], y: i64) -> Vec<Point> {
    let within = |b: &Bay| [[b.x[0] + FROM_WALL, y, 0], [b.x[1] - FROM_WALL, y, 0]];
    bays.iter().flat_map(within).collect()
}

/// Fixes a panel between the sides, with screws from outside.
pub fn to_sides(piece: &mut Piece, id: &str, kind: JointKind, glue: bool) {
    piece.join("left-side", id, kind, glue, row(Direction::Right));
    piece.join("right-side", id, kind, glue, row(Direction::Left));
}
