//! The gap in the room.

use super::context::{Context, mm};
use super::measured;
use crate::scenario::file;
use crate::scenario::{Floor, Neighbour, Space, WidthAt};
use crate::units::Length;

pub(super) fn read(ctx: &mut Context, space: Option<&file::Space>) -> Space {
    if space.is_none() {
        ctx.missing("space", "Measure the gap: widths at several heights, height and depth. Or list a `piece` part by part.");
    }
    let nothing = file::Space::default();
    let from = space.unwrap_or(&nothing);
    let listed = from.widths.as_deref().unwrap_or_default();
    ctx.count("space.widths", listed.len(), 0, 20);
    let mut widths = Vec::new();
    for (n, w) in listed.iter().take(20).enumerate() {
        widths.push(WidthAt {
            at: ctx.length(
                &format!("space.widths[{n}].at"),
                w.at.as_ref(),
                mm(0, 3000),
                Length::ZERO,
            ),
            width: ctx.length_needed(
                &format!("space.widths[{n}].width"),
                w.width.as_ref(),
                mm(100, 3000),
            ),
            back: w.from == Some(file::End::Back),
        });
    }
    let level = from.floor.as_ref().and_then(|f| f.out_of_level.as_ref());
    let measured = measured::read(ctx, from);
    // The least counts, wherever it was taken.
    let mut height = ctx.length_needed("space.height", from.height.as_ref(), mm(200, 3000));
    let mut depth = ctx.length_needed("space.depth", from.depth.as_ref(), mm(100, 1500));
    height = measured.heights.iter().map(|h| h.1).fold(height, Length::min);
    depth = measured.depths.iter().map(|d| d.2).fold(depth, Length::min);
    Space {
        widths,
        height,
        depth,
        left: neighbour(from.left),
        right: neighbour(from.right),
        floor: Floor {
            out_of_level: ctx.length("space.floor.out_of_level", level, mm(0, 100), Length::ZERO),
        },
        measured,
    }
}

pub(super) fn neighbour(written: Option<file::Neighbour>) -> Neighbour {
    match written.unwrap_or(file::Neighbour::Unit) {
        file::Neighbour::Unit => Neighbour::Unit,
        file::Neighbour::Wall => Neighbour::Wall,
        file::Neighbour::Open => Neighbour::Open,
    }
}
