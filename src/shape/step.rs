//! Steps and cautions.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::expr::InputShape;

/// One step of the sewing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepShape {
    /// A name to refer to the step by, in `snake_case`: `[step: hem_first]`.
    #[serde(default)]
    pub id: Option<String>,
    /// The part of the work it begins: `The skirt`. Later steps belong to the same part.
    #[serde(default)]
    pub part: Option<String>,
    /// What is done: `Hem the skirt before you pleat it`.
    pub title: String,
    /// Why, in one sentence under the title.
    #[serde(default)]
    pub why: Option<String>,
    /// The words: paragraphs, lists, notes (`> `), numbers as `{{ skirt.pleats }}`.
    pub prose: String,
    /// The pieces used, by name.
    #[serde(default)]
    pub pieces: Vec<String>,
    /// The picture: its kind and what it shows.
    #[serde(default)]
    pub figure: Option<IndexMap<String, InputShape>>,
    /// Further pictures.
    #[serde(default)]
    pub more_figures: Vec<IndexMap<String, InputShape>>,
}

/// A caution: a matter of safety, and the maker's own words on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CautionShape {
    /// The matter: `flame`, `steam`, `pins`, `dye`, `lacing`, `cords`, `sleepwear`, `cutter` or a word of your own.
    pub about: String,
    /// The words.
    pub words: String,
}
