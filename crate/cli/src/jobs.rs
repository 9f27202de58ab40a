//! Which files are planned, and where each plan goes.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

use crate::report::{self, shown};

/// One scenario file.
#[derive(Debug, PartialEq, Eq)]
pub struct Job {
    /// Its path.
    pub file: PathBuf,
    /// Where its plan goes; nowhere when it is only checked.
    pub dir: Option<PathBuf>,
    /// Its name without the ending, which is that of its folder below the others.
    pub name: OsString,
}

/// All that there is to do.
#[derive(Debug, PartialEq, Eq)]
pub struct Jobs {
    /// In the order given; the files of a folder by their names.
    pub all: Vec<Job>,
    /// Where the page of all builds goes, when there are several.
    pub index: Option<PathBuf>,
}

/// Folders become the scenario files in them. One file goes into the directory itself, several go into one below it
/// each, named after the file. Two files of one name would write over each other.
pub fn jobs(given: &[PathBuf], out_dir: Option<&Path>) -> Result<Jobs, String> {
    let mut files = Vec::new();
    for path in given {
        if path.is_dir() { files.extend(scenarios(path)?) } else { files.push(path.clone()) }
    }
    let several = given.len() > 1 || given.iter().any(|path| path.is_dir());
    let index = out_dir.filter(|_| several).map(Path::to_owned);
    let mut names = BTreeSet::new();
    let mut all = Vec::new();
    for file in files {
        let Some(name) = file.file_stem().map(OsString::from) else {
            return Err(format!("{} is not a file.", shown(&file)));
        };
        // Some file systems take a.json and A.JSON for one.
        if index.is_some() && !names.insert(name.to_string_lossy().to_lowercase()) {
            let name = report::plain(&name.to_string_lossy());
            return Err(format!(
                "Two scenarios are named {name}: their plans would write over each other. \
                 Rename one, or plan them one at a time."
            ));
        }
        let dir = out_dir.map(|dir| if several { dir.join(&name) } else { dir.to_owned() });
        all.push(Job { file, dir, name });
    }
    Ok(Jobs { all, index })
}

/// The scenario files of a folder, without those of folders in it, by their names.
fn scenarios(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let failed = |e: std::io::Error| format!("{} cannot be read: {e}.", shown(folder));
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        let is_json = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("json"));
        if is_json && path.is_file() {
            files.push(path);
        }
    }
    files.sort();
    if files.is_empty() {
        return Err(format!(
            "There is no scenario file in {}: none whose name ends in .json.",
            shown(folder)
        ));
    }
    Ok(files)
}
