//! Pinned sizes: which given size must change, and by how much, so that a row of the size table comes
//! out as it must.
//!
//! Nothing is solved by formula: a size is moved by the difference and all is worked out again, so
//! that a pin holds for whatever the design does, or is told not to.

use super::{Job, Sheets, arrange, limits};
use crate::findings::{Finding, Severity};
use crate::outcome::SizeRow;
use crate::scenario::near::nearest;
use crate::scenario::{Build, FrontStyle, Interior};
use crate::units::Length;

/// A size that may give way: it is set to what it came to plus the difference. False when it is given
/// in the file already, or there is none.
type Driver = (&'static str, fn(&mut Build, i64, &[SizeRow]) -> bool);

fn came_to(rows: &[SizeRow], id: &str) -> i64 {
    rows.iter().find(|r| r.id == id).map_or(0, |r| r.value)
}

fn free(slot: &mut Option<Length>, value: i64) -> bool {
    let free = slot.is_none() && value > 0;
    if free {
        *slot = Some(Length(value));
    }
    free
}

const DRIVERS: [Driver; 9] = [
    ("build.carcass.width", |b, by, rows| {
        free(&mut b.carcass.width, came_to(rows, "carcass-width") + by)
    }),
    ("build.carcass.height", |b, by, rows| {
        free(&mut b.carcass.height, came_to(rows, "carcass-height") + by)
    }),
    ("build.carcass.depth", |b, by, rows| {
        free(&mut b.carcass.depth, came_to(rows, "carcass-depth") + by)
    }),
    ("the lengths of the runners", |b, by, rows| {
        let length = came_to(rows, "runner-length") + by;
        let boxes = match (&mut b.interior, &mut b.drawers) {
            (Interior::PullOut(p), _) => p,
            (_, Some(d)) => &mut d.boxes,
            _ => return false,
        };
        let sold = boxes.runner.lengths.contains(&Length(length));
        if sold {
            boxes.runner.lengths = vec![Length(length)];
        }
        sold
    }),
    ("the height of the box sides", |b, by, rows| match (&mut b.interior, &mut b.drawers) {
        (Interior::PullOut(p), _) => free(&mut p.side_height, came_to(rows, "box-height") + by),
        (_, Some(d)) => free(&mut d.boxes.side_height, came_to(rows, "drawer-1-height") + by),
        _ => false,
    }),
    ("build.front.drawer_height", |b, by, _| {
        let style = b.front.as_mut().map(|f| &mut f.style);
        if let Some(FrontStyle::DrawerOverDoors { drawer_height }) = style {
            *drawer_height += Length(by);
            return drawer_height.get() > 0;
        }
        false
    }),
    ("build.drawers.heights", |b, by, rows| match &mut b.drawers {
        Some(d) if d.heights.len() < usize::from(d.count) => {
            let next = format!("front-{}-height", d.heights.len() + 1);
            let height = came_to(rows, &next) + by;
            d.heights.push(Length(height));
            height > 0
        }
        _ => false,
    }),
    ("build.shelves.heights", |b, by, rows| match &mut b.interior {
        Interior::Shelves(s) if s.heights.is_empty() && s.count == 1 => {
            s.heights.push(Length(came_to(rows, "shelf-height") + by));
            s.count = 0;
            true
        }
        _ => false,
    }),
    ("build.front.reveal", |b, by, _| match &mut b.front {
        Some(f) => {
            f.reveal += Length(by);
            limits::REVEAL.contains(&f.reveal.get())
        }
        None => false,
    }),
];

/// The build with its pins met, as far as they can be; nothing when there is none.
pub fn meet(s: &Job, sheets: &Sheets, findings: &mut Vec<Finding>) -> Option<Build> {
    if s.build.pins.is_empty() {
        return None;
    }
    let mut build = s.build.clone();
    let rows = |build: &Build| {
        let job = Job { build, ..*s };
        arrange(&job, sheets, &mut Vec::new()).map(|(_, rows)| rows).unwrap_or_default()
    };
    let mut met: Vec<(&str, i64)> = Vec::new();
    for (id, length) in &s.build.pins {
        let now = rows(&build);
        let Some(row) = now.iter().find(|r| r.id == *id) else {
            findings.push(unknown(id, &now));
            continue;
        };
        let pin = (id.as_str(), length.get());
        match reach(&build, &now, pin, &met, &rows) {
            Ok(reached) => {
                build = reached;
                met.push(pin);
            }
            Err(broken) => findings.push(clash(s, row, *length, &broken)),
        }
    }
    Some(build)
}

/// Moves one size so that the pin is met and those met before stay so; else the pins that every way
/// breaks.
fn reach(
    build: &Build,
    now: &[SizeRow],
    pin: (&str, i64),
    met: &[(&str, i64)],
    rows: &impl Fn(&Build) -> Vec<SizeRow>,
) -> Result<Build, Vec<String>> {
    let holds = |rows: &[SizeRow], p: &(&str, i64)| {
        // Sums are rounded to the micrometre, one by one.
        rows.iter().any(|r| r.id == p.0 && (r.value - p.1).abs() <= 1)
    };
    if holds(now, &pin) {
        return Ok(build.clone());
    }
    let off = pin.1 - came_to(now, pin.0);
    let mut broken: Vec<String> = Vec::new();
    for (_, drive) in DRIVERS {
        // Most sizes follow one to one, some the other way, halves twice.
        for by in [off, -off, 2 * off, -2 * off] {
            let mut trial = build.clone();
            if !drive(&mut trial, by, now) {
                continue;
            }
            let came = rows(&trial);
            if !holds(&came, &pin) {
                continue;
            }
            let lost = met.iter().filter(|p| !holds(&came, p)).map(|p| p.0.to_owned());
            let lost: Vec<String> = lost.collect();
            if lost.is_empty() {
                return Ok(trial);
            }
            broken.extend(lost);
        }
    }
    broken.sort();
    broken.dedup();
    if broken.is_empty() {
        // What an earlier pin has used up gives way no more.
        broken.extend(met.iter().map(|p| p.0.to_owned()));
    }
    Err(broken)
}

fn unknown(id: &str, rows: &[SizeRow]) -> Finding {
    let ids = || rows.iter().map(|r| r.id.as_str());
    let near = nearest(id, ids()).map(|n| format!("Did you mean `{n}`? ")).unwrap_or_default();
    let listed = ids().take(14).collect::<Vec<_>>().join(", ");
    let place = format!("build.pins.{id}");
    Finding::new(
        Severity::Stop,
        "unknown-pin",
        &place,
        format!("`{id}` is no size of this cabinet."),
        format!("{near}Its sizes are: {listed}, and so on; the size table names them all."),
    )
}

fn clash(s: &Job, row: &SizeRow, wanted: Length, broken: &[String]) -> Finding {
    let wanted = s.notation.print(wanted);
    let place = format!("build.pins.{}", row.id);
    let (message, hint) = if broken.is_empty() {
        (
            format!(
                "{} comes to {} and cannot be {wanted}: what it follows from is given.",
                row.label, row.text
            ),
            format!("It is {}. Change one of those, or take the pin out.", row.why),
        )
    } else {
        (
            format!("{} cannot be {wanted} while {} is pinned too.", row.label, broken.join(", ")),
            format!("Take one of these pins out: {}, {}.", row.id, broken.join(", ")),
        )
    };
    Finding::new(Severity::Stop, "pin-clash", &place, message, hint)
        .number("wanted", wanted)
        .number("comes to", row.text.clone())
        .number("clashes with", broken.join(", "))
}
