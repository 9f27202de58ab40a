//! `ready.csv`: what to lay ready for each step, so that nobody looks for a bit with glue on the hands, and a
//! teacher can set out the steps of the day beforehand.

use crate::plan::{Plan, ROOM, Step};

use super::parts_csv::{row, text};
use super::words;

/// The columns, in their order.
const HEADER: [&str; 5] = ["place", "step", "what", "item", "count"];

/// One row for each thing a step takes in hand, in the order of the steps, those in the room after those at the
/// bench, lines ended by CR LF after RFC 4180. `what` is `part`, `body`, `glue`, `screw`, `bit`, `tool`, `clamp`,
/// `spacer` or `helper`; a step that takes nothing has no row. Sizes are in the plan's notation, those of screws,
/// bits and clamps' openings as in `steps.txt`.
pub fn ready_csv(plan: &Plan) -> String {
    let mut out = String::new();
    row(&mut out, HEADER.map(str::to_owned).as_slice());
    for (place, plan) in [("bench", Some(plan)), ("room", plan.install.as_deref())] {
        for (plan, step) in plan.iter().flat_map(|plan| plan.steps.iter().map(|s| (*plan, s))) {
            for (what, item, count) in wanted(plan, step) {
                let cells = [place, &step.n.to_string(), what, &text(&item), &count.to_string()];
                row(&mut out, &cells.map(str::to_owned));
            }
        }
    }
    out
}

/// What a step takes: kind, name, how many.
fn wanted(plan: &Plan, step: &Step) -> Vec<(&'static str, String, usize)> {
    let named = |id: &str| words::name(plan, id).to_owned();
    // The room is there already.
    let parts = step.parts.iter().filter(|id| *id != ROOM);
    let mut all: Vec<_> = parts.map(|id| ("part", named(id), 1)).collect();
    all.extend(step.joins.iter().map(|id| ("body", named(id), 1)));
    let glued = plan.joints.iter().filter(|j| j.glue && step.joints.contains(&j.id)).count();
    if glued > 0 {
        all.push(("glue", "joints closed with it".to_owned(), glued));
    }
    let finest = plan.unit.finest();
    let mut bits = Vec::new();
    for group in words::screw_groups(plan, step) {
        let screw = group.screw;
        let size = finest.print(screw.length);
        let kind = words::tidy(&screw.kind);
        all.push(("screw", format!("#{} × {size} {kind}", screw.gauge), group.count));
        let bit = finest.print(screw.pilot);
        if !bits.contains(&bit) {
            bits.push(bit);
        }
    }
    all.extend(bits.into_iter().map(|bit| ("bit", bit, 1)));
    all.extend(step.drivers.iter().map(|with| ("tool", with.tool.clone(), 1)));
    let held = step.hold.iter().filter_map(|hold| hold.clamp.as_ref());
    all.extend(held.chain(&step.clamps).map(|c| ("clamp", words::clamp(plan, c), 1)));
    all.extend(step.spacer.iter().map(|s| ("spacer", words::spacer(plan, s), 1)));
    if step.people > 1 {
        all.push(("helper", "a second pair of hands".to_owned(), usize::from(step.people) - 1));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    /// Records without the header, read by another reader of the standard.
    fn records(plan: &Plan) -> Vec<Vec<String>> {
        let text = ready_csv(plan);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        assert_eq!(reader.headers().unwrap(), HEADER.as_slice());
        reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect()
    }

    fn counted(records: &[Vec<String>], what: &str) -> usize {
        records.iter().filter(|r| r[2] == what).map(|r| r[4].parse::<usize>().unwrap()).sum()
    }

    #[test]
    fn every_part_and_every_screw_is_laid_ready_once() {
        let plan = sample::plan();
        let records = records(&plan);
        let parts: usize = plan.steps.iter().map(|s| s.parts.len()).sum();
        assert_eq!(counted(&records, "part"), parts);
        let screws: usize = plan.steps.iter().map(|s| s.fasteners.len()).sum();
        assert!(screws > 0);
        assert_eq!(counted(&records, "screw"), screws);
        let glued = plan.joints.iter().filter(|j| j.glue).count();
        assert_eq!(counted(&records, "glue"), glued);
        let joins = plan.steps.iter().filter(|s| s.joins.is_some()).count();
        assert_eq!(counted(&records, "body"), joins);
    }

    #[test]
    fn what_a_step_needs_stands_in_its_own_rows() {
        let mut plan = sample::plan();
        let step = plan.steps.iter().position(|s| s.spacer.is_some()).unwrap();
        let n = plan.steps[step].n.to_string();
        let of_it = |plan: &Plan, what: &str| {
            records(plan).iter().filter(|r| r[1] == n && r[2] == what).count()
        };
        assert_eq!(of_it(&plan, "spacer"), 1);
        plan.steps[step].people = 1;
        assert_eq!(of_it(&plan, "helper"), 0);
        plan.steps[step].people = 2;
        assert_eq!(of_it(&plan, "helper"), 1);
    }

    #[test]
    fn hostile_names_stay_one_cell_and_no_formula() {
        let mut plan = sample::plan();
        for part in &mut plan.parts {
            part.name = "=1+1,\"b\"\r\nc".to_owned();
        }
        let records = records(&plan);
        let parts: Vec<_> = records.iter().filter(|r| r[2] == "part").collect();
        assert!(!parts.is_empty());
        assert!(parts.iter().all(|r| r[3] == "'=1+1,\"b\"\r\nc"), "{parts:?}");
    }
}
