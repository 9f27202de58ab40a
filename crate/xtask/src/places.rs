//! Where things lie, whatever folder the command is called from.

use std::env;
use std::path::{Path, PathBuf};

use crate::Failure;

/// The folders that the tasks read and write; all absolute.
#[derive(Debug)]
pub struct Places {
    /// The workspace.
    pub root: PathBuf,
    /// Cargo's target folder.
    pub target: PathBuf,
}

impl Places {
    /// The workspace is two folders above this crate. Cargo's word at run time goes before the one
    /// at compile time, because a shared target folder may hold a binary built in another clone.
    pub fn find() -> Result<Places, Failure> {
        let manifest = env::var_os("CARGO_MANIFEST_DIR")
            .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
        let root = manifest
            .ancestors()
            .nth(2)
            .map(Path::to_path_buf)
            .ok_or_else(|| format!("no workspace above {}", manifest.display()))?;
        let target = ["CARGO_TARGET_DIR", "CARGO_BUILD_TARGET_DIR"]
            .iter()
            .find_map(env::var_os)
            .map_or_else(|| root.join("target"), PathBuf::from);
        let target = std::path::absolute(&target)
            .map_err(|error| format!("{}: {error}", target.display()))?;
        Ok(Places { root, target })
    }

    /// The page, ready for any static host.
    pub fn site(&self) -> PathBuf {
        self.target.join("site")
    }

    /// Where the page's modules are made.
    pub fn workshop(&self) -> PathBuf {
        self.target.join("page-modules")
    }

    /// The browser tests, and the tools of the page that come from npm.
    pub fn browser(&self) -> PathBuf {
        self.root.join("tests").join("browser")
    }

    /// A program that npm installed, by its name.
    pub fn npm_bin(&self, name: &str) -> PathBuf {
        self.browser().join("node_modules").join(".bin").join(name)
    }
}
