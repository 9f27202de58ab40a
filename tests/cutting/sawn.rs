//! Saws a plan's steps as a person would who has only the words: pieces by what is written on them.
//!
//! Knows the plan's steps and the sizes of its parts, and nothing of the layout behind them.

#![allow(clippy::expect_used, reason = "a judge may stop at what is not there")]

use std::collections::BTreeMap;

use jointwise::cutting::CutLine;
use jointwise::plan::{CutSpacer, Cutting, Piece, Plan, SawStep, SawWork};

/// A piece on the bench: along x and y of the sheet it came from.
type Size = [i64; 2];

/// What is wrong when the steps are followed; nothing when every part that has a place comes out once, in its size.
pub fn faults(plan: &Plan, cutting: &Cutting) -> Vec<String> {
    let mut bench = Bench {
        plan,
        cutting,
        pieces: BTreeMap::new(),
        parts: BTreeMap::new(),
        offcuts: BTreeMap::new(),
        spacers: BTreeMap::new(),
        faults: Vec::new(),
    };
    for sheet in &cutting.sheets {
        let stock = cutting.job.stock.iter().find(|s| s.id == sheet.stock).expect("its stock");
        let [length, width] = sheet.size;
        let trim = stock.trim;
        let trimmed = [length - trim.left - trim.right, width - trim.front - trim.back];
        bench.pieces.insert(format!("sheet {}", sheet.n), trimmed);
    }
    for (n, step) in cutting.steps.iter().enumerate() {
        bench.demand(step.n as usize == n + 1, || format!("step {n} is numbered {}", step.n));
        bench.demand(!step.text.is_empty(), || format!("step {n} says nothing"));
        match step.work {
            SawWork::Cut => bench.step(step),
            SawWork::Spacer => bench.spacer(step),
            SawWork::Trim | SawWork::Shape => {}
        }
    }
    bench.at_the_end();
    bench.faults
}

struct Bench<'a> {
    plan: &'a Plan,
    cutting: &'a Cutting,
    pieces: BTreeMap<String, Size>,
    /// Sizes in which parts came out.
    parts: BTreeMap<String, Vec<Size>>,
    /// Offcuts, the longer side first.
    offcuts: BTreeMap<String, Size>,
    /// Spacers, by the two sides they could be given.
    spacers: BTreeMap<String, Size>,
    faults: Vec<String>,
}

impl Bench<'_> {
    fn demand(&mut self, good: bool, fault: impl FnOnce() -> String) {
        if !good {
            self.faults.push(fault());
        }
    }

    fn step(&mut self, step: &SawStep) {
        let Some(along) = step.along else {
            self.faults.push(format!("step {} does not say which way", step.n));
            return;
        };
        let axis = usize::from(along == CutLine::AlongLength);
        for cut in &step.cuts {
            let Some(mut piece) = self.pieces.remove(&cut.from) else {
                self.faults.push(format!("step {}: there is no {}", step.n, cut.from));
                continue;
            };
            // Parts of a sequence need not be equally wide: there the part itself says how much falls off.
            let wide = match &cut.gives {
                Piece::Part { part, .. } if self.in_sequence(part) => self.side(part, axis, piece),
                _ => step.setting,
            };
            let kerf = self.cutting.job.kerf;
            self.demand(0 < wide && wide < piece[axis], || {
                format!("step {}: {wide} of {piece:?}", step.n)
            });
            let mut off = piece;
            off[axis] = wide;
            piece[axis] -= wide + kerf;
            self.lay(step.n, &cut.gives, off);
            match &cut.leaves {
                Some(left) => self.lay(step.n, left, piece),
                None if piece[axis] > 0 => {
                    self.pieces.insert(cut.from.clone(), piece);
                }
                None => {}
            }
        }
    }

    /// A piece off the end of an offcut's longer side, and the spacer off that.
    fn spacer(&mut self, step: &SawStep) {
        for cut in &step.cuts {
            let Piece::Spacer { mark } = &cut.gives else {
                self.faults.push(format!("step {} saws no spacer", step.n));
                continue;
            };
            let kerf = self.cutting.job.kerf;
            let Some(offcut) = self.offcuts.get_mut(&cut.from) else {
                self.faults.push(format!("step {}: there is no {}", step.n, cut.from));
                continue;
            };
            let piece = [step.setting, offcut[1]];
            let enough = 0 < step.setting && step.setting <= offcut[0];
            offcut[0] -= step.setting + kerf;
            self.spacers.insert(mark.clone(), piece);
            self.demand(enough, || format!("step {}: {} is too short", step.n, cut.from));
        }
    }

    /// Every spacer that has an offcut comes out of a piece it fits into, and is what its steps at the bench lay in.
    fn spacers(&mut self) {
        for spacer in &self.cutting.spacers {
            let CutSpacer { id, size: [width, length, _], steps, from } = spacer;
            let piece = self.spacers.remove(id);
            self.demand(piece.is_some() == from.is_some(), || format!("{id} from {from:?}"));
            let other = |first: i64| if first == *width { *length } else { *width };
            self.demand(
                piece.is_none_or(|p| [*width, *length].contains(&p[0]) && other(p[0]) <= p[1]),
                || format!("{id} does not come out of {piece:?}"),
            );
            for n in steps {
                let step = self.plan.steps.iter().find(|s| s.n == *n);
                let laid = step.and_then(|s| s.spacer.as_ref());
                self.demand(laid.is_some_and(|s| s.part == *id && s.dimension == *width), || {
                    format!("{id} is not in step {n}")
                });
            }
            let names = |kept: &str| kept.replace(" and ", ", ").split(", ").any(|name| name == id);
            let offcuts = self.cutting.sheets.iter().flat_map(|s| &s.offcuts);
            let kept = offcuts.filter(|o| o.keep_for.as_deref().is_some_and(names));
            let kept: Vec<String> = kept.map(|o| o.id.clone()).collect();
            self.demand(from.as_ref().is_none_or(|f| kept.contains(f)), || {
                format!("{id} is not said at {from:?}: {kept:?}")
            });
        }
        for strange in self.spacers.keys() {
            self.faults.push(format!("{strange} is no spacer of the plan"));
        }
    }

    fn in_sequence(&self, id: &str) -> bool {
        let job = &self.cutting.job;
        let mut parts = self.cutting.sequences.iter().flat_map(|s| &s.parts);
        parts.any(|p| job.parts[*p].id == id)
    }

    /// How wide a part is across the cut, the other side being the piece's.
    fn side(&self, id: &str, axis: usize, piece: Size) -> i64 {
        let part = self.plan.parts.iter().find(|p| p.id == id).expect("a part of the plan");
        if piece[1 - axis] == part.length { part.width } else { part.length }
    }

    fn lay(&mut self, n: u32, piece: &Piece, size: Size) {
        self.demand(size.iter().all(|s| *s > 0), || format!("step {n}: a piece of {size:?}"));
        match piece {
            Piece::Strip { mark } => {
                let before = self.pieces.insert(mark.clone(), size);
                self.demand(before.is_none(), || format!("step {n}: two pieces {mark}"));
            }
            Piece::Part { part, .. } => self.parts.entry(part.clone()).or_default().push(size),
            Piece::Offcut { mark } => {
                let [a, b] = size;
                self.offcuts.insert(mark.clone(), [a.max(b), a.min(b)]);
            }
            Piece::Spacer { .. } | Piece::Waste => {}
        }
    }

    fn at_the_end(&mut self) {
        self.spacers();
        let placed: Vec<&str> = self
            .cutting
            .sheets
            .iter()
            .flat_map(|s| s.parts.iter().map(|p| p.part.as_str()))
            .collect();
        // A part that is as large as its trimmed sheet needs no cut.
        let pieces = std::mem::take(&mut self.pieces);
        for (name, size) in pieces {
            let of = self.cutting.sheets.iter().find(|s| format!("sheet {}", s.n) == name);
            match of.map(|s| &s.parts[..]) {
                Some([only]) => self.parts.entry(only.part.clone()).or_default().push(size),
                _ => self.faults.push(format!("{name} of {size:?} is left without a use")),
            }
        }
        for part in &self.plan.parts {
            let out = self.parts.remove(&part.id).unwrap_or_default();
            let wanted = placed.iter().filter(|p| **p == part.id).count();
            self.demand(out.len() == wanted, || {
                format!("{}: {} came out, {wanted} wanted", part.id, out.len())
            });
            let mut wanted = part.as_cut();
            wanted.sort_unstable();
            for size in out {
                let mut sides = size;
                sides.sort_unstable();
                self.demand(sides == wanted, || format!("{} is {size:?}, not {wanted:?}", part.id));
            }
        }
        for strange in self.parts.keys() {
            self.faults.push(format!("{strange} is no part of the plan"));
        }
    }
}
