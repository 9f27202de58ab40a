//! What is to be cut, and by which rules.

use serde::{Deserialize, Serialize};

use super::stock::Stock;

/// Everything a layout follows from. Lengths in micrometres.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// What there is to cut from.
    pub stock: Vec<Stock>,
    /// What must come out of it.
    pub parts: Vec<CutPart>,
    /// Width of the slot the blade leaves, from 0 to [`MOST_KERF`](super::MOST_KERF).
    pub kerf: i64,
    /// No piece narrower than this is cut off or cut out; 0: any. A part narrower than that is refused.
    #[serde(default)]
    pub least_cut: i64,
    /// How often the direction of the cuts may change.
    #[serde(default)]
    pub stages: Stages,
    /// What is worth keeping of what is left.
    #[serde(default)]
    pub keep: Keep,
    /// What makes a layout good.
    #[serde(default)]
    pub aim: Aim,
    /// Another number gives another search; the same one the same layout.
    #[serde(default)]
    pub seed: u64,
}

/// A part as it lies: a rectangle, some of it wanted several times.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutPart {
    /// Its name, once in a job.
    pub id: String,
    /// What it is cut from.
    pub material: String,
    /// Along its grain, if it minds.
    pub length: i64,
    /// Across its grain.
    pub width: i64,
    /// How many are wanted.
    pub count: u32,
    /// Whether its grain matters.
    pub grain: GrainRule,
    /// It may come from a scrap.
    #[serde(default)]
    pub hidden: bool,
    /// What one is worth when not all can be had; only [`Aim::MostValue`] reads it.
    #[serde(default)]
    pub value: i64,
}

/// Whether a part may be turned on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum GrainRule {
    /// Its length follows the sheet's grain. On a sheet without grain it may lie either way.
    Locked,
    /// It may lie either way.
    Free,
}

/// How often the cuts may change direction. Each sheet is first cut across in one direction, edge to edge; the strips
/// in the other; and so on. The last trim to size counts as a stage.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stages {
    /// Rip, crosscut: all parts of a strip are as wide as the strip.
    Two,
    /// Rip, crosscut, trim.
    #[default]
    Three,
    /// One more change of direction.
    Four,
    /// As often as it takes; every cut still goes edge to edge.
    Unlimited,
}

impl Stages {
    /// The deepest a piece may lie in the cut tree.
    pub(super) const fn most(self) -> u16 {
        match self {
            Stages::Two => 2,
            Stages::Three => 3,
            Stages::Four => 4,
            Stages::Unlimited => u16::MAX,
        }
    }
}

/// The smallest leftover that is an offcut to keep; anything less is waste.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Keep {
    /// Its longer side.
    pub long: i64,
    /// Its shorter side.
    pub short: i64,
}

impl Default for Keep {
    /// 300 mm by 100 mm: common practice, no source.
    fn default() -> Self {
        Keep { long: 300_000, short: 100_000 }
    }
}

/// What makes one layout better than another, most weighty first.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// All parts; least money; least area of scraps; biggest offcut; fewest fence settings; fewest cuts.
    #[default]
    LeastCost,
    /// The same with the number of sheets in place of money.
    FewestSheets,
    /// As `LeastCost`, but the search stops at the scraps: it neither enlarges the offcut nor saves cuts.
    CostAlone,
    /// The parts that are worth most, from the stock there is: parts may stay out.
    MostValue,
}
