//! What is in the shop.

use super::context::{Context, mm};
use super::{stock, supplies};
use crate::findings::{Finding, Severity};
use crate::plan::{BY_SQUARE, Workshop};
use crate::scenario::defaults::{self, Defaults};
use crate::scenario::file;
use crate::scenario::{Head, Material, MaterialKind, Screw, Shop};
use crate::units::Length;

pub(super) fn read(ctx: &mut Context, shop: Option<&file::Shop>, defaults: &Defaults) -> Shop {
    let nothing = file::Shop::default();
    let from = shop.unwrap_or(&nothing);
    let materials = materials(ctx, from.materials.as_deref(), defaults);
    let screws = screws(ctx, from.screws.as_deref(), defaults);
    let mut shop = Shop {
        workshop: workshop(ctx, from, defaults),
        room_c: from.room_c.as_ref().map(|c| ctx.whole("shop.room_c", Some(c), 0, 50, 50)),
        glue_least_c: supplies::coldest(ctx, from.glue.as_ref()),
        materials,
        screws,
        stock: Vec::new(),
        saw: stock::saw(ctx, from.saw.as_ref(), defaults),
        supplies: stock::supplies(ctx, from.supplies.as_deref()),
    };
    shop.workshop.offcuts = supplies::offcuts(ctx, from.offcuts.as_deref(), &shop);
    shop.stock = stock::stock(ctx, from.stock.as_deref(), &shop, defaults);
    shop
}

fn materials(
    ctx: &mut Context,
    listed: Option<&[file::Material]>,
    defaults: &Defaults,
) -> Vec<Material> {
    let Some(listed) = listed else {
        note_defaults(
            ctx,
            "shop.materials",
            "sheets",
            "Measure your sheets and list them; real ones differ from their name.",
        );
        return defaults.materials();
    };
    ctx.count("shop.materials", listed.len(), 1, 50);
    let mut read: Vec<Material> = Vec::new();
    for (n, m) in listed.iter().take(50).enumerate() {
        let at = |field: &str| format!("shop.materials[{n}].{field}");
        if m.id.is_none() {
            ctx.missing(&at("id"), "Give it a short name, such as `ply-18`.");
        }
        let id = ctx.text(&at("id"), m.id.as_deref(), 60, "");
        if m.id.is_some() && read.iter().any(|other| other.id == id) {
            ctx.stop(
                "duplicate-material",
                &at("id"),
                format!("Two materials are called `{id}`."),
                "Give one of them another id, and use it where that sheet is meant.",
            );
        }
        if m.kind.is_none() {
            ctx.missing(
                &at("kind"),
                "Use one of: mdf, plywood, particleboard, softwood, hardwood, hardboard.",
            );
        }
        let kind = kind(m.kind.unwrap_or(file::MaterialKind::Mdf));
        read.push(Material {
            name: ctx.text(&at("name"), m.name.as_deref(), 60, &id),
            kind,
            thickness: ctx.length_needed(&at("thickness"), m.thickness.as_ref(), mm(2, 60)),
            density: ctx.whole(
                &at("density"),
                m.density.as_ref(),
                100,
                1500,
                defaults::density(kind),
            ),
            grain: m.grain.unwrap_or(defaults::grain(kind)),
            id,
        });
    }
    read
}

fn screws(ctx: &mut Context, listed: Option<&[file::Screw]>, defaults: &Defaults) -> Vec<Screw> {
    let Some(listed) = listed else {
        note_defaults(
            ctx,
            "shop.screws",
            "screws",
            "List the screws you have, so that only those are used.",
        );
        return defaults.screws();
    };
    ctx.count("shop.screws", listed.len(), 1, 60);
    let mut read = Vec::new();
    for (n, s) in listed.iter().take(60).enumerate() {
        let at = |field: &str| format!("shop.screws[{n}].{field}");
        if s.gauge.is_none() {
            ctx.missing(&at("gauge"), "Write the gauge number, from 4 to 14.");
        }
        read.push(Screw {
            gauge: u8::try_from(ctx.whole(&at("gauge"), s.gauge.as_ref(), 4, 14, 8)).unwrap_or(8),
            length: ctx.length_needed(&at("length"), s.length.as_ref(), mm(8, 100)),
            head: match s.head.unwrap_or(file::Head::Flat) {
                file::Head::Flat => Head::Flat,
                file::Head::Pan => Head::Pan,
            },
        });
    }
    read
}

fn note_defaults(ctx: &mut Context, place: &str, what: &str, hint: &str) {
    // Not when the section was there but could not be read: then its own finding tells it.
    if ctx.blamed(place) {
        return;
    }
    ctx.findings.push(
        Finding::new(
            Severity::Note,
            "default-used",
            place,
            format!("`{place}` is not given; a small set of usual {what} stands in."),
            hint,
        )
        .source("common practice, no source"),
    );
}

fn kind(written: file::MaterialKind) -> MaterialKind {
    match written {
        file::MaterialKind::Mdf => MaterialKind::Mdf,
        file::MaterialKind::Plywood => MaterialKind::Plywood,
        file::MaterialKind::Particleboard => MaterialKind::Particleboard,
        file::MaterialKind::Softwood => MaterialKind::Softwood,
        file::MaterialKind::Hardwood => MaterialKind::Hardwood,
        file::MaterialKind::Hardboard => MaterialKind::Hardboard,
    }
}

fn workshop(ctx: &mut Context, from: &file::Shop, defaults: &Defaults) -> Workshop {
    let drill = from.drill.clone().unwrap_or_default();
    let bench = from.bench.clone().unwrap_or_default();
    let clamps = from.clamps.as_deref().unwrap_or_default();
    let length = |ctx: &mut Context,
                  place,
                  written: &Option<file::Written>,
                  least,
                  most,
                  default: Length| {
        ctx.length(place, written.as_ref(), mm(least, most), default).get()
    };
    let read = Workshop {
        drill_length: length(
            ctx,
            "shop.drill.length",
            &drill.length,
            50,
            600,
            defaults.drill_length,
        ),
        drill_width: length(ctx, "shop.drill.width", &drill.width, 20, 200, defaults.drill_width),
        bit_width: length(ctx, "shop.drill.bit_width", &drill.bit_width, 5, 60, defaults.bit_width),
        bit_length: length(
            ctx,
            "shop.drill.bit_length",
            &drill.bit_length,
            20,
            400,
            defaults.bit_length,
        ),
        bench_length: length(
            ctx,
            "shop.bench.length",
            &bench.length,
            300,
            6000,
            defaults.bench_length,
        ),
        bench_width: length(ctx, "shop.bench.width", &bench.width, 200, 3000, defaults.bench_width),
        bearers: length(ctx, "shop.bench.bearers", &bench.bearers, 0, 300, defaults.bearers),
        bench_height: length(
            ctx,
            "shop.bench.height",
            &bench.height,
            0,
            1300,
            defaults.bench_height,
        ),
        reach_height: length(
            ctx,
            "shop.reach_height",
            &from.reach_height,
            1000,
            2500,
            defaults.reach_height,
        ),
        clamps: ctx
            .lengths("shop.clamps", clamps, mm(50, 3000), 40)
            .into_iter()
            .map(Length::get)
            .collect(),
        people: u8::try_from(ctx.whole("shop.people", from.people.as_ref(), 1, 4, 1)).unwrap_or(1),
        tools: supplies::tools(ctx, from.tools.as_deref(), defaults),
        glue: supplies::glue(ctx, from.glue.as_ref()),
        offcuts: Vec::new(),
        person: None,
        square_check: match from.square_check.unwrap_or(file::SquareCheck::Tape) {
            file::SquareCheck::Tape => "tape".to_owned(),
            file::SquareCheck::Square => BY_SQUARE.to_owned(),
        },
    };
    if read.bit_length >= read.drill_length {
        less(
            ctx,
            "shop.drill.bit_length",
            read.bit_length,
            "shop.drill.length",
            read.drill_length,
            "less than",
        );
    }
    if read.bit_width > read.drill_width {
        less(
            ctx,
            "shop.drill.bit_width",
            read.bit_width,
            "shop.drill.width",
            read.drill_width,
            "no more than",
        );
    }
    read
}

pub(super) fn less(
    ctx: &mut Context,
    place: &str,
    value: i64,
    other: &str,
    limit: i64,
    relation: &str,
) {
    let print = |um| ctx.notation.print(Length::um(um));
    let (value, limit) = (print(value), print(limit));
    ctx.stop(
        "length-order",
        place,
        format!("`{place}` is {value}, but `{other}` is {limit}."),
        format!("Make `{place}` {relation} `{other}`."),
    );
}
