//! Everything a build writes.

use std::path::Path;

use super::check::{Checked, check_with};
use super::documents::documents;
use super::find::slug;
use super::geometry::geometry;
use super::layouts::layouts;
use super::sheets::sheets;
use crate::book::{Account, Build, Selection};
use crate::cache::Store;
use crate::check::Garment;
use crate::fault::{Code, Fault, Place};
use crate::set::Paper;
use crate::set::view::Book;
use crate::sheet::Format;
use crate::source::Source;
use crate::write::Output;

/// The file that says everything a garment's documents are made from.
pub(super) const SUMMARY: &str = "build.json";

/// Which documents are wanted.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// The papers.
    pub papers: Vec<Paper>,
    /// The sizes of the single-size booklets; empty for all.
    pub sizes: Vec<String>,
    /// The formats of the pattern sheets; none for every one the garment asks for.
    pub sheets: Option<Vec<Format>>,
}

/// What a build made.
#[derive(Default)]
pub struct Made {
    /// The name of the garment's output folder.
    pub slug: String,
    /// The garment's title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// The files to write; none where there are faults.
    pub outputs: Vec<Output>,
    /// Faults and warnings.
    pub faults: Vec<Fault>,
}

/// What every kind of output may be made from.
#[derive(Clone, Copy)]
pub(super) struct Ready<'a> {
    /// The garment.
    pub(super) garment: &'a Garment,
    /// All its sizes, worked out.
    pub(super) build: &'a Build,
    /// Its editions, ready to be set.
    pub(super) editions: &'a [(Selection, Book)],
    /// What is wanted.
    pub(super) wanted: &'a Wanted,
    /// What was made before.
    pub(super) store: &'a dyn Store,
    /// Told what is being done.
    pub(super) progress: &'a (dyn Fn(&str) + Sync),
}

/// The files of one kind of output, and what was seen while making them.
#[derive(Default)]
pub(super) struct Part {
    /// The files.
    pub(super) outputs: Vec<Output>,
    /// Faults and warnings.
    pub(super) faults: Vec<Fault>,
}

/// Every kind of output: a function from what is ready to files.
const KINDS: [fn(&Ready<'_>) -> Part; 5] = [documents, summary, geometry, layouts, sheets];

/// Builds a garment: everything [`check`](super::check()) does, then every kind of output. What `store` holds is not made again;
/// `progress` is told what is being done.
#[must_use]
pub fn build(path: &Path, wanted: &Wanted, store: &dyn Store, progress: &(dyn Fn(&str) + Sync)) -> (Source, Made) {
    progress("reading and reckoning");
    let (source, checked) = check_with(path, store);
    let Checked { garment, build, editions, faults } = checked;
    let mut made = Made { slug: slug(&source.folder), faults, ..Made::default() };
    let (Some(garment), Some(build)) = (garment, build) else { return (source, made) };
    made.title.clone_from(&garment.shape.title);
    made.edition = garment.edition.to_string();
    made.faults.extend(wanted.sizes.iter().filter_map(|size| unknown_size(&garment, size)));
    if made.faults.iter().any(Fault::stops) {
        return (source, made);
    }
    let ready = Ready { garment: &garment, build: &build, editions: &editions, wanted, store, progress };
    for kind in KINDS {
        let Part { outputs, faults } = kind(&ready);
        made.outputs.extend(outputs);
        made.faults.extend(faults);
    }
    made.outputs.sort_by(|a, b| a.path.cmp(&b.path));
    if made.faults.iter().any(Fault::stops) {
        made.outputs.clear();
    }
    (source, made)
}

/// The fault of a size that is asked for but not in the table.
fn unknown_size(garment: &Garment, size: &str) -> Option<Fault> {
    let known: Vec<&str> = garment.sizes.iter().map(|size| size.name.as_str()).collect();
    if known.contains(&size) {
        return None;
    }
    let fault = Fault::new(Code::Sizes, Place::Nowhere, format!("there is no size `{size}`"));
    Some(fault.help(format!("sizes are {}", known.join(", "))))
}

/// Everything the documents are made from, for programs.
fn summary(ready: &Ready<'_>) -> Part {
    let Some((_, book)) = ready.editions.first() else { return Part::default() };
    let mut text = serde_json::to_string_pretty(&Account::of(ready.build, book)).unwrap_or_default();
    text.push('\n');
    let output = Output {
        path: SUMMARY.to_string(),
        about: format!("every number of {}", ready.garment.shape.title),
        bytes: text.into_bytes(),
    };
    Part { outputs: vec![output], faults: Vec::new() }
}
