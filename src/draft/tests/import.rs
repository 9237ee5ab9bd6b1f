use std::collections::BTreeMap;

use super::*;
use crate::draft::{Piece, draft_with};
use crate::shape::PieceShape;
use crate::units::Quantity;

struct Nothing;

impl crate::formula::Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

fn import(drawing: &str, kind: &str, scale: &str, edges: &str) -> Result<Piece, (Code, String)> {
    let yaml = format!(
        "
title: P
shape: {{ kind: imported, file: \"drawing-{{size}}.{kind}\", name: \"front-{{size}}\", scale: {scale}, edges: {edges} }}
allowance: 1 cm
"
    );
    let shape: PieceShape = serde_yaml::from_str(&yaml).unwrap();
    let why = || Err("it is not there".to_string());
    let texts =
        Texts::from([(format!("drawing-10.{kind}"), if kind == "png" { why() } else { Ok(drawing.to_string()) })]);
    let folder = Files { texts: &texts, size: "10" };
    let route = Route::top().key("p");
    draft_with("p", &shape, &route, &Nothing, &BTreeMap::new(), folder).map_err(|faults| {
        let place = match &faults[0].place {
            Place::Key(route) | Place::Value(route) => route.to_string(),
            other => format!("{other:?}"),
        };
        (faults[0].code, place)
    })
}

const FOUR: &str = "[top, right, bottom, left]";

/// A view 200 mm wide and 100 units across: one unit is 2 mm. The outline is 40 by 60 units, moved about by groups.
fn svg(path: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?><!-- > --><svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" viewBox=\"0 0 100 100\">
<g transform=\"translate(5, 7) rotate(90)\"><g id='front-10' transform='rotate(-90) scale(2)'>{path}</g></g></svg>"
    )
}

#[test]
fn an_svg_group() {
    let drawing = svg("<path d='M0 0 H20 V30 H0 Z'/><path d='M5 5 L5 20'/>");
    let piece = import(&drawing, "svg", "2 mm", FOUR).unwrap();
    assert!((piece.edge("top").unwrap().length.to_mm() - 80.0).abs() < 1e-6);
    assert!((piece.edge("right").unwrap().length.to_mm() - 120.0).abs() < 1e-6);
    assert!((piece.cut_area.base() - 100.0 * 140.0).abs() < 1e-3);
    assert_eq!(piece.marks.len(), 1);
    assert!((piece.marks[0].length.to_mm() - 60.0).abs() < 1e-6);
    // Curves stay curves.
    let round = import(&svg("<path d='M0 0 C5 -5 15 -5 20 0 V30 H0 Z'/>"), "svg", "2 mm", FOUR).unwrap();
    assert!(round.edge("top").unwrap().path.segs().iter().any(|seg| matches!(seg, PathSeg::Cubic(_))));
}

#[test]
fn drawings_that_cannot_be_used() {
    let at = |key: &str| format!("p.shape.{key}");
    for (path, scale, edges, code, place) in [
        ("<path d='M0 0 H20 V30 H0 Z'/>", "1 mm", FOUR, Code::Outline, "scale"),
        ("<path d='M0 0 H20 V30 H0'/>", "2 mm", FOUR, Code::Outline, "name"),
        ("<path d='M0 0 L20 30 H0 L20 0 Z'/>", "2 mm", FOUR, Code::Outline, "name"),
        ("<path d='M0 0 H20 V30 H0 Z M2 2 H5 V5 Z'/>", "2 mm", FOUR, Code::Outline, "name"),
        ("<path d='M0 0 H20 V30 H0 Z'/>", "2 mm", "[top, side]", Code::Outline, "edges"),
        ("<path d='M0 0 H20 V30 H0 Q'/>", "2 mm", FOUR, Code::Outline, "name"),
        ("<path d='M0 0 H20 V30 H0 Z", "2 mm", FOUR, Code::File, "file"),
    ] {
        assert_eq!(import(&svg(path), "svg", scale, edges), Err((code, at(place))), "{path}");
    }
    let other = svg("<path d='M0 0 H20 V30 H0 Z'/>").replace("front-10", "front-12");
    assert_eq!(import(&other, "svg", "2 mm", FOUR), Err((Code::UnknownName, at("name"))));
    assert_eq!(import(&other, "png", "2 mm", FOUR), Err((Code::File, at("file"))));
}

#[test]
fn what_is_no_dxf() {
    assert_eq!(import("garbage\nmore\n", "dxf", "1 in", FOUR), Err((Code::File, "p.shape.file".to_string())));
}

/// A light polyline with a bulge of 1 is a half circle (DXF Reference: the tangent of a quarter of the angle).
#[test]
fn a_dxf_with_a_bulge() {
    let dxf = "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n8\n1\n2\nfront-10\n0\nLWPOLYLINE\n8\n1\n90\n4\n70\n1\n10\n0\n20\n0\n10\n100\n20\n0\n42\n1\n10\n100\n20\n80\n10\n0\n20\n80\n0\nENDBLK\n0\nENDSEC\n0\nEOF\n";
    // The half circle runs on from the straight sides without a corner.
    let area = import(dxf, "dxf", "1 mm", "[round, left]").unwrap().area.base();
    assert!((area - (100.0 * 80.0 + std::f64::consts::PI * 40.0 * 40.0 / 2.0)).abs() < 1.0, "{area}");
}
