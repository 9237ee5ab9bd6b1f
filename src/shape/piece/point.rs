//! Points and edges as written.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::shape::expr::{Expr, Flag};

/// A point. Give one of: `x` and `y`; `from` with `right`, `left`, `down`, `up`; `from` with `toward` and
/// `by` or `share`; `from` with `angle` and `by`; `from` with `reach` and `on`; `on` with `by` or `share`; `cross`;
/// `mirror` with `over`; `turn` with `about` and `angle`; `foot` with `on`; `square_off` with `by` or `share` and
/// `out`; `same_as`.
///
/// Where a line is asked for, write an edge or guide by name, or `a to b` for the straight line through two
/// points, which runs on past both.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PointShape {
    /// How far to the right of the origin, a length.
    #[serde(default)]
    pub x: Option<Expr>,
    /// How far below the origin, a length.
    #[serde(default)]
    pub y: Option<Expr>,
    /// The point to start from.
    #[serde(default)]
    pub from: Option<String>,
    /// How far to the right of `from`, a length.
    #[serde(default)]
    pub right: Option<Expr>,
    /// How far to the left of `from`, a length.
    #[serde(default)]
    pub left: Option<Expr>,
    /// How far below `from`, a length.
    #[serde(default)]
    pub down: Option<Expr>,
    /// How far above `from`, a length.
    #[serde(default)]
    pub up: Option<Expr>,
    /// The point towards which to go from `from`, straight.
    #[serde(default)]
    pub toward: Option<String>,
    /// How far along, a length (below nothing: the other way).
    #[serde(default)]
    pub by: Option<Expr>,
    /// How far along as a share of the whole, a bare number: `1/2`, `40 %`.
    #[serde(default)]
    pub share: Option<Expr>,
    /// The direction to go in, an angle: 0 is right, 90 deg is down.
    #[serde(default)]
    pub angle: Option<Expr>,
    /// How far `from` the point must be, a length: the tape swung round `from` until it meets `on`.
    #[serde(default)]
    pub reach: Option<Expr>,
    /// The edge, guide or line on which the point lies.
    #[serde(default)]
    pub on: Option<String>,
    /// Measure `by` or `share` from the far end.
    #[serde(default)]
    pub from_end: Flag,
    /// Two edges, guides or lines that cross at the point.
    #[serde(default)]
    pub cross: Vec<String>,
    /// Where there are several such points, the one nearest to this point is meant.
    #[serde(default)]
    pub near: Option<String>,
    /// The point whose mirror image it is.
    #[serde(default)]
    pub mirror: Option<String>,
    /// The line `a to b` that is the mirror.
    #[serde(default)]
    pub over: Option<String>,
    /// The point that is turned to this place.
    #[serde(default)]
    pub turn: Option<String>,
    /// The point about which it is turned.
    #[serde(default)]
    pub about: Option<String>,
    /// The point from which a line is dropped square onto `on`.
    #[serde(default)]
    pub foot: Option<String>,
    /// The edge, guide or line off which the point is squared, at `by` or `share` along it.
    #[serde(default)]
    pub square_off: Option<String>,
    /// How far square off, a length: to the right hand as you go along; below nothing, to the left.
    #[serde(default)]
    pub out: Option<Expr>,
    /// A point of another piece: `bodice_front.underarm`.
    #[serde(default)]
    pub same_as: Option<String>,
}

/// A line through points: one of `line`, `curve`, `arc` and `along`. A point of another piece is named with it: `block.underarm`.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EdgeShape {
    /// The points it runs through, straight from each to the next.
    #[serde(default)]
    pub line: Vec<String>,
    /// The points it runs through as one smooth curve.
    #[serde(default)]
    pub curve: Vec<String>,
    /// Three points of a circle; or two, with `radius`.
    #[serde(default)]
    pub arc: Vec<String>,
    /// The guide, or the edge or guide of another piece (`block.armhole`), of which it is a part: from `from` to `to`.
    #[serde(default)]
    pub along: Option<String>,
    /// The point on `along` where it begins; left out, where that begins.
    #[serde(default)]
    pub from: Option<String>,
    /// The point on `along` where it ends; left out, where that ends.
    #[serde(default)]
    pub to: Option<String>,
    /// The radius of an arc between two points, a length: it bulges to the left hand as you go along; below
    /// nothing, to the right.
    #[serde(default)]
    pub radius: Option<Expr>,
    /// The curve sets out in the direction of this line: `a to b`.
    #[serde(default)]
    pub start_along: Option<String>,
    /// The curve sets out square to this line: `a to b`.
    #[serde(default)]
    pub start_square: Option<String>,
    /// The curve arrives in the direction of this line: `a to b`.
    #[serde(default)]
    pub end_along: Option<String>,
    /// The curve arrives square to this line: `a to b`.
    #[serde(default)]
    pub end_square: Option<String>,
    /// How strongly the curve keeps to its direction at the start, as a share of the way to the next point; left out, 1/3.
    #[serde(default)]
    pub start_pull: Option<Expr>,
    /// How strongly the curve keeps to its direction at the end; left out, 1/3.
    #[serde(default)]
    pub end_pull: Option<Expr>,
}
