//! From a layout to the sheets of the plan, and what may be said of it.

use crate::cutting::{Becomes, CutLine, CutNode, CutRect, Layout};
use crate::plan::{
    CutSequence, CutUnplaced, Cutting, PlacedOffcut, PlacedPart, Plan, SheetPlan, mark,
};

/// Each sheet of a layout, from 1.
pub(super) fn sheets(plan: &Plan, cutting: &Cutting, layout: &Layout) -> Vec<SheetPlan> {
    let mut offcuts = 0;
    let mut made = Vec::new();
    for (n, sheet) in (1u32..).zip(&layout.sheets) {
        let Some(stock) = cutting.job.stock.get(sheet.stock) else { continue };
        let mut cuts = sheet.root.clone();
        open_sequences(&mut cuts, cutting);
        let mut one = SheetPlan {
            n,
            stock: stock.id.clone(),
            size: [stock.length, stock.width],
            parts: Vec::new(),
            offcuts: Vec::new(),
            cuts: cuts.clone(),
        };
        for leaf in cuts.leaves() {
            let CutRect { x, y, length, width } = leaf.rect;
            let (at, size) = ([x, y], [length, width]);
            match leaf.becomes {
                Becomes::Part { part, turned } => {
                    let Some(cut) = cutting.job.parts.get(part) else { continue };
                    let index = plan.parts.iter().position(|p| p.id == cut.id);
                    one.parts.push(PlacedPart {
                        part: cut.id.clone(),
                        mark: index.map(mark).unwrap_or_default(),
                        at,
                        size,
                        turned,
                    });
                }
                Becomes::Offcut => {
                    offcuts += 1;
                    let id = format!("offcut {offcuts}");
                    one.offcuts.push(PlacedOffcut { id, at, size, keep_for: None });
                }
                _ => {}
            }
        }
        made.push(one);
    }
    made
}

/// Parts the pieces of sequences into their parts.
fn open_sequences(node: &mut CutNode, cutting: &Cutting) {
    match &mut node.becomes {
        Becomes::Cut { pieces, .. } => {
            for piece in pieces {
                open_sequences(piece, cutting);
            }
        }
        Becomes::Part { part, turned } => {
            if let Some(s) = cutting.sequences.iter().find(|s| s.piece == *part) {
                node.becomes = opened(node.rect, s, *turned, cutting);
            }
        }
        _ => {}
    }
}

fn opened(rect: CutRect, s: &CutSequence, turned: bool, cutting: &Cutting) -> Becomes {
    let along = if s.along_length == turned { CutLine::AlongLength } else { CutLine::AlongWidth };
    let (mut cuts, mut pieces) = (Vec::new(), Vec::new());
    let mut from = 0;
    for (n, part) in s.parts.iter().enumerate() {
        let Some(one) = cutting.job.parts.get(*part) else { continue };
        let side = if s.along_length { one.length } else { one.width };
        let rect = match along {
            CutLine::AlongWidth => CutRect { x: rect.x + from, length: side, ..rect },
            CutLine::AlongLength => CutRect { y: rect.y + from, width: side, ..rect },
        };
        pieces.push(CutNode { rect, becomes: Becomes::Part { part: *part, turned } });
        if n + 1 < s.parts.len() {
            cuts.push(from + side);
        }
        from += side + cutting.job.kerf;
    }
    Becomes::Cut { along, cuts, pieces }
}

/// The parts that have no place.
pub(super) fn unplaced(cutting: &Cutting, layout: &Layout) -> Vec<CutUnplaced> {
    let mut all = Vec::new();
    for u in &layout.unplaced {
        let of = cutting.sequences.iter().find(|s| s.piece == u.part);
        let parts = of.map_or_else(|| vec![u.part], |s| s.parts.clone());
        for part in parts {
            if let Some(part) = cutting.job.parts.get(part) {
                all.push(CutUnplaced { part: part.id.clone(), why: u.why });
            }
        }
    }
    all
}

/// What may be said of the layout: never more than the bound proves.
pub(super) fn claim(cutting: &Cutting, layout: &Layout) -> String {
    let score = &layout.score;
    let used = score.sheets + score.scraps;
    if used == 0 {
        return "Nothing is left to be cut from a sheet.".to_owned();
    }
    let sheets = counted(used, "sheet");
    let without = match score.unplaced {
        0 => String::new(),
        1 => " 1 part has no place.".to_owned(),
        n => format!(" {n} parts have no place."),
    };
    // A price that meets the bound says something of the number of sheets only where all sheets of a
    // material are alike.
    let one_size = |m: &str| {
        let mut of = cutting.job.stock.iter().filter(|s| s.material == m);
        let first = of.next();
        of.all(|s| {
            first.is_some_and(|f| (f.length, f.width, f.price) == (s.length, s.width, s.price))
        })
    };
    let alike = cutting.job.stock.iter().all(|s| one_size(&s.material));
    let least = layout.bound.sheets;
    let said = if i64::from(used) == least && layout.score.unplaced == 0 {
        format!("{sheets}. Proved: no layout of these parts uses fewer sheets.")
    } else if layout.proved && !alike {
        format!("{sheets}. Proved: no layout of these parts takes cheaper sheets.")
    } else if score.unplaced == 0 {
        format!("{sheets}. At least {} needed; this uses {used}.", are(least))
    } else {
        format!("{sheets}.")
    };
    format!("{said}{without}")
}

fn counted(n: u32, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}

fn are(n: i64) -> String {
    if n == 1 { "1 is".to_owned() } else { format!("{n} are") }
}
