//! The list of what a build wrote.

use std::fs;
use std::path::{Component, Path};

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// The manifest's file name.
pub const MANIFEST: &str = "manifest.json";

/// What a build wrote for one garment.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Manifest {
    /// The garment's title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// The files, by path.
    pub files: Vec<ManifestFile>,
}

/// One file of a manifest.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ManifestFile {
    /// Path below the garment's output folder, with `/`.
    pub path: String,
    /// What it is, in words.
    pub about: String,
    /// Size in bytes.
    pub bytes: u64,
    /// SHA-256 of the bytes, in hexadecimal.
    pub sha256: String,
}

/// SHA-256 in hexadecimal.
#[must_use]
pub(super) fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The manifest of an earlier build; one that cannot be read counts as none.
#[must_use]
pub fn read(folder: &Path) -> Option<Manifest> {
    let text = fs::read_to_string(folder.join(MANIFEST)).ok()?;
    let manifest: Manifest = serde_json::from_str(&text).ok()?;
    manifest.files.iter().all(|file| is_inner(&file.path)).then_some(manifest)
}

/// Whether a path stays below its folder.
#[must_use]
pub(super) fn is_inner(path: &str) -> bool {
    !path.is_empty() && Path::new(path).components().all(|part| matches!(part, Component::Normal(_)))
}
