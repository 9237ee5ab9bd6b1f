//! From the garment folder to editions ready to be set.

use std::path::Path;

use rayon::prelude::{IntoParallelIterator, ParallelIterator};

use crate::book::{Build, Selection, prepare};
use crate::cache::{Nothing, Store};
use crate::check::{self as checking, Garment};
use crate::fault::{Code, Fault, FileText, Place};
use crate::set::view::Book;
use crate::shape::{self, Shaped};
use crate::size::{self, SizedGarment};
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
    let (source, Worked { garment, build, mut faults }) = work(path, store);
    let (garment, build) = match (garment, build) {
        (Some(garment), Some(build)) => (garment, build),
        (garment, build) => return (source, Checked { garment, build, editions: Vec::new(), faults }),
    };
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

/// A garment worked out, its words and figures not yet looked at.
#[derive(Default)]
pub struct Worked {
    /// The garment; absent where it has faults.
    pub garment: Option<Garment>,
    /// All sizes worked out; absent where there are faults.
    pub build: Option<Build>,
    /// Faults and warnings.
    pub faults: Vec<Fault>,
}

/// Reads a garment and works all its sizes out, seams and cloth included.
#[must_use]
pub fn work(path: &Path, store: &dyn Store) -> (Source, Worked) {
    let (source, faults) = source::read(path);
    let (garment, sizes, mut faults) = sized(&source, faults);
    let (Some(whole), Some(sizes)) = (&garment, sizes) else {
        return (source, Worked { garment, build: None, faults });
    };
    let (build, more) = Build::new(whole, sizes, store);
    faults.extend(more);
    (source, Worked { garment, build: Some(build), faults })
}

/// The numbers and pieces of every size of a garment as read, without seams and cloth; faults instead where there are any.
#[must_use]
pub fn sizes_of(source: &Source) -> (Option<Vec<SizedGarment>>, Vec<Fault>) {
    let (_, sizes, faults) = sized(source, Vec::new());
    (sizes, faults)
}

fn sized(source: &Source, mut faults: Vec<Fault>) -> (Option<Garment>, Option<Vec<SizedGarment>>, Vec<Fault>) {
    let Some(root) = &source.root else { return (None, None, faults) };
    let Shaped { shape, faults: mut structural, left_out } = shape::shape(root);
    let whole = structural.is_empty() && !faults.iter().any(Fault::stops);
    structural.retain(|fault| !source.unread.iter().any(|name| fault.place == Place::Span(*name)));
    let Some(shape) = shape else {
        faults.extend(structural);
        return (None, None, faults);
    };
    let (garment, more) = checking::check(shape);
    faults.extend(
        more.into_iter().filter(|fault| whole || fault.stops() && !follows(fault, source, &structural, &left_out)),
    );
    faults.splice(0..0, structural);
    let Some(garment) = garment.filter(|_| whole) else { return (None, None, faults) };
    let (sizes, more) = size::size_all(&garment, &source.drawings);
    faults.extend(more);
    if faults.iter().any(Fault::stops) {
        return (Some(garment), None, faults);
    }
    (Some(garment), Some(sizes), faults)
}

/// A fault that only follows from a part left out.
fn follows(fault: &Fault, source: &Source, structural: &[Fault], left_out: &[String]) -> bool {
    let span = source.span(&fault.place);
    fault.code == Code::MissingKey
        || structural.iter().any(|other| source.span(&other.place).zip(span).is_some_and(|(a, b)| b.holds(a)))
        || left_out.iter().any(|name| fault.message.contains(&format!("`{name}`")))
}

/// The edition of all sizes, then one for each size.
#[must_use]
pub fn selections(garment: &Garment) -> Vec<Selection> {
    let mut selections = vec![Selection::all(garment)];
    if garment.sizes.len() > 1 {
        selections.extend((0..garment.sizes.len()).filter_map(|index| Selection::one(garment, index)));
    }
    selections
}
