//! What prose may refer to.

use std::collections::BTreeSet;

use super::block::RefTarget;

/// The ids of everything a text may lead to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Refs {
    /// Steps.
    pub steps: BTreeSet<String>,
    /// Figures.
    pub figures: BTreeSet<String>,
    /// Pieces.
    pub pieces: BTreeSet<String>,
    /// Chapters and swatches.
    pub sections: BTreeSet<String>,
    /// Words of the glossary.
    pub terms: BTreeSet<String>,
}

/// The words that begin a reference.
pub(super) const TARGETS: [(&str, RefTarget); 6] = [
    ("step", RefTarget::Step),
    ("figure", RefTarget::Figure),
    ("piece", RefTarget::Piece),
    ("section", RefTarget::Section),
    ("page", RefTarget::Page),
    ("term", RefTarget::Term),
];

impl Refs {
    /// Everything of one kind there is.
    #[must_use]
    pub fn known(&self, target: RefTarget) -> Vec<&str> {
        let sets: &[&BTreeSet<String>] = match target {
            RefTarget::Step => &[&self.steps],
            RefTarget::Figure => &[&self.figures],
            RefTarget::Piece => &[&self.pieces],
            RefTarget::Section => &[&self.sections],
            RefTarget::Page => &[&self.sections, &self.steps],
            RefTarget::Term => &[&self.terms],
        };
        sets.iter().flat_map(|set| set.iter().map(String::as_str)).collect()
    }

    /// The id as it is kept, if there is one; words of the glossary may begin with a capital or not.
    #[must_use]
    pub fn find(&self, target: RefTarget, id: &str) -> Option<&str> {
        let known = self.known(target);
        let exact = known.iter().copied().find(|known| *known == id);
        if target != RefTarget::Term {
            return exact;
        }
        exact.or_else(|| known.into_iter().find(|known| known.to_lowercase() == id.to_lowercase()))
    }
}
