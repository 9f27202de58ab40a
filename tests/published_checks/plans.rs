//! What the tests of rules at their limits share: plans, how they are changed, what is looked up in what is said.

use jointwise::assembly::Role;
use jointwise::checks::{CheckRow, Said, check};
use jointwise::geometry::Box3;
use jointwise::plan::{Plan, PlanPart};
use jointwise::scenario;
use serde_json::Value;

use super::rules::{file, outcome};

/// A scenario of ours and its plan.
pub(super) fn planned(name: &str) -> (Value, Plan) {
    of(file(name))
}

/// A file and its plan.
pub(super) fn of(file: Value) -> (Value, Plan) {
    let plan = outcome(&file).plan.clone().unwrap();
    (file, plan)
}

pub(super) fn judged(plan: &Plan, file: &Value) -> Said {
    check(plan, &scenario::read(&file.to_string()).0.unwrap())
}

pub(super) fn rows<'a>(said: &'a Said, rule: &str) -> Vec<&'a CheckRow> {
    said.rows.iter().filter(|r| r.rule == rule).collect()
}

pub(super) fn row<'a>(said: &'a Said, rule: &str) -> &'a CheckRow {
    rows(said, rule).first().unwrap_or_else(|| panic!("no row of {rule}"))
}

pub(super) fn input<'a>(row: &'a CheckRow, name: &str) -> &'a str {
    &row.inputs.iter().find(|i| i.name == name).unwrap().value
}

/// The box around a part.
pub(super) fn bounds(part: &PlanPart) -> Box3 {
    part.boxes.iter().copied().reduce(|a, b| a.union(&b)).unwrap()
}

/// From left to right.
pub(super) fn ids(plan: &Plan, role: Role) -> Vec<String> {
    let mut found: Vec<_> = plan.parts.iter().filter(|p| p.role == role).collect();
    found.sort_by_key(|p| bounds(p).min[0]);
    found.iter().map(|p| p.id.clone()).collect()
}

/// Moves a part in micrometres.
pub(super) fn shift(plan: &mut Plan, id: &str, by: [i64; 3]) {
    let part = plan.parts.iter_mut().find(|p| p.id == id).unwrap();
    for b in &mut part.boxes {
        for (axis, by) in by.into_iter().enumerate() {
            b.min[axis] += by;
            b.max[axis] += by;
        }
    }
}

pub(super) fn first(plan: &Plan, role: Role) -> &PlanPart {
    plan.parts.iter().find(|p| p.role == role).unwrap()
}

pub(super) fn part<'a>(plan: &'a Plan, id: &str) -> &'a PlanPart {
    plan.parts.iter().find(|p| p.id == id).unwrap()
}
