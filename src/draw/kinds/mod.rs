//! The kinds of figure, a file for each family.

mod bodice;
mod boning;
mod cartridge;
mod closing;
mod cloth;
mod curve;
mod dip;
mod fall;
mod fullness;
mod grid;
mod hem;
mod lacing;
mod piece;
mod piping;
mod pleats;
mod press;
mod seam;
mod shaped;
mod skirt;
mod sleeve;
mod smock;
mod swatch;
mod together;
mod worn;

pub use bodice::{BodiceView, Closing, bodice_view};
pub use boning::{Boning, boning};
pub use cartridge::{
    CartridgePleats, cartridge_above, cartridge_drawn_up, cartridge_section, cartridge_sewn, cartridge_stitched,
};
pub use closing::{Catch, Hooks, Placket, Vent, hooks, placket, vent};
pub use cloth::{Basting, BiasStrips, Block, Motifs, basting, bias_strips, block, motifs};
pub use curve::{PipedCurve, SleeveSet, piping_clipped, sleeve_set};
pub use dip::{DipFigure, dip};
pub use fullness::{GatherRows, Ruffle, gather_rows, ruffle_marks, ruffle_sewn};
pub use grid::{MarkingGrid, marking_grid};
pub use hem::{HemFigure, HemKind, hem};
pub use lacing::{LaceWay, Lacing, lacing};
pub use piece::{EdgePath, FlatPiece, InnerKind, InnerLine, Notch, PieceMeasure, flat_piece, piece_card};
pub use piping::{PipingFigure, piping_in_seam, piping_section};
pub use pleats::{FlatPleats, PleatKind, flat_pleats};
pub use press::{Pressing, pressing};
pub use seam::{Press, SeamFigure, SeamKind, seam};
pub use shaped::{ShapedSeam, pleats_to_shaped_edge};
pub use skirt::{Fullness, SkirtView, View, skirt_view};
pub use smock::{SmockStage, Smocking, smocking};
pub use swatch::{SwatchFigure, swatch};
pub use together::{Together, together};
pub use worn::{WornEdge, WornPiece};
