//! The stages in order, for one garment.

mod check;
mod documents;
mod find;
mod geometry;
mod layouts;
mod make;
mod rebuild;
mod revision;
mod sheets;
mod side;
mod what_changed;

pub use check::{Checked, Worked, check, check_with, selections, sizes_of, work};
pub use find::find;
pub use make::{Made, Wanted, build};
pub use rebuild::{Rebuilt, rebuild};
pub use sheets::tallies;
pub use side::{NoSide, side};
pub use what_changed::what_changed;
