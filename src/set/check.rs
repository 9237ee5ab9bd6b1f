//! The view, checked before it is set: every link leads somewhere, every row has its cells, every
//! figure is there. What fails here would fail in a template with no word of use to anyone.

use std::collections::BTreeSet;

use super::accent::Colour;
use super::view::{Block, Book, CutPiece, Figure, RefTarget, Run, StripRow};
use crate::fault::{Code, Fault, Place, did_you_mean};

/// The chapters a link may lead to.
const CHAPTERS: [&str; 12] = [
    "making", "glance", "before", "swatch", "cutting", "layouts", "pieces", "steps", "cautions", "glossary", "terms",
    "changes",
];
/// The longest figure id.
const LONGEST: usize = 64;
/// The largest figure, millimetres.
const LARGEST: f64 = 5000.0;

/// Checks a view.
pub(super) fn check(book: &Book) -> Result<(), Vec<Fault>> {
    let mut checker = Checker { book, faults: Vec::new() };
    checker.front();
    checker.figures();
    checker.chapters();
    if checker.faults.is_empty() { Ok(()) } else { Err(checker.faults) }
}

struct Checker<'a> {
    book: &'a Book,
    faults: Vec<Fault>,
}

impl Checker<'_> {
    fn say(&mut self, message: String) {
        self.faults.push(Fault::new(Code::Document, Place::Nowhere, message));
    }

    fn unique<'t>(&mut self, what: &str, ids: impl Iterator<Item = &'t str>) {
        let mut seen = BTreeSet::new();
        for id in ids {
            if id.is_empty() {
                self.say(format!("expected a name for each {what}, but found an empty one"));
            } else if !seen.insert(id) {
                self.say(format!("expected each {what} once, but found `{id}` twice"));
            }
        }
    }

    fn front(&mut self) {
        let book = self.book;
        if Colour::parse(&book.accent).is_none() {
            self.say(format!("expected a colour such as `#7a2e3a`, but found `{}`", book.accent));
        }
        if book.title.trim().is_empty() {
            self.say("expected a title, but found none".to_string());
        }
        if book.sizes.is_empty() {
            self.say("expected at least one size, but found none".to_string());
        }
        self.unique("size", book.sizes.iter().map(String::as_str));
        self.unique("step", book.steps.iter().map(|step| step.id.as_str()));
        self.unique("piece", book.pieces.iter().map(|piece| piece.id.as_str()));
        self.unique("figure", book.figures.iter().map(|figure| figure.id.as_str()));
        let swatches = book.swatch.iter().flat_map(|chapter| &chapter.swatches);
        let sections = CHAPTERS.into_iter().chain(swatches.map(|swatch| swatch.id.as_str()));
        self.unique("section", sections);
        self.unique("word of the glossary", book.glossary.iter().map(|term| term.word.as_str()));
    }

    fn figures(&mut self) {
        let book = self.book;
        for figure in &book.figures {
            self.path(&figure.id);
            for sign in &figure.key {
                self.path(&sign.id);
            }
            self.figure(figure);
        }
        for sign in &book.before.key {
            self.path(&sign.id);
        }
        let named = book
            .cover
            .iter()
            .chain(&book.making.figures)
            .chain(book.swatch.iter().flat_map(|chapter| &chapter.swatches).flat_map(|swatch| &swatch.figures))
            .chain(book.layouts.pages.iter().flat_map(|page| &page.sections).map(|section| &section.figure))
            .chain(book.pieces.iter().filter_map(|piece| piece.figure.as_ref()))
            .chain(book.steps.iter().flat_map(|step| &step.parts).flat_map(|part| &part.figures));
        let known: Vec<&str> = book.figures.iter().map(|figure| figure.id.as_str()).collect();
        for id in named.filter(|id| !known.contains(&id.as_str())) {
            let message = format!("expected a figure, but found nothing called `{id}`");
            self.faults.push(Fault::new(Code::Figure, Place::Nowhere, message).help(did_you_mean(id, &known)));
        }
    }

    /// An id that becomes a file name.
    fn path(&mut self, id: &str) {
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        if id.is_empty() || id.len() > LONGEST || !id.chars().all(plain) {
            self.say(format!("expected a figure's name of letters, digits, `-` and `_`, but found `{id}`"));
        }
    }

    fn figure(&mut self, figure: &Figure) {
        let id = &figure.id;
        if figure.alt.trim().is_empty() {
            self.say(format!("expected words that stand for figure `{id}`, but found none"));
        }
        if figure.svg.contains("<text") {
            self.say(format!("expected figure `{id}` to leave its letters to the labels, but found text in its SVG"));
        }
        let sizes = [figure.width_mm, figure.height_mm];
        if sizes.into_iter().any(|size| !(size > 0.0 && size <= LARGEST)) {
            self.say(format!("expected figure `{id}` to have a size, but found {} by {} mm", sizes[0], sizes[1]));
        }
        let labels = figure.labels.iter().flat_map(|label| [label.x, label.y, label.size_pt, label.turn_deg]);
        let callouts = figure.callouts.iter().flat_map(|callout| [callout.x, callout.y]);
        if labels.chain(callouts).any(|number| !number.is_finite()) {
            self.say(format!("expected the labels of figure `{id}` to have places, but found one that has none"));
        }
        self.runs(&figure.caption);
        figure.callouts.iter().for_each(|callout| self.runs(&callout.words));
    }

    fn chapters(&mut self) {
        let book = self.book;
        self.blocks(&book.making.blocks);
        let glance = &book.glance;
        self.rows(&glance.body, book.sizes.len());
        self.rows(&glance.finished, book.sizes.len());
        for cloth in &glance.cloths {
            self.runs(&cloth.advice);
            self.rows(&cloth.rows, book.sizes.len());
        }
        for notion in &glance.notions {
            self.runs(&notion.amount);
            self.runs(&notion.note);
            self.rows(&notion.rows, book.sizes.len());
        }
        self.blocks(&book.before.blocks);
        book.before.tools.iter().for_each(|tool| self.runs(&tool.note));
        if let Some(chapter) = &book.swatch {
            self.blocks(&chapter.blocks);
            self.blocks(&chapter.differs);
            for swatch in &chapter.swatches {
                self.blocks(&swatch.sew);
                let rows = swatch.results.iter().flat_map(|table| &table.rows);
                rows.for_each(|row| self.cells(&row.drawn, row.cells.len(), book.sizes.len()));
            }
        }
        self.blocks(&book.cutting.intro);
        for cloth in &book.cutting.cloths {
            self.rows(&cloth.totals, book.sizes.len());
            cloth.pieces.iter().for_each(|piece| self.cut(piece));
        }
        self.layouts();
        for step in &book.steps {
            self.runs(&step.why);
            self.runs(&step.needs);
            step.parts.iter().for_each(|part| self.blocks(&part.blocks));
        }
        book.cautions.iter().for_each(|caution| self.blocks(&caution.blocks));
        for term in &book.glossary {
            self.runs(&term.meaning);
            term.seen.iter().for_each(|seen| self.link(seen.target, &seen.id));
        }
        self.blocks(&book.terms);
        book.changes.iter().for_each(|change| self.blocks(&change.blocks));
    }

    fn layouts(&mut self) {
        let book = self.book;
        self.blocks(&book.layouts.intro);
        book.layouts.lengths.iter().for_each(|cloth| self.rows(&cloth.rows, book.sizes.len()));
        for page in &book.layouts.pages {
            self.sizes(&page.sizes);
            self.blocks(&page.words);
            self.rows(&page.lengths, page.sizes.len());
            for place in page.sections.iter().flat_map(|section| &section.places) {
                self.cells(&place.name, place.along.cells.len(), page.sizes.len());
                self.cells(&place.name, place.across.cells.len(), page.sizes.len());
            }
        }
    }

    fn cut(&mut self, piece: &CutPiece) {
        let sizes = self.book.sizes.len();
        self.runs(&piece.notes);
        self.rows(&piece.dims, sizes);
        self.cells(&piece.name, piece.count.len(), sizes);
    }

    fn rows(&mut self, rows: &[StripRow], sizes: usize) {
        rows.iter().for_each(|row| self.cells(&row.label, row.cells.len(), sizes));
    }

    fn cells(&mut self, label: &str, cells: usize, sizes: usize) {
        if cells != sizes {
            self.say(format!("expected {sizes} numbers, one a size, for `{label}`, but found {cells}"));
        }
    }

    fn blocks(&mut self, blocks: &[Block]) {
        for block in blocks {
            match block {
                Block::Paragraph { runs } | Block::Note { runs } => self.runs(runs),
                Block::List { items, .. } => items.iter().for_each(|runs| self.runs(runs)),
                Block::Strip { sizes, rows } => {
                    self.sizes(sizes);
                    self.rows(rows, sizes.len());
                }
                Block::Sizes { sizes, blocks, .. } => {
                    self.sizes(sizes);
                    self.blocks(blocks);
                }
            }
        }
    }

    fn sizes(&mut self, sizes: &[String]) {
        for size in sizes.iter().filter(|size| !self.book.sizes.contains(size)) {
            self.say(format!("expected a size of this edition, but found `{size}`"));
        }
    }

    fn runs(&mut self, runs: &[Run]) {
        for run in runs {
            if let Run::Ref { target, id, .. } = run {
                self.link(*target, id);
            }
        }
    }

    fn link(&mut self, target: RefTarget, id: &str) {
        let book = self.book;
        let steps = book.steps.iter().map(|step| step.id.as_str());
        let figures = book.figures.iter().filter(|figure| figure.number.is_some()).map(|figure| figure.id.as_str());
        let pieces = book.pieces.iter().map(|piece| piece.id.as_str());
        let swatches = book.swatch.iter().flat_map(|chapter| &chapter.swatches).map(|swatch| swatch.id.as_str());
        let chapters = super::kind::DocKind::Booklet.chapters(book);
        let sections = CHAPTERS.into_iter().filter(|chapter| chapters.contains(chapter)).chain(swatches);
        let known: Vec<&str> = match target {
            RefTarget::Step => steps.collect(),
            RefTarget::Figure => figures.collect(),
            RefTarget::Piece => pieces.collect(),
            RefTarget::Section => sections.collect(),
            RefTarget::Term => book.glossary.iter().map(|term| term.word.as_str()).collect(),
            RefTarget::Page => sections.chain(steps).chain(pieces).chain(figures).collect(),
        };
        if !known.contains(&id) {
            let message = format!("expected a link to lead somewhere, but found no {} `{id}`", word(target));
            self.faults.push(Fault::new(Code::Document, Place::Nowhere, message).help(did_you_mean(id, &known)));
        }
    }
}

fn word(target: RefTarget) -> &'static str {
    match target {
        RefTarget::Step => "step",
        RefTarget::Figure => "figure",
        RefTarget::Piece => "piece",
        RefTarget::Page => "page for",
        RefTarget::Section => "section",
        RefTarget::Term => "word of the glossary",
    }
}
