//! Replays the cuts of a layout with a blade of the job's kerf, and judges what falls out.
//!
//! Reads the layout's own types and believes none of its numbers: pieces, counts and score are worked out again.

use std::collections::{BTreeMap, BTreeSet};

use jointwise::assembly::Grain;
use jointwise::cutting::{
    Aim, Becomes, CutLine, CutNode, CutRect, CutSheet, GrainRule, Job, Layout, Score, Stages,
};

/// Everything that is wrong with a layout; nothing if it can be cut as it says.
pub fn faults(job: &Job, layout: &Layout) -> Vec<String> {
    let mut judge = Judge {
        job,
        faults: Vec::new(),
        placed: BTreeMap::new(),
        score: Score::default(),
        settings: BTreeSet::new(),
    };
    let mut used: BTreeMap<usize, u32> = BTreeMap::new();
    for (n, sheet) in layout.sheets.iter().enumerate() {
        *used.entry(sheet.stock).or_default() += 1;
        judge.sheet(n, sheet);
    }
    for (stock, count) in used {
        let stock = &job.stock[stock];
        judge.demand(stock.count.is_none_or(|most| count <= most), || {
            format!("{count} of {} are cut, there are {:?}", stock.id, stock.count)
        });
    }
    judge.totals(layout);
    judge.faults
}

struct Judge<'a> {
    job: &'a Job,
    faults: Vec<String>,
    /// How often each part came out.
    placed: BTreeMap<usize, u32>,
    score: Score,
    /// Material, way of the cut, width of what is cut off.
    settings: BTreeSet<(&'a str, CutLine, i64)>,
}

impl<'a> Judge<'a> {
    fn demand(&mut self, good: bool, fault: impl FnOnce() -> String) {
        if !good {
            self.faults.push(fault());
        }
    }

    fn sheet(&mut self, n: usize, sheet: &CutSheet) {
        let job = self.job;
        let stock = &job.stock[sheet.stock];
        let usable = CutRect {
            x: stock.trim.left,
            y: stock.trim.front,
            length: stock.length - stock.trim.left - stock.trim.right,
            width: stock.width - stock.trim.front - stock.trim.back,
        };
        self.demand(sheet.root.rect == usable, || format!("sheet {n} is not its usable rectangle"));
        self.score.price += stock.price;
        *(if stock.scrap { &mut self.score.scraps } else { &mut self.score.sheets }) += 1;
        self.node(n, sheet, &sheet.root, None, 0);
        self.apart(n, &sheet.root, usable);
    }

    /// Cuts a piece as the tree says and compares what falls off with what the tree says is there.
    fn node(
        &mut self,
        n: usize,
        sheet: &CutSheet,
        node: &CutNode,
        above: Option<CutLine>,
        depth: usize,
    ) {
        let most = match self.job.stages {
            Stages::Two => 2,
            Stages::Three => 3,
            Stages::Four => 4,
            Stages::Unlimited => usize::MAX,
        };
        match &node.becomes {
            Becomes::Part { part, turned } => self.part(n, sheet, node.rect, *part, *turned),
            Becomes::Offcut | Becomes::Waste => {
                let keep = self.job.keep;
                let (long, short) =
                    (node.rect.length.max(node.rect.width), node.rect.length.min(node.rect.width));
                let kept = long >= keep.long && short >= keep.short;
                self.demand(kept == (node.becomes == Becomes::Offcut), || {
                    format!("sheet {n}: {:?} is {:?}", node.rect, node.becomes)
                });
                if kept {
                    self.score.offcut = self.score.offcut.max(node.rect.area());
                }
                self.demand(short > 0, || format!("sheet {n}: {:?} is nothing", node.rect));
                self.demand(short >= self.job.least_cut, || {
                    format!("sheet {n}: {:?} is narrower than the smallest safe cut", node.rect)
                });
            }
            Becomes::Cut { along, cuts, pieces } => {
                self.demand(depth < most, || {
                    format!("sheet {n}: stage {} is one too many", depth + 1)
                });
                self.demand(above != Some(*along), || format!("sheet {n}: a stage does not turn"));
                let fallen = self.fall(n, sheet, node.rect, *along, cuts);
                let said: Vec<CutRect> = pieces.iter().map(|p| p.rect).collect();
                self.demand(fallen == said, || {
                    format!("sheet {n}: {said:?} is said, {fallen:?} falls")
                });
                for piece in pieces {
                    self.node(n, sheet, piece, Some(*along), depth + 1);
                }
            }
        }
    }

    /// What falls off when a rectangle is cut through, edge to edge, at these places.
    fn fall(
        &mut self,
        n: usize,
        sheet: &CutSheet,
        rect: CutRect,
        along: CutLine,
        cuts: &[i64],
    ) -> Vec<CutRect> {
        let extent = if along == CutLine::AlongWidth { rect.length } else { rect.width };
        let piece = |from: i64, to: i64| match along {
            CutLine::AlongWidth => CutRect { x: rect.x + from, length: to - from, ..rect },
            CutLine::AlongLength => CutRect { y: rect.y + from, width: to - from, ..rect },
        };
        let mut fallen = Vec::new();
        let mut from = 0;
        self.demand(!cuts.is_empty(), || format!("sheet {n}: a cut piece without a cut"));
        for cut in cuts {
            self.demand(from < *cut && *cut < extent, || {
                format!("sheet {n}: a cut at {cut} of {extent}")
            });
            fallen.push(piece(from, *cut));
            self.settings.insert((&self.job.stock[sheet.stock].material, along, cut - from));
            self.score.cuts += 1;
            from = cut + self.job.kerf;
        }
        if from < extent {
            fallen.push(piece(from, extent));
        } else {
            let runs_off = from > extent || self.job.kerf > 0;
            self.demand(!(runs_off && self.job.least_cut > 0), || {
                format!("sheet {n}: the blade runs off an edge in spite of a smallest safe cut")
            });
        }
        fallen
    }

    fn part(&mut self, n: usize, sheet: &CutSheet, rect: CutRect, part: usize, turned: bool) {
        *self.placed.entry(part).or_default() += 1;
        let (p, stock) = (&self.job.parts[part], &self.job.stock[sheet.stock]);
        let size = if turned { (p.width, p.length) } else { (p.length, p.width) };
        let along = match stock.grain {
            Grain::None => None,
            Grain::Length => Some(false),
            Grain::Width => Some(true),
        };
        let follows = p.grain == GrainRule::Free || along.is_none_or(|a| a == turned);
        self.score.value += p.value;
        self.demand((rect.length, rect.width) == size, || {
            format!("sheet {n}: {} has the size {rect:?}", p.id)
        });
        self.demand(follows, || format!("sheet {n}: {} lies across the grain", p.id));
        self.demand(p.material == stock.material, || {
            format!("sheet {n}: {} is of another material", p.id)
        });
        self.demand(p.hidden || !stock.scrap, || format!("{} comes from a scrap and shows", p.id));
    }

    /// Between any two pieces of a sheet there is a kerf, whatever the tree says.
    fn apart(&mut self, n: usize, root: &CutNode, usable: CutRect) {
        let leaves: Vec<CutRect> = root.leaves().iter().map(|l| l.rect).collect();
        let kerf = self.job.kerf;
        for (k, a) in leaves.iter().enumerate() {
            let inside = a.x >= usable.x
                && a.y >= usable.y
                && a.x + a.length <= usable.x + usable.length
                && a.y + a.width <= usable.y + usable.width;
            self.demand(inside, || format!("sheet {n}: {a:?} reaches over the edge"));
            for b in &leaves[k + 1..] {
                let gap_x = (b.x - a.x - a.length).max(a.x - b.x - b.length);
                let gap_y = (b.y - a.y - a.width).max(a.y - b.y - b.width);
                self.demand(gap_x.max(gap_y) >= kerf, || {
                    format!("sheet {n}: {a:?} and {b:?} are not a kerf apart")
                });
            }
        }
    }

    fn totals(&mut self, layout: &Layout) {
        let job = self.job;
        for (n, part) in job.parts.iter().enumerate() {
            let out = self.placed.get(&n).copied().unwrap_or(0);
            let without: u32 =
                layout.unplaced.iter().filter(|u| u.part == n).map(|u| u.count).sum();
            self.score.unplaced += without;
            self.demand(out + without == part.count, || {
                format!("{}: {out} placed, {without} not, {} wanted", part.id, part.count)
            });
        }
        self.score.settings = self.settings.len();
        let score = self.score;
        self.demand(score == layout.score, || {
            format!("the score is {:?}, not {score:?}", layout.score)
        });
        let complete = score.unplaced == 0;
        if complete && !job.parts.is_empty() && matches!(job.aim, Aim::LeastCost | Aim::CostAlone) {
            self.demand(layout.bound.price <= score.price, || {
                format!("bound {:?} is too high", layout.bound)
            });
            self.demand(layout.proved == (layout.bound.price == score.price), || {
                format!("proved {} with bound {:?}", layout.proved, layout.bound)
            });
        }
        if complete {
            let sheets = i64::from(score.sheets + score.scraps);
            self.demand(layout.bound.sheets <= sheets, || {
                format!("bound {:?} of {sheets} sheets", layout.bound)
            });
        }
    }
}
