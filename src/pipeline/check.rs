//! From the garment folder to editions ready to be set.

use std::path::Path;

use rayon::prelude::{IntoParallelIterator, ParallelIterator};

use crate::book::{Build, Selection, prepare};
use crate::cache::{Nothing, Store};
use crate::check::{self as checking, Garment};
use crate::fault::{Code, Fault, FileText, Place};
use crate::set::view::Book;
use crate::shape::{self, Shaped};
use crate::size;
use crate::source::{self, Source};

/// What checking a garment found.
#[derive(Default)]
pub struct Checked {
    /// The garment; absent where it has faults.
    pub garment: Option<Garment>,
    /// All sizes worked out; absent where there are faults.
    pub build: Option<Build>,
    /// The editions, ready to be set: all sizes first, then one for each size. Empty where there are faults.
    pub editions: Vec<(Selection, Book)>,
    /// Faults and warnings.
    pub faults: Vec<Fault>,
}

/// Reads a garment and works all its sizes out, words and figures included, without setting a page.
#[must_use]
pub fn check(path: &Path) -> (Source, Checked) {
    check_with(path, &Nothing)
}

/// As [`check`], with what was worked out before.
#[must_use]
pub fn check_with(path: &Path, store: &dyn Store) -> (Source, Checked) {
    let (source, mut faults) = source::read(path);
    let Some(root) = &source.root else {
        return (source, Checked { faults, ..Checked::default() });
    };
    let Shaped { shape, faults: mut structural, left_out } = shape::shape(root);
    let whole = structural.is_empty() && !faults.iter().any(Fault::stops);
    structural.retain(|fault| !source.unread.iter().any(|name| fault.place == Place::Span(*name)));
    let Some(shape) = shape else {
        faults.extend(structural);
        return (source, Checked { faults, ..Checked::default() });
    };
    let (garment, more) = checking::check(shape);
    faults.extend(
        more.into_iter().filter(|fault| whole || fault.stops() && !follows(fault, &source, &structural, &left_out)),
    );
    faults.splice(0..0, structural);
    let Some(garment) = garment.filter(|_| whole) else {
        return (source, Checked { faults, ..Checked::default() });
    };
    let (sizes, more) = size::size_all(&garment);
    faults.extend(more);
    if faults.iter().any(Fault::stops) {
        return (source, Checked { garment: Some(garment), faults, ..Checked::default() });
    }
    let (build, more) = Build::new(&garment, sizes, store);
    faults.extend(more);
    let mut editions = Vec::new();
    let prepared: Vec<_> = selections(&garment)
        .into_par_iter()
        .map(|selection| (prepare(&garment, &build, &selection), selection))
        .collect();
    for (prepared, selection) in prepared {
        match prepared {
            Ok(book) => editions.push((selection, book)),
            Err(more) => {
                for fault in more {
                    if !faults.iter().any(|other| other.place == fault.place && other.code == fault.code) {
                        faults.push(fault);
                    }
                }
            }
        }
    }
    if faults.iter().any(Fault::stops) {
        editions.clear();
    }
    (source, Checked { garment: Some(garment), build: Some(build), editions, faults })
}

/// A fault that only follows from a part left out.
fn follows(fault: &Fault, source: &Source, structural: &[Fault], left_out: &[String]) -> bool {
    let span = source.span(&fault.place);
    fault.code == Code::MissingKey
        || structural.iter().any(|other| source.span(&other.place).zip(span).is_some_and(|(a, b)| b.holds(a)))
        || left_out.iter().any(|name| fault.message.contains(&format!("`{name}`")))
}

/// The edition of all sizes, then one for each size.
fn selections(garment: &Garment) -> Vec<Selection> {
    let mut selections = vec![Selection::all(garment)];
    if garment.sizes.len() > 1 {
        selections.extend((0..garment.sizes.len()).filter_map(|index| Selection::one(garment, index)));
    }
    selections
}
