//! Figures: from a request in the garment file to a drawing in the booklet.

mod convert;
mod kinds;
mod params;
mod parts;
mod pieces;
mod seams;
mod sets;
mod views;
mod worn;

use std::collections::BTreeSet;

use indexmap::IndexMap;

use crate::draw::{self, Accent, KeyEntry, Look};
use crate::fault::{Code, Fault, Route, did_you_mean};
use crate::prose::Run;
use crate::set::view;
use crate::shape::InputShape;
use crate::words::Word;

use super::desk::Desk;
use convert::{convert, key_entry, remarks};
pub use kinds::KINDS;
use params::Params;

/// The figures of an edition, as they are asked for.
pub(super) struct Drawings<'a, 'd> {
    desk: &'a Desk<'d>,
    look: Look,
    figures: Vec<view::Figure>,
    next: u32,
    /// Signs that have been explained on a page.
    explained: BTreeSet<KeyEntry>,
}

impl<'a, 'd> Drawings<'a, 'd> {
    pub(super) fn new(desk: &'a Desk<'d>, accent: &str) -> Drawings<'a, 'd> {
        let accent = Accent::parse(accent).unwrap_or(Accent { red: 0x7a, green: 0x2e, blue: 0x3a });
        let look = Look { accent, systems: desk.systems, grey: false, pale: false, tongue: desk.words.tongue() };
        Drawings { desk, look, figures: Vec::new(), next: 1, explained: BTreeSet::new() }
    }

    /// A drawing without a number: a view, the card of a piece.
    pub(super) fn view(&mut self, route: &Route, request: &IndexMap<String, InputShape>, id: &str) -> Option<String> {
        self.add(route, request, id, false)
    }

    /// A figure of a step.
    pub(super) fn numbered(
        &mut self,
        route: &Route,
        request: &IndexMap<String, InputShape>,
        id: &str,
    ) -> Option<String> {
        self.add(route, request, id, true)
    }

    fn add(
        &mut self,
        route: &Route,
        request: &IndexMap<String, InputShape>,
        id: &str,
        numbered: bool,
    ) -> Option<String> {
        let sized = self.desk.drawn()?;
        let params = Params { route, map: request, garment: self.desk.garment, sized };
        let drawn = match draw_one(&params, &self.look) {
            Ok(drawn) => drawn,
            Err(fault) => {
                self.desk.fault(fault);
                return None;
            }
        };
        let remark = (!self.desk.selection.is_single() && kinds::differs_by_size(params.kind()))
            .then(|| self.desk.words.fill(Word::DrawnFor, &[("size", &sized.size)]));
        let number = numbered.then_some(self.next);
        let key: Vec<KeyEntry> = if numbered {
            drawn.key.iter().copied().filter(|entry| self.explained.insert(*entry)).collect()
        } else {
            Vec::new()
        };
        let mut figure = convert(&drawn, id, number, remark.as_deref(), &self.look, &key);
        if let Some(caption) = params.text("caption") {
            figure.caption = self.desk.runs(&route.key("caption"), caption);
            if numbered {
                let more: String = remarks(&drawn, remark.as_deref()).map(|words| format!(" {words}")).collect();
                figure.caption.push(Run::text(more));
            }
        }
        if let Some(alt) = params.text("alt") {
            figure.alt = alt.to_string();
        }
        if numbered {
            self.next += 1;
        }
        self.figures.push(figure);
        Some(id.to_string())
    }

    /// The letters that stand on figures, by their ids.
    pub(super) fn letters(&self, ids: &[String]) -> Vec<String> {
        let drawn = self.figures.iter().filter(|figure| ids.contains(&figure.id));
        let mut letters: Vec<String> =
            drawn.flat_map(|figure| &figure.callouts).map(|callout| callout.letter.clone()).collect();
        letters.sort();
        letters.dedup();
        letters
    }

    /// A cutting layout; it has no number.
    pub(super) fn layout(&mut self, input: &draw::LayoutFigure, id: &str) -> Option<String> {
        match draw::layout(input, &self.look) {
            Ok(drawn) => {
                let mut figure = convert(&drawn, id, None, None, &self.look, &[]);
                figure.caption = vec![Run::text(format!("{}.", drawn.scale.to_string().replace(' ', "\u{a0}")))];
                self.figures.push(figure);
                Some(id.to_string())
            }
            Err(why) => {
                let fault =
                    Fault::new(Code::Figure, Route::top().key("cloths"), format!("a layout cannot be drawn: {why}"));
                self.desk.fault(fault);
                None
            }
        }
    }

    /// The figures, and the key of all signs they use.
    pub(super) fn finish(self) -> (Vec<view::Figure>, Vec<view::KeyEntry>) {
        let key = KeyEntry::ALL
            .into_iter()
            .filter(|entry| self.explained.contains(entry))
            .filter_map(|entry| key_entry(entry, &self.look))
            .collect();
        (self.figures, key)
    }
}

fn draw_one(params: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let Some(name) = params.text("kind") else {
        let place = crate::fault::Place::Key(params.route.clone());
        return Err(Fault::new(Code::Figure, place, "a figure does not say what `kind` it is")
            .help("write for example `kind: flat-piece`; `furbelow figures` shows all kinds"));
    };
    let Some(kind) = KINDS.iter().find(|kind| kind.name == name) else {
        let known: Vec<&str> = KINDS.iter().map(|kind| kind.name).collect();
        let fault =
            Fault::new(Code::Figure, params.route.key("kind"), format!("there is no figure of the kind `{name}`"));
        return Err(fault.help(did_you_mean(name, &known)));
    };
    for key in params.map.keys() {
        if !["kind", "of", "caption", "alt"].contains(&key.as_str()) && !kind.inputs.contains(&key.as_str()) {
            let place = crate::fault::Place::Key(params.route.key(key.as_str()));
            let message = format!("a figure of the kind `{name}` has no `{key}`");
            return Err(Fault::new(Code::Figure, place, message).help(did_you_mean(key, kind.inputs)));
        }
    }
    (kind.draw)(params, look)
}
