//! What is wrong with a job, and its cure.
//!
//! Bad stock and bad parts are left out, the rest is laid out. Sentences print lengths in millimetres, exactly.

use std::collections::BTreeSet;

use super::job::{CutPart, GrainRule, Job};
use super::layout::{Unplaced, Why};
use super::stock::Stock;
use crate::assembly::Grain;
use crate::findings::{Finding, Severity};

/// The widest kerf taken for one, µm: no saw for panels cuts wider.
pub const MOST_KERF: i64 = 10_000;
/// The longest side of a sheet or part, µm.
pub const MOST_SIDE: i64 = 100_000_000;
/// The most pieces of a job.
pub const MOST_PIECES: u32 = 5000;
/// The highest price or value, in the smallest unit of money.
pub const MOST_PRICE: i64 = 1_000_000_000;
/// The widest "smallest safe cut", µm.
const MOST_LEAST_CUT: i64 = 300_000;

/// What can be laid out, by index.
#[derive(Debug)]
pub(super) struct Checked {
    pub parts: Vec<usize>,
    pub stock: Vec<usize>,
    /// Parts that cannot.
    pub refused: Vec<usize>,
    pub findings: Vec<Finding>,
}

/// Sorts good from bad; says what is bad about it.
pub(super) fn check(job: &Job) -> Checked {
    let mut out =
        Checked { parts: Vec::new(), stock: Vec::new(), refused: Vec::new(), findings: Vec::new() };
    let usable = out.saw(job);
    out.names(job);
    for (index, stock) in job.stock.iter().enumerate() {
        if out.stock(&format!("stock {}", stock.id), stock) && usable {
            out.stock.push(index);
        }
    }
    let mut pieces = 0u32;
    for (index, part) in job.parts.iter().enumerate() {
        if part.count == 0 {
            continue;
        }
        let good = out.part(job, part, &mut pieces);
        if good && usable {
            out.parts.push(index);
        } else {
            out.refused.push(index);
        }
    }
    out
}

impl Checked {
    /// Whether kerf and smallest cut can be worked with.
    fn saw(&mut self, job: &Job) -> bool {
        let kerf = self.within(
            Severity::Stop,
            "kerf",
            "The kerf",
            job.kerf,
            (0, MOST_KERF),
            "Measure the slot the blade cuts in a scrap; most are 2 to 4 mm.",
        );
        let least = self.within(
            Severity::Stop,
            "least_cut",
            "The smallest safe cut",
            job.least_cut,
            (0, MOST_LEAST_CUT),
            "Give the narrowest strip you would cut off, or 0 for any.",
        );
        let keep = job.keep.long.min(job.keep.short) >= 0;
        if !keep {
            self.say(
                Severity::Stop,
                "keep-range",
                "keep".to_owned(),
                "The smallest offcut to keep has a side of less than nothing.".to_owned(),
                "Give both its sides as lengths, or 0 to keep everything.",
            );
        }
        kerf && least && keep
    }

    fn names(&mut self, job: &Job) {
        let parts = job.parts.iter().map(|p| ("part", &p.id));
        let stock = job.stock.iter().map(|s| ("stock", &s.id));
        let mut seen = BTreeSet::new();
        for (what, id) in parts.chain(stock) {
            if !seen.insert((what, id)) {
                self.say(
                    Severity::Caution,
                    "cut-id-twice",
                    format!("{what} {id}"),
                    format!("Two entries are named {id}."),
                    "Give each its own name, so that the cuts can be told apart.",
                );
            }
        }
    }

    fn stock(&mut self, place: &str, stock: &Stock) -> bool {
        let mut good = true;
        for (field, side) in [("length", stock.length), ("width", stock.width)] {
            good &= self.within(
                Severity::Fix,
                &format!("{place}.{field}"),
                &format!("The {field} of this stock"),
                side,
                (1, MOST_SIDE),
                "Measure the sheet; it is left out of the layout until then.",
            );
        }
        let trim = stock.trim;
        for (field, side) in
            [("left", trim.left), ("right", trim.right), ("front", trim.front), ("back", trim.back)]
        {
            good &= self.within(
                Severity::Fix,
                &format!("{place}.trim.{field}"),
                "The trim along this edge",
                side,
                (0, MOST_SIDE),
                "Give what is lost along the edge, or 0 for a clean one.",
            );
        }
        if !(0..=MOST_PRICE).contains(&stock.price) {
            good = false;
            self.say(
                Severity::Fix,
                "price-range",
                format!("{place}.price"),
                format!("The price is {}, not from 0 to {MOST_PRICE}.", stock.price),
                "Give what one sheet costs in the smallest unit of money, or 0 for what is already in the shop; it is \
                 left out of the layout until then.",
            );
        }
        if good && stock.usable().iter().any(|side| *side <= 0) {
            good = false;
            self.say(
                Severity::Fix,
                "trim-takes-all",
                format!("{place}.trim"),
                "The trims on both sides leave nothing of it.".to_owned(),
                "Give smaller trims, or leave this stock out.",
            );
        }
        good
    }

    fn part(&mut self, job: &Job, part: &CutPart, pieces: &mut u32) -> bool {
        let place = format!("part {}", part.id);
        let mut good = true;
        for (field, side) in [("length", part.length), ("width", part.width)] {
            good &= self.within(
                Severity::Fix,
                &format!("{place}.{field}"),
                &format!("The {field} of this part"),
                side,
                (1, MOST_SIDE),
                "Give its cut size; it is left out of the layout until then.",
            );
        }
        good &= self.within_plain(&place, part.value);
        if good && part.length.min(part.width) < job.least_cut {
            good = false;
            self.say(
                Severity::Fix,
                "narrower-than-safe",
                place.clone(),
                format!(
                    "It is {} mm wide; the smallest safe cut is {} mm.",
                    mm(part.length.min(part.width)),
                    mm(job.least_cut)
                ),
                "Cut it from a wider piece by another method, or allow narrower cuts if your saw and its guards do.",
            );
        }
        if pieces.saturating_add(part.count) > MOST_PIECES {
            self.say(
                Severity::Fix,
                "too-many-pieces",
                format!("{place}.count"),
                format!(
                    "With these {} the job has more than {MOST_PIECES} pieces; they are left out.",
                    part.count
                ),
                "Lay the parts out in several jobs.",
            );
            return false;
        }
        if good {
            *pieces += part.count;
        }
        good
    }

    fn within(
        &mut self,
        severity: Severity,
        place: &str,
        what: &str,
        value: i64,
        (least, most): (i64, i64),
        hint: &str,
    ) -> bool {
        let good = (least..=most).contains(&value);
        if !good {
            let message =
                format!("{what} is {} mm, not from {} to {} mm.", mm(value), mm(least), mm(most));
            self.say(severity, "cut-length-range", place.to_owned(), message, hint);
        }
        good
    }

    fn within_plain(&mut self, place: &str, value: i64) -> bool {
        let good = (0..=MOST_PRICE).contains(&value);
        if !good {
            let message = format!("The value is {value}, not from 0 to {MOST_PRICE}.");
            self.say(
                Severity::Fix,
                "value-range",
                format!("{place}.value"),
                message,
                "Give what one part is worth, or 0.",
            );
        }
        good
    }

    fn say(&mut self, severity: Severity, code: &str, place: String, message: String, hint: &str) {
        self.findings.push(Finding::new(severity, code, place, message, hint));
    }
}

/// Why parts have no place. What is wrong with a refused one was said before.
pub(super) fn unplaced_findings(job: &Job, unplaced: &[Unplaced]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for u in unplaced {
        let part = &job.parts[u.part];
        let (code, message, hint) = match u.why {
            Why::Refused => continue,
            Why::FitsNowhere => why_nowhere(job, part),
            Why::StockUsedUp => (
                "stock-used-up",
                format!("{} of {} found no room on the stock there is.", u.count, part.count),
                "Add a sheet of this material, or raise its count.",
            ),
        };
        let finding = Finding::new(Severity::Fix, code, format!("part {}", part.id), message, hint)
            .number("length", format!("{} mm", mm(part.length)))
            .number("width", format!("{} mm", mm(part.width)));
        findings.push(finding);
    }
    findings
}

fn why_nowhere(job: &Job, part: &CutPart) -> (&'static str, String, &'static str) {
    let same: Vec<&Stock> = job.stock.iter().filter(|s| s.material == part.material).collect();
    let size = [part.length, part.width];
    let turned = [part.width, part.length];
    let within =
        |s: &Stock, size: [i64; 2]| s.usable().iter().zip(size).all(|(room, x)| *room >= x);
    let lies = |s: &&&Stock| match (part.grain, s.grain) {
        (GrainRule::Free, _) | (GrainRule::Locked, Grain::None) => {
            within(s, size) || within(s, turned)
        }
        (GrainRule::Locked, Grain::Length) => within(s, size),
        (GrainRule::Locked, Grain::Width) => within(s, turned),
    };
    if same.is_empty() {
        return (
            "no-stock",
            format!("There is no stock of {}.", part.material),
            "Add a sheet of this material.",
        );
    }
    let fitting: Vec<&&Stock> = same.iter().filter(lies).collect();
    if !part.hidden && !fitting.is_empty() && fitting.iter().all(|s| s.scrap) {
        return (
            "only-scrap-fits",
            "Only a scrap is big enough, and this part is not hidden.".to_owned(),
            "Add a sheet, or mark the part hidden if the scrap is good enough for it.",
        );
    }
    if !fitting.is_empty() {
        return (
            "no-safe-cut",
            "It fits, but beside it a strip narrower than the smallest safe cut would be left."
                .to_owned(),
            "Make the part a little smaller, or as large as the sheet allows.",
        );
    }
    if same.iter().any(|s| within(s, size) || within(s, turned)) {
        return (
            "grain-does-not-fit",
            "It would fit only with its grain across that of the stock.".to_owned(),
            "Add a bigger sheet, or let the part turn if its grain does not show.",
        );
    }
    (
        "bigger-than-stock",
        "It is bigger than any sheet of its material inside the trimmed edges.".to_owned(),
        "Add a bigger sheet, trim less, or build the part up from two.",
    )
}

/// Micrometres as millimetres, exactly.
fn mm(um: i64) -> String {
    let sign = if um < 0 { "-" } else { "" };
    let (whole, rest) = (um.unsigned_abs() / 1000, um.unsigned_abs() % 1000);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let rest = format!("{rest:03}");
    format!("{sign}{whole}.{}", rest.trim_end_matches('0'))
}
