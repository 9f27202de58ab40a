//! The writers: each takes the finished plan, and nothing else, and gives one file.
//!
//! They know nothing of how the plan came about: a plan read back from `plan.json` draws and
//! prints the same.

pub mod clamp;
mod cut_csv;
mod cut_dxf;
mod cut_sheet_svg;
mod dxf;
mod finished_svg;
mod flat_part;
mod glb;
mod index_html;
mod labels;
mod labels_html;
mod marks;
mod numbers_txt;
mod outline;
mod painter;
mod part_figures;
mod part_svg;
mod part_view;
mod part_words;
mod parts_csv;
mod plan_json;
pub mod pose;
mod projection;
mod ready_csv;
#[cfg(test)]
pub(crate) mod sample;
mod scene;
mod sheet;
mod single;
mod step_svg;
mod steps_txt;
mod words;

pub use cut_csv::{cut_parts_csv, cuts_csv};
pub use cut_dxf::{part_dxf, sheet_dxf};
pub use cut_sheet_svg::cut_sheet_svg;
pub use finished_svg::finished_svg;
pub use glb::glb;
pub use index_html::{INDEX_STYLE, INDEX_STYLE_NAME, IndexFigures, IndexRow, index_html};
pub use labels_html::labels_html;
pub use numbers_txt::numbers_txt;
pub use part_svg::{part_picture, part_svg};
pub use part_words::part_words;
pub use parts_csv::parts_csv;
pub use plan_json::plan_json;
pub use ready_csv::ready_csv;
pub use step_svg::step_svg;
pub use steps_txt::steps_txt;

/// The names of all files that are made of a plan's cutting, besides `parts.csv`.
pub fn cutting_files(plan: &crate::plan::Plan) -> Vec<String> {
    let Some(cutting) = &plan.cutting else { return Vec::new() };
    let mut names = ["cut-parts.csv", "cuts.csv", "labels.html"].map(str::to_owned).to_vec();
    for sheet in &cutting.sheets {
        names.push(format!("sheet-{}.svg", sheet.n));
        names.push(format!("sheet-{}.dxf", sheet.n));
    }
    let panels = plan.parts.iter().filter(|p| p.kind == crate::assembly::Kind::Panel);
    names.extend(panels.map(|p| format!("part-{}.dxf", p.id)));
    names
}

/// One of these files by its name.
pub fn cutting_file(plan: &crate::plan::Plan, name: &str) -> Option<String> {
    plan.cutting.as_ref()?;
    match name {
        "cut-parts.csv" => return Some(cut_parts_csv(plan)),
        "cuts.csv" => return Some(cuts_csv(plan)),
        "labels.html" => return Some(labels_html(plan)),
        _ => {}
    }
    let (stem, kind) = name.rsplit_once('.')?;
    let number = || stem.strip_prefix("sheet-")?.parse().ok();
    match (kind, number()) {
        ("svg", Some(n)) => cut_sheet_svg(plan, n),
        ("dxf", Some(n)) => sheet_dxf(plan, n),
        ("dxf", None) => part_dxf(plan, stem.strip_prefix("part-")?),
        _ => None,
    }
}
