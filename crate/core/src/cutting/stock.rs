//! What there is to cut from.

use serde::{Deserialize, Serialize};

use crate::assembly::Grain;

/// Sheets or scraps of one material and size. Lengths in micrometres; x runs along the length, y along the width.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stock {
    /// Its name, once in a job.
    pub id: String,
    /// Parts of the same material are cut from it.
    pub material: String,
    /// Size along x.
    pub length: i64,
    /// Size along y.
    pub width: i64,
    /// How many there are; none: as many as it takes.
    #[serde(default)]
    pub count: Option<u32>,
    /// What one costs, in the smallest unit of money. What lies in the shop already costs 0.
    #[serde(default)]
    pub price: i64,
    /// What is cut off the edges before anything else.
    #[serde(default)]
    pub trim: Trim,
    /// Which way its grain runs.
    pub grain: Grain,
    /// A leftover that is good enough for hidden parts only. (A sound leftover is stock of its size, count and
    /// price 0.)
    #[serde(default)]
    pub scrap: bool,
}

impl Stock {
    /// Length and width inside the trimmed edges; may be nothing or less.
    pub fn usable(&self) -> [i64; 2] {
        [
            self.length - self.trim.left - self.trim.right,
            self.width - self.trim.front - self.trim.back,
        ]
    }
}

/// What is lost along each edge, in micrometres: factory edges that are chipped or out of square. The kerf of the
/// trimming cut is part of it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trim {
    /// At x = 0.
    pub left: i64,
    /// At the far end of the length.
    pub right: i64,
    /// At y = 0.
    pub front: i64,
    /// At the far end of the width.
    pub back: i64,
}

impl Trim {
    /// The same along all four edges.
    pub const fn all(trim: i64) -> Trim {
        Trim { left: trim, right: trim, front: trim, back: trim }
    }
}
