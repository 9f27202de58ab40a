//! The cutting job that a plan's parts and the scenario's stock make.

use std::collections::BTreeSet;

use crate::assembly::{Grain, Kind, Role};
use crate::cutting::{Aim, CutPart, GrainRule, Job, Keep, Stages, Stock, Trim};
use crate::findings::{Finding, Severity};
use crate::plan::{CutSaw, CutSequence, CutStock, Plan, PlanPart};
use crate::scenario::{self, ListedGrain, Scenario};
use crate::units::Length;

/// The job and what is known beside it.
pub(super) struct Made {
    pub job: Job,
    pub stock: Vec<CutStock>,
    pub sequences: Vec<CutSequence>,
    pub saw: CutSaw,
    pub findings: Vec<Finding>,
}

pub(super) fn make(scenario: &Scenario, plan: &Plan) -> Made {
    let mut findings = Vec::new();
    let mut parts: Vec<CutPart> = plan
        .parts
        .iter()
        .filter(|p| p.kind == Kind::Panel)
        .map(|p| cut_part(scenario, p))
        .collect();
    let used: BTreeSet<String> =
        parts.iter().filter(|p| p.count > 0).map(|p| p.material.clone()).collect();
    let sequences = sequences(scenario, &mut parts, &mut findings);
    let saw = &scenario.shop.saw;
    let from = scenario.shop.stock.iter().filter(|s| used.contains(&s.material));
    let (stock, beside): (Vec<Stock>, Vec<CutStock>) =
        from.map(|s| (cut_stock(scenario, s), beside(scenario, s))).unzip();
    findings.extend(assumed(scenario, &used));
    let job = Job {
        stock,
        parts,
        kerf: saw.kerf.get(),
        least_cut: saw.least_cut.get(),
        stages: match saw.stages {
            2 => Stages::Two,
            4 => Stages::Four,
            _ => Stages::Three,
        },
        keep: Keep::default(),
        aim: Aim::LeastCost,
        seed: 0,
    };
    let saw = CutSaw {
        fence: saw.fence.get(),
        panel_length: saw.panel_length.get(),
        panel_width: saw.panel_width.get(),
        lift_g: saw.lift_g,
    };
    Made { job, stock: beside, sequences, saw, findings }
}

/// A panel as it is cut: its length along its grain.
fn cut_part(scenario: &Scenario, part: &PlanPart) -> CutPart {
    let wishes = &scenario.cut;
    let any = part.grain == Grain::None || wishes.any_grain.contains(&part.id);
    let [long, across] = part.as_cut();
    let (length, width) = match part.grain {
        Grain::Width => (across, long),
        _ => (long, across),
    };
    CutPart {
        id: part.id.clone(),
        material: part.material.clone(),
        length,
        width,
        // What is cut already takes no room on a sheet; what was spoiled does.
        count: u32::from(!scenario.made.is_cut(&part.id)),
        grain: if any { GrainRule::Free } else { GrainRule::Locked },
        hidden: wishes.hidden.contains(&part.id)
            || matches!(part.role, Role::Stretcher | Role::Nailer | Role::Backing),
        value: 0,
    }
}

/// Puts the parts of each sequence into one piece.
fn sequences(
    scenario: &Scenario,
    parts: &mut Vec<CutPart>,
    findings: &mut Vec<Finding>,
) -> Vec<CutSequence> {
    let mut made = Vec::new();
    for (n, ids) in scenario.cut.sequences.iter().enumerate() {
        // What is cut already, and what is no part of the piece, is not in it any more.
        let index = |id: &String| parts.iter().position(|p| p.id == *id && p.count > 0);
        let members: Vec<usize> = ids.iter().filter_map(index).collect();
        let [first, _, ..] = members[..] else { continue };
        let one = &parts[first];
        let (length, width) = (one.length, one.width);
        let alike = |m: &usize| {
            let p = &parts[*m];
            (&p.material, p.grain) == (&one.material, one.grain)
        };
        let side = |m: &usize| (parts[*m].length, parts[*m].width);
        let across = members.iter().all(|m| side(m).0 == length);
        let along = members.iter().all(|m| side(m).1 == width);
        if !members.iter().all(alike) || !(across || along) {
            findings.push(Finding::new(
                Severity::Fix,
                "sequence-does-not-match",
                format!("cut.sequences[{n}]"),
                format!("The parts {} cannot lie in one strip: they differ in material, in grain, or in both sides.", ids.join(", ")),
                "Name parts of one material that are equally long or equally wide, or leave the sequence out.",
            ));
            continue;
        }
        let along_length = !across;
        let kerfs = scenario.shop.saw.kerf.get() * (members.len() as i64 - 1);
        let sum = |f: fn(&CutPart) -> i64| members.iter().map(|m| f(&parts[*m])).sum::<i64>();
        let piece = CutPart {
            id: members.iter().map(|m| parts[*m].id.as_str()).collect::<Vec<_>>().join("+"),
            length: if along_length { sum(|p| p.length) + kerfs } else { length },
            width: if along_length { width } else { sum(|p| p.width) + kerfs },
            hidden: members.iter().all(|m| parts[*m].hidden),
            ..one.clone()
        };
        for m in &members {
            parts[*m].count = 0;
        }
        made.push(CutSequence { piece: parts.len(), parts: members, along_length });
        parts.push(piece);
    }
    made
}

fn cut_stock(scenario: &Scenario, s: &scenario::Stock) -> Stock {
    let trim = |rough: bool| if rough { scenario.shop.saw.trim.get() } else { 0 };
    let [left, right, front, back] = s.rough;
    Stock {
        id: s.id.clone(),
        material: s.material.clone(),
        length: s.length.get(),
        width: s.width.get(),
        count: s.count,
        price: weight(scenario, s),
        trim: Trim { left: trim(left), right: trim(right), front: trim(front), back: trim(back) },
        grain: match s.grain {
            ListedGrain::Length => Grain::Length,
            ListedGrain::Width => Grain::Width,
            ListedGrain::None => Grain::None,
        },
        scrap: s.hidden_only,
    }
}

/// What using one counts: its price, or its area in cm² where no sheet of the material has a price.
fn weight(scenario: &Scenario, s: &scenario::Stock) -> i64 {
    let priced = |o: &scenario::Stock| o.material == s.material && !o.scrap && o.price.is_some();
    let anywhere = scenario.shop.stock.iter().any(priced);
    match s.price {
        Some(price) => price,
        None if anywhere || s.scrap => 0,
        None => s.length.get() / 10_000 * (s.width.get() / 10_000),
    }
}

fn beside(scenario: &Scenario, s: &scenario::Stock) -> CutStock {
    let material = scenario.shop.material(&s.material);
    let (thickness, density) = material.map_or((0, 0), |m| (m.thickness.get(), m.density));
    let area = i128::from(s.length.get()) * i128::from(s.width.get());
    // µm³ times kg/m³ is 1e-15 g.
    let grams = area * i128::from(thickness) * i128::from(density) / 1_000_000_000_000_000;
    CutStock {
        material_name: material.map_or_else(|| s.material.clone(), |m| m.name.clone()),
        thickness,
        mass_g: i64::try_from(grams).unwrap_or(i64::MAX),
        on_hand: s.count,
        price: s.price,
        scrap: s.scrap,
        assumed: s.assumed,
    }
}

/// Which materials are laid out on sheets that nobody has given.
fn assumed(scenario: &Scenario, used: &BTreeSet<String>) -> Option<Finding> {
    let of = scenario.shop.stock.iter().filter(|s| s.assumed && used.contains(&s.material));
    let of: Vec<&scenario::Stock> = of.collect();
    let first = of.first()?;
    let names: Vec<&str> = of
        .iter()
        .map(|s| scenario.shop.material(&s.material).map_or(s.material.as_str(), |m| &m.name))
        .collect();
    let print = |l: Length| scenario.notation.print(l);
    Some(
        Finding::new(
            Severity::Note,
            "default-used",
            "shop.stock",
            format!(
                "No sheet or scrap is listed of {}; sheets of {} × {} stand in.",
                names.join(", "),
                print(first.length),
                print(first.width)
            ),
            "Measure your sheets and scraps and list them; sheets are often larger than named.",
        )
        .source("common practice, no source"),
    )
}

/// The engine's findings with the file's fields and the maker's notation.
pub(super) fn in_the_makers_words(scenario: &Scenario, found: Vec<Finding>) -> Vec<Finding> {
    let mut findings = found;
    for f in &mut findings {
        for s in &scenario.shop.stock {
            if let Some(rest) = f.place.strip_prefix(&format!("stock {}", s.id))
                && (rest.is_empty() || rest.starts_with('.'))
            {
                f.place = format!("{}{}", s.place, rest.replace(".trim", ".rough"));
                break;
            }
        }
        for value in f.numbers.values_mut() {
            if let Some(um) = micrometres(value) {
                *value = scenario.notation.print(Length::um(um));
            }
        }
    }
    findings
}

/// What the engine prints as `560.5 mm`.
fn micrometres(text: &str) -> Option<i64> {
    let (whole, rest) = {
        let text = text.strip_suffix(" mm")?;
        text.split_once('.').unwrap_or((text, ""))
    };
    let rest: i64 = format!("{rest:0<3}").parse().ok()?;
    whole.parse::<i64>().ok()?.checked_mul(1000)?.checked_add(rest)
}
