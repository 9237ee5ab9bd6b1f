//! An invented gown for the contact sheet: a boned bodice with a point, two-piece sleeves, wings, a pleated skirt.

use kurbo::{BezPath, PathEl, Vec2};

use crate::units::{Length, Show};

use super::super::figure::Measure;
use super::super::geom::pt;
use super::super::kinds::{
    BodiceView, Closing, Fullness, Match, Matched, MatchedPiece, SkirtView, View, WornEdge, WornPiece,
};

fn inches(value: f64) -> Measure {
    Measure::new(Length::inches(value), Show::LENGTH)
}

fn to(points: [(f64, f64); 2]) -> BezPath {
    let [a, b] = points.map(|(x, y)| pt(x, y));
    BezPath::from_vec(vec![PathEl::MoveTo(a), PathEl::LineTo(b)])
}

fn curve(points: [(f64, f64); 4]) -> BezPath {
    let [a, b, c, d] = points.map(|(x, y)| pt(x, y));
    BezPath::from_vec(vec![PathEl::MoveTo(a), PathEl::CurveTo(b, c, d)])
}

/// Front, side and back of half a bodice; the middle of the front at the left of each.
fn pieces() -> Vec<WornPiece> {
    let front = vec![
        (to([(0.0, 150.0), (100.0, 118.0)]), WornEdge::Free),
        (to([(100.0, 118.0), (96.0, 22.0)]), WornEdge::Free),
        (to([(96.0, 22.0), (168.0, 52.0)]), WornEdge::Shoulder),
        (curve([(168.0, 52.0), (160.0, 105.0), (162.0, 140.0), (172.0, 175.0)]), WornEdge::Armhole),
        (curve([(172.0, 175.0), (150.0, 230.0), (122.0, 300.0), (108.0, 400.0)]), WornEdge::After),
        (curve([(108.0, 400.0), (70.0, 415.0), (28.0, 460.0), (0.0, 525.0)]), WornEdge::Lower),
        (to([(0.0, 525.0), (0.0, 150.0)]), WornEdge::Before),
    ];
    let side = vec![
        (curve([(172.0, 175.0), (180.0, 205.0), (200.0, 216.0), (235.0, 218.0)]), WornEdge::Armhole),
        (curve([(235.0, 218.0), (230.0, 280.0), (216.0, 330.0), (206.0, 394.0)]), WornEdge::After),
        (curve([(206.0, 394.0), (180.0, 394.0), (150.0, 396.0), (118.0, 400.0)]), WornEdge::Lower),
        (curve([(118.0, 400.0), (128.0, 320.0), (148.0, 240.0), (172.0, 175.0)]), WornEdge::Before),
    ];
    let back = vec![
        (curve([(455.0, 40.0), (430.0, 40.0), (400.0, 34.0), (388.0, 18.0)]), WornEdge::Free),
        (to([(388.0, 18.0), (312.0, 62.0)]), WornEdge::Shoulder),
        (curve([(312.0, 62.0), (318.0, 130.0), (300.0, 214.0), (235.0, 218.0)]), WornEdge::Armhole),
        (curve([(235.0, 218.0), (258.0, 280.0), (272.0, 330.0), (280.0, 394.0)]), WornEdge::Before),
        (curve([(280.0, 394.0), (330.0, 396.0), (390.0, 402.0), (440.0, 410.0)]), WornEdge::Lower),
        (to([(440.0, 410.0), (455.0, 40.0)]), WornEdge::After),
    ];
    [front, side, back].map(|edges| WornPiece { edges, darts: vec![] }).to_vec()
}

/// The same seen from behind: the order turned, and with it what comes before and after.
fn turned() -> Vec<WornPiece> {
    let mut pieces = pieces();
    pieces.reverse();
    for (_, kind) in pieces.iter_mut().flat_map(|piece| &mut piece.edges) {
        *kind = match *kind {
            WornEdge::Before => WornEdge::After,
            WornEdge::After => WornEdge::Before,
            other => other,
        };
    }
    pieces
}

fn upper_sleeve() -> BezPath {
    let mut path = curve([(-120.0, 90.0), (-90.0, 60.0), (-60.0, 0.0), (0.0, 0.0)]);
    path.curve_to(pt(60.0, 0.0), pt(95.0, 70.0), pt(115.0, 110.0));
    path.curve_to(pt(94.0, 220.0), pt(80.0, 330.0), pt(110.0, 590.0));
    path.line_to(pt(0.0, 600.0));
    path.curve_to(pt(-70.0, 480.0), pt(-105.0, 330.0), pt(-120.0, 90.0));
    path.close_path();
    path
}

fn under_sleeve() -> BezPath {
    let mut path = curve([(-120.0, 90.0), (-80.0, 150.0), (-20.0, 160.0), (5.0, 110.0)]);
    path.curve_to(pt(0.0, 220.0), pt(2.0, 300.0), pt(78.0, 592.0));
    path.line_to(pt(0.0, 600.0));
    path.curve_to(pt(-70.0, 480.0), pt(-105.0, 330.0), pt(-120.0, 90.0));
    path.close_path();
    path
}

/// The bodice alone, closed with buttons.
pub(super) fn bodice() -> BodiceView {
    BodiceView {
        name: "bodice".into(),
        view: View::Front,
        pieces: pieces(),
        middle_seam: false,
        sleeve: vec![upper_sleeve(), under_sleeve()],
        wing: None,
        closing: Closing::Buttons((0..9).map(|i| 20.0 + 40.0 * f64::from(i)).collect()),
        piped: true,
        skirt: None,
        height: 72.0,
    }
}

/// The whole gown.
pub(super) fn gown(view: View) -> BodiceView {
    let front = view == View::Front;
    let at: Vec<f64> = (0..12).map(|i| 12.0 + 31.0 * f64::from(i)).collect();
    BodiceView {
        name: "gown".into(),
        view,
        pieces: if front { pieces() } else { turned() },
        middle_seam: !front,
        wing: Some(inches(1.25)),
        closing: if front { Closing::Lacing { at, gap: 25.4, inset: 10.0 } } else { Closing::None },
        skirt: Some(SkirtView {
            name: "skirt".into(),
            view,
            waist: inches(28.0),
            length: inches(42.0),
            hem: inches(168.0),
            band: inches(1.0),
            dip: vec![],
            fullness: Fullness::Cartridge,
            pleats: 288,
            opening: None,
            piped: false,
            flounce: None,
            height: 104.0,
        }),
        height: 112.0,
        ..bodice()
    }
}

/// The two pieces of a sleeve and the seams between them.
pub(super) fn sleeve_pieces() -> Matched {
    let piece = |name: &str, outline: BezPath, edges: Vec<BezPath>| MatchedPiece {
        name: name.into(),
        cut: outline,
        edges,
        notches: vec![],
        grain: Vec2::new(0.0, 1.0),
    };
    let hind = || curve([(0.0, 600.0), (-70.0, 480.0), (-105.0, 330.0), (-120.0, 90.0)]);
    let fore = curve([(115.0, 110.0), (94.0, 220.0), (80.0, 330.0), (110.0, 590.0)]);
    let fore_under = curve([(5.0, 110.0), (0.0, 220.0), (2.0, 300.0), (78.0, 592.0)]);
    let measure = |path: &BezPath| Measure::new(Length::mm(super::super::geom::length(path)), Show::LENGTH);
    let seam = |name: &str, edges: [usize; 2], a: &BezPath, b: &BezPath| Match {
        name: name.into(),
        sides: [(0, edges[0]), (1, edges[1])],
        lengths: [measure(a), measure(b)],
    };
    Matched {
        seams: vec![seam("hind seam", [0, 0], &hind(), &hind()), seam("fore seam", [1, 1], &fore, &fore_under)],
        pieces: vec![
            piece("Upper sleeve", upper_sleeve(), vec![hind(), fore]),
            piece("Under sleeve", under_sleeve(), vec![hind(), fore_under]),
        ],
        room: (70.0, 80.0),
    }
}
