//! A garment whose yoke and pocket come from drawings (`cases/drawn`), from the folder to the seams.

use std::path::Path;

use furbelow::draft::{HowCut, MarkKind, Piece};
use furbelow::pipeline;

use super::{edge, near};

/// The drawings were written by another library (`cases/drawn/make.py`). Closed forms: the yoke's bottom is a quarter of the
/// waist and 2 cm; the upper edge is an arc of 45 degrees, chord / (2 sin 22.5°) in radius.
#[test]
fn pieces_from_drawings_meet_drafted_ones() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/drawn");
    let (source, checked) = pipeline::check(&folder);
    assert_eq!(checked.faults, [], "{:#?}", checked.faults);
    assert!(source.paths().iter().any(|path| path.ends_with("pocket-M.svg")), "watched: {:?}", source.paths());
    let build = checked.build.expect("a build");
    for (sized, waist) in build.sizes.iter().zip([660.0, 760.0, 880.0]) {
        let wide = (waist + 20.0) / 4.0;
        let yoke = &sized.pieces["yoke"];
        near(edge(yoke, "bottom"), wide, 1e-3);
        near(edge(yoke, "centre"), 6.0 * 25.4, 1e-3);
        near(edge(yoke, "side"), 4.0 * 25.4, 1e-3);
        let chord = wide.hypot(2.0 * 25.4);
        let arc = chord / (2.0 * 22.5f64.to_radians().sin()) * 45.0f64.to_radians();
        near(edge(yoke, "upper"), arc, 1e-2);
        assert_eq!((yoke.fold.as_deref(), yoke.cuts[0].how), (Some("centre"), HowCut::Fold));
        from_the_layers(yoke, wide);
        near(edge(&sized.pieces["skirt"], "waist"), wide, 1e-3);
        let pocket = &sized.pieces["pocket"];
        near(edge(pocket, "top"), waist / 4.0, 1e-4);
        near(pocket.cut_extent.height().to_mm(), 160.0 + 20.0, 1e-3);
        near(pocket.marks[0].length.to_mm(), waist / 4.0, 1e-4);
    }
    let seam = &build.seams.seams[0];
    assert!(seam.by_size.iter().all(|size| size.meets && size.notches.len() == 1), "{seam:#?}");
}

/// Grain, notch, inner line, cut-out and drill mark of a piece block.
fn from_the_layers(yoke: &Piece, wide: f64) {
    let way = yoke.grain.1.0 - yoke.grain.0.0;
    near(way.y, 0.0, 1e-6);
    assert_eq!(yoke.notches.len(), 1);
    let notch = &yoke.notches[0];
    assert_eq!((notch.edge.as_str(), notch.double), ("bottom", false));
    // The outline runs clockwise: along the bottom from the side to the middle.
    near(notch.along.to_mm(), 0.6 * wide, 1e-2);
    near(notch.cut.0.distance(notch.at.0), 12.7, 1e-6);
    let kinds: Vec<MarkKind> = yoke.marks.iter().map(|mark| mark.kind).collect();
    assert_eq!(kinds, [MarkKind::Stitch, MarkKind::Cut]);
    near(yoke.marks[0].length.to_mm(), wide, 1e-3);
    near(yoke.marks[1].length.to_mm(), std::f64::consts::TAU * 0.25 * 25.4, 1e-2);
    // The page begins at the upper left corner of the outline, whose arc rises above the middle's 6 in.
    let top = yoke.edge("centre").expect("the middle").path.end();
    let drill = yoke.drills[0].at.0 - top;
    near(drill.x, 2.0 * 25.4, 1e-3);
    near(drill.y, 2.5 * 25.4, 1e-3);
}
