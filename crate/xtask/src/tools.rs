//! Makes sure of the tools that a task needs, and installs only what is missing.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::fingerprint::{Fingerprint, is_current};
use crate::places::Places;
use crate::run::{cargo, read, run, which};
use crate::{Failure, files};

/// The target of the page's modules.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Names under which Chromium is installed.
const CHROMIUM: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// The standard library for the page's modules.
pub fn wasm_target() -> Result<(), Failure> {
    // Asked of the compiler, since not every toolchain is rustup's.
    let there = read(Command::new("rustc").args(["--print", "target-libdir", "--target", WASM]))
        .is_some_and(|folder| Path::new(&folder).is_dir());
    if there {
        return Ok(());
    }
    println!("adding the Rust target {WASM}");
    run(Command::new("rustup").args(["target", "add", WASM]))
        .map_err(|failure| format!("{failure}\nadd the Rust target {WASM} and run this again"))
}

/// A cargo subcommand that comes with a toolchain component.
pub fn component(subcommand: &str, component: &str) -> Result<(), Failure> {
    if read(cargo().args([subcommand, "--version"])).is_some() {
        return Ok(());
    }
    println!("adding the Rust component {component}");
    run(Command::new("rustup").args(["component", "add", component]))
}

/// The packages of the browser tests, exactly as locked.
pub fn npm_packages(places: &Places) -> Result<(), Failure> {
    let folder = places.browser();
    let mut fingerprint = Fingerprint::new();
    fingerprint.path(&folder, "package-lock.json")?;
    let fingerprint = fingerprint.finish();
    let stamp = folder.join("node_modules").join(".locked");
    if is_current(&stamp, &fingerprint) {
        return Ok(());
    }
    let npm =
        which("npm").ok_or("npm is missing: install Node.js 20 or newer and run this again")?;
    println!("installing the packages of the browser tests");
    run(Command::new(npm)
        .args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"])
        .current_dir(&folder))?;
    files::write(&stamp, &fingerprint)
}

/// Node, for the tests.
pub fn node() -> Result<PathBuf, Failure> {
    which("node").ok_or_else(|| "node is missing: install Node.js 20 or newer".into())
}

/// Chromium, for the browser tests. `CHROMIUM` may name another one.
pub fn chromium() -> Result<PathBuf, Failure> {
    if let Some(named) = env::var_os("CHROMIUM") {
        return Ok(PathBuf::from(named));
    }
    let found = || CHROMIUM.iter().find_map(|name| which(name));
    if let Some(found) = found() {
        return Ok(found);
    }
    let cure = "no Chromium found: install it, or name one in CHROMIUM, and run this again";
    println!("installing Chromium");
    debian_package("chromium", cure)?;
    found().ok_or_else(|| cure.into())
}

/// A compiler of C++, for the fuzzer's own code. `CXX` may name another one.
pub fn cpp_compiler() -> Result<(), Failure> {
    let there = || env::var_os("CXX").is_some() || which("c++").is_some();
    let cure = "no compiler of C++ found: install one as c++, and run this again";
    if there() {
        return Ok(());
    }
    println!("installing a compiler of C++");
    debian_package("g++", cure)?;
    if there() { Ok(()) } else { Err(cure.into()) }
}

/// Installs a package where `apt-get` does it; `cure` is what to do elsewhere.
fn debian_package(name: &str, cure: &str) -> Result<(), Failure> {
    let apt = which("apt-get").ok_or(cure)?;
    for words in [&["update"][..], &["install", "-y", "--no-install-recommends", name]] {
        run(Command::new(&apt).env("DEBIAN_FRONTEND", "noninteractive").args(words))
            .map_err(|failure| format!("{failure}\n{cure}"))?;
    }
    Ok(())
}

/// Readers of drawings for machines and of models, which audit ours.
const READERS: [&str; 2] = ["ezdxf==1.4.3", "trimesh==5.2.0"];

/// A Python of the target folder that has the readers.
pub fn readers(places: &Places) -> Result<PathBuf, Failure> {
    let folder = places.target.join("readers");
    let python = folder.join("bin").join("python");
    let has = |python: &Path| {
        read(Command::new(python).args(["-m", "pip", "freeze", "--local"])).is_some_and(|listed| {
            READERS.iter().all(|one| listed.lines().any(|line| line.trim() == *one))
        })
    };
    if has(&python) {
        return Ok(python);
    }
    println!("installing readers of drawings and models");
    let make = || run(Command::new("python3").args(["-m", "venv", "--clear"]).arg(&folder));
    if which("python3").is_none() || make().is_err() {
        debian_package("python3-venv", "install Python 3 with its venv module and run this again")?;
        make()?;
    }
    run(Command::new(&python)
        .args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check"])
        .args(READERS))
    .map_err(|failure| {
        let named = READERS.join(" and ");
        format!("{failure}\n{named} come from the Python package index: they need the network once")
    })?;
    Ok(python)
}
