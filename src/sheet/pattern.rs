//! What sheets are made from.

use std::collections::BTreeMap;

use super::format::Joining;
use crate::draft::Piece;
use crate::units::{Length, Systems};

/// A piece in the sizes of the sheets.
#[derive(Debug, Clone)]
pub struct PieceSet {
    /// Its name in the garment file.
    pub name: String,
    /// Its number in the cutting chart.
    pub number: u32,
    /// Its name on the pattern.
    pub title: String,
    /// The piece, one for each size.
    pub by_size: Vec<Piece>,
}

/// A piece that is not on the sheets, because measuring it out takes no more than the cutting chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Charted {
    /// Its number in the cutting chart.
    pub number: u32,
    /// Its name on the pattern.
    pub title: String,
}

/// A strip to mark rows of stitches with, at true scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Its name: the construction entry it belongs to.
    pub name: String,
    /// What it marks, in words.
    pub title: String,
    /// How far each row lies below the edge it is laid on.
    pub rows: Vec<Length>,
    /// From one stitch to the next.
    pub stitch: Length,
    /// How many stitches lie between upright guide lines; none without them.
    pub every: Option<u32>,
}

/// A garment for its sheets, in one size or several.
#[derive(Debug, Clone)]
pub struct Pattern {
    /// The title of the pattern.
    pub title: String,
    /// The edition.
    pub edition: String,
    /// Which measuring system comes first.
    pub systems: Systems,
    /// The names of the sizes, the smallest first.
    pub sizes: Vec<String>,
    /// The cloths by name, as they are called on the shopping list.
    pub cloths: BTreeMap<String, String>,
    /// The pieces to print.
    pub pieces: Vec<PieceSet>,
    /// The pieces left to the chart.
    pub charted: Vec<Charted>,
    /// Marking strips.
    pub strips: Vec<Strip>,
}

impl Pattern {
    /// The same pattern in one of its sizes.
    #[must_use]
    pub fn only(&self, index: usize) -> Pattern {
        let one = |set: &PieceSet| {
            let by_size = set.by_size.get(index).cloned().into_iter().collect();
            PieceSet { by_size, ..set.clone() }
        };
        Pattern {
            sizes: self.sizes.get(index).cloned().into_iter().collect(),
            pieces: self.pieces.iter().map(one).collect(),
            ..self.clone()
        }
    }

    /// The sizes in words: `size 12`, `sizes 6 to 22`.
    #[must_use]
    pub fn size_words(&self) -> String {
        match self.sizes.as_slice() {
            [one] => format!("size {one}"),
            [first, .., last] => format!("sizes {first} to {last}"),
            [] => String::new(),
        }
    }
}

/// When seam lines are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SeamLines {
    /// On sheets of one size; nested sheets have the cut lines alone.
    #[default]
    OneSize,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// How sheets are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Options {
    /// Whether seam lines are drawn.
    pub seam_lines: SeamLines,
    /// How tiles are joined.
    pub joining: Joining,
    /// Thin lines and no tints, to save ink.
    pub save_ink: bool,
}

/// Whether a piece is a plain rectangle: four straight cut lines square to each other and along the page, and nothing within
/// it that would have to be marked.
#[must_use]
pub fn is_plain_rectangle(piece: &Piece) -> bool {
    let corners = piece.cut.flat(0.01);
    let (wide, high) = (piece.cut_extent.width().to_mm(), piece.cut_extent.height().to_mm());
    let upright = corners.windows(2).all(|pair| match pair {
        [a, b] => (a.x - b.x).abs() < 0.01 || (a.y - b.y).abs() < 0.01,
        _ => true,
    });
    upright
        && (piece.cut_area.base() - wide * high).abs() < 0.02 * (wide + high)
        && piece.darts.is_empty()
        && piece.marks.is_empty()
        && piece.drills.is_empty()
        && piece.notches.is_empty()
}
