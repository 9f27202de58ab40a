//! What to buy: sheets, screws, glue, and what is bought ready.

use std::collections::BTreeMap;

use crate::assembly::Kind;
use crate::findings::{Finding, Severity};
use crate::geometry::Solid;
use crate::plan::{Cutting, Plan, ShoppingItem};
use crate::scenario::Scenario;
use crate::scenario::near::nearest;
use crate::units::Length;

/// One screw in ten is added, and no fewer than this: they fall, strip and break (common practice, no source).
const LEAST_SPARE: i64 = 4;
/// Glue on one square metre of joint, in millilitres (from memory: 150 to 250 g/m², read it off the bottle).
const GLUE_ML: i128 = 200;

/// The list, and which supplies of the file are not on it.
pub(super) fn list(
    scenario: &Scenario,
    plan: &Plan,
    cutting: &Cutting,
) -> (Vec<ShoppingItem>, Vec<Finding>) {
    let mut items = sheets(cutting);
    items.extend(screws(plan));
    items.extend(glue(plan));
    items.extend(hardware(plan));
    items.extend(banding(plan));
    let mut findings = Vec::new();
    for supply in &scenario.shop.supplies {
        let Some(item) = items.iter_mut().find(|i| i.id == supply.id) else {
            let near = nearest(&supply.id, items.iter().map(|i| i.id.as_str()));
            findings.push(Finding::new(
                Severity::Note,
                "field-unused",
                supply.place.clone(),
                format!("`{}.id` is {}, which this piece does not take.", supply.place, supply.id),
                near.map_or_else(
                    || "Leave it, if another piece takes it.".to_owned(),
                    |n| format!("Did you mean `{n}`? Leave it, if another piece takes it."),
                ),
            ));
            continue;
        };
        item.on_hand += supply.on_hand;
        item.buy = (item.need + item.spare - item.on_hand).max(0);
        item.cost = supply.price.map(|p| p.saturating_mul(item.buy)).or(item.cost);
    }
    (items, findings)
}

/// Counts the sheets of another layout; all else stays.
pub(super) fn count_sheets(cutting: &mut Cutting) {
    let mut fresh = sheets(cutting);
    for item in &mut fresh {
        // What the file says of it holds on.
        if let Some(old) = cutting.shopping.iter().find(|i| i.id == item.id) {
            let each = old.cost.filter(|_| old.buy > 0).map(|c| c / old.buy);
            item.on_hand = old.on_hand;
            item.buy = (item.need - item.on_hand).max(0);
            item.cost = each.map(|e| e.saturating_mul(item.buy)).or(item.cost);
        }
    }
    fresh.extend(cutting.shopping.iter().filter(|i| i.group != "sheets").cloned());
    cutting.shopping = fresh;
}

fn sheets(cutting: &Cutting) -> Vec<ShoppingItem> {
    let mut items = Vec::new();
    for (stock, beside) in cutting.job.stock.iter().zip(&cutting.stock) {
        let need = cutting.sheets.iter().filter(|s| s.stock == stock.id).count() as i64;
        if need == 0 {
            continue;
        }
        let on_hand = beside.on_hand.map_or(0, i64::from);
        let buy = (need - on_hand).max(0);
        items.push(ShoppingItem {
            id: format!("sheet-{}", dashed(&stock.id)),
            group: "sheets".to_owned(),
            name: beside.material_name.clone(),
            unit: if beside.scrap { "scraps" } else { "sheets" }.to_owned(),
            need,
            spare: 0,
            on_hand,
            buy,
            cost: beside.price.map(|p| p.saturating_mul(buy)),
            why: if beside.assumed { "a usual size stands in: shop.stock" } else { "" }.to_owned(),
        });
    }
    items
}

/// Of the piece and of what fixes it in its room.
fn screws(plan: &Plan) -> Vec<ShoppingItem> {
    let mut counts: BTreeMap<(String, u8, Length), i64> = BTreeMap::new();
    let room = plan.install.iter().flat_map(|i| &i.joints);
    for f in plan.joints.iter().chain(room).flat_map(|j| &j.fasteners) {
        *counts.entry((f.kind.clone(), f.gauge, f.length)).or_default() += 1;
    }
    // The longest of the thickest first, as a shop lists them.
    counts
        .into_iter()
        .rev()
        .map(|((kind, gauge, length), need)| {
            let size = plan.unit.finest().print(length);
            let spare = (need + 9) / 10;
            let spare = spare.max(LEAST_SPARE);
            ShoppingItem {
                id: format!("{}-{gauge}x{}", dashed(&kind), dashed(&size)),
                group: "screws".to_owned(),
                name: format!("{kind}, #{gauge} × {size}"),
                unit: "pieces".to_owned(),
                need,
                spare,
                on_hand: 0,
                buy: need + spare,
                cost: None,
                why: "one in ten to spare, at least 4".to_owned(),
            }
        })
        .collect()
}

/// By the faces that meet in glued joints.
fn glue(plan: &Plan) -> Option<ShoppingItem> {
    let solid = |id: &String| {
        plan.parts.iter().find(|p| p.id == *id).map(|p| Solid::from_boxes(p.boxes.clone()))
    };
    let mut area = 0i128;
    for joint in plan.joints.iter().filter(|j| j.glue) {
        if let (Some(a), Some(b)) = (solid(&joint.parts[0]), solid(&joint.parts[1])) {
            area += a.contacts(&b).iter().map(crate::geometry::Contact::area).sum::<i128>();
        }
    }
    if area == 0 {
        return None;
    }
    // µm² are 1e-12 m².
    let need =
        i64::try_from((area * GLUE_ML + 999_999_999_999) / 1_000_000_000_000).unwrap_or(i64::MAX);
    let spare = need / 2 + need % 2;
    let square_cm = area / 100_000_000;
    Some(ShoppingItem {
        id: "glue".to_owned(),
        group: "glue".to_owned(),
        name: "wood glue".to_owned(),
        unit: "ml".to_owned(),
        need,
        spare,
        on_hand: 0,
        buy: need + spare,
        cost: None,
        why: format!("{square_cm} cm² of joints, half as much again for squeeze-out; from memory"),
    })
}

/// What is longer is sold by its length, µm.
const BY_LENGTH: i64 = 200_000;

/// What is bought ready: as many as the piece has, left and right together.
fn hardware(plan: &Plan) -> Vec<ShoppingItem> {
    let mut counts: BTreeMap<String, i64> = BTreeMap::new();
    for part in plan.parts.iter().filter(|p| p.kind == Kind::Hardware) {
        let name = part.name.split(" of ").next().unwrap_or_default();
        let sides = ["left ", "right ", "upper ", "lower "];
        let name = sides.iter().find_map(|s| name.strip_prefix(s)).unwrap_or(name);
        let name = if part.length >= BY_LENGTH && !name.contains(|c: char| c.is_ascii_digit()) {
            format!("{name}, {}", plan.unit.print(Length::um(part.length)))
        } else {
            name.to_owned()
        };
        *counts.entry(name).or_default() += 1;
    }
    let item = |(name, need): (String, i64)| ShoppingItem {
        id: format!("hardware-{}", dashed(&name)),
        group: "hardware".to_owned(),
        name,
        unit: "pieces".to_owned(),
        need,
        spare: 0,
        on_hand: 0,
        buy: need,
        cost: None,
        why: "what is sold in pairs or with its screws: count it so".to_owned(),
    };
    counts.into_iter().map(item).collect()
}

/// Cut off at both ends of each edge, µm (common practice, no source).
const TRIM: i64 = 25_000;

/// Edge banding by its thickness and that of the board it goes on, in whole metres or feet.
fn banding(plan: &Plan) -> Vec<ShoppingItem> {
    let mut edges: BTreeMap<(i64, i64), Vec<i64>> = BTreeMap::new();
    for part in &plan.parts {
        let Some(making) = part.making.as_ref().filter(|m| m.banding > 0) else { continue };
        let bounds = Solid::from_boxes(part.boxes.clone()).bounds();
        let flat = |axis: &usize| bounds.extent(*axis) != part.thickness;
        for edge in &making.banded {
            // It runs along the panel, square to the way it looks.
            let long = (0..3).filter(flat).filter(|a| *a != edge.axis());
            let long = long.map(|a| bounds.extent(a)).max().unwrap_or(0);
            edges.entry((making.banding, part.thickness)).or_default().push(long);
        }
    }
    let imperial = plan.unit.unit().is_imperial();
    let (unit, size) = if imperial { ("ft", 304_800) } else { ("m", 1_000_000) };
    let whole = |um: i64| um.div_euclid(size) + i64::from(um.rem_euclid(size) > 0);
    let print = |um: i64| plan.unit.finest().print(Length::um(um));
    let item = |((thick, board), all): ((i64, i64), Vec<i64>)| {
        let sum: i64 = all.iter().sum();
        let need = whole(sum);
        let count = i64::try_from(all.len()).unwrap_or(0);
        let spare = whole(sum + sum / 10 + 2 * TRIM * count) - need;
        ShoppingItem {
            id: format!("banding-{}-{}", dashed(&print(thick)), dashed(&print(board))),
            group: "hardware".to_owned(),
            name: format!("edge banding {} thick, for boards of {}", print(thick), print(board)),
            unit: unit.to_owned(),
            need,
            spare,
            on_hand: 0,
            buy: need + spare,
            cost: None,
            why: format!(
                "{count} edge{}, one part in ten and {} at each end to spare",
                if count == 1 { "" } else { "s" },
                print(TRIM)
            ),
        }
    };
    edges.into_iter().map(item).collect()
}

/// Without blanks and commas, for an id.
fn dashed(text: &str) -> String {
    text.split([' ', ',']).filter(|w| !w.is_empty()).collect::<Vec<_>>().join("-")
}
