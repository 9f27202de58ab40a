//! From a scenario to the saw: steps that can be followed, bad stock told, what is cut kept.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test's own files and plans: it fails where they are missing"
)]

use std::fs;
use std::path::Path;

use jointwise::findings::{Finding, Severity};
use jointwise::plan::{Cutting, Plan};
use jointwise::{export, sawing};
use jointwise_tests::cutting::sawn;
use serde_json::{Value, json};

fn scenario(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios").join(name);
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn built(scenario: &Value) -> (Plan, Cutting, Vec<Finding>) {
    let outcome = jointwise::build(&scenario.to_string());
    let plan = outcome.plan.unwrap_or_else(|| panic!("no plan: {:#?}", outcome.findings));
    let cutting = plan.cutting.clone().unwrap();
    let faults = sawn::faults(&plan, &cutting);
    assert!(faults.is_empty(), "{faults:#?}");
    (plan, cutting, outcome.findings)
}

/// A case of few parts in millimetres that is planned in a moment.
fn small() -> Value {
    scenario("tool-tray.json")
}

fn with(mut scenario: Value, section: &str, field: &str, value: Value) -> Value {
    if scenario[section].is_null() {
        scenario[section] = json!({});
    }
    scenario[section][field] = value;
    scenario
}

fn says<'a>(findings: &'a [Finding], code: &str) -> &'a Finding {
    let found = findings.iter().find(|f| f.code == code);
    let found = found.unwrap_or_else(|| panic!("no {code}: {findings:#?}"));
    assert!(found.hint.len() > 20 && found.message.len() > 10, "{found:?}");
    found
}

fn placed(cutting: &Cutting) -> Vec<&str> {
    cutting.sheets.iter().flat_map(|s| s.parts.iter().map(|p| p.part.as_str())).collect()
}

/// Its panels' material, and a sheet of it.
fn material(plan: &Plan) -> String {
    plan.parts[0].material.clone()
}

#[test]
fn the_steps_of_every_scenario_can_be_followed() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut seen = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        // The largest takes its time to be planned; it is kept among the expected outputs.
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.extension().is_none_or(|e| e != "json") || name == "workbench.json" {
            continue;
        }
        let (plan, cutting, _) = built(&scenario(&name));
        seen += 1;
        assert!(cutting.unplaced.is_empty(), "{name}: {:?}", cutting.unplaced);
        let panels = plan.parts.iter().filter(|p| p.material != "bought").count();
        assert!(placed(&cutting).len() <= panels && !cutting.claim.is_empty());
        for file in export::cutting_files(&plan) {
            let text = export::cutting_file(&plan, &file).unwrap();
            assert!(text.len() > 100, "{name}: {file}");
            if file.ends_with(".dxf") {
                // Codes and values take turns; the last value says that it is the end.
                let lines: Vec<&str> = text.lines().collect();
                assert!(
                    lines.len().is_multiple_of(2) && lines.last() == Some(&"EOF"),
                    "{name}: {file}"
                );
                assert!(lines.iter().step_by(2).all(|code| code.parse::<u16>().is_ok()));
            }
        }
    }
    assert!(seen >= 6);
}

#[test]
fn the_search_goes_on_from_a_plan_read_back_and_never_to_the_worse() {
    let (plan, cutting, _) = built(&small());
    let read: Plan = serde_json::from_str(&export::plan_json(&plan)).unwrap();
    assert_eq!(read.cutting.as_ref(), Some(&cutting));
    let mut search = sawing::search(&cutting);
    search.step(sawing::STEPS_AT_ONCE);
    let same = sawing::with_layout(&plan, &cutting, &search.best(), sawing::STEPS_AT_ONCE);
    assert_eq!(same, cutting, "the same steps give the same layout");
    search.step(1000);
    let more = sawing::with_layout(&plan, &cutting, &search.best(), 1200);
    let faults = sawn::faults(&plan, &more);
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(more.score.price <= cutting.score.price);
    let others = |c: &Cutting| {
        c.shopping.iter().filter(|i| i.group != "sheets").cloned().collect::<Vec<_>>()
    };
    assert_eq!(others(&more), others(&cutting));
}

#[test]
fn bad_stock_is_told_and_the_rest_laid_out() {
    let (plan, good, _) = built(&small());
    let stuff = material(&plan);
    let sheet = |more: Value| {
        let mut one = json!({ "material": stuff, "length": "2440 mm", "width": "1220 mm" });
        one.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        json!([one])
    };
    let (_, zero, findings) = built(&with(small(), "shop", "saw", json!({ "kerf": 0 })));
    assert_eq!(says(&findings, "kerf-zero").severity, Severity::Fix);
    assert!(zero.job.kerf > 0);

    let (_, cheap, findings) =
        built(&with(small(), "shop", "stock", sheet(json!({ "price": -5 }))));
    assert_eq!(says(&findings, "price-range").place, "shop.stock[0].price");
    assert_eq!(placed(&cheap).len(), placed(&good).len());

    let longest =
        plan.parts.iter().filter(|p| p.material == stuff).map(|p| p.length).max().unwrap();
    let short = format!("{} mm", longest / 1000 - 1);
    let (_, some, findings) = built(&with(
        small(),
        "shop",
        "stock",
        json!([{ "material": stuff, "length": short, "width": short, "rough": [] }]),
    ));
    let told = says(&findings, "bigger-than-stock");
    assert_eq!(told.severity, Severity::Fix);
    assert!(!some.unplaced.is_empty() && !placed(&some).is_empty());

    let (_, none, findings) = built(&with(small(), "shop", "stock", sheet(json!({ "count": 0 }))));
    says(&findings, "stock-used-up");
    assert!(!none.unplaced.is_empty());
}

#[test]
fn grain_against_a_narrow_scrap_is_told() {
    let (plan, ..) = built(&small());
    let grained = plan.parts.iter().find(|p| p.grain == jointwise::assembly::Grain::Length);
    let Some(part) = grained else { panic!("no part with grain: {:#?}", plan.parts) };
    let room = |um: i64| format!("{} mm", um / 1000 + 20);
    // Wide enough for the part's length, long enough for its width: only across the grain.
    let scrap = json!([{
        "material": part.material, "scrap": true, "count": 40,
        "length": room(part.width), "width": room(part.length)
    }]);
    let (_, cutting, findings) = built(&with(small(), "shop", "stock", scrap.clone()));
    says(&findings, "grain-does-not-fit");
    assert!(cutting.unplaced.iter().any(|u| u.part == part.id));
    let turned = with(small(), "shop", "stock", scrap);
    let (_, cutting, _) = built(&with(turned, "cut", "any_grain", json!([part.id])));
    assert!(placed(&cutting).contains(&part.id.as_str()));
}

#[test]
fn prices_and_what_is_on_hand_count_in_the_shopping_list() {
    let (plan, cutting, _) = built(&small());
    let screws = cutting.shopping.iter().find(|i| i.group == "screws").unwrap();
    let driven: usize = plan.joints.iter().map(|j| j.fasteners.len()).sum();
    let listed: i64 = cutting.shopping.iter().filter(|i| i.group == "screws").map(|i| i.need).sum();
    assert_eq!(listed, driven as i64);
    let supplies = json!([{ "id": screws.id, "on_hand": 3, "price": 0.05 }, { "id": "nonsense" }]);
    let stock = json!([{
        "material": material(&plan), "length": "2440 mm", "width": "1220 mm", "price": 74.5
    }]);
    let both = with(with(small(), "shop", "supplies", supplies), "shop", "stock", stock);
    let (_, bought, findings) = built(&both);
    says(&findings, "field-unused");
    let item = bought.shopping.iter().find(|i| i.id == screws.id).unwrap();
    assert_eq!((item.on_hand, item.buy), (3, screws.need + screws.spare - 3));
    assert_eq!(item.cost, Some(50 * item.buy));
    let sheet = bought.shopping.iter().find(|i| i.group == "sheets").unwrap();
    assert_eq!(sheet.cost, Some(74_500 * sheet.buy));
}

#[test]
fn parts_of_a_sequence_lie_side_by_side_in_their_order() {
    let (plan, ..) = built(&small());
    let first = &plan.parts[0];
    let twin = plan.parts.iter().find(|p| {
        p.id != first.id
            && (p.length, p.width, &p.material) == (first.length, first.width, &first.material)
    });
    let twin = twin.unwrap_or_else(|| panic!("no twin: {:#?}", plan.parts));
    let ids = [twin.id.as_str(), first.id.as_str()];
    let (_, cutting, _) = built(&with(small(), "cut", "sequences", json!([ids])));
    let at = |id: &str| {
        let sheet = cutting.sheets.iter().find(|s| s.parts.iter().any(|p| p.part == id)).unwrap();
        (sheet.n, sheet.parts.iter().find(|p| p.part == id).unwrap().clone())
    };
    let ((sheet, one), (other, two)) = (at(ids[0]), at(ids[1]));
    assert_eq!(sheet, other);
    let gap = [0, 1].map(|a| two.at[a] - one.at[a] - one.size[a]);
    let kerf = cutting.job.kerf;
    assert!(gap[0] == kerf && one.at[1] == two.at[1] || gap[1] == kerf && one.at[0] == two.at[0]);
    let unknown = with(small(), "cut", "sequences", json!([["nobody", first.id]]));
    let findings = jointwise::build(&unknown.to_string()).findings;
    says(&findings, "unknown-part");
}

/// The scenario as the page writes it down after some steps.
fn after(plan: &Plan, cutting: &Cutting, done: &[u32], spoiled: &[String]) -> Value {
    let there = sawing::as_cut(plan, cutting, done, spoiled);
    let mm = |um: i64| format!("{}.{:03} mm", um / 1000, um % 1000);
    let stock: Vec<Value> = there
        .stock
        .iter()
        .map(|s| {
            let mut one = json!({
                "id": s.id, "material": s.material, "length": mm(s.length), "width": mm(s.width)
            });
            if let Some(count) = s.count {
                one["count"] = json!(count);
            }
            if s.piece {
                one["rough"] = json!([]);
                one["price"] = json!(0);
            }
            one
        })
        .collect();
    let made: Vec<Value> = there.made.iter().map(|id| json!({ "id": id })).collect();
    with(with(small(), "shop", "stock", json!(stock)), "made", "parts", json!(made))
}

#[test]
fn what_is_cut_stays_cut_and_a_spoiled_part_is_cut_again() {
    let (plan, cutting, _) = built(&small());
    let all = placed(&cutting).len();
    let cuts: Vec<u32> = cutting.steps.iter().filter(|s| !s.cuts.is_empty()).map(|s| s.n).collect();
    for half in 1..=cuts.len() {
        let done = &cuts[..half];
        let there = sawing::as_cut(&plan, &cutting, done, &[]);
        let spoiled: Vec<String> = there.made.iter().take(1).cloned().collect();
        let told = sawing::as_cut(&plan, &cutting, done, &spoiled);
        assert_eq!(told.made.len() + told.spoiled.len(), there.made.len());
        let (_, rest, _) = built(&after(&plan, &cutting, done, &spoiled));
        let again = placed(&rest);
        assert_eq!(again.len() + rest.unplaced.len(), all - told.made.len(), "after {half} steps");
        assert!(told.made.iter().all(|id| !again.contains(&id.as_str())));
        assert!(spoiled.iter().all(|id| again.contains(&id.as_str())), "there are sheets enough");
    }
}

#[test]
fn pieces_and_parts_after_some_steps_are_no_more_than_the_sheets() {
    let (plan, cutting, _) = built(&small());
    for step in &cutting.steps {
        let done: Vec<u32> = (1..=step.n).collect();
        let there = sawing::as_cut(&plan, &cutting, &done, &[]);
        let pieces: i64 = there.stock.iter().filter(|s| s.piece).map(|s| s.length * s.width).sum();
        let made = there.made.iter().map(|id| plan.parts.iter().find(|p| p.id == *id).unwrap());
        let parts: i64 = made.map(|p| p.length * p.width).sum();
        let sheets: i64 = cutting.sheets.iter().map(|s| s.size[0] * s.size[1]).sum();
        assert!(pieces + parts < sheets, "step {}", step.n);
    }
}

#[test]
fn banding_is_bought_for_every_edge_that_has_it() {
    let mut scenario = scenario("workshop-shelf.json");
    scenario["build"]["banding"] = json!({ "thickness": 1 });
    let (plan, cutting, _) = built(&scenario);
    // An edge is its face's area over the board's thickness.
    let mut sum = 0;
    for part in &plan.parts {
        let Some(making) = &part.making else { continue };
        let all = part.boxes.iter().copied().reduce(|a, b| a.union(&b)).unwrap();
        for edge in &making.banded {
            let across = (0..3).filter(|a| *a != edge.axis());
            sum += across.map(|a| all.extent(a)).product::<i64>() / part.thickness;
        }
    }
    assert!(sum > 0);
    let items: Vec<_> = cutting.shopping.iter().filter(|i| i.id.starts_with("banding")).collect();
    assert!(items.iter().all(|i| i.unit == "m"), "{items:#?}");
    let bought: i64 = items.iter().map(|i| i.buy * 1_000_000).sum();
    assert!(bought >= sum + sum / 10, "{bought} for {sum}");
    // One item for each thickness of board, each rounded up to a metre.
    let (need, least) = (items.iter().map(|i| i.need).sum::<i64>(), (sum + 999_999) / 1_000_000);
    assert!((least..least + items.len() as i64).contains(&need), "{need} of {least}: {items:#?}");
}

/// What a drawing's closed lines of a layer reach over, in micrometres: near and far corner of each.
fn outlines(dxf: &str) -> Vec<[[i64; 2]; 2]> {
    let lines: Vec<&str> = dxf.lines().collect();
    let pairs: Vec<(&str, &str)> = lines.chunks(2).map(|p| (p[0].trim(), p[1].trim())).collect();
    let um = |text: &str| (text.parse::<f64>().unwrap() * 1000.0).round() as i64;
    let (mut found, mut points): (Vec<[[i64; 2]; 2]>, Vec<[i64; 2]>) = (Vec::new(), Vec::new());
    for (n, (code, value)) in pairs.iter().enumerate() {
        if (*code, *value) == ("0", "VERTEX") && pairs[n + 1].1 == "OUTLINE" {
            points.push([um(pairs[n + 2].1), um(pairs[n + 3].1)]);
        } else if (*code, *value) == ("0", "SEQEND") && !points.is_empty() {
            let end = |far: bool, axis: usize| {
                let all = points.iter().map(|p| p[axis]);
                if far { all.max().unwrap() } else { all.min().unwrap() }
            };
            found.push([[end(false, 0), end(false, 1)], [end(true, 0), end(true, 1)]]);
            points.clear();
        }
    }
    found
}

/// A banded part is cut smaller than it stands, and a back has air in its grooves: a machine cuts what the sheet has room
/// for.
#[test]
fn drawings_for_a_machine_show_parts_as_they_are_cut() {
    let mut scenario = scenario("workshop-shelf.json");
    scenario["build"]["banding"] = json!({ "thickness": 1 });
    let (plan, cutting, _) = built(&scenario);
    let mut smaller = 0;
    for part in plan.parts.iter().filter(|p| p.making.is_some()) {
        let [line, ..] =
            outlines(&export::cutting_file(&plan, &format!("part-{}.dxf", part.id)).unwrap())[..]
        else {
            panic!("{} has no outline", part.id)
        };
        assert_eq!(line, [[0, 0], part.as_cut()], "{}", part.id);
        smaller += usize::from(part.as_cut() != [part.length, part.width]);
    }
    assert!(smaller > 0, "nothing is banded");
    for sheet in &cutting.sheets {
        let lines =
            outlines(&export::cutting_file(&plan, &format!("sheet-{}.dxf", sheet.n)).unwrap());
        for part in &sheet.parts {
            let place = [part.at, [0, 1].map(|a| part.at[a] + part.size[a])];
            assert!(lines.contains(&place), "{}: {place:?} is not in {lines:?}", part.part);
        }
    }
}

#[test]
fn screws_for_the_room_are_bought_too() {
    let (plan, cutting, _) = built(&scenario("mudroom-bins.json"));
    let room = plan.install.as_ref().unwrap();
    let first = room.joints.iter().flat_map(|j| &j.fasteners).find(|f| f.gauge == 10).unwrap();
    let size = format!("#{} × {}", first.gauge, plan.unit.finest().print(first.length));
    let item = cutting.shopping.iter().find(|i| i.name.ends_with(&size)).unwrap();
    assert!(item.need >= 1 && item.buy > item.need, "{item:?}");
}
