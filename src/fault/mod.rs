//! Faults and warnings as data, and how they are shown.
//!
//! A stage that finds something wrong returns a [`Fault`]: what is wrong ([`Code`]), where
//! ([`Place`]), what was expected, what was found and how to mend it. Nothing is printed here; the
//! command line shows a list of faults with [`render_human`] or as JSON.

mod code;
mod place;
mod render;

pub use code::{ALL_CODES, Code};
pub use place::{FileId, Place, Route, Seg, Span};
pub use render::{FileText, Located, locate_json, render_human};

use serde::{Deserialize, Serialize};

/// How bad it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The garment cannot be built.
    Fault,
    /// It can, but a teacher would say something.
    Warning,
}

/// One thing that is wrong, or that a maker should look at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// What kind of thing.
    pub code: Code,
    /// Fault or warning.
    pub severity: Severity,
    /// One line, lower case, names in back quotes: `expected a length, but found a bare number`.
    pub message: String,
    /// Where.
    pub place: Place,
    /// A word at the place, under the marked text; may be empty.
    pub label: String,
    /// Other places that belong to it, each with a word.
    pub also: Vec<(Place, String)>,
    /// How to mend it.
    pub help: Option<String>,
}

impl Fault {
    /// A fault at a place.
    #[must_use]
    pub fn new(code: Code, place: impl Into<Place>, message: impl Into<String>) -> Fault {
        Fault {
            code,
            severity: Severity::Fault,
            message: message.into(),
            place: place.into(),
            label: String::new(),
            also: Vec::new(),
            help: None,
        }
    }

    /// A warning at a place.
    #[must_use]
    pub fn warning(code: Code, place: impl Into<Place>, message: impl Into<String>) -> Fault {
        Fault { severity: Severity::Warning, ..Fault::new(code, place, message) }
    }

    /// With a word under the marked text.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Fault {
        self.label = label.into();
        self
    }

    /// With the remedy.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Fault {
        self.help = Some(help.into());
        self
    }

    /// With another place that belongs to it.
    #[must_use]
    pub fn also(mut self, place: impl Into<Place>, label: impl Into<String>) -> Fault {
        self.also.push((place.into(), label.into()));
        self
    }

    /// Whether it stops a build.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.severity == Severity::Fault
    }
}

/// The known name nearest to a misspelt one, if one is near enough to be meant.
#[must_use]
pub fn nearest<'a>(wrong: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let limit = (wrong.chars().count() / 3).max(1) + 1;
    known
        .into_iter()
        .map(|name| (strsim::damerau_levenshtein(wrong, name), name))
        .filter(|(distance, _)| *distance <= limit)
        .min()
        .map(|(_, name)| name)
}

/// A remedy for an unknown name: the nearest known one, else the list of what there is.
#[must_use]
pub fn did_you_mean(wrong: &str, known: &[&str]) -> String {
    if let Some(name) = nearest(wrong, known.iter().copied()) {
        return format!("did you mean `{name}`?");
    }
    let mut names: Vec<&str> = known.to_vec();
    names.sort_unstable();
    let more = names.len().saturating_sub(12);
    names.truncate(12);
    let list = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    match (names.is_empty(), more) {
        (true, _) => "there is nothing to name here yet".to_string(),
        (false, 0) => format!("known here: {list}"),
        (false, n) => format!("known here: {list} and {n} more"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearest_name() {
        assert_eq!(nearest("wasit", ["waist", "hip"]), Some("waist"));
        assert_eq!(nearest("sleeve", ["waist", "hip"]), None);
        assert!(did_you_mean("sleeve", &["waist", "hip"]).contains("`hip`, `waist`"));
    }
}
