//! What is cut already, as the design uses it.

use crate::units::Length;

/// What is cut already, and what was measured on it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Made {
    /// Parts that are cut, each once. Whether they are parts of the piece is only known once it is
    /// designed.
    pub parts: Vec<MadePart>,
    /// Sheets measured since, each once.
    pub sheets: Vec<MadeSheet>,
}

/// A part that is cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadePart {
    /// Its id.
    pub id: String,
    /// Its length as measured; absent: as planned.
    pub length: Option<Length>,
    /// Its width as measured; absent: as planned.
    pub width: Option<Length>,
    /// Its thickness as measured; absent: that of its sheet.
    pub thickness: Option<Length>,
    /// It is to be cut again.
    pub spoiled: bool,
}

/// A sheet that was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeSheet {
    /// Id of a material of the shop.
    pub material: String,
    /// Its thickness as measured.
    pub thickness: Length,
}

impl Made {
    /// Whether a part is cut and good: it takes no room on a sheet any more.
    pub fn is_cut(&self, id: &str) -> bool {
        self.parts.iter().any(|p| p.id == id && !p.spoiled)
    }
}
