//! Does it tip over, before it is fixed to the wall?

use crate::assembly::Role;
use crate::findings::{JobStage, Severity};

use super::facts::{Facts, Moves, Set};
use super::num::{self, GRAVITY, ONE};
use super::pull_out::extension;
use super::row::{CheckRow, Said, Theme, finding};
use super::tipping::{Load, Moments, moments};

/// The test weight of ASTM F2057-23: 60 lb.
const CHILD_G: i64 = 27_216;
/// Free-standing pieces lower or lighter than this lie outside of that standard: 27 in, 30 lb.
const LOW: i64 = 685_800;
const LIGHT_G: i64 = 13_608;
/// A push of 10 lbf at 56 in at most, in millinewtons and micrometres.
const PUSH_MN: i128 = 44_482;
const PUSH_HIGH: i64 = 1_422_400;

const SCOPE: &str = "moments about the front feet (worked out). 60 lb on an open front: test weight of ASTM F2057-23 (read), a standard for free-standing clothing storage units of 27 in and 30 lb or more; it excludes built-ins and is used here as a cautious analogue only, never as compliance";
const PUSHED: &str =
    "10 lbf at 56 in at most: from memory of ASTM F2057-23, unsure; a cautious analogue only";

/// A case: what it is called, and its loads.
struct Case {
    rule: &'static str,
    what: &'static str,
    loads: Vec<Load>,
    severity: Severity,
}

pub fn check(f: &Facts, said: &mut Said) {
    let Some(standing) = f.around(f.standing()) else { return };
    let feet = f.standing().flat_map(|i| f.solids[i].boxes()).filter(|b| b.min[2] == f.floor);
    let Some(line) = feet.map(|b| b.min[1]).min() else { return };
    let all = f.weigh(0..f.plan.parts.len());
    let opens: Vec<&Set> =
        f.sets.iter().filter(|s| matches!(s.moves, Moves::Slides | Moves::Swings)).collect();
    let tall = standing.extent(2);
    let within = tall >= LOW && all.mass_g >= LIGHT_G;
    if opens.is_empty() && !within {
        return;
    }
    let full = |set: &Set| {
        let is_box = set.parts.iter().any(|&i| f.part(i).role == Role::BoxBottom);
        if is_box { f.load_of_a_box() } else { 0 }
    };
    // Each set with what stands in it, open or not; its load lies in the middle of its depth.
    let load = |set: &Set, open: bool, loaded: bool| -> Vec<Load> {
        let own = f.weigh(set.parts.iter().copied());
        let out = if open { way_out(f, set) } else { 0 };
        let mut loads = vec![(own.mass_g, own.centre()[1] - line - out)];
        if let (true, Some(b)) = (loaded, f.around(set.parts.iter().copied())) {
            loads.push((full(set), (b.min[1] + b.max[1]) / 2 - line - out));
        }
        loads
    };
    let together = |open: &dyn Fn(usize) -> bool, loaded: bool| -> Vec<Load> {
        let closed = f.sets.iter().filter(|s| !matches!(s.moves, Moves::Slides | Moves::Swings));
        let mut loads: Vec<Load> = closed.flat_map(|s| load(s, false, loaded)).collect();
        loads.extend(opens.iter().enumerate().flat_map(|(n, s)| load(s, open(n), loaded)));
        loads
    };
    let fullest =
        (0..opens.len()).max_by_key(|&n| (full(opens[n]), std::cmp::Reverse(n))).unwrap_or(0);
    let mut cases = vec![Case {
        rule: "tip-closed",
        what: "empty and closed",
        loads: together(&|_| false, false),
        severity: Severity::Fix,
    }];
    if !opens.is_empty() {
        let mut add = |what, loads| {
            cases.push(Case { rule: "tip-open", what, loads, severity: Severity::Caution });
        };
        add("empty, everything open", together(&|_| true, false));
        if f.boxes().next().is_some() && f.contents_g() > 0 {
            add("loaded, one box open", together(&|n| n == fullest, true));
            if opens.len() > 1 {
                add("loaded, everything open", together(&|_| true, true));
            }
        }
        if within {
            let mut loads = together(&|n| n == fullest, false);
            let set = opens[fullest];
            let front =
                f.around(set.parts.iter().copied()).map_or(0, |b| b.min[1]) - way_out(f, set);
            loads.push((CHILD_G, front - line));
            add("empty, one open, 60 lb on its front edge", loads);
        }
    }
    let fixed = f.install().to_wall == Some(true);
    let mut worst: Option<(i128, &'static str)> = None;
    let mut said_of = None;
    for case in &cases {
        let m = moments(&case.loads);
        let row = row(f, case, &m, line - standing.min[1]);
        let passed = m.ratio().is_none_or(|r| r >= ONE);
        // Fixed to the wall it cannot tip: the row then says what the wall holds.
        if fixed && case.rule == "tip-open" {
            said.tell(anchored(f, row, &m, tall, passed));
            continue;
        }
        if case.rule == "tip-open" {
            // One finding for all ways of opening: the likeliest that tips.
            let mut row = row;
            row.passed = Some(passed);
            if !passed && worst.is_none() {
                worst = m.ratio().map(|r| (r, case.what));
                said_of = Some(row.clone());
            }
            said.tell(row);
        } else {
            said.judge(row, passed, case.severity, || {
                [
                    format!("Free-standing it tips over, {}.", case.what),
                    "Make it deeper, or the toe recess less deep.".to_owned(),
                ]
            });
        }
    }
    if let (Some((ratio, what)), Some(row)) = (worst, said_of) {
        let into = if f.with_role(Role::Nailer).next().is_some() {
            "through the nailer into studs"
        } else {
            "through a sound rail into studs"
        };
        let says = [
            format!(
                "Free-standing it tips over, {what}: what holds is {} of what tips.",
                num::ratio(ratio)
            ),
            format!(
                "Keep it shut and empty until it is fixed to the wall {into}. When it will be, say so: `install.to_wall` true."
            ),
        ];
        let finding = finding(&row, Severity::Caution, says);
        said.findings.push(finding);
    }
    if within {
        push(f, line, tall, fixed, said);
    }
}

/// How far a set's parts come before their closed place: a box by its depth; a door's middle by half
/// its width, at 90 degrees.
fn way_out(f: &Facts, set: &Set) -> i64 {
    match set.moves {
        Moves::Slides => extension(f, set).unwrap_or(0),
        Moves::Swings => f.around(set.parts.iter().copied()).map_or(0, |b| b.extent(0) / 2),
        _ => 0,
    }
}

fn row(f: &Facts, case: &Case, m: &Moments, recess: i64) -> CheckRow {
    let open = f.sets.iter().find(|s| matches!(s.moves, Moves::Slides | Moves::Swings));
    let step = open.and_then(|s| f.step_of_set(s)).or(f.plan.steps.last().map(|s| s.n));
    let moment = |gum: i128| format!("{} N·m", num::decimal(gum * GRAVITY, 1_000_000_000_000, 1));
    CheckRow::new(case.rule, Theme::TipOver, JobStage::Install, "body main")
        .at(step)
        .says(
            format!("Does it stand free, {}?", case.what),
            "Σ m g behind the front feet / Σ m g before them",
            SCOPE,
        )
        .with("front feet behind the face by", f.length(recess))
        .with("holds", moment(m.holds))
        .with("tips", moment(m.tips))
        .gives(m.ratio().map_or("nothing tips".to_owned(), num::ratio), "at least 1.00")
}

/// The row of a case that nothing limits, since the wall holds what would tip.
fn anchored(f: &Facts, row: CheckRow, m: &Moments, tall: i64, passed: bool) -> CheckRow {
    // g um mm/s² over um to millinewtons.
    let pull = num::div((m.tips - m.holds) * GRAVITY, i128::from(tall.max(1)) * 1_000);
    let said = if passed {
        row.result.clone()
    } else {
        format!("{}; the wall holds {}", row.result, num::force(f.notation, pull))
    };
    row.gives(said, "")
}

/// A push at the top of a tall piece.
fn push(f: &Facts, line: i64, tall: i64, fixed: bool, said: &mut Said) {
    let all = f.weigh(0..f.plan.parts.len());
    let holds = i128::from(all.mass_g) * i128::from(all.centre()[1] - line) * GRAVITY;
    let high = tall.min(PUSH_HIGH);
    // mN um to the unit above: g um mm/s² is 1e-12 N m, mN um is 1e-9.
    let tips = PUSH_MN * i128::from(high) * 1_000;
    let ratio = num::div(holds * ONE, tips);
    let row = CheckRow::new("tip-push", Theme::TipOver, JobStage::Install, "body main")
        .at(f.plan.steps.last().map(|s| s.n))
        .says("Does it stand when it is pulled at the top?", "m g y / (10 lbf × height)", PUSHED)
        .with("mass", f.mass(all.mass_g))
        .with("centre behind the front feet", f.length(all.centre()[1] - line))
        .with("height of the pull", f.length(high));
    if fixed {
        said.tell(row.gives(num::ratio(ratio), ""));
        return;
    }
    said.judge(row.gives(num::ratio(ratio), "at least 1.00"), ratio >= ONE, Severity::Caution, || {
        [
            "A pull at its top tips the empty piece over while it stands free.".to_owned(),
            "Lay it down or lean it on a wall until it is fixed. When it will be fixed, say so: `install.to_wall` true.".to_owned(),
        ]
    });
}
