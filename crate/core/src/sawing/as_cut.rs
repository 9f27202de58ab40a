//! What is there once some of the saw steps are done: parts, pieces, sheets not begun.
//!
//! A spoiled part is planned anew from that: what is cut stays cut.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::tree::{Names, beyond};
use crate::cutting::{Becomes, CutNode, CutRect};
use crate::plan::{Cutting, Piece, Plan, SawWork, SheetPlan};

/// What is there.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct AsCut {
    /// Ids of the parts that have their size and are good.
    pub made: Vec<String>,
    /// Ids of the parts that were cut and are spoiled.
    pub spoiled: Vec<String>,
    /// What is left to cut from: sheets not begun, then pieces of those begun.
    pub stock: Vec<OnHand>,
}

/// Stock as it is after some cuts. Lengths in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OnHand {
    /// Chalked on it.
    pub id: String,
    /// Id of the material.
    pub material: String,
    /// Along the grain of the sheet it came from, if that ran along its length.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// How many; none: as many as it takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Index into the plan's stock that it is, or came from.
    pub stock: usize,
    /// It came from a sheet that was begun: its edges are sawn.
    pub piece: bool,
}

/// What is there after the steps with those numbers, some parts having been spoiled.
pub fn as_cut(plan: &Plan, cutting: &Cutting, done: &[u32], spoiled: &[String]) -> AsCut {
    let names = Names { plan, cutting };
    // How often each piece was cut, and which sheets were begun.
    let mut cut: BTreeMap<&str, usize> = BTreeMap::new();
    for step in cutting.steps.iter().filter(|s| s.work == SawWork::Cut && done.contains(&s.n)) {
        for one in &step.cuts {
            *cut.entry(&one.from).or_default() += 1;
        }
    }
    let mut spacers: BTreeMap<&str, i64> = BTreeMap::new();
    for step in cutting.steps.iter().filter(|s| s.work == SawWork::Spacer && done.contains(&s.n)) {
        for one in &step.cuts {
            *spacers.entry(&one.from).or_default() += step.setting + cutting.job.kerf;
        }
    }
    let mut out = AsCut::default();
    let mut begun: BTreeMap<usize, u32> = BTreeMap::new();
    let mut pieces = Vec::new();
    for sheet in &cutting.sheets {
        let Some(stock) = cutting.job.stock.iter().position(|s| s.id == sheet.stock) else {
            continue;
        };
        let name = names.sheet(sheet);
        if !cut.contains_key(name.as_str()) {
            continue;
        }
        *begun.entry(stock).or_default() += 1;
        let mut there = There {
            names: &names,
            cut: &cut,
            spacers: &spacers,
            spoiled,
            sheet,
            stock,
            out: &mut out,
            pieces: &mut pieces,
        };
        there.node(&sheet.cuts, &name);
    }
    for (index, stock) in cutting.job.stock.iter().enumerate() {
        let used = begun.get(&index).copied().unwrap_or(0);
        let count = stock.count.map(|n| n.saturating_sub(used));
        if count != Some(0) {
            out.stock.push(OnHand {
                id: stock.id.clone(),
                material: stock.material.clone(),
                length: stock.length,
                width: stock.width,
                count,
                stock: index,
                piece: false,
            });
        }
    }
    let mut taken: BTreeSet<String> = out.stock.iter().map(|s| s.id.clone()).collect();
    for mut piece in pieces {
        // Pieces of an earlier layout may bear the same name.
        while !taken.insert(piece.id.clone()) {
            piece.id.push('\'');
        }
        out.stock.push(piece);
    }
    out
}

struct There<'a> {
    names: &'a Names<'a>,
    cut: &'a BTreeMap<&'a str, usize>,
    /// What spacers have taken off the longer side of offcuts.
    spacers: &'a BTreeMap<&'a str, i64>,
    spoiled: &'a [String],
    sheet: &'a SheetPlan,
    stock: usize,
    out: &'a mut AsCut,
    pieces: &'a mut Vec<OnHand>,
}

impl There<'_> {
    /// A piece that is there.
    fn node(&mut self, node: &CutNode, name: &str) {
        match &node.becomes {
            Becomes::Part { part, .. } => {
                let id = self.names.cutting.job.parts.get(*part).map(|p| p.id.clone());
                let Some(id) = id else { return };
                let list = if self.spoiled.contains(&id) {
                    &mut self.out.spoiled
                } else {
                    &mut self.out.made
                };
                list.push(id);
            }
            Becomes::Offcut | Becomes::Waste => self.keep(node.rect, name),
            Becomes::Cut { along, cuts, pieces } => {
                let done = self.cut.get(name).copied().unwrap_or(0).min(cuts.len());
                let off = if done == cuts.len() { pieces.len() } else { done };
                for (n, piece) in pieces.iter().take(off).enumerate() {
                    let called = self.names.piece(self.sheet, pieces, n, name);
                    match called {
                        Piece::Strip { mark } | Piece::Offcut { mark } => self.node(piece, &mark),
                        Piece::Part { .. } => self.node(piece, ""),
                        Piece::Spacer { .. } | Piece::Waste => {}
                    }
                }
                if done < cuts.len() {
                    let from =
                        if done == 0 { 0 } else { cuts[done - 1] + self.names.cutting.job.kerf };
                    let name = if done == 0 { name.to_owned() } else { format!("rest of {name}") };
                    self.keep(beyond(node.rect, *along, from), &name);
                }
            }
        }
    }

    fn keep(&mut self, mut rect: CutRect, name: &str) {
        let taken = self.spacers.get(name).copied().unwrap_or(0);
        *(if rect.length >= rect.width { &mut rect.length } else { &mut rect.width }) -= taken;
        let Some(stock) = self.names.cutting.job.stock.get(self.stock) else { return };
        // Smaller than any scrap is worth writing down.
        if rect.length.min(rect.width) < LEAST_SIDE {
            return;
        }
        self.pieces.push(OnHand {
            id: name.to_owned(),
            material: stock.material.clone(),
            length: rect.length,
            width: rect.width,
            count: Some(1),
            stock: self.stock,
            piece: true,
        });
    }
}

/// The least that the scenario takes for a side of a scrap.
const LEAST_SIDE: i64 = 20_000;
