//! A finished figure: vector drawing without words, and the words with their places.

use std::fmt;

use serde::Serialize;

use crate::units::{Length, Printed, Show, print};

/// A figure cannot be drawn from these numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Undrawable(pub String);

impl fmt::Display for Undrawable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Undrawable {}

/// What every kind of figure returns.
pub type Drawn = Result<Figure, Undrawable>;

/// A length together with the way it is printed, so that drawing and label cannot disagree.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// The length itself.
    pub length: Length,
    /// Its printed form.
    pub printed: Printed,
}

impl Measure {
    /// A length printed in the way given.
    #[must_use]
    pub fn new(length: Length, show: Show) -> Measure {
        Measure { length, printed: print(length.into(), show) }
    }

    pub(crate) fn mm(&self) -> f64 {
        self.length.to_mm()
    }
}

/// A figure, ready to be set in a page.
///
/// `svg` holds paths only, one user unit a millimetre; the words are in `labels`, to be set over it
/// in type. Every position is in millimetres from the top left corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// The drawing.
    pub svg: String,
    /// Width of the box, mm.
    pub width_mm: f64,
    /// Height of the box, mm.
    pub height_mm: f64,
    /// The words in the drawing.
    pub labels: Vec<Label>,
    /// The lettered places and what each letter means.
    pub callouts: Vec<Callout>,
    /// What stands under the figure.
    pub caption: String,
    /// What the figure shows, for someone who does not see it.
    pub alt: String,
    /// Its scale.
    pub scale: Scale,
    /// Cloth sides and lines it uses, in the order of the key.
    pub key: Vec<KeyEntry>,
}

/// Words in a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Label {
    /// Left end, middle or right end of the words, as `anchor` says; mm.
    pub x: f64,
    /// The base line of the first line; mm.
    pub y: f64,
    /// What `x` is the place of.
    pub anchor: Anchor,
    /// The words; lines are parted by a line feed, and follow at [`Label::LEADING`] times the size.
    pub text: String,
    /// Size of the letters, points.
    pub size_pt: f64,
    /// How they are set.
    pub style: LabelStyle,
    /// The line from the words to what they name; already drawn in the SVG.
    pub leader: Option<Leader>,
}

impl Label {
    /// Distance of base lines, in sizes of the letters.
    pub const LEADING: f64 = 1.2;
}

/// A thin line from a label to what it names, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Leader {
    /// At the label.
    pub from: [f64; 2],
    /// At the thing named.
    pub to: [f64; 2],
}

/// Which part of a label its `x` is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Anchor {
    /// The left end.
    Start,
    /// The middle.
    Middle,
    /// The right end.
    End,
}

/// How a label is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LabelStyle {
    /// A name or remark.
    Plain,
    /// A title within the figure, bold.
    Strong,
    /// A number with its unit, tabular figures.
    Measure,
    /// A callout's letter, bold, in its ring.
    Callout,
}

/// A lettered place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Callout {
    /// The letter.
    pub letter: String,
    /// Where its ring stands, mm.
    pub x: f64,
    /// Where its ring stands, mm.
    pub y: f64,
    /// What it means, in words.
    pub meaning: String,
}

/// The scale of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scale {
    /// Not to scale.
    NotToScale,
    /// One millimetre on paper is this many of the garment.
    OneTo(f64),
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Scale::NotToScale => f.write_str("Not to scale"),
            Scale::OneTo(n) if (n - 1.0).abs() < 1e-9 => f.write_str("True size"),
            Scale::OneTo(n) => write!(f, "Scale 1 : {n}"),
        }
    }
}

/// A kind of cloth side or line that a key explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum KeyEntry {
    /// Right side of the outer cloth.
    RightSide,
    /// Wrong side of the outer cloth.
    WrongSide,
    /// An under cloth (lining, facing, underlining).
    UnderCloth,
    /// Interlining.
    Interlining,
    /// Cloth cut through, seen on edge.
    InSection,
    /// A cut edge.
    CutEdge,
    /// A folded edge.
    FoldedEdge,
    /// A line to fold on.
    FoldLine,
    /// The line a seam is sewn on.
    SeamLine,
    /// Stitching by machine.
    MachineStitch,
    /// Stitching by hand, over and under the cloth.
    HandStitch,
    /// A thread that draws the cloth up.
    GatherThread,
    /// A chalk or pencil line.
    Mark,
    /// The straight grain.
    Grain,
    /// A movement of hand or cloth.
    Movement,
}

impl KeyEntry {
    /// All of them, in the order of the key.
    pub const ALL: [KeyEntry; 15] = [
        KeyEntry::RightSide,
        KeyEntry::WrongSide,
        KeyEntry::UnderCloth,
        KeyEntry::Interlining,
        KeyEntry::InSection,
        KeyEntry::CutEdge,
        KeyEntry::FoldedEdge,
        KeyEntry::FoldLine,
        KeyEntry::SeamLine,
        KeyEntry::MachineStitch,
        KeyEntry::HandStitch,
        KeyEntry::GatherThread,
        KeyEntry::Mark,
        KeyEntry::Grain,
        KeyEntry::Movement,
    ];

    /// The words beside the swatch.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            KeyEntry::RightSide => "right side of the cloth",
            KeyEntry::WrongSide => "wrong side, ticks along the grain",
            KeyEntry::UnderCloth => "lining or other under cloth",
            KeyEntry::Interlining => "interlining",
            KeyEntry::InSection => "cloth cut through; the dark half is the right side",
            KeyEntry::CutEdge => "cut edge",
            KeyEntry::FoldedEdge => "folded edge",
            KeyEntry::FoldLine => "line to fold on",
            KeyEntry::SeamLine => "seam line",
            KeyEntry::MachineStitch => "stitched by machine",
            KeyEntry::HandStitch => "stitched by hand",
            KeyEntry::GatherThread => "thread to draw up, with its knot",
            KeyEntry::Mark => "chalk or pencil line",
            KeyEntry::Grain => "straight grain",
            KeyEntry::Movement => "move, pull or turn this way",
        }
    }
}
