//! What is shown: the garment as it was last right, and what is wrong with it now.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, OnceLock, PoisonError};
use std::time::Duration;

use serde_json::{Value, json};

use super::pages::{Pages, Which};
use crate::book::{Build, Selection, prepare};
use crate::cache::Store;
use crate::check::Garment;
use crate::fault::{Fault, locate_json};
use crate::pipeline::{self, Worked};
use crate::set;
use crate::set::view::Book;
use crate::source::Source;

/// Memoised work of so many earlier builds is kept.
const REMEMBERED: usize = 3;

/// A garment without faults, and its editions, each prepared when somebody asks for it.
pub struct Shown {
    /// What it was read from.
    pub source: Source,
    /// The garment.
    pub garment: Garment,
    /// All its sizes, worked out.
    pub build: Build,
    /// Its editions: all sizes first, then one for each size.
    editions: Vec<(Selection, Prepared)>,
}

type Prepared = OnceLock<Result<Arc<Book>, Vec<Fault>>>;

impl Shown {
    /// The selections there are editions of.
    pub fn selections(&self) -> impl Iterator<Item = &Selection> {
        self.editions.iter().map(|(selection, _)| selection)
    }

    /// An edition by its slug.
    #[must_use]
    pub fn edition(&self, slug: &str) -> Option<Result<Arc<Book>, Vec<Fault>>> {
        let (selection, book) = self.editions.iter().find(|(selection, _)| selection.slug == slug)?;
        Some(book.get_or_init(|| prepare(&self.garment, &self.build, selection).map(Arc::new)).clone())
    }
}

#[derive(Default)]
struct Now {
    /// Counts what was told to the pages.
    news: u64,
    shown: Option<Arc<Shown>>,
    faults: Vec<Value>,
    /// Whether what is shown is older than what is written.
    stale: bool,
}

/// The desk: read by the server, renewed when the garment is saved.
pub struct Desk {
    folder: PathBuf,
    store: Arc<dyn Store>,
    pages: Pages,
    now: Mutex<Now>,
    changed: Condvar,
}

impl Desk {
    /// A desk for a garment folder, empty until [`Desk::renew`] is called.
    #[must_use]
    pub fn new(folder: &Path, store: Arc<dyn Store>) -> Desk {
        let pages = Pages::default();
        Desk { folder: folder.to_path_buf(), store, pages, now: Mutex::default(), changed: Condvar::new() }
    }

    /// The garment's folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The pages set so far.
    pub(super) fn pages(&self) -> &Pages {
        &self.pages
    }

    /// Works the garment out again. What was last right stays to be seen where there are faults now. The pages are told as soon
    /// as the edition of all sizes is right; faults only other editions have follow.
    pub fn renew(&self) {
        let (source, Worked { garment, build, mut faults }) = pipeline::work(&self.folder, self.store.as_ref());
        let shown = match (garment, build) {
            (Some(garment), Some(build)) if !faults.iter().any(Fault::stops) => {
                let editions = pipeline::selections(&garment).into_iter().map(|one| (one, OnceLock::new())).collect();
                Some(Shown { source, garment, build, editions })
            }
            _ => {
                self.tell(None, located(&source, &faults));
                return;
            }
        };
        let Some(shown) = shown.map(Arc::new) else { return };
        let slugs: Vec<String> = shown.selections().map(|selection| selection.slug.clone()).collect();
        let mut told = false;
        for slug in slugs {
            if let Some(Err(more)) = shown.edition(&slug) {
                let new = more.into_iter().filter(|fault| {
                    !faults.iter().any(|other: &Fault| other.place == fault.place && other.code == fault.code)
                });
                let new: Vec<Fault> = new.collect();
                faults.extend(new);
            }
            if !told {
                let good = !faults.iter().any(Fault::stops);
                self.tell(good.then(|| shown.clone()), located(&shown.source, &faults));
                told = true;
            }
        }
        self.pages.keep(&shown);
        set::forget(REMEMBERED);
        let listed = located(&shown.source, &faults);
        if self.lock().faults != listed {
            let good = !faults.iter().any(Fault::stops);
            self.tell(good.then_some(shown), listed);
        }
    }

    fn tell(&self, shown: Option<Arc<Shown>>, faults: Vec<Value>) {
        let mut now = self.lock();
        now.stale = shown.is_none();
        if shown.is_some() {
            now.shown = shown;
        }
        now.faults = faults;
        now.news += 1;
        self.changed.notify_all();
    }

    /// Waits until there is news beyond what was told, or the time is over; the number of the news.
    #[must_use]
    pub fn wait(&self, told: Option<u64>, time: Duration) -> u64 {
        let now = self.lock();
        let waited = self.changed.wait_timeout_while(now, time, |now| Some(now.news) == told);
        waited.unwrap_or_else(PoisonError::into_inner).0.news
    }

    /// What is shown, if anything was ever right.
    #[must_use]
    pub fn shown(&self) -> Option<Arc<Shown>> {
        self.lock().shown.clone()
    }

    /// What is wrong, as the page is told.
    #[must_use]
    pub fn faults(&self) -> Vec<Value> {
        self.lock().faults.clone()
    }

    /// Sets a document of an edition as the page shows it; the number of its pages. None where nothing is shown, or the document
    /// cannot be set.
    #[must_use]
    pub fn look(&self, edition: &str, kind: set::DocKind, paper: set::Paper) -> Option<usize> {
        let which = Which { edition: edition.to_string(), kind, paper };
        let set = self.pages.get(self.shown()?.as_ref(), &which)?;
        set.as_ref().as_ref().ok().map(set::Typeset::pages)
    }

    /// The state in short, for the page.
    #[must_use]
    pub fn state(&self) -> Value {
        let now = self.lock();
        let garment = now.shown.as_ref().map(|shown| {
            let editions: Vec<Value> = shown
                .selections()
                .map(|selection| json!({ "slug": selection.slug, "words": selection.words }))
                .collect();
            json!({
                "title": shown.build.title,
                "edition": shown.build.edition,
                "accent": shown.garment.shape.accent,
                "editions": editions,
                "sizes": shown.build.sizes.iter().map(|sized| sized.size.as_str()).collect::<Vec<_>>(),
            })
        });
        json!({
            "news": now.news,
            "stale": now.stale,
            "faults": now.faults,
            "garment": garment,
            "documents": set::DocKind::ALL.iter().map(|kind| kind.name()).collect::<Vec<_>>(),
            "papers": set::Paper::ALL.iter().map(|paper| paper.name()).collect::<Vec<_>>(),
        })
    }

    fn lock(&self) -> MutexGuard<'_, Now> {
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn located(source: &Source, faults: &[Fault]) -> Vec<Value> {
    let mut faults: Vec<&Fault> = faults.iter().collect();
    faults.sort_by_key(|fault| !fault.stops());
    faults.into_iter().map(|fault| locate_json(fault, source)).collect()
}
