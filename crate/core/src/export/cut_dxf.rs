//! `part-ID.dxf` and `sheet-N.dxf`: what a machine cuts, part by part or sheet by sheet.

use super::dxf::Dxf;
use super::flat_part::FlatPart;
use crate::assembly::Grain;
use crate::plan::{Plan, PlanPart, mark};
use crate::units::Length;

/// The drawing of a part that is cut, by its id; nothing of a part that is bought or not there.
pub fn part_dxf(plan: &Plan, id: &str) -> Option<String> {
    let (index, part) = plan.parts.iter().enumerate().find(|(_, p)| p.id == id)?;
    let mut dxf = Dxf::default();
    draw(&mut dxf, plan, index, part, |p| p)?;
    Some(dxf.finish())
}

/// The drawing of a sheet with its parts, by its number from 1.
pub fn sheet_dxf(plan: &Plan, n: u32) -> Option<String> {
    let sheet = plan.cutting.as_ref()?.sheets.iter().find(|s| s.n == n)?;
    let mut dxf = Dxf::default();
    let [length, width] = sheet.size;
    dxf.closed("SHEET", &[[0, 0], [length, 0], [length, width], [0, width]], 0);
    for placed in &sheet.parts {
        let found = plan.parts.iter().enumerate().find(|(_, p)| p.id == placed.part);
        let Some((index, part)) = found else { continue };
        // The side along the grain lies along the sheet unless the part is turned.
        let upright = placed.turned != (part.grain == Grain::Width);
        let ([x, y], across) = (placed.at, placed.size[0]);
        draw(&mut dxf, plan, index, part, |[u, v]| {
            if upright { [x + across - v, y + u] } else { [x + u, y + v] }
        })?;
    }
    Some(dxf.finish())
}

/// Height of the letters, µm.
const LETTERS: i64 = 12_000;

fn draw(
    dxf: &mut Dxf,
    plan: &Plan,
    index: usize,
    part: &PlanPart,
    place: impl Fn([i64; 2]) -> [i64; 2],
) -> Option<()> {
    let flat = FlatPart::of(plan, part)?;
    for line in &flat.loops {
        let points: Vec<[i64; 2]> = line.iter().map(|p| place(*p)).collect();
        dxf.closed("OUTLINE", &points, 0);
    }
    for shape in &flat.shapes {
        let [[x0, y0], [x1, y1]] = shape.at;
        let points = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]].map(&place);
        dxf.closed(if shape.back { "GROOVE-BACK" } else { "GROOVE" }, &points, -shape.depth);
    }
    for hole in &flat.holes {
        let layer = if hole.back { "HOLE-BACK" } else { "HOLE" };
        dxf.circle(layer, place(hole.at), hole.diameter);
    }
    let [length, width] = flat.size;
    let print = |um: i64| plan.unit.print(Length::um(um));
    let text = format!(
        "{} {} {} x {} x {}",
        mark(index),
        part.name,
        print(length),
        print(width),
        super::words::length(plan.unit.finest(), part.thickness)
    );
    let corners = [place([0, 0]), place([length, width])];
    let near = [0, 1].map(|a: usize| corners[0][a].min(corners[1][a]));
    let height = LETTERS.min((corners[0][1] - corners[1][1]).abs() / 3);
    dxf.text([near[0] + LETTERS, near[1] + height], height, &text);
    Some(())
}
