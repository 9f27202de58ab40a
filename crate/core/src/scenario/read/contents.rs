//! What goes in.

use super::context::{Context, mm};
use crate::scenario::defaults::{Defaults, MASS_G};
use crate::scenario::file;
use crate::scenario::{Arrange, Content};

const MOST: usize = 12;

pub(super) fn read(
    ctx: &mut Context,
    contents: Option<&[file::Content]>,
    defaults: &Defaults,
) -> Vec<Content> {
    let listed = contents.unwrap_or_default();
    ctx.count("contents", listed.len(), 0, MOST);
    let mut read = Vec::new();
    for (n, c) in listed.iter().take(MOST).enumerate() {
        let at = |field: &str| format!("contents[{n}].{field}");
        let count = small(ctx, &at("count"), c.count.as_ref(), 1);
        let across = small(ctx, &at("across"), c.across.as_ref(), i64::from(square(count)));
        let grid = c.arrange == Some(file::Arrange::Grid);
        if across > count {
            ctx.stop(
                "grid-too-wide",
                &at("across"),
                format!("`{}` is {across}, but there are only {count} of them.", at("across")),
                format!("Write a number from 1 to {count}, or give more things."),
            );
        } else if c.across.is_some() && !grid {
            ctx.stop(
                "across-without-grid",
                &at("across"),
                format!("`{}` is given, but they do not stand in a grid.", at("across")),
                "Write `\"arrange\": \"grid\"` beside it, or leave `across` out.",
            );
        }
        let height = ctx.length_needed(&at("height"), c.height.as_ref(), mm(10, 2000));
        read.push(Content {
            name: ctx.text(&at("name"), c.name.as_deref(), 60, "bin"),
            width: ctx.length_needed(&at("width"), c.width.as_ref(), mm(10, 2000)),
            depth: ctx.length_needed(&at("depth"), c.depth.as_ref(), mm(10, 2000)),
            height,
            count,
            clearance: ctx.length(
                &at("clearance"),
                c.clearance.as_ref(),
                mm(0, 200),
                defaults.clearance,
            ),
            mass_g: ctx.thousandths(&at("mass_kg"), c.mass_kg.as_ref(), 0, 500, MASS_G),
            arrange: match c.arrange.unwrap_or(file::Arrange::SideBySide) {
                file::Arrange::SideBySide => Arrange::SideBySide,
                file::Arrange::InLine => Arrange::InLine,
                file::Arrange::Grid => Arrange::Grid(across),
            },
            lift: ctx.length(&at("lift"), c.lift.as_ref(), mm(0, 2000), height),
        });
    }
    read
}

/// A count from 1 to 24.
fn small(ctx: &mut Context, place: &str, written: Option<&file::Amount>, default: i64) -> u32 {
    u32::try_from(ctx.whole(place, written, 1, 24, default)).unwrap_or(1)
}

/// The least number across with which a grid is no deeper than it is wide, in things.
fn square(count: u32) -> u32 {
    (1..=count).find(|n| n * n >= count).unwrap_or(1)
}
