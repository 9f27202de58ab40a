//! Starts other programs.

use std::env;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use crate::Failure;

/// Runs a command, its output straight to the terminal.
pub fn run(command: &mut Command) -> Result<(), Failure> {
    let status = command
        .stdin(Stdio::null())
        .status()
        .map_err(|error| format!("could not start `{}`: {error}", shown(command)))?;
    if status.success() { Ok(()) } else { Err(format!("failed ({status}): {}", shown(command))) }
}

/// What a command prints, without its last line end; `None` when it is missing or fails.
pub fn read(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    if !output.status.success() {
        return None;
    }
    String::from_utf8(output.stdout).ok().map(|text| text.trim_end().to_owned())
}

/// Where a program lies on the search path.
pub fn which(program: &str) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    env::split_paths(&path)
        .map(|folder| folder.join(format!("{program}{}", env::consts::EXE_SUFFIX)))
        .find(|file| file.is_file())
}

/// The cargo that started this program, so that a chosen toolchain stays chosen.
pub fn cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// A command as one would type it.
fn shown(command: &Command) -> String {
    std::iter::once(command.get_program())
        .chain(command.get_args())
        .map(|word| word.to_string_lossy())
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(unix)]
    fn a_failing_command_is_named_with_its_words() {
        let failure = run(Command::new("false").args(["--with", "words"])).unwrap_err();
        assert!(failure.contains("false --with words"), "{failure}");
    }

    #[test]
    fn a_missing_program_is_a_failure_and_reads_nothing() {
        assert!(run(&mut Command::new("no-such-program-here")).is_err());
        assert_eq!(read(&mut Command::new("no-such-program-here")), None);
        assert_eq!(which("no-such-program-here"), None);
    }

    #[test]
    fn reading_drops_the_last_line_end() {
        let version = read(cargo().arg("--version")).unwrap();
        assert!(version.starts_with("cargo ") && !version.ends_with('\n'));
    }
}
