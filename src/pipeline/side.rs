//! The two sides of a comparison: a garment folder, the outputs of a build, or a revision in git.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

use super::documents::PAGES;
use super::make::{SUMMARY, Wanted, build};
use super::revision;
use crate::book::Account;
use crate::cache::Store;
use crate::compare::{Document, Side};
use crate::fault::Fault;
use crate::source::{GARMENT_FILE, Source};
use crate::write;

/// What stands in the way of a side.
pub enum NoSide {
    /// The words name nothing that can be compared.
    Words(String),
    /// The garment has faults.
    Faults(Box<Source>, Vec<Fault>),
}

/// One side, from what the maker named: a garment folder; a `build.json` or the output folder it lies in; or, as git writes it,
/// `REVISION:FOLDER`.
///
/// # Errors
/// Where it is none of these, or the garment has faults.
pub fn side(named: &str, wanted: &Wanted, store: &dyn Store, progress: &(dyn Fn(&str) + Sync)) -> Result<Side, NoSide> {
    let path = Path::new(named);
    if path.is_file() && path.file_name().is_some_and(|name| name != GARMENT_FILE) {
        return from_summary(path);
    }
    if path.join(SUMMARY).is_file() && !path.join(GARMENT_FILE).is_file() {
        return from_summary(&path.join(SUMMARY));
    }
    if path.exists() {
        return from_garment(path, wanted, store, progress);
    }
    if let Some((revision, folder)) = named.split_once(':') {
        let home =
            tempfile::tempdir().map_err(|error| NoSide::Words(format!("there is no room to work in: {error}")))?;
        let name = Path::new(folder.trim_end_matches('/')).file_name().map_or_else(|| "garment".into(), PathBuf::from);
        let garment = home.path().join(name);
        revision::extract(revision, folder, &garment).map_err(NoSide::Words)?;
        return from_garment(&garment, wanted, store, progress);
    }
    Err(NoSide::Words(format!(
        "`{named}` is not there; name a garment folder, the output folder of a build, its `{SUMMARY}`, or `REVISION:FOLDER`"
    )))
}

fn from_garment(
    path: &Path,
    wanted: &Wanted,
    store: &dyn Store,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Side, NoSide> {
    let (source, made) = build(path, wanted, store, progress);
    let find = |name: &str| made.outputs.iter().find(|output| output.path == name);
    let Some(summary) = find(SUMMARY) else { return Err(NoSide::Faults(Box::new(source), made.faults)) };
    let account = account(&summary.bytes).map_err(NoSide::Words)?;
    if wanted.papers.is_empty() {
        return Ok(Side { account, documents: None });
    }
    let pages = find(PAGES).map(|pages| pages_of(&pages.bytes)).unwrap_or_default();
    let documents = made.outputs.iter().filter(|output| is_document(&output.path)).map(|output| Document {
        path: output.path.clone(),
        sha256: Sha256::digest(&output.bytes).iter().map(|byte| format!("{byte:02x}")).collect(),
        pages: pages.get(&output.path).cloned(),
    });
    Ok(Side { account, documents: Some(documents.collect()) })
}

fn from_summary(path: &Path) -> Result<Side, NoSide> {
    let bytes = fs::read(path).map_err(|error| NoSide::Words(format!("cannot read `{}`: {error}", path.display())))?;
    let account = account(&bytes).map_err(|why| NoSide::Words(format!("`{}`: {why}", path.display())))?;
    let home = path.parent().unwrap_or(Path::new("."));
    let pages = fs::read(home.join(PAGES)).map(|bytes| pages_of(&bytes)).unwrap_or_default();
    // A summary taken out of its folder says nothing of documents.
    let documents = write::read(home).map(|manifest| {
        let files = manifest.files.into_iter().filter(|file| is_document(&file.path));
        files
            .map(|file| Document { pages: pages.get(&file.path).cloned(), path: file.path, sha256: file.sha256 })
            .collect()
    });
    Ok(Side { account, documents })
}

fn account(bytes: &[u8]) -> Result<Account, String> {
    serde_json::from_slice(bytes)
        .map_err(|error| format!("this is not the summary of a build, or one of another version of the tool ({error})"))
}

fn pages_of(bytes: &[u8]) -> BTreeMap<String, Vec<String>> {
    serde_json::from_slice(bytes).unwrap_or_default()
}

fn is_document(path: &str) -> bool {
    Path::new(path).extension().is_some_and(|ending| ending == "pdf")
}
