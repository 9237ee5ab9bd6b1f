//! What laying out a cloth hands back.

use super::Folding;
use crate::lay::geom::Point;
use crate::lay::pose::Pose;
use crate::lay::problem::Problem;
use crate::lay::result::Layout;
use serde::{Deserialize, Serialize};

/// How a section of the cloth lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SectionKind {
    /// One layer.
    Open,
    /// Two layers, the fold along y = 0, the selvages at the full height.
    LengthwiseFold,
    /// Two layers, the fold along x = 0.
    CrosswiseFold,
    /// Two layers, one fold along y = 0 and one at the full height; the upper layer is two flaps, each half as wide,
    /// whose selvages meet in the middle. What is cut double lies on one flap.
    GateFold,
}

impl SectionKind {
    /// In the middle of a sentence.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Open => "open cloth",
            Self::LengthwiseFold => "cloth folded lengthwise",
            Self::CrosswiseFold => "cloth folded crosswise",
            Self::GateFold => "cloth with both selvages folded to the middle",
        }
    }

    /// How wide it lies, as a share of the usable width of the cloth.
    #[must_use]
    pub fn share(self) -> f64 {
        match self {
            Self::Open | Self::CrosswiseFold => 1.0,
            Self::LengthwiseFold | Self::GateFold => 0.5,
        }
    }

    /// Lengths of cloth bought for each length as it lies.
    #[must_use]
    pub fn lengths(self) -> f64 {
        if self == Self::CrosswiseFold { 2.0 } else { 1.0 }
    }

    /// Layers of cloth one above the other.
    #[must_use]
    pub fn layers(self) -> usize {
        if self == Self::Open { 1 } else { 2 }
    }
}

/// A piece where it lies on its section.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Laid {
    /// Index of the piece as given.
    pub piece: usize,
    /// Which copies of it this laying cuts, from 0.
    pub copies: Vec<usize>,
    /// Whether it lies on the fold, as a half.
    pub on_fold: bool,
    /// Whether a half pattern has been opened out to the whole.
    pub opened_out: bool,
    /// Its pose; `pose.over` is face down.
    pub pose: Pose,
    /// What is added after the pose, mm: a point `p` of the piece comes to lie at `pose.apply(p) + by`.
    pub by: Point,
    /// The outline laid (of the half, the whole or the block), mm, in the frame of the section.
    pub outline: Vec<Point>,
}

impl Laid {
    /// Where a point of the piece as given comes to lie on the section, mm.
    #[must_use]
    pub fn map(&self, p: Point) -> Point {
        let q = self.pose.apply(p);
        [q[0] + self.by[0], q[1] + self.by[1]]
    }
}

/// A rectangle of cloth that nothing is cut from, mm, in the frame of its section.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Spare {
    /// Lower left corner.
    pub at: Point,
    /// Along the cloth.
    pub length: f64,
    /// Across it; on double cloth of one layer, with selvages folded to the middle of the lower one.
    pub width: f64,
}

/// A section of the cloth as it is laid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Section {
    /// How it lies.
    pub kind: SectionKind,
    /// Length it takes as it lies, mm.
    pub length: f64,
    /// Width as it lies, mm: half the usable width when folded lengthwise or from both selvages.
    pub width: f64,
    /// Length of cloth bought for it, mm: twice its length when folded crosswise.
    pub bought: f64,
    /// What lies on it, from the left, then from below.
    pub laid: Vec<Laid>,
    /// The largest rectangle left over, if it is worth keeping.
    pub spare: Option<Spare>,
    /// The problem that was searched, and its solution, for the checker.
    pub problem: Problem,
    /// The solution.
    pub layout: Layout,
}

/// A whole cloth, laid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClothLayout {
    /// How it is spread.
    pub folding: Folding,
    /// One section after the other along the cloth.
    pub sections: Vec<Section>,
    /// Length of cloth used in all, mm.
    pub bought: f64,
    /// Area of the pieces (blocks, where they are cut as blocks) over the area of the cloth used, 0 to 1.
    pub density: f64,
    /// The length no layout can go below: area of the pieces over the usable width, mm.
    pub area_bound: f64,
}

/// What came of a folding.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FoldOutcome {
    /// A layout.
    Laid(Box<ClothLayout>),
    /// The reasons it cannot be used, in plain words.
    NotPossible(Vec<String>),
}

/// A folding the maker allows, and what came of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FoldTry {
    /// The folding.
    pub folding: Folding,
    /// Its layout, or why there is none.
    pub outcome: FoldOutcome,
}

/// All foldings tried and the best among them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClothResult {
    /// In the order the maker names them.
    pub tries: Vec<FoldTry>,
    /// Index of the one that uses the shortest length of cloth; of equal ones the first named.
    pub best: Option<usize>,
}

impl ClothResult {
    /// The layout to use, if there is any.
    #[must_use]
    pub fn layout(&self) -> Option<&ClothLayout> {
        match &self.tries.get(self.best?)?.outcome {
            FoldOutcome::Laid(layout) => Some(layout),
            FoldOutcome::NotPossible(_) => None,
        }
    }
}
