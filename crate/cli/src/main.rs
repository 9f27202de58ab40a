//! The command `jointwise`: plans cabinets from scenario files.

mod arguments;
mod build;
mod compare_cuts;
mod files;
mod in_order;
mod jobs;
mod report;

use std::io::Write;
use std::process::ExitCode;

use arguments::{Command, HELP};

fn main() -> ExitCode {
    let (mut out, mut err) = (std::io::stdout().lock(), std::io::stderr().lock());
    let arguments = std::env::args_os().skip(1);
    let code = match arguments::parse(arguments) {
        Ok(Command::Help) => {
            // Whoever closed the pipe does not want the rest: nothing to do about it.
            let _ = out.write_all(HELP.as_bytes());
            build::DONE
        }
        Ok(Command::Version) => {
            let _ = writeln!(out, "jointwise {}", env!("CARGO_PKG_VERSION"));
            build::DONE
        }
        Ok(Command::Build { files, out: dir }) => {
            let threads = std::thread::available_parallelism().map_or(1, usize::from);
            build::run(&files, dir.as_deref(), threads, jointwise::build, &mut out, &mut err)
        }
        Ok(Command::CompareCuts { folder, budget, json }) => {
            compare_cuts::run(&folder, budget, json, &mut out, &mut err)
        }
        Err(message) => {
            let _ = writeln!(err, "{message}\n\n{HELP}");
            build::UNREADABLE
        }
    };
    ExitCode::from(code)
}
