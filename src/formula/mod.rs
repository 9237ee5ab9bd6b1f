//! Formulas as a maker writes them: `waist / 4 + 1/2 in`.
//!
//! Arithmetic with units: `+ - * / ^`, brackets, comparisons, and the functions of [`FUNCTIONS`].
//! Names are letters, digits and underscores, with dots between parts (`skirt.pleats`). A fraction
//! without spaces round its slash and with a unit behind it is one literal: `3/8 in`; with spaces
//! the slash divides: `waist / 4`. The evaluator is typed: a bare number cannot be added to a
//! length, and every fault says at which bytes of the formula it is.

mod eval;
mod fault;
mod lex;
mod parse;
mod tree;

pub use eval::{Env, FUNCTIONS};
pub use fault::{FormulaFault, FormulaFaultKind};
pub use tree::Formula;
