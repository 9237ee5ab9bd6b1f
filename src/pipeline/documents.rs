//! The documents set in type.

use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::{IntoParallelIterator, ParallelIterator};

use super::make::{Part, Ready};
use crate::book::Selection;
use crate::cache::{Key, Store};
use crate::fault::{Code, Fault, Place};
use crate::set::view::Book;
use crate::set::{self, DocKind, Job, Lint, Paper};
use crate::write::Output;

/// A document with its warnings, or the faults that stand in its way.
type Document = Result<(Output, Vec<Fault>), Vec<Fault>>;

/// Sets every document that is wanted.
pub(super) fn documents(ready: &Ready<'_>) -> Part {
    let Ready { editions, wanted, store, progress, .. } = *ready;
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
    let results: Vec<Document> = jobs
        .into_par_iter()
        .map(|(selection, book, kind, paper)| {
            let output = document(selection, book, kind, paper, store);
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            progress(&format!("set {done} of {total} documents"));
            output
        })
        .collect();
    set::forget(2);
    let mut part = Part::default();
    for result in results {
        match result {
            Ok((output, warnings)) => {
                part.outputs.push(output);
                part.faults.extend(warnings);
            }
            Err(more) => part.faults.extend(more),
        }
    }
    part
}

/// One document, and what an eye would stop at in it.
fn document(selection: &Selection, book: &Book, kind: DocKind, paper: Paper, store: &dyn Store) -> Document {
    let job = Job::new(book, kind, paper)?;
    let key = job.inputs().fold(Key::of("document"), |key, (name, bytes)| key.bytes(name, bytes)).key();
    let (lints, bytes) = match store.get(&key).and_then(unpack) {
        Some(kept) => kept,
        None => {
            let document = job.typeset()?.finish()?;
            store.put(&key, &pack(&document.lints, &document.pdf));
            (document.lints, document.pdf)
        }
    };
    let path = format!("{}-{}-{}.pdf", kind.name(), selection.slug, paper.name());
    let warnings = lints
        .iter()
        .map(|lint| {
            Fault::warning(Code::Document, Place::Nowhere, format!("{path}, page {}: {}", lint.page, lint.message))
        })
        .collect();
    let about = format!("{}, {}", selection.words, paper.name());
    Ok((Output { path, about, bytes }, warnings))
}

/// A finished document as one entry: the lints in a line of JSON, then the PDF.
fn pack(lints: &[Lint], pdf: &[u8]) -> Vec<u8> {
    let mut bytes = serde_json::to_vec(lints).unwrap_or_default();
    bytes.push(b'\n');
    bytes.extend_from_slice(pdf);
    bytes
}

fn unpack(mut bytes: Vec<u8>) -> Option<(Vec<Lint>, Vec<u8>)> {
    let line = bytes.iter().position(|byte| *byte == b'\n')?;
    let lints = serde_json::from_slice(bytes.get(..line)?).ok()?;
    bytes.drain(..=line);
    Some((lints, bytes))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::set::LintKind;

    #[test]
    fn a_document_comes_back_as_it_was_kept() {
        let lints = vec![Lint { page: 2, kind: LintKind::Overlap, message: "two\nlines".to_string() }];
        assert_eq!(unpack(pack(&lints, b"%PDF\n\n")), Some((lints, b"%PDF\n\n".to_vec())));
        assert_eq!(unpack(b"%PDF".to_vec()), None);
    }
}
