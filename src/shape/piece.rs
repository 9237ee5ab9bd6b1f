//! The pieces of a garment as written: outlines by formula, allowances, notches and marks.

mod body;
mod cut;
pub(super) mod either;
mod mark;
mod point;

pub use body::{
    BandShape, BodyShape, CasingShape, CircleShape, CopyShape, DepthShape, DipLineShape, DipShape, FacingShape,
    GoreRowShape, GoreShape, ImportShape, JoinedShape, MirroredShape, PanelShape, PlacketShape, SmockedShape,
    SplitShape, StripShape,
};
pub use cut::{
    AllowanceShape, CornerShape, CutShape, FinishShape, GrainShape, HowCutShape, LongAllowance, LongCut, LongGrain,
};
pub(super) use either::either;
pub use mark::{DartShape, DrillShape, FoldTowardShape, MarkKindShape, MarkShape, NotchShape};
pub use point::{EdgeShape, PointShape};

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::expr::Expr;

/// A pattern piece. All lengths and places are on the seam line, where the stitching runs; the cut line
/// follows from the allowances. Draw as on paper before you: `right` and `down` count up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PieceShape {
    /// The name on the pattern: `Skirt panel`.
    pub title: String,
    /// A remark for the cutting chart.
    #[serde(default)]
    pub note: Option<String>,
    /// How often it is cut, by cloth: `{ wool: 3 }`, `{ wool: 1 pair }`, `{ wool: 1 on fold }`.
    #[serde(default)]
    pub cut: IndexMap<String, CutShape>,
    /// Which way the grain runs; left out, `lengthwise`, down the page.
    #[serde(default)]
    pub grain: Option<GrainShape>,
    /// A ready-made or derived outline: its `kind` and what that kind needs. Leave it out where you draw the
    /// outline with `points` and `edges`.
    #[serde(default)]
    pub shape: Option<BodyShape>,
    /// Named points, each by a formula.
    #[serde(default)]
    pub points: IndexMap<String, PointShape>,
    /// The edges of the outline, one after the other all the way round. Each begins where the last one ended
    /// (or, written the other way about, ends there).
    #[serde(default)]
    pub edges: IndexMap<String, EdgeShape>,
    /// Lines to construct with; they are not printed.
    #[serde(default)]
    pub guides: IndexMap<String, EdgeShape>,
    /// Darts.
    #[serde(default)]
    pub darts: IndexMap<String, DartShape>,
    /// The straight edge that lies on the fold: the piece drawn is one half.
    #[serde(default)]
    pub fold: Option<String>,
    /// The straight edge that lies on the border of a cloth that has one.
    #[serde(default)]
    pub on_border: Option<String>,
    /// The point that lies on the repeat of a cloth that has one: pieces that must match each name the point at which they
    /// meet.
    #[serde(default)]
    pub on_repeat: Option<String>,
    /// The seam allowance of every edge not named in `allowances`, a length; left out, none.
    #[serde(default)]
    pub allowance: Option<Expr>,
    /// Seam or hem allowances of single edges: `{ hem: 2 in, side: { width: 1 in, corner: squared } }`.
    #[serde(default)]
    pub allowances: IndexMap<String, AllowanceShape>,
    /// What becomes of edges that are not sewn to another: `{ hem: hemmed, neck: faced, tie: free }`.
    #[serde(default)]
    pub finish: IndexMap<String, FinishShape>,
    /// Notches.
    #[serde(default)]
    pub notches: Vec<NotchShape>,
    /// Lines within the piece: fold lines, stitching lines, channels, grids, places.
    #[serde(default)]
    pub marks: IndexMap<String, MarkShape>,
    /// Drill marks: points to be marked through all layers.
    #[serde(default)]
    pub drills: Vec<DrillShape>,
    /// The point at which the name is printed; left out, the middle.
    #[serde(default)]
    pub label: Option<String>,
    /// Edges that need not grow from size to size.
    #[serde(default)]
    pub not_growing: Vec<String>,
}
