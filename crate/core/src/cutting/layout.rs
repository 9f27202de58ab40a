//! The result: how each sheet is cut, and what comes out of it.

use serde::{Deserialize, Serialize};

/// Sheets with their cuts. Lengths in micrometres.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Layout {
    /// The sheets cut, material by material.
    pub sheets: Vec<CutSheet>,
    /// Parts that have no place.
    pub unplaced: Vec<Unplaced>,
    /// What the layout comes to.
    pub score: Score,
    /// What no layout can do better than.
    pub bound: Bound,
    /// No layout of these parts on this stock costs less: the cost meets the bound. Says nothing of the offcuts.
    pub proved: bool,
}

/// One sheet and its cut tree.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutSheet {
    /// Index into the job's stock.
    pub stock: usize,
    /// The usable rectangle, with its cuts.
    pub root: CutNode,
}

/// A rectangle on a sheet: x along the sheet's length, y along its width, from the untrimmed corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct CutRect {
    /// Its near edge across the length.
    pub x: i64,
    /// Its near edge across the width.
    pub y: i64,
    /// Size along x.
    pub length: i64,
    /// Size along y.
    pub width: i64,
}

impl CutRect {
    /// In square micrometres.
    pub const fn area(&self) -> i64 {
        self.length * self.width
    }
}

/// A piece, and what becomes of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutNode {
    /// Where it lies.
    pub rect: CutRect,
    /// What becomes of it.
    #[serde(flatten)]
    pub becomes: Becomes,
}

/// What becomes of a piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "use", rename_all = "kebab-case")]
pub enum Becomes {
    /// A part.
    Part {
        /// Index into the job's parts.
        part: usize,
        /// Its length lies along y.
        turned: bool,
    },
    /// A leftover big enough to keep.
    Offcut,
    /// A leftover too small to keep.
    Waste,
    /// It is cut on, edge to edge.
    Cut {
        /// The way the cuts run.
        along: CutLine,
        /// Where the blade enters: distance of the kerf's near edge from the piece's own near edge, for each cut. The
        /// last may leave nothing behind it, the blade running off the far edge.
        cuts: Vec<i64>,
        /// What it falls into, near to far: a part or strip before each cut, then the leftover, if any.
        pieces: Vec<CutNode>,
    },
}

/// The way a cut runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutLine {
    /// Along y: its pieces follow each other along x.
    AlongWidth,
    /// Along x: its pieces follow each other along y.
    AlongLength,
}

/// A part that has no place, and how many of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Unplaced {
    /// Index into the job's parts.
    pub part: usize,
    /// How many.
    pub count: u32,
    /// Why not.
    pub why: Why,
}

/// Why a part has no place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// Something about it is wrong; a finding says what.
    Refused,
    /// No stock of its material is big enough the way its grain must lie.
    FitsNowhere,
    /// The stock was used up.
    StockUsedUp,
}

/// What a layout comes to, most weighty first: less is better, except of offcuts.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Score {
    /// Parts without a place.
    pub unplaced: u32,
    /// What the sheets cost.
    pub price: i64,
    /// Sheets cut that are not scraps.
    pub sheets: u32,
    /// Scraps cut.
    pub scraps: u32,
    /// Area of the biggest offcut to keep, µm².
    pub offcut: i64,
    /// Distances the fence or stop must be set to: rips and crosscuts of different width, material by material.
    pub settings: usize,
    /// Cuts, the trimming of the sheets' edges aside.
    pub cuts: usize,
    /// Value of the parts placed.
    pub value: i64,
}

/// What no layout can do better than, of the parts that fit at all.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Bound {
    /// Least price of the sheets.
    pub price: i64,
    /// Least number of sheets and scraps.
    pub sheets: i64,
}

impl CutNode {
    /// All pieces that are cut no further, near to far.
    pub fn leaves(&self) -> Vec<&CutNode> {
        match &self.becomes {
            Becomes::Cut { pieces, .. } => pieces.iter().flat_map(CutNode::leaves).collect(),
            _ => vec![self],
        }
    }
}
