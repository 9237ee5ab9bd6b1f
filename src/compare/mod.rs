//! What changed between two editions: numbers with their reasons, pieces, seams, cloth, steps, pages.
//!
//! Two accounts of a garment go in ([`crate::book::Account`], the form of `build.json`), with what their documents show page by
//! page where that is known; out comes a [`Comparison`], as data, as text for a terminal, and as the view of a page for the
//! buyers of the earlier edition.

mod notice;
mod numbers;
mod pages;
mod pieces;
mod report;
mod seams;
mod steps;
mod text;

pub use notice::notice;
pub use numbers::{NumberChange, SizeChange, changed_numbers};
pub use pages::{Document, DocumentChange};
pub use pieces::{Overlay, PieceChange, PieceFate};
pub use report::{Comparison, Side, compare};
pub use seams::{ClothChange, Fate, SeamChange};
pub use steps::StepChange;
pub use text::text;
