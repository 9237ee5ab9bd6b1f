//! All geometry of a size as JSON.

use serde_json::{Value, json as object};

use crate::draft::Piece;

/// The pieces of one size: everything a [`Piece`] holds, and, for readers that only want outlines, the closed seam line and cut
/// line as SVG path data, opened out at the fold as `full_seam` and `full_cut`. Lengths are mm, areas mm², angles radians; x to
/// the right, y down the page.
#[must_use]
pub fn json(size: &str, pieces: &[&Piece]) -> Value {
    let pieces: Vec<Value> = pieces
        .iter()
        .map(|piece| {
            let mut value = serde_json::to_value(piece).unwrap_or(Value::Null);
            if let Value::Object(map) = &mut value {
                map.insert("seam".to_string(), object!(super::path_data(&piece.seam(), true)));
                map.insert("full_seam".to_string(), object!(super::path_data(&piece.full_seam(), true)));
                map.insert("full_cut".to_string(), object!(super::path_data(&piece.full_cut(), true)));
            }
            value
        })
        .collect();
    object!({ "size": size, "unit": "mm", "pieces": pieces })
}
