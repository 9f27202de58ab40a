//! The joints of a listed piece.

use super::super::context::{Context, mm};
use super::find;
use super::place::three;
use crate::geometry::Direction;
use crate::scenario::{Head, ListedJoint, ListedKind, ListedPart, ListedScrews, file};

/// Most joints of a piece.
const MOST: usize = 600;
/// Most screws that one joint places by hand.
const MOST_PLACES: usize = 40;

pub(super) fn read(
    ctx: &mut Context,
    listed: Option<&[file::ListedJoint]>,
    parts: &[ListedPart],
) -> Vec<ListedJoint> {
    let Some(listed) = listed else {
        ctx.missing("piece.joints", "Say which parts are joined, and how.");
        return Vec::new();
    };
    ctx.count("piece.joints", listed.len(), 1, MOST);
    let ids: Vec<&str> = parts.iter().map(|p| p.id.as_str()).collect();
    let mut joints: Vec<ListedJoint> = Vec::new();
    for (n, j) in listed.iter().take(MOST).enumerate() {
        let place = format!("piece.joints[{n}]");
        let kind = kind(j.kind.unwrap_or(file::ListedKind::Butt));
        if let Some(parts) = pair(ctx, &format!("{place}.parts"), j.parts.as_deref(), &ids, &joints)
        {
            let screws = j.screws.as_ref().map(|s| screws(ctx, &format!("{place}.screws"), s));
            joints.push(ListedJoint { parts, kind, glue: j.glue.unwrap_or(false), screws });
        }
        loose(ctx, &place, j, kind);
    }
    joints
}

/// The two parts, unless one is not there, both are one, or they are joined already.
fn pair(
    ctx: &mut Context,
    place: &str,
    written: Option<&[Option<String>]>,
    ids: &[&str],
    before: &[ListedJoint],
) -> Option<[usize; 2]> {
    const HINT: &str = "Name the two parts that meet; screws go through the first into the second.";
    let Some(written) = written else {
        ctx.missing(place, HINT);
        return None;
    };
    let [first, second] = written else {
        ctx.stop("list-length", place, format!("`{place}` has {} entries.", written.len()), HINT);
        return None;
    };
    let mut part = |i: usize, id: &Option<String>| {
        find(ctx, "unknown-part", &format!("{place}[{i}]"), id.as_deref(), ids, "piece.parts")
    };
    let (first, second) = (part(0, first), part(1, second));
    let (first, second) = (first?, second?);
    let same = |j: &ListedJoint| j.parts == [first, second] || j.parts == [second, first];
    if first == second {
        ctx.stop("joined-to-itself", place, format!("`{place}` name one part twice."), HINT);
        return None;
    }
    if before.iter().any(same) {
        ctx.stop(
            "joined-twice",
            place,
            format!("`{place}` name two parts that are joined already."),
            "Give all that holds two parts together in one joint.",
        );
        return None;
    }
    Some([first, second])
}

fn screws(ctx: &mut Context, place: &str, from: &file::Screws) -> ListedScrews {
    let at = from.at.as_deref().map(|listed| {
        let place = format!("{place}.at");
        ctx.count(&place, listed.len(), 1, MOST_PLACES);
        let listed = listed.iter().take(MOST_PLACES).enumerate();
        listed
            .filter_map(|(n, p)| three(ctx, &format!("{place}[{n}]"), Some(p), mm(0, 16_000)))
            .collect()
    });
    ListedScrews {
        drive: from.drive.map(way),
        head: from.head.map(|head| match head {
            file::Head::Flat => Head::Flat,
            file::Head::Pan => Head::Pan,
        }),
        at,
    }
}

/// Grooves and slides stay loose, or are held by what is around them.
fn loose(ctx: &mut Context, place: &str, j: &file::ListedJoint, kind: ListedKind) {
    let mut stop = |field: &str, what: &str, hint: &str| {
        let place = format!("{place}.{field}");
        ctx.stop("joint-loose", &place, format!("`{place}` has no place in {what}."), hint);
    };
    match kind {
        ListedKind::Slide if j.screws.is_some() => {
            stop(
                "screws",
                "a slide, which stays movable",
                "Take them out, or give it another kind.",
            );
        }
        ListedKind::Slide if j.glue == Some(true) => {
            stop("glue", "a slide, which stays movable", "Take it out, or give it another kind.");
        }
        ListedKind::Groove if j.screws.is_some() => {
            let hint = "Take them out, or call the joint a `dado` when it is to be screwed.";
            stop("screws", "a groove, which holds by itself", hint);
        }
        _ => {}
    }
}

fn kind(written: file::ListedKind) -> ListedKind {
    match written {
        file::ListedKind::Butt => ListedKind::Butt,
        file::ListedKind::Dado => ListedKind::Dado,
        file::ListedKind::Groove => ListedKind::Groove,
        file::ListedKind::Overlay => ListedKind::Overlay,
        file::ListedKind::Slide => ListedKind::Slide,
    }
}

fn way(written: file::Way) -> Direction {
    match written {
        file::Way::Left => Direction::Left,
        file::Way::Right => Direction::Right,
        file::Way::Front => Direction::Front,
        file::Way::Back => Direction::Back,
        file::Way::Down => Direction::Down,
        file::Way::Up => Direction::Up,
    }
}
