//! Drawing the pieces: seam lines from points and formulas, cut lines from allowances.
//!
//! [`draft()`] draws one [`Piece`] of one size from what the maker wrote. Coordinates are millimetres on a page seen from
//! above, x to the right and y down; outlines run clockwise. Curves stay curves: a [`Path`] holds straight pieces and cubic
//! Bézier curves, lengths are measured along them, and the cut line is offset from them to within 0.005 mm. The seam line and the
//! cut line are kept apart; everything that is matched or eased is measured on the seam line.
//!
//! A piece comes from named points and edges, is supplied ready-made (panel, strip, circle ...), is derived from another
//! piece, or is imported. Afterwards there is no difference.

mod copied;
mod cross;
mod curve;
mod darts;
mod derived;
mod desk;
mod dip;
mod draw;
mod import;
mod lines;
mod marks;
mod names;
mod offset;
mod outline;
mod path;
mod piece;
mod points;
mod polygon;
mod supplied;
mod trim;
mod words;

pub use cross::{Crossing, crosses_itself, crossings};
pub use desk::Pieces;
pub use draw::{draft, draft_with};
pub use import::{Files, Texts};
pub use names::names_used;
pub use offset::{Corner, CutLine, NoCutLine, Side, beside, cut_line};
pub use path::Path;
pub use piece::{Cut, Dart, Drill, Edge, Extent, Finish, HowCut, Mark, MarkKind, Notch, Piece, Spot};
pub(crate) use words::{degrees, mm};
