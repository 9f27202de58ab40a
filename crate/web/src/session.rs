//! The core, JSON in and JSON out.

use jointwise::{Outcome, build, export};
use wasm_bindgen::prelude::wasm_bindgen;

/// One maker's piece: the last scenario and what came of it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Session {
    outcome: Option<Outcome>,
}

#[wasm_bindgen]
impl Session {
    /// Nothing built yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Session {
        Session::default()
    }

    /// Plans a scenario file's text. Returns the outcome as JSON: findings, sizes and, unless a
    /// finding stops it, the plan, which is kept for [`Session::export`].
    pub fn build(&mut self, scenario: &str) -> String {
        let outcome = build(scenario);
        let json = serde_json::to_string(&outcome).unwrap_or_default();
        self.outcome = Some(outcome);
        json
    }

    /// A file made of the last plan, by its name: `plan.json`, `parts.csv`, `steps.txt` or, for the
    /// drawing of a step, `step-svg:` and its number. Nothing when there is no plan or no such file.
    pub fn export(&self, kind: &str) -> Option<String> {
        let plan = self.outcome.as_ref()?.plan.as_ref()?;
        match kind {
            "plan.json" => Some(export::plan_json(plan)),
            "parts.csv" => Some(export::parts_csv(plan)),
            "steps.txt" => Some(export::steps_txt(plan)),
            _ => export::step_svg(plan, kind.strip_prefix("step-svg:")?.parse().ok()?),
        }
    }
}
