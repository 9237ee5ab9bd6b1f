//! The pieces for other programs.

use super::make::{Part, Ready};
use crate::draft::Piece;
use crate::export;
use crate::write::Output;

/// The pieces of every size for other programs: true-scale SVG piece by piece, DXF and JSON.
pub(super) fn geometry(ready: &Ready<'_>) -> Part {
    let mut outputs = Vec::new();
    for sized in &ready.build.sizes {
        let pieces: Vec<&Piece> = sized.pieces.values().collect();
        let size = sized.size.to_lowercase();
        let about = |what: &str| format!("the pieces of size {} as {what}", sized.size);
        let json = serde_json::to_string_pretty(&export::json(&sized.size, &pieces)).unwrap_or_default() + "\n";
        outputs.push(Output { path: format!("geometry/{size}.json"), about: about("JSON"), bytes: json.into_bytes() });
        let dxf = export::dxf(&pieces, &sized.size).into_bytes();
        outputs.push(Output { path: format!("geometry/{size}.dxf"), about: about("DXF"), bytes: dxf });
        for piece in &pieces {
            let bytes = export::svg(piece, &sized.size).into_bytes();
            let about = format!("{} of size {}, true to scale", piece.title, sized.size);
            outputs.push(Output { path: format!("geometry/{}-{size}.svg", piece.name), about, bytes });
        }
    }
    Part { outputs, faults: Vec::new() }
}
