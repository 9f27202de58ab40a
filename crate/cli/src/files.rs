//! What a plan is written as, and the one way of writing it.

use std::fs;
use std::path::Path;

use jointwise::checks::CheckRow;
use jointwise::export::{
    cutting_file, cutting_files, finished_svg, glb, numbers_txt, part_svg, parts_csv, plan_json,
    ready_csv, steps_txt,
};
use jointwise::plan::Plan;

use crate::report::shown;

/// Every file of a plan and of what was checked about it, by its path below the plan's directory. Ids of parts, of
/// which some are named, are letters, digits and hyphens.
pub fn files(plan: &Plan, checks: &[CheckRow]) -> Vec<(String, Vec<u8>)> {
    let mut texts = vec![
        ("plan.json".to_owned(), plan_json(plan)),
        ("parts.csv".to_owned(), parts_csv(plan)),
        ("steps.txt".to_owned(), steps_txt(plan)),
        ("ready.csv".to_owned(), ready_csv(plan)),
        ("numbers.txt".to_owned(), numbers_txt(&plan.title, checks)),
        ("finished.svg".to_owned(), finished_svg(plan)),
    ];
    let drawn = plan.parts.iter().filter_map(|part| Some((&part.id, part_svg(plan, &part.id)?)));
    texts.extend(drawn.map(|(id, drawing)| (format!("parts/{id}.svg"), drawing)));
    let names = cutting_files(plan).into_iter();
    texts.extend(names.filter_map(|name| {
        let text = cutting_file(plan, &name)?;
        Some((format!("cutting/{name}"), text))
    }));
    let texts = texts.into_iter().map(|(name, text)| (name, text.into_bytes()));
    [("model.glb".to_owned(), glb(plan))].into_iter().chain(texts).collect()
}

/// Writes files into a directory, and makes the directories that are missing.
pub fn write(dir: &Path, files: &[(String, Vec<u8>)]) -> Result<(), String> {
    let failed = |path: &Path, e: &std::io::Error| format!("{} not written: {e}.", shown(path));
    for (name, bytes) in files {
        let path = dir.join(name);
        let folder = path.parent().unwrap_or(dir);
        fs::create_dir_all(folder).map_err(|e| failed(folder, &e))?;
        fs::write(&path, bytes).map_err(|e| failed(&path, &e))?;
    }
    Ok(())
}
