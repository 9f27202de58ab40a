//! From parts to the saw: what is cut from which sheet, in which steps, and what must be bought.
//!
//! [`plan()`] makes the job, searches for a short while and writes down what came of it. The search may go on from
//! there: [`search`] begins it, [`with_layout`] writes down a better layout. All of it follows from the plan alone,
//! so that a plan read back from its file can be searched on.

mod as_cut;
mod job;
mod machining;
mod saw;
mod shapes;
mod sheets;
mod shopping;
mod spacers;
mod tree;

pub use as_cut::{AsCut, OnHand, as_cut};
pub use shapes::{Frame, Shape, ShapeKind, shapes};
pub use spacers::lay as lay_spacers;

use crate::cutting::{Layout, Search};
use crate::findings::Finding;
use crate::order::Wanted;
use crate::plan::{Cutting, Plan};
use crate::scenario::Scenario;

/// Steps of the search that every plan gets: a moment.
pub const STEPS_AT_ONCE: u32 = 200;
/// Steps after which the search ends where somebody waits for it.
pub const STEPS_IN_ALL: u32 = 20_000;

/// How the plan's parts are cut from the scenario's stock, and which of the wanted spacers come from what is left. None
/// when nothing is to be cut.
pub fn plan(
    scenario: &Scenario,
    plan: &Plan,
    wanted: &[Wanted],
) -> (Option<Cutting>, Vec<Finding>) {
    let made = job::make(scenario, plan);
    let mut findings = made.findings;
    if made.job.parts.is_empty() {
        return (None, findings);
    }
    let mut search = Search::new(&made.job);
    search.step(STEPS_AT_ONCE);
    let layout = search.best();
    findings.extend(job::in_the_makers_words(scenario, search.findings()));
    let bare = Cutting {
        job: made.job,
        stock: made.stock,
        sequences: made.sequences,
        saw: made.saw,
        searched: STEPS_AT_ONCE,
        sheets: Vec::new(),
        unplaced: Vec::new(),
        score: layout.score,
        bound: layout.bound,
        proved: layout.proved,
        claim: String::new(),
        spacers: Vec::new(),
        steps: Vec::new(),
        cautions: saw::cautions(),
        shopping: Vec::new(),
    };
    let mut cutting = laid_out(plan, &bare, &layout, STEPS_AT_ONCE);
    cutting.spacers = spacers::choose(plan, &cutting, wanted);
    cutting.steps = saw::steps(plan, &mut cutting);
    let (shopping, said) = shopping::list(scenario, plan, &cutting);
    findings.extend(said);
    cutting.shopping = shopping;
    (Some(cutting), findings)
}

/// A search that begins where the plan's own did.
pub fn search(cutting: &Cutting) -> Search {
    Search::new(&cutting.job)
}

/// The same job with another layout, found in so many steps.
pub fn with_layout(plan: &Plan, cutting: &Cutting, layout: &Layout, searched: u32) -> Cutting {
    let mut new = laid_out(plan, cutting, layout, searched);
    new.steps = saw::steps(plan, &mut new);
    shopping::count_sheets(&mut new);
    new
}

/// The layout alone: how its sheets are sawn and bought is not worked out yet.
fn laid_out(plan: &Plan, cutting: &Cutting, layout: &Layout, searched: u32) -> Cutting {
    Cutting {
        sheets: sheets::sheets(plan, cutting, layout),
        unplaced: sheets::unplaced(cutting, layout),
        score: layout.score,
        bound: layout.bound,
        proved: layout.proved,
        claim: sheets::claim(cutting, layout),
        searched,
        ..cutting.clone()
    }
}
