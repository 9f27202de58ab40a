//! What the maker has decided already about the order. Whether its parts are there is only known
//! once the piece is designed: [`crate::outcome`] asks then.

use super::context::Context;
use crate::findings::{Finding, Severity};
use crate::geometry::Direction;
use crate::scenario::file;
use crate::wishes::{Done, Wishes};

/// Most parts of a half-built piece.
const MOST: usize = 200;

const FACES: &str = "Use one of: left, right, front, back, bottom, top.";

pub(super) fn read(ctx: &mut Context, order: Option<&file::Order>) -> Wishes {
    let Some(from) = order else { return Wishes::default() };
    let first = from.first.as_deref().map(|id| ctx.text("order.first", Some(id), 60, ""));
    let lay_on = from.lay_on.as_deref().map(|listed| {
        ctx.count("order.lay_on", listed.len(), 1, 6);
        let mut faces = Vec::new();
        for (n, written) in listed.iter().enumerate() {
            match written {
                Some(f) => faces.push(face(*f)),
                None => ctx.missing(&format!("order.lay_on[{n}]"), FACES),
            }
        }
        faces.sort_unstable();
        faces.dedup();
        faces
    });
    let done = from.done.as_ref().map(|from| done(ctx, from));
    if let (Some(_), Some(_)) = (&first, &done) {
        ctx.findings.push(Finding::new(
            Severity::Note,
            "field-unused",
            "order.first",
            "`order.first` has no effect here: `order.done` says what the piece starts with.",
            "Leave one of the two out.",
        ));
    }
    Wishes {
        first: first.filter(|_| done.is_none()),
        alone: from.alone.unwrap_or(false),
        lay_on: lay_on.unwrap_or_default(),
        done,
    }
}

fn done(ctx: &mut Context, from: &file::Done) -> Done {
    if from.parts.is_none() {
        ctx.missing("order.done.parts", "List the ids of the parts that are together already.");
    }
    if from.face.is_none() {
        ctx.missing("order.done.face", FACES);
    }
    let listed = from.parts.as_deref().unwrap_or_default();
    if from.parts.is_some() {
        ctx.count("order.done.parts", listed.len(), 1, MOST);
    }
    let mut parts: Vec<String> = Vec::new();
    for (n, id) in listed.iter().take(MOST).enumerate() {
        let place = format!("order.done.parts[{n}]");
        let Some(id) = id else {
            ctx.missing(&place, "Write the id of a part, or take the entry out.");
            continue;
        };
        let id = ctx.text(&place, Some(id), 60, "");
        if parts.contains(&id) {
            ctx.stop(
                "part-twice",
                &place,
                format!("`{place}` names {id} a second time."),
                "Name each part once.",
            );
        }
        parts.push(id);
    }
    Done { parts, face: from.face.map_or(Direction::Down, face) }
}

/// The direction in which a face looks.
pub(super) fn face(face: file::Face) -> Direction {
    match face {
        file::Face::Left => Direction::Left,
        file::Face::Right => Direction::Right,
        file::Face::Front => Direction::Front,
        file::Face::Back => Direction::Back,
        file::Face::Bottom => Direction::Down,
        file::Face::Top => Direction::Up,
    }
}
