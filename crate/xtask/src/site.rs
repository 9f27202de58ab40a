//! Builds the page: the folder `target/site`, ready for any static host, under any path.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::listing::{Listed, listing};
use crate::places::Places;
use crate::run::{run, which};
use crate::{Failure, files, modules, offline, preload};

/// The folder of the examples' plans, in that of the examples.
pub const PLANNED: &str = "planned";

/// Builds what has changed and returns the site's folder.
pub fn build(places: &Places) -> Result<PathBuf, Failure> {
    let modules = modules::made(places)?;
    // Made afresh, so that a file that was taken out of `www` does not live on; and beside the one that is there, which
    // may be served meanwhile.
    let (made, site) = (places.site().with_extension("new"), places.site());
    fill(places, &modules, &made)?;
    files::remove(&site)?;
    fs::rename(&made, &site).map_err(|error| files::said(&site, &error))?;
    // The type check of the page looks for the modules' types beside the page.
    let types = places.root.join("www").join("pkg");
    files::remove(&types)?;
    copy(&modules, &types, &|name| name.ends_with(".d.ts"))?;
    Ok(site)
}

/// Fills the folder of a new site.
fn fill(places: &Places, modules: &Path, site: &Path) -> Result<(), Failure> {
    files::remove(site)?;
    copy(&places.root.join("www"), site, &belongs_on_the_site)?;
    copy(modules, &site.join("pkg"), &|name| name.ends_with(".js") || name.ends_with(".wasm"))?;
    scenarios(places, site)?;
    preload::write(site)?;
    offline::write_list(site)
}

/// Types and settings of the checker serve no reader of the page.
fn belongs_on_the_site(name: &str) -> bool {
    name != "pkg" && !name.ends_with(".d.ts") && !name.starts_with("tsconfig")
}

/// Copies the scenario files, has them planned and lists them.
fn scenarios(places: &Places, site: &Path) -> Result<(), Failure> {
    let to = site.join("scenarios");
    copy(&places.root.join("scenarios"), &to, &|name| name.ends_with(".json"))?;
    let script = places.root.join("crate").join("xtask").join("planned.mjs");
    // Without them the page plans its examples itself.
    match which("node") {
        Some(node) => run(Command::new(node).arg(script).arg(site))?,
        None => {
            println!("note: the examples are not planned beforehand, because Node.js is missing");
        }
    }
    let mut listed = Vec::new();
    for (name, path) in files::entries(&to)? {
        // Schema and plans lie in folders of their own: they are served, not listed.
        if path.is_dir() {
            continue;
        }
        let planned = to.join(PLANNED).join(&name).is_file();
        listed.push(Listed { text: files::read_text(&path)?, name, planned });
    }
    files::write(&to.join("index.json"), &listing(&listed))
}

/// Copies a folder's files, and the folders in it, where `wanted` says yes to the name.
fn copy(from: &Path, to: &Path, wanted: &dyn Fn(&str) -> bool) -> Result<(), Failure> {
    fs::create_dir_all(to).map_err(|error| files::said(to, &error))?;
    for (name, path) in files::entries(from)? {
        if path.is_dir() && name != "pkg" {
            copy(&path, &to.join(&name), wanted)?;
        } else if path.is_file() && wanted(&name) {
            fs::copy(&path, to.join(&name)).map_err(|error| files::said(&path, &error))?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_site_holds_what_a_reader_needs() {
        let root = std::env::temp_dir().join(format!("xtask-site-{}", std::process::id()));
        let (www, site) = (root.join("www"), root.join("site"));
        for folder in ["pkg", "stages"] {
            fs::create_dir_all(www.join(folder)).unwrap();
        }
        for file in
            ["index.html", "types.d.ts", "tsconfig.json", ".hidden", "pkg/x.js", "stages/a.js"]
        {
            files::write(&www.join(file), "x").unwrap();
        }
        copy(&www, &site, &belongs_on_the_site).unwrap();
        let names = |folder: &Path| -> Vec<String> {
            files::entries(folder).unwrap().into_iter().map(|(name, _)| name).collect()
        };
        assert_eq!(names(&site), ["index.html", "stages"]);
        assert_eq!(names(&site.join("stages")), ["a.js"]);
        fs::remove_dir_all(&root).unwrap();
    }
}
