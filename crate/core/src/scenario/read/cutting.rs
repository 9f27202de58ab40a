//! What the maker has decided about cutting. Whether its parts are there is only known once the piece is designed.

use super::context::Context;
use crate::scenario::{CutWishes, file};

/// Most parts of a list.
const MOST: usize = 200;
/// Most sequences, and most parts of one.
const MOST_SEQUENCES: usize = 20;
const MOST_IN_SEQUENCE: usize = 12;

pub(super) fn read(ctx: &mut Context, cut: Option<&file::Cutting>) -> CutWishes {
    let Some(from) = cut else { return CutWishes::default() };
    let hidden = ids(ctx, "cut.hidden", from.hidden.as_deref(), 0, MOST);
    let any_grain = ids(ctx, "cut.any_grain", from.any_grain.as_deref(), 0, MOST);
    let listed = from.sequences.as_deref().unwrap_or_default();
    ctx.count("cut.sequences", listed.len(), 0, MOST_SEQUENCES);
    let mut sequences: Vec<Vec<String>> = Vec::new();
    for (n, sequence) in listed.iter().take(MOST_SEQUENCES).enumerate() {
        let place = format!("cut.sequences[{n}]");
        let Some(sequence) = sequence else {
            ctx.missing(&place, "List the ids of two parts or more, or take the entry out.");
            continue;
        };
        let read = ids(ctx, &place, Some(sequence), 2, MOST_IN_SEQUENCE);
        for id in &read {
            if sequences.iter().any(|other| other.contains(id)) {
                twice(ctx, &place, id);
            }
        }
        sequences.push(read);
    }
    CutWishes { hidden, any_grain, sequences }
}

fn ids(
    ctx: &mut Context,
    place: &str,
    listed: Option<&[Option<String>]>,
    least: usize,
    most: usize,
) -> Vec<String> {
    let Some(listed) = listed else { return Vec::new() };
    ctx.count(place, listed.len(), least, most);
    let mut read: Vec<String> = Vec::new();
    for (n, id) in listed.iter().take(most).enumerate() {
        let at = format!("{place}[{n}]");
        let Some(id) = id else {
            ctx.missing(&at, "Write the id of a part, or take the entry out.");
            continue;
        };
        let id = ctx.text(&at, Some(id), 60, "");
        if read.contains(&id) {
            twice(ctx, &at, &id);
        } else {
            read.push(id);
        }
    }
    read
}

fn twice(ctx: &mut Context, place: &str, id: &str) {
    ctx.stop(
        "part-twice",
        place,
        format!("`{place}` names {id} a second time."),
        "Name each part once.",
    );
}
