//! Figures: drawn from a garment's own geometry and numbers, in millimetres, as vector without words.
//!
//! Each kind is a plain function from its own input and a [`Look`] to a [`Figure`]: an SVG that holds
//! paths only, the labels to be set over it in type, a caption, and alternative text in words that
//! someone can sew from who does not see the picture. The same input gives the same bytes.
//!
//! Cloth tells its sides without colour: the right side is a flat tint, the wrong side white with
//! ticks along the grain, an under cloth ticked across, interlining dotted. A second layer peeps out
//! behind the first. Cut edges are thick, folds and silhouettes medium, everything else thin.

mod figure;
mod geom;
mod hand;
mod keys;
mod kinds;
mod lint;
mod look;
mod metric;
mod notes;
mod pen;
mod render;
mod scene;
mod sheet;
mod weave;
mod words;

pub use figure::{Anchor, Callout, Drawn, Figure, KeyEntry, Label, LabelStyle, Leader, Measure, Scale, Undrawable};
pub use keys::key_swatch;
pub use kinds::{
    Basting, BiasStrips, Block, BodiceView, Boning, CartridgePleats, Catch, Closing, DipFigure, EdgePath, FlatPiece,
    FlatPleats, FoldOver, Fullness, GatherRows, HemFigure, HemKind, Hooks, InnerKind, InnerLine, LaceWay, Lacing,
    LaidShape, LayoutFigure, MarkingGrid, Match, Matched, MatchedPiece, Motifs, Notch, PieceMeasure, PipedCurve,
    PipedPoint, PipingFigure, Placket, PleatKind, Press, Pressing, Ruffle, SeamFigure, SeamKind, ShapedSeam, SkirtView,
    SleeveSet, SmockStage, Smocking, Spread, SwatchFigure, TiedPairs, TiedThreads, Together, Vent, View, WingFigure,
    WornEdge, WornPiece, basting, bias_strips, block, bodice_view, boning, cartridge_above, cartridge_drawn_up,
    cartridge_section, cartridge_sewn, cartridge_stitched, dip, flat_piece, flat_pleats, fold_over, gather_rows, hem,
    hooks, lacing, layout, marking_grid, matched, motifs, piece_card, piping_clipped, piping_in_seam, piping_point,
    piping_section, placket, pleats_to_shaped_edge, pressing, ruffle_marks, ruffle_sewn, seam, skirt_view, sleeve_set,
    smocking, swatch, tied_threads, together, vent, wing,
};
pub use lint::{LEAST_PT, lint};
pub use look::{Accent, Look};
pub use sheet::{Ask, contact_sheet, sheet_page};
