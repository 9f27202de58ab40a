//! One step as a drawing, made from the plan alone.
//!
//! The colours are those of the classes below and may be set anew by a page that holds the
//! drawing: a rule with one more class, as `.picture .part-new`, wins. Meaning never hangs on
//! colour alone: what moves has a thick edge and an arrow, a check has marked ends and a value,
//! a spacer a dashed edge, a clamp the shape of one.

use std::fmt::Write;

use crate::plan::{Action, Plan, Stage, Step};

use super::marks;
use super::outline;
use super::painter::{ViewBox, back_to_front};
use super::scene::{Piece, Role, Scene, scene};
use super::sheet::{Fit, MARGIN, WIDTH, escape, number};
use super::words;

/// Height of a line of words, in tenths.
const LINE: i128 = 380;

/// Defaults of the classes.
pub(super) const STYLE: &str = "\
svg .part-in{fill:#f0e9db}svg .part-new{fill:#e0b877}svg .spacer{fill:#d3cec2}\
svg .clamp{fill:#c9ccd0}svg .clamp-off :is(.face,.shade){fill:none}\
svg .bench{fill:#e6e2d8}\
svg .face,svg .shade{shape-rendering:crispEdges}\
svg .shade{fill:#1b1f24;fill-opacity:.07}svg .shade-dark{fill-opacity:.17}\
svg .edge{fill:none;stroke:#857d6c;stroke-width:1.6;stroke-linecap:round}\
svg .part-new .edge{stroke:#134f8c;stroke-width:4}\
svg .spacer .edge{stroke:#1b1f24;stroke-width:2.2;stroke-dasharray:8 5}\
svg .clamp .edge{stroke:#454b52;stroke-width:2}svg .clamp-off .edge{stroke-dasharray:6 5}\
svg .screw{fill:#1b1f24;stroke:#fff;stroke-width:1}\
svg .guide{fill:none;stroke:#134f8c;stroke-width:5}svg .guide-head{fill:#134f8c}\
svg .goes-to{fill:none;stroke:#134f8c;stroke-width:1.6;stroke-dasharray:3 6}\
svg .to-hole{fill:none;stroke:#1b1f24;stroke-width:1.6;stroke-dasharray:5 4}\
svg .check{fill:none;stroke:#14573a;stroke-width:4}\
svg .words{font:24px system-ui,sans-serif;fill:#1b1f24}\
svg .name{font-weight:700}\
svg .halo{paint-order:stroke;stroke:#fff;stroke-width:9;stroke-linejoin:round}\
svg .check-words{fill:#14573a;font-weight:700}";

/// The drawing of step `n` as an SVG document, or nothing if the plan has no such step.
///
/// The piece is shown with the step's face on the bench (see [`super::pose`]). Parts already in
/// are pale; the new ones are drawn back along the way they go in, with an arrow; screws stand
/// before their holes. The view box fits what is drawn, 1100 units wide.
pub fn step_svg(plan: &Plan, n: u32) -> Option<String> {
    let (scene, step) = scene(plan, n)?;
    let fit = Fit::new(&scene);
    let captions = captions(plan, step);
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
        number(WIDTH),
        number(height),
        escape(&words::tidy(&step.text)),
        escape(&captions.join(". ")),
    );
    draw_bench(&mut out, &fit, &scene);
    draw_solids(&mut out, &fit, &scene);
    marks::over(&mut out, &fit, &scene, plan);
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

/// The words under the picture: at the bench the face that lies there, the screws, the spacer, the clamps.
fn captions(plan: &Plan, step: &Step) -> Vec<String> {
    let at_bench = step.stage == Stage::Bench;
    let mut lines: Vec<String> = at_bench.then(|| lies(plan, step)).into_iter().collect();
    lines.extend(words::screw_groups(plan, step).iter().map(|g| words::screw_group(g, plan.unit)));
    if let Some(spacer) = &step.spacer {
        lines.push(format!("Spacer: {}", words::spacer(plan, spacer)));
    }
    let now = step.hold.iter().filter_map(|h| h.clamp.as_ref()).chain(&step.clamps);
    lines.extend(now.map(|c| format!("Clamp: {}", words::tidy(&words::clamp(plan, c)))));
    lines
}

/// How the piece lies, and when it was turned just now, how it lay before.
fn lies(plan: &Plan, step: &Step) -> String {
    let now = words::face(step.bench_face);
    let earlier = plan.steps.iter().take_while(|s| s.n != step.n);
    let before = earlier.filter(|s| s.body == step.body).last().map(|s| s.bench_face);
    match before {
        Some(face) if step.action == Action::Turn && face != step.bench_face => {
            format!("From its {} onto its {now}", words::face(face))
        }
        _ => format!("Lies on its {now}"),
    }
}

fn draw_bench(out: &mut String, fit: &Fit, scene: &Scene<'_>) {
    let Some(b) = &scene.bench else { return };
    let ([x0, y0, _], [x1, y1, z]) = (b.min, b.max);
    let d = fit.closed(&[[x0, y0, z], [x1, y0, z], [x1, y1, z], [x0, y1, z]]);
    let _ = writeln!(out, "<path class=\"bench\" d=\"{d}\"/>");
}

/// Solids and screws, the farthest first.
pub(super) fn draw_solids(out: &mut String, fit: &Fit, scene: &Scene<'_>) {
    let mut boxes: Vec<ViewBox> = scene.pieces.iter().flat_map(|p| p.boxes.clone()).collect();
    let screws = scene.pieces.len();
    boxes.extend(
        scene.screws.iter().enumerate().map(|(i, s)| marks::screw_box(s, scene.extent, screws + i)),
    );
    let mut open: Option<usize> = None;
    for b in back_to_front(&boxes) {
        if open.is_some_and(|item| item != b.item) {
            out.push_str("</g>\n");
            open = None;
        }
        if let Some(piece) = scene.pieces.get(b.item) {
            if open.is_none() {
                let (class, is_part) = match piece.role {
                    Role::In => ("part-in", true),
                    Role::New => ("part-new", true),
                    Role::Spacer => ("spacer", true),
                    Role::Clamp | Role::ClampOn => ("clamp", false),
                    Role::ClampOff => ("clamp clamp-off", false),
                };
                let id = escape(piece.id);
                let part = if is_part { format!(" data-part=\"{id}\"") } else { String::new() };
                let _ = writeln!(out, "<g class=\"{class}\"{part}>");
                open = Some(b.item);
            }
            draw_box(out, fit, &b, piece);
        } else if let Some(screw) = scene.screws.get(b.item - screws) {
            marks::screw(out, fit, screw);
        }
    }
    if open.is_some() {
        out.push_str("</g>\n");
    }
}

/// The near faces of a box: its whole outline in the part's tone, two faces shaded over it, and
/// the edges that are edges of the part.
fn draw_box(out: &mut String, fit: &Fit, b: &ViewBox, piece: &Piece<'_>) {
    let ([x0, y0, z0], [x1, y1, z1]) = (b.min, b.max);
    let hexagon =
        [[x0, y0, z1], [x1, y0, z1], [x1, y0, z0], [x1, y1, z0], [x0, y1, z0], [x0, y1, z1]];
    let _ = writeln!(out, "<path class=\"face\" d=\"{}\"/>", fit.closed(&hexagon));
    let faces = [
        [[x1, y0, z0], [x1, y1, z0], [x1, y1, z1], [x1, y0, z1]],
        [[x0, y1, z0], [x1, y1, z0], [x1, y1, z1], [x0, y1, z1]],
    ];
    for (axis, face) in faces.iter().enumerate() {
        let dark = if axis == fit.view.shaded_axis() { " shade-dark" } else { "" };
        let _ = writeln!(out, "<path class=\"shade{dark}\" d=\"{}\"/>", fit.closed(face));
    }
    let lines = fit.lines(&outline::edges(b, &piece.boxes));
    if !lines.is_empty() {
        let _ = writeln!(out, "<path class=\"edge\" d=\"{lines}\"/>");
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
            n.attribute("class").is_some_and(|c| c.split(' ').any(|one| one == class))
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
    fn clamps_are_drawn_and_said_and_those_that_come_off_only_outlined() {
        let plan = sample::clamped();
        let drawn = |n| {
            let svg = step_svg(&plan, n).unwrap();
            let doc = roxmltree::Document::parse(&svg).unwrap();
            (count(&doc, "clamp") > 0, count(&doc, "clamp-off") > 0, svg.contains("Clamp: left"))
        };
        assert_eq!(drawn(1), (false, false, false));
        assert_eq!(drawn(2), (true, false, true));
        assert_eq!(drawn(3), (true, false, true));
        assert_eq!(drawn(4), (true, false, false));
        assert_eq!(drawn(5), (true, true, false));
        assert_eq!(drawn(6), (false, false, false));
    }

    #[test]
    fn everything_lies_inside_the_view_box() {
        let plan = sample::clamped();
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
                    assert!(0.0 <= u && u <= sizes[2] && 0.0 <= v && v <= sizes[3], "{path}");
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
        assert!(count(&doc, "part-new") > 0, "the part is found by its odd id");
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
        let lines: Vec<_> =
            piece.boxes.iter().flat_map(|b| outline::edges(b, &piece.boxes)).collect();
        let mm = |um: i128| um / 1000;
        let length: i128 =
            lines.iter().map(|[p, q]| (0..3).map(|k| mm((q[k] - p[k]).abs())).sum::<i128>()).sum();
        let outline = 2 * (560 + 720);
        assert!(length < 2 * outline + 9 * 18, "{length}");
    }

    #[test]
    fn a_drawing_grows_no_faster_than_its_boxes() {
        let mut plan = sample::plan();
        let mut sizes = Vec::new();
        for grooves in [20, 40] {
            let mut solid = crate::geometry::Solid::from_boxes(vec![crate::geometry::Box3::new(
                [0, 0, 0],
                [18_000, 560_000, 720_000],
            )]);
            for k in 0..grooves {
                let z = 5_000 + k * 16_000;
                solid
                    .cut(&crate::geometry::Box3::new([12_000, 0, z], [18_000, 560_000, z + 8_000]));
            }
            plan.parts[0].boxes = solid.boxes().to_vec();
            sizes.push((solid.boxes().len(), step_svg(&plan, 1).unwrap().len()));
        }
        let ((few, small), (many, large)) = (sizes[0], sizes[1]);
        assert!(many > few && large * few < small * many * 11 / 10, "{sizes:?}");
        assert!(large < many * 600, "{sizes:?}");
    }
}
