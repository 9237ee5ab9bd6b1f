//! The pieces for other programs: true-scale SVG, DXF, and JSON of all geometry.
//!
//! All three are written from the same [`crate::draft::Piece`], piece by piece, with nothing rounded but to a millionth of a
//! millimetre in SVG and JSON and a ten-thousandth in DXF. Output is the same for the same pieces.

mod dxf;
mod json;
mod svg;

pub use dxf::dxf;
pub use json::json;
pub use svg::{path_data, svg};
