//! The wall shared with bought units.

use super::context::{Context, mm};
use super::space::neighbour;
use crate::scenario::defaults::Defaults;
use crate::scenario::{Neighbour, Run, file};
use crate::units::Length;

pub(super) fn read(ctx: &mut Context, from: &file::Run, defaults: &Defaults) -> Run {
    let custom = from.custom.clone().unwrap_or_default();
    let usual = defaults.unit_range;
    let run = Run {
        wall: ctx.length_needed("run.wall", from.wall.as_ref(), mm(300, 12_000)),
        step: ctx.length("run.step", from.step.as_ref(), mm(10, 600), defaults.unit_step),
        least: ctx.length("run.least", from.least.as_ref(), mm(100, 1500), usual[0]),
        most: ctx.length("run.most", from.most.as_ref(), mm(100, 1500), usual[1]),
        count: from
            .count
            .as_ref()
            .and_then(|n| u32::try_from(ctx.whole("run.count", Some(n), 0, 40, 0)).ok()),
        wanted: wanted(ctx, from.wanted.as_deref().unwrap_or_default()),
        custom: [
            ctx.length(
                "run.custom.least",
                custom.least.as_ref(),
                mm(100, 3000),
                defaults.custom_range[0],
            ),
            ctx.length(
                "run.custom.most",
                custom.most.as_ref(),
                mm(100, 3000),
                defaults.custom_range[1],
            ),
        ],
        wish: ctx.length_if_any("run.custom.wish", custom.wish.as_ref(), mm(100, 3000)),
        filler: [
            ctx.length(
                "run.filler_least",
                from.filler_least.as_ref(),
                mm(0, 100),
                defaults.filler_range[0],
            ),
            ctx.length(
                "run.filler_most",
                from.filler_most.as_ref(),
                mm(0, 300),
                defaults.filler_range[1],
            ),
        ],
        walls: [wall(from.left), wall(from.right)],
    };
    order(ctx, ["run.least", "run.most"], [run.least, run.most]);
    order(ctx, ["run.custom.least", "run.custom.most"], run.custom);
    order(ctx, ["run.filler_least", "run.filler_most"], run.filler);
    if let Some(wish) = run.wish
        && !ctx.blamed_within("run.custom")
    {
        order(ctx, ["run.custom.least", "run.custom.wish"], [run.custom[0], wish]);
        order(ctx, ["run.custom.wish", "run.custom.most"], [wish, run.custom[1]]);
    }
    run
}

fn wall(written: Option<file::Neighbour>) -> bool {
    neighbour(Some(written.unwrap_or(file::Neighbour::Wall))) == Neighbour::Wall
}

fn wanted(ctx: &mut Context, listed: &[file::Wanted]) -> Vec<Length> {
    ctx.count("run.wanted", listed.len(), 0, 12);
    let mut widths = Vec::new();
    for (n, w) in listed.iter().take(12).enumerate() {
        let at = |field: &str| format!("run.wanted[{n}].{field}");
        let width = ctx.length_needed(&at("width"), w.width.as_ref(), mm(100, 1500));
        let count = ctx.whole(&at("count"), w.count.as_ref(), 1, 12, 1);
        widths.extend((0..count).map(|_| width));
    }
    widths
}

/// The first of two lengths is no more than the second.
fn order(ctx: &mut Context, places: [&str; 2], values: [Length; 2]) {
    if values[0] > values[1] && !ctx.blamed(places[0]) && !ctx.blamed(places[1]) {
        super::shop::less(
            ctx,
            places[0],
            values[0].get(),
            places[1],
            values[1].get(),
            "no more than",
        );
    }
}
