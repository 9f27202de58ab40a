//! The plan of an assembly that no scenario made.

use jointwise::assembly::{Assembly, JointKind};
use jointwise::export;
use jointwise::findings::Finding;
use jointwise::order::plan_order;
use jointwise::plan::{FORMAT, Plan, PlanJoint, PlanPart, Workshop};
use jointwise::units::Notation;
use jointwise::wishes::Wishes;

/// The plan of an assembly; none when no order is found.
pub fn plan(assembly: &Assembly, workshop: &Workshop) -> Option<Plan> {
    planned(assembly, workshop).ok()
}

/// The plan of an assembly, or what is found when no order is.
///
/// # Errors
/// The findings, when there is no order.
pub fn planned(assembly: &Assembly, workshop: &Workshop) -> Result<Plan, Vec<Finding>> {
    let (order, findings) = plan_order(assembly, workshop, &Wishes::default(), Notation::MmTenth);
    let Some(order) = order else {
        return Err(findings);
    };
    let part = |p: &jointwise::assembly::Part| PlanPart {
        id: p.id.clone(),
        name: p.name.clone(),
        group: p.group.clone(),
        material: p.material.clone(),
        material_name: p.material.clone(),
        kind: p.kind,
        role: p.role,
        length: p.length.get(),
        width: p.width.get(),
        thickness: p.thickness.get(),
        grain: p.grain,
        mass_g: p.mass_g,
        boxes: p.solid.boxes().to_vec(),
        making: None,
    };
    let joint = |j: &jointwise::assembly::Joint| PlanJoint {
        id: j.id.clone(),
        parts: j.parts.map(|p| assembly.parts[p].id.clone()),
        kind: j.kind,
        glue: j.glue,
        fasteners: j.fasteners.clone(),
    };
    Ok(Plan {
        format: FORMAT.to_owned(),
        title: assembly.title.clone(),
        unit: Notation::MmTenth,
        workshop: workshop.clone(),
        parts: assembly.parts.iter().map(part).collect(),
        joints: assembly.joints.iter().filter(|j| j.kind != JointKind::Touch).map(joint).collect(),
        bodies: order.bodies,
        steps: order.steps,
        cost: order.cost,
        proof: order.proof,
        cutting: None,
        install: None,
        findings,
    })
}

/// The text of `plan.json` for an assembly; none when no order is found.
pub fn plan_text(assembly: &Assembly, workshop: &Workshop) -> Option<String> {
    plan(assembly, workshop).map(|p| export::plan_json(&p))
}
