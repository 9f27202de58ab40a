//! What the command was asked to do.

use std::ffi::OsString;
use std::path::PathBuf;
use std::time::Duration;

/// What `--help` says.
pub const HELP: &str = "\
Plans the building of a cabinet from a scenario file.

Usage: jointwise build FILE|FOLDER... [--out DIR]
       jointwise compare-cuts FOLDER [--budget TIME] [--json]
       jointwise --help | --version

  FILE       a scenario: JSON with the gap, the contents, the build and the shop
  FOLDER     all of its files that end in .json, without those of folders in it
  --out DIR  write into DIR, made if missing: plan.json, parts.csv, steps.txt,
             ready.csv, numbers.txt, finished.svg, model.glb, a drawing of each
             part in DIR/parts and what the saw needs in DIR/cutting; with
             several files or a folder into DIR/NAME, NAME being the file's
             without its ending, and a page of all of them, DIR/index.html.
             Without it the scenario is only checked.

compare-cuts lays out every published instance of sheet cutting in FOLDER: files
NAME_items.csv and NAME_bins.csv, once with parts fixed and once free to turn,
without kerf, every cut from edge to edge in as many stages as it takes. Beside
the tables best-known-*.csv the gap to the best known is shown.

  --budget TIME  for each instance, such as 30ms, 200ms or 1s; without it 1s
  --json         an array of instance, mode, sheets, bound, area, ms in place of
                 the table; bound counts sheets where there is one size of them,
                 else it is their least area

Findings go to standard error, a summary to standard output.

Exit code: 0  planned; at most notes and cautions
           1  something to put right: a finding of weight stop or fix
           2  wrong use, or a file that cannot be read or written
";

/// One call of the command.
#[derive(Debug, PartialEq, Eq)]
pub enum Command {
    /// Say how it is used.
    Help,
    /// Say which version it is.
    Version,
    /// Plan the files.
    Build {
        /// At least one.
        files: Vec<PathBuf>,
        /// Where the plans go.
        out: Option<PathBuf>,
    },
    /// Lay out published instances of sheet cutting.
    CompareCuts {
        /// Where they are.
        folder: PathBuf,
        /// Time for each.
        budget: Duration,
        /// As JSON instead of a table.
        json: bool,
    },
}

/// Reads the arguments after the name of the command; the error says what is wrong with them.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, String> {
    let mut arguments = arguments.into_iter();
    let Some(first) = arguments.next() else {
        return Err("Nothing to do: give a command.".to_owned());
    };
    match first.to_str() {
        Some("--help" | "-h" | "help") => return Ok(Command::Help),
        Some("--version" | "-V") => return Ok(Command::Version),
        Some("build") => {}
        Some("compare-cuts") => return compare_cuts(arguments),
        _ => return Err(format!("Unknown command {}.", quoted(&first))),
    }
    let (mut files, mut out) = (Vec::new(), None);
    let mut options = true;
    while let Some(argument) = arguments.next() {
        let text = argument.to_str();
        match text {
            Some("--") if options => options = false,
            Some("--help" | "-h") if options => return Ok(Command::Help),
            Some("--out" | "-o") if options => {
                let dir = arguments.next().ok_or("--out needs a directory after it.")?;
                set_out(&mut out, dir.into())?;
            }
            Some(text) if options && text.starts_with("--out=") => {
                set_out(&mut out, text.trim_start_matches("--out=").into())?;
            }
            Some(text) if options && text.starts_with('-') => {
                return Err(format!("Unknown option {}.", quoted(&argument)));
            }
            _ => files.push(PathBuf::from(argument)),
        }
    }
    if files.is_empty() {
        return Err("build needs at least one scenario file.".to_owned());
    }
    Ok(Command::Build { files, out })
}

fn compare_cuts(mut arguments: impl Iterator<Item = OsString>) -> Result<Command, String> {
    let (mut folder, mut budget, mut json) = (None, None, false);
    while let Some(argument) = arguments.next() {
        match argument.to_str() {
            Some("--help" | "-h") => return Ok(Command::Help),
            Some("--json") => json = true,
            Some("--budget") => {
                let value =
                    arguments.next().ok_or("--budget needs a time after it, such as 200ms.")?;
                budget = Some(time(&value)?);
            }
            Some(text) if text.starts_with("--budget=") => {
                budget = Some(time(&text.trim_start_matches("--budget=").into())?);
            }
            Some(text) if text.starts_with('-') => {
                return Err(format!("Unknown option {}.", quoted(&argument)));
            }
            _ if folder.is_some() => return Err("compare-cuts takes one folder.".to_owned()),
            _ => folder = Some(PathBuf::from(argument)),
        }
    }
    let folder = folder.ok_or("compare-cuts needs a folder of instances.")?;
    Ok(Command::CompareCuts { folder, budget: budget.unwrap_or(Duration::from_secs(1)), json })
}

/// `30ms`, `1s`: from a millisecond to an hour.
fn time(value: &OsString) -> Result<Duration, String> {
    let text = value.to_str().unwrap_or_default();
    let (digits, unit) = match text.strip_suffix("ms") {
        Some(digits) => (digits, 1),
        None => (text.strip_suffix('s').unwrap_or_default(), 1000),
    };
    let ms = digits.parse::<u64>().ok().and_then(|n| n.checked_mul(unit));
    ms.filter(|ms| (1..=3_600_000).contains(ms)).map(Duration::from_millis).ok_or_else(|| {
        format!("--budget is {}, not a time from 1ms to 3600s, such as 200ms or 1s.", quoted(value))
    })
}

fn set_out(out: &mut Option<PathBuf>, dir: PathBuf) -> Result<(), String> {
    if dir.as_os_str().is_empty() {
        return Err("--out needs a directory after it.".to_owned());
    }
    if out.replace(dir).is_some() {
        return Err("--out may be given only once.".to_owned());
    }
    Ok(())
}

/// An argument as it can be shown, whatever bytes it holds.
fn quoted(argument: &OsString) -> String {
    format!("{:?}", argument.to_string_lossy())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &[&str]) -> Result<Command, String> {
        parse(words.iter().map(OsString::from))
    }

    #[test]
    fn files_and_directory_in_any_order() {
        let wanted = Ok(Command::Build {
            files: vec!["a.json".into(), "b.json".into()],
            out: Some("x".into()),
        });
        assert_eq!(read(&["build", "a.json", "b.json", "--out", "x"]), wanted);
        assert_eq!(read(&["build", "--out=x", "a.json", "b.json"]), wanted);
        assert_eq!(read(&["build", "a.json", "-o", "x", "b.json"]), wanted);
    }

    #[test]
    fn after_two_dashes_everything_is_a_file() {
        let wanted = Ok(Command::Build { files: vec!["--out".into()], out: None });
        assert_eq!(read(&["build", "--", "--out"]), wanted);
    }

    #[test]
    fn a_folder_of_instances_with_its_time() {
        let wanted = |ms, json| {
            Ok(Command::CompareCuts { folder: "x".into(), budget: Duration::from_millis(ms), json })
        };
        assert_eq!(read(&["compare-cuts", "x"]), wanted(1000, false));
        assert_eq!(read(&["compare-cuts", "--budget", "30ms", "x", "--json"]), wanted(30, true));
        assert_eq!(read(&["compare-cuts", "x", "--budget=2s"]), wanted(2000, false));
    }

    #[test]
    fn wrong_use_is_named() {
        for (words, wanted) in [
            (&[][..], "give a command"),
            (&["bild"], "\"bild\""),
            (&["build"], "at least one"),
            (&["build", "a", "--outt"], "\"--outt\""),
            (&["build", "a", "--out"], "directory"),
            (&["build", "a", "--out="], "directory"),
            (&["build", "a", "--out", "x", "--out", "y"], "only once"),
            (&["compare-cuts"], "folder"),
            (&["compare-cuts", "a", "b"], "one folder"),
            (&["compare-cuts", "a", "--budget"], "needs a time"),
            (&["compare-cuts", "a", "--budget", "soon"], "\"soon\""),
            (&["compare-cuts", "a", "--budget", "0ms"], "1ms"),
            (&["compare-cuts", "a", "--budget", "99999999999999999999s"], "3600s"),
            (&["compare-cuts", "a", "--jsn"], "\"--jsn\""),
        ] {
            let message = read(words).unwrap_err();
            assert!(message.contains(wanted), "{words:?}: {message}");
        }
    }
}
