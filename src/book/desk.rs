//! What the chapters of an edition share: the garment, its sizes, and the rendering of words.

use std::cell::RefCell;

use crate::check::Garment;
use crate::fault::{Code, Fault, Route};
use crate::prose::{self, Block, Numbers, Refs, Run, Setting, Shown, StripRow, Template};
use crate::size::SizedGarment;
use crate::units::Systems;
use crate::words::{Catalogue, Word};

use super::build::Build;
use super::selection::Selection;

/// The numbers of one size, as prose sees them.
struct SizeNumbers<'a>(&'a SizedGarment);

impl Numbers for SizeNumbers<'_> {
    fn get(&self, name: &str) -> Option<Shown> {
        let named = self.0.names.named(name)?;
        Some(Shown { quantity: named.quantity, show: named.show, label: named.label.clone() })
    }

    fn known(&self) -> Vec<String> {
        self.0.names.0.keys().cloned().collect()
    }
}

/// The desk an edition is written at.
pub(super) struct Desk<'a> {
    pub(super) garment: &'a Garment,
    pub(super) build: &'a Build,
    pub(super) selection: &'a Selection,
    pub(super) systems: Systems,
    table: Vec<String>,
    refs: Refs,
    /// The fixed words of the edition's language.
    pub(super) words: &'static Catalogue,
    faults: RefCell<Vec<Fault>>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(
        garment: &'a Garment,
        build: &'a Build,
        selection: &'a Selection,
        refs: Refs,
        words: &'static Catalogue,
    ) -> Desk<'a> {
        Desk {
            garment,
            build,
            selection,
            systems: build.systems,
            table: garment.sizes.iter().map(|size| size.name.clone()).collect(),
            refs,
            words,
            faults: RefCell::default(),
        }
    }

    /// The sizes of the edition.
    pub(super) fn sizes(&self) -> impl Iterator<Item = &'a SizedGarment> {
        let build = self.build;
        self.selection.indexes.iter().filter_map(move |index| build.sizes.get(*index))
    }

    /// The size drawings are made from.
    pub(super) fn drawn(&self) -> Option<&'a SizedGarment> {
        self.build.sizes.get(self.selection.middle())
    }

    /// A fixed word.
    pub(super) fn say(&self, word: Word) -> &'static str {
        self.words.say(word)
    }

    /// Notes a fault.
    pub(super) fn fault(&self, fault: Fault) {
        self.faults.borrow_mut().push(fault);
    }

    /// The faults noted.
    pub(super) fn into_faults(self) -> Vec<Fault> {
        self.faults.into_inner()
    }

    fn rendered(&self, route: &Route, text: &str) -> prose::Rendered {
        let template = match Template::read(route.clone(), text) {
            Ok(template) => template,
            Err(faults) => {
                self.faults.borrow_mut().extend(faults);
                return prose::Rendered::default();
            }
        };
        let numbers: Vec<SizeNumbers<'_>> = self.sizes().map(SizeNumbers).collect();
        let sizes: Vec<(&str, &dyn Numbers)> =
            numbers.iter().map(|numbers| (numbers.0.size.as_str(), numbers as &dyn Numbers)).collect();
        let setting = Setting { table: &self.table, systems: self.systems, refs: &self.refs, words: &self.words.prose };
        match prose::render(&template, &sizes, &setting) {
            Ok(rendered) => rendered,
            Err(faults) => {
                self.faults.borrow_mut().extend(faults);
                prose::Rendered::default()
            }
        }
    }

    /// Words as blocks.
    pub(super) fn blocks(&self, route: &Route, text: &str) -> Vec<Block> {
        self.rendered(route, text).blocks
    }

    /// Words as one line, with the rows of its numbers where they differ by size.
    pub(super) fn line(&self, route: &Route, text: &str) -> (Vec<Run>, Vec<StripRow>) {
        let rendered = self.rendered(route, text);
        match rendered.line() {
            Some((runs, rows)) => (runs.to_vec(), rows.to_vec()),
            None => {
                let fault = Fault::new(Code::Prose, route, "expected one line of words that is the same in all sizes");
                self.fault(fault.help("keep it to one paragraph without lists; put the rest into a step"));
                (Vec::new(), Vec::new())
            }
        }
    }

    /// Words as one line of runs; numbers that differ among more than three sizes have no room there.
    pub(super) fn runs(&self, route: &Route, text: &str) -> Vec<Run> {
        let (runs, rows) = self.line(route, text);
        if !rows.is_empty() {
            let fault = Fault::new(Code::Prose, route, "this line has a number that differs in more than three sizes");
            self.fault(fault.help("say it in the step's prose, where a size strip can stand"));
        }
        runs
    }
}
