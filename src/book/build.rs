//! The sum of one garment in all sizes.

use serde::Serialize;

use super::layouts::{ClothNeed, LaidCloth, lay_cloths};
use crate::cache::Store;
use crate::check::Garment;
use crate::fault::Fault;
use crate::meet::{self, SeamReport, SizePieces};
use crate::size::SizedGarment;
use crate::units::{Length, Systems};

/// Everything worked out about a garment, in all its sizes. Every document and export is made from this.
#[derive(Debug, Clone, Serialize)]
pub struct Build {
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// Which measuring system comes first.
    pub systems: Systems,
    /// The sizes, the smallest first.
    pub sizes: Vec<SizedGarment>,
    /// How the seams meet.
    pub seams: SeamReport,
    /// How much of each cloth, by width and size.
    pub needs: Vec<ClothNeed>,
    /// The layouts these come from. Written out by themselves, a file a cloth and width.
    #[serde(skip)]
    pub layouts: Vec<LaidCloth>,
}

impl Build {
    /// Brings the sizes together: seams, cloth. `store` may hold layouts of earlier builds.
    #[must_use]
    pub fn new(garment: &Garment, sizes: Vec<SizedGarment>, store: &dyn Store) -> (Build, Vec<Fault>) {
        let by_size: Vec<SizePieces<'_>> = sizes
            .iter()
            .map(|sized| SizePieces { size: &sized.size, pieces: &sized.pieces, env: &sized.names })
            .collect();
        let (seams, mut faults) = meet::check(&garment.shape.joins, &by_size);
        let (layouts, more) = lay_cloths(garment, &sizes, store);
        faults.extend(more);
        let build = Build {
            title: garment.shape.title.clone(),
            edition: garment.edition.to_string(),
            systems: garment.shape.units.unwrap_or_default(),
            sizes,
            seams,
            needs: layouts.iter().map(|laid| laid.need.clone()).collect(),
            layouts,
        };
        (build, faults)
    }

    /// The layout of a cloth in a size at a width.
    #[must_use]
    pub fn laid(&self, cloth: &str, size: &str, width: Length) -> Option<&LaidCloth> {
        self.layouts.iter().find(|laid| laid.need.cloth == cloth && laid.need.size == size && laid.need.width == width)
    }
}
