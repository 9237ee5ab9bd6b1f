//! One edition, chapter by chapter.

use std::collections::BTreeSet;

use crate::check::Garment;
use crate::fault::{Fault, Route};
use crate::prose::{Block, Refs, Run};
use crate::set::view::{Before, Book, Change, Edition, Making, Term, Tool};

use super::build::Build;
use super::cautions::cautions;
use super::cutting::cutting;
use super::desk::Desk;
use super::figures::Drawings;
use super::glance::glance;
use super::layouts::layouts;
use super::pieces::pieces;
use super::selection::Selection;
use super::steps::{step_id, steps};
use super::swatch::swatches;
use crate::words::{Word, catalogue, primary};

/// The accent of a garment that names none.
const ACCENT: &str = "#7a2e3a";
/// The chapters words may refer to.
const CHAPTERS: [&str; 11] =
    ["making", "glance", "before", "swatch", "cutting", "layouts", "pieces", "steps", "cautions", "glossary", "terms"];

/// The view of one edition.
///
/// # Errors
/// Faults of prose and figures, each with its place.
pub fn prepare(garment: &Garment, build: &Build, selection: &Selection) -> Result<Book, Vec<Fault>> {
    let shape = &garment.shape;
    let words = catalogue(garment.language())?;
    let desk = Desk::new(garment, build, selection, refs(garment), words);
    let top = Route::top();
    let accent = shape.accent.clone().unwrap_or_else(|| ACCENT.to_string());
    let mut drawings = Drawings::new(&desk, &accent);

    let mut views = Vec::new();
    for (route, request) in shape.view.iter().map(|request| (top.key("view"), request)).chain(
        shape.more_views.iter().enumerate().map(|(index, request)| (top.key("more_views").index(index), request)),
    ) {
        views.extend(drawings.view(&route, request, &format!("view-{}", views.len() + 1)));
    }
    let making = Making {
        blocks: desk.blocks(
            &top.key(if shape.about.is_some() { "about" } else { "summary" }),
            shape.about.as_deref().unwrap_or(&shape.summary),
        ),
        figures: views.clone(),
    };
    let steps = steps(&desk, &mut drawings);
    let swatch = swatches(&desk, &mut drawings);
    let pieces = pieces(&desk, &mut drawings);
    let tools = shape
        .tools
        .iter()
        .enumerate()
        .map(|(index, tool)| {
            let (name, note) = tool.split_once(':').unwrap_or((tool, ""));
            Tool { name: name.trim().to_string(), note: desk.runs(&top.key("tools").index(index), note.trim()) }
        })
        .collect();
    let glossary = shape
        .glossary
        .iter()
        .map(|(word, meaning)| Term {
            word: word.clone(),
            meaning: desk.runs(&top.key("glossary").key(word.as_str()), meaning),
            seen: super::steps::seen(garment, word),
        })
        .collect();
    let changes = shape
        .changes
        .iter()
        .enumerate()
        .map(|(index, change)| Change {
            version: change.edition.clone(),
            blocks: desk.blocks(&top.key("changes").index(index).key("words"), &change.words),
        })
        .collect();
    let remark = if selection.is_single() || garment.sizes.len() == 1 {
        String::new()
    } else {
        words.fill(Word::SizeList, &[("sizes", &selection.names.join(", "))])
    };
    let layouts = layouts(&desk, &mut drawings);
    let (figures, key) = drawings.finish();
    let book = Book {
        title: shape.title.clone(),
        production: shape.production.clone(),
        maker: shape.maker.clone(),
        language: primary(garment.language()).to_string(),
        region: garment.language().split_once('-').map(|(_, region)| region.to_string()),
        accent,
        edition: Edition { version: garment.edition.to_string(), words: selection.words.clone(), remark },
        sizes: selection.names.clone(),
        cover: views.first().cloned(),
        making,
        glance: glance(&desk),
        before: Before { blocks: measuring(&desk), tools, key },
        swatch,
        cutting: cutting(&desk),
        layouts,
        pieces,
        steps,
        cautions: cautions(&desk),
        glossary,
        terms: desk.blocks(&top.key("terms"), &shape.terms),
        changes,
        figures,
    };
    let faults = desk.into_faults();
    if faults.iter().any(Fault::stops) { Err(faults) } else { Ok(book) }
}

/// How each measurement is taken, as the size table says it.
fn measuring(desk: &Desk<'_>) -> Vec<Block> {
    let how = &desk.garment.shape.sizes.how;
    if how.is_empty() {
        return Vec::new();
    }
    let home = Route::top().key("sizes").key("how");
    let items = how
        .iter()
        .map(|(name, words)| {
            let mut name_words = name.replace('_', " ");
            if let Some(first) = name_words.get(..1).map(str::to_uppercase) {
                name_words.replace_range(..1, &first);
            }
            let mut runs = vec![Run::Text { text: format!("{name_words}. "), strong: true, emph: false }];
            runs.extend(desk.runs(&home.key(name.as_str()), words));
            runs
        })
        .collect();
    let first = desk.say(Word::MeasureFirst);
    vec![Block::Paragraph { runs: vec![Run::text(first)] }, Block::List { ordered: false, items }]
}

/// Everything words may refer to.
fn refs(garment: &Garment) -> Refs {
    let shape = &garment.shape;
    let figures = shape
        .steps
        .iter()
        .enumerate()
        .flat_map(|(index, step)| {
            let count = usize::from(step.figure.is_some()) + step.more_figures.len();
            (0..count).map(move |at| super::steps::figure_id(step, index, at))
        })
        .collect();
    let mut sections: BTreeSet<String> = CHAPTERS.iter().map(ToString::to_string).collect();
    sections.extend(shape.swatches.keys().cloned());
    Refs {
        steps: shape.steps.iter().enumerate().map(|(index, step)| step_id(step, index)).collect(),
        figures,
        pieces: shape.pieces.keys().cloned().collect(),
        sections,
        terms: shape.glossary.keys().cloned().collect(),
    }
}
