//! Open and closed lines of straight pieces and curves, and what is measured along them.

use std::fmt;

use kurbo::{
    Affine, BezPath, Line, ParamCurve, ParamCurveArclen, ParamCurveDeriv, ParamCurveNearest, PathEl, PathSeg, Point,
    Shape, Vec2,
};
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Accuracy of lengths along curves, mm: far below what is printed or cut.
pub(crate) const ACCURACY: f64 = 1e-6;
/// Points nearer to each other than this are one, mm: below the breadth of a pencil line.
pub(crate) const SAME: f64 = 1e-3;
/// Pieces shorter than this are none, mm.
const NOTHING: f64 = 1e-7;
/// How far straight lines are run on, mm: longer than any piece.
pub(crate) const FAR: f64 = 1e5;

/// A line drawn without lifting the pencil; millimetres, x to the right, y down the page. It is kept as
/// straight pieces and cubic curves, and written as the path data of SVG 1.1, section 8.3.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path(BezPath);

impl Path {
    /// From segments that follow each other. Segments of no length are left out.
    #[must_use]
    pub fn of(segs: impl IntoIterator<Item = PathSeg>) -> Path {
        let mut path = BezPath::new();
        for seg in segs {
            if seg.arclen(ACCURACY) < NOTHING {
                continue;
            }
            let fresh = path.elements().is_empty();
            if fresh {
                path.move_to(seg.start());
            }
            path.push(match seg {
                PathSeg::Line(line) => PathEl::LineTo(line.p1),
                PathSeg::Quad(quad) => {
                    let cubic = quad.raise();
                    PathEl::CurveTo(cubic.p1, cubic.p2, cubic.p3)
                }
                PathSeg::Cubic(cubic) => PathEl::CurveTo(cubic.p1, cubic.p2, cubic.p3),
            });
        }
        Path(path)
    }

    /// Straight from point to point.
    #[must_use]
    pub fn straight(points: &[Point]) -> Path {
        Path::of(points.windows(2).filter_map(|pair| match pair {
            [a, b] => Some(PathSeg::Line(Line::new(*a, *b))),
            _ => None,
        }))
    }

    /// The segments, straight or cubic, without a closing one.
    #[must_use]
    pub fn segs(&self) -> Vec<PathSeg> {
        self.0.segments().collect()
    }

    /// As a path of the drawing library, open.
    #[must_use]
    pub fn bez(&self) -> &BezPath {
        &self.0
    }

    /// As a path of the drawing library, closed.
    #[must_use]
    pub fn closed_bez(&self) -> BezPath {
        let mut path = self.0.clone();
        if !path.elements().is_empty() {
            path.close_path();
        }
        path
    }

    /// Whether there is nothing of it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.elements().len() < 2
    }

    /// Its length in mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.0.segments().map(|seg| seg.arclen(ACCURACY)).sum()
    }

    /// Where it begins; of no path, the origin.
    #[must_use]
    pub fn start(&self) -> Point {
        self.0.segments().next().map_or(Point::ZERO, |seg| seg.start())
    }

    /// Where it ends; of no path, the origin.
    #[must_use]
    pub fn end(&self) -> Point {
        self.0.segments().last().map_or(Point::ZERO, |seg| seg.end())
    }

    /// The direction in which it sets out, of length 1.
    #[must_use]
    pub fn start_dir(&self) -> Vec2 {
        self.0.segments().next().map_or(Vec2::new(1.0, 0.0), |seg| seg_dir(&seg, 0.0))
    }

    /// The direction in which it arrives, of length 1.
    #[must_use]
    pub fn end_dir(&self) -> Vec2 {
        self.0.segments().last().map_or(Vec2::new(1.0, 0.0), |seg| seg_dir(&seg, 1.0))
    }

    /// The place and the direction at a distance from its start, mm; beyond its ends, run on straight.
    #[must_use]
    pub fn at(&self, distance: f64) -> (Point, Vec2) {
        if distance <= 0.0 {
            let dir = self.start_dir();
            return (self.start() + dir * distance, dir);
        }
        let mut left = distance;
        for seg in self.0.segments() {
            let length = seg.arclen(ACCURACY);
            if left <= length {
                let t = seg_param(&seg, left, length);
                return (seg.eval(t), seg_dir(&seg, t));
            }
            left -= length;
        }
        let dir = self.end_dir();
        (self.end() + dir * left, dir)
    }

    /// The part between two distances from its start, mm.
    #[must_use]
    pub fn slice(&self, from: f64, to: f64) -> Path {
        let mut segs = Vec::new();
        let mut done = 0.0;
        for seg in self.0.segments() {
            let length = seg.arclen(ACCURACY);
            let (a, b) = ((from - done).max(0.0), (to - done).min(length));
            if b - a > NOTHING {
                let t0 = if a <= 0.0 { 0.0 } else { seg_param(&seg, a, length) };
                let t1 = if b >= length { 1.0 } else { seg_param(&seg, b, length) };
                segs.push(seg.subsegment(t0..t1));
            }
            done += length;
        }
        Path::of(segs)
    }

    /// The same line drawn from its end to its start.
    #[must_use]
    pub fn reversed(&self) -> Path {
        Path::of(self.0.segments().collect::<Vec<_>>().into_iter().rev().map(|seg| seg.reverse()))
    }

    /// The line moved, turned or mirrored.
    #[must_use]
    pub fn moved(&self, by: Affine) -> Path {
        Path(by * self.0.clone())
    }

    /// This line and another one after it. A gap between them is closed straight.
    #[must_use]
    pub fn then(&self, next: &Path) -> Path {
        if self.is_empty() {
            return next.clone();
        }
        if next.is_empty() {
            return self.clone();
        }
        let mut segs = self.segs();
        if self.end().distance(next.start()) > SAME {
            segs.push(PathSeg::Line(Line::new(self.end(), next.start())));
            segs.extend(next.segs());
        } else {
            segs.extend(next.starting(self.end()).segs());
        }
        Path::of(segs)
    }

    /// The distance along it of the place nearest to a point, and how far away that is, mm.
    #[must_use]
    pub fn nearest(&self, point: Point) -> (f64, f64) {
        let mut best = (0.0, f64::INFINITY);
        let mut done = 0.0;
        for seg in self.0.segments() {
            let length = seg.arclen(ACCURACY);
            let near = seg.nearest(point, 1e-9);
            let gap = near.distance_sq.sqrt();
            if gap < best.1 - 1e-9 {
                best = (done + seg.subsegment(0.0..near.t).arclen(ACCURACY), gap);
            }
            done += length;
        }
        best
    }

    /// Corner by corner; no place of it is farther than `tolerance` mm from the straight pieces.
    #[must_use]
    pub fn flat(&self, tolerance: f64) -> Vec<Point> {
        let mut points = Vec::new();
        kurbo::flatten(self.0.elements().iter().copied(), tolerance, |element| match element {
            PathEl::MoveTo(p) | PathEl::LineTo(p) => points.push(p),
            _ => {}
        });
        points
    }

    /// Whether it is one straight line.
    #[must_use]
    pub fn is_straight(&self) -> bool {
        let (start, end) = (self.start(), self.end());
        let dir = end - start;
        let size = dir.hypot();
        size > SAME && self.flat(SAME).iter().all(|p| (dir.cross(*p - start) / size).abs() < SAME)
    }

    /// The same line with its start set to a point a hair away.
    #[must_use]
    pub(crate) fn starting(&self, at: Point) -> Path {
        let mut segs = self.segs();
        if let Some(first) = segs.first_mut() {
            match first {
                PathSeg::Line(line) => line.p0 = at,
                PathSeg::Quad(quad) => quad.p0 = at,
                PathSeg::Cubic(cubic) => cubic.p0 = at,
            }
        }
        Path::of(segs)
    }

    /// With straight pieces that lie in one line made one.
    #[must_use]
    pub(crate) fn joined_up(&self) -> Path {
        let mut segs: Vec<PathSeg> = Vec::new();
        for seg in self.segs() {
            if let (Some(PathSeg::Line(last)), PathSeg::Line(line)) = (segs.last_mut(), seg) {
                let (u, v) = (last.p1 - last.p0, line.p1 - line.p0);
                if u.cross(v).abs() < 1e-9 * u.hypot() * v.hypot() && u.dot(v) > 0.0 {
                    last.p1 = line.p1;
                    continue;
                }
            }
            segs.push(seg);
        }
        Path::of(segs)
    }

    /// Run on straight at both ends, by so much, mm.
    #[must_use]
    pub fn extended(&self, by: f64) -> Path {
        let (start, end) = (self.start(), self.end());
        let mut segs = vec![PathSeg::Line(Line::new(start - self.start_dir() * by, start))];
        segs.extend(self.segs());
        segs.push(PathSeg::Line(Line::new(end, end + self.end_dir() * by)));
        Path::of(segs)
    }

    /// Twice the area between the line and the origin, with a sign; for closed outlines the sum over the edges is
    /// twice the area, above nothing where they run clockwise on the page.
    #[must_use]
    pub(crate) fn signed_area(&self) -> f64 {
        use kurbo::ParamCurveArea;
        self.0.segments().map(|seg| seg.signed_area()).sum()
    }

    /// The smallest upright box about it: left, top, right, bottom in mm.
    #[must_use]
    pub fn bounds(&self) -> kurbo::Rect {
        self.0.bounding_box()
    }

    /// All coordinates to the nearest millionth of a millimetre, so that what is written reads back the same.
    #[must_use]
    pub(crate) fn rounded(&self) -> Path {
        let round = |p: Point| Point::new(tidy(p.x), tidy(p.y));
        Path(BezPath::from_vec(
            self.0
                .elements()
                .iter()
                .map(|element| match *element {
                    PathEl::MoveTo(p) => PathEl::MoveTo(round(p)),
                    PathEl::LineTo(p) => PathEl::LineTo(round(p)),
                    PathEl::QuadTo(a, p) => PathEl::QuadTo(round(a), round(p)),
                    PathEl::CurveTo(a, b, p) => PathEl::CurveTo(round(a), round(b), round(p)),
                    PathEl::ClosePath => PathEl::ClosePath,
                })
                .collect(),
        ))
    }
}

/// To the nearest millionth of a millimetre.
pub(crate) fn tidy(value: f64) -> f64 {
    let rounded = (value * 1e6).round() / 1e6;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// The direction of a segment at a parameter, of length 1, also where its handles have no length.
pub(crate) fn seg_dir(seg: &PathSeg, t: f64) -> Vec2 {
    let unit = |v: Vec2| (v.hypot() > 1e-9).then(|| v / v.hypot());
    let fallback = || {
        let step = if t < 0.5 { (t, t + 1e-3) } else { (t - 1e-3, t) };
        unit(seg.eval(step.1) - seg.eval(step.0)).unwrap_or(Vec2::new(1.0, 0.0))
    };
    match seg {
        PathSeg::Line(line) => unit(line.p1 - line.p0).unwrap_or(Vec2::new(1.0, 0.0)),
        PathSeg::Quad(quad) => unit(quad.deriv().eval(t).to_vec2()).unwrap_or_else(fallback),
        PathSeg::Cubic(cubic) => unit(cubic.deriv().eval(t).to_vec2()).unwrap_or_else(fallback),
    }
}

fn seg_param(seg: &PathSeg, distance: f64, length: f64) -> f64 {
    if length <= 0.0 {
        return 0.0;
    }
    match seg {
        PathSeg::Line(_) => (distance / length).clamp(0.0, 1.0),
        _ => seg.inv_arclen(distance.clamp(0.0, length), ACCURACY).clamp(0.0, 1.0),
    }
}

impl Serialize for Path {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0.to_svg())
    }
}

impl<'de> Deserialize<'de> for Path {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Path, D::Error> {
        struct PathVisitor;
        impl Visitor<'_> for PathVisitor {
            type Value = Path;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("SVG path data")
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<Path, E> {
                BezPath::from_svg(text).map(Path).map_err(|error| E::custom(error.to_string()))
            }
        }
        deserializer.deserialize_str(PathVisitor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::curve;

    /// Closed form: a quarter circle of radius r is r π/2 long and half of it ends at 45 degrees.
    #[test]
    fn quarter_circle() {
        let half = std::f64::consts::FRAC_1_SQRT_2 * 100.0;
        let (a, b, c) = (Point::new(100.0, 0.0), Point::new(half, half), Point::new(0.0, 100.0));
        let arc = curve::arc_through(a, b, c).unwrap();
        assert!((arc.length() - 50.0 * std::f64::consts::PI).abs() < 1e-4, "{}", arc.length());
        let (middle, dir) = arc.at(arc.length() / 2.0);
        assert!(middle.distance(b) < 1e-4);
        assert!(dir.dot(b.to_vec2()).abs() < 1e-3, "the tangent is square to the radius");
        let parts = arc.slice(0.0, 30.0).length() + arc.slice(30.0, 1e9).length();
        assert!((parts - arc.length()).abs() < 1e-5);
        assert!((arc.reversed().length() - arc.length()).abs() < 1e-9);
    }

    #[test]
    fn written_and_read_back() {
        let path = Path::straight(&[Point::new(0.1, 0.2), Point::new(1.0 / 3.0, 7.0)]).rounded();
        let text = serde_json::to_string(&path).unwrap();
        assert_eq!(serde_json::from_str::<Path>(&text).unwrap(), path);
    }

    #[test]
    fn run_on_and_nearest() {
        let path = Path::straight(&[Point::new(0.0, 0.0), Point::new(10.0, 0.0)]);
        assert_eq!(path.at(12.0).0, Point::new(12.0, 0.0));
        assert_eq!(path.at(-2.0).0, Point::new(-2.0, 0.0));
        let (along, gap) = path.nearest(Point::new(4.0, 3.0));
        assert!((along - 4.0).abs() < 1e-6 && (gap - 3.0).abs() < 1e-6);
        assert!((path.extended(5.0).length() - 20.0).abs() < 1e-9);
    }
}
