//! What the measurements of the gap mean: whether they can all be true, the rectangle that fits,
//! what is left to fill at its sides, and whether the piece gets to its place.
//!
//! Pure functions of the readings; lengths are micrometres, the gap's left wall at x = 0 on the
//! floor, its front line at y = 0, the floor at z = 0. `rectangle` is what the design builds to,
//! the rest judges the piece that came of it.

mod bin;
mod consistency;
mod fill;
mod obstacles;
mod passage;
pub mod rectangle;
pub mod run;
mod tilt;

pub use bin::Extension;
pub use consistency::{Quadrilateral, worst_error};
pub(crate) use passage::way_through;
pub use passage::{passes_bend, passes_door};
pub use tilt::tilts_up;

use crate::assembly::{Assembly, Kind};
use crate::findings::{Finding, Severity};
use crate::geometry::Box3;
use crate::outcome::SizeRow;
use crate::scenario::{Cabinet, Scenario, Subject};
use crate::units::{Length, Notation};

/// What came of it: rows with their sums, and what there is to say.
pub(crate) struct Found {
    notation: Notation,
    pub rows: Vec<SizeRow>,
    pub findings: Vec<Finding>,
}

impl Found {
    /// A length as the scenario prints it.
    pub(crate) fn p(&self, um: i64) -> String {
        self.notation.print(Length(um))
    }

    /// A length as it stands in a sum.
    pub(crate) fn fine(&self, um: i64) -> String {
        self.notation.finest().print(Length(um))
    }

    pub(crate) fn row(&mut self, id: &str, label: &str, value: i64, why: String) {
        let text = self.p(value);
        self.said(id, label, value, text, why);
    }

    pub(crate) fn said(&mut self, id: &str, label: &str, value: i64, text: String, why: String) {
        self.rows.push(SizeRow { id: id.to_owned(), label: label.to_owned(), value, text, why });
    }

    pub(crate) fn say(
        &mut self,
        severity: Severity,
        code: &str,
        place: &str,
        message: String,
        hint: String,
    ) -> &mut Finding {
        self.findings.push(Finding::new(severity, code, place, message, hint));
        let last = self.findings.len() - 1;
        &mut self.findings[last]
    }
}

/// The piece as it stands in the gap: how big it is, and where.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Standing {
    /// Outside size with fronts.
    pub size: [i64; 3],
    /// Where the piece's own corner (left, front of the carcass, floor) comes to stand in the gap.
    pub at: [i64; 3],
    /// Depth of the carcass with its back and without fronts.
    pub carcass: i64,
}

/// Judges readings and piece. Of a listed piece nothing is measured.
pub fn measure(s: &Scenario, piece: Option<&Assembly>) -> (Vec<SizeRow>, Vec<Finding>) {
    let Subject::Cabinet(c) = &s.subject else { return (Vec::new(), Vec::new()) };
    let mut found = Found { notation: s.notation, rows: Vec::new(), findings: Vec::new() };
    let said = rectangle::readings_agree(&mut found, &c.space);
    if !said {
        consistency::check(&mut found, &c.space);
    }
    rectangle::rows(&mut found, &c.space);
    bin::judge(&mut found, s, c);
    if let Some(piece) = piece
        && let Some(standing) = standing(c, piece)
    {
        fill::rows(&mut found, &c.space, &standing);
        tilt::judge(&mut found, c, &standing);
        obstacles::judge(&mut found, c, piece, &standing);
        passage::judge(&mut found, &c.space, &standing);
    }
    (found.rows, found.findings)
}

/// The piece's outside box over its panels.
fn outside(piece: &Assembly) -> Option<Box3> {
    let panels = piece.parts.iter().filter(|p| p.kind == Kind::Panel);
    panels.flat_map(|p| p.solid.boxes()).copied().reduce(|a, b| a.union(&b))
}

/// Where the piece stands: in the middle of the rectangle that fits, its front at the front line.
pub(crate) fn standing(c: &Cabinet, piece: &Assembly) -> Option<Standing> {
    let whole = outside(piece)?;
    let size = [0, 1, 2].map(|a| whole.extent(a));
    let [left, right] = rectangle::sides(&c.space).unwrap_or([0, size[0]]);
    let x = left + (right - left - size[0]).div_euclid(2);
    Some(Standing { size, at: [x - whole.min[0], -whole.min[1], 0], carcass: whole.max[1] })
}
