//! Saws a plan's steps as a person would who has only the words: pieces by what is written on them.
//!
//! Knows the plan's steps and the sizes of its parts, and nothing of the layout behind them.

#![allow(clippy::expect_used, reason = "a judge may stop at what is not there")]

use std::collections::BTreeMap;

use jointwise::cutting::CutLine;
use jointwise::plan::{Cutting, Piece, Plan, SawStep, SawWork};

/// A piece on the bench: along x and y of the sheet it came from.
type Size = [i64; 2];

/// What is wrong when the steps are followed; nothing when every part that has a place comes out once, in its size.
pub fn faults(plan: &Plan, cutting: &Cutting) -> Vec<String> {
    let mut bench = Bench {
        plan,
        cutting,
        pieces: BTreeMap::new(),
        parts: BTreeMap::new(),
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
        if step.work == SawWork::Cut {
            bench.step(step);
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
            Piece::Offcut { .. } | Piece::Waste => {}
        }
    }

    fn at_the_end(&mut self) {
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
