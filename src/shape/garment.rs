//! The whole garment file.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::cloth::ClothShape;
use super::expr::{Expr, InputShape, OneOrPerSize};
use super::join::JoinShape;
use super::piece::PieceShape;
use super::sheets::SheetsShape;
use super::sizes::SizesShape;
use super::step::{CautionShape, StepShape};
use crate::units::Systems;

/// A garment: everything a maker says about it. Any of the long parts may be the name of a YAML file in
/// the same folder instead (`steps: steps.yaml`).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GarmentShape {
    /// The name of the pattern.
    pub title: String,
    /// The edition, as three numbers: `1.0.0`. Raise the first when numbers change, the second when
    /// words or figures do, the third for a misprint.
    pub edition: String,
    /// What it is, in a sentence or two.
    pub summary: String,
    /// The language of the words, as a BCP 47 code: `en`.
    #[serde(default)]
    pub language: Option<String>,
    /// The production it was made for.
    #[serde(default)]
    pub production: Option<String>,
    /// Who made it.
    #[serde(default)]
    pub maker: Option<String>,
    /// The accent colour of the booklet, as `"#7a2e3a"`.
    #[serde(default)]
    pub accent: Option<String>,
    /// Which measuring system comes first.
    #[serde(default)]
    pub units: Option<Systems>,
    /// What the buyer may do with the pattern.
    pub terms: String,
    /// What changed in each edition, the newest first.
    #[serde(default)]
    pub changes: Vec<ChangeShape>,
    /// Paragraphs on what you will make, for the first spread.
    #[serde(default)]
    pub about: Option<String>,
    /// The drawn view of the finished garment for the cover and the first spread.
    #[serde(default)]
    pub view: Option<IndexMap<String, InputShape>>,
    /// Further views.
    #[serde(default)]
    pub more_views: Vec<IndexMap<String, InputShape>>,
    /// The size table.
    pub sizes: SizesShape,
    /// Finished measurements and other numbers to show at a glance.
    #[serde(default)]
    pub glance: Vec<GlanceShape>,
    /// The cloths, by name.
    pub cloths: IndexMap<String, ClothShape>,
    /// Everything else to buy.
    #[serde(default)]
    pub notions: Vec<NotionShape>,
    /// The tools, each in a few words.
    #[serde(default)]
    pub tools: Vec<String>,
    /// The swatches, as measured.
    #[serde(default)]
    pub swatches: IndexMap<String, SwatchShape>,
    /// The words of the swatch page.
    #[serde(default)]
    pub swatch_page: Option<String>,
    /// Numbers with a name: a formula for all sizes, or a list with one for each size.
    #[serde(default)]
    pub numbers: IndexMap<String, OneOrPerSize>,
    /// What is reckoned: each entry names a `technique` and feeds its inputs. Its results are named
    /// `entry.result` in formulas and prose.
    #[serde(default)]
    pub construction: IndexMap<String, IndexMap<String, InputShape>>,
    /// The pieces, by name.
    pub pieces: IndexMap<String, PieceShape>,
    /// The pattern sheets.
    #[serde(default)]
    pub sheets: Option<SheetsShape>,
    /// Which edges are sewn together.
    #[serde(default)]
    pub joins: Vec<JoinShape>,
    /// The steps of the sewing, in order.
    pub steps: Vec<StepShape>,
    /// Cautions.
    #[serde(default)]
    pub cautions: Vec<CautionShape>,
    /// Every trade term used, in your own words.
    #[serde(default)]
    pub glossary: IndexMap<String, String>,
}

/// What changed in an edition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChangeShape {
    /// The edition.
    pub edition: String,
    /// What changed, in words for buyers of the one before.
    pub words: String,
}

/// A number shown at a glance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GlanceShape {
    /// What it is.
    pub label: String,
    /// The formula.
    pub value: Expr,
}

/// Something else to buy.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NotionShape {
    /// What it is.
    pub title: String,
    /// How much: words with numbers as `{{ hooks.count }}`.
    pub amount: String,
    /// What to look for.
    #[serde(default)]
    pub note: Option<String>,
}

/// A swatch as measured: pleated or smocked, flat and drawn up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SwatchShape {
    /// Its name in words.
    #[serde(default)]
    pub title: Option<String>,
    /// Each cloth in it: `folded` over at the edge (two layers), `flat` (one), by cloth name.
    #[serde(default)]
    pub layers: IndexMap<String, String>,
    /// Its flat width.
    pub flat: Expr,
    /// Its width drawn up tight.
    pub tight: Expr,
    /// Its width eased out as far as it still looks right.
    #[serde(default)]
    pub eased: Option<Expr>,
    /// The stitch it was gauged with; one pleat takes two.
    pub stitch: Expr,
    /// What was seen.
    #[serde(default)]
    pub note: Option<String>,
}
