//! Typst's own complaints as faults.

use typst::diag::SourceDiagnostic;
use typst::{World, WorldExt};

use super::world::{Desk, name};
use crate::fault::{Code, Fault, Place};

/// Faults from typst's errors. They point into the templates, so they are ours to mend, not the
/// garment's author's; the message says where.
pub(super) fn faults(desk: &Desk, errors: &[SourceDiagnostic], doing: &str) -> Vec<Fault> {
    errors
        .iter()
        .map(|error| {
            let message = format!("{doing} failed: {}", described(desk, error));
            let fault = Fault::new(Code::Document, Place::Nowhere, message);
            match error.hints.first() {
                Some(hint) => fault.help(hint.v.to_string()),
                None => fault,
            }
        })
        .collect()
}

/// Typst's warnings in words.
pub(super) fn doubts(desk: &Desk, warnings: &[SourceDiagnostic]) -> Vec<String> {
    warnings.iter().map(|warning| described(desk, warning)).collect()
}

/// What is wrong, and where in the templates or data.
fn described(desk: &Desk, error: &SourceDiagnostic) -> String {
    let place = error.span.id().map(|id| match line(desk, error) {
        Some(line) => format!(" ({}:{line})", name(id)),
        None => format!(" ({})", name(id)),
    });
    format!("{}{}", error.message, place.unwrap_or_default())
}

/// The line an error points at, counted from 1.
fn line(desk: &Desk, error: &SourceDiagnostic) -> Option<usize> {
    let source = desk.source(error.span.id()?).ok()?;
    let range = desk.range(error.span)?;
    source.lines().byte_to_line(range.start).map(|line| line + 1)
}
