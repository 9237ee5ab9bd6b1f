//! A cloth to buy, and what laying pieces on it must know.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::expr::{Expr, Flag};

/// What a cloth is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RoleShape {
    /// Seen from outside.
    Outer,
    /// Under a sheer cloth, or under the garment.
    Under,
    /// Inside, next to the body.
    Lining,
    /// Between outer and lining, for strength.
    Interlining,
    /// Piping, binding, bands.
    Trim,
}

/// A way to spread the cloth for cutting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FoldingShape {
    /// One layer, right side up.
    OpenedOut,
    /// Folded along its length, selvages together.
    Lengthwise,
    /// Folded across, cut ends together. Never for one-way cloth.
    Crosswise,
    /// Folded along its length for what is cut double, then opened out for the rest.
    LengthwiseThenOpened,
    /// Folded across for what is cut double, then opened out for the rest. Never for one-way cloth.
    CrosswiseThenOpened,
    /// Both selvages folded to the middle, so that there are two folds.
    Doubled,
}

/// Which selvages a border runs along.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BorderAlongShape {
    /// One of them.
    OneSelvage,
    /// Both.
    BothSelvages,
}

/// A border printed or woven along the selvage. Pieces that lie on it name the edge with `on_border`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BorderShape {
    /// `one_selvage` or `both_selvages`.
    pub along: BorderAlongShape,
    /// How far the cut edge of a piece lies inside the usable width, a length; left out, on its very edge.
    #[serde(default)]
    pub inset: Option<Expr>,
}

/// The repeat of a print, a check or a stripe. Pieces that must match name a point with `on_repeat`; all of them then
/// start at the same place of the pattern.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepeatShape {
    /// Along the length, of washed cloth; left out for stripes along the length.
    #[serde(default)]
    pub along: Option<Expr>,
    /// Across the width, of washed cloth; left out for stripes across it.
    #[serde(default)]
    pub across: Option<Expr>,
}

/// A cloth to buy.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ClothShape {
    /// Its name on the shopping list: `mid-weight wool flannel`.
    pub title: String,
    /// What it is for.
    pub role: RoleShape,
    /// The widths on offer, each a length.
    pub widths: Vec<Expr>,
    /// The selvage that cannot be used, on each side; left out, 1/2 in.
    #[serde(default)]
    pub selvage: Option<Expr>,
    /// Its weight, as `280 g/m2` or `8 oz/yd2`.
    #[serde(default)]
    pub weight: Option<Expr>,
    /// Whether it has a nap, a one-way print or a shade, so that nothing may be turned end for end.
    #[serde(default)]
    pub one_way: Flag,
    /// Whether both sides are alike, so that a piece may be cut with either side up.
    #[serde(default)]
    pub either_side: Flag,
    /// The ways it may be spread for cutting, of which the one that takes the shortest length is shown; left out,
    /// `opened_out`, `lengthwise` and `lengthwise_then_opened`.
    #[serde(default)]
    pub foldings: Vec<FoldingShape>,
    /// The space between pieces for the shears, a length; left out, 3 mm.
    #[serde(default)]
    pub gap: Option<Expr>,
    /// A border along the selvage.
    #[serde(default)]
    pub border: Option<BorderShape>,
    /// The repeat of its pattern.
    #[serde(default)]
    pub repeat: Option<RepeatShape>,
    /// For cloth that is dyed, printed or pleated after cutting: pieces are cut as blocks with this margin all
    /// round, and trimmed to the pattern afterwards.
    #[serde(default)]
    pub block_margin: Option<Expr>,
    /// Shrinkage along the length, from a washed swatch: `4 %`.
    #[serde(default)]
    pub shrinks_along: Option<Expr>,
    /// Shrinkage across the width, from a washed swatch.
    #[serde(default)]
    pub shrinks_across: Option<Expr>,
    /// What to look for when buying.
    #[serde(default)]
    pub note: Option<String>,
}
