//! The figures of an edition, for the page.

use serde_json::{Value, json};

use crate::prose::Run;
use crate::set::view::{Book, Figure};

/// Every figure of an edition: its words and labels, and where its drawing is.
pub(super) fn list(book: &Book) -> Value {
    let steps = |id: &str| {
        let found = book.steps.iter().find(|step| step.parts.iter().any(|part| part.figures.iter().any(|f| f == id)));
        found.map(|step| format!("Step {}: {}", step.number, step.title))
    };
    let piece = |id: &str| {
        let found = book.pieces.iter().find(|piece| piece.figure.as_deref() == Some(id));
        found.map(|piece| format!("Piece {}: {}", piece.number, piece.name))
    };
    let figures = book.figures.iter().map(|figure| {
        json!({
            "id": figure.id,
            "digest": digest(figure),
            "title": steps(&figure.id).or_else(|| piece(&figure.id)).unwrap_or_default(),
            "width": figure.width_mm,
            "height": figure.height_mm,
            "alt": figure.alt,
            "caption": plain(&figure.caption),
            "labels": figure.labels,
            "callouts": figure.callouts.iter().map(|callout| json!({
                "letter": callout.letter, "x": callout.x, "y": callout.y, "words": plain(&callout.words),
            })).collect::<Vec<_>>(),
        })
    });
    Value::Array(figures.collect())
}

/// Changes with the drawing.
pub(super) fn digest(figure: &Figure) -> String {
    crate::cache::Key::of("figure").bytes("svg", figure.svg.as_bytes()).key().hex().chars().take(16).collect()
}

fn plain(runs: &[Run]) -> String {
    let words = runs.iter().map(|run| match run {
        Run::Text { text, .. } | Run::Value { text, .. } => text.as_str(),
        Run::Mark { letter } => letter.as_str(),
        Run::Ref { id, text, .. } => {
            if text.is_empty() {
                id
            } else {
                text
            }
        }
    });
    words.collect()
}
