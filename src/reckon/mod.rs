//! The calculators of the trade, one technique a file.
//!
//! A [`Technique`] is a definition (inputs with units and defaults, outputs with their way of being
//! printed) and a pure function over a [`Work`] sheet. The same definition serves `furbelow reckon`
//! at the table, the `construction` entries of a garment, the manual and the schema of the garment
//! file, so none of them can go stale.
//!
//! A calculator writes its results with [`Work::reckon`], which takes the rule as a formula over
//! inputs and earlier results, works it out and records the line; the working shown to the maker is
//! the very formula the number came from. Where a rule is no formula (an integral, a list of strips)
//! the calculator computes in Rust and writes the result with [`Work::put`].
//!
//! A result that is not always there says when it is ([`Output::when`]). No result has the name of an
//! input. [`text`] sets techniques and answers for a terminal, [`manual`] as pages of the manual.

mod answer;
mod bias_strips_cut;
mod circle_fit;
mod closures_places;
mod dip_curve;
mod given;
mod outline;
mod panels_share;
mod pleat_reach;
mod ruler;
mod runs;
mod sector;
mod swatch_fit;
mod swatch_stack;
mod technique;
mod text_wrap;
mod words;
mod work;

pub mod bias_strips;
pub mod binding;
pub mod block;
pub mod boning;
pub mod box_pleats;
pub mod cartridge_pleats;
pub mod circle;
pub mod closures;
pub mod cloth_width;
pub mod dip;
pub mod dye;
pub mod flounce;
pub mod french_seam;
pub mod gathers;
pub mod gores;
pub mod hem;
pub mod knife_pleats;
pub mod layers;
pub mod manual;
pub mod motif;
pub mod panels;
pub mod piping;
pub mod placket;
pub mod repeat;
pub mod ruffle;
pub mod shrinkage;
pub mod smocking;
pub mod swatch;
pub mod text;
pub mod thread;
pub mod tucks;

pub use answer::{Advice, Answer, Line, Outcome, Proposal, Table};
pub(crate) use given::kind_words;
pub use given::{Given, InputFault, Value, parse_value};
pub use technique::{Bounds, Input, Kind, Need, Output, Technique};
pub use work::{Stop, Work};

/// Every technique, in the order of the manual.
pub const TECHNIQUES: &[&Technique] = &[
    &cartridge_pleats::CARTRIDGE_PLEATS,
    &swatch::SWATCH,
    &layers::LAYERS,
    &gathers::GATHERS,
    &ruffle::RUFFLE,
    &knife_pleats::KNIFE_PLEATS,
    &box_pleats::BOX_PLEATS,
    &tucks::TUCKS,
    &smocking::SMOCKING,
    &panels::PANELS,
    &dip::DIP,
    &circle::CIRCLE,
    &flounce::FLOUNCE,
    &gores::GORES,
    &piping::PIPING,
    &binding::BINDING,
    &bias_strips::BIAS_STRIPS,
    &hem::HEM,
    &french_seam::FRENCH_SEAM,
    &placket::PLACKET,
    &closures::CLOSURES,
    &boning::BONING,
    &cloth_width::CLOTH_WIDTH,
    &shrinkage::SHRINKAGE,
    &block::BLOCK,
    &repeat::REPEAT,
    &motif::MOTIF,
    &dye::DYE,
    &thread::THREAD,
];

/// The technique of that name.
#[must_use]
pub fn technique(name: &str) -> Option<&'static Technique> {
    TECHNIQUES.iter().copied().find(|technique| technique.name == name)
}

#[cfg(test)]
#[path = "tests/ask.rs"]
mod ask;
