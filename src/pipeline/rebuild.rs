//! Building into the output folder, and looking first whether anything changed.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::find::slug;
use super::make::{Made, Wanted, build};
use crate::cache::{Key, Store};
use crate::fault::Fault;
use crate::source::{self, Source};
use crate::write::{MANIFEST, Seen, Written, write};

/// What building a garment into its output folder did.
#[derive(Debug, Default)]
pub struct Rebuilt {
    /// The garment's output folder.
    pub home: PathBuf,
    /// Faults and warnings. With a fault nothing was written, or not all of it.
    pub faults: Vec<Fault>,
    /// Whether faults of the garment kept everything from being written.
    pub stopped: bool,
    /// What was written.
    pub written: Written,
}

/// What the last build from the same texts into the same folder left: enough to see that nothing is to be done.
#[derive(Debug, Serialize, Deserialize)]
struct Stamp {
    faults: Vec<Fault>,
    seen: Vec<Seen>,
}

/// Builds a garment into its folder below `out`. Where neither its texts nor its outputs changed since the last time, that is
/// all that is found out. `progress` is told what is being done.
#[must_use]
pub fn rebuild(
    path: &Path,
    wanted: &Wanted,
    out: &Path,
    store: &dyn Store,
    progress: &(dyn Fn(&str) + Sync),
) -> (Source, Rebuilt) {
    let (before, _) = source::read(path);
    let home = out.join(slug(&before.folder));
    let stamp: Option<Stamp> =
        store.get(&key(&before, wanted, &home)).and_then(|bytes| serde_json::from_slice(&bytes).ok());
    if let Some(Stamp { faults, seen }) = stamp
        && seen.iter().all(|file| file.still(&home))
    {
        let unchanged = seen.into_iter().map(|file| file.path).filter(|path| path != MANIFEST).collect();
        let written = Written { unchanged, ..Written::default() };
        return (before, Rebuilt { home, faults, stopped: false, written });
    }
    let (source, made) = build(path, wanted, store, progress);
    let Made { title, edition, outputs, mut faults, .. } = made;
    if faults.iter().any(Fault::stops) {
        faults.sort_by_key(|fault| !fault.stops());
        return (source, Rebuilt { home, faults, stopped: true, written: Written::default() });
    }
    progress("writing");
    let mut rebuilt = Rebuilt { home, ..Rebuilt::default() };
    match write(&rebuilt.home, &title, &edition, &outputs) {
        Ok(written) => {
            // A file saved while the build ran belongs to the next build.
            if source.texts() == before.texts() {
                let stamp = Stamp { faults: faults.clone(), seen: written.seen.clone() };
                if let Ok(bytes) = serde_json::to_vec(&stamp) {
                    store.put(&key(&source, wanted, &rebuilt.home), &bytes);
                }
            }
            rebuilt.written = written;
        }
        Err(fault) => faults.push(fault),
    }
    rebuilt.faults = faults;
    (source, rebuilt)
}

/// Everything the outputs in a folder depend on. The folder counts by its real place, once it is there.
fn key(source: &Source, wanted: &Wanted, home: &Path) -> Key {
    let real = home.canonicalize().unwrap_or_else(|_| home.to_path_buf());
    let mut key = Key::of("stamp").bytes("home", real.as_os_str().as_encoded_bytes());
    key = key.bytes("folder", source.folder.as_os_str().as_encoded_bytes());
    for paper in &wanted.papers {
        key = key.bytes("paper", paper.name().as_bytes());
    }
    for format in wanted.sheets.iter().flatten() {
        key = key.bytes("sheets", format.name().as_bytes());
    }
    key = key.bytes("all sheets", &[u8::from(wanted.sheets.is_none())]);
    for size in &wanted.sizes {
        key = key.bytes("size", size.as_bytes());
    }
    for (path, text) in source.texts() {
        key = key.bytes("path", path.as_bytes()).bytes("text", text.as_bytes());
    }
    key.key()
}
