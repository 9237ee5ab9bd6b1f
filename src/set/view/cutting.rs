//! The cutting chart.

use serde::{Deserialize, Serialize};

use crate::prose::{Block, Run, StripRow};

/// What is cut, cloth by cloth.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cutting {
    /// Words before the chart.
    #[serde(default)]
    pub intro: Vec<Block>,
    /// One chart a cloth.
    pub cloths: Vec<CutCloth>,
}

/// What is cut of one cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutCloth {
    /// The cloth's name.
    pub name: String,
    /// What it is for, in a word: `outer cloth`; may be empty.
    #[serde(default)]
    pub role: String,
    /// Its pieces, in the order they are cut.
    pub pieces: Vec<CutPiece>,
    /// Totals for the whole cloth in every size: number of pieces, running length.
    #[serde(default)]
    pub totals: Vec<StripRow>,
}

/// One piece of one cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutPiece {
    /// The piece's id, as in [`PieceCard::id`](super::PieceCard::id).
    pub id: String,
    /// Its number.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// How many, in words, one entry a size: `3`, `2 (a pair)`, `1 on the fold`.
    pub count: Vec<String>,
    /// How the grain lies, in words: `lengthwise`.
    pub grain: String,
    /// Remarks: fold, one way, blocks, what to mark.
    #[serde(default)]
    pub notes: Vec<Run>,
    /// The cut size: one row a dimension (`width`, `length`), one cell a size.
    pub dims: Vec<StripRow>,
}
