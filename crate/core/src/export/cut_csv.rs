//! `cut-parts.csv` and `cuts.csv`: where every part lies, and every cut in its order, after RFC 4180.

use super::parts_csv::{row, tenths, text};
use super::words;
use crate::plan::{Piece, Plan, SawTool, SawWork};

/// One row a part that has a place, sheet by sheet. Places are those of its left front corner on the untrimmed sheet,
/// in millimetres to 0.1.
pub fn cut_parts_csv(plan: &Plan) -> String {
    let mut out = String::new();
    let header = [
        "sheet",
        "stock",
        "mark",
        "id",
        "name",
        "x_mm",
        "y_mm",
        "along_x_mm",
        "along_y_mm",
        "turned",
    ];
    row(&mut out, header.map(str::to_owned).as_slice());
    for sheet in plan.cutting.iter().flat_map(|c| &c.sheets) {
        for part in &sheet.parts {
            let cells = [
                sheet.n.to_string(),
                text(&sheet.stock),
                part.mark.clone(),
                text(&part.part),
                text(plan.name_of(&part.part)),
                tenths(part.at[0]),
                tenths(part.at[1]),
                tenths(part.size[0]),
                tenths(part.size[1]),
                if part.turned { "yes" } else { "no" }.to_owned(),
            ];
            row(&mut out, &cells);
        }
    }
    out
}

/// One row a cut, in the order of the steps; of a step without cuts from edge to edge one row.
pub fn cuts_csv(plan: &Plan) -> String {
    let mut out = String::new();
    let header =
        ["step", "work", "tool", "setting", "setting_mm", "from", "gives", "leaves", "text"];
    row(&mut out, header.map(str::to_owned).as_slice());
    for step in plan.cutting.iter().flat_map(|c| &c.steps) {
        let work = match step.work {
            SawWork::Trim => "trim",
            SawWork::Cut => "cut",
            SawWork::Spacer => "spacer",
            SawWork::Shape => "shape",
        };
        let tool = match step.tool {
            SawTool::TrackSaw => "track saw",
            SawTool::Sled => "sled",
            SawTool::Fence => "fence",
            SawTool::DadoOrRouter => "dado set or router",
            SawTool::Jigsaw => "jigsaw",
        };
        // A jigsaw follows its line: nothing is set.
        let setting = Some(step.setting).filter(|_| step.tool != SawTool::Jigsaw);
        let mut add = |from: &str, gives: String, leaves: String| {
            let cells = [
                step.n.to_string(),
                work.to_owned(),
                tool.to_owned(),
                setting.map(|um| text(&words::length(plan.unit, um))).unwrap_or_default(),
                setting.map(tenths).unwrap_or_default(),
                text(from),
                text(&gives),
                text(&leaves),
                text(&step.text),
            ];
            row(&mut out, &cells);
        };
        if step.cuts.is_empty() {
            add("", step.parts.join(" "), String::new());
        }
        for cut in &step.cuts {
            let leaves = cut.leaves.as_ref().map(|l| piece(plan, l)).unwrap_or_default();
            add(&cut.from, piece(plan, &cut.gives), leaves);
        }
    }
    out
}

fn piece(plan: &Plan, piece: &Piece) -> String {
    match piece {
        Piece::Strip { mark } => mark.clone(),
        Piece::Part { part, mark } => format!("{mark} {}", plan.name_of(part)),
        Piece::Offcut { mark } | Piece::Spacer { mark } => mark.clone(),
        Piece::Waste => "waste".to_owned(),
    }
}
