//! One part as a drawing: the face it is worked from, all distances from one corner.

use std::fmt::Write;

use crate::geometry::Direction;
use crate::plan::{Plan, Work, WorkKind};

use super::part_figures::spread;
use super::part_view::PartView;
use super::part_words;
use super::sheet::{escape, number};
use super::words;

/// Longest side of the part on the sheet, in tenths as all that follows: small, so that on a narrow screen the
/// figures are still large enough to read.
const LONG: i128 = 5_600;
/// Room for the figures: beside, below, and least room on the other two sides, for the edges' names.
const BESIDE: i128 = 1_900;
const BELOW: i128 = 2_200;
const LEAST: i128 = 520;
/// Least distance of two figures along an edge, and how far their leaders reach: straight, then to the figure.
const APART: i128 = 310;
const LEADERS: [i128; 2] = [70, 260];
/// Letters that have room on a line, the height of a line, and the sheet's width when there are words on it.
const COLUMNS: usize = 64;
const LINE: i128 = 330;
const WORDY: i128 = 7_600;

const STYLE: &str = "\
svg .part{fill:#f0e9db;stroke:#1b1f24;stroke-width:2.4}\
svg .guide{stroke:#d5c9b1;stroke-width:1}\
svg .gone{fill:#fff;stroke:#1b1f24;stroke-width:2.4}\
svg .cut{fill:#d9c9a6;stroke:#1b1f24;stroke-width:1.6}\
svg .behind{fill:none;stroke:#1b1f24;stroke-width:1.6;stroke-dasharray:7 5}\
svg .hole{fill:#fff;stroke:#1b1f24;stroke-width:2}\
svg .pilot{fill:#fff;stroke:#134f8c;stroke-width:2}\
svg .pilot.far{fill:none;stroke-dasharray:3 2.4}\
svg .band{stroke:#14573a;stroke-width:7}\
svg .line{fill:none;stroke:#454b52;stroke-width:1.2}\
svg .datum{fill:#8e2a12}\
svg text{font:26px system-ui,sans-serif;fill:#1b1f24}\
svg .edge{fill:#454b52;font-size:22px}\
svg .said{font-size:21px}\
svg .whole{font-weight:700}\
svg .name{font-weight:700;font-size:24px}";

/// From distances on the part to the sheet.
struct Sheet<'a> {
    view: &'a PartView<'a>,
    /// Size of the part on the sheet, and its left upper corner.
    size: [i128; 2],
    at: [i128; 2],
    longest: i128,
}

impl Sheet<'_> {
    fn long(&self, um: i64) -> i128 {
        i128::from(um) * LONG / self.longest
    }

    /// Place on the sheet of distances on it from the datum corner.
    fn spot(&self, [u, v]: [i128; 2]) -> [i128; 2] {
        let x = if self.view.mirrored { self.size[0] - u } else { u };
        [x + self.at[0], self.size[1] - v + self.at[1]]
    }

    fn place(&self, from: [i64; 2]) -> [i128; 2] {
        self.spot(from.map(|d| self.long(d)))
    }

    fn rectangle(&self, out: &mut String, class: &str, from: [i64; 2], size: [i64; 2]) {
        // What reaches into the banding ends with the part as cut.
        let within = |n: usize, d: i64| d.clamp(0, self.view.whole[n]);
        let near = [0, 1].map(|n| within(n, from[n]));
        let far = [0, 1].map(|n| within(n, from[n] + size[n]));
        let (a, b) = (self.place(near), self.place(far));
        let _ = writeln!(
            out,
            "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            number(a[0].min(b[0])),
            number(a[1].min(b[1])),
            number((a[0] - b[0]).abs()),
            number((a[1] - b[1]).abs())
        );
    }

    fn circle(&self, out: &mut String, class: &str, at: [i64; 2], across: i64) {
        let r = (self.long(across) / 2).max(38);
        dot(out, class, self.place(at), r);
    }
}

fn dot(out: &mut String, class: &str, [x, y]: [i128; 2], r: i128) {
    let [x, y, r] = [x, y, r].map(number);
    let _ = writeln!(out, "<circle class=\"{class}\" cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>");
}

fn line(out: &mut String, class: &str, a: [i128; 2], b: [i128; 2]) {
    let [x1, y1, x2, y2] = [a[0], a[1], b[0], b[1]].map(number);
    let _ =
        writeln!(out, "<line class=\"{class}\" x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"/>");
}

/// Words, upright or running down the sheet.
fn text(out: &mut String, at: [i128; 2], down: bool, anchor: &str, class: &str, words: &str) {
    let [x, y] = at.map(number);
    let turned = if down { format!(" transform=\"rotate(90 {x} {y})\"") } else { String::new() };
    let _ = writeln!(
        out,
        "<text class=\"{class}\" x=\"{x}\" y=\"{y}\"{turned} text-anchor=\"{anchor}\">{}</text>",
        escape(words)
    );
}

/// The drawing of the part with this id as an SVG document, with its words under it; nothing for a bought part, or
/// when the plan has none of that id or does not say how it is made.
///
/// The part is seen on the face that is worked, as it stands in the finished piece. Figures along the edges are
/// distances from the corner with the dot, of the part as cut; circles in blue are pilot holes of screws that
/// enter here, dashed where they enter from the far face. Lengths in the plan's notation.
pub fn part_svg(plan: &Plan, id: &str) -> Option<String> {
    let view = PartView::of(plan, id)?;
    Some(drawing(plan, &view, &part_words::of_view(plan, &view)))
}

/// The same without the words, which [`super::part_words`] gives: for a screen, where they are set apart.
pub fn part_picture(plan: &Plan, id: &str) -> Option<String> {
    Some(drawing(plan, &PartView::of(plan, id)?, &[]))
}

fn drawing(plan: &Plan, view: &PartView<'_>, said: &[String]) -> String {
    let (id, whole) = (&view.part.id, view.whole);
    let longest = i128::from(whole[0].max(whole[1]).max(1));
    let mut sheet = Sheet { view, size: [0, 0], at: [0, 0], longest };
    sheet.size = whole.map(|d| sheet.long(d));
    let marks = marks(view);
    let spots = [0, 1].map(|n| {
        let wanted: Vec<i128> = marks[n].iter().map(|d| sheet.long(*d)).collect();
        spread(&wanted, APART)
    });
    // Figures that share out their room may reach beyond the far end.
    let past = |n: usize| spots[n].last().map_or(0, |last| last - sheet.size[n]) + APART / 2;
    let [right, above] = [0, 1].map(|n| past(n).max(LEAST));
    sheet.at = [if view.mirrored { right } else { BESIDE }, above];
    let wide = BESIDE + sheet.size[0] + right;
    let high = above + sheet.size[1] + BELOW;
    let lines: Vec<String> = said
        .iter()
        .flat_map(|s| words::wrap("", s, COLUMNS).lines().map(str::to_owned).collect::<Vec<_>>())
        .collect();
    let count = i128::try_from(lines.len()).unwrap_or(0);
    let width = if lines.is_empty() { wide } else { wide.max(WORDY) };
    let mut out = String::new();
    // Writing to a String cannot fail; the results are let go.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
         aria-labelledby=\"part-{id}-title\">\n<title id=\"part-{id}-title\">{}</title>\n\
         <style>{STYLE}</style>\n",
        number(width),
        number(high + LINE * count),
        escape(&format!("{}, seen on its {} face", view.part.name, words::face(view.face))),
    );
    sheet.rectangle(&mut out, "part", [0, 0], whole);
    for (n, marks) in marks.iter().enumerate() {
        guides(&mut out, &sheet, n, marks);
    }
    for w in &view.making.work {
        draw(&mut out, &sheet, w);
    }
    for screw in &view.pilots {
        let near = PartView::entered(screw) == view.face;
        let class = if near { "pilot" } else { "pilot far" };
        sheet.circle(&mut out, class, view.off_corner(screw.entry), screw.pilot.get());
    }
    for edge in &view.making.banded {
        band(&mut out, &sheet, *edge);
    }
    for (n, (marks, spots)) in marks.iter().zip(&spots).enumerate() {
        figures(&mut out, &sheet, plan, n, marks, spots);
    }
    edges(&mut out, &sheet);
    dot(&mut out, "datum", sheet.place([0, 0]), 90);
    for (n, said) in (0..).zip(&lines) {
        let class = if n == 0 { "said name" } else { "said" };
        text(&mut out, [LEAST, high + LINE * n], false, "start", class, said);
    }
    out.push_str("</svg>\n");
    out
}

/// The distances that take a figure along each axis, the whole last.
fn marks(view: &PartView<'_>) -> [Vec<i64>; 2] {
    let mut marks = view.whole.map(|whole| vec![whole]);
    let mut mark = |n: usize, at: i64| {
        if at > 0 && at < view.whole[n] {
            marks[n].push(at);
        }
    };
    for w in &view.making.work {
        let hole = matches!(w.kind, WorkKind::Boring | WorkKind::Holes);
        for n in 0..2 {
            mark(n, w.from[n].1);
            if !hole {
                mark(n, w.from[n].1 + w.size[n]);
            }
        }
    }
    for screw in &view.pilots {
        let at = view.off_corner(screw.entry);
        mark(0, at[0]);
        mark(1, at[1]);
    }
    for of_axis in &mut marks {
        of_axis.sort_unstable();
        of_axis.dedup();
    }
    marks
}

/// Faint lines across the part, so that each figure leads to what it measures.
fn guides(out: &mut String, sheet: &Sheet<'_>, n: usize, marks: &[i64]) {
    let across = sheet.view.whole[1 - n];
    for d in marks.iter().filter(|d| **d < sheet.view.whole[n]) {
        let ends = if n == 0 { [[*d, 0], [*d, across]] } else { [[0, *d], [across, *d]] };
        line(out, "guide", sheet.place(ends[0]), sheet.place(ends[1]));
    }
}

fn draw(out: &mut String, sheet: &Sheet<'_>, w: &Work) {
    let from = w.from.map(|f| f.1);
    let class = match w.kind {
        _ if w.face != sheet.view.face && w.kind != WorkKind::Notch => "behind",
        WorkKind::Notch => "gone",
        WorkKind::Boring | WorkKind::Holes => "hole",
        WorkKind::Groove | WorkKind::Dado | WorkKind::Rabbet => "cut",
    };
    match w.kind {
        WorkKind::Boring | WorkKind::Holes => {
            let (_, pitch, count) = w.row.unwrap_or((Direction::Down, 0, 1));
            for i in 0..i64::from(count) {
                sheet.circle(out, class, [from[0], from[1] + i * pitch], w.size[0]);
            }
        }
        _ => sheet.rectangle(out, class, from, w.size),
    }
}

fn band(out: &mut String, sheet: &Sheet<'_>, edge: Direction) {
    let whole = sheet.view.whole;
    let Some(n) = sheet.view.axes.iter().position(|a| *a == edge.axis()) else { return };
    let far = if edge.is_positive() { whole[n] } else { 0 };
    let ends = if n == 0 { [[far, 0], [far, whole[1]]] } else { [[0, far], [whole[0], far]] };
    line(out, "band", sheet.place(ends[0]), sheet.place(ends[1]));
}

/// Distances from the datum along the lower edge (`n` = 0) or the left or right one, each with its leader.
fn figures(
    out: &mut String,
    sheet: &Sheet<'_>,
    plan: &Plan,
    n: usize,
    marks: &[i64],
    spots: &[i128],
) {
    for (d, spot) in marks.iter().zip(spots) {
        let at =
            |along: i128, off: i128| sheet.spot(if n == 0 { [along, -off] } else { [-off, along] });
        let own = sheet.long(*d);
        let knees = [at(own, 0), at(own, LEADERS[0]), at(*spot, LEADERS[1])];
        line(out, "line", knees[0], knees[1]);
        line(out, "line", knees[1], knees[2]);
        let class = if *d == sheet.view.whole[n] { "figure whole" } else { "figure" };
        let figure = words::length(plan.unit, *d);
        let [x, y] = at(*spot, LEADERS[1] + 50);
        if n == 0 {
            text(out, [x - 90, y], true, "start", class, &figure);
        } else {
            let anchor = if sheet.view.mirrored { "start" } else { "end" };
            text(out, [x, y + 90], false, anchor, class, &figure);
        }
    }
}

/// Names of the two edges that no figures stand at.
fn edges(out: &mut String, sheet: &Sheet<'_>) {
    let view = sheet.view;
    let name = |n: usize| format!("{} edge", view.edge(n, true).side());
    let [x, y] = sheet.spot([sheet.size[0] / 2, sheet.size[1]]);
    text(out, [x, y - 140], false, "middle", "edge", &name(1));
    let [x, y] = sheet.spot([sheet.size[0], sheet.size[1] / 2]);
    let x = if view.mirrored { x - 300 } else { x + 140 };
    text(out, [x, y], true, "middle", "edge", &name(0));
}
