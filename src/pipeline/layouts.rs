//! The layouts for other programs.

use serde::Serialize;

use super::make::{Part, Ready};
use crate::book::LaidCloth;
use crate::units::Length;
use crate::write::Output;

/// All sizes of a cloth at one width. Lengths and places are in millimetres.
#[derive(Serialize)]
struct Sheet<'a> {
    cloth: &'a str,
    width: Length,
    usable: Length,
    /// How many of each piece are cut in each size: size, piece, count of whole pieces.
    wanted: Vec<(&'a str, &'a str, u64)>,
    layouts: Vec<&'a LaidCloth>,
}

/// The layouts as JSON: placements and outlines, a file for each cloth and width.
pub(super) fn layouts(ready: &Ready<'_>) -> Part {
    let mut outputs = Vec::new();
    for cloth in &ready.garment.cloths {
        for width in &cloth.widths {
            let of = |laid: &&LaidCloth| laid.need.cloth == cloth.name && laid.need.width == *width;
            let layouts: Vec<&LaidCloth> = ready.build.layouts.iter().filter(of).collect();
            let Some(usable) = layouts.first().map(|laid| laid.need.usable) else { continue };
            let mut wanted = Vec::new();
            for sized in &ready.build.sizes {
                for piece in sized.pieces.values() {
                    let cuts = piece.cuts.iter().filter(|cut| cut.cloth == cloth.name);
                    wanted.extend(cuts.map(|cut| (sized.size.as_str(), piece.name.as_str(), cut.pieces())));
                }
            }
            let sheet = Sheet { cloth: &cloth.name, width: *width, usable, wanted, layouts };
            let text = serde_json::to_string(&sheet).unwrap_or_default() + "\n";
            let wide = crate::units::decimal(width.to_cm(), 0);
            outputs.push(Output {
                path: format!("layouts/{}-{wide}cm.json", cloth.name),
                about: format!("the layouts of {} at {wide} cm", cloth.title),
                bytes: text.into_bytes(),
            });
        }
    }
    Part { outputs, faults: Vec::new() }
}
