//! Runs the fuzz targets: inputs that nobody wrote, found by what code they reach.
//!
//! They are in the layout that `cargo fuzz` knows, but it is not needed, nor is a nightly compiler: the counters that
//! the fuzzer goes by are put in by a pass of the compiler's own, and without a sanitizer's run time, which code without
//! unsafe blocks has little use for, nothing here is unstable.

use std::env;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;

use crate::places::Places;
use crate::run::{cargo, read, run};
use crate::{Failure, files, tools};

/// Seconds that the check gives each target.
pub const SECONDS: u32 = 60;

/// Counters for every edge and the operands of every comparison. A build script must have none: hence `--target`.
const FLAGS: &str = "--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
     -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
     -Cllvm-args=-sanitizer-coverage-trace-compares";

/// One case may take as long as this, in seconds, and so much memory, in MiB; the longest input, in bytes, is a whole
/// scenario.
const LIMITS: [&str; 3] = ["-timeout=30", "-rss_limit_mb=1024", "-max_len=4096"];

/// Runs the targets named, or all, from the kept corpus and the same seed, each for so many seconds: as many at a time as
/// there are processors, two at most.
pub fn fuzz(places: &Places, names: &[String], seconds: u32) -> Result<(), Failure> {
    let all = targets(places)?;
    if let Some(unknown) = names.iter().find(|name| !all.contains(name)) {
        return Err(format!("no fuzz target is named {unknown}; there are: {}", all.join(", ")));
    }
    let chosen: Vec<String> =
        all.into_iter().filter(|name| names.is_empty() || names.contains(name)).collect();
    let programs = build(places)?;
    let at_once = thread::available_parallelism().map_or(1, usize::from).min(2);
    for some in chosen.chunks(at_once) {
        let running: Vec<Running> = some
            .iter()
            .map(|name| Running::start(places, &programs, name, seconds))
            .collect::<Result<_, _>>()?;
        // All are waited for before one is told: none is left running.
        let ended: Vec<Result<String, Failure>> = running.into_iter().map(Running::end).collect();
        for said in ended {
            println!("{}", said?);
        }
    }
    Ok(())
}

/// The words of `cargo xtask fuzz`: names, and `--seconds N`.
pub fn words(words: &[String]) -> Result<(Vec<String>, u32), Failure> {
    let mut names = Vec::new();
    let mut seconds = SECONDS;
    let mut words = words.iter();
    while let Some(word) = words.next() {
        if word == "--seconds" {
            let number = words.next().and_then(|n| n.parse().ok()).filter(|n| *n > 0);
            seconds = number.ok_or("--seconds takes a whole number")?;
        } else {
            names.push(word.clone());
        }
    }
    Ok((names, seconds))
}

/// Each has a folder in the corpus.
fn targets(places: &Places) -> Result<Vec<String>, Failure> {
    let folders = files::entries(&places.root.join("fuzz").join("corpus"))?;
    Ok(folders.into_iter().map(|(name, _)| name).collect())
}

/// Compiles all of them; returns the folder of the programs.
fn build(places: &Places) -> Result<PathBuf, Failure> {
    tools::cpp_compiler()?;
    let host = read(Command::new("rustc").args(["--print", "host-tuple"]))
        .ok_or("rustc does not say what machine this is")?;
    let target = places.target.join("fuzz");
    run(cargo()
        .args(["build", "--locked", "--release", "--bins", "--target", &host])
        .arg("--manifest-path")
        .arg(places.root.join("fuzz").join("Cargo.toml"))
        .arg("--target-dir")
        .arg(&target)
        .env("RUSTFLAGS", FLAGS))?;
    Ok(target.join(host).join("release"))
}

/// A target that is being run.
struct Running {
    name: String,
    child: Child,
    log: PathBuf,
}

impl Running {
    fn start(
        places: &Places,
        programs: &Path,
        name: &str,
        seconds: u32,
    ) -> Result<Running, Failure> {
        // What is found goes beside the build, never into the kept corpus.
        let found = places.target.join("fuzz").join("found").join(name);
        files::remove(&found)?;
        fs::create_dir_all(&found).map_err(|error| files::said(&found, &error))?;
        let log = found.with_extension("log");
        let out = File::create(&log).map_err(|error| files::said(&log, &error))?;
        let err = out.try_clone().map_err(|error| files::said(&log, &error))?;
        let mut prefix = found.with_extension("").into_os_string();
        prefix.push("-");
        let mut artifact = std::ffi::OsString::from("-artifact_prefix=");
        artifact.push(prefix);
        let child = Command::new(programs.join(format!("{name}{}", env::consts::EXE_SUFFIX)))
            .args(LIMITS)
            .args(["-seed=1", &format!("-max_total_time={seconds}"), "-print_final_stats=1"])
            .arg(artifact)
            .arg(&found)
            .arg(places.root.join("fuzz").join("corpus").join(name))
            .stdin(Stdio::null())
            .stdout(out)
            .stderr(err)
            .spawn()
            .map_err(|error| format!("could not start the fuzz target {name}: {error}"))?;
        Ok(Running { name: name.to_owned(), child, log })
    }

    /// What it did, in a line; a failure with the end of what it said, and the file of the case.
    fn end(mut self) -> Result<String, Failure> {
        let status = self.child.wait();
        let log = String::from_utf8_lossy(&files::read(&self.log)?).into_owned();
        if status.is_ok_and(|status| status.success()) {
            return Ok(format!("{:12} {}", self.name, summary(&log)));
        }
        let case = log.lines().find_map(|line| line.split_once("Test unit written to "));
        let case = case.map_or("no case was written", |(_, file)| file);
        let said = log.lines().position(|line| line.contains("panicked at"));
        let said: Vec<&str> = match said {
            Some(at) => log.lines().skip(at).take(8).collect(),
            None => log.lines().rev().take(8).collect::<Vec<_>>().into_iter().rev().collect(),
        };
        Err(format!(
            "{}: {case}\n{}\nall it said: {}",
            self.name,
            said.join("\n"),
            self.log.display()
        ))
    }
}

/// How many cases were run, how many edges they reached of how many, and how long the slowest took.
fn summary(log: &str) -> String {
    let stat = |name: &str| {
        log.lines()
            .find_map(|l| l.strip_prefix(name))
            .map_or("?", |n| n.trim_start_matches([':', ' ']))
    };
    let reached = log.lines().rev().find_map(|l| l.split_once(" cov: ")?.1.split(' ').next());
    let edges = log.lines().find_map(|l| l.split_once("PC tables (")?.1.split(' ').next());
    format!(
        "{} cases, {} of {} edges reached, slowest {} s, {} MiB",
        stat("stat::number_of_executed_units"),
        reached.unwrap_or("?"),
        edges.unwrap_or("?"),
        stat("stat::slowest_unit_time_sec"),
        stat("stat::peak_rss_mb"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seconds_are_told_from_names() {
        let said = |list: &[&str]| words(&list.iter().map(|w| (*w).to_owned()).collect::<Vec<_>>());
        assert_eq!(said(&[]), Ok((Vec::new(), SECONDS)));
        assert_eq!(said(&["link", "--seconds", "900"]), Ok((vec!["link".to_owned()], 900)));
        assert!(said(&["--seconds"]).is_err() && said(&["--seconds", "0"]).is_err());
    }

    #[test]
    fn the_log_is_put_into_a_line() {
        let log = "INFO: Loaded 1 PC tables (75466 PCs): 75466 [0x1,0x2), \n\
                   #2\tINITED cov: 12 ft: 15 corp: 1/1b\n\
                   #9000\tDONE   cov: 3456 ft: 15 corp: 1/1b\n\
                   stat::number_of_executed_units: 9000\n\
                   stat::slowest_unit_time_sec:    1\nstat::peak_rss_mb:              44\n";
        let line = "9000 cases, 3456 of 75466 edges reached, slowest 1 s, 44 MiB";
        assert_eq!(summary(log), line);
    }
}
