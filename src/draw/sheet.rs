//! A contact sheet: one figure of each kind, from a small invented garment.

use kurbo::{BezPath, Point, Vec2};

use crate::units::{Length, Printed, Show, print};

use super::figure::{Drawn, Measure};
use super::geom::{closed, line, pt};
use super::kinds::{
    CartridgePleats, EdgePath, FlatPiece, InnerKind, InnerLine, MarkingGrid, Notch, PieceMeasure, cartridge_above,
    cartridge_drawn_up, cartridge_section, cartridge_sewn, cartridge_stitched, flat_piece, marking_grid,
};
use super::look::Look;

fn inches(value: f64) -> Measure {
    Measure::new(Length::inches(value), Show::LENGTH)
}

fn small(value: f64) -> Measure {
    Measure::new(Length::inches(value), Show::SMALL)
}

fn printed(mm: f64) -> Printed {
    print(Length::mm(mm).into(), Show::LENGTH)
}

/// One figure of each kind with its name, in the order of the kinds.
#[must_use]
pub fn contact_sheet(look: &Look) -> Vec<(&'static str, Drawn)> {
    let grid = MarkingGrid {
        rows: 3,
        stitch: small(0.25),
        row_gap: small(0.5),
        first: small(0.375),
        guide_every: 4,
        folded: true,
    };
    let pleats = CartridgePleats {
        stitch: small(0.25),
        rows: 3,
        row_gap: small(0.5),
        pitch: small(0.09375),
        pleats: 288,
        flat: inches(144.0),
        drawn: inches(27.0),
    };
    vec![
        ("flat-piece", flat_piece(&panel(), look)),
        ("flat-piece-bodice", flat_piece(&front(), look)),
        ("marking-grid", marking_grid(&grid, look)),
        ("cartridge-stitched", cartridge_stitched(&pleats, look)),
        ("cartridge-drawn-up", cartridge_drawn_up(&pleats, look)),
        ("cartridge-above", cartridge_above(&pleats, look)),
        ("cartridge-section", cartridge_section(&pleats, look)),
        ("cartridge-sewn", cartridge_sewn(&pleats, look)),
    ]
}

fn edge(name: &str, path: BezPath, mm: f64, allowance: f64) -> EdgePath {
    EdgePath { name: name.into(), path, measure: Some(printed(mm)), allowance: Some(printed(allowance)) }
}

/// A straight skirt panel.
fn panel() -> FlatPiece {
    let (w, h) = (1100.0, 1000.0);
    let p = |x: f64, y: f64| pt(x, y);
    FlatPiece {
        name: "Skirt panel".into(),
        seam: vec![
            edge("top", line(p(0.0, 0.0), p(w, 0.0)), w, 25.4),
            edge("side seam", line(p(w, 0.0), p(w, h)), h, 15.9),
            edge("hem", line(p(w, h), p(0.0, h)), w, 50.8),
            edge("side seam", line(p(0.0, h), p(0.0, 0.0)), h, 15.9),
        ],
        cut: closed(&[p(-15.9, -25.4), p(w + 15.9, -25.4), p(w + 15.9, h + 50.8), p(-15.9, h + 50.8)]),
        grain: Some((p(220.0, 180.0), p(220.0, 820.0))),
        notches: vec![
            Notch { at: p(w, 300.0), out: Vec2::new(1.0, 0.0), count: 1 },
            Notch { at: p(0.0, 300.0), out: Vec2::new(-1.0, 0.0), count: 2 },
        ],
        inner: vec![InnerLine {
            path: line(p(0.0, h - 50.0), p(w, h - 50.0)),
            kind: InnerKind::Fold,
            name: Some("hem fold".into()),
        }],
        fold: None,
        measures: vec![PieceMeasure { from: p(-15.9, 640.0), to: p(w + 15.9, 640.0), text: printed(w + 31.8) }],
        wrong_side: true,
        cutting: "cut 3 of wool".into(),
        room: (80.0, 75.0),
    }
}

/// A bodice front, half, on the fold.
fn front() -> FlatPiece {
    let armhole = BezPath::from_vec(vec![
        kurbo::PathEl::MoveTo(pt(150.0, 60.0)),
        kurbo::PathEl::CurveTo(pt(140.0, 150.0), pt(150.0, 210.0), pt(230.0, 230.0)),
    ]);
    let neck = BezPath::from_vec(vec![
        kurbo::PathEl::MoveTo(pt(0.0, 120.0)),
        kurbo::PathEl::CurveTo(pt(50.0, 118.0), pt(85.0, 80.0), pt(88.0, 30.0)),
    ]);
    let waist = BezPath::from_vec(vec![
        kurbo::PathEl::MoveTo(pt(190.0, 400.0)),
        kurbo::PathEl::CurveTo(pt(120.0, 415.0), pt(60.0, 440.0), pt(0.0, 500.0)),
    ]);
    let mut cut = BezPath::new();
    cut.move_to(pt(0.0, 104.0));
    cut.curve_to(pt(44.0, 100.0), pt(70.0, 70.0), pt(72.0, 20.0));
    cut.line_to(pt(84.0, 14.0));
    cut.line_to(pt(168.0, 44.0));
    cut.curve_to(pt(156.0, 140.0), pt(166.0, 196.0), pt(250.0, 216.0));
    cut.line_to(pt(208.0, 414.0));
    cut.curve_to(pt(130.0, 430.0), pt(66.0, 458.0), pt(0.0, 523.0));
    cut.close_path();
    let cf: (Point, Point) = (pt(0.0, 500.0), pt(0.0, 120.0));
    FlatPiece {
        name: "Bodice front".into(),
        seam: vec![
            edge("neck", neck, 137.0, 15.9),
            edge("shoulder", line(pt(88.0, 30.0), pt(150.0, 60.0)), 68.9, 15.9),
            edge("armhole", armhole, 212.0, 15.9),
            edge("side seam", line(pt(230.0, 230.0), pt(190.0, 400.0)), 174.6, 15.9),
            edge("waist", waist, 217.0, 15.9),
        ],
        cut,
        grain: Some((pt(60.0, 200.0), pt(60.0, 380.0))),
        notches: vec![Notch { at: pt(158.0, 165.0), out: Vec2::new(1.0, -0.15), count: 1 }],
        inner: vec![],
        fold: Some(line(pt(0.0, 104.0), pt(0.0, 523.0))),
        measures: vec![PieceMeasure { from: cf.1, to: cf.0, text: printed(380.0) }],
        wrong_side: false,
        cutting: "cut 1 on the fold".into(),
        room: (60.0, 75.0),
    }
}
