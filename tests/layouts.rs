//! Layouts through the whole path, from the garment file to placements.

use std::fs;
use std::path::Path;

use furbelow::book::{Build, LaidCloth, LaidPiece};
use furbelow::fault::Fault;
use furbelow::lay::cloth::{Folding, SectionKind};
use furbelow::pipeline;

/// The garment of these tests. `{cloth}` and `{pieces}` are filled in.
const GARMENT: &str = r#"
title: Chart cloth
edition: 1.0.0
summary: Pieces to be laid.
terms: None.
sizes: { unit: cm, names: [S, L], measurements: { waist: [70, 90] } }
cloths: { stuff: { title: stuff, role: outer, widths: [{widths}], selvage: 0 in{cloth} } }
pieces:
{pieces}
steps:
  - { title: Sew, why: It holds., prose: Sew. }
"#;

const PANEL: &str =
    "  panel: { title: Panel, cut: { stuff: 2 }, shape: { kind: panel, width: waist / 2, height: 30 in } }\n";
const GORE: &str = "  gore: { title: Gore, cut: { stuff: 2 pairs }, points: { a: { x: 0 in, y: 0 in }, b: { x: waist / 4, y: 0 in }, \
     c: { x: waist / 3, y: 24 in }, d: { x: 0 in, y: 26 in } }, edges: { top: { line: [a, b] }, side: { line: [b, c] }, \
     hem: { line: [d, c] }, front: { line: [a, d] } } }\n";
const HALF: &str = "  half: { title: Half, cut: { stuff: 1 on fold }, points: { a: { x: 0 in, y: 0 in }, b: { x: 8 in, y: 2 in }, \
     c: { x: 10 in, y: 16 in }, d: { x: 0 in, y: 16 in } }, fold: front, edges: { top: { line: [a, b] }, side: { line: [b, c] }, \
     hem: { line: [d, c] }, front: { line: [a, d] } } }\n";

fn garment(widths: &str, cloth: &str, pieces: &[&str]) -> String {
    // Nothing is sewn here: every edge is left as it is.
    let pieces: String = pieces
        .iter()
        .map(|piece| {
            let sides = if piece.contains("kind: panel") {
                ["top", "right", "bottom", "left"]
            } else {
                ["top", "side", "hem", "front"]
            };
            let free: Vec<String> = sides
                .iter()
                .filter(|side| !piece.contains(&format!("fold: {side}")))
                .map(|side| format!("{side}: free"))
                .collect();
            piece.replace(" cut: {", &format!(" finish: {{ {} }}, cut: {{", free.join(", ")))
        })
        .collect();
    GARMENT.replace("{widths}", widths).replace("{cloth}", cloth).replace("{pieces}", &pieces)
}

fn checked(text: &str) -> (Option<Build>, Vec<Fault>) {
    let home = tempfile::tempdir().expect("a folder");
    fs::write(home.path().join("garment.yaml"), text).expect("a garment file");
    let (_, checked) = pipeline::check(home.path());
    (checked.build, checked.faults)
}

fn built(text: &str) -> Build {
    let (build, faults) = checked(text);
    let stops: Vec<&Fault> = faults.iter().filter(|fault| fault.stops()).collect();
    assert!(stops.is_empty(), "{stops:#?}");
    build.expect("a build")
}

fn pieces(laid: &LaidCloth) -> impl Iterator<Item = &LaidPiece> {
    laid.sections.iter().flat_map(|section| &section.pieces)
}

/// A piece, whether face down, its turn, its outline in hundredths of a millimetre.
type Place = (String, bool, i32, Vec<[i64; 2]>);

/// Where everything lies, in an order of its own: what must not depend on how the file is written.
fn places(build: &Build) -> Vec<(String, String, Vec<Place>)> {
    let round = |p: &[f64; 2]| p.map(|v| (v * 100.0).round() as i64);
    build
        .layouts
        .iter()
        .map(|laid| {
            let mut all: Vec<_> = pieces(laid)
                .map(|piece| {
                    let outline = piece.outline.iter().map(round).collect();
                    (piece.piece.clone(), piece.face_down, piece.degrees, outline)
                })
                .collect();
            all.sort();
            (laid.need.size.clone(), format!("{:.1} {:.2}", laid.need.width.to_mm(), laid.need.laid.to_mm()), all)
        })
        .collect()
}

/// Closed form: no layout is shorter than area over width, in any garment there is; and area is that of the drafted pieces.
#[test]
fn never_below_area_over_width() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders = pipeline::find(&[home.join("patterns")]).expect("garments");
    let mut seen = 0;
    for folder in folders {
        let build = pipeline::check(&folder).1.build.expect("a build");
        for laid in &build.layouts {
            let need = &laid.need;
            let sized = build.sizes.iter().find(|sized| sized.size == need.size).expect("its size");
            let area: f64 = sized
                .pieces
                .values()
                .flat_map(|piece| piece.cuts.iter().map(move |cut| (piece, cut)))
                .filter(|(_, cut)| cut.cloth == need.cloth)
                .map(|(piece, cut)| {
                    let halves = if cut.how == furbelow::draft::HowCut::Fold { 2.0 } else { 1.0 };
                    piece.cut_area.base() * cut.pieces() as f64 * halves
                })
                .sum();
            let bound = area / need.usable.to_mm();
            let words = format!("{}, {} {} {:.0}", folder.display(), need.cloth, need.size, need.width.to_mm());
            assert!(need.laid.to_mm() >= bound, "{words}: {} below {bound}", need.laid.to_mm());
            assert!(need.buy > need.laid, "{words}: less bought than laid");
            assert!(need.bound.to_mm() >= bound - 1e-6, "{words}: {} for {bound}", need.bound.to_mm());
            seen += 1;
        }
    }
    assert!(seen >= 72, "{seen} layouts");
}

#[test]
fn order_of_pieces_threads_and_units_change_nothing() {
    let text = garment("45 in, 60 in", "", &[PANEL, GORE, HALF]);
    let first = places(&built(&text));
    assert!(!first.is_empty());
    assert_eq!(first, places(&built(&garment("45 in, 60 in", "", &[HALF, GORE, PANEL]))), "order");
    // 1 in = 25.4 mm exactly: the international inch.
    let metric =
        text.replace("45 in, 60 in", "114.3 cm, 1524 mm").replace("30 in", "76.2 cm").replace("16 in", "406.4 mm");
    assert_eq!(first, places(&built(&metric)), "units");
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("a pool");
    assert_eq!(first, pool.install(|| places(&built(&text))), "one thread");
    let pool = rayon::ThreadPoolBuilder::new().num_threads(5).build().expect("a pool");
    assert_eq!(first, pool.install(|| places(&built(&text))), "five threads");
}

#[test]
fn only_the_foldings_allowed_are_used() {
    for (name, folding) in
        [("opened_out", Folding::Single), ("lengthwise", Folding::Lengthwise), ("crosswise", Folding::Crosswise)]
    {
        let build = built(&garment("60 in", &format!(", foldings: [{name}]"), &[PANEL, GORE]));
        for laid in &build.layouts {
            assert_eq!(laid.need.folding, folding);
            assert!(laid.need.others.is_empty());
        }
    }
}

/// Closed form: a rectangle on the fold, 20 x 40 cm as a half, from cloth 40 cm wide, takes its own length.
#[test]
fn a_half_lies_exactly_on_the_fold() {
    let half = "  half: { title: Half, cut: { stuff: 1 on fold }, fold: left, shape: { kind: panel, width: 20 cm, height: 40 cm } }\n";
    let build = built(&garment("40 cm", ", foldings: [lengthwise]", &[half]));
    for laid in &build.layouts {
        let [section] = laid.sections.as_slice() else { panic!("one section") };
        assert_eq!(section.kind, SectionKind::LengthwiseFold);
        let [piece] = section.pieces.as_slice() else { panic!("one piece") };
        assert!(piece.on_fold && piece.half_pattern && piece.bounds().0[1].abs() < 1e-9);
        assert!((laid.need.laid.to_mm() - 400.0).abs() < 0.01, "{}", laid.need.laid.to_mm());
        // 2 in for straightening (common practice, no source).
        assert!((laid.need.buy.to_mm() - 450.8).abs() < 0.01, "{}", laid.need.buy.to_mm());
    }
    // Opened out it is the same length, as a whole.
    let build = built(&garment("40 cm", ", foldings: [opened_out]", &[half]));
    let piece = pieces(&build.layouts[0]).next().expect("a piece");
    assert!(piece.opened_out && (piece.bounds().1[1] - 400.0).abs() < 0.01);
}

/// Closed form: five panels 30 cm wide whose hems lie on one selvage of cloth lie side by side along it.
#[test]
fn hems_lie_on_the_border() {
    let hem = "  panel: { title: Panel, cut: { stuff: 5 }, on_border: bottom, shape: { kind: panel, width: 30 cm, height: 70 cm } }\n";
    let border = ", gap: 0 in, foldings: [opened_out], border: { along: one_selvage, inset: 2 cm }";
    let build = built(&garment("100 cm", border, &[hem]));
    for laid in &build.layouts {
        for piece in pieces(laid) {
            assert!((piece.bounds().1[1] - 980.0).abs() < 0.01, "{:?}", piece.bounds());
            assert_eq!(piece.degrees % 180, 90);
        }
        assert!((laid.need.laid.to_mm() - 1500.0).abs() < 0.05, "{}", laid.need.laid.to_mm());
    }
    // Folded with the border along one selvage only, one layer would lack it.
    let (_, faults) = checked(&garment("100 cm", &border.replace("opened_out", "lengthwise"), &[hem]));
    assert!(faults.iter().any(|fault| fault.message.contains("only one of the two layers would have")), "{faults:?}");
}

/// Closed form: points that match lie whole repeats apart, and a repeat is added to what is bought.
#[test]
fn matching_pieces_start_on_the_repeat() {
    let panel = "  panel: { title: Panel, cut: { stuff: 3 }, on_repeat: top_left, shape: { kind: panel, width: 35 cm, height: 50 cm } }\n";
    let cloth = ", foldings: [opened_out], one_way: yes, repeat: { along: 32 cm, across: 12 cm }";
    let build = built(&garment("100 cm", cloth, &[panel]));
    for laid in &build.layouts {
        // Upper end at +x: the point at the top left lies at the far end, on the upper side.
        let marks: Vec<[f64; 2]> = pieces(laid).map(|piece| piece.bounds().1).collect();
        for mark in &marks {
            for (axis, step) in [(0, 320.0), (1, 120.0)] {
                let repeats = (mark[axis] - marks[0][axis]) / step;
                assert!((repeats - repeats.round()).abs() * step < 0.01, "{marks:?}");
            }
        }
        assert!((laid.need.buy.to_mm() - laid.need.laid.to_mm() - 50.8 - 320.0).abs() < 1e-6);
    }
}

/// Closed form: a block is larger than the piece by the margin on every side.
#[test]
fn blocks_have_their_margin() {
    let build = built(&garment("60 in", ", block_margin: 2 in, foldings: [opened_out]", &[GORE]));
    for piece in build.layouts.iter().flat_map(pieces) {
        let (low, high) = piece.bounds();
        assert!(piece.block && piece.outline.len() == 4);
        for axis in 0..2 {
            let values = || piece.pattern.iter().map(|p| p[axis]);
            assert!((values().fold(f64::INFINITY, f64::min) - low[axis] - 50.8).abs() < 0.01);
            assert!((high[axis] - values().fold(f64::NEG_INFINITY, f64::max) - 50.8).abs() < 0.01);
        }
    }
}

/// A grain turned by any angle lies along the cloth: the closed form of a rectangle turned back upright.
#[test]
fn a_turned_grain_lies_along_the_cloth() {
    let panel = "  panel: { title: Panel, cut: { stuff: 1 }, grain: { turned: 20 deg }, shape: { kind: panel, width: 20 cm, height: 60 cm } }\n";
    let build = built(&garment("100 cm", ", foldings: [opened_out]", &[panel]));
    let piece = pieces(&build.layouts[0]).next().expect("a piece");
    let (low, high) = piece.bounds();
    let (sin, cos) = 20f64.to_radians().sin_cos();
    assert!((high[0] - low[0] - (600.0 * cos + 200.0 * sin)).abs() < 0.01, "{low:?} {high:?}");
    assert!((high[1] - low[1] - (600.0 * sin + 200.0 * cos)).abs() < 0.01, "{low:?} {high:?}");
}

#[test]
fn what_cannot_be_is_said_with_its_place() {
    let cases = [
        (", one_way: yes, foldings: [crosswise]", PANEL, "one-way cloth cannot be folded crosswise", "foldings"),
        (", foldings: [lengthwise, lengthwise]", PANEL, "named twice", "foldings"),
        (", gap: 2 m", PANEL, "out of bounds", "gap"),
        (", repeat: {}", PANEL, "this repeat has no length", "repeat"),
        (", border: { along: one_selvage, inset: 5 kg }", PANEL, "expected a length", "inset"),
        (
            "",
            "  panel: { title: P, on_border: top, cut: { stuff: 1 }, shape: { kind: panel, width: 9 in, height: 9 in } }\n",
            "no cloth `panel` is cut of has a border",
            "on_border",
        ),
        (
            ", repeat: { along: 9 in }",
            "  panel: { title: P, on_repeat: nose, cut: { stuff: 1 }, shape: { kind: panel, width: 9 in, height: 9 in } }\n",
            "no point of this piece is called `nose`",
            "on_repeat",
        ),
        (
            ", foldings: [lengthwise]",
            "  panel: { title: P, cut: { stuff: 1 pair }, shape: { kind: panel, width: 40 in, height: 9 in } }\n",
            "needs 1019 mm across and the cloth folded lengthwise is 571 mm wide",
            "stuff",
        ),
    ];
    for (cloth, pieces, message, key) in cases {
        let (_, faults) = checked(&garment("45 in", cloth, &[pieces]));
        let found = faults.iter().find(|fault| fault.message.contains(message));
        let found = found.unwrap_or_else(|| panic!("{message}: {faults:#?}"));
        assert!(format!("{:?}", found.place).contains(key), "{message}: {:?}", found.place);
        assert!(found.stops());
    }
}
