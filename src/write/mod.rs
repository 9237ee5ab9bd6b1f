//! Writing: only what changed, each file whole or not at all, and a manifest.
//!
//! A garment owns one folder under the output folder. Every file is written beside its place under a
//! temporary name and then renamed; the manifest comes last. Files the last manifest names and this
//! build does not make are removed; files no manifest names are never touched. One build writes at a time.

mod folder;
mod lock;
mod manifest;
mod seen;

pub use folder::{Output, Written, whole, write};
pub use manifest::{MANIFEST, Manifest, ManifestFile, read};
pub use seen::Seen;
