//! DXF, as published by Autodesk (DXF Reference, release 12 group codes).

use std::fmt::Write;

use kurbo::Point;

use super::svg::{NOTCH, notch_feet};
use crate::draft::{MarkKind, Path, Piece};

/// How near straight pieces keep to a curve, mm.
const FLAT: f64 = 0.01;

/// Layers of ASTM D6673, as restated in public sources; conformance is not claimed.
const LAYERS: [(&str, &str); 9] = [
    ("1", "boundary"),
    ("2", "turn points"),
    ("3", "curve points"),
    ("4", "notches"),
    ("6", "mirror line"),
    ("7", "grain line"),
    ("8", "internal lines"),
    ("13", "drill holes"),
    ("14", "sew lines"),
];

/// The pieces of one size as a DXF drawing in mm, a block for every piece, side by side. y runs up, as DXF has it. Curves are polylines
/// within 0.01 mm. Layer 1 holds the cut line, 14 the seam line, 4 notches, 6 the fold, 7 the grain, 8 lines within, 13 drill marks, and
/// 2 and 3 the points at which the cut line turns or curves.
#[must_use]
pub fn dxf(pieces: &[&Piece], size: &str) -> String {
    let mut out = Writer::default();
    out.section("HEADER");
    out.pair(9, "$ACADVER");
    out.pair(1, "AC1009");
    out.pair(9, "$INSUNITS");
    out.pair(70, "4");
    out.end("ENDSEC");
    out.section("TABLES");
    out.pair(0, "TABLE");
    out.pair(2, "LAYER");
    out.pair(70, &LAYERS.len().to_string());
    for (index, (name, _)) in LAYERS.iter().enumerate() {
        out.pair(0, "LAYER");
        out.pair(2, name);
        out.pair(70, "0");
        out.pair(62, &(index % 7 + 1).to_string());
        out.pair(6, "CONTINUOUS");
    }
    out.end("ENDTAB");
    out.end("ENDSEC");
    out.section("BLOCKS");
    for piece in pieces {
        block(&mut out, piece, size);
    }
    out.end("ENDSEC");
    out.section("ENTITIES");
    let mut x = 0.0;
    for piece in pieces {
        let extent = piece.cut_extent;
        out.pair(0, "INSERT");
        out.pair(8, "1");
        out.pair(2, &block_name(piece, size));
        out.point(10, Point::new(x - extent.min.0.x, -extent.max.0.y));
        x += extent.width().to_mm() + 20.0;
    }
    out.end("ENDSEC");
    out.end("EOF");
    out.text
}

/// Letters, digits, `_` and `-`, as names of blocks have them in release 12.
fn block_name(piece: &Piece, size: &str) -> String {
    let clean = |text: &str| text.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '_' }).collect::<String>();
    format!("{}-{}", clean(&piece.name), clean(size))
}

fn block(out: &mut Writer, piece: &Piece, size: &str) {
    let name = block_name(piece, size);
    out.pair(0, "BLOCK");
    out.pair(8, "1");
    out.pair(2, &name);
    out.pair(70, "0");
    out.point(10, Point::ZERO);
    out.pair(3, &name);
    out.polyline("1", &piece.cut, true);
    turn_and_curve_points(out, &piece.cut);
    for edge in &piece.edges {
        if piece.fold.as_deref() == Some(edge.name.as_str()) {
            out.line("6", edge.path.start(), edge.path.end());
        }
    }
    out.polyline("14", &piece.seam(), true);
    for notch in &piece.notches {
        for at in notch_feet(notch.cut, notch.out, notch.double) {
            out.line("4", at.0, at.0 - notch.out.0.to_vec2() * NOTCH);
        }
    }
    out.line("7", piece.grain.0.0, piece.grain.1.0);
    for dart in &piece.darts {
        out.polyline("8", &dart.legs.0, false);
        out.polyline("8", &dart.legs.1, false);
    }
    for mark in piece.marks.iter().filter(|mark| mark.kind != MarkKind::Guide) {
        out.polyline("8", &mark.path, false);
    }
    for drill in &piece.drills {
        out.spot("13", drill.at.0);
    }
    out.pair(0, "TEXT");
    out.pair(8, "1");
    out.point(10, piece.label.0);
    out.pair(40, "8.0");
    out.pair(1, &ascii(&format!("{}, size {size}", piece.title)));
    out.pair(0, "ENDBLK");
    out.pair(8, "1");
}

/// Release 12 has no encoding of its own: what is not ASCII is written as the number of its character.
fn ascii(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .map(|c| if c.is_ascii() { c.to_string() } else { format!("\\U+{:04X}", u32::from(c)) })
        .collect()
}

fn turn_and_curve_points(out: &mut Writer, path: &Path) {
    let segs = path.segs();
    for seg in &segs {
        use kurbo::ParamCurve;
        let layer = if matches!(seg, kurbo::PathSeg::Line(_)) { "2" } else { "3" };
        out.spot(layer, seg.start());
    }
}

#[derive(Default)]
struct Writer {
    text: String,
}

impl Writer {
    fn pair(&mut self, code: u16, value: &str) {
        let _ = write!(self.text, "{code:>3}\r\n{value}\r\n");
    }

    fn section(&mut self, name: &str) {
        self.pair(0, "SECTION");
        self.pair(2, name);
    }

    fn end(&mut self, word: &str) {
        self.pair(0, word);
    }

    fn number(&mut self, code: u16, value: f64) {
        let text = format!("{value:.4}");
        self.pair(code, if text == "-0.0000" { "0.0000" } else { &text });
    }

    /// A point of the page, turned over so that y runs up.
    fn point(&mut self, code: u16, p: Point) {
        self.number(code, p.x);
        self.number(code + 10, -p.y);
    }

    fn line(&mut self, layer: &str, from: Point, to: Point) {
        self.pair(0, "LINE");
        self.pair(8, layer);
        self.point(10, from);
        self.point(11, to);
    }

    fn spot(&mut self, layer: &str, p: Point) {
        self.pair(0, "POINT");
        self.pair(8, layer);
        self.point(10, p);
    }

    fn polyline(&mut self, layer: &str, path: &Path, closed: bool) {
        let mut points = path.flat(FLAT);
        if closed && points.len() > 1 && points[0].distance(points[points.len() - 1]) < 1e-3 {
            points.pop();
        }
        self.pair(0, "POLYLINE");
        self.pair(8, layer);
        self.pair(66, "1");
        self.pair(70, if closed { "1" } else { "0" });
        self.point(10, Point::ZERO);
        for p in points {
            self.pair(0, "VERTEX");
            self.pair(8, layer);
            self.point(10, p);
        }
        self.pair(0, "SEQEND");
        self.pair(8, layer);
    }
}
