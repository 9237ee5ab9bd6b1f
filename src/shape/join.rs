//! Which edges are sewn together.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::expr::{Expr, Flag};
use super::piece::either;

/// A seam: edges of one side, and the edges of the other side they are sewn to. Both sides are measured along the
/// seam line. Where the edges begin they meet, unless `turned` says otherwise.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JoinShape {
    /// What the seam is called: `side seam`.
    #[serde(default)]
    pub title: Option<String>,
    /// The edges of the side that may be fuller, one after the other: `[skirt_panel.top]`.
    pub sew: Vec<EdgeUseShape>,
    /// The edges they are sewn to, one after the other: `[waistband.bottom]`.
    pub to: Vec<EdgeUseShape>,
    /// The start of the one side meets the end of the other.
    #[serde(default)]
    pub turned: Flag,
    /// How much longer `sew` is, a length to be eased in; below nothing, stretched.
    #[serde(default)]
    pub ease: Option<Expr>,
    /// How much longer `sew` is, as a share of `to`: `3 %`.
    #[serde(default)]
    pub ease_share: Option<Expr>,
    /// How many times as long `sew` is, a bare number: gathers, pleats. `skirt.ratio`.
    #[serde(default)]
    pub ratio: Option<Expr>,
    /// The least that `sew` may be longer, a length or a share, where a band and no fixed ease is declared.
    #[serde(default)]
    pub least: Option<Expr>,
    /// The most that `sew` may be longer, a length or a share.
    #[serde(default)]
    pub most: Option<Expr>,
    /// How far the lengths may miss each other, a length; left out, 1 mm.
    #[serde(default)]
    pub within: Option<Expr>,
    /// What is taken from the length of `sew` before it is sewn on, a length: an opening, a lap, a pleat.
    #[serde(default)]
    pub less: Option<Expr>,
    /// What is taken from the length of `to`, a length: an underlap.
    #[serde(default)]
    pub to_less: Option<Expr>,
    /// The notches of the two sides need not meet.
    #[serde(default)]
    pub free_notches: Flag,
    /// Edges that run on across this seam, in twos: `{ from: front.armhole, into: back.armhole }`. Where the seam is
    /// sewn they must make one smooth line.
    #[serde(default)]
    pub runs_on: Vec<RunOnShape>,
}

/// Two edges that make one line across a seam.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunOnShape {
    /// The edge on the one piece: `front.armhole`.
    pub from: String,
    /// The edge on the other: `back.armhole`.
    pub into: String,
    /// The kink that is still smooth, an angle; left out, 3 deg.
    #[serde(default)]
    pub within: Option<Expr>,
}

/// An edge in a seam, in full.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LongEdgeUse {
    /// The edge: `skirt_panel.top`.
    pub edge: String,
    /// How often it comes one after the other, a bare number: as many as there are panels; left out, 1.
    #[serde(default)]
    pub times: Option<Expr>,
    /// It runs the other way.
    #[serde(default)]
    pub turned: Flag,
}

either!(
    /// An edge in a seam: `skirt_panel.top`, or a mapping with `edge` and `times` or `turned`.
    EdgeUseShape,
    LongEdgeUse,
    |text| LongEdgeUse { edge: text.to_string(), ..LongEdgeUse::default() }
);
