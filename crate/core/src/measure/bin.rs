//! What the things that go in need, and what comes of other ways to take them.

use super::{Found, rectangle};
use crate::design::contents::{self, Need};
use crate::findings::Severity;
use crate::scenario::{Arrange, Cabinet, Content, Interior, PullOut, Scenario};
use crate::units::{Length, Notation};

/// How far a runner lets the box out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extension {
    /// All of it.
    Full,
    /// Six inches stay inside: standard extension leaves 4 to 6 in (Architectural Woodwork Standards,
    /// 1st edition, 2009, appendix B).
    Standard,
    /// All but so much, by the runner's own sheet.
    Leaves(i64),
}

impl Extension {
    /// How much of the box stays inside.
    pub fn stays(self) -> i64 {
        match self {
            Extension::Full => 0,
            Extension::Standard => 6 * Length::INCH,
            Extension::Leaves(stays) => stays.max(0),
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

/// What takes the things: room in a box or on a level, carcass, and what its depth must hold.
struct Least {
    need: Need,
    carcass: i64,
    /// The runner, or the room itself; none when no runner listed is long enough.
    deep: Option<i64>,
}

/// What the things stand in.
struct Places<'a> {
    bays: i64,
    /// What a carcass of these bays loses in width to sides, dividers and runners.
    lost: i64,
    /// Boxes and the thickness of their sides; none on shelves.
    boxes: Option<(&'a PullOut, i64)>,
    /// Whether there is more than one box or level in a bay, so that each entry may have its own.
    many: bool,
    notation: Notation,
}

impl<'a> Places<'a> {
    fn of(s: &Scenario, c: &'a Cabinet) -> Option<Places<'a>> {
        let b = &c.build;
        let thickness = |id: &str| s.shop.material(id).map(|m| m.thickness);
        let bays = i64::from(b.dividers) + 1;
        let sheet = thickness(&b.carcass.material)?;
        let boxes = match b.boxes().filter(|_| !b.on_shelves()) {
            Some(p) => Some((p, thickness(&p.material)?)),
            None => None,
        };
        let in_box = boxes.map_or(0, |(p, side)| contents::lost_in_box(&p.runner, side));
        let many = match &b.interior {
            Interior::PullOut(_) => false,
            Interior::Shelves(i) if b.on_shelves() => i.count > 0 || !i.heights.is_empty(),
            Interior::Shelves(_) => b.drawers.as_ref().is_some_and(|d| d.count > 1),
        };
        Some(Places {
            bays,
            lost: contents::lost_in_carcass(b.dividers, sheet, in_box),
            boxes: boxes.map(|(p, side)| (p, side.get())),
            many,
            notation: s.notation,
        })
    }

    /// The things that stand together: all of them, or each entry by itself.
    fn groups<'t>(&self, things: &'t [Content]) -> impl Iterator<Item = &'t [Content]> + use<'t> {
        things.chunks(if self.many { 1 } else { things.len().max(1) })
    }

    fn least(&self, things: &[Content]) -> Option<Least> {
        let needs = self.groups(things).filter_map(contents::need);
        let need = needs.reduce(|a, b| Need {
            width: a.width.max(b.width),
            depth: a.depth.max(b.depth),
            height: a.height.max(b.height),
        })?;
        let deep = match self.boxes {
            None => Some(need.depth),
            Some((p, side)) => {
                let long = |l: &i64| l - 2 * side >= need.depth;
                p.runner.lengths.iter().map(|l| l.get()).find(long)
            }
        };
        let carcass = contents::round_up(self.bays * need.width + self.lost, self.notation);
        Some(Least { need, carcass, deep })
    }
}

pub(super) fn judge(found: &mut Found, s: &Scenario, c: &Cabinet) {
    let things = c.contents.as_slice();
    let Some(places) = Places::of(s, c) else { return };
    let Some(now) = places.least(things) else { return };
    let (boxed, bays) = (places.boxes.is_some(), places.bays);
    let size =
        |f: &Found, n: &Need| format!("{} × {} × {}", f.p(n.width), f.p(n.depth), f.p(n.height));
    let label = if boxed {
        "Least box inside, width × depth × height"
    } else {
        "Least room on a level, width × depth × height"
    };
    let text = size(found, &now.need);
    found.said("contents-box", label, now.need.width, text, sum(found, things));
    let times = if bays > 1 { format!("{bays} × ") } else { String::new() };
    let why = format!(
        "{times}{} + {} for {}, rounded up",
        found.fine(now.need.width),
        found.fine(places.lost),
        if boxed { "sides and runners" } else { "sides" }
    );
    found.row("contents-carcass", "Least carcass for what goes in, width", now.carcass, why);
    if let (Some((_, side)), Some(runner)) = (places.boxes, now.deep) {
        runners(found, &places, things, now.need.depth, side, runner);
    }
    let mass: i64 = things.iter().map(|c| c.mass_g * i64::from(c.count)).sum();
    let why = if boxed {
        "the runners carry this and the box; their sheet gives what they take"
    } else {
        "bottom and shelves carry this, in each bay; what they bend is among the checks"
    };
    found.said(
        "contents-mass",
        "What goes in weighs, full",
        mass,
        format!("{}.{} kg", mass / 1000, mass % 1000 / 100),
        why.to_owned(),
    );
    let round = turned(things);
    if let Some(other) = places.least(&round)
        && other.need != now.need
    {
        let text = size(found, &other.need);
        let runner = match (boxed, other.deep) {
            (false, _) => String::new(),
            (true, None) => ", none of the runners listed is long enough".to_owned(),
            (true, Some(r)) => format!(", runners {}", found.p(r)),
        };
        let why =
            format!("turned by a quarter: carcass {} wide{runner}", found.fine(other.carcass));
        let label =
            if boxed { "Turned, least box inside" } else { "Turned, least room on a level" };
        found.said("contents-turned", label, other.need.width, text, why);
        turn_them(found, c, &now, &other);
    }
}

/// The runners that take the things, and how many of these come straight out.
fn runners(
    found: &mut Found,
    places: &Places,
    things: &[Content],
    depth: i64,
    side: i64,
    runner: i64,
) {
    let why = format!(
        "{} deep + 2 × {} of the box = {}, and the next length sold",
        found.fine(depth),
        found.fine(side),
        found.fine(depth + 2 * side)
    );
    found.row("contents-runner", "Shortest runners for what goes in", runner, why);
    let inside = runner - 2 * side;
    let count = |e: Extension| {
        let each = places.groups(things).map(|group| e.clear(group, inside));
        each.fold((0, 0), |(clear, all), (c, a)| (clear + c, all + a))
    };
    let ((full, all), (some, _)) = (count(Extension::Full), count(Extension::Standard));
    let why =
        format!("with {} runners nothing of the box stays under what is above", found.fine(runner));
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

/// Whether turning them would help where they do not fit.
fn turn_them(found: &mut Found, c: &Cabinet, now: &Least, other: &Least) {
    let Some(room) = rectangle::width(&c.space).map(|w| w - 2 * c.build.carcass.side_gap.get())
    else {
        return;
    };
    let fits =
        |l: &Least| l.carcass <= room && l.deep.is_some_and(|d| d < rectangle::depth(&c.space));
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
