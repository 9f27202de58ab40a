//! Other drivers, the glue's times, offcuts.

use super::build::material;
use super::context::{Context, mm};
use super::shop::less;
use crate::findings::{Finding, Severity};
use crate::plan::{Driver, Glue, Offcut};
use crate::scenario::Shop;
use crate::scenario::defaults::{Defaults, GLUE_LEAST_C};
use crate::scenario::file;
use crate::units::Length;

const MOST_TOOLS: usize = 10;
const MOST_OFFCUTS: usize = 40;

/// Where the glue's default times come from.
const GLUE_SOURCE: &str = "from memory, to be read off the bottle";

pub(super) fn tools(
    ctx: &mut Context,
    listed: Option<&[file::Tool]>,
    defaults: &Defaults,
) -> Vec<Driver> {
    let listed = listed.unwrap_or_default();
    ctx.count("shop.tools", listed.len(), 0, MOST_TOOLS);
    let mut read = Vec::new();
    for (n, t) in listed.iter().take(MOST_TOOLS).enumerate() {
        let at = |field: &str| format!("shop.tools[{n}].{field}");
        if t.name.is_none() {
            ctx.missing(&at("name"), "Say what it is called, such as `offset driver`.");
        }
        let name = ctx.text(&at("name"), t.name.as_deref(), 60, "");
        let length = ctx.length_needed(&at("length"), t.length.as_ref(), mm(15, 600));
        let width = ctx.length_needed(&at("width"), t.width.as_ref(), mm(5, 200));
        let bit_length = ctx.length_needed(&at("bit_length"), t.bit_length.as_ref(), mm(5, 400));
        let usual = defaults.bit_width.min(width);
        let bit_width = ctx.length(&at("bit_width"), t.bit_width.as_ref(), mm(5, 60), usual);
        let order = [
            ("bit_length", bit_length, "length", length, "less than"),
            ("bit_width", bit_width, "width", width + Length::um(1), "no more than"),
        ];
        for (field, value, other, limit, relation) in order {
            let known = !ctx.blamed(&at(field)) && !ctx.blamed(&at(other));
            if known && value >= limit {
                let limit = if field == "bit_width" { width } else { limit };
                less(ctx, &at(field), value.get(), &at(other), limit.get(), relation);
            }
        }
        read.push(Driver {
            name,
            length: length.get(),
            width: width.get(),
            bit_width: bit_width.get(),
            bit_length: bit_length.get(),
        });
    }
    read
}

pub(super) fn glue(ctx: &mut Context, written: Option<&file::Glue>) -> Glue {
    let nothing = file::Glue::default();
    let from = written.unwrap_or(&nothing);
    let usual = Glue::default();
    let mut minutes = |field: &str, written: Option<&file::Amount>, least, most, default: u32| {
        let place = format!("shop.glue.{field}");
        let read = ctx.whole(&place, written, least, most, i64::from(default));
        u32::try_from(read).unwrap_or(default)
    };
    Glue {
        open: minutes("open_minutes", from.open_minutes.as_ref(), 1, 120, usual.open),
        closed: minutes("closed_minutes", from.closed_minutes.as_ref(), 0, 120, usual.closed),
        clamp: minutes("clamp_minutes", from.clamp_minutes.as_ref(), 5, 2880, usual.clamp),
    }
}

/// The coldest at which the glue holds.
pub(super) fn coldest(ctx: &mut Context, written: Option<&file::Glue>) -> i64 {
    let least = written.and_then(|g| g.least_c.as_ref());
    ctx.whole("shop.glue.least_c", least, 0, 30, GLUE_LEAST_C)
}

/// Says which times of the glue stand in for those on the bottle.
pub(super) fn note_glue(ctx: &mut Context, written: Option<&file::Glue>) {
    let whole = |g: &file::Glue| {
        g.open_minutes.is_some() && g.closed_minutes.is_some() && g.clamp_minutes.is_some()
    };
    if written.is_some_and(whole) || ctx.blamed("shop.glue") {
        return;
    }
    let usual = Glue::default();
    ctx.findings.push(
        Finding::new(
            Severity::Note,
            "default-used",
            "shop.glue",
            "`shop.glue` does not give all the glue's times; those of a usual wood glue in a warm room stand in.",
            "Read the open, closed and clamping times off the bottle and write them down.",
        )
        .number("open", format!("{} minutes", usual.open))
        .number("closed", format!("{} minutes", usual.closed))
        .number("clamp", format!("{} minutes", usual.clamp))
        .source(GLUE_SOURCE),
    );
}

pub(super) fn offcuts(
    ctx: &mut Context,
    listed: Option<&[file::Offcut]>,
    shop: &Shop,
) -> Vec<Offcut> {
    let listed = listed.unwrap_or_default();
    ctx.count("shop.offcuts", listed.len(), 0, MOST_OFFCUTS);
    let mut read: Vec<Offcut> = Vec::new();
    for (n, o) in listed.iter().take(MOST_OFFCUTS).enumerate() {
        let place = format!("shop.offcuts[{n}]");
        let at = |field: &str| format!("{place}.{field}");
        if o.id.is_none() {
            ctx.missing(&at("id"), "Give it a short name, such as `offcut-1`.");
        }
        let id = ctx.text(&at("id"), o.id.as_deref(), 60, "");
        if o.id.is_some() && read.iter().any(|other| other.id == id) {
            ctx.stop(
                "duplicate-id",
                &at("id"),
                format!("`{}` is {id}, as that of another offcut.", at("id")),
                "Give one of them another id.",
            );
        }
        let length = ctx.length_needed(&at("length"), o.length.as_ref(), mm(5, 3000));
        let width = ctx.length_needed(&at("width"), o.width.as_ref(), mm(5, 1500));
        let thickness = match (&o.thickness, &o.material) {
            (Some(written), None) => ctx.length_needed(&at("thickness"), Some(written), mm(1, 100)),
            (None, Some(sheet)) => {
                let id = material(ctx, &at("material"), Some(sheet), shop, |_| None);
                shop.material(&id).map_or(Length::ZERO, |m| m.thickness)
            }
            (given, _) => {
                let has = if given.is_some() { "both" } else { "neither" };
                ctx.stop(
                    "offcut-thickness",
                    &place,
                    format!("`{place}` has {has} of `thickness` and `material`."),
                    "Give its thickness as measured, or the material it was cut from, not both.",
                );
                Length::ZERO
            }
        };
        read.push(Offcut {
            name: ctx.text(&at("name"), o.name.as_deref(), 60, &id),
            id,
            length: length.max(width).get(),
            width: length.min(width).get(),
            thickness: thickness.get(),
        });
    }
    read
}
