//! The core, JSON in and JSON out.

use jointwise::cutting::Search;
use jointwise::plan::Cutting;
use jointwise::remedy::remedy_json;
use jointwise::{Outcome, build, export, json, sawing};
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::wasm_bindgen;

/// One maker's piece: the last scenario and what came of it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Session {
    outcome: Option<Outcome>,
    /// Where the search for a better layout stands.
    search: Option<Search>,
}

/// How far the search for a layout is.
#[derive(Serialize)]
struct Progress<'a> {
    /// Steps taken, and after how many it ends.
    searched: u32,
    of: u32,
    /// Whether there may be something left to find.
    more: bool,
    cutting: &'a Cutting,
}

/// What the maker ticked off at the saw.
#[derive(Deserialize)]
struct Told {
    done: Vec<u32>,
    spoiled: Vec<String>,
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
        self.search = None;
        json
    }

    /// The best layout found in so many steps in all, from the least that every plan gets to the most that anybody
    /// waits for, put into the plan. More steps than before go on from where the search stands; fewer begin it anew, so
    /// that the answer is of the layout that was asked for and not of a later one. Returns the cutting with the progress
    /// as JSON; nothing when there is no plan or nothing to cut.
    pub fn cut(&mut self, to: u32) -> Option<String> {
        let plan = self.outcome.as_mut()?.plan.as_mut()?;
        let to = to.clamp(sawing::STEPS_AT_ONCE, sawing::STEPS_IN_ALL);
        let cutting = plan.cutting.take()?;
        let held = self.search.take().filter(|_| cutting.searched <= to);
        let from = if held.is_some() { cutting.searched } else { 0 };
        let search = self.search.insert(held.unwrap_or_else(|| sawing::search(&cutting)));
        let more = search.step(to - from) && to < sawing::STEPS_IN_ALL;
        let layout = search.best();
        let better = sawing::with_layout(plan, &cutting, &layout, to);
        let cutting = plan.cutting.insert(better);
        let progress = Progress { searched: to, of: sawing::STEPS_IN_ALL, more, cutting };
        serde_json::to_string(&progress).ok()
    }

    /// What is there after some saw steps (`{"done": [1, 2], "spoiled": ["left-side"]}`): parts made, and stock to lay
    /// the rest out on, as JSON.
    pub fn as_cut(&self, told: &str) -> Option<String> {
        let plan = self.outcome.as_ref()?.plan.as_ref()?;
        let cutting = plan.cutting.as_ref()?;
        let told: Told = json::read_text(told).ok()?;
        let found = sawing::as_cut(plan, cutting, &told.done, &told.spoiled);
        serde_json::to_string(&found).ok()
    }

    /// Whether the last scenario gave a plan.
    pub fn has_plan(&self) -> bool {
        self.outcome.as_ref().is_some_and(|outcome| outcome.plan.is_some())
    }

    /// Sizes and parts of a scenario, without an order, as JSON. The last plan stays as it was.
    pub fn draft(&self, scenario: &str) -> String {
        serde_json::to_string(&jointwise::outcome::draft(scenario)).unwrap_or_default()
    }

    /// A file made of the last plan, by its name: `plan.json`, `parts.csv`, `steps.txt`, `ready.csv`, those of the cutting
    /// (`cuts.csv`, `sheet-1.svg`, …) or, for the drawing of a step, `step-svg:` and its number, of a step in the room, `room-svg:`, of a part,
    /// `part-svg:` and its id; of that `part-picture:` the drawing alone and `part-words:` its sentences as a JSON
    /// list. Nothing when there is no plan or no such file.
    pub fn export(&self, kind: &str) -> Option<String> {
        let plan = self.outcome.as_ref()?.plan.as_ref()?;
        match kind {
            "plan.json" => Some(export::plan_json(plan)),
            "parts.csv" => Some(export::parts_csv(plan)),
            "steps.txt" => Some(export::steps_txt(plan)),
            "ready.csv" => Some(export::ready_csv(plan)),
            _ => match kind.split_once(':') {
                Some(("step-svg", n)) => export::step_svg(plan, n.parse().ok()?),
                Some(("room-svg", n)) => {
                    export::step_svg(plan.install.as_deref()?, n.parse().ok()?)
                }
                Some(("part-svg", id)) => export::part_svg(plan, id),
                Some(("part-picture", id)) => export::part_picture(plan, id),
                Some(("part-words", id)) => {
                    serde_json::to_string(&export::part_words(plan, id)?).ok()
                }
                _ => export::cutting_file(plan, kind),
            },
        }
    }

    /// The last plan as a binary glTF model.
    pub fn model(&self) -> Option<Vec<u8>> {
        Some(export::glb(self.outcome.as_ref()?.plan.as_ref()?))
    }

    /// What to do about something measured: a question of [`jointwise::remedy`] as JSON, and its
    /// answer as JSON. Nothing when there is no plan.
    pub fn remedy(&self, question: &str) -> Option<String> {
        let plan = self.outcome.as_ref()?.plan.as_ref()?;
        serde_json::to_string(&remedy_json(plan, question)).ok()
    }
}
