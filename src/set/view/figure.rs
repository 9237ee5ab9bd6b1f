//! Drawings, as the templates take them.

use serde::{Deserialize, Serialize};

use super::chapters::KeyEntry;
use crate::prose::Run;

/// A drawing with its labels.
///
/// The drawing itself is an SVG without text; letters are set by the document on top of it, so
/// that they can be searched, read aloud and translated. All places are in millimetres from the
/// upper left corner of the drawing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// Its name: letters, digits, `-` and `_`, at most 64 of them.
    pub id: String,
    /// Its number in the booklet; none for a drawing that is not counted (the cover's view, the
    /// cards of the pieces).
    #[serde(default)]
    pub number: Option<u32>,
    /// The SVG's text.
    pub svg: String,
    /// Width in millimetres at which it is meant to be printed.
    pub width_mm: f64,
    /// Height in millimetres.
    pub height_mm: f64,
    /// Letters on the drawing.
    #[serde(default)]
    pub labels: Vec<Label>,
    /// Lettered rings on the drawing, explained under it.
    #[serde(default)]
    pub callouts: Vec<Callout>,
    /// What it shows, in a line under it; may be empty.
    #[serde(default)]
    pub caption: Vec<Run>,
    /// Words that stand for the picture to someone who does not see it. Never empty.
    pub alt: String,
    /// The signs it uses for the first time, explained beside it.
    #[serde(default)]
    pub key: Vec<KeyEntry>,
}

/// Letters on a drawing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Label {
    /// Place, millimetres from the left.
    pub x: f64,
    /// Place, millimetres from the top.
    pub y: f64,
    /// Which point of the letters' box lies at the place.
    #[serde(default)]
    pub anchor: Anchor,
    /// The letters; a line break is one, lines follow at 1.2 times the size.
    pub text: String,
    /// Size in points; never set smaller than 7.
    pub size_pt: f64,
    /// How they look.
    #[serde(default)]
    pub style: LabelStyle,
    /// Turn about the place, degrees, clockwise as seen.
    #[serde(default)]
    pub turn_deg: f64,
}

/// Which point of a label's box lies at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Anchor {
    /// Upper left corner.
    TopLeft,
    /// Middle of the upper edge.
    Top,
    /// Upper right corner.
    TopRight,
    /// Middle of the left edge.
    Left,
    /// The middle.
    #[default]
    Middle,
    /// Middle of the right edge.
    Right,
    /// Lower left corner.
    BottomLeft,
    /// Middle of the lower edge.
    Bottom,
    /// Lower right corner.
    BottomRight,
    /// The left end of the first line's base line.
    BaseStart,
    /// The middle of the first line's base line.
    BaseMiddle,
    /// The right end of the first line's base line.
    BaseEnd,
}

/// How a label looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LabelStyle {
    /// Upright.
    #[default]
    Plain,
    /// Bold: the name of a part.
    Strong,
    /// Italics: a remark.
    Emph,
    /// A printed measure; stands on white so that a line may run behind it.
    Measure,
    /// A heading over a part of the drawing.
    Title,
    /// A callout's letter. Its ring is set from [`Figure::callouts`], letter and all, so the label
    /// itself is passed over.
    Callout,
}

/// A lettered ring on a drawing.
///
/// A ring is white; the capsules that stand for numbers ([`Run::Mark`]) are filled, so that the two
/// kinds of letters cannot be taken for each other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Callout {
    /// The letter, as the sentence has it.
    pub letter: String,
    /// Its middle, millimetres from the left.
    pub x: f64,
    /// Its middle, millimetres from the top.
    pub y: f64,
    /// What it points at, set under the drawing; may be empty if the sentence says it.
    #[serde(default)]
    pub words: Vec<Run>,
}
