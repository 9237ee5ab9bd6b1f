//! The values a maker can try: those she wrote herself.

use serde::Serialize;

use crate::fault::{FileText, Located, Place, Route};
use crate::source::{Node, NodeKind, Source};

/// A value of the garment file.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// The way to it, as formulas and faults name it: `swatches.wool.flat`.
    pub name: String,
    /// The way to it, key by key.
    pub route: Route,
    /// As it is written.
    pub text: String,
    /// The file it stands in.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
}

/// Every number, swatch measure and input of a technique that is written as one value.
#[must_use]
pub fn inputs(source: &Source) -> Vec<Input> {
    let Some(root) = &source.root else { return Vec::new() };
    let mut found = Vec::new();
    for (section, depth) in [("swatches", 2), ("numbers", 2), ("construction", 3)] {
        let Some(node) = root.get(section) else { continue };
        collect(source, node, &Route::top().key(section), depth, &mut found);
    }
    found
}

fn collect(source: &Source, node: &Node, route: &Route, depth: usize, found: &mut Vec<Input>) {
    match &node.kind {
        NodeKind::Scalar { text, .. } if !text.contains('\n') && !named(route) => {
            let place = Place::Value(route.clone());
            let Some(Located { file, line, .. }) = Located::of(&place, source as &dyn FileText) else { return };
            found.push(Input { name: route.to_string(), route: route.clone(), text: text.clone(), file, line });
        }
        NodeKind::Map(entries) if depth > 0 => {
            for entry in entries {
                collect(source, &entry.value, &route.key(entry.key.as_str()), depth - 1, found);
            }
        }
        NodeKind::List(list) if depth > 0 => {
            for (index, value) in list.iter().enumerate() {
                collect(source, value, &route.index(index), depth - 1, found);
            }
        }
        _ => {}
    }
}

/// Names of things and words, which are no values to try.
fn named(route: &Route) -> bool {
    matches!(route.0.last(), Some(crate::fault::Seg::Key(key)) if matches!(key.as_str(), "technique" | "title" | "note" | "swatch"))
}
