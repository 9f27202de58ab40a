//! What a link carries, and what the page then does with it.
//!
//! Packing and unpacking are the browser's (`www/share/link.js`); the core first sees the unpacked text,
//! so that is where this begins, with the page's bounds: UTF-8, not longer than a link may unpack to. A
//! line that begins with `#` ends the scenario; what follows it is asked of the plan.

use jointwise::export;
use jointwise::outcome::draft;
use jointwise::plan::Plan;
use jointwise::remedy::remedy_json;
use jointwise::sawing::as_cut;
use roxmltree::Document;

use super::{MOST_PLANNED, are_said, is_planned_or_told};

/// `LONGEST` of `www/scenario.js`: what unpacks to more is not taken.
const LONGEST: usize = 1_000_000;

/// Opens it as the page does, and writes every file and drawing of it.
///
/// # Panics
/// When a plan is not sound, or what is written of it is not well formed.
pub fn run(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let (scenario, asked) = text.split_once("\n#").unwrap_or((text, ""));
    if scenario.len() > LONGEST {
        return;
    }
    let sized = draft(scenario);
    are_said(&sized.findings, scenario);
    if sized.parts.len() > MOST_PLANNED {
        return;
    }
    let outcome = jointwise::build(scenario);
    is_planned_or_told(&outcome, scenario);
    let Some(plan) = outcome.plan else { return };
    are_said(&remedy_json(&plan, asked).findings, asked);
    let _ = export::cutting_file(&plan, asked);
    if let Some(cutting) = &plan.cutting {
        let done: Vec<u32> = asked.bytes().map(u32::from).collect();
        let spoiled: Vec<String> = asked.split(',').map(str::to_owned).collect();
        let _ = as_cut(&plan, cutting, &done, &spoiled);
    }
    export::numbers_txt(&plan.title, &outcome.checks);
    written(&plan);
}

/// Every file of a plan; drawings must be XML that another reader takes.
fn written(plan: &Plan) {
    let drawn = |what: &str, svg: Option<String>| {
        let svg = svg.unwrap_or_default();
        let read = Document::parse(&svg);
        assert!(read.is_ok(), "{what}: {read:?}\n{svg}");
    };
    export::steps_txt(plan);
    export::parts_csv(plan);
    assert!(export::glb(plan).starts_with(b"glTF"));
    drawn("finished", Some(export::finished_svg(plan)));
    for way in [Some(plan), plan.install.as_deref()].into_iter().flatten() {
        for step in &way.steps {
            drawn("step", export::step_svg(way, step.n));
        }
    }
    for part in &plan.parts {
        drawn("part", export::part_svg(plan, &part.id));
        let _ = export::part_words(plan, &part.id);
    }
    for name in export::cutting_files(plan) {
        let text = export::cutting_file(plan, &name);
        assert!(text.is_some(), "{name} is listed and not written");
        if name.ends_with(".svg") {
            drawn(&name, text);
        }
    }
}
