//! Cutting layouts.

use serde::{Deserialize, Serialize};

use crate::prose::{Block, StripRow};

/// The layouts of an edition.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layouts {
    /// How to read a layout and lay a cloth by it.
    #[serde(default)]
    pub intro: Vec<Block>,
    /// How much to buy of each cloth, by width and size.
    #[serde(default)]
    pub lengths: Vec<ClothLengths>,
    /// The layouts, in the order of cloths, widths and sizes.
    #[serde(default)]
    pub pages: Vec<LayoutPage>,
}

/// How much of a cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClothLengths {
    /// The cloth.
    pub name: String,
    /// What it is for; may be empty.
    #[serde(default)]
    pub role: String,
    /// For each width: to buy, and what of it is laid.
    pub rows: Vec<StripRow>,
}

/// One cloth at one width, for the sizes that share an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LayoutPage {
    /// The cloth.
    pub cloth: String,
    /// What it is for; may be empty.
    #[serde(default)]
    pub role: String,
    /// The width, in words.
    pub width: String,
    /// The sizes.
    pub sizes: Vec<String>,
    /// Whether it stands in the booklet too.
    pub booklet: bool,
    /// How to spread the cloth, what is left over, why it is not folded otherwise.
    pub words: Vec<Block>,
    /// To buy, and what of it is laid: one cell a size of the page.
    pub lengths: Vec<StripRow>,
    /// One part of the cloth after the other.
    pub sections: Vec<LayoutSection>,
}

/// A part of the cloth as it lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LayoutSection {
    /// How it lies, in a line.
    pub title: String,
    /// Its drawing, by its id.
    pub figure: String,
    /// What distances across are measured from: `from the fold`.
    pub edge: String,
    /// Where the pieces lie, from the beginning of the cloth.
    pub places: Vec<LayoutPlace>,
}

/// Where a piece lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LayoutPlace {
    /// Its number.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// How it lies, in words.
    pub lies: String,
    /// From the beginning of the cloth, one cell a size of the page.
    pub along: StripRow,
    /// From the edge, one cell a size of the page.
    pub across: StripRow,
}
