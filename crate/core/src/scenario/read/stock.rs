//! Sheets, scraps, the saw, and what is on hand. What cannot be sawn as it is given is a finding to put right; the
//! rest is laid out all the same.

use super::build::material;
use super::context::{Context, mm};
use crate::findings::{Finding, Severity};
use crate::scenario::defaults::{self, Defaults};
use crate::scenario::file::{self, Amount};
use crate::scenario::shape::clip;
use crate::scenario::{ListedGrain, Saw, Shop, Stock, Supply};
use crate::units::{Length, parse_decimal};

const MOST_STOCK: usize = 60;
const MOST_SUPPLIES: usize = 100;
/// The highest price, in thousandths.
const MOST_PRICE: i128 = 1_000_000_000;

const PRACTICE: &str = "common practice, no source";

pub(super) fn saw(ctx: &mut Context, from: Option<&file::Saw>, defaults: &Defaults) -> Saw {
    let nothing = file::Saw::default();
    let from = from.unwrap_or(&nothing);
    let mut length = |field: &str, written: &Option<file::Written>, least, most, default| {
        ctx.length(&format!("shop.saw.{field}"), written.as_ref(), mm(least, most), default)
    };
    let mut kerf = length("kerf", &from.kerf, 0, 10, defaults.kerf);
    let trim = length("trim", &from.trim, 0, 100, defaults.trim);
    let fence = length("fence", &from.fence, 100, 5000, defaults.fence);
    let [long, wide] = defaults.panel;
    let panel_length = length("panel_length", &from.panel_length, 300, 10_000, long);
    let panel_width = length("panel_width", &from.panel_width, 200, 10_000, wide);
    let least_cut = length("least_cut", &from.least_cut, 0, 300, Length::ZERO);
    if kerf == Length::ZERO {
        kerf = defaults.kerf;
        let usual = ctx.exactly(kerf);
        ctx.findings.push(
            Finding::new(
                Severity::Fix,
                "kerf-zero",
                "shop.saw.kerf",
                format!("`shop.saw.kerf` is 0, but every blade takes a slot; {usual} stands in."),
                "Saw a slot into a scrap, measure how wide it is, and write that down.",
            )
            .source(PRACTICE),
        );
    }
    let stages = ctx.whole("shop.saw.stages", from.stages.as_ref(), 2, 4, 3);
    Saw {
        kerf,
        trim,
        fence,
        panel_length,
        panel_width,
        lift_g: 1000
            * ctx.whole("shop.saw.lift_kg", from.lift_kg.as_ref(), 1, 200, defaults::LIFT_KG),
        least_cut,
        stages: u8::try_from(stages).unwrap_or(3),
    }
}

pub(super) fn stock(
    ctx: &mut Context,
    listed: Option<&[file::Stock]>,
    shop: &Shop,
    defaults: &Defaults,
) -> Vec<Stock> {
    let given = listed.unwrap_or_default();
    ctx.count("shop.stock", given.len(), 0, MOST_STOCK);
    let mut read: Vec<Stock> = Vec::new();
    for (n, s) in given.iter().take(MOST_STOCK).enumerate() {
        let one = one(ctx, s, n, shop);
        if read.iter().any(|other| other.id == one.id) {
            let place = format!("shop.stock[{n}].id");
            ctx.stop(
                "duplicate-id",
                &place,
                format!("`{place}` is {}, as that of another sheet or scrap.", one.id),
                "Give one of them another id.",
            );
        }
        read.push(one);
    }
    for m in &shop.materials {
        if !read.iter().any(|s| s.material == m.id) {
            read.push(Stock {
                id: format!("{} sheet", m.id),
                material: m.id.clone(),
                length: defaults.sheet[0],
                width: defaults.sheet[1],
                count: None,
                price: None,
                scrap: false,
                hidden_only: false,
                rough: [true; 4],
                grain: usual_grain(m.grain),
                assumed: true,
                place: "shop.stock".to_owned(),
            });
        }
    }
    read
}

fn usual_grain(shows: bool) -> ListedGrain {
    if shows { ListedGrain::Length } else { ListedGrain::None }
}

fn one(ctx: &mut Context, s: &file::Stock, n: usize, shop: &Shop) -> Stock {
    let place = format!("shop.stock[{n}]");
    let at = |field: &str| format!("{place}.{field}");
    if s.material.is_none() {
        ctx.missing(&at("material"), "Write the id of one of `shop.materials`.");
    }
    let material =
        material(ctx, &at("material"), s.material.as_deref(), shop, |_| Some(String::new()));
    let oversize = ctx.length(&at("oversize"), s.oversize.as_ref(), mm(0, 100), Length::ZERO);
    let length = ctx.length_needed(&at("length"), s.length.as_ref(), mm(20, 10_000)) + oversize;
    let width = ctx.length_needed(&at("width"), s.width.as_ref(), mm(20, 10_000)) + oversize;
    let scrap = s.scrap.unwrap_or(false);
    let usual_count = if scrap { 1 } else { -1 };
    let count = ctx.whole(&at("count"), s.count.as_ref(), 0, 1000, usual_count);
    let price = price(ctx, &at("price"), s.price.as_ref());
    let grain = match s.grain {
        Some(file::Grain::Length) => ListedGrain::Length,
        Some(file::Grain::Width) => ListedGrain::Width,
        Some(file::Grain::None) => ListedGrain::None,
        None => usual_grain(shop.material(&material).is_some_and(|m| m.grain)),
    };
    let usual_id = format!("{material} {}", n + 1);
    Stock {
        id: ctx.text(&at("id"), s.id.as_deref(), 60, &usual_id),
        material,
        length,
        width,
        count: u32::try_from(count).ok(),
        price: price.or(scrap.then_some(0)),
        scrap,
        hidden_only: s.hidden_only.unwrap_or(false),
        rough: rough(ctx, &at("rough"), s.rough.as_deref(), !scrap),
        grain,
        assumed: false,
        place,
    }
}

fn rough(
    ctx: &mut Context,
    place: &str,
    listed: Option<&[Option<file::Edge>]>,
    usual: bool,
) -> [bool; 4] {
    let Some(listed) = listed else { return [usual; 4] };
    ctx.count(place, listed.len(), 0, 4);
    let mut rough = [false; 4];
    for (n, edge) in listed.iter().enumerate() {
        match edge {
            Some(file::Edge::Left) => rough[0] = true,
            Some(file::Edge::Right) => rough[1] = true,
            Some(file::Edge::Front) => rough[2] = true,
            Some(file::Edge::Back) => rough[3] = true,
            None => {
                ctx.missing(&format!("{place}[{n}]"), "Use one of: left, right, front, back.");
            }
        }
    }
    rough
}

/// In thousandths. What cannot be a price is put right before buying; until then it is as if none were given.
fn price(ctx: &mut Context, place: &str, written: Option<&Amount>) -> Option<i64> {
    let Amount(text) = written?;
    let read = parse_decimal(text).ok().map(|d| (2_000 * d.above + d.below) / (2 * d.below));
    let price = read.filter(|p| *p <= MOST_PRICE).and_then(|p| i64::try_from(p).ok());
    if price.is_none() {
        ctx.findings.push(Finding::new(
            Severity::Fix,
            "price-range",
            place,
            format!("`{place}` is {}, which is no price; it is left out.", clip(text)),
            "Write what one costs, from 0 to 1 000 000, or leave the price away.",
        ));
    }
    price
}

pub(super) fn supplies(ctx: &mut Context, listed: Option<&[file::Supply]>) -> Vec<Supply> {
    let listed = listed.unwrap_or_default();
    ctx.count("shop.supplies", listed.len(), 0, MOST_SUPPLIES);
    let mut read: Vec<Supply> = Vec::new();
    for (n, s) in listed.iter().take(MOST_SUPPLIES).enumerate() {
        let place = format!("shop.supplies[{n}]");
        let at = |field: &str| format!("{place}.{field}");
        if s.id.is_none() {
            ctx.missing(&at("id"), "Write its id, as it stands on the shopping list.");
        }
        let id = ctx.text(&at("id"), s.id.as_deref(), 100, "");
        if s.id.is_some() && read.iter().any(|other| other.id == id) {
            ctx.stop(
                "duplicate-id",
                &at("id"),
                format!("`{}` names {id} a second time.", at("id")),
                "Put the two together.",
            );
        }
        let on_hand = ctx.whole(&at("on_hand"), s.on_hand.as_ref(), 0, 1_000_000, 0);
        let price = price(ctx, &at("price"), s.price.as_ref());
        read.push(Supply { id, on_hand, price, place });
    }
    read
}
