//! A box on runners: its sizes within its bay, and its parts.

use super::bay::Bay;
use super::fit;
use super::piece::{Panel, Piece, block, row};
use super::runner::{BEHIND_BOX, FOOT, LEAST_GAP};
use super::{Frame, Job};
use crate::assembly::{JointKind, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::scenario::{Material, PullOut, RunnerKind};
use crate::units::Length;

/// Air left between the top of the box and the stretcher it passes under. Common practice, no source.
pub const UNDER_STRETCHER: i64 = 3000;

/// Least height of a box side above its bottom when none is given. Common practice, no source.
const LEAST_SIDE: i64 = 60_000;

/// What a box must fit: its field in the file, and its place in the bay.
#[derive(Debug, Clone, Copy)]
pub struct Slot<'a> {
    /// Where its numbers stand in the file.
    pub field: &'a str,
    /// Its id, and that of the body it is.
    pub id: &'a str,
    pub bay: &'a Bay,
    /// What lies under it and over it.
    pub z: [i64; 2],
    /// Air left between its top and what lies over it.
    pub under: i64,
    /// Room that what goes in takes in height, if anything does.
    pub need: Option<i64>,
    /// Whether its sides end as high as the slot allows.
    pub full: bool,
}

/// The box, closed, in micrometres.
#[derive(Debug, Clone)]
pub struct BoxFrame {
    /// Its id.
    pub id: String,
    /// The room between the panels beside it, and their ids.
    pub bay: [i64; 2],
    pub walls: [String; 2],
    /// Its front face, and what lies under it.
    pub front: i64,
    pub under: i64,
    /// Outer faces of its sides.
    pub x: [i64; 2],
    /// Lower and upper edge of its sides.
    pub z: [i64; 2],
    /// Length of runner and depth of box.
    pub length: i64,
    /// Thickness of its sides and of its bottom.
    pub side: i64,
    pub bottom: i64,
    /// From the lower edge to the underside of the bottom.
    pub recess: i64,
    /// Depth of the grooves.
    pub groove: i64,
    /// Underside of the stretcher.
    pub ceiling: i64,
}

impl BoxFrame {
    pub fn inside_width(&self) -> i64 {
        self.x[1] - self.x[0] - 2 * self.side
    }
    pub fn inside_depth(&self) -> i64 {
        self.length - 2 * self.side
    }
    /// Upper face of the bottom.
    pub fn floor(&self) -> i64 {
        self.z[0] + self.recess + self.bottom
    }
    /// Clear width, depth and height of what stands in it, up to what the box passes under.
    pub fn room(&self) -> [i64; 3] {
        [self.inside_width(), self.inside_depth(), self.ceiling - self.floor()]
    }
    /// An id for a part of it: `box-left`.
    pub fn part(&self, what: &str) -> String {
        format!("{}-{what}", self.id)
    }
}

/// Works the box out; none when a finding says why there can be none.
pub fn sizes(
    s: &Job,
    p: &PullOut,
    [side, bottom]: [&Material; 2],
    f: &Frame,
    slot: Slot,
    findings: &mut Vec<Finding>,
) -> Option<BoxFrame> {
    let field = |name: &str| format!("{}.{name}", slot.field);
    let print = |um: i64| s.notation.print(Length(um));
    let stop = |code: &str, place: &str, message: String, hint: String| {
        Finding::new(Severity::Stop, code, field(place), message, hint)
    };
    let (st, bt) = (side.thickness.get(), bottom.thickness.get());
    let r = &p.runner;
    let before = findings.len();

    let opening = slot.bay.width();
    let outside = opening - fit::lost_in_box(r, side.thickness) + 2 * st;
    let gap = (opening - outside).div_euclid(2);
    if r.kind == RunnerKind::Undermount && st > r.side_limit.get() {
        findings.push(stop(
            "side-too-thick",
            "material",
            format!(
                "The runners take box sides up to {}, these measure {}.",
                print(r.side_limit.get()),
                print(st)
            ),
            "Use a thinner sheet for the box, or runners made for thicker sides.".to_owned(),
        ));
    } else if gap < LEAST_GAP {
        findings.push(stop(
            "runner-gap",
            "runner",
            format!(
                "Between box and carcass {} are left on each side; a runner needs {}.",
                print(gap),
                print(LEAST_GAP)
            ),
            "Read thickness and deduction from the runner's own sheet again.".to_owned(),
        ));
    }
    if r.under.get() <= FOOT {
        findings.push(stop(
            "runner-under",
            "runner.under",
            format!("{} under the box leave no room for the runner's foot.", print(r.under.get())),
            format!("Give more than {}; the runner's own sheet says how much.", print(FOOT)),
        ));
    }
    if p.groove_depth.get() * 3 > st * 2 || p.groove_depth.get() * 2 <= p.bottom_play.get() {
        findings.push(stop(
            "groove-depth",
            "groove_depth",
            format!("Grooves of {} neither hold the bottom nor leave the sides whole.", print(p.groove_depth.get())),
            format!(
                "Give more than half of the bottom's play and at most two thirds of the side: from {} to {}.",
                print(p.bottom_play.get() / 2 + 1),
                print(st * 2 / 3)
            ),
        ));
    }

    let low = slot.z[0] + r.under.get();
    let ceiling = slot.z[1];
    let most = ceiling - slot.under - low;
    let least = p.bottom_recess.get() + bt + LEAST_SIDE;
    let height = match p.side_height {
        Some(height) if slot.full => height.get().min(most),
        None if slot.full => most,
        Some(height) => height.get(),
        None => (slot.need.unwrap_or(most) / 3).max(least).min(most),
    };
    // Runners are a little longer than the box they carry (about 1/2 in, from memory).
    // A box that reaches up to the nailer stops before it.
    let room = match low + height > f.clear_of_nailer() {
        true => (f.inner - f.plane).min(f.rear - f.t - f.plane),
        false => f.inner - f.plane,
    };
    let fits = |l: &&Length| l.get() + BEHIND_BOX <= room;
    let Some(length) = r.lengths.iter().filter(fits).max().map(|l| l.get()) else {
        let shortest =
            r.lengths.iter().min().map_or_else(|| "none given".to_owned(), |l| print(l.get()));
        findings.push(
            stop(
                "no-runner-fits",
                "runner.lengths",
                format!("No runner is short enough for an inside depth of {}.", print(room)),
                format!(
                    "Add a length up to {}, or make the carcass deeper.",
                    print(room - BEHIND_BOX)
                ),
            )
            .number("inside depth", print(room))
            .number("shortest runner", shortest),
        );
        return None;
    };

    if height > most || height < p.bottom_recess.get() + bt + 10_000 {
        findings.push(
            stop(
                "box-height",
                "side_height",
                format!("Box sides of {} do not go in: the box must pass under the stretcher and hold its bottom.", print(height)),
                format!("Give a height from {} to {}.", print(least), print(most)),
            )
            .number("value", print(height))
            .number("least", print(least))
            .number("most", print(most)),
        );
    }
    match r.kind {
        RunnerKind::SideMount if r.height.get() > height || r.height.get() < 20_000 => {
            findings.push(stop(
                "runner-height",
                "runner.height",
                format!(
                    "Runners {} high do not fit box sides of {}.",
                    print(r.height.get()),
                    print(height)
                ),
                format!("Give from {} up to the height of the box sides.", print(20_000)),
            ));
        }
        RunnerKind::Undermount
            if r.notch_height.get() * 2 > height
                || r.notch_height.get() < 3000
                || r.notch_width.get() < 5000
                || (r.notch_width.get() + 10_000) * 2 > outside - 2 * st =>
        {
            findings.push(stop(
                "runner-notch",
                "runner.notch_width",
                format!(
                    "Notches of {} × {} at the box's back leave no room for the runner, or nothing of the back.",
                    print(r.notch_width.get()),
                    print(r.notch_height.get())
                ),
                "Read them from the runner's own sheet again.".to_owned(),
            ));
        }
        RunnerKind::Undermount if p.bottom_recess.get() < 3000 => {
            findings.push(stop(
                "runner-recess",
                "bottom_recess",
                format!(
                    "{} under the bottom leave no room for the runner.",
                    print(p.bottom_recess.get())
                ),
                "Read the recess from the runner's own sheet; 1/2 in or 13 mm is usual.".to_owned(),
            ));
        }
        _ => {}
    }
    (findings.len() == before).then_some(BoxFrame {
        id: slot.id.to_owned(),
        bay: slot.bay.x,
        walls: slot.bay.walls.clone(),
        front: f.plane,
        under: slot.z[0],
        x: [slot.bay.x[0] + gap, slot.bay.x[0] + gap + outside],
        z: [low, low + height],
        length,
        side: st,
        bottom: bt,
        recess: p.bottom_recess.get(),
        groove: p.groove_depth.get(),
        ceiling,
    })
}

/// Adds the box.
pub fn add(piece: &mut Piece, s: &Job, p: &PullOut, sheets: [&Material; 2], b: &BoxFrame) {
    let [side, bottom] = sheets;
    piece.body(&b.id, &b.id.replace('-', " "));
    let ids = ["left", "right", "front", "back", "bottom"].map(|what| b.part(what));
    let [left, right, front, back, below] = ids.each_ref().map(String::as_str);
    let panel =
        |id, role, thin, grain| Panel { id, group: &b.id, role, material: side, thin, grain };
    let [x0, x1] = b.x;
    let (inner, y) = ([x0 + b.side, x1 - b.side], [b.front, b.front + b.length]);
    let inner_y = [y[0] + b.side, y[1] - b.side];
    let slot = [b.z[0] + b.recess, b.floor()];

    let groove = block([inner[0] - b.groove, inner[0]], y, slot);
    piece.panel(panel(left, Role::BoxSide, 0, 1), block([x0, inner[0]], y, b.z), &[groove]);
    let groove = block([inner[1], inner[1] + b.groove], y, slot);
    piece.panel(panel(right, Role::BoxSide, 0, 1), block([inner[1], x1], y, b.z), &[groove]);
    let groove = block(inner, [inner_y[0] - b.groove, inner_y[0]], slot);
    piece.panel(
        panel(front, Role::BoxFront, 1, 0),
        block(inner, [y[0], inner_y[0]], b.z),
        &[groove],
    );

    let groove = block(inner, [inner_y[1], inner_y[1] + b.groove], slot);
    let mut cuts = vec![groove];
    if p.runner.kind == RunnerKind::Undermount {
        let z = [b.z[0], b.z[0] + p.runner.notch_height.get()];
        let wide = p.runner.notch_width.get();
        cuts.push(block([inner[0], inner[0] + wide], [inner_y[1], y[1]], z));
        cuts.push(block([inner[1] - wide, inner[1]], [inner_y[1], y[1]], z));
    }
    piece.panel(panel(back, Role::BoxBack, 1, 0), block(inner, [inner_y[1], y[1]], b.z), &cuts);

    // Cut small by the play, which is shared out evenly.
    let play = p.bottom_play.get();
    let captured =
        |range: [i64; 2]| [range[0] - b.groove + play / 2, range[1] + b.groove - (play - play / 2)];
    let panel = Panel {
        id: below,
        group: &b.id,
        role: Role::BoxBottom,
        material: bottom,
        thin: 2,
        grain: 0,
    };
    piece.panel(panel, block(captured(inner), captured(inner_y), slot), &[]);

    let glue = s.build.carcass.glue;
    for end in [front, back] {
        piece.join(left, end, JointKind::Butt, glue, row(Direction::Right));
        piece.join(right, end, JointKind::Butt, glue, row(Direction::Left));
    }
    for wall in [left, right, front, back] {
        piece.join(wall, below, JointKind::Groove, false, None);
    }
}
