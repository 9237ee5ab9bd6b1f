//! Which garments are meant.

use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use crate::source::GARMENT_FILE;

/// How deep below a named folder garments are looked for.
const SEARCH_DEPTH: usize = 4;

/// The garment folders at or below the paths named, in the order named and then by name.
///
/// # Errors
/// In words, where a path is not there or holds no garment.
pub fn find(paths: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut folders = Vec::new();
    for path in paths {
        if path.is_file() || path.join(GARMENT_FILE).is_file() || !path.exists() {
            folders.push(path.clone());
            continue;
        }
        let below: Vec<PathBuf> = WalkDir::new(path)
            .max_depth(SEARCH_DEPTH)
            .sort_by_file_name()
            .into_iter()
            .filter_map(Result::ok)
            .filter(|entry| entry.file_type().is_file() && entry.file_name() == GARMENT_FILE)
            .filter_map(|entry| entry.path().parent().map(Path::to_path_buf))
            .collect();
        if below.is_empty() {
            return Err(format!("there is no `{GARMENT_FILE}` in `{}` or below it", path.display()));
        }
        folders.extend(below);
    }
    Ok(folders)
}

/// The folder's own name, in the letters a file name has everywhere.
pub(super) fn slug(folder: &Path) -> String {
    let real = folder.canonicalize().unwrap_or_else(|_| folder.to_path_buf());
    let name = real.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
    let slug: String = name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let slug = slug.trim_matches('-').to_string();
    if slug.is_empty() { "garment".to_string() } else { slug }
}
