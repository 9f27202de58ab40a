//! Any stock, saw and wishes about cutting, for the parts of one small piece.

use std::sync::LazyLock;

use jointwise::cutting::Layout;
use jointwise::plan::{Cutting, Plan};
use jointwise::sawing;
use jointwise::scenario::read;
use serde_json::Value;

use super::are_said;
use crate::cutting::{checker, sawn};

/// The scenario whose parts are cut, and its plan, which does not hang on the stock.
static PIECE: LazyLock<(Value, Option<Plan>)> = LazyLock::new(|| {
    let text = include_str!("../../scenarios/root-crate.json");
    (serde_json::from_str(text).unwrap_or_default(), jointwise::build(text).plan)
});

/// Lays the parts out. The bytes are a tree of `stock`, `saw` and `supplies`, as in a file's `shop`, and `cut`.
///
/// # Panics
/// When a layout cannot be sawn as it says.
pub fn run(bytes: &[u8]) {
    let Ok(Value::Object(given)) = serde_json::from_slice(bytes) else { return };
    let (mut tree, plan) = PIECE.clone();
    assert!(plan.is_some(), "the piece has no plan");
    let Some(mut plan) = plan else { return };
    for (name, value) in given {
        match name.as_str() {
            "stock" | "saw" | "supplies" => tree["shop"][name] = value,
            _ => tree[name] = value,
        }
    }
    let text = tree.to_string();
    let (Some(scenario), _) = read(&text) else { return };
    let (cutting, findings) = sawing::plan(&scenario, &plan, &[]);
    are_said(&findings, &text);
    let Some(cutting) = cutting else { return };
    let mut search = sawing::search(&cutting);
    search.step(cutting.searched);
    let mut faults = checker::faults(&cutting.job, &search.best());
    faults.extend(on_their_sheets(&cutting, &search.best()));
    plan.cutting = Some(cutting.clone());
    faults.extend(sawn::faults(&plan, &cutting));
    assert!(faults.is_empty(), "{faults:#?} of {text}");
}

/// The plan's sheets say what the layout says, and no two of their parts share a place.
fn on_their_sheets(cutting: &Cutting, layout: &Layout) -> Vec<String> {
    let mut faults = Vec::new();
    let mut demand = |good: bool, what: String| {
        if !good {
            faults.push(what);
        }
    };
    demand(cutting.score == layout.score, format!("{:?}, {:?}", cutting.score, layout.score));
    for sheet in &cutting.sheets {
        for (n, part) in sheet.parts.iter().enumerate() {
            let end = |p: &jointwise::plan::PlacedPart, a: usize| p.at[a] + p.size[a];
            let inside = (0..2).all(|a| part.at[a] >= 0 && end(part, a) <= sheet.size[a]);
            demand(inside, format!("{} reaches over sheet {}", part.part, sheet.n));
            for other in &sheet.parts[n + 1..] {
                let apart =
                    (0..2).any(|a| end(part, a) <= other.at[a] || end(other, a) <= part.at[a]);
                demand(apart, format!("{} lies on {}", part.part, other.part));
            }
        }
    }
    faults
}
