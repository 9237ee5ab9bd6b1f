//! Everything that changed, together.

use serde::Serialize;

use super::numbers::{NumberChange, changed_numbers};
use super::pages::{Document, DocumentChange, documents};
use super::pieces::{PieceChange, pieces};
use super::seams::{ClothChange, SeamChange, cloths, seams};
use super::steps::{StepChange, chapters, steps};
use crate::book::Account;

/// One side of a comparison.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// The garment.
    pub account: Account,
    /// Its documents, where they are known.
    pub documents: Option<Vec<Document>>,
}

/// What changed from one edition to another.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// The garment's title, as it is now.
    pub title: String,
    /// The old edition.
    pub old: String,
    /// The new edition.
    pub new: String,
    /// The edition this should be, where the one written is not enough.
    pub raise_to: Option<String>,
    /// Sizes that came in.
    pub sizes_in: Vec<String>,
    /// Sizes that went out.
    pub sizes_out: Vec<String>,
    /// Numbers by size; what the maker changed herself comes first.
    pub numbers: Vec<NumberChange>,
    /// Pieces.
    pub pieces: Vec<PieceChange>,
    /// Seams.
    pub seams: Vec<SeamChange>,
    /// Cloth to buy.
    pub cloths: Vec<ClothChange>,
    /// Steps.
    pub steps: Vec<StepChange>,
    /// Other chapters whose words changed.
    pub chapters: Vec<String>,
    /// Documents to upload again; none where the documents of a side are not known.
    pub documents: Option<Vec<DocumentChange>>,
}

impl Comparison {
    /// Whether nothing changed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        !self.numbers_changed() && !self.words_changed() && self.documents.as_ref().is_none_or(Vec::is_empty)
    }

    /// Whether something changed that a buyer cuts or sews by.
    #[must_use]
    pub fn numbers_changed(&self) -> bool {
        !(self.numbers.is_empty()
            && self.pieces.is_empty()
            && self.seams.is_empty()
            && self.cloths.is_empty()
            && self.sizes_in.is_empty()
            && self.sizes_out.is_empty())
    }

    /// Whether words or figures changed.
    #[must_use]
    pub fn words_changed(&self) -> bool {
        !(self.steps.is_empty() && self.chapters.is_empty())
    }
}

/// Compares two editions of a garment.
#[must_use]
pub fn compare(old: &Side, new: &Side) -> Comparison {
    let (a, b) = (&old.account, &new.account);
    let names = |account: &Account| account.sizes.iter().map(|sized| sized.size.clone()).collect::<Vec<_>>();
    let (before, after) = (names(a), names(b));
    let documents = old.documents.as_ref().zip(new.documents.as_ref()).map(|(old, new)| documents(old, new));
    let mut comparison = Comparison {
        title: b.title.clone(),
        old: a.edition.clone(),
        new: b.edition.clone(),
        raise_to: None,
        sizes_in: after.iter().filter(|size| !before.contains(size)).cloned().collect(),
        sizes_out: before.iter().filter(|size| !after.contains(size)).cloned().collect(),
        numbers: changed_numbers(&a.sizes, &b.sizes, b.systems),
        pieces: pieces(a, b),
        seams: seams(a, b),
        cloths: cloths(a, b),
        steps: steps(a, b),
        chapters: chapters(a, b),
        documents,
    };
    comparison.raise_to = raise_to(&comparison);
    comparison
}

/// The least edition the changes ask for: the first number where a buyer's numbers changed, the second where words or
/// figures did. None where the edition written is as high.
fn raise_to(comparison: &Comparison) -> Option<String> {
    let old = semver::Version::parse(&comparison.old).ok()?;
    let new = semver::Version::parse(&comparison.new).ok()?;
    let least = if comparison.numbers_changed() {
        semver::Version::new(old.major + 1, 0, 0)
    } else if comparison.words_changed() {
        semver::Version::new(old.major, old.minor + 1, 0)
    } else {
        return None;
    };
    // A misprint set right may be all that words changed by; any step up answers for that.
    let enough = if comparison.numbers_changed() { new >= least } else { new > old };
    (!enough).then(|| least.to_string())
}
