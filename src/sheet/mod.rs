//! Pattern sheets: the pieces at true scale on paper.
//!
//! Pieces go in, pages in millimetres come out, and [`pdf()`] writes them. Nothing here reads or writes files.
//!
//! - A piece in one size or several becomes a [`Drawing`]; where sizes lie over each other `nest` finds the place in which
//!   they take least paper and the stretches that are one line.
//! - `place` finds places for all pieces on tiles, so that as few tiles as possible have anything on them.
//! - `lettering` sets words where no line is: labels, notes, the names of the sizes along their lines.
//! - `tiles`, `front` and `overview` make the pages.
//!
//! The placing is a search of its own and not that of the cutting layouts: there a strip is made short, here tiles are kept
//! empty, and a piece is better off at the corner of a tile than close to its neighbour.

mod board;
mod clear;
mod drawing;
mod face;
mod format;
mod front;
mod lettering;
mod make;
mod nest;
mod overview;
mod page;
mod pattern;
mod pdf;
mod place;
mod raster;
mod style;
mod tiles;
mod words;

pub use drawing::{Drawing, Kind, Note, Stroke};
pub use face::Face;
pub use format::{Format, HOME_MARGIN, Joining, LONGEST};
pub use make::{NoPage, Sheets, Tally, missing, sheets};
pub use page::{Document, Item, Page, Pen, Sizes, Tag};
pub use pattern::{Charted, Options, Pattern, PieceSet, SeamLines, Strip, is_plain_rectangle};
pub use pdf::pdf;
