//! Every number of one size, each with how it came about.
//!
//! Sizes are worked out one by one (and side by side): body measurements, ease, cloths and swatches
//! first, then numbers, construction entries and pieces in the order in which they need each other.

mod named;
mod sized;
mod why;

pub use named::{Named, Names, Origin};
pub(crate) use sized::merge;
pub use sized::{SizedGarment, size_all};
pub use why::{Reason, needs, why};
