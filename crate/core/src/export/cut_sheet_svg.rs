//! `sheet-N.svg`: a sheet to scale, with its parts, their sizes, and what is left.

use std::fmt::Write as _;

use super::sheet::{escape, number};
use super::words;
use crate::plan::{Plan, SheetPlan};

/// Black on white, for a printer.
const STYLE: &str = "text{font-family:sans-serif;text-anchor:middle;fill:#000}.s{fill:#fff;stroke:#000;stroke-width:4}\
.p{fill:#efe6d2;stroke:#000;stroke-width:2}.o{fill:none;stroke:#000;stroke-width:2;stroke-dasharray:16 10}";

/// Air round the sheet for its own sizes, mm.
const AIR: i64 = 90;

/// A sheet by its number from 1: one unit is one millimetre.
pub fn cut_sheet_svg(plan: &Plan, n: u32) -> Option<String> {
    let sheet = plan.cutting.as_ref()?.sheets.iter().find(|s| s.n == n)?;
    let [length, width] = sheet.size.map(|um| um / 1000);
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{} {} {} {}\" width=\"{}\" role=\"img\">\
         <title>{}</title><style>{STYLE}</style>",
        -AIR,
        -AIR,
        length + 2 * AIR,
        width + 2 * AIR,
        1200,
        escape(&format!("Sheet {n}: {}", sheet.stock)),
    );
    let size = sheet.size.map(|um| words::length(plan.unit, um));
    rectangle(&mut out, "s", [0, 0], sheet.size, sheet);
    line(&mut out, [length / 2, -30], 44, &format!("{} — {}", size[0], sheet.stock), false);
    line(&mut out, [-36, width / 2], 44, &size[1], true);
    for part in &sheet.parts {
        rectangle(&mut out, "p", part.at, part.size, sheet);
        let name = plan.name_of(&part.part);
        within(&mut out, plan, sheet, (part.at, part.size), &part.mark, name);
    }
    for offcut in &sheet.offcuts {
        rectangle(&mut out, "o", offcut.at, offcut.size, sheet);
        let name = match &offcut.keep_for {
            Some(strips) => format!("{}: {strips}", offcut.id),
            None => offcut.id.clone(),
        };
        within(&mut out, plan, sheet, (offcut.at, offcut.size), "", &name);
    }
    out.push_str("</svg>\n");
    Some(out)
}

/// The near edge of the sheet is drawn below, as it lies before a person.
fn top(sheet: &SheetPlan, at: [i64; 2], size: [i64; 2]) -> [i64; 2] {
    [at[0], sheet.size[1] - at[1] - size[1]]
}

/// Micrometres to tenths of a millimetre.
fn tenths(um: i64) -> String {
    number(i128::from((um + 50).div_euclid(100)))
}

fn rectangle(out: &mut String, class: &str, at: [i64; 2], size: [i64; 2], sheet: &SheetPlan) {
    let [x, y] = top(sheet, at, size).map(tenths);
    let [w, h] = size.map(tenths);
    let _ =
        writeln!(out, "<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>");
}

fn line(out: &mut String, [x, y]: [i64; 2], size: i64, text: &str, upright: bool) {
    let turn = if upright { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
    let text = escape(text);
    let _ = writeln!(out, "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{turn}>{text}</text>");
}

/// Mark, name and sizes inside a rectangle, as large as it allows, along its longer side.
fn within(
    out: &mut String,
    plan: &Plan,
    sheet: &SheetPlan,
    (at, size): ([i64; 2], [i64; 2]),
    mark: &str,
    name: &str,
) {
    let [x, y] = top(sheet, at, size).map(|um| um / 1000);
    let [w, h] = size.map(|um| um / 1000);
    let upright = h > w;
    let (long, short) = (w.max(h), w.min(h));
    let sizes = size.map(|um| words::length(plan.unit, um));
    let title = if mark.is_empty() { name.to_owned() } else { format!("{mark} {name}") };
    let print = format!("{} × {}", sizes[0], sizes[1]);
    let lines = [title, print];
    let most = lines.iter().map(|l| l.chars().count()).max().unwrap_or(1).max(1) as i64;
    // A letter is about 0.6 as wide as it is high.
    let height = (long * 15 / 10 / most).min(short * 10 / 28).min(56);
    if height < 6 {
        return;
    }
    for (n, text) in (0i64..).zip(&lines) {
        let down = (n * 12 - 2) * height / 10;
        let middle = [x + w / 2, y + h / 2];
        let spot =
            if upright { [middle[0] + down, middle[1]] } else { [middle[0], middle[1] + down] };
        line(out, spot, height, text, upright);
    }
}
