//! `plan.json`.

use crate::plan::Plan;

/// The plan as indented JSON with a newline at its end. Reading it back gives an equal plan.
pub fn plan_json(plan: &Plan) -> String {
    // Writing can only fail on maps whose keys are not text; the plan has none.
    let mut text = serde_json::to_string_pretty(plan).unwrap_or_default();
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    #[test]
    fn what_is_written_reads_back_equal() {
        let plan = sample::plan();
        let text = plan_json(&plan);
        assert!(text.ends_with("}\n"));
        assert_eq!(serde_json::from_str::<Plan>(&text).unwrap(), plan);
    }
}
