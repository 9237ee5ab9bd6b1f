//! The documents set in type.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use serde::{Deserialize, Serialize};

use super::make::{Part, Ready};
use crate::book::Selection;
use crate::cache::{Key, Store};
use crate::fault::{Code, Fault, Place};
use crate::set::view::Book;
use crate::set::{self, DocKind, Job, Lint, Paper};
use crate::write::Output;

/// The file that says what each page shows.
pub(super) const PAGES: &str = "pages.json";

/// A document with what is known of it, or the faults that stand in its way.
type Document = Result<(Output, Kept), Vec<Fault>>;

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
    let mut pages: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for result in results {
        match result {
            Ok((output, kept)) => {
                part.faults.extend(kept.lints.iter().map(|lint| warning(&output.path, lint)));
                pages.insert(output.path.clone(), kept.digests);
                part.outputs.push(output);
            }
            Err(more) => part.faults.extend(more),
        }
    }
    let text = serde_json::to_string_pretty(&pages).unwrap_or_default() + "\n";
    let about = "what each page of each document shows, as digests, for comparing editions".to_string();
    part.outputs.push(Output { path: PAGES.to_string(), about, bytes: text.into_bytes() });
    part
}

fn warning(path: &str, lint: &Lint) -> Fault {
    Fault::warning(Code::Document, Place::Nowhere, format!("{path}, page {}: {}", lint.page, lint.message))
}

/// One document, and what an eye would stop at in it.
fn document(selection: &Selection, book: &Book, kind: DocKind, paper: Paper, store: &dyn Store) -> Document {
    let job = Job::new(book, kind, paper)?;
    let key = job.inputs().fold(Key::of("document"), |key, (name, bytes)| key.bytes(name, bytes)).key();
    let (kept, bytes) = match store.get(&key).and_then(unpack) {
        Some(kept) => kept,
        None => {
            let document = job.typeset()?.finish()?;
            let kept = Kept { lints: document.lints, digests: document.digests };
            store.put(&key, &pack(&kept, &document.pdf));
            (kept, document.pdf)
        }
    };
    let path = format!("{}-{}-{}.pdf", kind.name(), selection.slug, paper.name());
    let about = format!("{}, {}", selection.words, paper.name());
    Ok((Output { path, about, bytes }, kept))
}

/// What is kept of a document besides its bytes.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Kept {
    lints: Vec<Lint>,
    digests: Vec<String>,
}

/// A finished document as one entry: what is known of it in a line of JSON, then the PDF.
fn pack(kept: &Kept, pdf: &[u8]) -> Vec<u8> {
    let mut bytes = serde_json::to_vec(kept).unwrap_or_default();
    bytes.push(b'\n');
    bytes.extend_from_slice(pdf);
    bytes
}

fn unpack(mut bytes: Vec<u8>) -> Option<(Kept, Vec<u8>)> {
    let line = bytes.iter().position(|byte| *byte == b'\n')?;
    let kept = serde_json::from_slice(bytes.get(..line)?).ok()?;
    bytes.drain(..=line);
    Some((kept, bytes))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::set::LintKind;

    #[test]
    fn a_document_comes_back_as_it_was_kept() {
        let lints = vec![Lint { page: 2, kind: LintKind::Overlap, message: "two\nlines".to_string() }];
        let kept = Kept { lints, digests: vec!["aa".to_string()] };
        assert_eq!(unpack(pack(&kept, b"%PDF\n\n")), Some((kept, b"%PDF\n\n".to_vec())));
        assert_eq!(unpack(b"%PDF".to_vec()), None);
    }
}
