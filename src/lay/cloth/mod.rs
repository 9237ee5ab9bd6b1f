//! Pieces of a garment on a cloth: what the maker says, turned into problems for the search, and back.
//!
//! A cloth is laid single, folded lengthwise (selvages together), folded crosswise (cut ends together), folded
//! either way for what is cut double and opened out for the rest, or with both selvages folded to the middle.
//! [`lay_out`] tries the foldings the maker allows and takes the one that needs the shortest length of cloth; for
//! a folding that cannot be used it says why.
//!
//! # Frame
//! Outlines of pieces come with the straight grain along x, towards +x "with" the grain ([`grain_from_up`] turns
//! an outline drawn upright). Layouts come with x along the cloth from its cut end (or its crosswise fold) and y
//! across it: from one selvage on open cloth, from the fold on cloth folded lengthwise, from one fold to the other where
//! both selvages are folded to the middle.
//!
//! # What follows from the cloth
//! - One-way cloth: pieces lie with the grain only; it is never folded crosswise, as the lower layer would run
//!   the other way.
//! - A piece on the fold is half a piece; its fold edge lies exactly on the fold. On open cloth it is opened
//!   out to the whole.
//! - On double cloth one laying cuts a mirrored pair. Pieces all cut the same way up come in pairs only if
//!   they are their own mirror image; others wait for open cloth.
//! - With both selvages folded to the middle the upper layer is two flaps; nothing is laid across the line where they
//!   meet, as its upper copy would fall apart.
//! - The fold itself must be cut around: pieces that are not on it keep [`ClothSpec::fold_clearance`] from it.
//! - A panel whose hem lies on a border is turned so that it does, and held there.
//! - On cloth with a repeat, pieces that match start on it.

mod check;
mod lay_out;
mod outline;
mod places;
mod plan;
mod result;
mod spare;
mod ways;

pub use check::{ClothFlaw, check_layout};
pub use lay_out::lay_out;
pub use outline::grain_from_up;
pub use result::{ClothLayout, ClothResult, FoldOutcome, FoldTry, Laid, Section, SectionKind, Spare};

use crate::lay::geom::Point;
use serde::{Deserialize, Serialize};

/// How the cloth is spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Folding {
    /// One layer, right side up.
    Single,
    /// Folded along its length, selvages together, right sides together.
    Lengthwise,
    /// Folded across, cut ends together, right sides together.
    Crosswise,
    /// Folded lengthwise for what is cut double, then opened out for the rest.
    LengthwiseThenOpen,
    /// Folded crosswise for what is cut double, then opened out for the rest.
    CrosswiseThenOpen,
    /// Both selvages folded to the middle, right sides together: two folds, so that narrow halves lie on both (the gate
    /// fold). `doubled` in a garment file.
    Doubled,
}

impl Folding {
    /// Every folding, in the order in which they are tried: of equal lengths the simplest to spread comes first.
    pub const ALL: [Self; 6] = [
        Self::Single,
        Self::Lengthwise,
        Self::Crosswise,
        Self::LengthwiseThenOpen,
        Self::CrosswiseThenOpen,
        Self::Doubled,
    ];

    /// How the cut double part lies, if there is one.
    #[must_use]
    pub fn double(self) -> Option<SectionKind> {
        match self {
            Self::Single => None,
            Self::Lengthwise | Self::LengthwiseThenOpen => Some(SectionKind::LengthwiseFold),
            Self::Crosswise | Self::CrosswiseThenOpen => Some(SectionKind::CrosswiseFold),
            Self::Doubled => Some(SectionKind::GateFold),
        }
    }

    /// Whether what cannot be cut double follows on open cloth.
    #[must_use]
    pub fn then_open(self) -> bool {
        matches!(self, Self::LengthwiseThenOpen | Self::CrosswiseThenOpen)
    }
}

/// What of the garment is cut from a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cut {
    /// So many, all the same way up.
    Same {
        /// How many.
        copies: usize,
    },
    /// So many mirrored pairs.
    Pairs {
        /// How many pairs.
        pairs: usize,
    },
    /// So many whole pieces from this half pattern, its edge from corner `edge` to the next on the fold.
    OnFold {
        /// How many whole pieces.
        copies: usize,
        /// Index of the corner at which the fold edge begins.
        edge: usize,
    },
}

/// How a piece lies to the grain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// Either way along it (on one-way cloth: with it only).
    Straight,
    /// With it only, even on cloth without a direction.
    With,
    /// Across it.
    Cross,
    /// At 45 degrees.
    Bias,
    /// Any of the four quarters.
    Any,
}

/// A piece of the garment, as it is cut from this cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    /// Name, for messages.
    pub name: String,
    /// Cut line, mm, straight grain along x; a simple polygon.
    pub outline: Vec<Point>,
    /// How many and how.
    pub cut: Cut,
    /// How it lies to the grain.
    pub grain: Grain,
    /// Corner at which the edge begins that must lie on the border, if one must.
    pub border_edge: Option<usize>,
    /// A point of the piece that must lie on a repeat of the cloth, if it must match, mm.
    pub match_point: Option<Point>,
    /// Cut first as a rectangular block with this margin all round (cloth to be dyed, printed or pleated after
    /// cutting), mm.
    pub block_margin: Option<f64>,
}

/// Where a border runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BorderAt {
    /// Along one selvage: the one at the full width.
    One,
    /// Along both.
    Both,
}

/// A border along the selvage, and how far from the usable edge the hems lie, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Border {
    /// Which selvages have it.
    pub at: BorderAt,
    /// Distance of the hem's cut line from the edge of the usable width, mm.
    pub offset: f64,
}

/// A repeat of the cloth, mm; a repeat line runs through the beginning of the cloth and the edge of its usable width.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Repeat {
    /// Along the length; for stripes along the length, nothing.
    pub along: Option<f64>,
    /// Across the width.
    pub across: Option<f64>,
}

/// A cloth of one width and what the maker allows with it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClothSpec {
    /// Usable width without selvages, mm.
    pub width: f64,
    /// Pile, nap, print or sheen with a direction.
    pub one_way: bool,
    /// Both sides alike, so that a piece may lie face down.
    pub either_side: bool,
    /// Distance kept between pieces, mm.
    pub gap: f64,
    /// Distance pieces keep from a fold they do not lie on, mm; at least the gap is taken.
    pub fold_clearance: f64,
    /// Foldings to try.
    pub foldings: Vec<Folding>,
    /// Border along the selvage.
    pub border: Option<Border>,
    /// Repeat to match.
    pub repeat: Option<Repeat>,
}

impl ClothSpec {
    /// A plain cloth of this usable width, mm: no direction, no border, no repeat, all foldings, no gap.
    #[must_use]
    pub fn plain(width: f64) -> Self {
        Self {
            width,
            one_way: false,
            either_side: false,
            gap: 0.0,
            fold_clearance: 0.0,
            foldings: Folding::ALL.to_vec(),
            border: None,
            repeat: None,
        }
    }
}
