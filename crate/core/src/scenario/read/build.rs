//! How the cabinet is built: carcass, back and front. The interior has its own file.

use std::collections::BTreeMap;

use super::context::{Context, Range, mm};
use super::interior;
use crate::findings::{Finding, Severity};
use crate::scenario::defaults::{Defaults, HANDLE};
use crate::scenario::file;
use crate::scenario::near::nearest;
use crate::scenario::shape::clip;
use crate::scenario::{
    Back, BackSet, Build, Carcass, CarcassJoint, Foot, Front, FrontStyle, Material, Seam, Shop, Top,
};
use crate::units::Length;

/// What is left of a panel under a groove or dado (common practice, no source).
pub(super) const LEAST_LEFT: Length = Length::mm(3);

/// The build, unless it cannot be told what stands inside.
pub(super) fn read(
    ctx: &mut Context,
    build: Option<&file::Build>,
    shop: &Shop,
    defaults: &Defaults,
) -> Option<Build> {
    if build.is_none() {
        ctx.missing("build", "Say how it is built; at least `\"build\": { \"shelves\": {} }`. Or list a `piece` part by part.");
    }
    let build = build?;
    let carcass = carcass(ctx, build.carcass.as_ref(), shop, defaults);
    let inside = interior::read(ctx, build, &carcass, shop, defaults);
    let back = back(ctx, build.back.as_ref(), shop);
    // Drawers and doors are shut by something even when nothing is said of it.
    let usual = (build.drawers.is_some() || build.doors.is_some()).then(file::Front::default);
    let written = build.front.as_ref().or(usual.as_ref());
    let front = written.map(|f| front(ctx, f, build, &carcass.material, shop, defaults));
    let dividers = build
        .dividers
        .as_ref()
        .map_or(0, |d| ctx.whole("build.dividers.count", d.count.as_ref(), 1, 4, 1));
    let banding = build.banding.as_ref().map_or(Length::ZERO, |b| {
        let range = Range { least: Length::um(200), most: Length::mm(5) };
        ctx.length("build.banding.thickness", b.thickness.as_ref(), range, Length::mm(1))
    });
    let pins = pins(ctx, build);
    let inside = inside?;
    Some(Build {
        banding,
        pins,
        interior: inside.interior,
        drawers: inside.drawers,
        doors: inside.doors,
        dividers: u8::try_from(dividers).unwrap_or(0),
        carcass,
        back,
        front,
    })
}

/// Sizes that must come out so. Whether there is a row of that name is only known once they are
/// worked out.
fn pins(ctx: &mut Context, build: &file::Build) -> Vec<(String, Length)> {
    let none = BTreeMap::new();
    let written = build.pins.as_ref().unwrap_or(&none);
    ctx.count("build.pins", written.len(), 0, 12);
    let mut pins = Vec::new();
    for (row, length) in written.iter().take(12) {
        let place = format!("build.pins.{}", clip(row));
        if let Some(length) = ctx.length_if_any(&place, Some(length), mm(1, 3000)) {
            pins.push((row.clone(), length));
        }
    }
    pins
}

fn carcass(
    ctx: &mut Context,
    from: Option<&file::Carcass>,
    shop: &Shop,
    defaults: &Defaults,
) -> Carcass {
    let from = from.cloned().unwrap_or_default();
    let thick = |m: &Material| m.thickness >= Length::mm(15);
    let material =
        material(ctx, "build.carcass.material", from.material.as_deref(), shop, |shop| {
            first(shop, thick)
        });
    let given = |ctx: &mut Context, place, written: &Option<file::Written>, least, most| {
        ctx.length_if_any(place, written.as_ref(), mm(least, most))
    };
    let width = given(ctx, "build.carcass.width", &from.width, 100, 3000);
    let height = given(ctx, "build.carcass.height", &from.height, 200, 3000);
    let depth = given(ctx, "build.carcass.depth", &from.depth, 100, 1500);
    let length = |ctx: &mut Context,
                  field: &str,
                  written: &Option<file::Written>,
                  least,
                  most,
                  default| {
        ctx.length(&format!("build.carcass.{field}"), written.as_ref(), mm(least, most), default)
    };
    let joint = match from.joint.unwrap_or(file::Joint::Butt) {
        file::Joint::Butt => CarcassJoint::Butt,
        file::Joint::Dado => CarcassJoint::Dado,
        file::Joint::Rabbet => CarcassJoint::Rabbet,
    };
    let dado_depth = length(ctx, "dado_depth", &from.dado_depth, 1, 20, defaults.dado_depth);
    let top = from.top.unwrap_or(Top::Stretcher);
    let top_overhang = length(ctx, "top_overhang", &from.top_overhang, 0, 100, Length::ZERO);
    if from.top_overhang.is_some() && top != Top::Over {
        unused(ctx, "build.carcass.top_overhang", "`build.carcass.top` is `over`");
    }
    if joint != CarcassJoint::Butt {
        cut_leaves_enough(ctx, "build.carcass.dado_depth", dado_depth, shop.material(&material));
    }
    Carcass {
        width,
        height,
        depth,
        side_gap: length(ctx, "side_gap", &from.side_gap, 0, 50, defaults.side_gap),
        top_gap: length(ctx, "top_gap", &from.top_gap, 0, 100, defaults.top_gap),
        joint,
        dado_depth,
        glue: from.glue.unwrap_or(true),
        toe_height: length(ctx, "toe_height", &from.toe_height, 0, 300, defaults.toe_height),
        toe_recess: length(ctx, "toe_recess", &from.toe_recess, 0, 200, defaults.toe_recess),
        foot: from.foot.unwrap_or(Foot::Integral),
        top,
        top_overhang,
        stretcher_width: length(
            ctx,
            "stretcher_width",
            &from.stretcher_width,
            40,
            300,
            defaults.stretcher_width,
        ),
        nailer_height: length(
            ctx,
            "nailer_height",
            &from.nailer_height,
            40,
            300,
            defaults.nailer_height,
        ),
        material,
    }
}

fn back(ctx: &mut Context, from: Option<&file::Back>, shop: &Shop) -> Back {
    let from = from.cloned().unwrap_or_default();
    let pieces = from.pieces.as_ref().is_some_and(|p| p.0 == "2");
    if from.set == Some(BackSet::Groove) && pieces {
        ctx.stop(
            "back-in-grooves",
            "build.back.pieces",
            "`build.back.pieces` is 2, but a back in grooves slides in as one piece: two would have a loose seam.",
            "Write `\"pieces\": 1`, or set the back `applied` or in a `rabbet`.",
        );
    }
    Back {
        material: material(ctx, "build.back.material", from.material.as_deref(), shop, |shop| {
            first(shop, thin)
        }),
        set: from.set.unwrap_or(BackSet::Applied),
        pieces: u8::try_from(ctx.whole("build.back.pieces", from.pieces.as_ref(), 1, 2, 1))
            .unwrap_or(1),
        seam: match from.seam.unwrap_or(file::Seam::Upright) {
            file::Seam::Upright => Seam::Upright,
            file::Seam::Level => Seam::Level,
        },
    }
}

fn front(
    ctx: &mut Context,
    from: &file::Front,
    build: &file::Build,
    carcass: &str,
    shop: &Shop,
    defaults: &Defaults,
) -> Front {
    let like_carcass = |_: &Shop| Some(carcass.to_owned());
    let material =
        material(ctx, "build.front.material", from.material.as_deref(), shop, like_carcass);
    let place = "build.front.drawer_height";
    let drawer_height =
        ctx.length(place, from.drawer_height.as_ref(), mm(50, 600), defaults.drawer_height);
    let style = match from.style.unwrap_or(file::FrontStyle::One) {
        file::FrontStyle::One => {
            if from.drawer_height.is_some() {
                unused(ctx, place, "`build.front.style` is `drawer-over-doors`");
            }
            FrontStyle::One
        }
        file::FrontStyle::DrawerOverDoors => FrontStyle::DrawerOverDoors { drawer_height },
    };
    let inset = from.mount == Some(file::Mount::Inset);
    if build.pull_out.is_none() && from.style.is_some() {
        unused(ctx, "build.front.style", "there is a `pull_out`");
    } else if inset && matches!(style, FrontStyle::DrawerOverDoors { .. }) {
        ctx.stop(
            "front-inset",
            "build.front.mount",
            "`build.front.mount` is `inset`, but false fronts lie on a backing board before the carcass.",
            "Write `\"mount\": \"overlay\"`, or `\"style\": \"one\"`.",
        );
    }
    let reveal = ctx.length("build.front.reveal", from.reveal.as_ref(), mm(0, 20), defaults.reveal);
    let handle = ctx.length("build.front.handle", from.handle.as_ref(), mm(0, 100), HANDLE);
    Front { material, style, inset, reveal, handle }
}

/// Says that a value has no effect, so that nobody waits for one.
pub(super) fn unused(ctx: &mut Context, place: &str, when: &str) {
    ctx.findings.push(Finding::new(
        Severity::Note,
        "field-unused",
        place,
        format!("`{place}` has no effect here; it counts only when {when}."),
        "Leave it out, or change the other field.",
    ));
}

/// Materials that serve as a back or a box bottom.
pub(super) fn thin(material: &Material) -> bool {
    material.thickness <= Length::mm(9)
}

/// The first material that serves.
pub(super) fn first(shop: &Shop, serves: impl Fn(&Material) -> bool) -> Option<String> {
    shop.materials.iter().find(|m| serves(m)).map(|m| m.id.clone())
}

/// The id of a material that is there, or a finding.
pub(super) fn material(
    ctx: &mut Context,
    place: &str,
    written: Option<&str>,
    shop: &Shop,
    default: impl Fn(&Shop) -> Option<String>,
) -> String {
    let known = || shop.materials.iter().map(|m| m.id.as_str());
    match written {
        Some(id) if shop.material(id.trim()).is_some() => id.trim().to_owned(),
        // An id or a list that is itself wrong may have held this material.
        Some(_) if ctx.list_blamed("shop.materials", ".id") => String::new(),
        Some(id) => {
            let near =
                nearest(id, known()).map(|n| format!("Did you mean `{n}`? ")).unwrap_or_default();
            let listed = known().take(12).collect::<Vec<_>>().join(", ");
            ctx.stop(
                "unknown-material",
                place,
                format!("`{place}` is \"{}\", which is not in `shop.materials`.", clip(id)),
                format!(
                    "{near}Add it to `shop.materials` with its measured thickness, or use one of: \
                     {listed}."
                ),
            );
            String::new()
        }
        None => default(shop).unwrap_or_else(|| {
            if !ctx.list_blamed("shop.materials", ".thickness") {
                ctx.missing(
                    place,
                    "No listed sheet has the usual thickness for it: name the one to use, or list \
                     it in `shop.materials`.",
                );
            }
            String::new()
        }),
    }
}

/// Whether a groove or dado leaves enough of the panel it is cut into.
pub(super) fn cut_leaves_enough(
    ctx: &mut Context,
    place: &str,
    depth: Length,
    material: Option<&Material>,
) {
    let Some(material) = material else { return };
    let enough = depth + LEAST_LEFT <= material.thickness;
    if enough || ctx.blamed(place) || ctx.list_blamed("shop.materials", ".thickness") {
        return;
    }
    let print = |length| ctx.notation.print(length);
    let (depth, thickness) = (print(depth), print(material.thickness));
    let most = print((material.thickness - LEAST_LEFT).max(Length::ZERO));
    let id = material.id.clone();
    let message = format!("`{place}` is {depth}, but `{id}` is only {thickness} thick.");
    ctx.findings.push(
        Finding::new(
            Severity::Stop,
            "cut-too-deep",
            place,
            message,
            format!(
                "Make it at most {most}, or use a thicker sheet: {} must be left.",
                ctx.notation.print(LEAST_LEFT)
            ),
        )
        .number("depth", depth)
        .number("thickness", thickness)
        .source("common practice, no source"),
    );
}
