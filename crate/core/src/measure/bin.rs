//! What the things that go in need, and what comes of other ways to take them.

use super::{Found, rectangle};
use crate::design::contents::{self, Need};
use crate::findings::Severity;
use crate::scenario::{Arrange, Cabinet, Content, Interior, PullOut, Scenario};
use crate::units::Length;

/// How far a runner lets the box out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extension {
    /// All of it.
    Full,
    /// Six inches stay inside: standard extension leaves 4 to 6 in (Architectural Woodwork Standards,
    /// 1st edition, 2009, appendix B).
    Standard,
}

impl Extension {
    /// How much of the box stays inside.
    pub fn stays(self) -> i64 {
        match self {
            Extension::Full => 0,
            Extension::Standard => 6 * Length::INCH,
        }
    }

    /// How many of the things are clear of what is above when the box is out: their number, and all.
    /// Depths count from the inner face of the box's front.
    pub fn clear(self, things: &[Content], inside: i64) -> (u32, u32) {
        let (mut clear, mut all) = (0, 0);
        let mut y = things.first().map_or(0, |c| c.clearance.get());
        for (n, c) in things.iter().enumerate() {
            let air = c.clearance.get();
            let (across, deep) = contents::rows(c);
            let mut left = c.count;
            for row in 0..deep {
                y += c.depth.get() + if row > 0 { air } else { 0 };
                let here = left.min(across);
                left -= here;
                all += here;
                clear += if y <= inside - self.stays() { here } else { 0 };
            }
            y += things.get(n + 1).map_or(air, |next| next.clearance.get().max(air));
        }
        (clear, all)
    }
}

/// The same things, each turned by a quarter.
fn turned(things: &[Content]) -> Vec<Content> {
    things.iter().map(|c| Content { width: c.depth, depth: c.width, ..c.clone() }).collect()
}

/// What takes the things: carcass and runner.
struct Least {
    need: Need,
    carcass: i64,
    runner: Option<i64>,
}

fn least(s: &Scenario, p: &PullOut, lost: i64, side: i64, things: &[Content]) -> Option<Least> {
    let need = contents::need(things)?;
    let runner = p.runner.lengths.iter().map(|l| l.get()).find(|&l| l - 2 * side >= need.depth);
    Some(Least { need, carcass: contents::round_up(need.width + lost, s.notation), runner })
}

pub(super) fn judge(found: &mut Found, s: &Scenario, c: &Cabinet) {
    let things = c.contents.as_slice();
    let Interior::PullOut(p) = &c.build.interior else { return };
    let thickness = |id: &str| s.shop.material(id).map(|m| m.thickness);
    let (Some(sheet), Some(side)) = (thickness(&c.build.carcass.material), thickness(&p.material))
    else {
        return;
    };
    let lost = 2 * sheet.get() + contents::lost_in_box(&p.runner, side);
    let Some(now) = least(s, p, lost, side.get(), things) else { return };
    let size =
        |f: &Found, n: &Need| format!("{} × {} × {}", f.p(n.width), f.p(n.depth), f.p(n.height));
    let text = size(found, &now.need);
    found.said(
        "contents-box",
        "Least box inside, width × depth × height",
        now.need.width,
        text,
        sum(found, things),
    );
    let why = format!(
        "{} + {} for sides and runners, rounded up",
        found.fine(now.need.width),
        found.fine(lost)
    );
    found.row("contents-carcass", "Least carcass for what goes in, width", now.carcass, why);
    if let Some(runner) = now.runner {
        let why = format!(
            "{} deep + 2 × {} of the box = {}, and the next length sold",
            found.fine(now.need.depth),
            found.fine(side.get()),
            found.fine(now.need.depth + 2 * side.get())
        );
        found.row("contents-runner", "Shortest runners for what goes in", runner, why);
        let inside = runner - 2 * side.get();
        let count = |e: Extension| e.clear(things, inside);
        let ((full, all), (some, _)) = (count(Extension::Full), count(Extension::Standard));
        let why = format!(
            "with {} runners nothing of the box stays under what is above",
            found.fine(runner)
        );
        found.said(
            "lift-full",
            "Lifted straight out, runners of full extension",
            i64::from(full),
            format!("{full} of {all}"),
            why,
        );
        let stays = found.fine(Extension::Standard.stays());
        let raise = things.iter().map(|c| c.lift.get()).max().unwrap_or(0);
        let why = format!(
            "{stays} stay inside (the most that the Architectural Woodwork Standards, 2009, give for standard extension: 4 to 6 in); what stands there needs {} of height above it, or to be tipped",
            found.fine(raise)
        );
        found.said(
            "lift-standard",
            "Lifted straight out, runners of standard extension",
            i64::from(some),
            format!("{some} of {all}"),
            why,
        );
    }
    let mass: i64 = things.iter().map(|c| c.mass_g * i64::from(c.count)).sum();
    found.said(
        "contents-mass",
        "What goes in weighs, full",
        mass,
        format!("{}.{} kg", mass / 1000, mass % 1000 / 100),
        "the runners carry this and the box; their sheet gives what they take".to_owned(),
    );
    let round = turned(things);
    if let Some(other) = least(s, p, lost, side.get(), &round)
        && other.need != now.need
    {
        let text = size(found, &other.need);
        let runner = other.runner.map_or_else(
            || "none of the runners listed is long enough".to_owned(),
            |r| format!("runners {}", found.p(r)),
        );
        let why =
            format!("turned by a quarter: carcass {} wide, {runner}", found.fine(other.carcass));
        found.said("contents-turned", "Turned, least box inside", other.need.width, text, why);
        turn_them(found, c, &now, &other);
    }
}

/// Whether turning them would help where they do not fit.
fn turn_them(found: &mut Found, c: &Cabinet, now: &Least, other: &Least) {
    let Some(room) = rectangle::width(&c.space).map(|w| w - 2 * c.build.carcass.side_gap.get())
    else {
        return;
    };
    let fits =
        |l: &Least| l.carcass <= room && l.runner.is_some_and(|r| r < rectangle::depth(&c.space));
    if fits(now) || !fits(other) {
        return;
    }
    let (n, o, r) = (found.p(now.carcass), found.p(other.carcass), found.p(room));
    let finding = found.say(
        Severity::Note,
        "turn-contents",
        "contents",
        format!("As they stand the contents need a carcass {n} wide; turned by a quarter, {o}, and there is room for {r}."),
        "Swap their width and depth.".to_owned(),
    );
    *finding = finding.clone().number("as they stand", n).number("turned", o).number("room", r);
}

/// The sum behind the least box, for the thing that decides the width.
fn sum(found: &Found, things: &[Content]) -> String {
    let widest = things.iter().max_by_key(|c| {
        let across = i64::from(contents::rows(c).0);
        across * c.width.get() + (across + 1) * c.clearance.get()
    });
    let Some(c) = widest else { return String::new() };
    let (across, deep) = contents::rows(c);
    let how = match c.arrange {
        Arrange::SideBySide => "side by side",
        Arrange::InLine => "in line",
        Arrange::Grid(_) => "in a grid",
    };
    format!(
        "{} {how}, {across} across and {deep} deep: width {across} × {} + {} × {} air",
        c.name,
        found.fine(c.width.get()),
        across + 1,
        found.fine(c.clearance.get())
    )
}
