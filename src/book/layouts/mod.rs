//! Cutting layouts: every cloth, at every width on offer, in every size, and from them how much to buy.
//!
//! `spec` says what a cloth and its pieces are to the search; [`lay_cloths`] searches, proves and sums up; `page` makes of
//! it what a buyer lays her cloth by.

mod laid;
mod lay;
mod page;
mod spec;
mod words;

pub use laid::{ClothNeed, LaidCloth, LaidPiece, LaidSection, Tried};
pub use lay::lay_cloths;
pub(super) use page::{layouts, length_rows};
