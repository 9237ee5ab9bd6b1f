//! The stages in order, for one garment.

mod check;
mod documents;
mod find;
mod geometry;
mod make;
mod rebuild;

pub use check::{Checked, check, check_with};
pub use find::find;
pub use make::{Made, Wanted, build};
pub use rebuild::{Rebuilt, rebuild};
