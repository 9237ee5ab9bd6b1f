//! Figures as pictures: a coarse print of each, held with a tolerance; and distances measured back from the drawing.
//!
//! A person accepts a change: look at the figure with `furbelow figures`, then
//! `FURBELOW_UPDATE_PICTURES=1 cargo test --test pictures`.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use furbelow::book::KINDS;
use furbelow::draw::{
    Accent, BodiceView, Closing, Figure, LaceWay, Lacing, Look, Match, Matched, MatchedPiece, Measure, Scale,
    ShapedSeam, View, WornEdge, WornPiece, bodice_view, contact_sheet, lacing, matched, pleats_to_shaped_edge,
};
use furbelow::units::{Length, Show, Systems};
use furbelow::words::Tongue;
use kurbo::{BezPath, ParamCurveArclen, Point, Rect, Shape, Vec2};
use resvg::{tiny_skia, usvg};

/// Side of a cell, mm.
const CELL: f64 = 4.0;
/// Ink in a cell is told in steps of a sixteenth; so many steps may differ in one cell.
const CELL_MAY: i32 = 3;
/// Mean of the differences over all cells, in steps.
const MEAN_MAY: f64 = 0.12;
/// The box may differ so much, mm.
const BOX_MAY: f64 = 0.6;

fn look() -> Look {
    let accent = Accent::parse("#7a2e3a").unwrap();
    Look { accent, systems: Systems::ImperialFirst, grey: true, pale: false, tongue: Tongue::ENGLISH }
}

fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let (_, rest) = line.split_once(&format!(" {name}=\""))?;
    rest.split_once('"').map(|(value, _)| value)
}

fn paths<'a>(figure: &'a Figure, key: &'a str, value: &'a str) -> impl Iterator<Item = BezPath> + 'a {
    figure
        .svg
        .lines()
        .filter(move |line| attribute(line, key) == Some(value))
        .map(|line| BezPath::from_svg(attribute(line, "d").unwrap()).unwrap())
}

fn arc(path: &BezPath) -> f64 {
    path.segments().map(|s| s.arclen(1e-6)).sum()
}

fn ratio(figure: &Figure) -> f64 {
    match figure.scale {
        Scale::OneTo(n) => n,
        Scale::NotToScale => panic!("expected a figure to scale"),
    }
}

fn mm(value: f64) -> Measure {
    Measure::new(Length::mm(value), Show::FINE)
}

/// The print of a figure: its box, and rows of hexadecimal digits, a digit a cell, `0` for white and `f` for black.
fn print(figure: &Figure) -> String {
    let tree = usvg::Tree::from_str(&figure.svg, &usvg::Options::default()).unwrap();
    let fine = 4.0_f32;
    let scale = fine / (tree.size().width() / figure.width_mm as f32);
    let (w, h) = ((figure.width_mm as f32 * fine).ceil() as u32, (figure.height_mm as f32 * fine).ceil() as u32);
    let mut map = tiny_skia::Pixmap::new(w, h).unwrap();
    map.fill(tiny_skia::Color::WHITE);
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut map.as_mut());
    let step = (CELL * f64::from(fine)) as u32;
    let mut out = format!("{:.1} x {:.1}\n", figure.width_mm, figure.height_mm);
    for y in (0..h).step_by(step as usize) {
        for x in (0..w).step_by(step as usize) {
            let (mut ink, mut count) = (0.0, 0.0);
            for (dy, dx) in (0..step).flat_map(|dy| (0..step).map(move |dx| (dy, dx))) {
                if let Some(p) = map.pixel(x + dx, y + dy) {
                    ink += 1.0 - f64::from(p.green()) / 255.0;
                    count += 1.0;
                }
            }
            let share: f64 = ink / f64::max(count, 1.0);
            let _ = write!(out, "{:x}", ((share * 16.0).floor() as u32).min(15));
        }
        out.push('\n');
    }
    out
}

fn read(text: &str) -> BTreeMap<&str, &str> {
    text.split("\n= ").filter_map(|part| part.trim_start_matches("= ").split_once('\n')).collect()
}

/// What differs between two prints, in words; nothing where they are alike within the tolerance.
fn differs(kept: &str, now: &str) -> Option<String> {
    let size = |text: &str| -> Vec<f64> {
        text.lines().next().unwrap_or("").split(" x ").filter_map(|n| n.parse().ok()).collect()
    };
    let (a, b) = (size(kept), size(now));
    if a.len() != 2 || a.iter().zip(&b).any(|(a, b)| (a - b).abs() > BOX_MAY) {
        return Some(format!("its box was {a:?} mm and is {b:?}"));
    }
    let cells = |text: &str| -> Vec<Vec<i32>> {
        let rows = text.lines().skip(1);
        rows.map(|row| row.chars().filter_map(|c| c.to_digit(16)).map(|d| d as i32).collect()).collect()
    };
    let (one, two) = (cells(kept), cells(now));
    let (mut sum, mut count, mut worst) = (0.0, 0.0, (0, 0, 0));
    for (y, (p, q)) in one.iter().zip(&two).enumerate() {
        for (x, (a, b)) in p.iter().zip(q).enumerate() {
            let apart = (a - b).abs();
            sum += f64::from(apart);
            count += 1.0;
            if apart > worst.0 {
                worst = (apart, x, y);
            }
        }
    }
    let mean = sum / f64::max(count, 1.0);
    (worst.0 > CELL_MAY || mean > MEAN_MAY || count < 4.0).then(|| {
        format!("ink differs by {} sixteenths in cell {}, {}, by {mean:.3} in the mean", worst.0, worst.1, worst.2)
    })
}

#[test]
fn every_figure_looks_as_it_was_accepted() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures.txt");
    let now: Vec<(&str, String)> =
        contact_sheet(&look()).into_iter().map(|(name, drawn)| (name, print(&drawn.unwrap()))).collect();
    if std::env::var_os("FURBELOW_UPDATE_PICTURES").is_some() {
        let text: String = now.iter().map(|(name, print)| format!("= {name}\n{print}")).collect();
        std::fs::write(&file, text).unwrap();
        return;
    }
    let text = std::fs::read_to_string(&file).unwrap();
    let kept = read(&text);
    let mut out: Vec<String> = Vec::new();
    for (name, print) in &now {
        match kept.get(name) {
            None => out.push(format!("{name} is new")),
            Some(before) => out.extend(differs(before, print).map(|how| format!("{name}: {how}"))),
        }
    }
    out.extend(
        kept.keys().filter(|name| now.iter().all(|(other, _)| other != *name)).map(|name| format!("{name} is gone")),
    );
    assert!(
        out.is_empty(),
        "look with `furbelow figures`, then accept as the head of this file says:\n{}",
        out.join("\n")
    );
}

#[test]
fn a_line_left_out_or_moved_is_found() {
    let (_, drawn) = contact_sheet(&look()).into_iter().find(|(name, _)| *name == "seam-felled").unwrap();
    let figure = drawn.unwrap();
    let kept = print(&figure);
    assert_eq!(differs(&kept, &kept), None);
    let thick = figure.svg.lines().position(|line| line.contains("class=\"face\"")).unwrap();
    let without: Vec<&str> = figure
        .svg
        .lines()
        .enumerate()
        .filter(|(i, _)| !(thick..thick + 12).contains(i))
        .map(|(_, line)| line)
        .collect();
    let without = Figure { svg: without.join("\n"), ..figure.clone() };
    assert!(differs(&kept, &print(&without)).is_some(), "what is missing is not seen");
    let wider = Figure { width_mm: figure.width_mm + 2.0, ..figure };
    assert!(differs(&kept, &print(&wider)).is_some(), "another box is not seen");
}

#[test]
fn every_kind_is_on_the_contact_sheet_and_can_be_asked_for() {
    let sheet = contact_sheet(&look());
    for kind in KINDS {
        assert!(
            sheet.iter().any(|(name, _)| name.starts_with(kind.name)),
            "`{}` has no figure on the sheet",
            kind.name
        );
    }
    // Cutting layouts are drawn for the chapter of layouts; no step asks for one.
    for (name, _) in sheet.iter().filter(|(name, _)| !name.starts_with("layout-")) {
        assert!(KINDS.iter().any(|kind| name.starts_with(kind.name)), "no kind asks for `{name}`");
    }
}

#[test]
fn what_is_not_to_scale_says_so() {
    for (name, drawn) in contact_sheet(&look()) {
        let figure = drawn.unwrap();
        let words = figure.scale.to_string();
        match figure.scale {
            Scale::NotToScale => assert_eq!(words, "Not to scale", "{name}"),
            Scale::OneTo(n) => assert!(n >= 0.01 && (words.contains(&n.to_string()) || words == "True size"), "{name}"),
        }
    }
}

/// Eyelets measured back from the drawing: their distances down the edge are those in the words.
#[test]
fn eyelets_stand_where_the_words_say() {
    for way in [LaceWay::Spiral, LaceWay::Cross] {
        let places: Vec<f64> = (0..11).map(|i| 9.0 + 31.0 * f64::from(i)).collect();
        let input = Lacing {
            edge: mm(330.0),
            places: places.iter().map(|p| mm(*p)).collect(),
            inset: mm(12.0),
            gap: Some(mm(30.0)),
            way,
            behind: None,
            boned: false,
        };
        let figure = lacing(&input, &look()).unwrap();
        let n = ratio(&figure);
        // The ticks of the distances, the short level lines at the left.
        let mut ticks: Vec<f64> = paths(&figure, "class", "measure")
            .map(|path| path.bounding_box())
            .filter(|area| area.height() < 0.01 && (area.width() - 1.9).abs() < 0.01)
            .map(|area| area.y0 * n)
            .collect();
        ticks.sort_by(f64::total_cmp);
        assert_eq!(ticks.len(), places.len());
        for (tick, place) in ticks.iter().zip(&places) {
            assert!((tick - ticks[0] - (place - places[0])).abs() < 0.003 * n, "{tick} for {place}");
        }
    }
}

/// The half of a dipped edge has the length in its words.
#[test]
fn a_shaped_edge_measures_what_it_says() {
    let edge: Vec<(Length, Length)> =
        (0..=20).map(|i| f64::from(i) / 20.0).map(|t| (Length::mm(120.0 * t), Length::mm(80.0 * (1.0 - t)))).collect();
    // A straight side: 120 across and 80 down (Pythagoras).
    let arc_mm = 120.0_f64.hypot(80.0);
    let input = ShapedSeam {
        edge,
        arc: mm(arc_mm),
        depth: mm(80.0),
        pitch: mm(2.4),
        pleats: 60,
        meets: "bodice".into(),
        piped: true,
    };
    let figure = pleats_to_shaped_edge(&input, &look()).unwrap();
    let n = ratio(&figure);
    let drawn = paths(&figure, "data-name", "seam").next().unwrap();
    assert!((arc(&drawn) * n - arc_mm).abs() < 0.01 * n);
    assert!((drawn.bounding_box().height() * n - 80.0).abs() < 0.01 * n);
}

/// Edges under one letter have the lengths that stand in the words.
#[test]
fn matched_edges_measure_back() {
    let piece = |w: f64, h: f64| {
        let area = Rect::new(0.0, 0.0, w, h);
        let side = |x: f64| {
            let mut path = BezPath::new();
            path.move_to(Point::new(x, 0.0));
            path.line_to(Point::new(x, h));
            path
        };
        MatchedPiece {
            name: format!("Piece {w}"),
            cut: area.inflate(15.0, 15.0).to_path(0.1),
            edges: vec![side(0.0), side(w)],
            notches: vec![],
            grain: Vec2::new(0.0, 1.0),
        }
    };
    let input = Matched {
        pieces: vec![piece(210.0, 400.0), piece(120.0, 400.0)],
        seams: vec![Match { name: "side seam".into(), sides: [(0, 1), (1, 0)], lengths: [mm(400.0), mm(400.0)] }],
        room: (90.0, 80.0),
    };
    let figure = matched(&input, &look()).unwrap();
    let n = ratio(&figure);
    for name in ["A1", "A2"] {
        assert!((arc(&paths(&figure, "data-name", name).next().unwrap()) * n - 400.0).abs() < 0.003 * n);
    }
    assert_eq!(figure.callouts.iter().filter(|c| c.letter == "A").count(), 2, "the letter stands on both edges");
}

/// A tube of eight equal strips seen from in front: the seams lie at the sines of equal angles (a circle cut in equal arcs).
#[test]
fn seams_of_a_bodice_fall_where_a_round_body_has_them() {
    let strip = |i: f64| {
        let corners =
            [(i, 0.0), (i + 1.0, 0.0), (i + 1.0, 4.0), (i, 4.0)].map(|(x, y)| Point::new(x * 110.0, y * 100.0));
        let kinds = [WornEdge::Free, WornEdge::After, WornEdge::Lower, WornEdge::Before];
        let edges = (0..4).map(|k| {
            let mut path = BezPath::new();
            path.move_to(corners[k]);
            path.line_to(corners[(k + 1) % 4]);
            (path, kinds[k])
        });
        WornPiece { edges: edges.collect(), darts: vec![] }
    };
    let input = BodiceView {
        name: "bodice".into(),
        view: View::Front,
        pieces: (0..4).map(|i| strip(f64::from(i))).collect(),
        middle_seam: false,
        sleeve: vec![],
        wing: None,
        closing: Closing::None,
        piped: false,
        skirt: None,
        height: 80.0,
    };
    let figure = bodice_view(&input, &look()).unwrap();
    // Half the breadth: the silhouette, 1.12 of the radius of 880 mm round, at 400 mm to 80 of drawing.
    let half = 1.12 * 880.0 / std::f64::consts::TAU / 5.0;
    assert!((figure.width_mm - 2.0 * half - 3.0 - 0.55).abs() < 0.3, "{} for {half}", figure.width_mm);
    assert!((figure.height_mm - 80.0 - 3.0 - 0.55).abs() < 0.4, "{}", figure.height_mm);
}
