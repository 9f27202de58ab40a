//! What is cut already.

use super::build::material;
use super::context::{Context, mm};
use crate::scenario::{Made, MadePart, MadeSheet, Shop, file};

/// Most parts and sheets.
const MOST_PARTS: usize = 200;
const MOST_SHEETS: usize = 50;

pub(super) fn read(ctx: &mut Context, made: Option<&file::Made>, shop: &Shop) -> Made {
    let nothing = file::Made::default();
    let from = made.unwrap_or(&nothing);
    Made {
        parts: parts(ctx, from.parts.as_deref().unwrap_or_default()),
        sheets: sheets(ctx, from.sheets.as_deref().unwrap_or_default(), shop),
    }
}

fn parts(ctx: &mut Context, listed: &[file::MadePart]) -> Vec<MadePart> {
    ctx.count("made.parts", listed.len(), 0, MOST_PARTS);
    let mut read: Vec<MadePart> = Vec::new();
    for (n, p) in listed.iter().take(MOST_PARTS).enumerate() {
        let at = |field: &str| format!("made.parts[{n}].{field}");
        if p.id.is_none() {
            ctx.missing(&at("id"), "Write the id of the part, as in the parts list.");
        }
        let id = ctx.text(&at("id"), p.id.as_deref(), 60, "");
        if p.id.is_some() && read.iter().any(|other| other.id == id) {
            ctx.stop(
                "part-twice",
                &at("id"),
                format!("`{}` names {id} a second time.", at("id")),
                "Name each part once, with all that was measured on it.",
            );
        }
        let mut length = |field, written: &Option<file::Written>, least, most| {
            ctx.length_if_any(&at(field), written.as_ref(), mm(least, most))
        };
        let part = MadePart {
            id,
            length: length("length", &p.length, 1, 6000),
            width: length("width", &p.width, 1, 6000),
            thickness: length("thickness", &p.thickness, 2, 60),
            spoiled: p.spoiled.unwrap_or(false),
        };
        if let (Some(length), Some(width)) = (part.length, part.width)
            && width > length
        {
            let (longer, shorter) = (ctx.exactly(width), ctx.exactly(length));
            ctx.stop_with(
                "length-order",
                &at("width"),
                format!("`{}` is {longer}, more than its length, {shorter}.", at("width")),
                "Give the longer of the two as `length`, whichever way the grain runs.".to_owned(),
                &[("length", shorter.clone()), ("width", longer.clone())],
            );
        }
        read.push(part);
    }
    read
}

fn sheets(ctx: &mut Context, listed: &[file::MadeSheet], shop: &Shop) -> Vec<MadeSheet> {
    ctx.count("made.sheets", listed.len(), 0, MOST_SHEETS);
    let mut read: Vec<MadeSheet> = Vec::new();
    for (n, s) in listed.iter().take(MOST_SHEETS).enumerate() {
        let at = |field: &str| format!("made.sheets[{n}].{field}");
        if s.material.is_none() {
            ctx.missing(&at("material"), "Write the id of one of `shop.materials`.");
        }
        let id =
            material(ctx, &at("material"), s.material.as_deref(), shop, |_| Some(String::new()));
        if !id.is_empty() && read.iter().any(|other| other.material == id) {
            ctx.stop(
                "duplicate-material",
                &at("material"),
                format!("`{}` names {id} a second time.", at("material")),
                "Measure each sheet once; a second sheet of another thickness is a material of its own.",
            );
        }
        read.push(MadeSheet {
            material: id,
            thickness: ctx.length_needed(&at("thickness"), s.thickness.as_ref(), mm(2, 60)),
        });
    }
    read
}
