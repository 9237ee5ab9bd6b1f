use std::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::ParamCurve;

use super::*;
use crate::draft::curve;

fn p(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn side(points: &[Point], width: f64) -> Side {
    Side { path: Path::straight(points), width, start: None, end: None, fold: false }
}

/// A rectangle 100 by 60, clockwise on the page, with an allowance on each side: top, right, bottom, left.
fn rectangle(widths: [f64; 4]) -> Vec<Side> {
    let corners = [p(0.0, 0.0), p(100.0, 0.0), p(100.0, 60.0), p(0.0, 60.0)];
    (0..4).map(|i| side(&[corners[i], corners[(i + 1) % 4]], widths[i])).collect()
}

fn area(path: &Path) -> f64 {
    path.signed_area()
}

/// Closed form: (100 + left + right) times (60 + top + bottom).
#[test]
fn rectangle_with_four_allowances() {
    let line = cut_line(&rectangle([5.0, 10.0, 50.0, 15.0])).unwrap();
    assert!(!line.trimmed);
    assert!((area(&line.path) - 125.0 * 115.0).abs() < 1e-6, "{}", area(&line.path));
    let bounds = line.path.bounds();
    assert!((bounds.x0 + 15.0).abs() < 1e-9 && (bounds.y1 - 110.0).abs() < 1e-9);
}

#[test]
fn nothing_on_the_fold() {
    let mut sides = rectangle([15.0, 15.0, 15.0, 0.0]);
    sides[3].fold = true;
    let line = cut_line(&sides).unwrap();
    assert!((area(&line.path) - 115.0 * 90.0).abs() < 1e-6);
    assert!(line.path.bounds().x0.abs() < 1e-9, "the fold stays where it is");
}

/// Closed form: beside an arc of radius r lies one of radius r + d (or r - d inside), about the same centre.
#[test]
fn beside_arcs() {
    let quarter = curve::arc(Point::ZERO, 100.0, PI, FRAC_PI_2, p(-100.0, 0.0), p(0.0, -100.0));
    for (by, radius) in [(15.0, 115.0), (-15.0, 85.0), (60.0, 160.0), (-90.0, 10.0)] {
        let beside = beside(&quarter, by);
        for point in curve::sampled(&beside, 20) {
            let off = (point.to_vec2().hypot() - radius).abs();
            assert!(off < 0.02, "{by}: {off}");
        }
        assert!((beside.length() - radius * FRAC_PI_2).abs() < 0.05, "{by}: {}", beside.length());
    }
}

/// Closed form: an allowance d all round a circle makes π (r + d)².
#[test]
fn round_a_circle() {
    let (east, west) = (p(80.0, 0.0), p(-80.0, 0.0));
    let halves =
        [curve::arc(Point::ZERO, 80.0, 0.0, PI, east, west), curve::arc(Point::ZERO, 80.0, PI, PI, west, east)];
    let sides: Vec<Side> =
        halves.into_iter().map(|path| Side { path, width: 12.0, start: None, end: None, fold: false }).collect();
    let line = cut_line(&sides).unwrap();
    assert!((area(&line.path) - PI * 92.0 * 92.0).abs() < 5.0, "{}", area(&line.path) - PI * 92.0 * 92.0);
    assert!((line.path.length() - TAU * 92.0).abs() < 0.05);
}

/// A free curve: every place of the offset is the distance away from the curve, within 0.05 mm.
#[test]
fn beside_a_free_curve() {
    let points = [p(0.0, 0.0), p(60.0, -40.0), p(140.0, -20.0), p(200.0, -90.0)];
    let path = curve::through(&points, None, None);
    for by in [15.0, -15.0] {
        for point in curve::sampled(&beside(&path, by), 24) {
            let gap = path.nearest(point).1;
            assert!((gap - 15.0).abs() < 0.05, "{by}: {gap}");
        }
    }
}

/// A side that leans out by 30 degrees over a hem. Closed form: mirrored at the hem line, the turned-up hem is as wide at
/// its top edge as the piece is there, so the cut line leans in below the hem by as much as it leans out above.
#[test]
fn hem_folded_back() {
    let lean = 60.0 * (30.0f64).to_radians().tan();
    let corners = [p(0.0, 0.0), p(100.0, 0.0), p(100.0 + lean, 60.0), p(0.0, 60.0)];
    let mut sides: Vec<Side> =
        (0..4).map(|i| side(&[corners[i], corners[(i + 1) % 4]], [10.0, 10.0, 30.0, 10.0][i])).collect();
    sides[2].start = Some(Corner::FoldedBack);
    sides[2].end = Some(Corner::FoldedBack);
    let line = cut_line(&sides).unwrap();
    assert!(!line.trimmed);
    let at_hem = 100.0 + lean + 10.0 / (30.0f64).to_radians().cos();
    let below = at_hem - 30.0 * (30.0f64).to_radians().tan();
    let bounds = line.path.bounds();
    assert!((bounds.x1 - at_hem).abs() < 1e-6, "{} {at_hem}", bounds.x1);
    assert!(line.path.segs().iter().any(|seg| seg.end().distance(p(below, 90.0)) < 1e-6), "{:?}", line.path);
    // The upright side goes straight down.
    assert!(line.path.segs().iter().any(|seg| seg.end().distance(p(-10.0, 90.0)) < 1e-6));
}

/// A corner of 60 degrees, squared: the allowance ends at a right angle to its seam, where that meets the neighbour's cut line.
#[test]
fn corner_squared() {
    let tri = [p(0.0, 0.0), p(100.0, 0.0), p(50.0, 86.602_540_378_443_86)];
    let mut sides: Vec<Side> = (0..3).map(|i| side(&[tri[i], tri[(i + 1) % 3]], 10.0)).collect();
    sides[0].end = Some(Corner::Squared);
    let line = cut_line(&sides).unwrap();
    // The seam line y = 0 run on meets the second cut line 10 / sin 60 beyond the corner.
    let foot = 100.0 + 10.0 / (60.0f64).to_radians().sin();
    for corner in [p(foot, -10.0), p(foot, 0.0)] {
        assert!(line.path.segs().iter().any(|seg| seg.end().distance(corner) < 1e-6), "{corner:?} {:?}", line.path);
    }
}

/// A point of 20 degrees would run out 10 / sin 10° = 57.6; clipped it ends one allowance from the corner.
#[test]
fn sharp_points_are_clipped() {
    let half = 200.0 * (10.0f64).to_radians().tan();
    let tri = [p(0.0, -half), p(200.0, 0.0), p(0.0, half)];
    let sides: Vec<Side> = (0..3).map(|i| side(&[tri[i], tri[(i + 1) % 3]], 10.0)).collect();
    let line = cut_line(&sides).unwrap();
    assert!((line.path.bounds().x1 - 210.0).abs() < 1e-6, "{}", line.path.bounds().x1);
}

/// An inner corner: both cut lines are cut back to where they cross.
#[test]
fn inner_corner() {
    let corners = [p(0.0, 0.0), p(100.0, 0.0), p(100.0, 50.0), p(50.0, 50.0), p(50.0, 100.0), p(0.0, 100.0)];
    let sides: Vec<Side> = (0..6).map(|i| side(&[corners[i], corners[(i + 1) % 6]], 10.0)).collect();
    let line = cut_line(&sides).unwrap();
    assert!(!line.trimmed);
    // Closed form: 120 × 120 less the corner of 50 × 50 cut back on both sides.
    assert!((area(&line.path) - (120.0 * 120.0 - 50.0 * 50.0)).abs() < 1e-6);
}

/// A notch narrower than twice the allowance: the strips run into each other and are trimmed to one outline.
#[test]
fn a_slit_closes() {
    let corners =
        [p(0.0, 0.0), p(45.0, 0.0), p(50.0, 60.0), p(55.0, 0.0), p(100.0, 0.0), p(100.0, 100.0), p(0.0, 100.0)];
    let sides: Vec<Side> = (0..7).map(|i| side(&[corners[i], corners[(i + 1) % 7]], 10.0)).collect();
    let line = cut_line(&sides).unwrap();
    assert!(crosses_itself(&crate::draft::outline::dedup(&line.path.flat(0.02))).is_none());
    let total = area(&line.path);
    assert!(total > 120.0 * 118.0 && total <= 120.0 * 120.0 + 1e-6, "{total}");
}

/// A ring that is open by a slit: the allowances close a hole, and no single outline is left.
#[test]
fn a_closed_hole_is_refused() {
    let arc = |radius: f64, from: f64, sweep: f64| {
        let on = |angle: f64| p(radius * angle.cos(), radius * angle.sin());
        curve::arc(Point::ZERO, radius, from, sweep, on(from), on(from + sweep))
    };
    let open = 0.05;
    let outer = arc(200.0, open, TAU - 2.0 * open);
    let inner = arc(100.0, TAU - open, -(TAU - 2.0 * open));
    let paths = [
        outer.clone(),
        Path::straight(&[outer.end(), inner.start()]),
        inner.clone(),
        Path::straight(&[inner.end(), outer.start()]),
    ];
    let sides: Vec<Side> =
        paths.into_iter().map(|path| Side { path, width: 20.0, start: None, end: None, fold: false }).collect();
    assert_eq!(cut_line(&sides), Err(NoCutLine::FallsApart));
}

/// Corner by corner within an edge of several straight pieces.
#[test]
fn corners_within_an_edge() {
    let path = Path::straight(&[p(0.0, 0.0), p(50.0, 0.0), p(50.0, 50.0)]);
    let out = beside(&path, 10.0);
    assert_eq!(out.flat(0.1), vec![p(0.0, -10.0), p(60.0, -10.0), p(60.0, 50.0)]);
    let inner = beside(&path, -10.0);
    assert_eq!(inner.flat(0.1), vec![p(0.0, 10.0), p(40.0, 10.0), p(40.0, 50.0)]);
}

/// A seam line whose end misses its start by less than arithmetic shows is still one outline.
#[test]
fn a_hair_at_the_closing_is_no_crossing() {
    let corners = [p(0.0, 0.0), p(100.0, 0.0), p(100.0, 60.0), p(0.0, 60.0)];
    let mut sides: Vec<Side> = (0..4).map(|i| side(&[corners[i], corners[(i + 1) % 4]], 10.0)).collect();
    sides[3] = side(&[corners[3], p(3e-9, -8e-9)], 10.0);
    assert!(!cut_line(&sides).unwrap().trimmed);
}

/// Trimmed or not, corners are mitred: three sides of the outline with the slit are straight to the corner.
#[test]
fn trimmed_outlines_keep_their_corners() {
    let corners =
        [p(0.0, 0.0), p(45.0, 0.0), p(50.0, 60.0), p(55.0, 0.0), p(100.0, 0.0), p(100.0, 100.0), p(0.0, 100.0)];
    let sides: Vec<Side> = (0..7).map(|i| side(&[corners[i], corners[(i + 1) % 7]], 10.0)).collect();
    let line = cut_line(&sides).unwrap();
    for corner in [p(-10.0, -10.0), p(110.0, -10.0), p(110.0, 110.0), p(-10.0, 110.0)] {
        assert!(line.path.nearest(corner).1 < 1e-3, "{corner:?} {}", line.path.nearest(corner).1);
    }
}
