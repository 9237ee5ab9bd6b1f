//! Which sizes an edition is for.

use serde::Serialize;

use crate::check::Garment;

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

impl Selection {
    /// All sizes of a garment.
    #[must_use]
    pub fn all(garment: &Garment) -> Selection {
        let names: Vec<String> = garment.sizes.iter().map(|size| size.name.clone()).collect();
        if let [only] = names.as_slice() {
            return Selection { indexes: vec![0], words: format!("Size {only}"), slug: "all".to_string(), names };
        }
        Selection {
            indexes: (0..names.len()).collect(),
            words: "All sizes".to_string(),
            slug: "all".to_string(),
            names,
        }
    }

    /// One size, by its place in the table.
    #[must_use]
    pub fn one(garment: &Garment, index: usize) -> Option<Selection> {
        let name = garment.sizes.get(index)?.name.clone();
        Some(Selection {
            indexes: vec![index],
            words: format!("Size {name}"),
            slug: format!("size-{}", name.to_lowercase()),
            names: vec![name],
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
        self.indexes[self.indexes.len() / 2]
    }
}
