//! How a piece is cut: counts, grain, allowances, and what becomes of its edges.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::either;
use crate::shape::expr::Expr;

/// How the pieces of one cloth lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum HowCutShape {
    /// All the same way round.
    #[default]
    Single,
    /// Each with its mirror image: one for the left, one for the right.
    Pair,
    /// Half drawn, cut with one edge on the fold of the cloth.
    Fold,
}

/// How often a piece is cut from one cloth, in full.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LongCut {
    /// How many: a bare number. A pair counts once, and so does a piece on the fold.
    pub count: Expr,
    /// `single`, `pair` or `fold`.
    #[serde(default)]
    pub how: HowCutShape,
    /// The grain in this cloth, where it is another than in the rest.
    #[serde(default)]
    pub grain: Option<GrainShape>,
    /// Written in the short form.
    #[serde(skip)]
    pub short: bool,
}

either!(
    /// How often a piece is cut from one cloth: `3`, `panels.count`, `1 pair`, `1 on fold`, or a mapping with
    /// `count` and `how`.
    CutShape,
    LongCut,
    |text| {
        let endings = [(" on fold", HowCutShape::Fold), (" pairs", HowCutShape::Pair), (" pair", HowCutShape::Pair)];
        for (ending, how) in endings {
            if let Some(count) = text.trim_end().strip_suffix(ending) {
                return LongCut { count: count.into(), how, grain: None, short: true };
            }
        }
        LongCut { count: text.into(), how: HowCutShape::Single, grain: None, short: true }
    }
);

/// The grain of a piece, in full: one of the keys.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LongGrain {
    /// `lengthwise` (down the page), `crosswise` or `bias`.
    #[serde(default)]
    pub word: Option<String>,
    /// The straight edge, guide or line (`a to b`) it runs along.
    #[serde(default)]
    pub along: Option<String>,
    /// The straight edge, guide or line it runs square to.
    #[serde(default)]
    pub across: Option<String>,
    /// The angle it is turned from down the page, clockwise.
    #[serde(default)]
    pub turned: Option<Expr>,
}

either!(
    /// The grain: `lengthwise`, `crosswise`, `bias`, or a mapping with `along`, `across` or `turned`.
    GrainShape,
    LongGrain,
    |text| LongGrain { word: Some(text.to_string()), ..LongGrain::default() }
);

/// What the allowance does at a corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CornerShape {
    /// Both cut lines run on until they meet; a very sharp point is clipped.
    Mitred,
    /// The allowance ends square to its own seam line, flush with the neighbour's cut line, so that the seam
    /// lies flat when it is pressed open.
    Squared,
    /// The neighbour's cut line is mirrored at this seam line, so that the edge fits when it is turned up: for
    /// hems and sleeve ends.
    FoldedBack,
    /// Cut across the point, one allowance away from the corner of the seam line.
    Clipped,
}

/// An allowance, in full.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LongAllowance {
    /// Its width, a length.
    pub width: Expr,
    /// The corners at both its ends; left out, `folded_back` for a hemmed edge, else `mitred`.
    #[serde(default)]
    pub corner: Option<CornerShape>,
    /// The corner where the edge begins, where it is another.
    #[serde(default)]
    pub start_corner: Option<CornerShape>,
    /// The corner where the edge ends, where it is another.
    #[serde(default)]
    pub end_corner: Option<CornerShape>,
    /// Written in the short form.
    #[serde(skip)]
    pub short: bool,
}

either!(
    /// An allowance: its width, or a mapping with `width` and `corner`.
    AllowanceShape,
    LongAllowance,
    |text| LongAllowance { width: text.into(), short: true, ..LongAllowance::default() }
);

/// What becomes of an edge that is not sewn to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FinishShape {
    /// Turned up and sewn.
    Hemmed,
    /// Faced with another piece.
    Faced,
    /// Bound with a strip.
    Bound,
    /// Piped, with the piping as its finish.
    Piped,
    /// Sewn, but to something that is no piece of this pattern: a zip, a ribbon.
    Sewn,
    /// Left as it is: a selvage, a raw edge that is meant.
    Free,
}
