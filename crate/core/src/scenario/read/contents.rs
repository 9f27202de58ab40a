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
        read.push(Content {
            name: ctx.text(&at("name"), c.name.as_deref(), 60, "bin"),
            width: ctx.length_needed(&at("width"), c.width.as_ref(), mm(10, 2000)),
            depth: ctx.length_needed(&at("depth"), c.depth.as_ref(), mm(10, 2000)),
            height: ctx.length_needed(&at("height"), c.height.as_ref(), mm(10, 2000)),
            count: u32::try_from(ctx.whole(&at("count"), c.count.as_ref(), 1, 24, 1)).unwrap_or(1),
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
            },
        });
    }
    read
}
