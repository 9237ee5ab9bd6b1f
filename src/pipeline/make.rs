//! Everything a build writes.

use std::path::Path;

use super::check::{Checked, check};
use super::documents::documents;
use super::find::slug;
use super::geometry::geometry;
use crate::book::Build;
use crate::check::Garment;
use crate::fault::{Code, Fault, Place};
use crate::set::Paper;
use crate::source::Source;
use crate::write::Output;

/// Which documents are wanted.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// The papers.
    pub papers: Vec<Paper>,
    /// The sizes of the single-size booklets; empty for all.
    pub sizes: Vec<String>,
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

/// Builds a garment: everything [`check`] does, then the documents. `progress` is told what is being done.
#[must_use]
pub fn build(path: &Path, wanted: &Wanted, progress: &(dyn Fn(&str) + Sync)) -> (Source, Made) {
    progress("reading and reckoning");
    let (source, checked) = check(path);
    let Checked { garment, build, editions, faults } = checked;
    let mut made = Made { slug: slug(&source.folder), faults, ..Made::default() };
    let (Some(garment), Some(build)) = (garment, build) else { return (source, made) };
    made.title.clone_from(&garment.shape.title);
    made.edition = garment.edition.to_string();
    made.faults.extend(wanted.sizes.iter().filter_map(|size| unknown_size(&garment, size)));
    if made.faults.iter().any(Fault::stops) {
        return (source, made);
    }
    let (outputs, faults) = documents(&editions, wanted, progress);
    made.outputs = outputs;
    made.faults.extend(faults);
    made.outputs.push(summary(&garment, &build));
    made.outputs.extend(geometry(&build));
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
fn summary(garment: &Garment, build: &Build) -> Output {
    let mut text = serde_json::to_string_pretty(build).unwrap_or_default();
    text.push('\n');
    Output {
        path: "build.json".to_string(),
        about: format!("every number of {}", garment.shape.title),
        bytes: text.into_bytes(),
    }
}
