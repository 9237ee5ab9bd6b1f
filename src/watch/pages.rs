//! Pages, set when somebody looks at them.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::desk::Shown;
use crate::cache::Key;
use crate::fault::Fault;
use crate::set::{DocKind, Job, Paper, Typeset};

/// How many documents are held set at once.
const HELD: usize = 6;

/// Which document.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Which {
    /// The edition, by its slug.
    pub(super) edition: String,
    /// The kind.
    pub(super) kind: DocKind,
    /// The paper.
    pub(super) paper: Paper,
}

/// A document set in type, or what stands in its way.
pub(super) type Set = Arc<Result<Typeset, Vec<Fault>>>;

/// A document held: which, what it was made from, and its pages once they are set.
type Held = (Which, Key, Arc<OnceLock<Set>>);

/// The documents set so far, each with a digest of what it was made from.
#[derive(Default)]
pub(super) struct Pages {
    held: Mutex<Vec<Held>>,
}

impl Pages {
    /// A document as it is now. What it is made from decides whether it must be set again.
    pub(super) fn get(&self, shown: &Shown, which: &Which) -> Option<Set> {
        let book = match shown.edition(&which.edition)? {
            Ok(book) => book,
            Err(faults) => return Some(Arc::new(Err(faults))),
        };
        let job = match Job::new(&book, which.kind, which.paper) {
            Ok(job) => job,
            Err(faults) => return Some(Arc::new(Err(faults))),
        };
        let key = job.inputs().fold(Key::of("pages"), |key, (name, bytes)| key.bytes(name, bytes)).key();
        let place = {
            let mut held = self.held.lock().unwrap_or_else(PoisonError::into_inner);
            // The one asked for last stands last.
            let found = held.iter().position(|(known, known_key, _)| known == which && *known_key == key);
            let entry = match found {
                Some(at) => held.remove(at),
                None => {
                    held.retain(|(known, ..)| known != which);
                    (which.clone(), key, Arc::default())
                }
            };
            let place = entry.2.clone();
            held.push(entry);
            if held.len() > HELD {
                held.remove(0);
            }
            place
        };
        // Two who ask at once wait for one setting.
        Some(place.get_or_init(|| Arc::new(job.typeset())).clone())
    }

    /// Drops documents of editions that are no longer there.
    pub(super) fn keep(&self, shown: &Shown) {
        let slugs: HashMap<&str, ()> = shown.selections().map(|selection| (selection.slug.as_str(), ())).collect();
        let mut held = self.held.lock().unwrap_or_else(PoisonError::into_inner);
        held.retain(|(which, ..)| slugs.contains_key(which.edition.as_str()));
    }
}
