//! Quantities with dimensions, as a maker writes them and as a book prints them.
//!
//! Inside the program a length is millimetres, a mass grams, an angle radians; every other unit
//! is made of these. A [`Quantity`] carries its [`Dim`] with it; the newtypes ([`Length`],
//! [`Angle`], [`Ratio`], [`Count`], [`Mass`], ...) are what functions take and return. Rounding
//! happens only in [`print()`], never in the values.

mod dim;
mod literal;
mod newtypes;
mod number;
mod print;

pub use dim::{Dim, Quantity, kinds};
pub use literal::{LiteralFault, UNIT_NAMES, Unit, parse_literal, unit};
pub use newtypes::{Angle, Area, Count, Length, Mass, Ratio, SheetMass, Volume, WrongDim};
pub use number::{Fraction, decimal, parse_number};
pub use print::{Direction, Printed, Show, Style, Systems, print};
