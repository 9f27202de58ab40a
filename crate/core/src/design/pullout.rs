//! The pull-out box: its sizes within the carcass, and its parts.

use super::fit::{self, Need};
use super::piece::{Panel, Piece, block, row};
use super::runner::{BEHIND_BOX, FOOT, LEAST_GAP};
use super::{Frame, Job};
use crate::assembly::{JointKind, Role};
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::scenario::{Material, PullOut, RunnerKind};
use crate::units::Length;

/// The body that the box is.
pub const BOX: &str = "box";

/// Air left between the top of the box and the stretcher it passes under.
const UNDER_STRETCHER: i64 = 3000;

/// Least height of a box side above its bottom when none is given.
const LEAST_SIDE: i64 = 60_000;

/// The box, closed, in micrometres.
#[derive(Debug, Clone, Copy)]
pub struct BoxFrame {
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
}

/// Works the box out; none when a finding says why there can be none.
pub fn sizes(
    s: &Job,
    p: &PullOut,
    side: &Material,
    bottom: &Material,
    f: &Frame,
    need: Option<Need>,
    findings: &mut Vec<Finding>,
) -> Option<BoxFrame> {
    let print = |um: i64| s.notation.print(Length(um));
    let stop = |code: &str, place: &str, message: String, hint: String| {
        Finding::new(Severity::Stop, code, place, message, hint)
    };
    let (st, bt) = (side.thickness.get(), bottom.thickness.get());
    let r = &p.runner;
    let before = findings.len();

    let opening = f.w - 2 * f.t;
    let outside = opening - fit::lost_in_box(r, side.thickness) + 2 * st;
    let gap = (opening - outside).div_euclid(2);
    if r.kind == RunnerKind::Undermount && st > r.side_limit.get() {
        findings.push(stop(
            "side-too-thick",
            "build.pull_out.material",
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
            "build.pull_out.runner",
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
            "build.pull_out.runner.under",
            format!("{} under the box leave no room for the runner's foot.", print(r.under.get())),
            format!("Give more than {}; the runner's own sheet says how much.", print(FOOT)),
        ));
    }
    if p.groove_depth.get() * 3 > st * 2 || p.groove_depth.get() * 2 <= p.bottom_play.get() {
        findings.push(stop(
            "groove-depth",
            "build.pull_out.groove_depth",
            format!("Grooves of {} neither hold the bottom nor leave the sides whole.", print(p.groove_depth.get())),
            format!(
                "Give more than half of the bottom's play and at most two thirds of the side: from {} to {}.",
                print(p.bottom_play.get() / 2 + 1),
                print(st * 2 / 3)
            ),
        ));
    }

    // Runners are a little longer than the box they carry (about 1/2 in, from memory).
    let fits = |l: &&Length| l.get() + BEHIND_BOX <= f.sd;
    let Some(length) = r.lengths.iter().filter(fits).max().map(|l| l.get()) else {
        let shortest =
            r.lengths.iter().min().map_or_else(|| "none given".to_owned(), |l| print(l.get()));
        findings.push(
            stop(
                "no-runner-fits",
                "build.pull_out.runner.lengths",
                format!("No runner is short enough for an inside depth of {}.", print(f.sd)),
                format!(
                    "Add a length up to {}, or make the carcass deeper.",
                    print(f.sd - BEHIND_BOX)
                ),
            )
            .number("inside depth", print(f.sd))
            .number("shortest runner", shortest),
        );
        return None;
    };

    let low = f.toe + f.t + r.under.get();
    let ceiling = f.h - f.t;
    let most = ceiling - UNDER_STRETCHER - low;
    let least = p.bottom_recess.get() + bt + LEAST_SIDE;
    let height = match p.side_height {
        Some(height) => height.get(),
        None => (need.map_or(most, |n| n.height) / 3).max(least).min(most),
    };
    if height > most || height < p.bottom_recess.get() + bt + 10_000 {
        findings.push(
            stop(
                "box-height",
                "build.pull_out.side_height",
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
                "build.pull_out.runner.height",
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
                "build.pull_out.runner.notch_width",
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
                "build.pull_out.bottom_recess",
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
        x: [f.t + gap, f.t + gap + outside],
        z: [low, low + height],
        length,
        side: st,
        bottom: bt,
        recess: p.bottom_recess.get(),
        groove: p.groove_depth.get(),
        ceiling,
    })
}

/// Whether the contents go into the box and, with it, under the stretcher.
pub fn contents(s: &Job, f: &Frame, b: &BoxFrame, need: Need, findings: &mut Vec<Finding>) {
    let cure = "Choose longer runners and a deeper carcass, or let them stand side by side.";
    fit::contents_in(s, "depth", "contents-too-deep", need.depth, b.inside_depth(), cure, findings);
    let cure = "Pulled out, they pass under the stretcher: choose lower things, a lower toe kick or a higher carcass.";
    let tall = f.h - f.t - b.floor();
    fit::contents_in(s, "height", "contents-too-high", need.height, tall, cure, findings);
}

/// Adds the box.
pub fn add(piece: &mut Piece, s: &Job, p: &PullOut, sheets: [&Material; 2], b: &BoxFrame) {
    let [side, bottom] = sheets;
    let panel = |id, role, thin, grain| Panel { id, group: BOX, role, material: side, thin, grain };
    let [x0, x1] = b.x;
    let (inner, y) = ([x0 + b.side, x1 - b.side], [0, b.length]);
    let inner_y = [b.side, b.length - b.side];
    let slot = [b.z[0] + b.recess, b.floor()];

    let groove = block([inner[0] - b.groove, inner[0]], y, slot);
    piece.panel(panel("box-left", Role::BoxSide, 0, 1), block([x0, inner[0]], y, b.z), &[groove]);
    let groove = block([inner[1], inner[1] + b.groove], y, slot);
    piece.panel(panel("box-right", Role::BoxSide, 0, 1), block([inner[1], x1], y, b.z), &[groove]);
    let groove = block(inner, [inner_y[0] - b.groove, inner_y[0]], slot);
    piece.panel(
        panel("box-front", Role::BoxFront, 1, 0),
        block(inner, [0, inner_y[0]], b.z),
        &[groove],
    );

    let groove = block(inner, [inner_y[1], inner_y[1] + b.groove], slot);
    let mut cuts = vec![groove];
    if p.runner.kind == RunnerKind::Undermount {
        let z = [b.z[0], b.z[0] + p.runner.notch_height.get()];
        let wide = p.runner.notch_width.get();
        cuts.push(block([inner[0], inner[0] + wide], [inner_y[1], b.length], z));
        cuts.push(block([inner[1] - wide, inner[1]], [inner_y[1], b.length], z));
    }
    piece.panel(
        panel("box-back", Role::BoxBack, 1, 0),
        block(inner, [inner_y[1], b.length], b.z),
        &cuts,
    );

    // Cut small by the play, which is shared out evenly.
    let play = p.bottom_play.get();
    let captured =
        |range: [i64; 2]| [range[0] - b.groove + play / 2, range[1] + b.groove - (play - play / 2)];
    let panel = Panel {
        id: "box-bottom",
        group: BOX,
        role: Role::BoxBottom,
        material: bottom,
        thin: 2,
        grain: 0,
    };
    piece.panel(panel, block(captured(inner), captured(inner_y), slot), &[]);

    let glue = s.build.carcass.glue;
    for end in ["box-front", "box-back"] {
        piece.join("box-left", end, JointKind::Butt, glue, row(Direction::Right));
        piece.join("box-right", end, JointKind::Butt, glue, row(Direction::Left));
    }
    for wall in ["box-left", "box-right", "box-front", "box-back"] {
        piece.join(wall, "box-bottom", JointKind::Groove, false, None);
    }
}
