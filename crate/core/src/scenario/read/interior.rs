//! What stands in the carcass: a box on runners, or shelves.

use super::build::{cut_leaves_enough, first, material, thin, unused};
use super::context::{Context, mm};
use crate::findings::{Finding, Severity};
use crate::scenario::defaults::{self, Defaults};
use crate::scenario::file;
use crate::scenario::{Carcass, Interior, Material, PullOut, Runner, RunnerKind, Shelves, Shop};
use crate::units::Length;

/// The interior, unless it cannot be told which.
pub(super) fn read(
    ctx: &mut Context,
    build: &file::Build,
    carcass: &Carcass,
    shop: &Shop,
    defaults: &Defaults,
) -> Option<Interior> {
    match (&build.pull_out, &build.shelves) {
        (Some(pull_out), None) => {
            Some(Interior::PullOut(read_pull_out(ctx, pull_out, &carcass.material, shop, defaults)))
        }
        (None, Some(shelves)) => {
            Some(Interior::Shelves(read_shelves(ctx, shelves, &carcass.material, shop)))
        }
        (Some(pull_out), Some(shelves)) => {
            // Both are read, so that what is wrong in them is told too.
            read_pull_out(ctx, pull_out, &carcass.material, shop, defaults);
            read_shelves(ctx, shelves, &carcass.material, shop);
            ctx.stop(
                "interior-choice",
                "build",
                "`build` has both `pull_out` and `shelves`.",
                "Keep the one that is to be built and delete the other.",
            );
            None
        }
        (None, None) => {
            let blamed =
                |f: &Finding| matches!(f.place.as_str(), "build.pull_out" | "build.shelves");
            if !ctx.findings.iter().any(blamed) {
                ctx.stop(
                    "interior-choice",
                    "build",
                    "`build` has neither `pull_out` nor `shelves`.",
                    "Write `\"pull_out\": {}` for a box on runners, or `\"shelves\": {}` for an open carcass.",
                );
            }
            None
        }
    }
}

fn read_pull_out(
    ctx: &mut Context,
    from: &file::PullOut,
    carcass: &str,
    shop: &Shop,
    defaults: &Defaults,
) -> PullOut {
    let box_sheet = |m: &Material| m.thickness >= Length::mm(9) && m.thickness < Length::mm(15);
    let sides = |shop: &Shop| first(shop, box_sheet).or_else(|| Some(carcass.to_owned()));
    let place = |field: &str| format!("build.pull_out.{field}");
    let sheet = material(ctx, &place("material"), from.material.as_deref(), shop, sides);
    let bottom =
        material(ctx, &place("bottom_material"), from.bottom_material.as_deref(), shop, |s| {
            first(s, thin)
        });
    let groove_depth = ctx.length(
        &place("groove_depth"),
        from.groove_depth.as_ref(),
        mm(1, 15),
        defaults.groove_depth,
    );
    cut_leaves_enough(ctx, &place("groove_depth"), groove_depth, shop.material(&sheet));
    PullOut {
        material: sheet,
        bottom_material: bottom,
        side_height: ctx.length_if_any(
            &place("side_height"),
            from.side_height.as_ref(),
            mm(50, 1000),
        ),
        groove_depth,
        bottom_recess: ctx.length(
            &place("bottom_recess"),
            from.bottom_recess.as_ref(),
            mm(0, 60),
            defaults.bottom_recess,
        ),
        bottom_play: ctx.length(
            &place("bottom_play"),
            from.bottom_play.as_ref(),
            mm(0, 10),
            defaults.bottom_play,
        ),
        runner: read_runner(ctx, from.runner.as_ref(), defaults),
    }
}

fn read_runner(ctx: &mut Context, from: Option<&file::Runner>, defaults: &Defaults) -> Runner {
    let from = from.cloned().unwrap_or_default();
    let kind = match from.kind.unwrap_or(file::RunnerKind::Undermount) {
        file::RunnerKind::Undermount => RunnerKind::Undermount,
        file::RunnerKind::SideMount => RunnerKind::SideMount,
    };
    let decides = match kind {
        RunnerKind::Undermount => from.inside_deduction.is_some(),
        RunnerKind::SideMount => from.thickness.is_some(),
    };
    if !decides {
        ctx.findings.push(
            Finding::new(
                Severity::Note,
                "runner-generic",
                "build.pull_out.runner",
                "Generic runner numbers stand in for those of your runners.",
                "Read the sheet that comes with the runners before you cut the box, and enter its numbers.",
            )
            .source("from memory"),
        );
    }
    let listed = from.lengths.as_deref();
    if let Some(listed) = listed {
        ctx.count("build.pull_out.runner.lengths", listed.len(), 1, 40);
    }
    let mut lengths = match listed {
        Some(listed) => {
            let listed = listed.get(..40).unwrap_or(listed);
            ctx.lengths("build.pull_out.runner.lengths", listed, mm(150, 1200), 40)
        }
        None => defaults.runner_lengths(kind),
    };
    lengths.sort();
    lengths.dedup();
    let length =
        |ctx: &mut Context, field: &str, written: &Option<file::Written>, least, most, default| {
            ctx.length(
                &format!("build.pull_out.runner.{field}"),
                written.as_ref(),
                mm(least, most),
                default,
            )
        };
    Runner {
        kind,
        lengths,
        inside_deduction: length(
            ctx,
            "inside_deduction",
            &from.inside_deduction,
            20,
            100,
            defaults::INSIDE_DEDUCTION,
        ),
        side_limit: length(ctx, "side_limit", &from.side_limit, 8, 30, defaults::SIDE_LIMIT),
        thickness: length(ctx, "thickness", &from.thickness, 5, 40, defaults::RUNNER_THICKNESS),
        height: length(ctx, "height", &from.height, 10, 120, defaults::RUNNER_HEIGHT),
        under: length(ctx, "under", &from.under, 0, 100, defaults::runner_under(kind)),
        notch_width: length(ctx, "notch_width", &from.notch_width, 5, 80, defaults::NOTCH_WIDTH),
        notch_height: length(
            ctx,
            "notch_height",
            &from.notch_height,
            5,
            40,
            defaults::NOTCH_HEIGHT,
        ),
    }
}

fn read_shelves(ctx: &mut Context, from: &file::Shelves, carcass: &str, shop: &Shop) -> Shelves {
    let listed = from.heights.as_deref().unwrap_or_default();
    let mut heights = ctx.lengths("build.shelves.heights", listed, mm(50, 3000), 10);
    heights.sort();
    if heights.windows(2).any(|pair| matches!(pair, [a, b] if a == b)) {
        ctx.stop(
            "shelf-twice",
            "build.shelves.heights",
            "Two shelves have the same height.",
            "Give each shelf its own height, or take one out.",
        );
    }
    let count = ctx.whole("build.shelves.count", from.count.as_ref(), 0, 10, 1);
    if from.count.is_some() && !heights.is_empty() {
        unused(ctx, "build.shelves.count", "`build.shelves.heights` is not given");
    }
    Shelves {
        material: material(ctx, "build.shelves.material", from.material.as_deref(), shop, |_| {
            Some(carcass.to_owned())
        }),
        heights,
        count: u8::try_from(count).unwrap_or(1),
        setback: ctx.length(
            "build.shelves.setback",
            from.setback.as_ref(),
            mm(0, 500),
            Length::ZERO,
        ),
    }
}
