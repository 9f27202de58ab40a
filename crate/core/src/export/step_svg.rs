//! One step as a drawing, made from the plan alone.
//!
//! The colours are those of the classes below and may be set anew by a page that holds the
//! drawing: a rule with one more class, as `.picture .part-new`, wins. Meaning never hangs on
//! colour alone: what moves has a thick edge and an arrow, a check has marked ends and a value,
//! a spacer a dashed edge.

use std::fmt::Write;

use crate::plan::{Action, Plan, Step};

use super::outline;
use super::painter::{ViewBox, back_to_front};
use super::projection::{Flat, View, add};
use super::scene::{Piece, Role, Scene, ScrewMark, scene};
use super::words;

/// Room for the picture on the sheet, in tenths of its unit.
const ROOM: [i128; 2] = [10_000, 7_000];

/// Margin round the picture and height of a line of words, in tenths.
const MARGIN: i128 = 500;
const LINE: i128 = 380;

/// Defaults of the classes.
const STYLE: &str = "\
svg .part-in{fill:#f0e9db}svg .part-new{fill:#e0b877}svg .spacer{fill:#d3cec2}\
svg .bench{fill:#e6e2d8}\
svg .face,svg .shade{shape-rendering:crispEdges}\
svg .shade{fill:#1b1f24;fill-opacity:.07}svg .shade-dark{fill-opacity:.17}\
svg .edge{fill:none;stroke:#857d6c;stroke-width:1.6;stroke-linecap:round}\
svg .part-new .edge{stroke:#134f8c;stroke-width:4}\
svg .spacer .edge{stroke:#1b1f24;stroke-width:2.2;stroke-dasharray:8 5}\
svg .screw{fill:#1b1f24;stroke:#fff;stroke-width:1}\
svg .guide{fill:none;stroke:#134f8c;stroke-width:5}svg .guide-head{fill:#134f8c}\
svg .to-hole{fill:none;stroke:#1b1f24;stroke-width:1.6;stroke-dasharray:5 4}\
svg .check{fill:none;stroke:#14573a;stroke-width:4}\
svg .words{font:24px system-ui,sans-serif;fill:#1b1f24}\
svg .name{font-weight:700}\
svg .halo{paint-order:stroke;stroke:#fff;stroke-width:6;stroke-linejoin:round}\
svg .check-words{fill:#14573a}";

/// The drawing of step `n` as an SVG document, or nothing if the plan has no such step.
///
/// The piece is shown with the step's face on the bench (see [`super::pose`]). Parts already in
/// are pale; the new ones are drawn back along the way they go in, with an arrow; screws stand
/// before their holes. The view box fits what is drawn, 1100 units wide.
pub fn step_svg(plan: &Plan, n: u32) -> Option<String> {
    let (scene, step) = scene(plan, n)?;
    let fit = Fit::new(&scene);
    let captions = captions(plan, step);
    let width = ROOM[0] + 2 * MARGIN;
    let lines = i128::try_from(captions.len()).unwrap_or(0);
    let height = fit.height + 2 * MARGIN + LINE * lines;
    let mut out = String::new();
    // Writing to a String cannot fail; the results are let go.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
         aria-labelledby=\"step-{n}-title step-{n}-desc\">\n\
         <title id=\"step-{n}-title\">{}</title>\n<desc id=\"step-{n}-desc\">{}</desc>\n\
         <style>{STYLE}</style>\n",
        number(width),
        number(height),
        escape(&words::tidy(&step.text)),
        escape(&captions.join(". ")),
    );
    draw_bench(&mut out, &fit, &scene);
    draw_solids(&mut out, &fit, &scene);
    draw_over(&mut out, &fit, &scene, plan);
    draw_words(&mut out, &fit, &scene, plan);
    if step.action == Action::Turn {
        draw_turn(&mut out);
    }
    for (line, text) in (0..).zip(&captions) {
        let at = [MARGIN, fit.height + 2 * MARGIN + LINE * line];
        let _ = writeln!(
            out,
            "<text class=\"words\" x=\"{}\" y=\"{}\">{}</text>",
            number(at[0]),
            number(at[1]),
            escape(text)
        );
    }
    out.push_str("</svg>\n");
    Some(out)
}

/// The words under the picture: the face on the bench, the screws, the spacer.
fn captions(plan: &Plan, step: &Step) -> Vec<String> {
    let mut lines = vec![format!("On the bench: {}", words::face(step.bench_face))];
    lines.extend(
        words::screw_groups(plan, step)
            .iter()
            .map(|g| words::screw_group(g, plan.unit)),
    );
    if let Some(spacer) = &step.spacer {
        let size = words::length(plan.unit, spacer.dimension);
        lines.push(format!(
            "Spacer: {}, {size}",
            words::tidy(words::name(plan, &spacer.part))
        ));
    }
    lines
}

/// From view axes to tenths of a sheet's unit.
struct Fit {
    view: View,
    min: Flat,
    /// Scale, as a fraction.
    scale: (i128, i128),
    /// What is left over to the left, to centre the picture.
    left: i128,
    /// Height of the picture, in tenths.
    height: i128,
}

impl Fit {
    fn new(scene: &Scene<'_>) -> Fit {
        let view = scene.view;
        let boxes = scene
            .pieces
            .iter()
            .flat_map(|p| &p.boxes)
            .chain(&scene.bench);
        let mut flats: Vec<Flat> = boxes.flat_map(corners).map(|p| view.flat(p)).collect();
        let points = scene.screws.iter().map(|s| s.head);
        let points = points.chain(scene.checks.iter().flat_map(|c| c.ends));
        flats.extend(
            points
                .chain(scene.guides.iter().copied().flatten())
                .map(|p| view.flat(p)),
        );
        let range = |f: fn(&Flat) -> i128| {
            let lo = flats.iter().map(f).min().unwrap_or(0);
            (lo, flats.iter().map(f).max().unwrap_or(0) - lo)
        };
        let ((u, width), (v, height)) = (range(|p| p[0]), range(|p| p[1]));
        let (width, height) = (width.max(1), height.max(1));
        let wide = width * ROOM[1] >= height * ROOM[0];
        let scale = if wide {
            (ROOM[0], width)
        } else {
            (ROOM[1], height)
        };
        let size = |extent: i128| extent * scale.0 / scale.1;
        Fit {
            view,
            min: [u, v],
            scale,
            left: (ROOM[0] - size(width)) / 2,
            height: size(height),
        }
    }

    fn place(&self, p: [i128; 3]) -> Flat {
        let [u, v] = self.view.flat(p);
        let to = |c: i128, min: i128| (c - min) * self.scale.0 / self.scale.1 + MARGIN;
        [to(u, self.min[0]) + self.left, to(v, self.min[1])]
    }

    /// Path data through the points, closed.
    fn closed(&self, points: &[[i128; 3]]) -> String {
        let flats: Vec<_> = points.iter().map(|p| self.place(*p)).collect();
        polygon(&flats)
    }
}

/// All corners of a box.
fn corners(b: &ViewBox) -> impl Iterator<Item = [i128; 3]> + use<> {
    let ([x0, y0, z0], [x1, y1, z1]) = (b.min, b.max);
    [x0, x1].into_iter().flat_map(move |x| {
        [y0, y1]
            .into_iter()
            .flat_map(move |y| [z0, z1].into_iter().map(move |z| [x, y, z]))
    })
}

/// Tenths as a number without a needless `.0`.
fn number(tenths: i128) -> String {
    let sign = if tenths < 0 { "-" } else { "" };
    let (whole, tenth) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
    if tenth == 0 {
        format!("{sign}{whole}")
    } else {
        format!("{sign}{whole}.{tenth}")
    }
}

/// `x,y` of a place on the sheet.
fn pair([u, v]: Flat) -> String {
    format!("{},{}", number(u), number(v))
}

/// Path data through places on the sheet, closed.
fn polygon(places: &[Flat]) -> String {
    let places: Vec<_> = places.iter().map(|p| pair(*p)).collect();
    format!("M{}Z", places.join("L"))
}

/// Text safe inside an element or an attribute; what XML does not allow at all becomes U+FFFD.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(c),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

fn draw_bench(out: &mut String, fit: &Fit, scene: &Scene<'_>) {
    let Some(b) = &scene.bench else { return };
    let ([x0, y0, _], [x1, y1, z]) = (b.min, b.max);
    let d = fit.closed(&[[x0, y0, z], [x1, y0, z], [x1, y1, z], [x0, y1, z]]);
    let _ = writeln!(out, "<path class=\"bench\" d=\"{d}\"/>");
}

/// Solids and screws, the farthest first.
fn draw_solids(out: &mut String, fit: &Fit, scene: &Scene<'_>) {
    let mut boxes: Vec<ViewBox> = scene.pieces.iter().flat_map(|p| p.boxes.clone()).collect();
    let screws = scene.pieces.len();
    boxes.extend(
        scene
            .screws
            .iter()
            .enumerate()
            .map(|(i, s)| screw_box(s, scene.extent, screws + i)),
    );
    let mut open: Option<usize> = None;
    for b in back_to_front(&boxes) {
        if open.is_some_and(|item| item != b.item) {
            out.push_str("</g>\n");
            open = None;
        }
        if let Some(piece) = scene.pieces.get(b.item) {
            if open.is_none() {
                let class = match piece.role {
                    Role::In => "part-in",
                    Role::New => "part-new",
                    Role::Spacer => "spacer",
                };
                let id = escape(piece.id);
                let _ = writeln!(out, "<g class=\"{class}\" data-part=\"{id}\">");
                open = Some(b.item);
            }
            draw_box(out, fit, &b, piece);
        } else if let Some(screw) = scene.screws.get(b.item - screws) {
            draw_screw(out, fit, screw);
        }
    }
    if open.is_some() {
        out.push_str("</g>\n");
    }
}

/// A screw as a thin box, for the order of drawing.
fn screw_box(s: &ScrewMark, extent: i128, item: usize) -> ViewBox {
    let half = (extent / 200).max(1);
    let pick = |f: fn(i128, i128) -> i128| {
        let [[a, b, c], [d, e, g]] = [s.head, s.tip];
        [f(a, d), f(b, e), f(c, g)]
    };
    ViewBox {
        min: add(pick(i128::min), [-half; 3]),
        max: add(pick(i128::max), [half; 3]),
        item,
        splits: false,
    }
}

/// The near faces of a box: its whole outline in the part's tone, two faces shaded over it, and
/// the edges that are edges of the part.
fn draw_box(out: &mut String, fit: &Fit, b: &ViewBox, piece: &Piece<'_>) {
    let ([x0, y0, z0], [x1, y1, z1]) = (b.min, b.max);
    let hexagon = [
        [x0, y0, z1],
        [x1, y0, z1],
        [x1, y0, z0],
        [x1, y1, z0],
        [x0, y1, z0],
        [x0, y1, z1],
    ];
    let _ = writeln!(out, "<path class=\"face\" d=\"{}\"/>", fit.closed(&hexagon));
    let faces = [
        [[x1, y0, z0], [x1, y1, z0], [x1, y1, z1], [x1, y0, z1]],
        [[x0, y1, z0], [x1, y1, z0], [x1, y1, z1], [x0, y1, z1]],
    ];
    for (axis, face) in faces.iter().enumerate() {
        let dark = if axis == fit.view.shaded_axis() {
            " shade-dark"
        } else {
            ""
        };
        let _ = writeln!(
            out,
            "<path class=\"shade{dark}\" d=\"{}\"/>",
            fit.closed(face)
        );
    }
    let lines: Vec<_> = outline::edges(b, &piece.boxes)
        .iter()
        .map(|[p, q]| format!("M{}L{}", pair(fit.place(*p)), pair(fit.place(*q))))
        .collect();
    if !lines.is_empty() {
        let _ = writeln!(out, "<path class=\"edge\" d=\"{}\"/>", lines.concat());
    }
}

/// A point at `along` thousandths of the way from `from` to `to`, moved `aside` tenths square
/// to it.
fn beside(from: Flat, to: Flat, along: i128, aside: i128) -> Flat {
    let (du, dv) = (to[0] - from[0], to[1] - from[1]);
    let length = (du * du + dv * dv).isqrt().max(1);
    [
        from[0] + du * along / 1000 - dv * aside / length,
        from[1] + dv * along / 1000 + du * aside / length,
    ]
}

/// A screw with its head, seen from the side, and a dashed line to its hole.
fn draw_screw(out: &mut String, fit: &Fit, s: &ScrewMark) {
    let (head, tip) = (fit.place(s.head), fit.place(s.tip));
    let half = |a: i128, w: i128| [beside(head, tip, a, w), beside(head, tip, a, -w)];
    let ([h0, h1], [n0, n1], [p0, p1]) = (half(0, 85), half(180, 32), half(750, 32));
    let line = [tip, fit.place(s.entry)].map(pair);
    let _ = writeln!(
        out,
        "<path class=\"to-hole\" d=\"M{}L{}\"/>",
        line[0], line[1]
    );
    let body = polygon(&[h0, n0, p0, tip, p1, n1, h1]);
    let _ = writeln!(out, "<path class=\"screw\" d=\"{body}\"/>");
}

/// What lies over everything: lines to holes on hidden sides, arrows, checks.
fn draw_over(out: &mut String, fit: &Fit, scene: &Scene<'_>, plan: &Plan) {
    for s in scene.screws.iter().filter(|s| s.hidden) {
        let [a, b] = [s.head, s.entry].map(|p| pair(fit.place(p)));
        let _ = writeln!(out, "<path class=\"to-hole\" d=\"M{a}L{b}\"/>");
    }
    for [from, to] in &scene.guides {
        let (from, to) = (fit.place(*from), fit.place(*to));
        let length = ((to[0] - from[0]).pow(2) + (to[1] - from[1]).pow(2))
            .isqrt()
            .max(1);
        let neck = 1000 - (240_000 / length).min(900);
        let line = [from, beside(from, to, neck, 0)].map(pair);
        let _ = writeln!(
            out,
            "<path class=\"guide\" d=\"M{}L{}\"/>",
            line[0], line[1]
        );
        let head = [
            to,
            beside(from, to, neck, 110),
            beside(from, to, neck, -110),
        ];
        let _ = writeln!(out, "<path class=\"guide-head\" d=\"{}\"/>", polygon(&head));
    }
    for check in &scene.checks {
        let [a, b] = check.ends.map(|p| fit.place(p));
        let length = ((b[0] - a[0]).pow(2) + (b[1] - a[1]).pow(2)).isqrt().max(1);
        let tick = |end: Flat, other: Flat| {
            let [p, q] = [70, -70].map(|w| pair(beside(end, other, 0, w)));
            format!("M{p}L{q}")
        };
        let _ = writeln!(
            out,
            "<path class=\"check\" d=\"M{}L{}{}{}\"/>",
            pair(a),
            pair(b),
            tick(a, b),
            tick(b, a)
        );
        if let Some(um) = check.expected {
            // Off the middle, so that the values of two crossing lines stay apart.
            let along = if length > 1500 { 300 } else { 500 };
            let text = words::length(plan.unit, um);
            label(out, beside(a, b, along, 0), "check-words", &text);
        }
    }
}

/// Words over the picture, kept inside the sheet.
fn label(out: &mut String, at: Flat, class: &str, text: &str) {
    let half = i128::try_from(text.chars().count()).unwrap_or(0) * 70;
    let right = ROOM[0] + 2 * MARGIN - half;
    let u = at[0].min(right).max(half.min(right));
    let _ = writeln!(
        out,
        "<text class=\"words halo {class}\" text-anchor=\"middle\" x=\"{}\" y=\"{}\">{}</text>",
        number(u),
        number(at[1] + 80),
        escape(text)
    );
}

/// Names of the new parts, each in the middle of its picture.
fn draw_words(out: &mut String, fit: &Fit, scene: &Scene<'_>, plan: &Plan) {
    for piece in scene.pieces.iter().filter(|p| p.role == Role::New) {
        let places: Vec<Flat> = piece
            .boxes
            .iter()
            .flat_map(corners)
            .map(|p| fit.place(p))
            .collect();
        let middle = |f: fn(&Flat) -> i128| {
            let (lo, hi) = (places.iter().map(f).min()?, places.iter().map(f).max()?);
            Some((lo + hi) / 2)
        };
        if let (Some(u), Some(v)) = (middle(|p| p[0]), middle(|p| p[1])) {
            label(
                out,
                [u, v],
                "name",
                &words::tidy(words::name(plan, piece.id)),
            );
        }
    }
}

/// A round arrow in the upper left corner: the piece was turned.
fn draw_turn(out: &mut String) {
    out.push_str(
        "<path class=\"guide\" d=\"M50,100A50,50 0 1 1 100,150\"/>\n\
         <path class=\"guide-head\" d=\"M74,150L104,132L104,168Z\"/>\n",
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    fn count(doc: &roxmltree::Document<'_>, class: &str) -> usize {
        let has = |n: &roxmltree::Node<'_, '_>| {
            n.attribute("class")
                .is_some_and(|c| c.split(' ').any(|one| one == class))
        };
        doc.descendants().filter(has).count()
    }

    #[test]
    fn every_step_is_well_formed_and_named_by_its_sentence() {
        let plan = sample::plan();
        for step in &plan.steps {
            let svg = step_svg(&plan, step.n).unwrap();
            let doc = roxmltree::Document::parse(&svg).unwrap();
            let title = doc.descendants().find(|n| n.has_tag_name("title")).unwrap();
            assert_eq!(title.text().unwrap(), step.text);
            assert_eq!(count(&doc, "screw"), step.fasteners.len());
            let checks: usize = step.checks.iter().map(|c| c.between.len()).sum();
            assert_eq!(count(&doc, "check"), checks);
            assert_eq!(count(&doc, "spacer") > 0, step.spacer.is_some());
        }
        assert!(step_svg(&plan, 99).is_none());
    }

    #[test]
    fn everything_lies_inside_the_view_box() {
        let plan = sample::plan();
        for step in &plan.steps {
            let svg = step_svg(&plan, step.n).unwrap();
            let doc = roxmltree::Document::parse(&svg).unwrap();
            let sizes: Vec<f64> = doc
                .root_element()
                .attribute("viewBox")
                .unwrap()
                .split(' ')
                .map(|v| v.parse().unwrap())
                .collect();
            for path in doc.descendants().filter_map(|n| n.attribute("d")) {
                if path.contains('A') {
                    continue;
                }
                for place in path.split(['M', 'L', 'Z']).filter(|p| !p.is_empty()) {
                    let (u, v) = place.split_once(',').unwrap();
                    let (u, v): (f64, f64) = (u.parse().unwrap(), v.parse().unwrap());
                    assert!(
                        0.0 <= u && u <= sizes[2] && 0.0 <= v && v <= sizes[3],
                        "{path}"
                    );
                }
            }
        }
    }

    #[test]
    fn words_from_the_plan_cannot_become_markup() {
        let mut plan = sample::plan();
        let bad = "a<script>&\"'\u{1}\u{fffe}]]>";
        plan.steps[1].text = bad.to_owned();
        plan.steps[1].parts = vec![bad.to_owned()];
        plan.parts[2].id = bad.to_owned();
        plan.parts[2].name = bad.to_owned();
        let svg = step_svg(&plan, 2).unwrap();
        let doc = roxmltree::Document::parse(&svg).unwrap();
        assert!(!doc.descendants().any(|n| n.has_tag_name("script")));
        assert!(
            count(&doc, "part-new") > 0,
            "the part is found by its odd id"
        );
    }

    #[test]
    fn extreme_and_empty_solids_do_not_overflow() {
        let mut plan = sample::plan();
        let far = crate::geometry::Box3::new([i64::MIN; 3], [i64::MAX; 3]);
        plan.parts[0].boxes = vec![far];
        plan.parts[2].boxes.clear();
        plan.joints[0].fasteners[0].length = crate::units::Length::um(i64::MAX);
        for n in 1..=12 {
            let svg = step_svg(&plan, n).unwrap();
            assert!(roxmltree::Document::parse(&svg).is_ok());
        }
    }

    #[test]
    fn a_notched_side_shows_no_line_where_its_boxes_meet() {
        // The side is two boxes; its drawing alone must have the edges of one notched panel.
        let plan = sample::plan();
        assert!(plan.parts[0].boxes.len() > 1);
        let (scene, _) = scene(&plan, 1).unwrap();
        let piece = &scene.pieces[0];
        let lines: Vec<_> = piece
            .boxes
            .iter()
            .flat_map(|b| outline::edges(b, &piece.boxes))
            .collect();
        let mm = |um: i128| um / 1000;
        let length: i128 = lines
            .iter()
            .map(|[p, q]| (0..3).map(|k| mm((q[k] - p[k]).abs())).sum::<i128>())
            .sum();
        let outline = 2 * (560 + 720);
        assert!(length < 2 * outline + 9 * 18, "{length}");
    }
}
