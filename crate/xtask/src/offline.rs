//! The list from which the page's service worker keeps the whole site on the device.

use std::path::Path;

use crate::fingerprint::Fingerprint;
use crate::site::PLANNED;
use crate::{Failure, files};

/// The worker, and the list it reads. Neither keeps itself: the browser looks after both.
const WORKER: &str = "sw.js";
const LIST: &str = "sw-files.js";

/// Writes the list of a built site: every file with a hash of what it holds, and a version that
/// changes when any of them does. A browser takes a worker for new when its list differs.
pub fn write_list(site: &Path) -> Result<(), Failure> {
    let names = files::all(site)?.into_iter().map(|(name, _)| name);
    let mut whole = Fingerprint::new();
    let mut rows = Vec::new();
    // Plans of examples are for a page that waits for its planner: one that is kept has it.
    let planned = format!("scenarios/{PLANNED}/");
    let kept = |name: &String| name != WORKER && name != LIST && !name.starts_with(&planned);
    for name in names.filter(kept) {
        let mut one = Fingerprint::new();
        one.path(site, &name)?;
        let hash = one.finish();
        whole.text(&hash);
        // Asked for by the folder's name: some hosts send `index.html` elsewhere, and a worker may
        // not answer with what was sent elsewhere.
        let name = if name == "index.html" { "./" } else { name.as_str() };
        rows.push(format!("    {name:?}: \"{hash}\",\n"));
    }
    let text = format!(
        "// Written by the build.\nself.SITE = {{\n  version: \"{}\",\n  files: {{\n{}  }},\n}};\n",
        whole.finish(),
        rows.concat()
    );
    files::write(&site.join(LIST), &text)
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    #[test]
    fn every_file_is_listed_but_the_worker_and_a_change_makes_a_version() {
        let site = std::env::temp_dir().join(format!("xtask-offline-{}", std::process::id()));
        fs::create_dir_all(site.join("pkg")).unwrap();
        for file in ["index.html", "sw.js", "pkg/x.wasm"] {
            fs::write(site.join(file), file).unwrap();
        }
        let written = || {
            write_list(&site).unwrap();
            fs::read_to_string(site.join(LIST)).unwrap()
        };
        let first = written();
        assert!(first.contains("    \"./\": \"") && first.contains("    \"pkg/x.wasm\": \""));
        assert!(!first.contains("sw.js\"") && !first.contains("index.html"));
        assert_eq!(first, written(), "the list does not list itself");
        fs::write(site.join("pkg/x.wasm"), "other").unwrap();
        let version = |text: &str| text.lines().nth(2).map(str::to_owned);
        assert_ne!(version(&first), version(&written()));
        fs::remove_dir_all(&site).unwrap();
    }
}
