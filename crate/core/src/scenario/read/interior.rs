//! What stands in the carcass: a box on runners, or shelves.

use super::build::{cut_leaves_enough, first, material, thin, unused};
use super::context::{Context, mm};
use crate::findings::{Finding, Severity};
use crate::scenario::defaults::{self, Defaults};
use crate::scenario::file;
use crate::scenario::{
    Carcass, Doors, Drawers, HoleRows, Interior, Material, PullOut, Runner, RunnerKind, Shelves,
    Shop,
};
use crate::units::Length;

/// What fills the carcass.
pub(super) struct Inside {
    pub interior: Interior,
    pub drawers: Option<Drawers>,
    pub doors: Option<Doors>,
}

/// What fills the carcass, unless it cannot be told which.
pub(super) fn read(
    ctx: &mut Context,
    build: &file::Build,
    carcass: &Carcass,
    shop: &Shop,
    defaults: &Defaults,
) -> Option<Inside> {
    let sheet = carcass.material.as_str();
    // All are read, so that what is wrong in them is told too.
    let pull_out = build.pull_out.as_ref();
    let pull_out = pull_out.map(|p| read_pull_out(ctx, "build.pull_out", p, sheet, shop, defaults));
    let shelves = build.shelves.as_ref().map(|s| read_shelves(ctx, s, sheet, shop, defaults));
    let over = build.shelves.is_some() || build.doors.is_some();
    let drawers = build.drawers.as_ref();
    let drawers = drawers.map(|d| read_drawers(ctx, d, over, sheet, shop, defaults));
    let doors = build.doors.as_ref().map(|d| read_doors(ctx, d, defaults));
    let others = shelves.is_some() || drawers.is_some() || doors.is_some();
    match pull_out {
        Some(_) if others => {
            choose(
                ctx,
                "`build` has a `pull_out`, which fills the carcass, and something else beside it.",
                "Keep the one that is to be built and delete the other.",
            );
            None
        }
        Some(pull_out) => {
            Some(Inside { interior: Interior::PullOut(pull_out), drawers: None, doors: None })
        }
        None if others => {
            let none = Shelves {
                material: sheet.to_owned(),
                heights: Vec::new(),
                count: 0,
                setback: Length::ZERO,
                pins: None,
            };
            let interior = Interior::Shelves(shelves.unwrap_or(none));
            Some(Inside { interior, drawers, doors })
        }
        None => {
            let fields = ["pull_out", "shelves", "drawers", "doors"];
            if !fields.iter().any(|f| ctx.blamed(&format!("build.{f}"))) {
                choose(
                    ctx,
                    "`build` has neither `pull_out` nor `shelves`, `drawers` or `doors`.",
                    "Write `\"pull_out\": {}` for a box on runners, `\"shelves\": {}` for an open carcass, \
                     `\"drawers\": {}`, or `\"doors\": {}`.",
                );
            }
            None
        }
    }
}

/// Not told through the context, since the rest of `build` can still be judged.
fn choose(ctx: &mut Context, message: &str, hint: &str) {
    let finding = Finding::new(Severity::Stop, "interior-choice", "build", message, hint);
    ctx.findings.push(finding);
}

fn read_pull_out(
    ctx: &mut Context,
    at: &str,
    from: &file::PullOut,
    carcass: &str,
    shop: &Shop,
    defaults: &Defaults,
) -> PullOut {
    let box_sheet = |m: &Material| m.thickness >= Length::mm(9) && m.thickness < Length::mm(15);
    let sides = |shop: &Shop| first(shop, box_sheet).or_else(|| Some(carcass.to_owned()));
    let place = |field: &str| format!("{at}.{field}");
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
        runner: read_runner(ctx, &place("runner"), from.runner.as_ref(), defaults),
    }
}

fn read_runner(
    ctx: &mut Context,
    at: &str,
    from: Option<&file::Runner>,
    defaults: &Defaults,
) -> Runner {
    let lengths_at = format!("{at}.lengths");
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
                at,
                "Generic runner numbers stand in for those of your runners.",
                "Read the sheet that comes with the runners before you cut the box, and enter its numbers.",
            )
            .source("from memory"),
        );
    }
    let listed = from.lengths.as_deref();
    if let Some(listed) = listed {
        ctx.count(&lengths_at, listed.len(), 1, 40);
    }
    let mut lengths = match listed {
        Some(listed) => {
            let listed = listed.get(..40).unwrap_or(listed);
            ctx.lengths(&lengths_at, listed, mm(150, 1200), 40)
        }
        None => defaults.runner_lengths(kind),
    };
    lengths.sort();
    lengths.dedup();
    let length =
        |ctx: &mut Context, field: &str, written: &Option<file::Written>, least, most, default| {
            ctx.length(&format!("{at}.{field}"), written.as_ref(), mm(least, most), default)
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
        travel: ctx.length_if_any(&format!("{at}.travel"), from.travel.as_ref(), mm(100, 1500)),
        rating_g: from.rating_kg.as_ref().map(|kg| {
            let (least, most) = (1, 300);
            ctx.thousandths(&format!("{at}.rating_kg"), Some(kg), least, most, most * 1_000)
        }),
    }
}

fn read_drawers(
    ctx: &mut Context,
    from: &file::Drawers,
    over: bool,
    carcass: &str,
    shop: &Shop,
    defaults: &Defaults,
) -> Drawers {
    let usual = if over { 1 } else { 3 };
    let count = ctx.whole("build.drawers.count", from.count.as_ref(), 1, 5, usual);
    let listed = from.heights.as_deref().unwrap_or_default();
    let place = "build.drawers.heights";
    let mut heights = ctx.lengths(place, listed, mm(50, 1000), 5);
    let n = usize::try_from(count).unwrap_or(1);
    if heights.len() > n {
        ctx.stop(
            "drawer-heights",
            place,
            format!("`{place}` has {} heights for {n} drawers.", heights.len()),
            format!("Give at most {n}, or a greater `count`."),
        );
    } else if over {
        heights.resize(n, defaults.drawer_height);
    }
    if from.fronts.is_some() && heights.len() == n {
        unused(ctx, "build.drawers.fronts", "not all `heights` are given and no doors lie below");
    }
    let none = file::PullOut::default();
    let boxes = from.boxes.as_ref().unwrap_or(&none);
    Drawers {
        count: u8::try_from(count).unwrap_or(1),
        graduated: from.fronts != Some(file::Fronts::Equal),
        heights,
        boxes: read_pull_out(ctx, "build.drawers.box", boxes, carcass, shop, defaults),
    }
}

fn read_doors(ctx: &mut Context, from: &file::Doors, defaults: &Defaults) -> Doors {
    let mut whole = |field: &str, written: &Option<file::Amount>, least, most| {
        let place = format!("build.doors.{field}");
        let value = ctx.whole(&place, written.as_ref(), least, most, least);
        written.as_ref().and_then(|_| u8::try_from(value).ok())
    };
    let count = whole("count", &from.count, 1, 2);
    let hinges = whole("hinges", &from.hinges, 2, 6);
    if from.hung.is_some() && count == Some(2) {
        unused(ctx, "build.doors.hung", "`build.doors.count` is 1");
    }
    let mut length = |field: &str, written: &Option<file::Written>, least, most, default| {
        let place = format!("build.doors.{field}");
        ctx.length(&place, written.as_ref(), mm(least, most), default)
    };
    Doors {
        count,
        hung_right: from.hung == Some(file::Hung::Right),
        hinges,
        hinge_inset: length("hinge_inset", &from.hinge_inset, 50, 400, defaults.hinge_inset),
        cup: length("cup", &from.cup, 20, 45, defaults::CUP),
        cup_depth: length("cup_depth", &from.cup_depth, 5, 20, defaults::CUP_DEPTH),
        cup_edge: length("cup_edge", &from.cup_edge, 2, 10, defaults::CUP_EDGE),
        plate_row: length("plate_row", &from.plate_row, 25, 60, defaults::ROW_INSET),
    }
}

fn read_shelves(
    ctx: &mut Context,
    from: &file::Shelves,
    carcass: &str,
    shop: &Shop,
    defaults: &Defaults,
) -> Shelves {
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
    let loose = from.fixing == Some(file::Fixing::Pins);
    let rows = [
        ("pitch", &from.pitch),
        ("row_inset", &from.row_inset),
        ("hole", &from.hole),
        ("play", &from.play),
    ];
    for (field, _) in rows.iter().filter(|(_, written)| written.is_some() && !loose) {
        unused(ctx, &format!("build.shelves.{field}"), "`build.shelves.fixing` is `pins`");
    }
    let mut length = |field: &str, written: &Option<file::Written>, least, most, default| {
        let place = format!("build.shelves.{field}");
        ctx.length(&place, written.as_ref(), mm(least, most), default)
    };
    let pins = HoleRows {
        pitch: length("pitch", &from.pitch, 10, 100, defaults::PITCH),
        inset: length("row_inset", &from.row_inset, 15, 150, defaults::ROW_INSET),
        hole: length("hole", &from.hole, 3, 12, defaults::PIN_HOLE),
        play: length("play", &from.play, 0, 5, defaults.shelf_play),
    };
    Shelves {
        pins: loose.then_some(pins),
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
