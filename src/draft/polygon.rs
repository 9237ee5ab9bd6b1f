//! Curves as polygons that lie on the safe side.

use kurbo::{ParamCurve, PathSeg, Point};

use super::path::{Path, seg_dir};
use super::piece::Edge;

/// How often a curve is halved at most.
const DEEPEST: u32 = 12;

/// The corners of a closed outline that runs clockwise on the page, with curves replaced by straight lines on the outside:
/// by tangents where a curve bulges out, by chords where it bulges in. Nowhere farther out than `tolerance`, mm.
#[must_use]
pub fn around(outline: &Path, tolerance: f64) -> Vec<[f64; 2]> {
    let mut points: Vec<Point> = Vec::new();
    let mut push = |p: Point| {
        if points.last().is_none_or(|last: &Point| last.distance(p) > 1e-6) {
            points.push(p);
        }
    };
    for seg in outline.segs() {
        push(seg.start());
        if !matches!(seg, PathSeg::Line(_)) {
            halve(&seg, 0.0, 1.0, tolerance.max(1e-3), DEEPEST, &mut push);
        }
        push(seg.end());
    }
    while points.len() > 1 && points[0].distance(points[points.len() - 1]) <= 1e-6 {
        points.pop();
    }
    straightened(&points).into_iter().map(|p| [p.x, p.y]).collect()
}

/// Without corners that are none: where one tangent runs into the next.
fn straightened(points: &[Point]) -> Vec<Point> {
    let n = points.len();
    let mut kept: Vec<Point> = Vec::with_capacity(n);
    for (index, p) in points.iter().enumerate() {
        let before = kept.last().copied().unwrap_or(points[n - 1]);
        let after = points[(index + 1) % n];
        let way = after - before;
        let off = if way.hypot() > 1e-9 { (way.cross(*p - before) / way.hypot()).abs() } else { f64::INFINITY };
        if off > 1e-5 {
            kept.push(*p);
        }
    }
    kept
}

fn halve(seg: &PathSeg, from: f64, to: f64, tolerance: f64, left: u32, push: &mut impl FnMut(Point)) {
    let middle = from.midpoint(to);
    let (a, b) = (seg.eval(from), seg.eval(to));
    let (u, m, v) = (seg_dir(seg, from), seg_dir(seg, middle), seg_dir(seg, to));
    let (first, second) = (u.cross(m), m.cross(v));
    // Gently bent one way: the two tangents meet not far from the curve.
    let one_way = first * second >= 0.0 && u.dot(v) > 0.5;
    if one_way {
        let cross = u.cross(v);
        if cross.abs() < 1e-9 {
            return;
        }
        let out = (b - a).cross(v) / cross;
        let peak = a + u * out;
        let chord = b - a;
        let height = (chord.cross(peak - a) / chord.hypot().max(1e-12)).abs();
        // The curve runs halfway between its chord and the corner of its tangents.
        if height <= 2.0 * tolerance || left == 0 {
            // Clockwise on the page, turning right is bulging out.
            if cross > 0.0 && out > 0.0 && out < 2.0 * chord.hypot() {
                push(peak);
            }
            push(b);
            return;
        }
    }
    if left == 0 {
        push(b);
        return;
    }
    halve(seg, from, middle, tolerance, left - 1, push);
    halve(seg, middle, to, tolerance, left - 1, push);
}

/// How far a side may lie from where the allowance puts it, mm.
const BESIDE: f64 = 0.05;

/// The longest side of a polygon that lies one allowance outside a straight edge; its first corner.
pub(super) fn side_of(polygon: &[[f64; 2]], edge: &Edge) -> Option<usize> {
    if !edge.path.is_straight() {
        return None;
    }
    let (start, dir) = (edge.path.start(), edge.path.start_dir());
    let off = |p: [f64; 2]| ((Point::new(p[0], p[1]) - start).cross(dir).abs() - edge.allowance.to_mm()).abs();
    let mut best: Option<(f64, usize)> = None;
    for (index, a) in polygon.iter().enumerate() {
        let b = polygon[(index + 1) % polygon.len()];
        let way = Point::new(b[0], b[1]) - Point::new(a[0], a[1]);
        let long = way.dot(dir);
        if off(*a) < BESIDE && off(b) < BESIDE && long > 0.0 && best.is_none_or(|(most, _)| long > most) {
            best = Some((long, index));
        }
    }
    best.map(|(_, index)| index)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::curve;

    /// Closed form: a polygon about a circle is outside it and no farther than the tolerance.
    #[test]
    fn about_a_circle() {
        let (east, west) = (Point::new(200.0, 0.0), Point::new(-200.0, 0.0));
        let pi = std::f64::consts::PI;
        let circle = curve::arc(Point::ZERO, 200.0, 0.0, pi, east, west).then(&curve::arc(
            Point::ZERO,
            200.0,
            pi,
            pi,
            west,
            east,
        ));
        let polygon = around(&circle, 0.2);
        assert!(polygon.len() > 12 && polygon.len() < 120, "{}", polygon.len());
        for (i, a) in polygon.iter().enumerate() {
            let b = polygon[(i + 1) % polygon.len()];
            let middle = ((a[0] + b[0]) / 2.0).hypot((a[1] + b[1]) / 2.0);
            assert!(middle > 199.99 && a[0].hypot(a[1]) < 200.21, "{middle}");
        }
    }

    /// The same circle as a hole's rim, run the other way: chords only, so that the cloth is inside.
    #[test]
    fn bulging_in() {
        let arc = curve::arc_of_radius(Point::new(0.0, 0.0), Point::new(100.0, 0.0), -80.0).unwrap();
        for p in around(&arc, 0.2) {
            let centre = Point::new(50.0, -(80.0f64 * 80.0 - 2500.0).sqrt());
            assert!((centre.distance(Point::new(p[0], p[1])) - 80.0).abs() < 1e-3);
        }
    }
}
