//! The chapters of a booklet.

use serde::{Deserialize, Serialize};

use crate::prose::{Block, Cell, RefTarget, Run, StripRow};

/// "What you will make".
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Making {
    /// What it is, how it is made, how long it takes.
    pub blocks: Vec<Block>,
    /// The drawn views beside the words, by their ids.
    #[serde(default)]
    pub figures: Vec<String>,
}

/// "At a glance": sizes, measurements, everything to buy.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Glance {
    /// Body measurements, a row each.
    pub body: Vec<StripRow>,
    /// Finished measurements, a row each.
    pub finished: Vec<StripRow>,
    /// Cloth to buy.
    pub cloths: Vec<ClothNeed>,
    /// Everything else to buy.
    pub notions: Vec<NotionNeed>,
}

/// One cloth to buy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClothNeed {
    /// Its name.
    pub name: String,
    /// What it is for: `outer cloth`; may be empty.
    #[serde(default)]
    pub role: String,
    /// What to look for when buying it.
    #[serde(default)]
    pub advice: Vec<Run>,
    /// How much, one row a width on offer.
    pub rows: Vec<StripRow>,
}

/// One notion to buy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotionNeed {
    /// Its name.
    pub name: String,
    /// How much, if it is the same in all sizes; else empty.
    #[serde(default)]
    pub amount: Vec<Run>,
    /// How much in each size, if it differs; else empty.
    #[serde(default)]
    pub rows: Vec<StripRow>,
    /// What it is for.
    #[serde(default)]
    pub note: Vec<Run>,
}

/// "Before you start".
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Before {
    /// Words of the maker's own, first.
    #[serde(default)]
    pub blocks: Vec<Block>,
    /// What to have at hand.
    #[serde(default)]
    pub tools: Vec<Tool>,
    /// Signs used in the drawings.
    #[serde(default)]
    pub key: Vec<KeyEntry>,
}

/// A tool and what it is for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tool {
    /// Its name.
    pub name: String,
    /// What it is for.
    #[serde(default)]
    pub note: Vec<Run>,
}

/// A sign used in the drawings: a small drawing and what it means.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeyEntry {
    /// The sign's name; the same name is the same sign everywhere. Named like a figure.
    pub id: String,
    /// The SVG's text.
    pub svg: String,
    /// Width in millimetres.
    pub width_mm: f64,
    /// Height in millimetres.
    pub height_mm: f64,
    /// What it means.
    pub words: String,
}

/// "My own swatch": pages to fill in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SwatchChapter {
    /// Why, and how to make and measure one.
    pub blocks: Vec<Block>,
    /// One form a swatch.
    pub swatches: Vec<Swatch>,
    /// What to do if hers differs from ours.
    pub differs: Vec<Block>,
}

/// One swatch to sew, measure and compare.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Swatch {
    /// Its id: a target of [`RefTarget::Section`] and [`RefTarget::Page`].
    pub id: String,
    /// Its name: `Two thicknesses of the wool`.
    pub name: String,
    /// What to sew: cloth, folds, width, stitch.
    pub sew: Vec<Block>,
    /// Figures that show it, by their ids.
    #[serde(default)]
    pub figures: Vec<String>,
    /// Our flat width, printed.
    pub flat: String,
    /// Our drawn-up width, printed.
    pub drawn: String,
    /// Our width eased out, printed; empty where it was not measured.
    #[serde(default)]
    pub eased: String,
    /// Our ratio, printed.
    pub ratio: String,
    /// What a range of results means, from tight to loose.
    #[serde(default)]
    pub results: Option<ResultTable>,
}

/// What a range of swatch results means for every size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ResultTable {
    /// What the cells say: `Pleats to make`.
    pub caption: String,
    /// Heads the first column: `If your 12 in draws up to`.
    pub head: String,
    /// From tight to loose.
    pub rows: Vec<ResultRow>,
}

/// One result of a swatch, and what it means.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ResultRow {
    /// The drawn-up width, printed.
    pub drawn: String,
    /// The ratio, printed.
    #[serde(default)]
    pub ratio: String,
    /// Whether it is ours.
    #[serde(default)]
    pub ours: bool,
    /// One cell a size.
    pub cells: Vec<Cell>,
}

/// One piece with its picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceCard {
    /// Its id: a target of [`RefTarget::Piece`].
    pub id: String,
    /// Its number.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// How many of which cloth, in words.
    pub cut: String,
    /// Its picture, by its id.
    #[serde(default)]
    pub figure: Option<String>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its id: a target of [`RefTarget::Step`].
    pub id: String,
    /// Its number.
    pub number: u32,
    /// A new stage of the work begins here: `The petticoat`.
    #[serde(default)]
    pub stage: Option<String>,
    /// What is done.
    pub title: String,
    /// Why.
    #[serde(default)]
    pub why: Vec<Run>,
    /// What it needs (pieces, notions), in a line; may be empty.
    #[serde(default)]
    pub needs: Vec<Run>,
    /// Its sub-steps: a page may break between them and nowhere else.
    pub parts: Vec<Part>,
}

/// One sub-step.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// The words.
    pub blocks: Vec<Block>,
    /// The figures that show it, by their ids: beside the words if they are narrow enough, else
    /// under them.
    #[serde(default)]
    pub figures: Vec<String>,
}

/// One caution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What it is about.
    pub title: String,
    /// What to do.
    pub blocks: Vec<Block>,
    /// Where it comes from: a standard, a sheet; may be empty.
    #[serde(default)]
    pub source: String,
}

/// One word of the trade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    /// The word.
    pub word: String,
    /// What it means.
    pub meaning: Vec<Run>,
    /// Where it is used; their pages are printed.
    #[serde(default)]
    pub seen: Vec<Seen>,
}

/// A place where a word is used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seen {
    /// What kind of place.
    pub target: RefTarget,
    /// Its id.
    pub id: String,
}

/// What one edition changed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// The version.
    pub version: String,
    /// What changed.
    pub blocks: Vec<Block>,
}
