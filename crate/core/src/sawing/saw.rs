//! The cut tree as numbered steps: one setting each, with every cut that is made with it.
//!
//! All sheets of a material are sawn together, stage by stage, the widest setting first: what is to be equal is cut
//! from one setting. A piece is always there before it is cut on, because it lies a stage deeper.

use super::tree::{Names, OneCut};
use super::{machining, spacers};
use crate::cutting::{CutLine, CutRect};
use crate::plan::{Cutting, Piece, Plan, SawCut, SawStep, SawTool, SawWork, SheetPlan};
use crate::units::Length;

/// Below this a hand does not belong between fence and blade, µm (6 in; common practice, no source).
const PUSH_STICK: i64 = 152_400;

/// What is no wider is a strip and no panel, µm (16 in; common practice, no source).
const STRIP: i64 = 406_400;

/// What is heeded at every cut. Common practice, no source.
pub(super) fn cautions() -> Vec<String> {
    [
        "Wear eye and ear protection, and catch the dust: fine dust, of fibreboard above all, harms the lungs.",
        "Keep the guard and the riving knife on; stand beside the line of the cut, not behind it.",
        "Support a large sheet on both sides of the cut, so that neither piece sags or pinches the blade.",
        "Use a push stick where a strip is narrower than 6 in (150 mm). Never reach over or behind the blade.",
        "Never use the fence as a stop for a crosscut: a piece caught between fence and blade is thrown.",
        "Unplug the saw, or take its battery out, before you touch the blade.",
        "Measure each sheet before you cut. The saw's manual and local rules come first.",
    ]
    .map(str::to_owned)
    .to_vec()
}

/// All steps: trims and cuts material by material, spacers from what is left, then what is cut out of the parts.
pub(super) fn steps(plan: &Plan, cutting: &mut Cutting) -> Vec<SawStep> {
    let mut all = from_sheets(plan, cutting);
    all.extend(spacers::saw(plan, cutting));
    all.extend(machining::steps(plan));
    for (n, step) in (1u32..).zip(&mut all) {
        step.n = n;
    }
    all
}

fn from_sheets(plan: &Plan, cutting: &Cutting) -> Vec<SawStep> {
    let names = Names { plan, cutting };
    let mut all = Vec::new();
    let mut materials: Vec<&str> = Vec::new();
    for sheet in &cutting.sheets {
        let material = material(cutting, sheet);
        if !materials.contains(&material) {
            materials.push(material);
        }
    }
    for m in materials {
        let sheets: Vec<&SheetPlan> =
            cutting.sheets.iter().filter(|s| material(cutting, s) == m).collect();
        all.extend(trims(plan, cutting, &sheets));
        all.extend(cuts(&names, &sheets));
    }
    all
}

fn stock(cutting: &Cutting, sheet: &SheetPlan) -> usize {
    cutting.job.stock.iter().position(|s| s.id == sheet.stock).unwrap_or(0)
}

fn material<'a>(cutting: &'a Cutting, sheet: &SheetPlan) -> &'a str {
    cutting.job.stock.get(stock(cutting, sheet)).map_or("", |s| &s.material)
}

/// Mass of a rectangle of that sheet.
fn mass(cutting: &Cutting, sheet: &SheetPlan, rect: CutRect) -> i64 {
    let whole = i128::from(sheet.size[0]) * i128::from(sheet.size[1]);
    let grams = cutting.stock.get(stock(cutting, sheet)).map_or(0, |s| s.mass_g);
    i64::try_from(i128::from(grams) * i128::from(rect.area()) / whole.max(1)).unwrap_or(i64::MAX)
}

/// Whether a rectangle is more than one person pushes over the saw. A long strip that is light is not: rollers carry it.
pub(super) fn too_big(cutting: &Cutting, sheet: &SheetPlan, rect: CutRect) -> bool {
    let saw = &cutting.saw;
    let (long, short) = (rect.length.max(rect.width), rect.length.min(rect.width));
    let long = long > saw.panel_length && short > STRIP;
    long || short > saw.panel_width || mass(cutting, sheet, rect) > saw.lift_g
}

/// Sheets of one stock have their rough edges cut off together.
fn trims(plan: &Plan, cutting: &Cutting, sheets: &[&SheetPlan]) -> Vec<SawStep> {
    let mut made: Vec<SawStep> = Vec::new();
    let mut done: Vec<usize> = Vec::new();
    for sheet in sheets {
        let index = stock(cutting, sheet);
        let Some(stock) = cutting.job.stock.get(index) else { continue };
        let edges = [
            (stock.trim.front, "front edge"),
            (stock.trim.back, "back edge"),
            (stock.trim.left, "left end"),
            (stock.trim.right, "right end"),
        ];
        let rough: Vec<&(i64, &str)> = edges.iter().filter(|e| e.0 > 0).collect();
        if done.contains(&index) || rough.is_empty() {
            continue;
        }
        done.push(index);
        let same: Vec<String> =
            sheets.iter().filter(|s| s.stock == sheet.stock).map(|s| s.n.to_string()).collect();
        let whole = CutRect { x: 0, y: 0, length: sheet.size[0], width: sheet.size[1] };
        let big = too_big(cutting, sheet, whole);
        let tool = if big { SawTool::TrackSaw } else { SawTool::Fence };
        let names: Vec<String> = rough.iter().map(|e| e.1.to_owned()).collect();
        let print = |um: i64| plan.unit.print(Length::um(um));
        let CutRect { length, width, .. } = sheet.cuts.rect;
        let (word, it) = if same.len() == 1 { ("sheet", "It") } else { ("sheets", "Each") };
        let widest = rough.iter().map(|e| e.0).max().unwrap_or(0);
        made.push(SawStep {
            n: 0,
            work: SawWork::Trim,
            tool,
            text: format!(
                "{}: take {} off the {} of {word} {}. {it} then measures {} × {}.",
                tool_name(tool),
                print(widest),
                list(&names, ", "),
                list(&same, ", "),
                print(length),
                print(width),
            ),
            setting: widest,
            along: None,
            cuts: Vec::new(),
            parts: Vec::new(),
            cautions: support(cutting, sheet, whole).into_iter().map(|(_, c)| c).collect(),
        });
    }
    made
}

/// What a piece weighs, and how it is held, when it is heavy or large.
fn support(cutting: &Cutting, sheet: &SheetPlan, rect: CutRect) -> Option<(i64, String)> {
    let grams = mass(cutting, sheet, rect);
    let kilograms = (grams + 500) / 1000;
    if grams > cutting.saw.lift_g {
        let text = format!(
            "{kilograms} kg: lift it with a second person, and lay supports under both pieces."
        );
        return Some((grams, text));
    }
    let text = "Large: lay supports under both pieces, so that neither falls.".to_owned();
    too_big(cutting, sheet, rect).then_some((grams, text))
}

/// What makes two cuts share a step.
type Key = (usize, SawTool, Option<usize>, CutLine, i64);

/// A cut with its step, and what to heed for its mass.
struct Found {
    key: Key,
    cut: OneCut,
    support: Option<(i64, String)>,
}

fn cuts(names: &Names, sheets: &[&SheetPlan]) -> Vec<SawStep> {
    let cutting = names.cutting;
    let mut found: Vec<Found> = Vec::new();
    for sheet in sheets {
        for cut in names.cuts(sheet) {
            // Equal pieces of one piece are cut with one tool, that of the first.
            let before =
                found.last().filter(|f| f.cut.from == cut.from && f.cut.setting == cut.setting);
            let tool = before.map_or_else(|| tool(cutting, sheet, &cut), |f| f.key.1);
            let support = support(cutting, sheet, cut.rest);
            let key = (cut.depth, tool, cut.sequence, cut.along, -cut.setting);
            found.push(Found { key, cut, support });
        }
    }
    // Stable: the cuts of one piece keep their order. Those of a sequence need not fall by width.
    found.sort_by_key(|f| {
        if f.key.2.is_some() { (f.key.0, f.key.1, f.key.2, f.key.3, 0) } else { f.key }
    });
    let mut made = Vec::new();
    let mut from = 0;
    while let Some(first) = found.get(from) {
        let same = found[from..].iter().take_while(|other| other.key == first.key).count();
        made.push(step(names, &found[from..from + same]));
        from += same;
    }
    made
}

/// The saw that a piece needs: see the module's file of the plan.
fn tool(cutting: &Cutting, sheet: &SheetPlan, cut: &OneCut) -> SawTool {
    // The edge that rides on the fence runs with the cut.
    let riding = match cut.along {
        CutLine::AlongWidth => cut.rest.width,
        CutLine::AlongLength => cut.rest.length,
    };
    if too_big(cutting, sheet, cut.rest) || cut.setting > cutting.saw.fence {
        SawTool::TrackSaw
    } else if riding < cut.setting {
        SawTool::Sled
    } else {
        SawTool::Fence
    }
}

fn step(names: &Names, group: &[Found]) -> SawStep {
    let unit = names.plan.unit;
    let (tool, line, setting) = match group.first() {
        Some(f) => (f.key.1, f.cut.along, f.cut.setting),
        None => (SawTool::Fence, CutLine::AlongLength, 0),
    };
    let mut texts: Vec<String> = Vec::new();
    let mut at = 0;
    while let Some(first) = group.get(at) {
        let same = group[at..].iter().take_while(|f| f.cut.from == first.cut.from).count();
        texts.push(from_one(names, &group[at..at + same]));
        at += same;
    }
    let edge = match line {
        CutLine::AlongLength => "front edge",
        CutLine::AlongWidth => "left end",
    };
    let more = if group.len() > 1 { ", then each time the edge just sawn" } else { "" };
    let at = unit.print(Length::um(setting));
    let set = match tool {
        SawTool::TrackSaw => format!("Track saw, {at} from the {edge}."),
        SawTool::Sled => format!("Stop on the sled at {at}, the {edge} against it{more}."),
        _ => format!("Fence at {at}, the {edge} against it{more}."),
    };
    let sequence = group.iter().any(|f| f.key.2.is_some());
    let run = if sequence { " Number the parts in their order: the grain runs on." } else { "" };
    let mut cautions: Vec<String> = Vec::new();
    let narrow = setting < PUSH_STICK && tool == SawTool::Fence;
    if narrow {
        cautions.push("Narrow: use a push stick.".to_owned());
    }
    let heaviest = group.iter().filter_map(|f| f.support.as_ref()).max_by_key(|s| s.0);
    cautions.extend(heaviest.map(|s| s.1.clone()));
    let parts = group.iter().flat_map(|f| [Some(&f.cut.gives), f.cut.leaves.as_ref()]).flatten();
    SawStep {
        n: 0,
        work: SawWork::Cut,
        tool,
        text: format!("{set} {}{run}", texts.join(" ")),
        setting,
        along: Some(line),
        parts: parts
            .filter_map(|p| match p {
                Piece::Part { part, .. } => Some(part.clone()),
                _ => None,
            })
            .collect(),
        cuts: group
            .iter()
            .map(|f| SawCut {
                from: f.cut.from.clone(),
                gives: f.cut.gives.clone(),
                leaves: f.cut.leaves.clone(),
            })
            .collect(),
        cautions,
    }
}

/// `From sheet 1: piece 1.1, left side (A); the rest is offcut 1, to keep.`
fn from_one(names: &Names, group: &[Found]) -> String {
    let Some(first) = group.first() else { return String::new() };
    let from = &first.cut.from;
    let pieces: Vec<String> = group.iter().map(|f| piece_name(names, &f.cut.gives)).collect();
    let whole = if from.starts_with("sheet ") { "" } else { "piece " };
    let mut text = format!("From {whole}{from}: {}", list(&pieces, ", "));
    // That waste falls off need not be said.
    if let Some(left) =
        group.last().and_then(|f| f.cut.leaves.as_ref()).filter(|l| **l != Piece::Waste)
    {
        text.push_str(&format!("; the rest is {}", piece_name(names, left)));
    }
    text.push('.');
    text
}

fn piece_name(names: &Names, piece: &Piece) -> String {
    match piece {
        Piece::Strip { mark } => format!("piece {mark}"),
        Piece::Part { part, mark } => format!("{} ({mark})", names.plan.name_of(part)),
        Piece::Offcut { mark } => format!("{mark}, to keep"),
        Piece::Spacer { mark } => mark.clone(),
        Piece::Waste => "waste".to_owned(),
    }
}

fn tool_name(tool: SawTool) -> &'static str {
    match tool {
        SawTool::TrackSaw => "Track saw",
        SawTool::Sled => "Sled",
        SawTool::Fence => "Table saw",
        SawTool::DadoOrRouter => "Dado set or router",
        SawTool::Jigsaw => "Jigsaw",
    }
}

/// `a, b and c`; with another separator all the same.
pub(super) fn list(items: &[String], between: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] if between == ", " => format!("{} and {last}", all.join(between)),
        _ => items.join(between),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_as_spoken() {
        let words = |w: &[&str]| w.iter().map(|s| (*s).to_owned()).collect::<Vec<_>>();
        assert_eq!(list(&words(&["a"]), ", "), "a");
        assert_eq!(list(&words(&["a", "b", "c"]), ", "), "a, b and c");
        assert_eq!(list(&words(&["a", "b"]), "; "), "a; b");
    }
}
