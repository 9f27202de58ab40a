//! Files and folders: listed, read, written and taken away, each failure naming the path.

use std::fs;
use std::path::{Path, PathBuf};

use crate::Failure;

/// What a folder holds, by name; hidden files left out, and nothing when it is not there.
pub fn entries(folder: &Path) -> Result<Vec<(String, PathBuf)>, Failure> {
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(|error| said(folder, &error))? {
        let entry = entry.map_err(|error| said(folder, &error))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if !name.starts_with('.') {
            found.push((name, entry.path()));
        }
    }
    found.sort();
    Ok(found)
}

/// Every file under a path, by its name from there, with `/` between; a file has the name "".
pub fn all(path: &Path) -> Result<Vec<(String, PathBuf)>, Failure> {
    if path.is_file() {
        return Ok(vec![(String::new(), path.to_path_buf())]);
    }
    let mut found = Vec::new();
    for (name, path) in entries(path)? {
        for (below, path) in all(&path)? {
            let slash = if below.is_empty() { "" } else { "/" };
            found.push((format!("{name}{slash}{below}"), path));
        }
    }
    found.sort();
    Ok(found)
}

/// Takes a folder away, if it is there.
pub fn remove(folder: &Path) -> Result<(), Failure> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(said(folder, &error)),
        _ => Ok(()),
    }
}

/// The bytes of a file.
pub fn read(file: &Path) -> Result<Vec<u8>, Failure> {
    fs::read(file).map_err(|error| said(file, &error))
}

/// The text of a file.
pub fn read_text(file: &Path) -> Result<String, Failure> {
    fs::read_to_string(file).map_err(|error| said(file, &error))
}

/// Writes a file.
pub fn write(file: &Path, text: &str) -> Result<(), Failure> {
    fs::write(file, text).map_err(|error| said(file, &error))
}

/// A failure of the file system, with the path it happened at.
pub fn said(path: &Path, error: &std::io::Error) -> Failure {
    format!("{}: {error}", path.display())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_named_from_the_folder_and_hidden_ones_left_out() {
        let root = std::env::temp_dir().join(format!("xtask-files-{}", std::process::id()));
        fs::create_dir_all(root.join("b")).unwrap();
        for file in ["z", "b/a", ".hidden"] {
            write(&root.join(file), file).unwrap();
        }
        let names = |found: Vec<(String, PathBuf)>| -> Vec<String> {
            found.into_iter().map(|(name, _)| name).collect()
        };
        assert_eq!(names(all(&root).unwrap()), ["b/a", "z"]);
        assert_eq!(names(entries(&root).unwrap()), ["b", "z"]);
        assert_eq!(names(all(&root.join("z")).unwrap()), [""]);
        assert_eq!(read_text(&root.join("b/a")).unwrap(), "b/a");
        remove(&root).unwrap();
        assert!(names(all(&root).unwrap()).is_empty());
    }

    #[test]
    fn removing_what_is_not_there_is_done_already() {
        assert_eq!(remove(Path::new("/no/such/folder/here")), Ok(()));
    }
}
