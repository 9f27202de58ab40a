//! What is cut out of a listed part: grooves, rabbets, dadoes, notches.

use super::super::build::LEAST_LEFT;
use super::super::context::Context;
use super::place::ROUNDED;
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Solid};
use crate::scenario::{ListedPart, Stuff};
use crate::units::Length;

/// Says which cuts reach beyond the part, leave too little of it, or take it apart.
pub(super) fn check(ctx: &mut Context, place: &str, part: &ListedPart) {
    let print = |ctx: &Context, um| ctx.exactly(Length::um(um));
    let mut solid = Solid::new(part.outer);
    for (c, cut) in part.cuts.iter().enumerate() {
        let place = format!("{place}.cuts[{c}]");
        let beyond = (0..3)
            .map(|a| (part.outer.min[a] - cut.min[a]).max(cut.max[a] - part.outer.max[a]))
            .max()
            .unwrap_or(0);
        if beyond > 0 {
            let beyond = print(ctx, beyond);
            ctx.stop_with(
                "cut-outside",
                &place,
                format!("`{place}` reaches {beyond} beyond {}.", part.name),
                "A cut is measured from the part's own left, front, lower corner: let it end at the part's faces.".to_owned(),
                &[("beyond", beyond)],
            );
            return;
        }
        if let Stuff::Sheet { thin, .. } = part.stuff {
            let under = cut.min[thin] - part.outer.min[thin];
            let over = part.outer.max[thin] - cut.max[thin];
            let left =
                [under, over].into_iter().filter(|l| *l > 0).min().unwrap_or(LEAST_LEFT.get());
            if left < LEAST_LEFT.get() - ROUNDED {
                let (left, least) = (print(ctx, left), print(ctx, LEAST_LEFT.get()));
                ctx.blame(
                    Finding::new(
                        Severity::Stop,
                        "cut-too-deep",
                        &place,
                        format!("`{place}` leaves only {left} of the thickness of {}.", part.name),
                        format!("Leave {least} at least, or cut right through."),
                    )
                    .number("left", left)
                    .source("common practice, no source"),
                );
                return;
            }
        }
        solid.cut(cut);
    }
    let place = format!("{place}.cuts");
    if solid.boxes().is_empty() || solid.bounds() != part.outer {
        ctx.stop(
            "cut-away",
            &place,
            format!(
                "`{place}` take away a whole end, side or face of {}, or all of it.",
                part.name
            ),
            "Give the part the smaller size instead, and only cut what stays inside it.",
        );
    } else if !whole(&solid) {
        ctx.stop(
            "part-in-two",
            &place,
            format!("`{place}` part {} in two.", part.name),
            "Make the cut shorter, or list two parts.",
        );
    }
}

/// Whether all boxes of a solid hang together by their faces.
fn whole(solid: &Solid) -> bool {
    let boxes = solid.boxes();
    let touch = |a: &Box3, b: &Box3| {
        let over: Vec<i64> = (0..3).map(|axis| a.overlap(b, axis)).collect();
        over.iter().all(|o| *o >= 0) && over.iter().filter(|o| **o == 0).count() == 1
    };
    let mut reached: Vec<usize> = if boxes.is_empty() { Vec::new() } else { vec![0] };
    let mut next = 0;
    while let Some(a) = reached.get(next).and_then(|&i| boxes.get(i)) {
        next += 1;
        for (j, b) in boxes.iter().enumerate() {
            if !reached.contains(&j) && touch(a, b) {
                reached.push(j);
            }
        }
    }
    reached.len() == boxes.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_groove_leaves_a_part_whole_and_a_saw_cut_does_not() {
        let board = || Solid::new(Box3::new([0; 3], [18, 200, 600]));
        let (mut grooved, mut sawn) = (board(), board());
        grooved.cut(&Box3::new([12, 0, 300], [18, 200, 318]));
        sawn.cut(&Box3::new([0, 0, 300], [18, 200, 303]));
        assert!(whole(&board()) && whole(&grooved) && !whole(&sawn));
        // Corner to corner is no whole either.
        let corners = vec![Box3::new([0; 3], [1; 3]), Box3::new([1, 1, 0], [2, 2, 1])];
        assert!(!whole(&Solid::from_boxes(corners)));
    }
}
