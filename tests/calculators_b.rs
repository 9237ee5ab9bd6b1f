//! Properties of the calculators of folds, rings, bones, cloth and print.
//!
//! What an answer says fits is placed, what it counts is counted again one by one, and every proposal is
//! worked through from its text as it would be copied out.

#[path = "calculators_b/ask.rs"]
mod ask;
#[path = "calculators_b/folds.rs"]
mod folds;
#[path = "calculators_b/goods.rs"]
mod goods;
#[path = "calculators_b/motifs.rs"]
mod motifs;
#[path = "calculators_b/rings.rs"]
mod rings;
