//! Sheets, scraps and the saw, as the cutting plan uses them.

use super::ListedGrain;
use crate::units::Length;

/// Sheets or scraps of one material and size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// Chalked on it.
    pub id: String,
    /// Id of the material.
    pub material: String,
    /// The long way, as it really is.
    pub length: Length,
    /// Across.
    pub width: Length,
    /// How many there are; none: as many as it takes, to be bought.
    pub count: Option<u32>,
    /// What one costs, in thousandths of any money, if it is known.
    pub price: Option<i64>,
    /// Left over from something else.
    pub scrap: bool,
    /// Good enough for hidden parts only.
    pub hidden_only: bool,
    /// Whether the left, right, front and back edge must be trimmed.
    pub rough: [bool; 4],
    /// Which way its grain runs.
    pub grain: ListedGrain,
    /// Not given by the maker: a sheet of a usual size.
    pub assumed: bool,
    /// Where it stands in the file.
    pub place: String,
}

/// The saw and what one may do with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saw {
    /// Width of the slot.
    pub kerf: Length,
    /// Taken off a rough edge, with the kerf.
    pub trim: Length,
    /// Widest rip.
    pub fence: Length,
    /// Longest panel pushed over it.
    pub panel_length: Length,
    /// Widest panel pushed over it.
    pub panel_width: Length,
    /// Heaviest sheet lifted onto it, in grams.
    pub lift_g: i64,
    /// Narrowest strip cut off; zero: any.
    pub least_cut: Length,
    /// How often the cuts change direction: 2, 3 or 4.
    pub stages: u8,
}

/// Something on the shopping list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supply {
    /// Its id on the list.
    pub id: String,
    /// How much is there, in the unit of the list.
    pub on_hand: i64,
    /// What one unit costs, in thousandths of any money.
    pub price: Option<i64>,
    /// Where it stands in the file.
    pub place: String,
}

/// What the maker has decided about cutting. Whether the ids are parts of the piece is only known once it is
/// designed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CutWishes {
    /// Parts that nobody sees.
    pub hidden: Vec<String>,
    /// Parts that may lie across the grain.
    pub any_grain: Vec<String>,
    /// Parts that come from one board, in order.
    pub sequences: Vec<Vec<String>>,
}
