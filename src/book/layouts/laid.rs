//! Layouts as they are kept, drawn and exported.

use serde::{Deserialize, Serialize};

use crate::lay::cloth::{Folding, SectionKind, Spare};
use crate::units::{Area, Length};

/// How much of a cloth one size takes at one width, from its layout.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClothNeed {
    /// The cloth.
    pub cloth: String,
    /// The size.
    pub size: String,
    /// The width on offer.
    pub width: Length,
    /// The width that can be used: washed, without selvages.
    pub usable: Length,
    /// How it is spread.
    pub folding: Folding,
    /// The length laid out, of washed cloth.
    pub laid: Length,
    /// The length to buy: unwashed, with what straightening takes.
    pub buy: Length,
    /// The length no layout can go below: area of the pieces over the usable width.
    pub bound: Length,
    /// The area of the pieces, or of their blocks.
    pub area: Area,
    /// The other ways to spread it that the maker allows.
    pub others: Vec<Tried>,
}

impl ClothNeed {
    /// The share of the cloth laid out that the pieces cover, 0 to 1.
    #[must_use]
    pub fn density(&self) -> f64 {
        self.bound / self.laid
    }
}

/// A way to spread the cloth that was not taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tried {
    /// The way.
    pub folding: Folding,
    /// The length it takes, if it is possible.
    pub length: Option<Length>,
    /// Why it is not possible, in words with millimetres.
    pub reasons: Vec<String>,
}

/// A cloth laid: one size, one width.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LaidCloth {
    /// What it comes to.
    pub need: ClothNeed,
    /// The space between pieces.
    pub gap: Length,
    /// One section after the other along the cloth.
    pub sections: Vec<LaidSection>,
}

/// A section of the cloth. Places are in mm: x along the cloth from its cut end (or from the crosswise fold), y across it
/// from the lower selvage, or from the fold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LaidSection {
    /// How the cloth lies here.
    pub kind: SectionKind,
    /// The length of the section as it lies.
    pub length: Length,
    /// Its width as it lies.
    pub width: Length,
    /// The length of cloth it takes: twice its length where it is folded crosswise.
    pub bought: Length,
    /// The largest rectangle left over, if it is worth keeping.
    pub spare: Option<Spare>,
    /// What lies on it, from the beginning of the cloth.
    pub pieces: Vec<LaidPiece>,
}

/// A piece where it lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LaidPiece {
    /// Its name in the file.
    pub piece: String,
    /// Its number in the cutting chart.
    pub number: u32,
    /// Its name on the pattern.
    pub title: String,
    /// Which copies of it this laying cuts, from 0; two on double cloth.
    pub copies: Vec<usize>,
    /// Whether it lies on the fold, as a half.
    pub on_fold: bool,
    /// Whether the pattern itself is one half.
    pub half_pattern: bool,
    /// Whether the half pattern is opened out to the whole.
    pub opened_out: bool,
    /// Whether the pattern lies face down.
    pub face_down: bool,
    /// How it is turned, degrees against the clock; 0 with its upper end away from the beginning of the cloth.
    pub degrees: i32,
    /// Whether the outline is a block to be trimmed later.
    pub block: bool,
    /// What is cut: corners, mm.
    pub outline: Vec<[f64; 2]>,
    /// The pattern piece within a block, or the half that was opened out; empty where it is the outline.
    pub pattern: Vec<[f64; 2]>,
}

impl LaidPiece {
    /// The box about its outline: least and greatest corner.
    #[must_use]
    pub fn bounds(&self) -> ([f64; 2], [f64; 2]) {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for p in &self.outline {
            for axis in 0..2 {
                low[axis] = low[axis].min(p[axis]);
                high[axis] = high[axis].max(p[axis]);
            }
        }
        (low, high)
    }
}
