//! Judges a finished plan from its file alone.
//!
//! Nothing here uses the planner's code: the file is read into structs of its own and judged with
//! a geometry of its own (columns and depths instead of box against box), so that a slip in the
//! planner cannot hide in its judge. Every rule is a function from the replayed plan to a list of
//! [`Violation`]s; an empty list from [`verify`] is a plan that can be followed at the bench.

pub mod balance;
pub mod bodies;
pub mod bookkeeping;
pub mod checks;
pub mod clamps;
pub mod cost;
pub mod fastened;
pub mod file;
pub mod glue;
pub mod gravity;
pub mod holding;
pub mod parts;
pub mod path;
pub mod people;
pub mod replay;
pub mod screws;
pub mod shop;
pub mod space;
pub mod spacers;
pub mod tape;
pub mod tools;
pub mod turns;

use file::PlanFile;
use replay::Replay;

/// One breach of one rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Violation {
    /// Name of the rule.
    pub rule: &'static str,
    /// Number of the step, or 0 when it concerns the plan as a whole.
    pub step: u32,
    /// What is wrong, with the ids concerned.
    pub what: String,
}

impl Violation {
    /// A breach at a step.
    pub fn new(rule: &'static str, step: u32, what: impl Into<String>) -> Self {
        Violation { rule, step, what: what.into() }
    }
}

impl std::fmt::Display for Violation {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "step {}: {}: {}", self.step, self.rule, self.what)
    }
}

/// The name of a rule beside the function that judges it.
type Rule = (&'static str, fn(&Replay<'_>) -> Vec<Violation>);

/// Every rule that needs the plan's replay.
pub const RULES: [Rule; 20] = [
    (bookkeeping::RULE, bookkeeping::judge),
    (cost::RULE, cost::judge),
    (bodies::RULE, bodies::judge),
    (parts::RULE, parts::judge),
    (path::CLEAR, path::judge_clear),
    (path::PLANE, path::judge_plane),
    (screws::RULE, screws::judge),
    (screws::TIME, screws::judge_time),
    (tools::RULE, tools::judge),
    (fastened::RULE, fastened::judge),
    (turns::RULE, turns::judge),
    (gravity::RULE, gravity::judge),
    (holding::RULE, holding::judge),
    (clamps::RULE, clamps::judge),
    (glue::RULE, glue::judge),
    (glue::WET, glue::judge_wet),
    (spacers::RULE, spacers::judge),
    (checks::RULE, checks::judge),
    (tape::RULE, tape::judge),
    (people::RULE, people::judge),
];

/// All breaches of a plan given as the text of its file.
///
/// A text that cannot be read, or whose numbers lie beyond anything that stands on a bench, is one
/// breach of the rule `format` and is judged no further.
pub fn verify(text: &str) -> Vec<Violation> {
    let plan = match PlanFile::read(text) {
        Ok(plan) => plan,
        Err(what) => return vec![Violation::new(file::RULE, 0, what)],
    };
    let replay = Replay::of(&plan);
    RULES.iter().flat_map(|(_, judge)| judge(&replay)).collect()
}
