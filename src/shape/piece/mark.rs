//! Notches, darts, lines within a piece, drill marks.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::shape::expr::{Expr, Flag};

/// A notch: on an edge, by distance, by share, or at a point.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NotchShape {
    /// The edge.
    pub edge: String,
    /// How far along the seam line from where the edge begins, a length.
    #[serde(default)]
    pub by: Option<Expr>,
    /// How far along as a share of the edge, a bare number.
    #[serde(default)]
    pub share: Option<Expr>,
    /// A point on the edge.
    #[serde(default)]
    pub at: Option<String>,
    /// Measure from the far end.
    #[serde(default)]
    pub from_end: Flag,
    /// A double notch: by custom the back.
    #[serde(default)]
    pub double: Flag,
    /// Its name, to be met by a notch of the same name on the other edge.
    #[serde(default)]
    pub name: Option<String>,
}

/// Where the bulk of a dart is pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FoldTowardShape {
    /// Toward where the edge begins.
    #[default]
    Start,
    /// Toward where the edge ends.
    End,
}

/// A dart from an edge, or a dart with two points within the piece (leave `edge` out and give `above` and `below`).
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DartShape {
    /// The edge it opens on.
    #[serde(default)]
    pub edge: Option<String>,
    /// The middle of its mouth: how far along the edge, a length.
    #[serde(default)]
    pub by: Option<Expr>,
    /// The middle of its mouth as a share of the edge.
    #[serde(default)]
    pub share: Option<Expr>,
    /// The middle of its mouth as a point on the edge; for a dart with two points, its middle.
    #[serde(default)]
    pub at: Option<String>,
    /// The width taken in, a length.
    pub width: Expr,
    /// The point it runs to.
    #[serde(default)]
    pub tip: Option<String>,
    /// For a dart with two points: how far it reaches above its middle, a length.
    #[serde(default)]
    pub above: Option<Expr>,
    /// For a dart with two points: how far it reaches below its middle, a length.
    #[serde(default)]
    pub below: Option<Expr>,
    /// Which way it is pressed; the cut edge over the mouth is shaped for it.
    #[serde(default)]
    pub fold_toward: FoldTowardShape,
}

/// What a line within a piece is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MarkKindShape {
    /// To fold on.
    Fold,
    /// To stitch on.
    Stitch,
    /// A channel for a bone, cord or tape: give its middle line and its `width`.
    Channel,
    /// Where another part is placed.
    Place,
    /// The middle of the body.
    Centre,
    /// To slash or cut on.
    Cut,
    /// Rows for gathering stitches, with upright guide lines.
    Grid,
}

/// A line within a piece: `line`, `curve` or `arc` through points as for an edge; or `parallel` to an edge, `by` so
/// far inside; or, for a grid, rows parallel to an edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MarkShape {
    /// What it is for.
    pub kind: MarkKindShape,
    /// What the pattern calls it; left out, its name.
    #[serde(default)]
    pub title: Option<String>,
    /// The points of straight lines.
    #[serde(default)]
    pub line: Vec<String>,
    /// The points of a smooth curve.
    #[serde(default)]
    pub curve: Vec<String>,
    /// The three points of an arc.
    #[serde(default)]
    pub arc: Vec<String>,
    /// The edge it runs beside.
    #[serde(default)]
    pub parallel: Option<String>,
    /// How far inside that edge, a length; outside, in the allowance, where it is below nothing. For a grid, the
    /// distance of the first row.
    #[serde(default)]
    pub by: Option<Expr>,
    /// Begin so far along the edge, a length.
    #[serde(default)]
    pub start: Option<Expr>,
    /// End so far along the edge, a length.
    #[serde(default)]
    pub end: Option<Expr>,
    /// For a grid: how many rows, a bare number.
    #[serde(default)]
    pub rows: Option<Expr>,
    /// For a grid: the distance between rows, a length.
    #[serde(default)]
    pub apart: Option<Expr>,
    /// For a grid: the distance between upright guide lines along the edge, a length.
    #[serde(default)]
    pub every: Option<Expr>,
    /// The width of a channel, a length.
    #[serde(default)]
    pub width: Option<Expr>,
}

/// A drill mark.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrillShape {
    /// The point.
    pub at: String,
    /// What it marks: `eyelet`, `button`.
    #[serde(default)]
    pub title: Option<String>,
}
