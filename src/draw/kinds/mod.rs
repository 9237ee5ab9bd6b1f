//! The kinds of figure, a file for each family.

mod cartridge;
mod grid;
mod piece;

pub use cartridge::{
    CartridgePleats, cartridge_above, cartridge_drawn_up, cartridge_section, cartridge_sewn, cartridge_stitched,
};
pub use grid::{MarkingGrid, marking_grid};
pub use piece::{EdgePath, FlatPiece, InnerKind, InnerLine, Notch, PieceMeasure, flat_piece};
