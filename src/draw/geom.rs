//! Small geometry: polylines, smooth curves through points, distances along a path.

use kurbo::{BezPath, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathEl, PathSeg, Point, Shape, Vec2};

/// Accuracy of flattening and arc lengths, mm on paper.
pub(crate) const FINE: f64 = 0.01;

pub(crate) fn pt(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

#[allow(clippy::cast_precision_loss)]
pub(crate) fn real(n: usize) -> f64 {
    n as f64
}

/// A whole number for drawing, held between two bounds.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub(crate) fn whole(value: f64, least: usize, most: usize) -> usize {
    if value.is_finite() { (value.round().max(0.0) as usize).clamp(least, most) } else { least }
}

pub(crate) fn lerp(a: f64, b: f64, t: f64) -> f64 {
    a + (b - a) * t
}

/// `t` eased so that it starts and ends softly.
pub(crate) fn soft(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// `n + 1` even steps from 0 to 1.
pub(crate) fn steps(n: usize) -> impl DoubleEndedIterator<Item = f64> + ExactSizeIterator + Clone {
    let n = n.max(1);
    (0..=n).map(move |i| real(i) / real(n)).collect::<Vec<_>>().into_iter()
}

pub(crate) fn polyline(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (i, p) in points.iter().enumerate() {
        if i == 0 { path.move_to(*p) } else { path.line_to(*p) }
    }
    path
}

pub(crate) fn closed(points: &[Point]) -> BezPath {
    let mut path = polyline(points);
    path.close_path();
    path
}

pub(crate) fn line(a: Point, b: Point) -> BezPath {
    polyline(&[a, b])
}

pub(crate) fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> BezPath {
    closed(&[pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1)])
}

pub(crate) fn circle(centre: Point, radius: f64) -> BezPath {
    kurbo::Circle::new(centre, radius).to_path(FINE)
}

/// A smooth open curve through the points (Catmull-Rom, as cubics).
pub(crate) fn smooth(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = points.first() else { return path };
    path.move_to(*first);
    for (i, pair) in points.windows(2).enumerate() {
        let before = if i == 0 { pair[0] } else { points[i - 1] };
        let after = points.get(i + 2).copied().unwrap_or(pair[1]);
        path.curve_to(pair[0] + (pair[1] - before) / 6.0, pair[1] - (after - pair[0]) / 6.0, pair[1]);
    }
    path
}

/// The polyline with its corners rounded by `radius`.
pub(crate) fn rounded(points: &[Point], radius: f64) -> BezPath {
    let mut path = BezPath::new();
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return path };
    path.move_to(*first);
    for triple in points.windows(3) {
        let (into, out) = (triple[1] - triple[0], triple[2] - triple[1]);
        let cut = radius.min(into.hypot() / 2.0).min(out.hypot() / 2.0);
        let (into, out) = (unit(into), unit(out));
        let (a, b) = (triple[1] - into * cut, triple[1] + out * cut);
        path.line_to(a);
        path.curve_to(a + into * (cut * 0.5523), b - out * (cut * 0.5523), b);
    }
    path.line_to(*last);
    path
}

pub(crate) fn unit(v: Vec2) -> Vec2 {
    let size = v.hypot();
    if size > 1e-9 { v / size } else { Vec2::new(1.0, 0.0) }
}

/// Quarter turn: to the right hand of the direction as seen on paper (y runs down).
pub(crate) fn right_of(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

pub(crate) fn segments(path: &BezPath) -> Vec<PathSeg> {
    path.segments().filter(|s| s.arclen(FINE) > 1e-6).collect()
}

/// Arc length of a path.
pub(crate) fn length(path: &BezPath) -> f64 {
    path.segments().map(|s| s.arclen(1e-6)).sum()
}

/// Place and direction at a distance along a path.
pub(crate) fn along(path: &BezPath, distance: f64) -> (Point, Vec2) {
    let parts = segments(path);
    let mut left = distance.max(0.0);
    for (i, part) in parts.iter().enumerate() {
        let size = part.arclen(1e-4);
        if left <= size || i + 1 == parts.len() {
            let t = part.inv_arclen(left.min(size), 1e-4).clamp(0.0, 1.0);
            let slope = match part {
                PathSeg::Line(l) => l.p1 - l.p0,
                PathSeg::Quad(q) => q.deriv().eval(t).to_vec2(),
                PathSeg::Cubic(c) => c.deriv().eval(t.clamp(1e-3, 1.0 - 1e-3)).to_vec2(),
            };
            return (part.eval(t), unit(slope));
        }
        left -= size;
    }
    (first_point(path), Vec2::new(1.0, 0.0))
}

pub(crate) fn first_point(path: &BezPath) -> Point {
    path.elements()
        .iter()
        .find_map(|el| match el {
            PathEl::MoveTo(p) => Some(*p),
            _ => None,
        })
        .unwrap_or_default()
}

/// Points evenly spread along a path.
pub(crate) fn spread(path: &BezPath, gap: f64) -> Vec<Point> {
    let mut points = Vec::new();
    for part in segments(path) {
        if points.is_empty() {
            points.push(part.eval(0.0));
        }
        let size = part.arclen(1e-3);
        let n = whole(size / gap, 1, 4000);
        for t in steps(n).skip(1) {
            points.push(part.eval(part.inv_arclen(size * t, 1e-3).clamp(0.0, 1.0)));
        }
    }
    points
}

/// The polyline moved sideways, to its right hand for a positive distance.
pub(crate) fn beside(points: &[Point], distance: f64) -> Vec<Point> {
    let n = points.len();
    (0..n)
        .map(|i| {
            let before = points[i.saturating_sub(1)];
            let after = points[(i + 1).min(n - 1)];
            points[i] + right_of(unit(after - before)) * distance
        })
        .collect()
}

/// Flat polylines of a path, one for each of its parts.
pub(crate) fn flat(path: &BezPath, tolerance: f64) -> Vec<Vec<Point>> {
    let mut parts: Vec<Vec<Point>> = Vec::new();
    kurbo::flatten(path.elements().iter().copied(), tolerance, |el| match el {
        PathEl::MoveTo(p) => parts.push(vec![p]),
        PathEl::LineTo(p) => {
            if let Some(part) = parts.last_mut() {
                part.push(p);
            }
        }
        PathEl::ClosePath => {
            if let Some(part) = parts.last_mut()
                && let Some(first) = part.first().copied()
            {
                part.push(first);
            }
        }
        PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
    });
    parts
}

/// Whether two straight lines cross, ends that merely touch left out.
pub(crate) fn cross(a: (Point, Point), b: (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (d1, d2) = (side(a.0, a.1, b.0), side(a.0, a.1, b.1));
    let (d3, d4) = (side(b.0, b.1, a.0), side(b.0, b.1, a.1));
    d1 * d2 < -1e-9 && d3 * d4 < -1e-9
}

/// An even disorder from -1 to 1 out of two numbers: the same always, so that a drawing is.
pub(crate) fn quirk(i: usize, salt: u32) -> f64 {
    let mut h = u32::try_from(i).unwrap_or(0).wrapping_mul(0x9e37_79b9) ^ salt.wrapping_mul(0x85eb_ca6b);
    h ^= h >> 15;
    h = h.wrapping_mul(0x2c1b_3c6d);
    h ^= h >> 12;
    h = h.wrapping_mul(0x297a_2d39);
    h ^= h >> 15;
    f64::from(h) / f64::from(u32::MAX) * 2.0 - 1.0
}
