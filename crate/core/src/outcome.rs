//! The whole way from the text of a scenario file to a plan.

use serde::{Deserialize, Serialize};

use crate::assembly::{Assembly, JointKind, Kind, MAIN};
use crate::findings::{Finding, Severity, has_stop};
use crate::made::{Followed, MadeRow};
use crate::measure::run::Fill;
use crate::order::{Order, Wanted};
use crate::plan::{FORMAT, Making, Plan, PlanJoint, PlanPart, Workshop};
use crate::scenario::near::nearest;
use crate::scenario::{self, CutWishes, Scenario, Subject};
use crate::{checks, install, made, measure, order, sawing};

/// What comes of a scenario: as much as could be worked out, and everything there is to say.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outcome {
    /// Everything there is to say, most serious first.
    pub findings: Vec<Finding>,
    /// The sizes that were worked out; empty when the scenario could not be read.
    pub sizes: Vec<SizeRow>,
    /// Every check that was run over the plan, passed or not; empty without a plan.
    #[serde(default)]
    pub checks: Vec<checks::CheckRow>,
    /// What the measurements come to, and what the contents need: rows like the sizes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measured: Vec<SizeRow>,
    /// The best ways to fill the wall that the piece shares with bought units, best first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub run: Vec<Fill>,
    /// What becomes of each part that is cut already.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub made: Vec<MadeRow>,
    /// The plan, unless a finding stops it or no order is found, which is a finding too.
    pub plan: Option<Plan>,
}

/// One worked-out size, with where it comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SizeRow {
    /// Stable name, such as `carcass-width`.
    pub id: String,
    /// As a maker says it: `Carcass, outside width`.
    pub label: String,
    /// In micrometres; a mass in grams. Of a whole part, its length.
    pub value: i64,
    /// Printed in the scenario's notation.
    pub text: String,
    /// The sum behind it, in words and numbers, printed to the finest step of the notation so that
    /// it adds up.
    pub why: String,
}

/// What is known of a scenario without an order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draft {
    /// What reading and sizing had to say, most serious first.
    pub findings: Vec<Finding>,
    /// The sizes; empty when the scenario could not be read.
    pub sizes: Vec<SizeRow>,
    /// The parts, as in a plan.
    pub parts: Vec<PlanPart>,
}

/// Reads a scenario and sizes it, without looking for an order: quick enough for every keystroke.
pub fn draft(scenario: &str) -> Draft {
    let (scenario, mut findings) = scenario::read(scenario);
    let mut draft = Draft { findings: Vec::new(), sizes: Vec::new(), parts: Vec::new() };
    if let Some(scenario) = scenario {
        let Followed { scenario, designed, findings: said, .. } = made::follow(&scenario);
        findings.extend(said);
        if let Some(designed) = designed {
            draft.parts = plan_parts(&scenario, &designed.assembly, designed.making);
            draft.sizes = designed.sizes;
        }
    }
    findings.sort_by_key(|f| f.severity);
    draft.findings = findings;
    draft
}

/// Reads a scenario and plans it.
///
/// ```
/// let outcome = jointwise::build("{}");
/// assert!(outcome.plan.is_none());
/// assert_eq!(outcome.findings[0].severity, jointwise::findings::Severity::Stop);
/// ```
pub fn build(scenario: &str) -> Outcome {
    let (scenario, mut findings) = scenario::read(scenario);
    let mut outcome = Outcome::default();
    if let Some(scenario) = scenario {
        let Followed { scenario, designed, rows, findings: said } = made::follow(&scenario);
        findings.extend(said);
        outcome.made = rows;
        let (measured, said) = measure::measure(&scenario, designed.as_ref().map(|d| &d.assembly));
        findings.extend(said);
        outcome.measured = measured;
        if let Subject::Cabinet(cabinet) = &scenario.subject
            && let Some(run) = &cabinet.run
        {
            let (ways, said) = measure::run::fill(run, scenario.notation);
            findings.extend(said);
            outcome.run = ways;
        }
        if let Some(designed) = designed {
            outcome.sizes = designed.sizes;
            findings.extend(unknown_ids(&scenario, &designed.assembly));
            let mut wanted = None;
            if !has_stop(&findings) {
                let ordered = plan(&scenario, &designed.assembly, designed.making, &mut findings);
                (outcome.plan, wanted) = ordered.unzip();
            }
            if let Some(plan) = &mut outcome.plan {
                let checked = checks::check(plan, &scenario);
                outcome.checks = checked.rows;
                let tips = checked.findings.iter().any(|f| f.code.starts_with("tip-"));
                let (way, in_the_room) = install::plan(&scenario, &designed.assembly, tips);
                plan.install = way.map(Box::new);
                // What is bought includes what fixes the piece in the room.
                let wanted = wanted.unwrap_or_default();
                let (cutting, said) = sawing::plan(&scenario, plan, &wanted);
                if let Some(cutting) = &cutting {
                    sawing::lay_spacers(&mut plan.steps, cutting, wanted);
                }
                plan.cutting = cutting;
                findings.extend(said);
                // Where no screw on hand suits, that has been said.
                let known = findings.iter().any(|f| f.code == "no-screw");
                let new = checked.findings.into_iter();
                findings.extend(new.filter(|f| !known || f.code != "screw-hold"));
                findings.extend(in_the_room);
                checks::accepted::mark(&scenario.accepted, &mut findings);
            }
        }
    }
    // Most serious first; within that, in the order they were found.
    findings.sort_by_key(|f| f.severity);
    if let Some(plan) = &mut outcome.plan {
        plan.findings.clone_from(&findings);
    }
    outcome.findings = findings;
    outcome
}

/// Which ids in the file name no part of this piece, or name one that is not theirs to name.
fn unknown_ids(scenario: &Scenario, assembly: &Assembly) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut stop = |code: &str, place: &str, message: String, hint: String| {
        findings.push(Finding::new(Severity::Stop, code, place, message, hint));
    };
    let wishes = &scenario.wishes;
    let done = wishes.done.iter().flat_map(|d| &d.parts).enumerate();
    let named = done.map(|(n, id)| (format!("order.done.parts[{n}]"), id));
    let named = wishes.first.iter().map(|id| ("order.first".to_owned(), id)).chain(named);
    let made = scenario.made.parts.iter().enumerate();
    let named = named.chain(made.map(|(n, p)| (format!("made.parts[{n}].id"), &p.id)));
    let named = named.chain(cut_ids(&scenario.cut));
    for (place, id) in named {
        if let Some(part) = assembly.index_of(id) {
            let group = &assembly.parts[part].group;
            if place == "order.first" && group != MAIN {
                let body = assembly.body_name(group);
                stop(
                    "first-part",
                    &place,
                    format!(
                        "`{place}` is {id}, which belongs to the {body}: that is built on its own."
                    ),
                    "Name a part of the piece itself, or leave the field out.".to_owned(),
                );
            }
            if place.starts_with("made.") && assembly.parts[part].kind == Kind::Hardware {
                stop(
                    "made-bought",
                    &place,
                    format!("`{place}` is {id}, which is bought and not cut."),
                    "Take the entry out; what is bought is measured where its numbers stand in `build`."
                        .to_owned(),
                );
            }
            continue;
        }
        let ids = || assembly.parts.iter().map(|p| p.id.as_str());
        let near = nearest(id, ids()).map(|n| format!("Did you mean `{n}`? ")).unwrap_or_default();
        let listed = ids().take(12).collect::<Vec<_>>().join(", ");
        let more = if assembly.parts.len() > 12 { " and more" } else { "" };
        stop(
            "unknown-part",
            &place,
            format!("`{place}` is \"{id}\", which is no part of this piece."),
            format!("{near}Its parts are: {listed}{more}."),
        );
    }
    for (n, offcut) in scenario.shop.workshop.offcuts.iter().enumerate() {
        if assembly.index_of(&offcut.id).is_some() {
            let place = format!("shop.offcuts[{n}].id");
            stop(
                "duplicate-id",
                &place,
                format!("`{place}` is {}, which is a part of this piece.", offcut.id),
                "Give the offcut another id.".to_owned(),
            );
        }
    }
    findings
}

/// The parts that are named about cutting, with their places in the file.
fn cut_ids(cut: &CutWishes) -> impl Iterator<Item = (String, &String)> {
    fn of(place: String, ids: &[String]) -> impl Iterator<Item = (String, &String)> {
        ids.iter().enumerate().map(move |(n, id)| (format!("{place}[{n}]"), id))
    }
    let sequences = cut.sequences.iter().enumerate();
    of("cut.hidden".to_owned(), &cut.hidden)
        .chain(of("cut.any_grain".to_owned(), &cut.any_grain))
        .chain(sequences.flat_map(move |(n, ids)| of(format!("cut.sequences[{n}]"), ids)))
}

/// Orders an assembly and writes the plan, unless no order is found; and which spacers would help.
fn plan(
    scenario: &Scenario,
    assembly: &Assembly,
    making: Vec<Option<Making>>,
    findings: &mut Vec<Finding>,
) -> Option<(Plan, Vec<Wanted>)> {
    let workshop = &scenario.shop.workshop;
    let (order, said) = order::plan_order(assembly, workshop, &scenario.wishes, scenario.notation);
    findings.extend(said);
    let mut order = order?;
    let wanted = std::mem::take(&mut order.wanted);
    let divided = order.divided.take();
    let assembly = divided.as_ref().unwrap_or(assembly);
    let parts = plan_parts(scenario, assembly, making);
    Some((plan_of(scenario, assembly, workshop, parts, order), wanted))
}

/// A plan of an order, without cutting and findings.
pub(crate) fn plan_of(
    scenario: &Scenario,
    assembly: &Assembly,
    workshop: &Workshop,
    parts: Vec<PlanPart>,
    order: Order,
) -> Plan {
    Plan {
        format: FORMAT.to_owned(),
        title: assembly.title.clone(),
        unit: scenario.notation,
        workshop: workshop.clone(),
        parts,
        joints: assembly
            .joints
            .iter()
            .filter(|j| j.kind != JointKind::Touch)
            .map(|j| PlanJoint {
                id: j.id.clone(),
                parts: j.parts.map(|p| assembly.parts[p].id.clone()),
                kind: j.kind,
                glue: j.glue,
                fasteners: j.fasteners.clone(),
            })
            .collect(),
        bodies: order.bodies,
        steps: order.steps,
        cost: order.cost,
        proof: order.proof,
        cutting: None,
        install: None,
        findings: Vec::new(),
    }
}

/// The parts as a plan shows them.
pub(crate) fn plan_parts(
    scenario: &Scenario,
    assembly: &Assembly,
    making: Vec<Option<Making>>,
) -> Vec<PlanPart> {
    let material_name =
        |id: &str| scenario.shop.material(id).map_or_else(|| id.to_owned(), |m| m.name.clone());
    let all = assembly.parts.iter().zip(making);
    all.map(|(p, making)| PlanPart {
        id: p.id.clone(),
        name: p.name.clone(),
        group: p.group.clone(),
        material: p.material.clone(),
        material_name: material_name(&p.material),
        role: p.role,
        kind: p.kind,
        length: p.length.get(),
        width: p.width.get(),
        thickness: p.thickness.get(),
        grain: p.grain,
        mass_g: p.mass_g,
        boxes: p.solid.boxes().to_vec(),
        making,
    })
    .collect()
}
