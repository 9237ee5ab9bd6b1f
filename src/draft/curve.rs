//! Curves through points, and arcs.

use kurbo::{Arc, CubicBez, PathEl, PathSeg, Point, Vec2};

use super::path::{Path, SAME};

/// How far an arc drawn in cubic curves may be from the true circle, mm.
const ARC: f64 = 1e-4;

/// A smooth curve through points: the cubic spline whose direction and curvature run on at every point, with the way
/// between the points for its measure. An end with a direction keeps to it, with `pull` times the way to the next point
/// as its handle; an end without one is left straight.
///
/// The spline is the usual one of numerical analysis (de Boor, *A Practical Guide to Splines*, ch. IV).
#[must_use]
pub fn through(points: &[Point], start: Option<(Vec2, f64)>, end: Option<(Vec2, f64)>) -> Path {
    let ways: Vec<f64> = points.windows(2).map(|pair| pair[0].distance(pair[1]).max(1e-9)).collect();
    let n = points.len();
    if n < 2 {
        return Path::default();
    }
    let slope = |i: usize| (points[i + 1] - points[i]) / ways[i];
    // Rows of the system: below, on and above the diagonal, and the right side.
    let mut rows: Vec<(f64, f64, f64, Vec2)> = Vec::with_capacity(n);
    for i in 0..n {
        rows.push(if i == 0 {
            match start {
                Some((dir, pull)) => (0.0, 1.0, 0.0, dir * (3.0 * pull)),
                None => (0.0, 2.0, 1.0, slope(0) * 3.0),
            }
        } else if i == n - 1 {
            match end {
                Some((dir, pull)) => (0.0, 1.0, 0.0, dir * (3.0 * pull)),
                None => (1.0, 2.0, 0.0, slope(n - 2) * 3.0),
            }
        } else {
            let (before, after) = (ways[i - 1], ways[i]);
            (after, 2.0 * (before + after), before, (slope(i - 1) * after + slope(i) * before) * 3.0)
        });
    }
    let mut tangents = vec![Vec2::ZERO; n];
    for i in 1..n {
        let (_, diagonal, above, right) = rows[i - 1];
        let factor = rows[i].0 / diagonal;
        rows[i].1 -= factor * above;
        rows[i].3 -= right * factor;
    }
    for i in (0..n).rev() {
        let next = if i + 1 < n { tangents[i + 1] * rows[i].2 } else { Vec2::ZERO };
        tangents[i] = (rows[i].3 - next) / rows[i].1;
    }
    Path::of((0..n - 1).map(|i| {
        let (a, b, third) = (points[i], points[i + 1], ways[i] / 3.0);
        PathSeg::Cubic(CubicBez::new(a, a + tangents[i] * third, b - tangents[i + 1] * third, b))
    }))
}

/// The arc from `a` through `b` to `c`; none where the three lie on a straight line.
#[must_use]
pub fn arc_through(a: Point, b: Point, c: Point) -> Option<Path> {
    let (ab, ac) = (b - a, c - a);
    let twice = 2.0 * ab.cross(ac);
    if twice.abs() < SAME * SAME {
        return None;
    }
    let to_centre = Vec2::new(ac.y * ab.hypot2() - ab.y * ac.hypot2(), ab.x * ac.hypot2() - ac.x * ab.hypot2()) / twice;
    let centre = a + to_centre;
    let angle = |p: Point| (p - centre).atan2();
    let turn = |from: f64, to: f64| (to - from).rem_euclid(std::f64::consts::TAU);
    let (start, middle, end) = (angle(a), angle(b), angle(c));
    let forward = turn(start, end);
    let sweep = if turn(start, middle) < forward { forward } else { forward - std::f64::consts::TAU };
    Some(arc(centre, to_centre.hypot(), start, sweep, a, c))
}

/// The shorter arc of a radius from `a` to `b`, bulging to the left hand on the way; to the right where the radius is below
/// nothing. None where the radius does not reach.
#[must_use]
pub fn arc_of_radius(a: Point, b: Point, radius: f64) -> Option<Path> {
    let half = a.distance(b) / 2.0;
    let r = radius.abs();
    if half < SAME || r < half - 1e-9 {
        return None;
    }
    let dir = (b - a) / (2.0 * half);
    let right = Vec2::new(-dir.y, dir.x);
    let height = (r * r - half * half).max(0.0).sqrt();
    let centre = a.midpoint(b) + right * (height * radius.signum());
    let start = (a - centre).atan2();
    let sweep = 2.0 * (half / r).min(1.0).asin() * radius.signum();
    Some(arc(centre, r, start, sweep, a, b))
}

/// An arc about a centre; its ends are set to exactly the points given.
#[must_use]
pub fn arc(centre: Point, radius: f64, start: f64, sweep: f64, from: Point, to: Point) -> Path {
    let arc = Arc::new(centre, (radius, radius), start, sweep, 0.0);
    let mut at = from;
    let mut segs: Vec<CubicBez> = Vec::new();
    for element in arc.append_iter(ARC) {
        if let PathEl::CurveTo(a, b, p) = element {
            segs.push(CubicBez::new(at, a, b, p));
            at = p;
        }
    }
    if let Some(last) = segs.last_mut() {
        last.p3 = to;
    }
    Path::of(segs.into_iter().map(PathSeg::Cubic))
}

/// A curve given by a function and its slope, over a range of x, drawn in cubic pieces.
#[must_use]
pub fn plotted(from: f64, to: f64, pieces: u32, height: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64) -> Path {
    let step = (to - from) / f64::from(pieces);
    Path::of((0..pieces).map(|i| {
        let (x0, x1) = (from + step * f64::from(i), from + step * f64::from(i + 1));
        let (a, b) = (Point::new(x0, height(x0)), Point::new(x1, height(x1)));
        let third = step / 3.0;
        let (c, d) = (a + Vec2::new(third, slope(x0) * third), b - Vec2::new(third, slope(x1) * third));
        PathSeg::Cubic(CubicBez::new(a, c, d, b))
    }))
}

/// The points of a path at a share of each segment, for tests of nearness.
#[cfg(test)]
pub(crate) fn sampled(path: &Path, each: u32) -> Vec<Point> {
    use kurbo::ParamCurve;
    path.segs().iter().flat_map(|seg| (0..=each).map(|i| seg.eval(f64::from(i) / f64::from(each)))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_of_an_arc_lie_on_the_circle() {
        let arc = arc_of_radius(Point::new(0.0, 0.0), Point::new(100.0, 0.0), 80.0).unwrap();
        let centre = Point::new(50.0, (80.0f64 * 80.0 - 2500.0).sqrt());
        for p in sampled(&arc, 16) {
            assert!((p.distance(centre) - 80.0).abs() < 2.0 * ARC, "{p:?}");
        }
        // Left of the way from left to right is up the page.
        assert!(arc.at(arc.length() / 2.0).0.y < 0.0);
        // Closed form: 2 r asin(chord / 2r).
        assert!((arc.length() - 160.0 * (50.0f64 / 80.0).asin()).abs() < 1e-3);
        assert!(arc_of_radius(Point::ZERO, Point::new(100.0, 0.0), 40.0).is_none());
        assert!(arc_through(Point::ZERO, Point::new(1.0, 1.0), Point::new(2.0, 2.0)).is_none());
    }

    /// Closed form: a spline through points of a straight line is the line, and one of a parabola with its end slopes
    /// given stays within the known bound h^4/384 of the quartic term, which a parabola has not.
    #[test]
    fn splines_keep_what_they_must() {
        let line = [0.0, 10.0, 35.0].map(|x| Point::new(x, 2.0 * x));
        let drawn = through(&line, None, None);
        assert!((drawn.length() - 35.0 * 5.0f64.sqrt()).abs() < 1e-6);
        let dirs = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
        let turn =
            through(&[Point::ZERO, Point::new(10.0, 10.0)], Some((dirs.0, 1.0 / 3.0)), Some((dirs.1, 1.0 / 3.0)));
        assert!(turn.start_dir().dot(dirs.0) > 1.0 - 1e-9);
        assert!(turn.end_dir().dot(dirs.1) > 1.0 - 1e-9);
    }

    #[test]
    fn direction_and_curvature_run_on() {
        let points = [(0.0, 0.0), (30.0, 50.0), (90.0, 60.0), (120.0, 10.0)].map(|(x, y)| Point::new(x, y));
        let path = through(&points, None, None);
        for pair in path.segs().windows(2) {
            let (PathSeg::Cubic(a), PathSeg::Cubic(b)) = (pair[0], pair[1]) else { panic!("cubics") };
            let dirs = ((a.p3 - a.p2), (b.p1 - b.p0));
            assert!(dirs.0.cross(dirs.1).abs() / (dirs.0.hypot() * dirs.1.hypot()) < 1e-9);
        }
    }
}
