//! The view of an edition: everything worked out about a garment, as data for the documents.
//!
//! [`Build`] is the sum of a garment in all sizes. [`prepare`] makes of it the [`view::Book`](crate::set::view::Book) of
//! one edition: numbers printed, words rendered and merged across sizes, figures drawn.

mod account;
mod build;
mod cautions;
mod cutting;
mod desk;
mod edition;
mod figures;
mod glance;
mod layouts;
mod pieces;
mod rows;
mod selection;
mod steps;
mod swatch;

pub use account::{Account, StepAccount};
pub use build::Build;
pub use edition::prepare;
pub use figures::KINDS;
pub use layouts::{ClothNeed, LaidCloth, LaidPiece, LaidSection, Tried, lay_cloths};
pub use selection::Selection;
