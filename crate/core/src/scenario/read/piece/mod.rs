//! A piece listed part by part: its bodies, parts and joints, with the names that tie them together.

mod cuts;
mod joints;
mod parts;
mod place;

pub(super) use place::three;

use super::context::Context;
use super::order::face;
use crate::geometry::Direction;
use crate::scenario::near::nearest;
use crate::scenario::shape::clip;
use crate::scenario::{ListedPiece, Shop, file};

/// Most bodies besides the piece itself.
const MOST_BODIES: usize = 40;
/// The body that the finished piece is, and what it is called unless the file says.
const MAIN: (&str, &str) = ("main", "piece");
/// Endings of names that the planner gives to what is made ready beforehand.
const READY: &str = "-ready";

/// The piece. What it holds is only right when nothing stops the scenario.
pub(super) fn read(ctx: &mut Context, from: &file::Piece, shop: &Shop) -> ListedPiece {
    let bodies = bodies(ctx, from.bodies.as_deref().unwrap_or_default());
    let parts = parts::read(ctx, from.parts.as_deref(), &bodies, shop);
    let joints = joints::read(ctx, from.joints.as_deref(), &parts);
    for (n, body) in from.bodies.iter().flatten().take(MOST_BODIES).enumerate() {
        let place = format!("piece.bodies[{n}]");
        let id = body.id.as_deref().unwrap_or_default().trim();
        let used = id == MAIN.0 || parts.iter().any(|p| p.body == id);
        if !used && !ctx.blamed_within(&place) && !ctx.list_blamed("piece.parts", ".body") {
            ctx.stop(
                "body-empty",
                &place,
                format!("`{place}` is {}, but no part belongs to it.", clip(id)),
                format!("Write `\"body\": \"{}\"` in its parts, or take it out.", clip(id)),
            );
        }
    }
    let stands_on = from.stands_on.map_or(Direction::Down, face);
    ListedPiece { stands_on, bodies, parts, joints }
}

/// Ids and names of the bodies, the piece itself first.
fn bodies(ctx: &mut Context, listed: &[file::Body]) -> Vec<(String, String)> {
    ctx.count("piece.bodies", listed.len(), 0, MOST_BODIES);
    let mut read = vec![(MAIN.0.to_owned(), MAIN.1.to_owned())];
    for (n, b) in listed.iter().take(MOST_BODIES).enumerate() {
        let at = |field: &str| format!("piece.bodies[{n}].{field}");
        let id = id(ctx, &at("id"), b.id.as_deref(), "drawer");
        let name = ctx.text(&at("name"), b.name.as_deref(), 60, &id.replace('-', " "));
        if id == MAIN.0 {
            if let Some(main) = read.first_mut() {
                main.1 = name;
            }
        } else {
            let known: Vec<&str> = read.iter().map(|(id, _)| id.as_str()).collect();
            alone(ctx, &at("id"), &id, &known);
            read.push((id, name));
        }
    }
    read
}

/// An id as written, or a finding when it is missing or of a form that would be misread.
fn id(ctx: &mut Context, place: &str, written: Option<&str>, such_as: &str) -> String {
    if written.is_none() {
        ctx.missing(place, format!("Give it a short name, such as `{such_as}`."));
    }
    let id = ctx.text(place, written, 60, "");
    let fits = id.chars().all(|c| c.is_alphanumeric() || c == '-') && !id.ends_with(READY);
    if !fits && !ctx.blamed(place) {
        ctx.stop(
            "id-form",
            place,
            format!("`{place}` is \"{}\", which cannot serve as an id.", clip(&id)),
            format!("Use letters, digits and hyphens, and another ending than `{READY}`; the name may be free text."),
        );
    }
    id
}

/// A finding when the id is taken.
fn alone(ctx: &mut Context, place: &str, id: &str, taken: &[&str]) {
    if taken.contains(&id) && !ctx.blamed(place) {
        ctx.stop(
            "duplicate-id",
            place,
            format!("`{place}` is {id}, which is taken."),
            "Give each part and each body an id of its own.",
        );
    }
}

/// Where the id stands among those known, or a finding.
fn find(
    ctx: &mut Context,
    code: &str,
    place: &str,
    written: Option<&str>,
    known: &[&str],
    list: &str,
) -> Option<usize> {
    let Some(id) = written.map(str::trim) else {
        ctx.missing(place, format!("Write an id from `{list}`, or take the entry out."));
        return None;
    };
    let found = known.iter().position(|k| *k == id);
    if found.is_none() && !ctx.list_blamed(list, ".id") && !ctx.blamed(place) {
        let near = nearest(id, known.iter().copied());
        let meant = near.map(|n| format!("Did you mean `{n}`? ")).unwrap_or_default();
        let some = known.iter().take(12).copied().collect::<Vec<_>>().join(", ");
        let more = if known.len() > 12 { " and more" } else { "" };
        ctx.stop(
            code,
            place,
            format!("`{place}` is \"{}\", which is not in `{list}`.", clip(id)),
            format!("{meant}There are: {some}{more}."),
        );
    }
    found
}
