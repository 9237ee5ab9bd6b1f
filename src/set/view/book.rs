//! The whole view of one edition.

use serde::{Deserialize, Serialize};

use super::chapters::{Before, Caution, Change, Glance, Making, PieceCard, Step, SwatchChapter, Term};
use super::cutting::Cutting;
use super::figure::Figure;
use super::layouts::Layouts;
use crate::prose::Block;

/// Everything the documents of one edition are set from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Book {
    /// The garment's name.
    pub title: String,
    /// The production it was made for.
    #[serde(default)]
    pub production: Option<String>,
    /// Who made it.
    #[serde(default)]
    pub maker: Option<String>,
    /// Language of the text, an ISO 639 code: `en`.
    pub language: String,
    /// Region, an ISO 3166 code: `GB`.
    #[serde(default)]
    pub region: Option<String>,
    /// The garment's accent colour, `#rrggbb`. Darkened where it must carry text.
    pub accent: String,
    /// Which edition this is.
    pub edition: Edition,
    /// The sizes of this edition, in order. One for a single-size edition.
    pub sizes: Vec<String>,
    /// The figure on the cover, by its id.
    #[serde(default)]
    pub cover: Option<String>,
    /// What you will make.
    pub making: Making,
    /// At a glance.
    pub glance: Glance,
    /// Before you start.
    #[serde(default)]
    pub before: Before,
    /// The buyer's own swatches; left out if nothing is decided by a swatch.
    #[serde(default)]
    pub swatch: Option<SwatchChapter>,
    /// What is cut, of which cloth.
    pub cutting: Cutting,
    /// How the pieces are laid on the cloths.
    #[serde(default)]
    pub layouts: Layouts,
    /// The pieces, each with its picture.
    #[serde(default)]
    pub pieces: Vec<PieceCard>,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// Where work can hurt someone.
    #[serde(default)]
    pub cautions: Vec<Caution>,
    /// Words of the trade.
    #[serde(default)]
    pub glossary: Vec<Term>,
    /// The maker's terms to the buyer.
    #[serde(default)]
    pub terms: Vec<Block>,
    /// What changed, newest first.
    #[serde(default)]
    pub changes: Vec<Change>,
    /// Every figure the chapters name.
    #[serde(default)]
    pub figures: Vec<Figure>,
}

/// Which edition of a garment's documents this is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edition {
    /// The garment's version: `1.0.0`.
    pub version: String,
    /// Whom it is for, in words: `All sizes`, `Size 12`, `Sizes 6 to 12`.
    pub words: String,
    /// A remark under it on the cover (how the sizes run, what was assumed); may be empty.
    #[serde(default)]
    pub remark: String,
}
