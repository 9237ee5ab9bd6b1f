//! The documents set in type.

use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::{IntoParallelIterator, ParallelIterator};

use super::make::Wanted;
use crate::book::Selection;
use crate::fault::{Code, Fault, Place};
use crate::set::view::Book;
use crate::set::{self, DocKind, Paper};
use crate::write::Output;

/// A document with its warnings, or the faults that stand in its way.
type Made = Result<(Output, Vec<Fault>), Vec<Fault>>;

/// Sets every document that is wanted.
pub(super) fn documents(
    editions: &[(Selection, Book)],
    wanted: &Wanted,
    progress: &(dyn Fn(&str) + Sync),
) -> (Vec<Output>, Vec<Fault>) {
    let jobs: Vec<(&Selection, &Book, DocKind, Paper)> = editions
        .iter()
        .filter(|(selection, _)| {
            selection.slug == "all"
                || wanted.sizes.is_empty()
                || selection.names.iter().any(|name| wanted.sizes.contains(name))
        })
        .flat_map(|(selection, book)| {
            let kinds: &[DocKind] = if selection.slug == "all" { &DocKind::ALL } else { &[DocKind::Booklet] };
            let each = |paper: Paper| kinds.iter().map(move |kind| (selection, book, *kind, paper));
            wanted.papers.iter().flat_map(|paper| each(*paper)).collect::<Vec<_>>()
        })
        .collect();
    let total = jobs.len();
    progress(&format!("setting {total} documents"));
    let done = AtomicUsize::new(0);
    let results: Vec<Made> = jobs
        .into_par_iter()
        .map(|(selection, book, kind, paper)| {
            let output = document(selection, book, kind, paper);
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            progress(&format!("set {done} of {total} documents"));
            output
        })
        .collect();
    set::forget(2);
    let mut outputs = Vec::new();
    let mut faults = Vec::new();
    for result in results {
        match result {
            Ok((output, warnings)) => {
                outputs.push(output);
                faults.extend(warnings);
            }
            Err(more) => faults.extend(more),
        }
    }
    (outputs, faults)
}

/// One document, and what an eye would stop at in it.
fn document(selection: &Selection, book: &Book, kind: DocKind, paper: Paper) -> Made {
    let document = set::compile(book, kind, paper)?;
    let path = format!("{}-{}-{}.pdf", kind.name(), selection.slug, paper.name());
    let warnings = document
        .lints
        .iter()
        .map(|lint| {
            Fault::warning(Code::Document, Place::Nowhere, format!("{path}, page {}: {}", lint.page, lint.message))
        })
        .collect();
    let about = format!("{}, {}", selection.words, paper.name());
    Ok((Output { path, about, bytes: document.pdf }, warnings))
}
