//! What lies on and over the picture of a step: screws, arrows, checks, words.

use std::fmt::Write;

use crate::plan::Plan;

use super::labels::Labels;
use super::outline;
use super::painter::{ViewBox, bounds};
use super::projection::{Flat, add};
use super::scene::{Role, Scene, ScrewMark};
use super::sheet::{Fit, beside, distance, pair, polygon};
use super::words;

/// A screw as a thin box, for the order of drawing.
pub fn screw_box(s: &ScrewMark, extent: i128, item: usize) -> ViewBox {
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

/// A screw with its head, seen from the side, and a dashed line to its hole.
pub fn screw(out: &mut String, fit: &Fit, s: &ScrewMark) {
    let (head, tip) = (fit.place(s.head), fit.place(s.tip));
    let half = |a: i128, w: i128| [beside(head, tip, a, w), beside(head, tip, a, -w)];
    let ([h0, h1], [n0, n1], [p0, p1]) = (half(0, 115), half(200, 45), half(720, 45));
    let line = fit.lines(&[[s.tip, s.entry]]);
    let _ = writeln!(out, "<path class=\"to-hole\" d=\"{line}\"/>");
    let body = polygon(&[h0, n0, p0, tip, p1, n1, h1]);
    let _ = writeln!(out, "<path class=\"screw\" d=\"{body}\"/>");
}

/// What lies over everything: where parts go, lines to holes on hidden sides, arrows, checks, and
/// the words.
pub fn over(out: &mut String, fit: &Fit, scene: &Scene<'_>, plan: &Plan) {
    // Writing to a String cannot fail; the results are let go.
    let mut labels = Labels::default();
    homes(out, fit, scene);
    for s in &scene.screws {
        labels.avoid_line(fit.place(s.head), fit.place(s.entry));
        if s.hidden {
            let line = fit.lines(&[[s.head, s.entry]]);
            let _ = writeln!(out, "<path class=\"to-hole\" d=\"{line}\"/>");
        }
    }
    for [from, to] in &scene.guides {
        let (from, to) = (fit.place(*from), fit.place(*to));
        labels.avoid_line(from, to);
        arrow(out, from, to);
    }
    let checks: Vec<_> =
        scene.checks.iter().map(|c| (c.ends.map(|p| fit.place(p)), c.expected)).collect();
    for ([a, b], _) in &checks {
        labels.avoid_line(*a, *b);
    }
    for ([a, b], expected) in checks {
        measure(out, a, b);
        if let Some(um) = expected {
            let text = words::length(plan.unit, um);
            labels.along(a, b, "check-words", &text);
        }
    }
    names(&mut labels, fit, scene, plan);
    out.push_str(&labels.finish());
}

/// The outlines of new parts where they are when they are in, seen through everything.
fn homes(out: &mut String, fit: &Fit, scene: &Scene<'_>) {
    if scene.back == [0; 3] {
        return;
    }
    let home = scene.back.map(|c| -c);
    for piece in scene.pieces.iter().filter(|p| p.role == Role::New) {
        let lines: Vec<_> = piece
            .boxes
            .iter()
            .flat_map(|b| outline::edges(b, &piece.boxes))
            .map(|line| line.map(|p| add(p, home)))
            .collect();
        let d = fit.lines(&lines);
        let _ = writeln!(out, "<path class=\"goes-to\" d=\"{d}\"/>");
    }
}

/// A line with a head.
fn arrow(out: &mut String, from: Flat, to: Flat) {
    let neck = 1000 - (240_000 / distance(from, to)).min(900);
    let shaft = [from, beside(from, to, neck, 0)].map(pair);
    let _ = writeln!(out, "<path class=\"guide\" d=\"M{}L{}\"/>", shaft[0], shaft[1]);
    let head = [to, beside(from, to, neck, 110), beside(from, to, neck, -110)];
    let _ = writeln!(out, "<path class=\"guide-head\" d=\"{}\"/>", polygon(&head));
}

/// A line with a stroke across each end.
fn measure(out: &mut String, a: Flat, b: Flat) {
    let end = |at: Flat, other: Flat| {
        let [p, q] = [70, -70].map(|w| pair(beside(at, other, 0, w)));
        format!("M{p}L{q}")
    };
    let line = format!("M{}L{}", pair(a), pair(b));
    let _ = writeln!(out, "<path class=\"check\" d=\"{line}{}{}\"/>", end(a, b), end(b, a));
}

/// Names of what is new, of the spacer and of clamps.
fn names(labels: &mut Labels, fit: &Fit, scene: &Scene<'_>, plan: &Plan) {
    for (i, piece) in scene.pieces.iter().enumerate() {
        // A clamp left on was named when it was put on.
        let named = !matches!(piece.role, Role::In | Role::ClampOn);
        let Some(part) = bounds(&piece.boxes).filter(|_| named) else {
            continue;
        };
        let others = scene.pieces.iter().enumerate().filter(|(j, _)| *j != i);
        let others: Vec<_> = others.flat_map(|(_, p)| &p.boxes).collect();
        let name = words::tidy(words::name(plan, piece.id));
        match piece.role {
            Role::Spacer => {
                labels.on(fit, &part, &others, "spacer-name", &format!("{name} (spacer)"));
            }
            Role::Clamp | Role::ClampOff => labels.on(fit, &part, &others, "clamp-name", "clamp"),
            Role::In | Role::ClampOn | Role::New => labels.on(fit, &part, &others, "name", &name),
        }
    }
}
