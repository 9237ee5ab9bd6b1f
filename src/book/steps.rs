//! The steps.

use crate::check::Garment;
use crate::fault::{Code, Fault, Route};
use crate::prose::{Block, RefTarget, Run};
use crate::set::view::{Part, Seen, Step};
use crate::shape::StepShape;

use super::desk::Desk;
use super::figures::Drawings;

/// The id of a step: its own, or one from its place.
pub(super) fn step_id(step: &StepShape, index: usize) -> String {
    step.id.clone().unwrap_or_else(|| format!("step_{}", index + 1))
}

/// The id of a step's figure: the step's for the first, then with a number.
pub(super) fn figure_id(step: &StepShape, index: usize, at: usize) -> String {
    let id = step_id(step, index);
    if at == 0 { id } else { format!("{id}_{}", at + 1) }
}

pub(super) fn steps(desk: &Desk<'_>, drawings: &mut Drawings<'_, '_>) -> Vec<Step> {
    let home = Route::top().key("steps");
    let mut steps = Vec::new();
    for (index, shape) in desk.garment.shape.steps.iter().enumerate() {
        let route = home.index(index);
        let requests = shape.figure.iter().map(|request| (route.key("figure"), request)).chain(
            shape.more_figures.iter().enumerate().map(|(at, request)| (route.key("more_figures").index(at), request)),
        );
        let figures: Vec<String> = requests
            .enumerate()
            .filter_map(|(at, (route, request))| drawings.numbered(&route, request, &figure_id(shape, index, at)))
            .collect();
        letters(desk, drawings, &route.key("prose"), &shape.prose, &figures);
        let why = match &shape.why {
            Some(why) => desk.runs(&route.key("why"), why),
            None => Vec::new(),
        };
        steps.push(Step {
            id: step_id(shape, index),
            number: u32::try_from(index + 1).unwrap_or(u32::MAX),
            stage: shape.part.clone(),
            title: shape.title.clone(),
            why,
            needs: needs(desk, shape),
            parts: parts(desk.blocks(&route.key("prose"), &shape.prose), figures),
        });
    }
    steps
}

/// Warns of letters in brackets, `(A)`, that stand on no figure of the step.
fn letters(desk: &Desk<'_>, drawings: &Drawings<'_, '_>, route: &Route, prose: &str, figures: &[String]) {
    let shown = drawings.letters(figures);
    let mut told: Vec<char> = Vec::new();
    let text: Vec<char> = prose.chars().collect();
    for three in text.windows(3) {
        let [open, letter, close] = three else { continue };
        if *open != '(' || *close != ')' || !letter.is_ascii_uppercase() || told.contains(letter) {
            continue;
        }
        if !shown.iter().any(|other| *other == letter.to_string()) {
            told.push(*letter);
            let message = format!("the words name the letter `({letter})`, but no figure of this step has it");
            let help = if shown.is_empty() {
                "its figures have no letters".to_string()
            } else {
                format!("they have {}", shown.join(", "))
            };
            desk.fault(Fault::warning(Code::Figure, route.clone(), message).help(help));
        }
    }
}

/// The pieces a step uses, each a link to its card.
fn needs(desk: &Desk<'_>, shape: &StepShape) -> Vec<Run> {
    let mut runs = Vec::new();
    for name in &shape.pieces {
        let Some(piece) = desk.garment.shape.pieces.get(name) else { continue };
        if !runs.is_empty() {
            runs.push(Run::text(", "));
        }
        let number = desk.garment.shape.pieces.get_index_of(name).map_or(0, |at| at + 1);
        let text = format!("{} ({number})", piece.title);
        runs.push(Run::Ref { target: RefTarget::Piece, id: name.clone(), text });
    }
    runs
}

/// A step with one figure is one part. With more, its paragraphs are shared out among them, so that each picture
/// stands beside the words it belongs to.
fn parts(blocks: Vec<Block>, figures: Vec<String>) -> Vec<Part> {
    if figures.len() < 2 {
        return vec![Part { blocks, figures }];
    }
    let units = together(blocks);
    let share = units.len().div_ceil(figures.len()).max(1);
    let mut parts: Vec<Part> = Vec::new();
    let mut units = units.into_iter();
    for figure in figures {
        let blocks: Vec<Block> = units.by_ref().take(share).flatten().collect();
        match parts.last_mut() {
            Some(last) if blocks.is_empty() => last.figures.push(figure),
            _ => parts.push(Part { blocks, figures: vec![figure] }),
        }
    }
    if let Some(last) = parts.last_mut() {
        last.blocks.extend(units.flatten());
    }
    parts
}

/// Blocks that must not part: a paragraph with the strip under it, a note with what it is about.
fn together(blocks: Vec<Block>) -> Vec<Vec<Block>> {
    let mut units: Vec<Vec<Block>> = Vec::new();
    for block in blocks {
        match (&block, units.last_mut()) {
            (Block::Strip { .. } | Block::Note { .. } | Block::List { .. }, Some(last)) => last.push(block),
            _ => units.push(vec![block]),
        }
    }
    units
}

/// The steps that use a word of the glossary.
pub(super) fn seen(garment: &Garment, word: &str) -> Vec<Seen> {
    let wanted = word.to_lowercase();
    garment
        .shape
        .steps
        .iter()
        .enumerate()
        .filter(|(_, step)| {
            let text = format!("{} {} {}", step.title, step.why.as_deref().unwrap_or(""), step.prose).to_lowercase();
            text.contains(&wanted)
        })
        .map(|(index, step)| Seen { target: RefTarget::Step, id: step_id(step, index) })
        .collect()
}
