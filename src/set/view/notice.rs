//! The page for buyers of an earlier edition.

use serde::{Deserialize, Serialize};

use super::book::Edition;

/// "What changed", on one page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Notice {
    /// The garment's name.
    pub title: String,
    /// The garment's accent colour, `#rrggbb`.
    pub accent: String,
    /// Language of the text, an ISO 639 code.
    pub language: String,
    /// The new edition.
    pub edition: Edition,
    /// The edition the buyer has.
    pub from: String,
    /// The sizes, in order.
    pub sizes: Vec<String>,
    /// The maker's own words on it, a paragraph each.
    pub words: Vec<String>,
    /// Sizes that came in.
    pub sizes_in: Vec<String>,
    /// Sizes that went out.
    pub sizes_out: Vec<String>,
    /// Numbers, old and new.
    pub numbers: Vec<NoticeRow>,
    /// How many numbers are left out for want of room.
    pub numbers_left: usize,
    /// Pieces whose cut line moved, drawn.
    pub pieces: Vec<NoticePiece>,
    /// What is to be said of other pieces.
    pub other_pieces: Vec<String>,
    /// Cloth to buy, old and new.
    pub cloths: Vec<NoticeRow>,
    /// How many of those are left out.
    pub cloths_left: usize,
    /// Steps, in words.
    pub steps: Vec<String>,
    /// How many steps are left out.
    pub steps_left: usize,
    /// Pages to print again, a document each, in words.
    pub pages: Vec<String>,
    /// How many documents are left out.
    pub pages_left: usize,
}

/// A number, old and new.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NoticeRow {
    /// What it is.
    pub label: String,
    /// Size, old, new, as printed; an empty text where it was not or is not there.
    pub sizes: Vec<(String, String, String)>,
    /// Whether it is the same change in every size.
    pub everywhere: bool,
}

/// A piece whose cut line moved.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NoticePiece {
    /// Its name.
    pub title: String,
    /// What is drawn, in a sentence.
    pub words: String,
    /// The sizes in which it moved; empty for all of them.
    pub sizes: String,
    /// Words that stand for the picture.
    pub alt: String,
    /// The SVG's text: the new cut line on the old one.
    pub svg: String,
    /// Width in millimetres.
    pub width_mm: f64,
    /// Height in millimetres.
    pub height_mm: f64,
}
