//! The checks, in the order they run: the quick ones first.

use std::env;
use std::path::PathBuf;
use std::process::Command;

use crate::places::Places;
use crate::run::{cargo, run};
use crate::{Failure, files, fuzz, modules, site, tools};

/// One check.
#[derive(Debug)]
pub struct Stage {
    /// By which it is chosen.
    pub name: &'static str,
    /// For its heading.
    pub what: &'static str,
    /// Does it.
    pub run: fn(&Places) -> Result<(), Failure>,
}

/// Every check.
pub const STAGES: [Stage; 13] = [
    Stage { name: "tools", what: "install what the checks need", run: install },
    Stage { name: "format", what: "the form of the Rust code", run: format },
    Stage { name: "clippy", what: "warnings, native", run: clippy },
    Stage { name: "clippy-wasm", what: "warnings, the page's modules", run: clippy_wasm },
    Stage { name: "unit", what: "unit and outside tests", run: unit },
    Stage { name: "doc", what: "the documentation", run: doc },
    Stage { name: "site", what: "build the page", run: build_site },
    Stage { name: "types", what: "the types of the page's scripts", run: types },
    Stage { name: "module", what: "the page's modules against the command", run: module },
    Stage { name: "dxf", what: "drawings for machines, read by another program", run: dxf },
    Stage { name: "mesh", what: "masses and balance, weighed by another program", run: mesh },
    Stage { name: "fuzz", what: "inputs that nobody wrote, a minute a target", run: fuzzed },
    Stage { name: "browser", what: "the page in Chromium", run: browser },
];

/// Everything in the workspace, with the features that the page's modules leave out.
const ALL: [&str; 3] = ["--workspace", "--features", "jointwise/schema"];

/// Tests that need the built module but no browser.
const MODULE_TESTS: [&str; 3] = ["broken.test.mjs", "bytes.test.mjs", "size.test.mjs"];

fn install(places: &Places) -> Result<(), Failure> {
    tools::component("fmt", "rustfmt")?;
    tools::component("clippy", "clippy")?;
    tools::wasm_target()?;
    tools::node()?;
    tools::npm_packages(places)?;
    tools::readers(places)?;
    tools::cpp_compiler()?;
    let chromium = tools::chromium()?;
    println!("Chromium is {}", chromium.display());
    Ok(())
}

fn format(places: &Places) -> Result<(), Failure> {
    run(cargo().args(["fmt", "--all", "--check"]).current_dir(&places.root))?;
    run(cargo().args(["fmt", "--check"]).current_dir(places.root.join("fuzz")))
}

fn clippy(places: &Places) -> Result<(), Failure> {
    run(cargo()
        .args(["clippy", "--locked", "--all-targets"])
        .args(ALL)
        .args(["--", "-D", "warnings"])
        .current_dir(&places.root))
}

fn clippy_wasm(places: &Places) -> Result<(), Failure> {
    run(cargo()
        .args(["clippy", "--locked"])
        .args(modules::packages())
        .args(["--target", tools::WASM])
        .args(["--", "-D", "warnings"])
        .current_dir(&places.root))
}

fn unit(places: &Places) -> Result<(), Failure> {
    run(cargo().args(["test", "--locked"]).args(ALL).current_dir(&places.root))
}

fn doc(places: &Places) -> Result<(), Failure> {
    // Libraries only: the command's program bears the library's name, and both would be written
    // to one folder.
    run(cargo()
        .args(["doc", "--locked", "--no-deps", "--lib"])
        .args(ALL)
        .env("RUSTDOCFLAGS", "-D warnings")
        .current_dir(&places.root))
}

fn build_site(places: &Places) -> Result<(), Failure> {
    site::build(places).map(|site| println!("{}", site.display()))
}

fn types(places: &Places) -> Result<(), Failure> {
    // The modules' own types come with the page's build.
    site::build(places)?;
    run(Command::new(places.npm_bin("tsc")).args(["--project", "."]).current_dir(places.browser()))
}

fn module(places: &Places) -> Result<(), Failure> {
    let tests = MODULE_TESTS.iter().map(PathBuf::from).collect();
    node_tests(places, tests)
}

/// Builds the command and returns its file.
fn command(places: &Places) -> Result<PathBuf, Failure> {
    // With a test named beside it, cargo chooses the features as for the tests, and takes what they
    // have left instead of compiling all of it a second time.
    run(cargo()
        .args(["build", "--locked", "--bin", "jointwise", "--test", "exit_codes"])
        .args(ALL)
        .current_dir(&places.root))?;
    Ok(places.target.join("debug").join(format!("jointwise{}", env::consts::EXE_SUFFIX)))
}

fn dxf(places: &Places) -> Result<(), Failure> {
    let python = tools::readers(places)?;
    let out = places.target.join("dxf-drawings");
    files::remove(&out)?;
    // The largest takes as long to be planned as all others together.
    let scenarios = files::entries(&places.root.join("scenarios"))?
        .into_iter()
        .filter(|(name, _)| name.ends_with(".json") && name != "workbench.json")
        .map(|(_, path)| path);
    run(Command::new(command(places)?).arg("build").args(scenarios).arg("--out").arg(&out))?;
    run(Command::new(python).arg(places.root.join("tests").join("dxf").join("audit.py")).arg(&out))
}

fn mesh(places: &Places) -> Result<(), Failure> {
    let python = tools::readers(places)?;
    site::build(places)?;
    let out = places.target.join("models");
    files::remove(&out)?;
    let tests = places.root.join("tests").join("mesh");
    run(Command::new(tools::node()?)
        .arg(tests.join("models.mjs"))
        .arg(&out)
        .env("JOINTWISE_SITE", places.site()))?;
    run(Command::new(python).arg(tests.join("weigh.py")).arg(&out))
}

fn fuzzed(places: &Places) -> Result<(), Failure> {
    fuzz::fuzz(places, &[], fuzz::SECONDS)
}

fn browser(places: &Places) -> Result<(), Failure> {
    let folder = places.browser();
    let tests: Vec<PathBuf> = files::entries(&folder)?
        .into_iter()
        .filter(|(name, _)| name.ends_with(".test.mjs") && !MODULE_TESTS.contains(&name.as_str()))
        .map(|(name, _)| name.into())
        .collect();
    if tests.is_empty() {
        return Err(format!("no browser test in {}", folder.display()));
    }
    node_tests(places, tests)
}

/// Prints what the page weighs and how long it takes; `words` go on to the script.
pub fn measure(places: &Places, words: &[String]) -> Result<(), Failure> {
    tools::npm_packages(places)?;
    let site = site::build(places)?;
    run(Command::new(tools::node()?)
        .arg("measure.mjs")
        .args(words)
        .env("JOINTWISE_SITE", site)
        .env("CHROMIUM", tools::chromium()?)
        .current_dir(places.browser()))
}

/// Runs tests with node's own test runner, against the page as built now.
fn node_tests(places: &Places, tests: Vec<PathBuf>) -> Result<(), Failure> {
    tools::npm_packages(places)?;
    let site = site::build(places)?;
    // One at a time: each file starts its own browser, which draws on the processor.
    run(Command::new(tools::node()?)
        .args(["--test", "--test-concurrency=1", "--test-reporter=spec"])
        .args(tests)
        .env("JOINTWISE_SITE", site)
        .env("JOINTWISE", command(places)?)
        .env("CHROMIUM", tools::chromium()?)
        .current_dir(places.browser()))
}
