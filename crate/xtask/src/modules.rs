//! Makes the page's two modules: the picture, which is small and comes first, and the planner.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use wasm_bindgen_cli_support::Bindgen;

use crate::fingerprint::{Fingerprint, is_current};
use crate::places::Places;
use crate::run::{cargo, read, run, which};
use crate::{Failure, files, tools};

/// The crates, each one module.
const CRATES: [&str; 2] = ["jointwise-picture", "jointwise-planner"];

/// They, in words for cargo.
pub fn packages() -> impl Iterator<Item = &'static str> {
    CRATES.into_iter().flat_map(|one| ["--package", one])
}

/// A module's name for its bindings' generator, which takes no hyphens.
fn name(package: &str) -> String {
    package.replace('-', "_")
}

/// The profile they are built in.
const PROFILE: &str = "page";

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

/// What they are made of.
const SOURCES: [&str; 6] =
    ["crate/core", "crate/picture", "crate/planner", "Cargo.toml", "Cargo.lock", ".cargo"];

/// Makes the modules, unless they are there and nothing has changed. Returns their folder.
pub fn made(places: &Places) -> Result<PathBuf, Failure> {
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
    let package = folder.join("pkg");
    let stamp = folder.join("stamp");
    let written = |one: &str| package.join(format!("{}_bg.wasm", name(one))).is_file();
    if is_current(&stamp, &fingerprint) && CRATES.into_iter().all(written) {
        return Ok(package);
    }
    files::remove(&folder)?;
    tools::wasm_target()?;
    println!("building the page's modules");
    run(cargo()
        .args(["build", "--locked", "--lib", "--profile", PROFILE])
        .args(packages())
        .args(["--target", tools::WASM, "--target-dir"])
        .arg(&places.target)
        .current_dir(&places.root))?;
    for one in CRATES {
        bind(places, &name(one), &package)?;
        let module = package.join(format!("{}_bg.wasm", name(one)));
        if let Some(optimiser) = &optimiser {
            optimise(optimiser, &module)?;
        }
    }
    if optimiser.is_none() {
        println!("note: the modules are not optimised for size, because npm is missing");
    }
    files::write(&stamp, &fingerprint)?;
    Ok(package)
}

/// Writes a module's bindings. The generator's library and the bindings are of one version, which the lock file holds.
fn bind(places: &Places, name: &str, package: &Path) -> Result<(), Failure> {
    let built = places.target.join(tools::WASM).join(PROFILE).join(format!("{name}.wasm"));
    Bindgen::new()
        .input_path(built)
        .typescript(true)
        .web(true)
        .and_then(|generator| generator.generate(package))
        .map_err(|error| format!("the bindings of {name}: {error:#}"))
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
    let name = module.file_name().unwrap_or_default().display();
    println!("{name}: {before} kB, optimised {} kB", size(module));
    Ok(())
}
