//! One part as a drawing: the face it is worked from, all distances from one corner.

use std::fmt::Write;

use crate::geometry::{Box3, Direction};
use crate::plan::{Plan, PlanPart, Work, WorkKind};

use super::sheet::{escape, number};
use super::words;

/// Longest side of the part on the sheet, and the room for figures round it, in tenths.
const LONG: i128 = 8_000;
const ROOM: i128 = 1_900;
/// Least distance of two figures beside each other along an edge, in tenths.
const APART: i128 = 420;
/// Letters that have room on a line.
const COLUMNS: usize = 64;
/// Height of a line of words, in tenths.
const LINE: i128 = 380;

const STYLE: &str = "\
svg .part{fill:#f0e9db;stroke:#1b1f24;stroke-width:3}\
svg .gone{fill:#fff;stroke:#1b1f24;stroke-width:3}\
svg .cut{fill:#d9c9a6;stroke:#1b1f24;stroke-width:1.6}\
svg .behind{fill:none;stroke:#1b1f24;stroke-width:1.6;stroke-dasharray:9 6}\
svg .hole{fill:#fff;stroke:#1b1f24;stroke-width:2}\
svg .pilot{fill:none;stroke:#134f8c;stroke-width:1.8}\
svg .band{stroke:#14573a;stroke-width:8}\
svg .line{fill:none;stroke:#454b52;stroke-width:1.2}\
svg .datum{fill:#8e2a12}\
svg text{font:22px system-ui,sans-serif;fill:#1b1f24}\
svg .name{font-weight:700;font-size:26px}";

/// From the part to the sheet.
struct Sheet {
    /// Axes of the part along the sheet and up it.
    axes: [usize; 2],
    /// Whether the part's first axis runs to the left on the sheet.
    mirrored: bool,
    outer: Box3,
    scale: (i128, i128),
}

impl Sheet {
    fn extent(&self, n: usize) -> i128 {
        i128::from(self.outer.extent(self.axes[n])) * self.scale.0 / self.scale.1
    }

    /// Place on the sheet of distances from the datum corner.
    fn place(&self, from: [i64; 2]) -> [i128; 2] {
        let [u, v] = from.map(|d| i128::from(d) * self.scale.0 / self.scale.1);
        let x = if self.mirrored { self.extent(0) - u } else { u };
        [x + ROOM, self.extent(1) - v + ROOM]
    }

    fn rectangle(&self, out: &mut String, class: &str, from: [i64; 2], size: [i64; 2]) {
        let (a, b) = (self.place(from), self.place([from[0] + size[0], from[1] + size[1]]));
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
        let [x, y] = self.place(at);
        let r = (i128::from(across) * self.scale.0 / self.scale.1 / 2).max(40);
        let _ = writeln!(
            out,
            "<circle class=\"{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            number(x),
            number(y),
            number(r)
        );
    }
}

fn line(out: &mut String, class: &str, a: [i128; 2], b: [i128; 2]) {
    let [x1, y1, x2, y2] = [a[0], a[1], b[0], b[1]].map(number);
    let _ =
        writeln!(out, "<line class=\"{class}\" x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"/>");
}

fn text(out: &mut String, at: [i128; 2], anchor: &str, class: &str, words: &str) {
    let _ = writeln!(
        out,
        "<text class=\"{class}\" x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\">{}</text>",
        number(at[0]),
        number(at[1]),
        escape(words)
    );
}

/// The drawing of the part with this id as an SVG document; nothing for a bought part, or when the
/// plan has none of that name or does not say how it is made.
///
/// The part is seen on the face that is worked, as it stands in the finished piece. Figures along
/// the edges are distances from the corner with the dot, of the part as cut; circles in blue are
/// pilot holes of screws that enter here. Lengths in the plan's notation.
pub fn part_svg(plan: &Plan, id: &str) -> Option<String> {
    let part = plan.parts.iter().find(|p| p.id == id)?;
    let making = part.making.as_ref()?;
    let outer = part.boxes.iter().copied().reduce(|a, b| a.union(&b))?;
    // By length and width: pins may stand out of a face.
    let ways = [(0, [1, 2]), (1, [0, 2]), (2, [0, 1])];
    let flat = |axes: [usize; 2]| {
        let [a, b] = axes.map(|a| outer.extent(a));
        a.max(b) == part.length && a.min(b) == part.width
    };
    let (thin, axes) = ways.into_iter().find(|(_, axes)| flat(*axes))?;
    // A notch goes through: either face would do.
    let worked = making.work.iter().find(|w| w.kind != WorkKind::Notch);
    let face = worked.map_or(Direction::from_axis(thin, thin != 1), |w| w.face);
    // Seen from its own side: from the right, the front, or above, the first axis runs to the right.
    let mirrored = match face {
        Direction::Left | Direction::Back | Direction::Down => true,
        Direction::Right | Direction::Front | Direction::Up => false,
    };
    let longest = axes.iter().map(|a| outer.extent(*a)).max()?.max(1);
    let sheet = Sheet { axes, mirrored, outer, scale: (LONG, i128::from(longest)) };
    let (wide, high) = (sheet.extent(0), sheet.extent(1));
    let words = lines(plan, part);
    let count = i128::try_from(words.len()).unwrap_or(0);
    let size = [wide + 2 * ROOM, high + 2 * ROOM + LINE * (count + 1)];
    let width = size[0].max(LONG + 2 * ROOM);
    let mut out = String::new();
    // Writing to a String cannot fail; the results are let go.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
         aria-labelledby=\"part-{id}-title\">\n<title id=\"part-{id}-title\">{}</title>\n\
         <style>{STYLE}</style>\n",
        number(width),
        number(size[1]),
        escape(&format!("{}, seen on its {} face", part.name, words::face(face))),
    );
    let whole = axes.map(|a| outer.extent(a));
    sheet.rectangle(&mut out, "part", [0, 0], whole);
    let mut marks = [vec![whole[0]], vec![whole[1]]];
    for w in &making.work {
        draw(&mut out, &sheet, w, face, &mut marks);
    }
    pilots(&mut out, &sheet, plan, part, thin, &mut marks);
    for edge in &making.banded {
        let Some(n) = axes.iter().position(|a| *a == edge.axis()) else { continue };
        let far = if edge.is_positive() { whole[n] } else { 0 };
        let ends = if n == 0 { [[far, 0], [far, whole[1]]] } else { [[0, far], [whole[0], far]] };
        line(&mut out, "band", sheet.place(ends[0]), sheet.place(ends[1]));
    }
    figures(&mut out, &sheet, plan, making.cut, part, marks);
    let [x, y] = sheet.place([0, 0]);
    let _ = writeln!(
        out,
        "<circle class=\"datum\" cx=\"{}\" cy=\"{}\" r=\"9\"/>",
        number(x),
        number(y)
    );
    for (n, (class, said)) in (0..).zip(words) {
        text(&mut out, [ROOM, high + 2 * ROOM + LINE * (n + 1)], "start", class, &said);
    }
    out.push_str("</svg>\n");
    Some(out)
}

fn draw(out: &mut String, sheet: &Sheet, w: &Work, face: Direction, marks: &mut [Vec<i64>; 2]) {
    let from = w.from.map(|f| f.1);
    let class = match w.kind {
        _ if w.face != face && w.kind != WorkKind::Notch => "behind",
        WorkKind::Notch => "gone",
        WorkKind::Boring | WorkKind::Holes => "hole",
        WorkKind::Groove | WorkKind::Dado | WorkKind::Rabbet => "cut",
    };
    let mut mark = |n: usize, at: i64| {
        if at > 0 && at < sheet.outer.extent(sheet.axes[n]) {
            marks[n].push(at);
        }
    };
    match w.kind {
        WorkKind::Boring | WorkKind::Holes => {
            let (_, pitch, count) = w.row.unwrap_or((Direction::Down, 0, 1));
            for i in 0..i64::from(count) {
                sheet.circle(out, class, [from[0], from[1] + i * pitch], w.size[0]);
            }
            mark(0, from[0]);
            mark(1, from[1]);
        }
        _ => {
            sheet.rectangle(out, class, from, w.size);
            for (n, (from, size)) in from.into_iter().zip(w.size).enumerate() {
                mark(n, from);
                mark(n, from + size);
            }
        }
    }
}

/// Screws that enter this part through the face that is looked at, or the one behind it.
fn pilots(
    out: &mut String,
    sheet: &Sheet,
    plan: &Plan,
    part: &PlanPart,
    thin: usize,
    marks: &mut [Vec<i64>; 2],
) {
    let own = plan.joints.iter().filter(|j| j.parts[0] == part.id);
    for screw in own.flat_map(|j| &j.fasteners).filter(|f| f.direction.axis() == thin) {
        let at = sheet.axes.map(|a| screw.entry[a] - sheet.outer.min[a]);
        sheet.circle(out, "pilot", at, screw.pilot.get());
        for n in 0..2 {
            marks[n].push(at[n]);
        }
    }
}

/// Distances from the datum along the lower and the left or right edge; the last is the whole.
fn figures(
    out: &mut String,
    sheet: &Sheet,
    plan: &Plan,
    cut: [i64; 2],
    part: &PlanPart,
    marks: [Vec<i64>; 2],
) {
    for (n, mut at) in marks.into_iter().enumerate() {
        at.sort_unstable();
        at.dedup();
        let whole = sheet.outer.extent(sheet.axes[n]);
        let as_cut = if whole == part.length { cut[0] } else { cut[1] };
        let mut last = i128::MIN;
        for d in at {
            let place = if n == 0 { sheet.place([d, 0]) } else { sheet.place([0, d]) };
            let along = if n == 0 && !sheet.mirrored {
                place[0]
            } else if n == 0 {
                -place[0]
            } else {
                -place[1]
            };
            // Figures too close to each other give way, but never the whole.
            let before = last != i128::MIN && along - last < APART;
            let end = i128::from(whole - d) * sheet.scale.0 / sheet.scale.1;
            if d != whole && (before || end < APART) {
                continue;
            }
            last = along;
            let figure = words::length(plan.unit, if d == whole { as_cut } else { d });
            let out_of = if n == 0 {
                [0, 220]
            } else if sheet.mirrored {
                [220, 0]
            } else {
                [-220, 0]
            };
            let far = if d == whole { 2 } else { 1 };
            let end = [place[0] + out_of[0] * far, place[1] + out_of[1] * far];
            line(out, "line", place, end);
            if n == 0 {
                let (x, y) = (number(end[0] + 70), number(end[1] + 60));
                let _ = writeln!(
                    out,
                    "<text x=\"{x}\" y=\"{y}\" transform=\"rotate(90 {x} {y})\" dx=\"0\" dy=\"12\">{}</text>",
                    escape(&figure)
                );
            } else {
                let anchor = if sheet.mirrored { "start" } else { "end" };
                let gap = if sheet.mirrored { 60 } else { -60 };
                text(out, [end[0] + gap, end[1] + 70], anchor, "", &figure);
            }
        }
    }
}

/// What is written under the drawing.
fn lines(plan: &Plan, part: &PlanPart) -> Vec<(&'static str, String)> {
    let print = |um: i64| words::length(plan.unit, um);
    let Some(m) = &part.making else { return Vec::new() };
    let mut lines = vec![
        (
            "name",
            format!(
                "{}: {} × {} × {}",
                m.label,
                print(m.cut[0]),
                print(m.cut[1]),
                print(part.thickness)
            ),
        ),
        ("", format!("Cut from {}", part.material_name)),
    ];
    if !m.banded.is_empty() {
        let edges: Vec<&str> = m.banded.iter().map(|d| d.side()).collect();
        let said = format!("Band {} thick on these edges: {}", print(m.banding), edges.join(", "));
        lines.push(("", said));
    }
    if let Some(other) = &m.mirrors {
        lines.push(("", format!("Mirror image of the {}", plan.name_of(other))));
    }
    for w in &m.work {
        let said = words::wrap("", &work(plan, w), COLUMNS);
        lines.extend(said.lines().map(|line| ("", line.to_owned())));
    }
    lines
}

fn work(plan: &Plan, w: &Work) -> String {
    let print = |um: i64| words::length(plan.unit, um);
    let at = w.from.map(|(from, d)| match d {
        0 => format!("at the {} edge", from.side()),
        d => format!("{} from the {} edge", print(d), from.side()),
    });
    let deep = format!("{} deep in the {} face", print(w.depth), words::face(w.face));
    match (w.kind, w.row) {
        (WorkKind::Holes, Some((_, pitch, count))) => format!(
            "{count} holes {}, {deep}, every {} from {}, {}",
            print(w.size[0]),
            print(pitch),
            at[1],
            at[0]
        ),
        (WorkKind::Boring | WorkKind::Holes, _) => {
            format!("Bore {}, {deep}, {} and {}", print(w.size[0]), at[0], at[1])
        }
        (WorkKind::Notch, _) => {
            format!("Notch {} × {}, {} and {}", print(w.size[0]), print(w.size[1]), at[0], at[1])
        }
        (kind, _) => {
            let name = match kind {
                WorkKind::Groove => "Groove",
                WorkKind::Dado => "Dado",
                _ => "Rabbet",
            };
            // Which way it runs and how wide it is; where it starts along its run, when not at the edge.
            let across = usize::from(w.size[0] >= w.size[1]);
            let run = 1 - across;
            let start = if w.from[run].1 == 0 { String::new() } else { format!(", {}", at[run]) };
            format!("{name} {} wide, {deep}, {}{start}", print(w.size[across]), at[across])
        }
    }
}
