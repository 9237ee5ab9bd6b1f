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

mod answer;
mod given;
mod technique;
mod work;

pub mod gathers;

pub use answer::{Advice, Answer, Line, Outcome, Proposal, Table};
pub(crate) use given::kind_words;
pub use given::{Given, InputFault, Value, parse_value};
pub use technique::{Bounds, Input, Kind, Need, Output, Technique};
pub use work::{Stop, Work};

/// Every technique, in the order of the manual.
pub const TECHNIQUES: &[&Technique] = &[&gathers::GATHERS];

/// The technique of that name.
#[must_use]
pub fn technique(name: &str) -> Option<&'static Technique> {
    TECHNIQUES.iter().copied().find(|technique| technique.name == name)
}
