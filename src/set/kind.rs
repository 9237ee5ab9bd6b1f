//! The kinds of documents, and the data files each is set from.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::json;

use super::accent::{Accent, Colour};
use super::paper::Setting;
use super::view::Book;
use crate::words::Catalogue;

/// A kind of document.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DocKind {
    /// The illustrated instructions.
    Booklet,
    /// One row a piece and size: what is cut, of which cloth.
    CuttingChart,
    /// How the pieces lie on every cloth, width and size.
    Layouts,
    /// What changed, for buyers of an earlier edition. It is set from a [`Notice`](super::view::Notice), not from a book.
    WhatChanged,
}

impl DocKind {
    /// Every kind that is set from a book.
    pub const ALL: [DocKind; 3] = [DocKind::Booklet, DocKind::CuttingChart, DocKind::Layouts];

    /// Its name, as used in file names and on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            DocKind::Booklet => "booklet",
            DocKind::CuttingChart => "cutting-chart",
            DocKind::Layouts => "layouts",
            DocKind::WhatChanged => "what-changed",
        }
    }

    /// Its main template.
    pub(super) const fn template(self) -> &'static str {
        match self {
            DocKind::Booklet => "/booklet.typ",
            DocKind::CuttingChart => "/cutting-chart.typ",
            DocKind::Layouts => "/layouts.typ",
            DocKind::WhatChanged => "/what-changed.typ",
        }
    }

    /// The chapters it has, in order, as named under `templates/chapters`. A chapter with nothing
    /// in it is left out.
    pub(super) fn chapters(self, book: &Book) -> Vec<&'static str> {
        if self != DocKind::Booklet {
            return Vec::new();
        }
        let before = &book.before;
        let chapters = [
            ("cover", true),
            ("contents", true),
            ("making", !book.making.blocks.is_empty() || !book.making.figures.is_empty()),
            ("glance", true),
            ("before", !(before.blocks.is_empty() && before.tools.is_empty() && before.key.is_empty())),
            ("swatch", book.swatch.is_some()),
            ("cutting", !book.cutting.cloths.is_empty()),
            ("layouts", book.layouts.pages.iter().any(|page| page.booklet)),
            ("pieces", !book.pieces.is_empty()),
            ("steps", !book.steps.is_empty()),
            ("cautions", !book.cautions.is_empty()),
            ("glossary", !book.glossary.is_empty()),
            ("terms", !book.terms.is_empty()),
            ("changes", true),
        ];
        chapters.into_iter().filter(|(_, there)| *there).map(|(name, _)| name).collect()
    }

    /// Its data files: path and bytes.
    ///
    /// # Errors
    /// If the view cannot be written as JSON (a number that is not finite).
    pub(super) fn files(
        self,
        book: &Book,
        words: &Catalogue,
        setting: Setting,
    ) -> Result<Vec<(String, Vec<u8>)>, serde_json::Error> {
        let (width, height) = setting.paper.size_mm();
        let accent = Accent::of(Colour::parse(&book.accent).unwrap_or(Colour(0, 0, 0)));
        let front = json!({
            "kind": self.name(),
            "chapters": self.chapters(book),
            "paper": { "name": setting.paper.name(), "width": width, "height": height,
                       "margins": setting.paper.margins_mm() },
            "print": setting.print,
            "accent": accent,
            "language": book.language,
            "region": book.region,
            "title": book.title,
            "production": book.production,
            "maker": book.maker,
            "edition": book.edition,
            "sizes": book.sizes,
            "cover": book.cover,
            "both_systems": both_systems(book),
        });
        let mut files = vec![file("/data/front.json", &front)?];
        files.push(file("/data/words.json", &words.words)?);
        files.push(file("/data/refs.json", &refs(book))?);
        files.push(file("/data/cutting.json", &book.cutting)?);
        files.push(file("/data/layouts.json", &book.layouts)?);
        files.push(file("/data/making.json", &book.making)?);
        files.push(file("/data/glance.json", &book.glance)?);
        files.push(file("/data/before.json", &book.before)?);
        files.push(file("/data/swatch.json", &book.swatch)?);
        files.push(file("/data/pieces.json", &book.pieces)?);
        files.push(file("/data/steps.json", &book.steps)?);
        files.push(file("/data/cautions.json", &book.cautions)?);
        files.push(file("/data/glossary.json", &book.glossary)?);
        files.push(file("/data/terms.json", &book.terms)?);
        files.push(file("/data/changes.json", &book.changes)?);
        for figure in &book.figures {
            let mut words = serde_json::to_value(figure)?;
            if let Some(map) = words.as_object_mut() {
                map.remove("svg");
            }
            files.push(file(&format!("/data/figures/{}.json", figure.id), &words)?);
            files.push((format!("/data/figures/{}.svg", figure.id), figure.svg.clone().into_bytes()));
            for sign in &figure.key {
                files.push((format!("/data/key/{}.svg", sign.id), sign.svg.clone().into_bytes()));
            }
        }
        for sign in &book.before.key {
            files.push((format!("/data/key/{}.svg", sign.id), sign.svg.clone().into_bytes()));
        }
        Ok(files)
    }
}

fn file(path: &str, data: &impl Serialize) -> Result<(String, Vec<u8>), serde_json::Error> {
    Ok((path.to_string(), serde_json::to_vec(data)?))
}

/// Whether numbers stand in two systems of units.
fn both_systems(book: &Book) -> bool {
    let rows = book.glance.body.iter().chain(&book.glance.finished);
    rows.flat_map(|row| &row.cells).any(|cell| !cell.second.is_empty())
}

/// What can be linked to: numbers by kind and id, names of sections, and what carries the page.
fn refs(book: &Book) -> serde_json::Value {
    let numbers = |pairs: Vec<(&str, u32)>| -> BTreeMap<String, u32> {
        pairs.into_iter().map(|(id, number)| (id.to_string(), number)).collect()
    };
    let step = numbers(book.steps.iter().map(|step| (step.id.as_str(), step.number)).collect());
    let figures = book.figures.iter().filter_map(|figure| figure.number.map(|number| (figure.id.as_str(), number)));
    let figure = numbers(figures.collect());
    let piece = numbers(book.pieces.iter().map(|piece| (piece.id.as_str(), piece.number)).collect());
    let swatches = book.swatch.iter().flat_map(|chapter| &chapter.swatches);
    let section: BTreeMap<&str, &str> = swatches.map(|swatch| (swatch.id.as_str(), swatch.name.as_str())).collect();
    let chapters = DocKind::Booklet.chapters(book);
    let mut page = BTreeMap::new();
    // The first kind that has an id carries its page.
    page.extend(figure.keys().map(|id| (id.as_str(), format!("figure-{id}"))));
    page.extend(piece.keys().map(|id| (id.as_str(), format!("piece-{id}"))));
    page.extend(step.keys().map(|id| (id.as_str(), format!("step-{id}"))));
    page.extend(section.keys().chain(&chapters).map(|id| (*id, format!("section-{id}"))));
    json!({ "step": step, "figure": figure, "piece": piece, "section": section, "page": page })
}
