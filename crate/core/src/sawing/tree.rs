//! The cut tree as a person meets it: every piece with the name that is written on it.

use crate::cutting::{Becomes, CutLine, CutNode, CutRect};
use crate::plan::{Cutting, Piece, Plan, SheetPlan, mark};

/// Walks one sheet and names its pieces.
pub(super) struct Names<'a> {
    pub plan: &'a Plan,
    pub cutting: &'a Cutting,
}

/// One cut from edge to edge, with what it rests on.
#[derive(Debug, Clone)]
pub(super) struct OneCut {
    /// The piece it is made in.
    pub from: String,
    /// How deep that piece lies in the tree.
    pub depth: usize,
    /// What is still whole of that piece before the cut.
    pub rest: CutRect,
    pub along: CutLine,
    /// Width of what falls off.
    pub setting: i64,
    pub gives: Piece,
    /// What is left after the last cut of the piece.
    pub leaves: Option<Piece>,
    /// In which sequence it lies, by its piece.
    pub sequence: Option<usize>,
}

impl Names<'_> {
    /// Name of a sheet.
    pub fn sheet(&self, sheet: &SheetPlan) -> String {
        format!("sheet {}", sheet.n)
    }

    /// Letters of a part of the job.
    pub fn mark(&self, part: usize) -> String {
        let id = self.cutting.job.parts.get(part).map(|p| p.id.as_str());
        let index = self.plan.parts.iter().position(|p| Some(p.id.as_str()) == id);
        index.map(mark).unwrap_or_default()
    }

    /// What the piece of that place is called, of a piece with a name.
    pub fn piece(&self, sheet: &SheetPlan, pieces: &[CutNode], at: usize, above: &str) -> Piece {
        let Some(node) = pieces.get(at) else { return Piece::Waste };
        match &node.becomes {
            Becomes::Part { part, .. } => Piece::Part {
                part: self.cutting.job.parts.get(*part).map(|p| p.id.clone()).unwrap_or_default(),
                mark: self.mark(*part),
            },
            Becomes::Offcut => {
                let at = [node.rect.x, node.rect.y];
                let found = sheet.offcuts.iter().find(|o| o.at == at);
                Piece::Offcut { mark: found.map(|o| o.id.clone()).unwrap_or_default() }
            }
            Becomes::Waste => Piece::Waste,
            Becomes::Cut { .. } => {
                let strips = pieces[..=at].iter();
                let n = strips.filter(|p| matches!(p.becomes, Becomes::Cut { .. })).count();
                Piece::Strip { mark: below(sheet, above, n) }
            }
        }
    }

    /// All cuts of a sheet, each piece's in order, pieces before what comes out of them.
    pub fn cuts(&self, sheet: &SheetPlan) -> Vec<OneCut> {
        let mut found = Vec::new();
        self.add(sheet, &sheet.cuts, &self.sheet(sheet), 0, &mut found);
        found
    }

    fn add(
        &self,
        sheet: &SheetPlan,
        node: &CutNode,
        name: &str,
        depth: usize,
        found: &mut Vec<OneCut>,
    ) {
        let Becomes::Cut { along, cuts, pieces } = &node.becomes else { return };
        let sequence = self.sequence(node);
        let mut from = 0;
        for (n, cut) in cuts.iter().enumerate() {
            let over = n + 1 == cuts.len() && n + 1 < pieces.len();
            found.push(OneCut {
                from: name.to_owned(),
                depth,
                rest: beyond(node.rect, *along, from),
                along: *along,
                setting: cut - from,
                gives: self.piece(sheet, pieces, n, name),
                leaves: over.then(|| self.piece(sheet, pieces, n + 1, name)),
                sequence,
            });
            from = cut + self.cutting.job.kerf;
        }
        for (n, piece) in pieces.iter().enumerate() {
            if let Piece::Strip { mark } = self.piece(sheet, pieces, n, name) {
                self.add(sheet, piece, &mark, depth + 1, found);
            }
        }
    }

    /// Whether a node is the piece of a sequence: then its pieces keep their order.
    fn sequence(&self, node: &CutNode) -> Option<usize> {
        let Becomes::Cut { pieces, .. } = &node.becomes else { return None };
        let parts: Option<Vec<usize>> = pieces
            .iter()
            .map(|p| match p.becomes {
                Becomes::Part { part, .. } => Some(part),
                _ => None,
            })
            .collect();
        let parts = parts?;
        self.cutting.sequences.iter().find(|s| s.parts == parts).map(|s| s.piece)
    }
}

/// Name of the `n`th piece of a piece: `1.2`, and of that `1.2.1`.
fn below(sheet: &SheetPlan, above: &str, n: usize) -> String {
    if above.starts_with("sheet ") { format!("{}.{n}", sheet.n) } else { format!("{above}.{n}") }
}

/// What is left of a rectangle from a distance on, in the way the cuts follow each other.
pub(super) fn beyond(rect: CutRect, along: CutLine, from: i64) -> CutRect {
    match along {
        CutLine::AlongWidth => CutRect { x: rect.x + from, length: rect.length - from, ..rect },
        CutLine::AlongLength => CutRect { y: rect.y + from, width: rect.width - from, ..rect },
    }
}
