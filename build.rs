//! Marks the program with a fingerprint of all it is made from, so that a cache never serves what an older program made.

use std::fs;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

/// Everything that can change what the program makes from the same garment.
const PARTS: [&str; 4] = ["src", "templates", "Cargo.lock", "Cargo.toml"];

fn main() {
    let mut files = Vec::new();
    for part in PARTS {
        println!("cargo::rerun-if-changed={part}");
        collect(Path::new(part), &mut files);
    }
    files.sort();
    let mut hash = Sha256::new();
    for path in files {
        let bytes = fs::read(&path).unwrap_or_default();
        hash.update(path.to_string_lossy().as_bytes());
        hash.update((bytes.len() as u64).to_le_bytes());
        hash.update(&bytes);
    }
    let mark: String = hash.finalize().iter().take(16).map(|byte| format!("{byte:02x}")).collect();
    println!("cargo::rustc-env=FURBELOW_MADE_FROM={mark}");
}

fn collect(path: &Path, files: &mut Vec<PathBuf>) {
    match fs::read_dir(path) {
        Ok(entries) => entries.filter_map(Result::ok).for_each(|entry| collect(&entry.path(), files)),
        Err(_) => files.push(path.to_path_buf()),
    }
}
