//! The proof that the seams go together.
//!
//! [`check`] holds every join of a garment against the pieces of every size: lengths along the seam line with the ease or
//! fullness declared, notches in the same order at matching distances, edges that run on smoothly across a seam. It looks for
//! edges that nobody sews, and at how every edge grows from size to size. What it finds is a [`SeamReport`], which is data, and
//! faults.

mod fate;
mod grading;
mod join;
mod notches;
mod report;
mod walk;

pub use join::check;
pub use report::{AngleMet, EdgeFate, Fate, Growth, NotchMet, SeamMet, SeamOfSize, SeamReport};

use crate::draft::Pieces;
use crate::formula::Env;

/// One size: its name, its pieces, and its numbers.
#[derive(Clone, Copy)]
pub struct SizePieces<'a> {
    /// The size's name.
    pub size: &'a str,
    /// Its pieces.
    pub pieces: &'a dyn Pieces,
    /// What formulas of joins may name.
    pub env: &'a dyn Env,
}
