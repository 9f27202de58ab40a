//! Tells whether anything changed since the last time, by content: the times on files change with
//! every checkout.

use std::path::Path;

use crate::{Failure, files};

/// A running hash: FNV-1a, 64 bits. It guards against stale work, not against an adversary.
#[derive(Debug)]
pub struct Fingerprint(u64);

impl Fingerprint {
    /// Of nothing yet.
    pub fn new() -> Fingerprint {
        Fingerprint(0xcbf2_9ce4_8422_2325)
    }

    /// Adds some text, such as a tool's version.
    pub fn text(&mut self, text: &str) {
        self.bytes(text.as_bytes());
    }

    /// Adds a file, or every file under a folder, with the names relative to `root`.
    /// A path that is not there adds its absence.
    pub fn path(&mut self, root: &Path, relative: &str) -> Result<(), Failure> {
        self.text(relative);
        for (name, file) in files::all(&root.join(relative))? {
            self.text(&name);
            self.bytes(&files::read(&file)?);
        }
        Ok(())
    }

    /// As it is written to a stamp.
    pub fn finish(&self) -> String {
        format!("{:016x}", self.0)
    }

    fn bytes(&mut self, bytes: &[u8]) {
        // The length goes first, so that "ab", "c" and "a", "bc" differ.
        for byte in (bytes.len() as u64).to_le_bytes().iter().chain(bytes) {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}

/// Whether the stamp says what it should.
pub fn is_current(stamp: &Path, fingerprint: &str) -> bool {
    files::read_text(stamp).is_ok_and(|text| text == fingerprint)
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    fn of(texts: &[&str]) -> String {
        let mut fingerprint = Fingerprint::new();
        for text in texts {
            fingerprint.text(text);
        }
        fingerprint.finish()
    }

    #[test]
    fn cuts_between_texts_count() {
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_eq!(of(&["ab", "c"]), of(&["ab", "c"]));
    }

    #[test]
    fn a_changed_byte_or_name_changes_it() {
        let root = std::env::temp_dir().join(format!("xtask-fingerprint-{}", std::process::id()));
        let folder = root.join("a");
        fs::create_dir_all(&folder).unwrap();
        let of_folder = || {
            let mut fingerprint = Fingerprint::new();
            fingerprint.path(&root, "a").unwrap();
            fingerprint.finish()
        };
        fs::write(folder.join("x"), "one").unwrap();
        let first = of_folder();
        assert_eq!(first, of_folder());
        fs::write(folder.join("x"), "two").unwrap();
        let second = of_folder();
        assert_ne!(first, second);
        fs::rename(folder.join("x"), folder.join("y")).unwrap();
        assert_ne!(second, of_folder());
        fs::remove_dir_all(&root).unwrap();
    }
}
