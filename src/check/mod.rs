//! From what the author wrote to a garment whose names are resolved and whose formulas are read.
//!
//! Everything that can be said without working a single size out is said here: the size table, the
//! names, the techniques and their inputs, the order in which numbers need each other.

mod cloths;
mod construction;
mod formulas;
mod garment;
mod laying;
mod names;
mod order;
mod plain;
mod steps;
mod table;

pub use construction::{Construction, Fed};
pub(crate) use formulas::formula_fault;
pub use formulas::{Formulas, parse_at};
pub use garment::{Cloth, Garment, Number, Size, Swatch, check};
pub use laying::{Border, Laying, Repeat};
pub use names::{MAX_SIZES, is_name};
pub use order::Item;
