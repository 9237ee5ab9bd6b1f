//! Trying a value: every size is worked out with it, and nothing is written.

use serde::Serialize;
use serde_json::Value;

use super::desk::{Desk, Shown};
use crate::compare::{NumberChange, changed_numbers};
use crate::fault::{Fault, FileText, Located, Place, Route, Seg, locate_json};
use crate::pipeline;
use crate::source::NodeKind;

/// The longest value, in characters.
const LONGEST: usize = 200;

/// What a value would do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tried {
    /// The line to write, as it would stand in the file.
    pub line: String,
    /// The file it stands in.
    pub file: String,
    /// The number of the line, from 1.
    pub at: usize,
    /// Every number that would change.
    pub numbers: Vec<NumberChange>,
    /// Faults and warnings the value would bring.
    pub faults: Vec<Value>,
}

/// Tries another value for one that is written in the garment file.
///
/// # Errors
/// In words, where there is no such value or the text cannot be one.
pub fn tried(desk: &Desk, shown: &Shown, route: &Route, text: &str) -> Result<Tried, String> {
    let text = text.trim();
    if text.is_empty() || text.chars().count() > LONGEST || text.chars().any(char::is_control) {
        return Err(format!("expected a value of 1 to {LONGEST} characters in one line"));
    }
    let mut source = shown.source.clone();
    let place = Place::Value(route.clone());
    let Some(Located { file, line, .. }) = Located::of(&place, &source as &dyn FileText) else {
        return Err(format!("there is no `{route}` in the garment file"));
    };
    let known = super::inputs::inputs(&source).iter().any(|input| input.route == *route);
    let node = source.root.as_mut().and_then(|root| root.walk_mut(route)).filter(|_| known);
    let Some(node) = node else { return Err(format!("`{route}` is not a value that can be tried")) };
    node.kind = NodeKind::Scalar { text: text.to_string(), plain: true };
    let (sizes, faults) = pipeline::sizes_of(&source);
    let numbers = match sizes {
        Some(sizes) if !faults.iter().any(Fault::stops) => {
            changed_numbers(&shown.build.sizes, &sizes, shown.build.systems)
        }
        _ => Vec::new(),
    };
    let before = desk.faults();
    let faults = faults.iter().map(|fault| locate_json(fault, &shown.source));
    let faults = faults.filter(|fault| !before.contains(fault)).collect();
    Ok(Tried { line: written(route, text), file, at: line, numbers, faults })
}

/// A value as it is written behind its key; in quotes where YAML would read something else.
fn written(route: &Route, text: &str) -> String {
    let first = text.chars().next().unwrap_or(' ');
    let odd = "-?:,[]{}#&*!|>'\"%@`".contains(first)
        || text.contains(": ")
        || text.contains(" #")
        || text.ends_with(':')
        || text.contains(['[', ']', '{', '}', ',']);
    let value = if odd { format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"")) } else { text.to_string() };
    match route.0.last() {
        Some(Seg::Key(key)) => format!("{key}: {value}"),
        _ => format!("- {value}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_reads_back_as_the_value() {
        let route = Route::top().key("numbers").key("stitch");
        for text in ["1/4 in", "waist / 4 + 1/2 in", "2 1/2\"", "if(a > 2, 3, 4)", "- 3 in", "yes: no", "a #b", "12"] {
            let line = written(&route, text);
            let back: std::collections::BTreeMap<String, serde_yaml::Value> = serde_yaml::from_str(&line).unwrap();
            let value = &back["stitch"];
            let value = value.as_str().map_or_else(|| value.as_u64().unwrap_or(0).to_string(), str::to_string);
            assert_eq!(value, text, "{line}");
        }
    }
}
