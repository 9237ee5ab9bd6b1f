//! Outlines that are supplied, derived or imported.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::shape::expr::{Expr, Flag};

/// A ready-made outline. Rectangular ones have the edges `top`, `right`, `bottom`, `left` and the points `top_left`,
/// `top_right`, `bottom_right`, `bottom_left`; edges are written from the left and from the top.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum BodyShape {
    /// A straight panel, its top cut down for a dipped waist if asked.
    Panel(PanelShape),
    /// A strip: ruffle, binding, piping, tie.
    Strip(StripShape),
    /// A waistband, straight or following a dip.
    Band(BandShape),
    /// A part of a circle: skirt, flounce, cape.
    Circle(CircleShape),
    /// A gore, the same on both sides of its middle.
    Gore(GoreShape),
    /// The strip that binds an opening.
    Placket(PlacketShape),
    /// A casing.
    Casing(CasingShape),
    /// A panel smocked in straight rows: flat before, or as it lies when it is drawn up.
    Smocked(SmockedShape),
    /// Another piece, mirrored left to right.
    Mirrored(MirroredShape),
    /// A part of another piece, cut along a line.
    Split(SplitShape),
    /// Two pieces laid together along an edge and drawn as one.
    Joined(JoinedShape),
    /// A facing: a strip inside one edge of another piece.
    Facing(FacingShape),
    /// The same as another piece, or the same with edges moved: lining, interlining.
    Copy(CopyShape),
    /// An outline from a drawing in the garment's folder.
    Imported(ImportShape),
}

/// The line of a dip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DipLineShape {
    /// Straight from the waist to a true point.
    #[default]
    Straight,
    /// Half a wave: level at the waist, rounded at the point.
    HalfCosine,
    /// A parabola: rounded at the point, at an angle to the waist.
    Parabola,
}

/// A dip: the middle of an edge lies lower than its ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DipShape {
    /// The line.
    #[serde(default)]
    pub line: DipLineShape,
    /// The width of the dip on the body, straight across, a length.
    #[serde(default)]
    pub width: Option<Expr>,
    /// How far the centre lies below the level waist, a length.
    #[serde(default)]
    pub depth: Option<Expr>,
    /// Flat width over drawn-up width, a bare number; left out, 1.
    #[serde(default)]
    pub ratio: Option<Expr>,
    /// Where the centre of the dip lies: how far right of the panel's left edge, a length (below nothing: beyond it).
    /// Left out, the middle of the panel.
    #[serde(default)]
    pub centre: Option<Expr>,
    /// The depths themselves, on the flat cloth from the centre outward, in place of `width` and `depth`.
    #[serde(default)]
    pub depths: Vec<DepthShape>,
}

/// One mark of a dip on the flat cloth.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DepthShape {
    /// How far from the centre, along the flat edge, a length.
    pub out: Expr,
    /// How far down, a length.
    pub down: Expr,
}

/// A straight panel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PanelShape {
    /// Its width between the seam lines, a length.
    pub width: Expr,
    /// Its height between the seam line at the top (where it is level) and the hem line, a length.
    pub height: Expr,
    /// The top is cut down for a dipped waist.
    #[serde(default)]
    pub dip: Option<DipShape>,
}

/// A strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StripShape {
    /// Its length, along `top` and `bottom`, a length.
    pub length: Expr,
    /// Its width, a length.
    pub width: Expr,
    /// It is folded along its middle, which is marked.
    #[serde(default)]
    pub folded: Flag,
}

/// A waistband.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BandShape {
    /// Its length, straight across where it is level, a length.
    pub length: Expr,
    /// Its width, a length; folded, the whole width of the strip.
    pub width: Expr,
    /// It is folded along its middle, which is marked; a band that follows a dip cannot be.
    #[serde(default)]
    pub folded: Flag,
    /// What the right end runs on to lie under the left, a length.
    #[serde(default)]
    pub underlap: Option<Expr>,
    /// It follows a dip; the ratio is 1.
    #[serde(default)]
    pub dip: Option<DipShape>,
}

/// A part of a ring. Its edges are `top` (the smaller arc), `right`, `bottom` (the hem) and `left`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CircleShape {
    /// The length of the smaller arc of this piece on the seam line, a length; or give `radius`.
    #[serde(default)]
    pub seam: Option<Expr>,
    /// The radius at the smaller arc, a length.
    #[serde(default)]
    pub radius: Option<Expr>,
    /// From the smaller arc to the hem, a length.
    pub length: Expr,
    /// The share of a whole circle this piece has, a bare number: `1/4`; less than 1.
    pub share: Expr,
}

/// A gore.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GoreShape {
    /// Its widths from the top down: at least two rows.
    pub widths: Vec<GoreRowShape>,
    /// Its sides are curved smoothly through the widths; else straight from one to the next.
    #[serde(default)]
    pub curved: Flag,
    /// Its top and bottom are arcs square to the sides; else straight across.
    #[serde(default)]
    pub shaped: Flag,
}

/// One width of a gore.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GoreRowShape {
    /// How far down from the top, a length.
    pub down: Expr,
    /// The whole width there, a length.
    pub width: Expr,
}

/// A placket strip: twice as wide as it finishes, with its fold marked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlacketShape {
    /// The length of the opening, a length.
    pub opening: Expr,
    /// The finished width, a length.
    pub width: Expr,
    /// The strip runs along both sides of a slit, so that it is twice as long.
    #[serde(default)]
    pub both_sides: Flag,
}

/// A casing: the strip that makes a tunnel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CasingShape {
    /// Its length, a length.
    pub length: Expr,
    /// The width of the tunnel, a length.
    pub width: Expr,
}

/// A smocked panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SmockedShape {
    /// Its flat width, a length.
    pub width: Expr,
    /// Its height, a length.
    pub height: Expr,
    /// Flat width over drawn-up width, a bare number.
    pub ratio: Expr,
    /// How far the middle is pulled down below the ends, a length.
    #[serde(default)]
    pub drop: Option<Expr>,
    /// Draw it as it lies when it is drawn up, to cut a neighbour by.
    #[serde(default)]
    pub drawn_up: Flag,
}

/// A mirrored piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MirroredShape {
    /// The piece.
    pub of: String,
}

/// A part of a piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SplitShape {
    /// The piece.
    pub of: String,
    /// The line `a to b` of two points of that piece, along which it is cut.
    pub along: String,
    /// A point of that piece in the part that is kept.
    #[serde(default)]
    pub keep: Option<String>,
    /// An edge of that piece whose middle is in the part that is kept.
    #[serde(default)]
    pub keep_edge: Option<String>,
    /// The name of the new edge.
    pub edge: String,
}

/// Two pieces drawn as one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JoinedShape {
    /// The edge of the first piece: `front.shoulder`.
    pub of: String,
    /// The edge of the second piece, which is laid to it: `back.shoulder`.
    pub to: String,
    /// Lay the start of the one edge to the end of the other.
    #[serde(default)]
    pub turned: Flag,
}

/// A facing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FacingShape {
    /// The edge it faces: `bodice_front.neck`.
    pub of: String,
    /// How deep it is, a length.
    pub depth: Expr,
}

/// A copy of a piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CopyShape {
    /// The piece.
    pub of: String,
    /// Edges moved out, each by a length; in, where it is below nothing: `{ hem: -1 in }`.
    #[serde(default)]
    pub moved: IndexMap<String, Expr>,
}

/// An imported outline.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ImportShape {
    /// The file in the garment's folder, `.svg` or `.dxf`; `{size}` in it stands for the size's name.
    pub file: String,
    /// The path, group or block; `{size}` in it stands for the size's name.
    pub name: String,
    /// What one unit of the drawing is, a length: `1 mm`, `1 in / 72`.
    pub scale: Expr,
    /// The names of the edges, clockwise from the corner at the top left. The outline is divided where it turns by
    /// more than `corner`.
    pub edges: Vec<String>,
    /// A turn sharper than this is a corner, an angle; left out, 25 deg.
    #[serde(default)]
    pub corner: Option<Expr>,
}
