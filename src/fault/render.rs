//! Showing faults: for people with the source text, for programs as JSON.

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use serde_json::{Value, json};

use super::{Fault, Place, Severity, Span};

/// The name and text of a file, for showing.
pub trait FileText {
    /// The path as the maker knows it, and the text.
    fn file(&self, span: Span) -> Option<(&str, &str)>;
    /// The bytes a place stands for.
    fn span(&self, place: &Place) -> Option<Span>;
}

/// A place in lines and columns, both counted from 1; columns count characters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Located {
    /// The path as the maker knows it.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl Located {
    /// Where a place is, if it is anywhere.
    #[must_use]
    pub fn of(place: &Place, files: &dyn FileText) -> Option<Located> {
        let span = files.span(place)?;
        let (file, text) = files.file(span)?;
        let before = text.get(..span.start.min(text.len()))?;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Some(Located {
            file: file.to_string(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
        })
    }
}

/// One fault as JSON: code, severity, message, file, line, column, help.
#[must_use]
pub fn locate_json(fault: &Fault, files: &dyn FileText) -> Value {
    let place = Located::of(&fault.place, files);
    json!({
        "code": fault.code.name(),
        "severity": fault.severity,
        "message": fault.message,
        "file": place.as_ref().map(|p| p.file.clone()),
        "line": place.as_ref().map(|p| p.line),
        "column": place.as_ref().map(|p| p.column),
        "label": fault.label,
        "help": fault.help,
    })
}

/// One fault for a person, with the lines it is about.
#[must_use]
pub fn render_human(fault: &Fault, files: &dyn FileText, colours: bool) -> String {
    let level = match fault.severity {
        Severity::Fault => Level::ERROR.with_name("fault"),
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(fault.message.as_str()).id(fault.code.name());
    let marks: Vec<(Span, &str, AnnotationKind)> =
        std::iter::once((&fault.place, fault.label.as_str(), AnnotationKind::Primary))
            .chain(fault.also.iter().map(|(place, label)| (place, label.as_str(), AnnotationKind::Context)))
            .filter_map(|(place, label, kind)| Some((files.span(place)?, label, kind)))
            .collect();
    let mut group = Group::with_title(title);
    let mut done = Vec::new();
    for &(span, ..) in &marks {
        if done.contains(&span.file) {
            continue;
        }
        done.push(span.file);
        let Some((path, text)) = files.file(span) else { continue };
        let annotations = marks.iter().filter(|(other, ..)| other.file == span.file).map(|(other, label, kind)| {
            let (start, end) = clamp(text, other.start, other.end);
            let label = Some(*label).filter(|text| !text.is_empty());
            kind.span(start..end).label(label)
        });
        group = group.element(Snippet::source(text).path(path).line_start(1).annotations(annotations));
    }
    if let Some(help) = &fault.help {
        group = group.element(Level::HELP.message(help.as_str()));
    }
    let renderer = if colours { Renderer::styled() } else { Renderer::plain() };
    renderer.render(&[group])
}

/// Keeps a stretch inside the text, on character borders, and on its first line.
fn clamp(text: &str, start: usize, end: usize) -> (usize, usize) {
    let start = floor(text, start.min(text.len()));
    let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
    let end = floor(text, end.min(line_end)).max(start);
    (start, end)
}

fn floor(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}
