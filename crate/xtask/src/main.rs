//! Builds, serves and tests the project.
//!
//! `cargo xtask build` leaves a page that any static host can serve, `cargo xtask serve` shows it
//! on this machine, `cargo xtask test` runs every check, `cargo xtask fuzz` one of them for longer,
//! `cargo xtask measure` tells what the page costs. Each may be run again at any time and does only
//! what is missing or has changed.

mod files;
mod fingerprint;
mod fuzz;
mod listing;
mod modules;
mod offline;
mod places;
mod preload;
mod run;
mod serve;
mod site;
mod stages;
mod test;
mod tools;

use std::process::ExitCode;

use places::Places;

/// A sentence for the person at the terminal: what failed and, where known, the cure.
type Failure = String;

const USAGE: &str = "\
usage: cargo xtask <command>

  serve [--port N]   build the page and serve it on this machine (port 8137 unless told)
  build              build the page into target/site, ready for any static host
  test               run every check, stopping at the first that fails
       --only NAME   run this check alone; may be given several times
       --list        name the checks
  fuzz [NAME...]     try inputs that nobody wrote; a case that fails is kept and named
       --seconds N   how long each target is run (60 unless told)
  measure [--json]   print what the page weighs and how long planning takes
";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match dispatch(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("\n{failure}");
            ExitCode::FAILURE
        }
    }
}

fn dispatch(words: &[String]) -> Result<(), Failure> {
    let Some((command, rest)) = words.split_first() else {
        return Err(USAGE.to_owned());
    };
    let places = Places::find()?;
    match command.as_str() {
        "build" if rest.is_empty() => {
            let site = site::build(&places)?;
            println!("{}", site.display());
            Ok(())
        }
        "serve" => {
            let port = serve::port(rest)?;
            let site = site::build(&places)?;
            serve::serve(&site, port)
        }
        "test" => test::test(&places, rest),
        "fuzz" => {
            let (names, seconds) = fuzz::words(rest)?;
            fuzz::fuzz(&places, &names, seconds)
        }
        "measure" if rest.is_empty() || rest == ["--json"] => stages::measure(&places, rest),
        "help" | "--help" | "-h" => {
            print!("{USAGE}");
            Ok(())
        }
        _ => Err(format!("not understood: {}\n\n{USAGE}", words.join(" "))),
    }
}
