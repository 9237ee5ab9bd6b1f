//! The pattern sheets.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What sheets are printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SheetFormatShape {
    /// Tiles on A4.
    A4,
    /// Tiles on US letter.
    Letter,
    /// A0, for a copy shop.
    A0,
    /// A roll 36 in wide, for a copy shop.
    Roll,
    /// One page for a projector.
    Projector,
}

/// Where a piece is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum OnSheetShape {
    /// Printed on the sheets.
    Sheet,
    /// Left to the measures of the cutting chart, to save paper.
    Chart,
}

/// When seam lines are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SeamLinesShape {
    /// On sheets of one size; sheets of all sizes have the cut lines alone.
    OneSize,
    /// On all sheets.
    Always,
    /// On none.
    Never,
}

/// How tiles are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum JoiningShape {
    /// Each tile lies on a flap of the next.
    Glued,
    /// Cut on all four sides and taped edge to edge; takes a little less paper.
    Butted,
}

/// How much ink is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum InkShape {
    /// Lines as thick as they are best seen.
    Full,
    /// Thin lines and no tints.
    Saving,
}

/// The pattern sheets. Leave it out for A4 and US letter in each size and in all sizes nested, and A0, a 36 in roll and a
/// projector file with all sizes nested.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SheetsShape {
    /// The formats in which each size has a file of its own; left out, `[a4, letter]`.
    #[serde(default)]
    pub one_size: Option<Vec<SheetFormatShape>>,
    /// The formats in which all sizes are nested in one file; left out, `[a4, letter, a0, roll, projector]`.
    #[serde(default)]
    pub nested: Option<Vec<SheetFormatShape>>,
    /// Which pieces are printed and which are left to the chart: `{ skirt_panel: chart, strap: sheet }`. Left out, a plain
    /// rectangle with nothing to mark in it is left to the chart, and every other piece that is cut is printed.
    #[serde(default)]
    pub pieces: IndexMap<String, OnSheetShape>,
    /// When seam lines are drawn; left out, `one-size`.
    #[serde(default)]
    pub seam_lines: Option<SeamLinesShape>,
    /// How tiles are joined; left out, `glued`.
    #[serde(default)]
    pub joining: Option<JoiningShape>,
    /// How much ink is used; left out, `full`.
    #[serde(default)]
    pub ink: Option<InkShape>,
}
