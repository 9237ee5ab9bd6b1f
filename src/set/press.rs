//! Setting a document: view in, pages out.

use typst::foundations::Smart;
use typst::utils::Scalar;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_render::RenderOptions;
use typst_svg::SvgOptions;

use super::check::check;
use super::diagnose;
use super::digest::digests;
use super::kind::DocKind;
use super::lint::{Lint, lint};
use super::paper::Setting;
use super::view::{Book, Notice};
use super::world::Desk;
use crate::fault::{Code, Fault, Place};
use crate::words::catalogue;

/// The finest picture of a page, in pixels a point: 1440 dots an inch.
const FINEST: f64 = 20.0;

/// A finished document.
#[derive(Debug, Clone, PartialEq)]
pub struct SetDocument {
    /// What it is.
    pub kind: DocKind,
    /// Paper and reading size.
    pub setting: Setting,
    /// The file's bytes: tagged PDF, PDF/UA-1. The same view gives the same bytes.
    pub pdf: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What each page shows between head and foot, as a digest.
    pub digests: Vec<String>,
    /// What an eye would stop at. Empty in a document fit to sell.
    pub lints: Vec<Lint>,
}

/// Pages laid out, not yet written.
pub struct Typeset {
    kind: DocKind,
    setting: Setting,
    ident: String,
    desk: Desk,
    document: PagedDocument,
    lints: Vec<Lint>,
}

/// Sets one document as PDF.
///
/// # Errors
/// Faults in the view (a link that leads nowhere, a row with too few cells, a figure that is not
/// there), characters no font has, and typst's own errors.
pub fn compile(book: &Book, kind: DocKind, setting: impl Into<Setting>) -> Result<SetDocument, Vec<Fault>> {
    typeset(book, kind, setting)?.finish()
}

/// A picture of one page, as PNG.
///
/// `page` counts from 1; `px_per_pt` is the scale in pixels a point, above 0 and at most 20.
///
/// # Errors
/// As [`compile`]; also if there is no such page or scale.
pub fn preview(
    book: &Book,
    kind: DocKind,
    setting: impl Into<Setting>,
    page: usize,
    px_per_pt: f64,
) -> Result<Vec<u8>, Vec<Fault>> {
    typeset(book, kind, setting)?.png(page, px_per_pt)
}

/// Lays out the pages of one document.
///
/// # Errors
/// Faults in the view and typst's own errors. Characters no font has are lints here.
pub fn typeset(book: &Book, kind: DocKind, setting: impl Into<Setting>) -> Result<Typeset, Vec<Fault>> {
    Job::new(book, kind, setting)?.typeset()
}

/// A document about to be set: its data is written, no page is laid out.
#[derive(Debug, Clone)]
pub struct Job {
    kind: DocKind,
    setting: Setting,
    ident: String,
    files: Vec<(String, Vec<u8>)>,
}

impl Job {
    /// Checks the view and writes the data of one document.
    ///
    /// # Errors
    /// Faults in the view.
    pub fn new(book: &Book, kind: DocKind, setting: impl Into<Setting>) -> Result<Job, Vec<Fault>> {
        let setting = setting.into();
        check(book)?;
        let words = catalogue(&book.language)?;
        let files = kind.files(book, words, setting).map_err(|error| {
            let message = format!("the data of the document cannot be written: {error}");
            vec![Fault::new(Code::Document, Place::Nowhere, message)]
        })?;
        let ident =
            [book.title.as_str(), &book.edition.version, &book.edition.words, kind.name(), setting.paper.name()];
        let ident = format!("furbelow\n{}\n{:?}", ident.join("\n"), setting.print);
        Ok(Job { kind, setting, ident, files })
    }

    /// Writes the data of the page "What changed".
    ///
    /// # Errors
    /// A language there are no words for, and a number that is not finite.
    pub fn notice(notice: &Notice, setting: impl Into<Setting>) -> Result<Job, Vec<Fault>> {
        let (kind, setting) = (DocKind::WhatChanged, setting.into());
        let words = catalogue(&notice.language)?;
        let files = super::notice::files(notice, words, setting).map_err(|error| {
            let message = format!("the data of the document cannot be written: {error}");
            vec![Fault::new(Code::Document, Place::Nowhere, message)]
        })?;
        let editions = format!("{} {}", notice.from, notice.edition.version);
        let ident = [notice.title.as_str(), &editions, kind.name(), setting.paper.name()].join("\n");
        Ok(Job { kind, setting, ident: format!("furbelow\n{ident}\n{:?}", setting.print), files })
    }

    /// Everything the document is made from besides the program itself: names and bytes, in a fixed order.
    pub fn inputs(&self) -> impl Iterator<Item = (&str, &[u8])> {
        let front = [("kind", self.kind.name().as_bytes()), ("ident", self.ident.as_bytes())];
        front.into_iter().chain(self.files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())))
    }

    /// Lays out the pages.
    ///
    /// # Errors
    /// Typst's own errors. Characters no font has are lints here.
    pub fn typeset(self) -> Result<Typeset, Vec<Fault>> {
        let Job { kind, setting, ident, files } = self;
        let desk = Desk::new(kind.template(), files).ok_or_else(|| {
            vec![Fault::new(Code::Document, Place::Nowhere, "a figure's id does not make a path".to_string())]
        })?;
        let compiled = typst::compile::<PagedDocument>(&desk);
        let document = compiled.output.map_err(|errors| diagnose::faults(&desk, &errors, "setting the pages"))?;
        let lints = lint(&document, setting.paper, &diagnose::doubts(&desk, &compiled.warnings));
        Ok(Typeset { kind, setting, ident, desk, document, lints })
    }
}

/// Forgets memoised work that the last `builds` builds did not use. Call it once a batch in a
/// long-running process.
pub fn forget(builds: usize) {
    comemo::evict(builds);
}

impl Typeset {
    /// How many pages.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.document.pages().len()
    }

    /// What an eye would stop at.
    #[must_use]
    pub fn lints(&self) -> &[Lint] {
        &self.lints
    }

    /// What each page shows between head and foot, as a digest.
    #[must_use]
    pub fn digests(&self) -> Vec<String> {
        digests(&self.document, self.setting.paper)
    }

    /// A page as SVG, counted from 1, if it is there. Letters are outlines, so that it looks the same everywhere.
    #[must_use]
    pub fn svg(&self, page: usize) -> Option<String> {
        let page = page.checked_sub(1).and_then(|at| self.document.pages().get(at))?;
        Some(typst_svg::svg(page, &SvgOptions::default()))
    }

    /// A picture of a page, as PNG; see [`preview`].
    ///
    /// # Errors
    /// If there is no such page or scale.
    pub fn png(&self, page: usize, px_per_pt: f64) -> Result<Vec<u8>, Vec<Fault>> {
        let fault = |message: String| vec![Fault::new(Code::Document, Place::Nowhere, message)];
        let pages = self.pages();
        let Some(page) = page.checked_sub(1).and_then(|at| self.document.pages().get(at)) else {
            return Err(fault(format!("expected a page from 1 to {pages}, but found {page}")));
        };
        if !(px_per_pt > 0.0 && px_per_pt <= FINEST) {
            return Err(fault(format!("expected a scale above 0 and up to {FINEST}, but found {px_per_pt}")));
        }
        let options = RenderOptions { pixel_per_pt: Scalar::new(px_per_pt), render_bleed: false };
        typst_render::render(page, &options)
            .encode_png()
            .map_err(|error| fault(format!("the picture of a page cannot be written: {error}")))
    }

    /// Writes the PDF.
    ///
    /// # Errors
    /// Characters no font has, and what typst refuses to export as PDF/UA-1.
    pub fn finish(self) -> Result<SetDocument, Vec<Fault>> {
        let missing: Vec<Fault> = self.lints.iter().filter_map(Lint::as_fault).collect();
        if !missing.is_empty() {
            return Err(missing);
        }
        let standards = PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|error| vec![Fault::new(Code::Document, Place::Nowhere, error.message().to_string())])?;
        let options = PdfOptions {
            ident: Smart::Custom(self.ident.clone()),
            creator: Smart::Custom(Some("furbelow".to_string())),
            standards,
            ..PdfOptions::default()
        };
        let pdf = typst_pdf::pdf(&self.document, &options)
            .map_err(|errors| diagnose::faults(&self.desk, &errors, "writing the PDF"))?;
        let digests = self.digests();
        let (pages, Typeset { kind, setting, lints, .. }) = (self.pages(), self);
        Ok(SetDocument { kind, setting, pdf, pages, digests, lints })
    }
}
