//! Whether files are still those that were written, without reading them.

use std::fs;
use std::path::Path;
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use super::manifest::is_inner;

/// A file as the file system described it when its bytes were known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    /// Path below the garment's output folder, with `/`.
    pub path: String,
    /// Size, time of the last change of the bytes and of the entry (nanoseconds), number of the file. Only ever compared for
    /// being the same, so a clock that is wrong does no harm.
    state: (u64, u128, i128, u64),
}

impl Seen {
    /// How a file is now, if it is there and a plain file.
    pub(super) fn now(folder: &Path, path: &str) -> Option<Seen> {
        let data = fs::symlink_metadata(folder.join(path)).ok().filter(fs::Metadata::is_file)?;
        let modified = data.modified().ok()?.duration_since(UNIX_EPOCH).map_or(0, |time| time.as_nanos());
        let (changed, number) = inner(&data);
        Some(Seen { path: path.to_string(), state: (data.len(), modified, changed, number) })
    }

    /// Whether the file is as it was.
    #[must_use]
    pub fn still(&self, folder: &Path) -> bool {
        is_inner(&self.path) && Seen::now(folder, &self.path).as_ref() == Some(self)
    }
}

#[cfg(unix)]
fn inner(data: &fs::Metadata) -> (i128, u64) {
    use std::os::unix::fs::MetadataExt;
    (i128::from(data.ctime()) * 1_000_000_000 + i128::from(data.ctime_nsec()), data.ino())
}

#[cfg(not(unix))]
fn inner(_: &fs::Metadata) -> (i128, u64) {
    (0, 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_was_touched_is_not_trusted() {
        let home = tempfile::tempdir().unwrap();
        let path = home.path().join("a.pdf");
        fs::write(&path, "one").unwrap();
        let seen = Seen::now(home.path(), "a.pdf").unwrap();
        assert!(seen.still(home.path()));
        let stamp = fs::metadata(&path).unwrap().modified().unwrap();
        fs::write(home.path().join("other"), "two").unwrap();
        fs::rename(home.path().join("other"), &path).unwrap();
        // The same size and the same time of change, but another file.
        fs::File::options().append(true).open(&path).unwrap().set_modified(stamp).unwrap();
        assert_eq!(seen.still(home.path()), cfg!(not(unix)));
        fs::remove_file(&path).unwrap();
        assert!(!seen.still(home.path()));
    }
}
