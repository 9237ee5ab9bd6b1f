//! Which sizes an edition is for.

use serde::Serialize;

use crate::check::Garment;
use crate::words::{Catalogue, Word, catalogue};

/// The sizes of an edition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Selection {
    /// Their places in the size table.
    pub indexes: Vec<usize>,
    /// Their names.
    pub names: Vec<String>,
    /// In words: `All sizes`, `Size 12`, `Sizes 6 to 12`.
    pub words: String,
    /// For a file name: `all`, `size-12`, `sizes-6-12`.
    pub slug: String,
}

/// The words of the garment's language; a garment that was checked has them.
fn words(garment: &Garment) -> Option<&'static Catalogue> {
    catalogue(garment.language()).ok()
}

fn fill(garment: &Garment, word: Word, put: &[(&str, &str)]) -> String {
    words(garment).map(|words| words.fill(word, put)).unwrap_or_default()
}

impl Selection {
    /// All sizes of a garment.
    #[must_use]
    pub fn all(garment: &Garment) -> Selection {
        let names: Vec<String> = garment.sizes.iter().map(|size| size.name.clone()).collect();
        let words = match names.as_slice() {
            [only] => fill(garment, Word::SizeOne, &[("size", only)]),
            _ => fill(garment, Word::AllSizes, &[]),
        };
        Selection { indexes: (0..names.len()).collect(), words, slug: "all".to_string(), names }
    }

    /// One size, by its place in the table.
    #[must_use]
    pub fn one(garment: &Garment, index: usize) -> Option<Selection> {
        let name = garment.sizes.get(index)?.name.clone();
        Some(Selection {
            indexes: vec![index],
            words: fill(garment, Word::SizeOne, &[("size", &name)]),
            slug: format!("size-{}", name.to_lowercase()),
            names: vec![name],
        })
    }

    /// A run of sizes, both ends included, by their places in the table. None where it has not two sizes at least.
    #[must_use]
    pub fn range(garment: &Garment, from: usize, to: usize) -> Option<Selection> {
        let names: Vec<String> = garment.sizes.get(from..=to)?.iter().map(|size| size.name.clone()).collect();
        let [first, .., last] = names.as_slice() else { return None };
        Some(Selection {
            indexes: (from..=to).collect(),
            words: fill(garment, Word::SizeRange, &[("from", first), ("to", last)]),
            slug: format!("sizes-{}-{}", first.to_lowercase(), last.to_lowercase()),
            names,
        })
    }

    /// Whether it is for one size only.
    #[must_use]
    pub fn is_single(&self) -> bool {
        self.indexes.len() == 1
    }

    /// The size drawings are made from: the middle one.
    #[must_use]
    pub fn middle(&self) -> usize {
        self.indexes.get(self.indexes.len() / 2).copied().unwrap_or(0)
    }
}
