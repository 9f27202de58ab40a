//! From the text of a scenario file to the scenario, with everything wrong told at once.

mod build;
mod contents;
mod context;
mod cutting;
mod install;
mod interior;
mod made;
mod measured;
mod order;
mod piece;
mod run;
mod shop;
mod space;
mod stock;
mod supplies;

use super::defaults::Defaults;
use super::file::{FORMAT, File, FileUnit};
use super::shape::{clip, shape};
use super::{Cabinet, Interior, Scenario, Shop, Subject};
use crate::findings::{Finding, Severity, has_stop};
use crate::units::{Notation, Unit};
use context::Context;

/// Reads a scenario file. The scenario is there unless a finding stops it; findings come most
/// serious first, and each names its field, as in `space.widths[1].width`, or `file` for the whole.
pub fn read(text: &str) -> (Option<Scenario>, Vec<Finding>) {
    let shaped = shape(text);
    let Some(file) = shaped.file else {
        return (None, shaped.findings);
    };
    let (scenario, mut findings) = convert(&file, shaped.findings);
    findings.sort_by_key(|f| f.severity);
    let stopped = has_stop(&findings);
    (scenario.filter(|_| !stopped), findings)
}

fn convert(file: &File, shaped: Vec<Finding>) -> (Option<Scenario>, Vec<Finding>) {
    let (unit, notation) = units(file);
    let mut ctx = Context::new(unit.unwrap_or(Unit::Inch), notation, shaped);
    format(&mut ctx, file.format.as_deref());
    if file.unit.is_none() {
        ctx.missing("unit", "Write `\"unit\": \"in\"` or `\"unit\": \"mm\"`.");
    }
    let defaults = Defaults::of(ctx.unit.is_imperial());
    let usual = if file.piece.is_some() { "Piece" } else { "Cabinet" };
    let title = ctx.text("title", file.title.as_deref(), 200, usual);
    let shop = shop::read(&mut ctx, file.shop.as_ref(), &defaults);
    let wishes = order::read(&mut ctx, file.order.as_ref());
    let install = install::read(&mut ctx, file.install.as_ref());
    let accepted = install::accepted(&mut ctx, file.accepted.as_deref());
    let made = made::read(&mut ctx, file.made.as_ref(), &shop);
    let cut = cutting::read(&mut ctx, file.cut.as_ref());
    let subject = match &file.piece {
        Some(piece) => {
            one_subject(&mut ctx, file);
            Some(Subject::Listed(piece::read(&mut ctx, piece, &shop)))
        }
        None => cabinet(&mut ctx, file, &shop, &defaults).map(|c| Subject::Cabinet(Box::new(c))),
    };
    let glued = match &subject {
        Some(Subject::Cabinet(c)) => c.build.carcass.glue,
        Some(Subject::Listed(p)) => p.joints.iter().any(|j| j.glue),
        None => false,
    };
    if glued {
        supplies::note_glue(&mut ctx, file.shop.as_ref().and_then(|s| s.glue.as_ref()));
    }
    if unit.is_none() {
        // What the lengths mean is only known once the unit is.
        let measured =
            ["length-range", "length-order", "cut-too-deep", "cut-outside", "thickness-mismatch"];
        ctx.findings.retain(|f| !measured.contains(&f.code.as_str()));
    }
    let scenario = subject.map(|subject| Scenario {
        title,
        notation,
        subject,
        shop,
        wishes,
        made,
        cut,
        install,
        accepted,
    });
    (scenario, ctx.findings)
}

/// A piece that is listed has no gap to fill: what a cabinet follows from would be lost.
fn one_subject(ctx: &mut Context, file: &File) {
    let given = [
        ("space", file.space.is_some()),
        ("run", file.run.is_some()),
        ("contents", file.contents.is_some()),
        ("build", file.build.is_some()),
    ];
    for (place, _) in given.into_iter().filter(|(_, given)| *given) {
        ctx.stop(
            "piece-or-build",
            place,
            format!("`{place}` stands beside `piece`, but a piece that is listed does not follow from it."),
            "Keep `piece`, or keep `space`, `run`, `contents` and `build`.",
        );
    }
}

/// A cabinet for a gap, unless it cannot be told what stands inside.
fn cabinet(ctx: &mut Context, file: &File, shop: &Shop, defaults: &Defaults) -> Option<Cabinet> {
    let space = space::read(ctx, file.space.as_ref());
    let run = file.run.as_ref().map(|run| run::read(ctx, run, defaults));
    let contents = contents::read(ctx, file.contents.as_deref(), defaults);
    let build = build::read(ctx, file.build.as_ref(), shop, defaults)?;
    if matches!(build.interior, Interior::PullOut(_)) && contents.is_empty() {
        ctx.missing(
            "contents",
            "Say what the pull-out holds: width, depth, height and count of the bins.",
        );
    }
    if space.widths.is_empty() && contents.is_empty() && build.carcass.width.is_none() {
        ctx.missing(
            "space.widths",
            "Measure the opening's width at several heights, or give `build.carcass.width`.",
        );
    }
    Some(Cabinet { space, run, contents, build })
}

/// The unit of bare numbers, if it can be told, and how lengths are printed.
fn units(file: &File) -> (Option<Unit>, Notation) {
    let unit = file.unit.map(|unit| match unit {
        FileUnit::Inch => Unit::Inch,
        FileUnit::Millimetre => Unit::Millimetre,
        FileUnit::Centimetre => Unit::Centimetre,
    });
    let usual =
        if unit.is_some_and(|u| !u.is_imperial()) { Notation::MmHalf } else { Notation::Inch16 };
    (unit, file.print.unwrap_or(usual))
}

fn format(ctx: &mut Context, format: Option<&str>) {
    match format {
        Some(FORMAT) => {}
        None => ctx.missing("format", format!("Write `\"format\": \"{FORMAT}\"`.")),
        Some(other) => ctx.findings.push(Finding::new(
            Severity::Stop,
            "format-version",
            "format",
            format!("`format` is \"{}\", which this program does not read.", clip(other)),
            format!("It reads \"{FORMAT}\". Change the line if the file is of that version, or use the program that wrote it."),
        )),
    }
}
