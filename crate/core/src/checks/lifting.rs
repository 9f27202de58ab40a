//! What is lifted at each step, by how many, and how hard that is.

use std::collections::BTreeMap;

use crate::findings::{JobStage, Severity};
use crate::geometry::Direction;
use crate::plan::{Action, Step};

use super::facts::Facts;
use super::lift::{Coupling, Duration, Lift, Rounding, System, index, limit_mg};
use super::num::{self, ONE, imperial};
use super::row::{CheckRow, Said, Theme, finding};

/// Thinner bodies are panels (common practice, no source).
const THIN: i64 = 100_000;
/// Lighter bodies are not worth a row: a choice of this page.
const LIGHT_G: i64 = 4_000;

const LIFTS: &str = "revised NIOSH lifting equation, DHHS (NIOSH) 94-110, rev. 9/2021 (read): one person, both hands, poor grip, now and then within an hour; it does not cover two people, carrying, or a floor that slips";

/// A body as it lies before a step, and what the step makes of it.
struct Handled<'a> {
    step: &'a Step,
    body: &'a str,
    parts: &'a [usize],
    from: Direction,
}

pub fn check(f: &Facts, said: &mut Said) {
    let mut bodies: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    let mut faces: BTreeMap<&str, Direction> = BTreeMap::new();
    // The worst turn of each body is what is said; all are rows.
    let mut worst: BTreeMap<&str, (i128, CheckRow, bool)> = BTreeMap::new();
    for step in &f.plan.steps {
        let body = step.body.as_str();
        let from = faces.get(body).copied().unwrap_or(step.bench_face);
        let lifted = match (&step.joins, step.action) {
            (Some(other), _) => Some(other.as_str()),
            (None, Action::Turn | Action::SetAside | Action::BringIn) => Some(body),
            _ => None,
        };
        if let Some(name) = lifted {
            let parts = bodies.get(name).cloned().unwrap_or_default();
            let h = Handled { step, body: name, parts: &parts, from };
            if let Some((index, row, tipped)) = judge(f, &h) {
                let heavy = row.passed == Some(false);
                if heavy && worst.get(name).is_none_or(|w| w.0 < index) {
                    worst.insert(name, (index, row.clone(), tipped));
                }
                said.tell(row);
            }
        }
        if let Some(other) = &step.joins {
            let whole = bodies.remove(other.as_str()).unwrap_or_default();
            bodies.entry(body).or_default().extend(whole);
        }
        let new = step.parts.iter().filter_map(|id| f.index(id));
        bodies.entry(body).or_default().extend(new);
        faces.insert(body, step.bench_face);
    }
    for (body, (index, row, tipped)) in worst {
        say(f, body, index, row, tipped, said);
    }
    carried(f, said);
}

/// The lifting index of a step, its row, and whether tipping it over an edge brings it to one or less.
fn judge(f: &Facts, h: &Handled) -> Option<(i128, CheckRow, bool)> {
    let weight = f.weigh(h.parts.iter().copied());
    if weight.mass_g < LIGHT_G {
        return None;
    }
    let b = f.around(h.parts.iter().copied())?;
    let shop = &f.plan.workshop;
    let low = shop.bench_height + shop.bearers;
    let extent = |axis: usize| b.extent(axis);
    // A panel is held upright before the body, anything else as it lies.
    let thin = (0..3).map(extent).min().unwrap_or(0);
    let lies = (0..3).filter(|&a| a != h.from.axis()).map(extent).min().unwrap_or(0);
    let reach_over = if thin < THIN { thin } else { lies };
    // Hands take the lower edge at the bench's height. Turned, they rise by half of what then stands
    // upright; set aside or brought in, they stay about there.
    let origin = low;
    let end = match h.step.action {
        Action::Turn => low + extent(h.step.bench_face.axis()) / 2,
        Action::SetAside | Action::BringIn => low,
        _ => low + (b.min[2] - f.floor).max(0),
    };
    let system = if imperial(f.notation) { System::Us } else { System::Metric };
    let at = |height: i64| {
        // Half the body's width before the hands, and the body of the maker: 8 in (20 cm), or 10 (25)
        // with the hands below 10 in: the equation's own rule for H where nothing was measured.
        let (near, far, unit) =
            if system == System::Us { (8, 10, 25_400) } else { (20, 25, 10_000) };
        let own = if height < 254_000 { far } else { near } * unit;
        Lift {
            reach: own + reach_over / 2,
            height,
            origin,
            travel: end - origin,
            twist: 0,
            frequency: 2,
            duration: Duration::Hour,
            coupling: Coupling::Poor,
        }
    };
    let limit = [origin, end]
        .map(|h| limit_mg(&at(h), system, Rounding::Full))
        .into_iter()
        .min()
        .unwrap_or(0);
    let start = limit_mg(&at(origin), system, Rounding::Full);
    let lifted = index(weight.mass_g, limit);
    // Over its edge the bench carries half of it, and the hands stay low.
    let tipped =
        h.step.action == Action::Turn && index(weight.mass_g / 2, start).is_some_and(|i| i <= ONE);
    let name = f.plan.name_of(h.body);
    let verb = match h.step.action {
        Action::Turn => "turned",
        Action::SetAside => "set aside",
        Action::BringIn => "brought in",
        _ => "put in",
    };
    let centre = f.placed(weight.centre());
    let row = CheckRow::new("lift", Theme::Lifting, JobStage::Bench, format!("body {}", h.body))
        .at(Some(h.step.n))
        .says(
            format!("Step {}: the {name} is {verb}. Can one person lift it?", h.step.n),
            "LI = L / RWL, RWL = LC HM VM DM AM FM CM, the less of both ends; H = 8 in (20 cm) + half the width",
            LIFTS,
        )
        .with("L, mass", f.mass(weight.mass_g))
        .with("centre: from the left, the front, the floor", centre)
        .with("H, hands before the ankles", f.length(at(origin).reach))
        .with("hands from", f.length(origin))
        .with("hands to", f.length(end))
        .with("RWL, recommended weight limit", f.mass(num::small(num::div(limit, 1_000))));
    let two = h.step.people > 1 || shop.people > 1;
    let result = match lifted {
        _ if two => {
            format!("two people, about {} each: outside of the equation", f.mass(weight.mass_g / 2))
        }
        Some(i) => format!("lifting index LI {}", num::ratio(i)),
        None => "beyond the reach or height that the equation allows".to_owned(),
    };
    let mut row = row.gives(result, if two { "" } else { "LI 1.00 at most" });
    let index = lifted.unwrap_or(10 * ONE);
    if !two {
        row.passed = Some(index <= ONE);
    }
    Some((index, row, tipped))
}

fn say(f: &Facts, body: &str, index: i128, row: CheckRow, tipped: bool, said: &mut Said) {
    let name = f.plan.name_of(body);
    let mass = row.inputs.first().map(|i| i.value.clone()).unwrap_or_default();
    let how = if tipped {
        "Do not lift it free: tip it over its edge, so that the bench carries half"
    } else if index > 3 * ONE {
        "Do not lift it alone: ask a second person, or build nearer to the floor"
    } else {
        "Slide it to the edge of the bench and tip it, or ask a second person"
    };
    let says = [
        format!("The {name} weighs {mass} here: more than one person should lift freely."),
        format!("{how}. If someone helps, say so: `shop.people` 2."),
    ];
    let finding = finding(&row, Severity::Caution, says);
    said.findings.push(finding);
}

/// The finished piece has to get to its place.
fn carried(f: &Facts, said: &mut Said) {
    let all = f.weigh(0..f.plan.parts.len());
    // The load constant: what one person lifts under the best of circumstances.
    const CONSTANT_G: i64 = 23_000;
    let row = CheckRow::new("carry", Theme::Lifting, JobStage::Install, "body main")
        .says(
            "Can one person carry the finished piece?",
            "mass against the load constant LC",
            LIFTS,
        )
        .with("centre: from the left, the front, the floor", f.placed(all.centre()))
        .gives(f.mass(all.mass_g), format!("{} at most", f.mass(CONSTANT_G)));
    if f.plan.workshop.people > 1 {
        said.tell(row);
        return;
    }
    said.judge(row, all.mass_g <= CONSTANT_G, Severity::Caution, || {
        [
            format!("The finished piece weighs {}: too much for one person to carry.", f.mass(all.mass_g)),
            "Take boxes, doors and loose shelves out, slide it on a blanket or use a dolly, or carry it with a second person; if someone helps, say so: `shop.people` 2.".to_owned(),
        ]
    });
}
