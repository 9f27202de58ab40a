//! The finished piece as a drawing, made from the plan alone.

use std::fmt::Write;

use crate::geometry::Direction;
use crate::plan::Plan;

use super::projection::View;
use super::scene::{Piece, Role, Scene};
use super::sheet::{Fit, MARGIN, WIDTH, escape, number};
use super::step_svg::{STYLE, draw_solids};
use super::words;

/// The piece as it stands, all parts in place, as an SVG document 1100 units wide. Seen from the front, from the
/// right and from above, as the steps are.
pub fn finished_svg(plan: &Plan) -> String {
    let view = View::new(Direction::Down, false);
    let parts = plan.parts.iter().enumerate();
    let pieces = parts.map(|(item, part)| Piece {
        id: &part.id,
        role: Role::In,
        boxes: part.boxes.iter().map(|b| view.view_box(b, item)).collect(),
    });
    let scene = Scene {
        view,
        pieces: pieces.collect(),
        screws: Vec::new(),
        guides: Vec::new(),
        checks: Vec::new(),
        bench: None,
        extent: 0,
        back: [0; 3],
    };
    let fit = Fit::new(&scene);
    let mut out = String::new();
    // Writing to a String cannot fail; the result is let go.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
         aria-labelledby=\"finished-title\">\n<title id=\"finished-title\">{}</title>\n\
         <style>{STYLE}</style>\n",
        number(WIDTH),
        number(fit.height + 2 * MARGIN),
        escape(&words::tidy(&plan.title)),
    );
    draw_solids(&mut out, &fit, &scene);
    out.push_str("</svg>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    #[test]
    fn every_part_that_has_a_solid_is_drawn_and_the_title_cannot_become_markup() {
        let mut plan = sample::plan();
        plan.title = "a<script>&\"'\u{1}]]>".to_owned();
        let svg = finished_svg(&plan);
        let doc = roxmltree::Document::parse(&svg).unwrap();
        assert!(!doc.descendants().any(|n| n.has_tag_name("script")));
        for part in &plan.parts {
            let drawn = doc.descendants().any(|n| n.attribute("data-part") == Some(&part.id));
            assert!(drawn, "{}", part.id);
        }
        assert!(doc.descendants().all(|n| n.attribute("class") != Some("part-new")));
    }

    #[test]
    fn a_plan_without_parts_is_an_empty_drawing() {
        let mut plan = sample::plan();
        plan.parts.clear();
        assert!(roxmltree::Document::parse(&finished_svg(&plan)).is_ok());
    }
}
