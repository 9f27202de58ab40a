//! Scenario files made by chance: each ends in a plan that the verifier accepts or in a finding that
//! says what stops it and what to do. Nothing panics.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use jointwise::findings::Severity;
use jointwise_tests::dice::Dice;
use jointwise_tests::verifier::verify;
use serde_json::{Value, json};

/// How many files; a multiple of 8, so that every interior comes in both units equally often.
const FILES: u64 = 64;

/// Writes lengths, drawn in millimetres, in the unit of the file.
#[derive(Clone, Copy)]
struct Ruler {
    inches: bool,
}

impl Ruler {
    fn write(self, mm: i64) -> Value {
        if !self.inches {
            return json!(mm);
        }
        // To the nearest 1/16 in, as it would be read off a tape.
        let sixteenths = (mm * 160 + 127) / 254;
        let (whole, rest) = (sixteenths / 16, sixteenths % 16);
        json!(if rest == 0 { format!("{whole}") } else { format!("{whole} {rest}/16") })
    }
}

/// The file of a seed: the interior goes round with it, the unit too, the rest is thrown.
fn scenario(seed: u64) -> Value {
    let mut dice = Dice::new(seed);
    let ruler = Ruler { inches: (seed / 4).is_multiple_of(2) };
    let w = |mm: i64| ruler.write(mm);
    let width = dice.between(300, 900);
    let height = dice.between(600, 920);
    let depth = dice.between(430, 650);
    let toe = if dice.once_in(3) { 0 } else { dice.between(60, 130) };
    let pull_out = seed % 4 < 2;
    // Pull-outs are butted or dadoed by chance; of the open bases every second one is dadoed.
    let dado = if pull_out { dice.once_in(3) } else { seed % 4 == 3 };
    let thick = dice.pick(&["mdf", "ply"]).unwrap_or_default();
    let mut build = json!({
        "carcass": {
            "material": thick,
            "joint": if dado { "dado" } else { "butt" },
            "glue": !dice.once_in(4),
            "toe_height": w(toe),
            "toe_recess": w(dice.between(40, 90)),
            "stretcher_width": w(dice.between(60, 130)),
            "nailer_height": w(dice.between(60, 130)),
        },
        "back": {
            "material": "thin",
            "pieces": if dice.once_in(3) { 1 } else { 2 },
            "seam": dice.pick(&["upright", "level"]),
        },
    });
    let mut contents = json!([]);
    if pull_out {
        let kind = if seed.is_multiple_of(4) { "undermount" } else { "side-mount" };
        build["pull_out"] = json!({
            "material": "half",
            "bottom_material": "thin",
            "side_height": w(dice.between(90, 260)),
            "runner": { "kind": kind },
        });
        // Room inside: the opening less the sides, the box and its runners.
        let across = (width - dice.between(110, 150)).max(100);
        let back_to_front = (depth - dice.between(120, 200)) / 2;
        contents = json!([{
            "width": w(across),
            "depth": w(back_to_front.max(100)),
            "height": w((height - toe) * dice.between(40, 75) / 100),
            "count": dice.between(1, 2),
            "arrange": "in-line",
            "mass_kg": dice.between(2, 25),
        }]);
    } else {
        build["shelves"] = json!({
            "count": dice.between(0, 3),
            "setback": w(if dice.once_in(2) { 0 } else { dice.between(5, 60) }),
        });
    }
    match dice.between(0, 3) {
        0 => {}
        1 => build["front"] = json!({ "material": thick, "style": "one" }),
        _ => {
            build["front"] = json!({
                "material": thick,
                "style": if dice.once_in(2) { "one" } else { "drawer-over-doors" },
                "drawer_height": w(dice.between(100, 200)),
            });
        }
    }
    let clamps: Vec<Value> =
        if dice.once_in(2) { Vec::new() } else { vec![w(600), w(dice.between(700, 1000))] };
    json!({
        "format": "jointwise-scenario/1",
        "title": format!("Made by chance, {seed}"),
        "unit": if ruler.inches { "in" } else { "mm" },
        "print": if ruler.inches { "inch-16" } else { "mm-tenth" },
        "space": {
            "widths": [{ "at": w(100), "width": w(width) }],
            "height": w(height),
            "depth": w(depth),
            "left": dice.pick(&["unit", "wall", "open"]),
            "right": dice.pick(&["unit", "wall", "open"]),
        },
        "contents": contents,
        "build": build,
        "shop": {
            "materials": [
                { "id": "mdf", "kind": "mdf", "thickness": if ruler.inches { json!("3/4") } else { json!(18) } },
                { "id": "ply", "kind": "plywood", "thickness": if ruler.inches { json!("23/32") } else { json!("17,6") } },
                { "id": "half", "kind": "plywood", "thickness": if ruler.inches { json!("15/32") } else { json!("11,7") } },
                { "id": "thin", "kind": "plywood", "thickness": if ruler.inches { json!("7/32") } else { json!("5,8") } },
            ],
            "drill": {
                "length": w(dice.between(120, 300)),
                "width": w(dice.between(50, 90)),
                "bit_length": w(dice.between(40, 100)),
                "bit_width": w(dice.between(8, 16)),
            },
            "clamps": clamps,
            "bench": {
                "length": w(dice.between(1200, 2400)),
                "width": w(dice.between(600, 1000)),
                "height": w(dice.between(700, 950)),
                "bearers": w(if dice.once_in(2) { 0 } else { 40 }),
            },
            "people": dice.between(1, 2),
        },
    })
}

/// How a file ended, or what is wrong with that.
fn outcome(text: &str) -> Result<&'static str, String> {
    let built = catch_unwind(AssertUnwindSafe(|| jointwise::build(text)));
    let Ok(outcome) = built else {
        return Err("panics".to_owned());
    };
    let Some(plan) = outcome.plan else {
        let stops: Vec<_> =
            outcome.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
        if stops.is_empty() {
            return Err("neither a plan nor a finding that stops it".to_owned());
        }
        let mute = stops.iter().find(|f| f.hint.is_empty() || f.place.is_empty());
        return match mute {
            Some(f) => Err(format!("{} says not where or what to do", f.code)),
            None if stops.iter().any(|f| f.code.starts_with("no-order")) => Ok("no order"),
            None => Ok("stopped"),
        };
    };
    let text = serde_json::to_string(&plan).map_err(|e| e.to_string())?;
    let wrong: Vec<String> = verify(&text).iter().map(|v| format!("\n    {v}")).collect();
    if wrong.is_empty() { Ok("plan") } else { Err(wrong.concat()) }
}

#[test]
fn every_file_ends_in_a_sound_plan_or_in_a_finding_that_stops_it() {
    let mut ends: BTreeMap<(u64, &str), u32> = BTreeMap::new();
    let mut failures = Vec::new();
    for seed in 0..FILES {
        match outcome(&scenario(seed).to_string()) {
            Ok(end) => *ends.entry((seed % 4, end)).or_default() += 1,
            Err(what) => failures.push(format!("seed {seed}: {what}\n")),
        }
    }
    assert!(failures.is_empty(), "{}{ends:?}", failures.concat());
    // The test says little if most files are stopped before anything is ordered.
    for interior in 0..4 {
        let plans = ends.get(&(interior, "plan")).copied().unwrap_or(0);
        assert!(plans >= 6, "only {plans} plans of interior {interior}: {ends:?}");
    }
}
