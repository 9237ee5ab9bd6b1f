//! A contact sheet: one figure of each kind, from a small invented garment.

use kurbo::{BezPath, Point, Vec2};

use crate::units::{Length, Printed, Ratio, Show, print};

use super::super::figure::{Drawn, Measure};
use super::super::geom::{closed, line, pt};
use super::super::kinds::{
    Basting, BiasStrips, Block, Boning, CartridgePleats, Catch, DipFigure, EdgePath, FlatPiece, FlatPleats, FoldOver,
    Fullness, GatherRows, HemFigure, HemKind, Hooks, InnerKind, InnerLine, LaceWay, Lacing, LaidShape, LayoutFigure,
    MarkingGrid, Motifs, Notch, PieceMeasure, PipedCurve, PipedPoint, PipingFigure, Placket, PleatKind, Press,
    Pressing, Ruffle, SeamFigure, SeamKind, ShapedSeam, SkirtView, SleeveSet, SmockStage, Smocking, Spread,
    SwatchFigure, TiedPairs, TiedThreads, Together, Vent, View, WingFigure, basting, bias_strips, block, bodice_view,
    boning, cartridge_above, cartridge_drawn_up, cartridge_section, cartridge_sewn, cartridge_stitched, dip,
    flat_piece, flat_pleats, fold_over, gather_rows, hem, hooks, lacing, layout, marking_grid, matched, motifs,
    piping_clipped, piping_in_seam, piping_point, piping_section, placket, pleats_to_shaped_edge, pressing,
    ruffle_marks, ruffle_sewn, seam, skirt_view, sleeve_set, smocking, swatch, tied_threads, together, vent, wing,
};
use super::super::look::Look;
use super::gown;

fn inches(value: f64) -> Measure {
    Measure::new(Length::inches(value), Show::LENGTH)
}

fn small(value: f64) -> Measure {
    Measure::new(Length::inches(value), Show::SMALL)
}

fn printed(mm: f64) -> Printed {
    print(Length::mm(mm).into(), Show::LENGTH)
}

/// A panel on the fold, a strip too small for its number, a block and an opened half.
fn laid(spread: Spread) -> LayoutFigure {
    let square =
        |x: f64, y: f64, long: f64, high: f64| vec![[x, y], [x + long, y], [x + long, y + high], [x, y + high]];
    let shape = |number: u32, name: &str, outline: Vec<[f64; 2]>| LaidShape {
        number,
        name: name.to_string(),
        outline,
        pattern: Vec::new(),
        opened_at: None,
        face_down: false,
        forward: true,
        on_fold: false,
    };
    let panel = LaidShape {
        on_fold: spread != Spread::Open,
        ..shape(1, "Skirt front", vec![[0.0, 0.0], [900.0, 0.0], [860.0, 420.0], [0.0, 500.0]])
    };
    let strip = shape(2, "Loop", square(30.0, 510.0, 400.0, 24.0));
    let block = LaidShape {
        pattern: vec![[960.0, 40.0], [1240.0, 40.0], [1200.0, 300.0], [1000.0, 300.0]],
        face_down: true,
        ..shape(3, "Sleeve", square(920.0, 10.0, 360.0, 330.0))
    };
    let half = LaidShape {
        opened_at: Some(([920.0, 470.0], [1200.0, 470.0])),
        forward: false,
        ..shape(4, "Collar", square(920.0, 400.0, 280.0, 140.0))
    };
    let measure = |mm: f64| Measure::new(Length::mm(mm), Show::LENGTH);
    LayoutFigure {
        cloth: "wool".to_string(),
        spread,
        length: measure(1300.0),
        width: measure(560.0),
        one_way: spread == Spread::Lengthwise,
        pieces: vec![panel, strip, block, half],
        spare: Some(([1000.0, 345.0], measure(300.0), measure(50.0))),
        room: (158.0, 88.0),
    }
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
    let rows =
        GatherRows { rows: 2, row_gap: small(0.25), first: small(0.375), flat: inches(144.0), drawn: inches(60.0) };
    let ruffle =
        Ruffle { name: "flounce".into(), flat: inches(240.0), edge: inches(120.0), depth: inches(9.0), parts: 8 };
    vec![
        ("flat-piece", flat_piece(&panel(), look)),
        ("flat-piece-bodice", flat_piece(&front(), look)),
        ("layout-folded", layout(&laid(Spread::Lengthwise), look)),
        ("layout-open", layout(&laid(Spread::Open), look)),
        ("layout-crosswise", layout(&laid(Spread::Crosswise), look)),
        ("marking-grid", marking_grid(&grid, look)),
        ("cartridge-stitched", cartridge_stitched(&pleats, look)),
        ("cartridge-drawn-up", cartridge_drawn_up(&pleats, look)),
        ("cartridge-above", cartridge_above(&pleats, look)),
        ("cartridge-section", cartridge_section(&pleats, look)),
        ("cartridge-sewn", cartridge_sewn(&pleats, look)),
        ("pleats-to-shaped-edge", pleats_to_shaped_edge(&demo_shaped(), look)),
        ("swatch", swatch(&demo_swatch(), look)),
        ("dip", dip(&demo_dip(), look)),
        ("gather-rows", gather_rows(&rows, look)),
        ("ruffle-marks", ruffle_marks(&ruffle, look)),
        ("ruffle-sewn", ruffle_sewn(&ruffle, look)),
        ("piping-section", piping_section(&piping(true), look)),
        ("piping-section-flat", piping_section(&piping(false), look)),
        ("piping-in-seam", piping_in_seam(&piping(true), look)),
        ("piping-in-seam-flat", piping_in_seam(&piping(false), look)),
        ("hem-once", hem(&demo_hem(HemKind::Once), look)),
        ("hem-twice", hem(&demo_hem(HemKind::Twice), look)),
        ("hem-rolled", hem(&demo_hem(HemKind::Rolled), look)),
        ("together", together(&demo_together(), look)),
        ("seam-plain-open", seam(&demo_seam(SeamKind::Plain, Press::Open), look)),
        ("seam-plain-side", seam(&demo_seam(SeamKind::Plain, Press::OneSide), look)),
        ("seam-french-first", seam(&demo_seam(SeamKind::FrenchFirst, Press::OneSide), look)),
        ("seam-french-second", seam(&demo_seam(SeamKind::FrenchSecond, Press::OneSide), look)),
        ("seam-felled", seam(&demo_seam(SeamKind::Felled, Press::OneSide), look)),
        ("seam-bound", seam(&demo_seam(SeamKind::Bound, Press::Open), look)),
        ("seam-faced", seam(&demo_seam(SeamKind::Faced, Press::OneSide), look)),
        ("seam-mounted", seam(&demo_seam(SeamKind::Mounted, Press::Open), look)),
        ("seam-felled-lining", seam(&demo_seam(SeamKind::FelledLining, Press::Open), look)),
        ("placket", placket(&Placket { opening: inches(9.0), lap: inches(1.5), two_layers: true }, look)),
        ("hooks-bars", hooks(&demo_hooks(Catch::Bars), look)),
        ("hooks-eyes", hooks(&demo_hooks(Catch::Eyes), look)),
        ("hooks-snaps", hooks(&demo_hooks(Catch::Snaps), look)),
        ("lacing-spiral", lacing(&demo_lacing(LaceWay::Spiral), look)),
        ("lacing-cross", lacing(&demo_lacing(LaceWay::Cross), look)),
        ("skirt-view-front", skirt_view(&demo_skirt(View::Front), look)),
        ("skirt-view-back", skirt_view(&demo_skirt(View::Back), look)),
        ("skirt-view-petticoat", skirt_view(&demo_petticoat(), look)),
        ("smocking-grid", smocking(&demo_smocking(SmockStage::Grid), look)),
        ("smocking-drawn", smocking(&demo_smocking(SmockStage::DrawnUp), look)),
        ("smocking-tied", smocking(&demo_smocking(SmockStage::Tied), look)),
        ("smocking-let-out", smocking(&demo_smocking(SmockStage::LetOut), look)),
        ("smocking-point", smocking(&demo_smocking(SmockStage::Pointed), look)),
        ("boning", boning(&demo_boning(), look)),
        ("piping-clipped", piping_clipped(&demo_curve(), look)),
        ("piping-point", piping_point(&demo_point(), look)),
        ("fold-over", fold_over(&FoldOver { depth: inches(1.0), stay: Some("flannel".into()) }, look)),
        ("fold-over-plain", fold_over(&FoldOver { depth: inches(1.0), stay: None }, look)),
        ("tied-threads-halves", tied_threads(&demo_tied(TiedPairs::Halves), look)),
        ("tied-threads-rows", tied_threads(&demo_tied(TiedPairs::Rows), look)),
        ("sleeve-set", sleeve_set(&demo_sleeve_set(), look)),
        ("wing", wing(&demo_wing(None), look)),
        ("wing-tabs", wing(&demo_wing(Some(9)), look)),
        ("matched", matched(&gown::sleeve_pieces(), look)),
        ("vent", vent(&Vent { height: inches(8.0), lap: inches(2.0), hem: inches(1.5) }, look)),
        ("basting", basting(&demo_basting(), look)),
        ("block", block(&demo_block(), look)),
        ("motifs", motifs(&demo_motifs(), look)),
        ("bias-strips", bias_strips(&demo_bias(), look)),
        ("flat-pleats-knife", flat_pleats(&demo_pleats(PleatKind::Knife), look)),
        ("flat-pleats-box", flat_pleats(&demo_pleats(PleatKind::Box), look)),
        ("flat-pleats-inverted", flat_pleats(&demo_pleats(PleatKind::Inverted), look)),
        ("flat-pleats-tucks", flat_pleats(&demo_pleats(PleatKind::Tuck), look)),
        ("bodice-view-front", bodice_view(&gown::bodice(), look)),
        ("gown-view-front", bodice_view(&gown::gown(View::Front), look)),
        ("gown-view-back", bodice_view(&gown::gown(View::Back), look)),
        ("pressing-open", pressing(&demo_pressing(Some(Press::Open)), look)),
        ("pressing-side", pressing(&demo_pressing(Some(Press::OneSide)), look)),
        ("pressing-flat", pressing(&demo_pressing(None), look)),
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
        inner: vec![InnerLine {
            path: line(pt(30.0, 150.0), pt(30.0, 445.0)),
            kind: InnerKind::Channel(10.0),
            name: Some("bone".into()),
        }],
        fold: Some(line(pt(0.0, 104.0), pt(0.0, 523.0))),
        measures: vec![PieceMeasure { from: cf.1, to: cf.0, text: printed(380.0) }],
        wrong_side: false,
        cutting: "cut 1 on the fold".into(),
        room: (60.0, 75.0),
    }
}

fn demo_swatch() -> SwatchFigure {
    SwatchFigure {
        flat: inches(12.0),
        tight: inches(2.0),
        eased: Some(inches(2.5)),
        stitch: small(0.25),
        layers: "wool folded over cotton flannel".into(),
    }
}

/// Half a waist seam that dips in a straight line, eased at the end.
fn demo_seam_line() -> Vec<(Length, Length)> {
    (0..=20)
        .map(|i| {
            let t = f64::from(i) / 20.0;
            (Length::inches(5.0 * t), Length::inches(4.0 * (1.0 - t).powf(1.35)))
        })
        .collect()
}

fn demo_shaped() -> ShapedSeam {
    ShapedSeam {
        edge: demo_seam_line(),
        arc: inches(6.5),
        depth: inches(4.0),
        pitch: small(0.09375),
        pleats: 69,
        meets: "bodice".into(),
        piped: true,
    }
}

fn demo_point() -> PipedPoint {
    PipedPoint { name: "bodice".into(), slope: 0.8, allowance: small(0.5), short: Some(inches(0.5)) }
}

fn demo_tied(pairs: TiedPairs) -> TiedThreads {
    TiedThreads { rows: if pairs == TiedPairs::Rows { 4 } else { 3 }, pairs, place: "centre front".into() }
}

fn demo_wing(tabs: Option<usize>) -> WingFigure {
    WingFigure { length: inches(11.0), depth: inches(1.25), allowance: small(0.625), tabs, free: Some(inches(3.0)) }
}

fn demo_dip() -> DipFigure {
    DipFigure {
        seam: demo_seam_line(),
        depth: inches(4.0),
        span: inches(5.0),
        arc: inches(6.5),
        stretched: inches(39.0),
        ratio: Ratio::from_base(6.0),
        allowance: inches(1.0),
        meets: "waistband".into(),
    }
}

fn piping(cord: bool) -> PipingFigure {
    PipingFigure {
        cord: cord.then(|| small(0.1875)),
        reveal: (!cord).then(|| small(0.125)),
        allowance: small(0.625),
        strip: inches(1.875),
    }
}

fn demo_hem(kind: HemKind) -> HemFigure {
    match kind {
        HemKind::Once => HemFigure { kind, depth: inches(2.0), turn: None, by_hand: true },
        HemKind::Twice => HemFigure { kind, depth: inches(1.0), turn: Some(inches(0.375)), by_hand: false },
        HemKind::Rolled => HemFigure { kind, depth: small(0.125), turn: None, by_hand: true },
    }
}

fn demo_together() -> Together {
    let (w, h) = (560.0, 1000.0);
    let area = closed(&[pt(-16.0, -25.0), pt(w + 16.0, -25.0), pt(w + 16.0, h + 51.0), pt(-16.0, h + 51.0)]);
    Together {
        over: "Front panel".into(),
        under: "Side panel".into(),
        over_cut: area.clone(),
        under_cut: area,
        seams: vec![("side seam".into(), line(pt(w, -25.0), pt(w, h + 51.0)))],
        allowance: inches(0.625),
        notches: vec![Notch { at: pt(w, 300.0), out: Vec2::new(1.0, 0.0), count: 1 }],
        grain: Vec2::new(0.0, 1.0),
        wrong_sides: false,
        room: (60.0, 62.0),
    }
}

fn demo_seam(kind: SeamKind, press: Press) -> SeamFigure {
    let (allowance, first) = match kind {
        SeamKind::FrenchSecond | SeamKind::FrenchFirst => (0.375, Some(0.25)),
        SeamKind::Felled => (0.625, Some(0.25)),
        SeamKind::Faced => (0.5, Some(0.25)),
        SeamKind::Plain | SeamKind::Bound | SeamKind::Mounted | SeamKind::FelledLining => (0.625, None),
    };
    SeamFigure { kind, allowance: inches(allowance), first: first.map(inches), press }
}

fn demo_hooks(catch: Catch) -> Hooks {
    let places = [0.25, 1.5, 2.75, 4.0, 6.0, 8.0, 10.0].map(inches).to_vec();
    Hooks { edge: inches(10.5), places, catch, inset: small(0.125) }
}

fn demo_lacing(way: LaceWay) -> Lacing {
    let open = way == LaceWay::Cross;
    Lacing {
        edge: inches(14.0),
        places: (0..14).map(|i| inches(0.5 + f64::from(i))).collect(),
        inset: inches(0.5),
        gap: open.then(|| inches(1.5)),
        way,
        behind: open.then(|| "stomacher".to_string()),
        boned: true,
    }
}

fn demo_skirt(view: View) -> SkirtView {
    SkirtView {
        name: "skirt".into(),
        view,
        waist: inches(28.0),
        length: inches(41.0),
        hem: inches(168.0),
        band: inches(2.0),
        dip: if view == View::Front { demo_seam_line() } else { Vec::new() },
        fullness: Fullness::Cartridge,
        pleats: 288,
        opening: (view == View::Back).then(|| inches(9.0)),
        piped: true,
        flounce: None,
        height: 96.0,
    }
}

fn demo_petticoat() -> SkirtView {
    SkirtView {
        name: "petticoat".into(),
        view: View::Front,
        hem: inches(110.0),
        length: inches(38.0),
        band: inches(1.25),
        fullness: Fullness::Gathers,
        pleats: 70,
        dip: Vec::new(),
        piped: false,
        flounce: Some((inches(9.0), inches(220.0))),
        ..demo_skirt(View::Front)
    }
}

fn demo_smocking(stage: SmockStage) -> Smocking {
    let lengths = if stage == SmockStage::LetOut { vec![inches(4.0), inches(7.0)] } else { vec![inches(6.0)] };
    Smocking {
        stage,
        rows: 6,
        stitch: small(0.25),
        row_gap: small(0.5),
        flat: inches(30.0),
        lengths,
        drop: (stage == SmockStage::Pointed).then(|| inches(2.0)),
    }
}

fn demo_boning() -> Boning {
    Boning {
        channel: small(0.375),
        width: small(0.25),
        length: inches(11.5),
        bone: inches(11.0),
        clearance: small(0.25),
    }
}

fn curve(points: [(f64, f64); 4]) -> BezPath {
    let [a, b, c, d] = points.map(|(x, y)| pt(x, y));
    BezPath::from_vec(vec![kurbo::PathEl::MoveTo(a), kurbo::PathEl::CurveTo(b, c, d)])
}

fn demo_curve() -> PipedCurve {
    PipedCurve {
        name: "neckline".into(),
        seam: curve([(160.0, 0.0), (150.0, 110.0), (10.0, 110.0), (0.0, 0.0)]),
        allowance: small(0.5),
        clips: small(0.5),
        room: (60.0, 50.0),
    }
}

fn sleeve_head() -> BezPath {
    let mut head = curve([(0.0, 150.0), (60.0, 150.0), (80.0, 0.0), (170.0, 0.0)]);
    head.curve_to(pt(255.0, 0.0), pt(275.0, 150.0), pt(340.0, 150.0));
    head
}

fn demo_sleeve_set() -> SleeveSet {
    let head = sleeve_head();
    let armhole = curve([(0.0, 0.0), (50.0, 150.0), (290.0, 150.0), (340.0, 0.0)]);
    let (long, short) = (super::super::geom::length(&head), super::super::geom::length(&armhole));
    let at = |name: &str, t: f64, u: f64| {
        (name.to_string(), Measure::new(Length::mm(t), Show::LENGTH), Measure::new(Length::mm(u), Show::LENGTH))
    };
    SleeveSet {
        meets: vec![
            at("underarm seam", 0.0, 0.0),
            at("back notch", 130.0, 130.0),
            at("shoulder seam", long / 2.0, short / 2.0),
            at("front notch", long - 120.0, short - 120.0),
            at("underarm seam", long, short),
        ],
        ease: Measure::new(Length::mm((long - short).abs()), Show::LENGTH),
        eased: (1, 3),
        head,
        armhole,
    }
}

fn demo_basting() -> Basting {
    Basting {
        name: "Bodice front".into(),
        cut: front().cut,
        gap: inches(2.0),
        under: "cotton flannel".into(),
        room: (46.0, 62.0),
    }
}

fn demo_block() -> Block {
    Block {
        name: "Bodice front".into(),
        cut: front().cut,
        margin: inches(2.0),
        width: Measure::new(Length::mm(250.0 + 101.6), Show::LENGTH),
        height: Measure::new(Length::mm(509.0 + 101.6), Show::LENGTH),
        why: "printed".into(),
        room: (46.0, 70.0),
    }
}

fn demo_motifs() -> Motifs {
    let panel = |x: f64| closed(&[pt(x, 0.0), pt(x + 280.0, 0.0), pt(x + 300.0, 600.0), pt(x, 600.0)]);
    let mirrored = closed(&[pt(0.0, 0.0), pt(-280.0, 0.0), pt(-300.0, 600.0), pt(0.0, 600.0)]);
    Motifs {
        pieces: vec![("left panel".into(), mirrored), ("right panel".into(), panel(0.0))],
        seam: Some(("centre seam".into(), line(pt(0.0, 0.0), pt(0.0, 600.0)))),
        repeat: (inches(4.0), inches(4.0)),
        origin: (Length::ZERO, Length::inches(2.0)),
        half_drop: true,
        room: (70.0, 70.0),
    }
}

fn demo_bias() -> BiasStrips {
    BiasStrips {
        across: inches(24.0),
        along: inches(24.0),
        strip: inches(2.0),
        slant: Measure::new(Length::inches(2.0 * std::f64::consts::SQRT_2), Show::LENGTH),
        count: 5,
        join: small(0.25),
    }
}

fn demo_pleats(kind: PleatKind) -> FlatPleats {
    let (visible, depth) = match kind {
        PleatKind::Knife => (1.0, 0.875),
        PleatKind::Box | PleatKind::Inverted => (3.0, 1.25),
        PleatKind::Tuck => (1.5, 0.75),
    };
    FlatPleats { kind, visible: inches(visible), depth: inches(depth), count: 12 }
}

fn demo_pressing(press: Option<Press>) -> Pressing {
    let cloth = press != Some(Press::Open);
    let what = if press.is_some() { "side seam" } else { "wool" };
    Pressing { what: what.into(), press, toward: "toward the back".into(), cloth }
}
