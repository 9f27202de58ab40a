//! Builds the page: the folder `target/site`, ready for any static host, under any path.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use wasm_bindgen_cli_support::Bindgen;

use crate::fingerprint::{Fingerprint, is_current};
use crate::listing::listing;
use crate::offline;
use crate::places::Places;
use crate::run::{cargo, read, run, which};
use crate::{Failure, files, tools};

/// The module's file.
const MODULE: &str = "jointwise_web_bg.wasm";

/// The profile it is built in.
const PROFILE: &str = "page";

/// Its types, for the check of the page's scripts.
const TYPES: &str = "jointwise_web.d.ts";

/// What the optimiser may use. Named one by one: with all features on, it writes imports that
/// browsers do not read yet. The debug names are stripped here and not by cargo, because the
/// binding generator before it still needs a section that cargo would strip.
const OPTIMISE: [&str; 10] = [
    "-Oz",
    "--enable-bulk-memory",
    "--enable-bulk-memory-opt",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
    "--strip-debug",
    "--strip-producers",
];

/// What the module is made of.
const SOURCES: [&str; 5] = ["crate/core", "crate/web", "Cargo.toml", "Cargo.lock", ".cargo"];

/// Builds what has changed and returns the site's folder.
pub fn build(places: &Places) -> Result<PathBuf, Failure> {
    let module = module(places)?;
    let site = places.site();
    // Made afresh, so that a file that was taken out of `www` does not live on.
    files::remove(&site)?;
    copy(&places.root.join("www"), &site, &belongs_on_the_site)?;
    copy(&module, &site.join("pkg"), &|name| name.ends_with(".js") || name.ends_with(".wasm"))?;
    scenarios(&places.root.join("scenarios"), &site.join("scenarios"))?;
    offline::write_list(&site)?;
    // The type check of the page looks for the module's types beside the page.
    let types = places.root.join("www").join("pkg");
    files::remove(&types)?;
    copy(&module, &types, &|name| name.ends_with(".d.ts"))?;
    Ok(site)
}

/// Makes the page's module, unless it is there and nothing has changed. Returns its folder.
fn module(places: &Places) -> Result<PathBuf, Failure> {
    let optimiser = optimiser(places);
    let mut fingerprint = Fingerprint::new();
    for source in SOURCES {
        fingerprint.path(&places.root, source)?;
    }
    fingerprint.text(&read(Command::new("rustc").arg("--version")).unwrap_or_default());
    fingerprint.text(&OPTIMISE.join(" "));
    if optimiser.is_some() {
        fingerprint.path(&places.browser(), "package-lock.json")?;
    }
    let fingerprint = fingerprint.finish();

    let folder = places.workshop();
    let module = folder.join("pkg");
    let stamp = folder.join("stamp");
    if is_current(&stamp, &fingerprint)
        && [MODULE, TYPES].iter().all(|file| module.join(file).is_file())
    {
        return Ok(module);
    }
    files::remove(&folder)?;
    tools::wasm_target()?;
    println!("building the page's module");
    run(cargo()
        .args(["build", "--locked", "--package", "jointwise-web", "--lib", "--profile", PROFILE])
        .args(["--target", tools::WASM, "--target-dir"])
        .arg(&places.target)
        .current_dir(&places.root))?;
    // The generator's library and the module's bindings are of one version, which the lock file holds.
    Bindgen::new()
        .input_path(places.target.join(tools::WASM).join(PROFILE).join("jointwise_web.wasm"))
        .typescript(true)
        .web(true)
        .and_then(|generator| generator.generate(&module))
        .map_err(|error| format!("the bindings of the page's module: {error:#}"))?;
    match optimiser {
        Some(optimiser) => optimise(&optimiser, &module.join(MODULE))?,
        None => println!("note: the module is not optimised for size, because npm is missing"),
    }
    files::write(&stamp, &fingerprint)?;
    Ok(module)
}

/// The size optimiser from npm. The page works without it, so its absence is no failure.
fn optimiser(places: &Places) -> Option<PathBuf> {
    which("npm")?;
    match tools::npm_packages(places) {
        Ok(()) => Some(places.npm_bin("wasm-opt")),
        Err(failure) => {
            println!("note: {failure}");
            None
        }
    }
}

/// Optimises the module in place.
fn optimise(optimiser: &Path, module: &Path) -> Result<(), Failure> {
    let size = |file: &Path| fs::metadata(file).map_or(0, |facts| facts.len()) / 1000;
    let before = size(module);
    let smaller = module.with_extension("optimised");
    run(Command::new(optimiser).args(OPTIMISE).arg(module).arg("-o").arg(&smaller))?;
    fs::rename(&smaller, module).map_err(|error| files::said(module, &error))?;
    println!("the page's module: {before} kB, optimised {} kB", size(module));
    Ok(())
}

/// Types and settings of the checker serve no reader of the page.
fn belongs_on_the_site(name: &str) -> bool {
    name != "pkg" && !name.ends_with(".d.ts") && !name.starts_with("tsconfig")
}

/// Copies the scenario files and lists them.
fn scenarios(from: &Path, to: &Path) -> Result<(), Failure> {
    copy(from, to, &|name| name.ends_with(".json"))?;
    let mut listed = Vec::new();
    for (name, path) in files::entries(to)? {
        // The schema lies in a folder of its own: it is served, not listed.
        if path.is_dir() {
            continue;
        }
        listed.push((name, files::read_text(&path)?));
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
