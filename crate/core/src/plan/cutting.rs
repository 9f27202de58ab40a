//! How the parts are cut: layout, saw steps, shopping list.

use serde::{Deserialize, Serialize};

use crate::cutting::{Bound, CutLine, CutNode, Job, Score, Why};

/// What comes of cutting. Lengths in micrometres; on a sheet x runs along its length, y along its width, from the
/// left front corner, trimmed or not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cutting {
    /// What the layout follows from. Its parts are the plan's panels in their order, then the sequences: each
    /// a piece from which several parts come, which themselves stand with a count of 0. So does what is cut already.
    pub job: Job,
    /// What there is to cut from, as [`Job::stock`].
    pub stock: Vec<CutStock>,
    /// Parts that come from one board in order, by the index of their piece in [`Job::parts`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sequences: Vec<CutSequence>,
    /// The saw.
    pub saw: CutSaw,
    /// Steps of the search that led here.
    pub searched: u32,
    /// Each sheet that is cut.
    pub sheets: Vec<SheetPlan>,
    /// Parts that have no place.
    pub unplaced: Vec<CutUnplaced>,
    /// What the layout comes to.
    pub score: Score,
    /// What no layout can do better than.
    pub bound: Bound,
    /// No layout of these parts on this stock costs less.
    pub proved: bool,
    /// What may be said of the layout, in a sentence.
    pub claim: String,
    /// Strips sawn from offcuts, which set distances at the bench.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spacers: Vec<CutSpacer>,
    /// What is done at the saw, in order.
    pub steps: Vec<SawStep>,
    /// What to heed all the time.
    pub cautions: Vec<String>,
    /// What to buy.
    pub shopping: Vec<ShoppingItem>,
}

/// Sheets or scraps of one size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutStock {
    /// As it is sold: `18 mm plywood`.
    pub material_name: String,
    /// Thickness as measured.
    pub thickness: i64,
    /// What one weighs.
    pub mass_g: i64,
    /// How many are in the shop; none: it is bought.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_hand: Option<u32>,
    /// What one costs, in thousandths of any money.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<i64>,
    /// Left over from something else.
    pub scrap: bool,
    /// A sheet of a usual size that the maker did not give.
    pub assumed: bool,
}

/// What one may do with the saw. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutSaw {
    /// Widest rip.
    pub fence: i64,
    /// Longest panel pushed over it.
    pub panel_length: i64,
    /// Widest panel pushed over it.
    pub panel_width: i64,
    /// Heaviest sheet lifted onto it.
    pub lift_g: i64,
}

/// Parts that come from one board, in order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutSequence {
    /// Index of the piece they come from in the job's parts.
    pub piece: usize,
    /// Indices of the parts in the job's parts, in order.
    pub parts: Vec<usize>,
    /// They follow each other along the piece's length; else across it.
    pub along_length: bool,
}

/// One sheet and what becomes of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetPlan {
    /// From 1, as the steps name it.
    pub n: u32,
    /// Id of the stock.
    pub stock: String,
    /// Length and width before trimming.
    pub size: [i64; 2],
    /// The usable rectangle with its cuts; parts by their index in the job's parts.
    pub cuts: CutNode,
    /// The parts on it.
    pub parts: Vec<PlacedPart>,
    /// Leftovers worth keeping.
    pub offcuts: Vec<PlacedOffcut>,
}

/// A part on its sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlacedPart {
    /// Id of the part.
    pub part: String,
    /// Letters to write on it.
    pub mark: String,
    /// Left front corner.
    pub at: [i64; 2],
    /// Along x and y.
    pub size: [i64; 2],
    /// Its grain side lies along y.
    pub turned: bool,
}

/// A leftover worth keeping.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlacedOffcut {
    /// What to write on it.
    pub id: String,
    /// Left front corner.
    pub at: [i64; 2],
    /// Along x and y.
    pub size: [i64; 2],
    /// The spacers that are sawn from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keep_for: Option<String>,
}

/// A strip that sets a distance at the bench, sawn from what is left of the sheets.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutSpacer {
    /// What to write on it.
    pub id: String,
    /// The distance that it sets, its length, its thickness.
    pub size: [i64; 3],
    /// Numbers of the steps at the bench that use it.
    pub steps: Vec<u32>,
    /// The offcut it is sawn from; none when this layout leaves none that is large enough.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
}

/// A part without a place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutUnplaced {
    /// Id of the part.
    pub part: String,
    /// Why.
    pub why: Why,
}

/// What is done in a saw step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SawWork {
    /// Rough edges come off.
    Trim,
    /// Cuts from edge to edge.
    Cut,
    /// A spacer out of an offcut.
    Spacer,
    /// A groove, dado, rabbet or notch in parts that have their size.
    Shape,
}

/// What it is done with. In the order in which a piece meets them: the bigger, the earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SawTool {
    /// A track saw, or a hand-held saw along a straight edge.
    TrackSaw,
    /// Across on the table saw, with a sled or mitre gauge and a stop.
    Sled,
    /// Along the fence of the table saw.
    Fence,
    /// A dado set or a router.
    DadoOrRouter,
    /// A jigsaw or band saw.
    Jigsaw,
}

/// One setting, and all that is sawn with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SawStep {
    /// From 1.
    pub n: u32,
    /// What is done.
    pub work: SawWork,
    /// What with.
    pub tool: SawTool,
    /// The sentences: setting, pieces, what to write on them.
    pub text: String,
    /// Distance from fence, stop or edge; of a groove, from its edge.
    pub setting: i64,
    /// The way the cuts run on the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub along: Option<CutLine>,
    /// Every cut, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cuts: Vec<SawCut>,
    /// Ids of the parts that are worked on or have their size after this step.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<String>,
    /// What to heed in this step.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
}

/// One cut from edge to edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SawCut {
    /// Which piece is cut: `sheet 1`, `1.2`.
    pub from: String,
    /// What falls off at the setting.
    pub gives: Piece,
    /// What is left when nothing more is cut off it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leaves: Option<Piece>,
}

/// A piece that falls off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Piece {
    /// It is cut on.
    Strip {
        /// What to write on it.
        mark: String,
    },
    /// It has its size.
    Part {
        /// Id of the part.
        part: String,
        /// What to write on it.
        mark: String,
    },
    /// To be kept.
    Offcut {
        /// What to write on it.
        mark: String,
    },
    /// To be kept: it sets a distance at the bench.
    Spacer {
        /// What to write on it.
        mark: String,
    },
    /// Into the bin.
    Waste,
}

/// A line of the shopping list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShoppingItem {
    /// Stable id, as `shop.supplies` names it.
    pub id: String,
    /// Sheets, screws, glue, banding or hardware.
    pub group: String,
    /// As a shop knows it.
    pub name: String,
    /// What it is counted in: `sheets`, `pieces`, `ml`, `mm`.
    pub unit: String,
    /// What the piece takes.
    pub need: i64,
    /// What is added for waste and loss.
    pub spare: i64,
    /// What is there.
    pub on_hand: i64,
    /// What to buy.
    pub buy: i64,
    /// What all of it costs, in thousandths of any money, if the price is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost: Option<i64>,
    /// What the amount rests on.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}
