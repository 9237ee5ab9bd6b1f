//! What the templates may read: the JSON view of a garment, for one edition.
//!
//! Every number arrives printed (as text, in one or both unit systems); every text arrives as a
//! string or as [`Run`]s, never as markup. An edition with one size has one entry in
//! [`Book::sizes`]; one with a range has the sizes of the range.

mod book;
mod chapters;
mod cutting;
mod figure;
mod layouts;
mod notice;

pub use crate::prose::{Block, Cell, RefTarget, Run, StripRow};
pub use book::{Book, Edition};
pub use chapters::{
    Before, Caution, Change, ClothNeed, Glance, KeyEntry, Making, NotionNeed, Part, PieceCard, ResultRow, ResultTable,
    Seen, Step, Swatch, SwatchChapter, Term, Tool,
};
pub use cutting::{CutCloth, CutPiece, Cutting};
pub use figure::{Anchor, Callout, Figure, Label, LabelStyle};
pub use layouts::{ClothLengths, LayoutPage, LayoutPlace, LayoutSection, Layouts};
pub use notice::{Notice, NoticePiece, NoticeRow};
