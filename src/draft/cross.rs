//! Where lines cross.

use kurbo::{Line, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathSeg, Point, Rect, Shape, Vec2};

use super::path::{ACCURACY, Path, SAME};

/// A place where two lines cross.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// The place.
    pub at: Point,
    /// How far along the first line, mm.
    pub first: f64,
    /// How far along the second line, mm.
    pub second: f64,
}

/// How often curves are halved in the search: two thousandths of a segment at the end, then Newton's rule.
const HALVINGS: u32 = 9;

/// Where two lines cross, in order along the first. Stretches that run on each other are not crossings.
#[must_use]
pub fn crossings(a: &Path, b: &Path) -> Vec<Crossing> {
    let (mut found, mut done_a) = (Vec::<Crossing>::new(), 0.0);
    let others: Vec<(PathSeg, f64)> = lengths(b);
    for (seg, length) in lengths(a) {
        let mut done_b = 0.0;
        for (other, other_length) in &others {
            for (t, u) in of_segs(&seg, other) {
                let crossing = Crossing {
                    at: seg.eval(t),
                    first: done_a + part(&seg, t, length),
                    second: done_b + part(other, u, *other_length),
                };
                if found.iter().all(|known| known.at.distance(crossing.at) > SAME) {
                    found.push(crossing);
                }
            }
            done_b += other_length;
        }
        done_a += length;
    }
    found.sort_by(|x, y| x.first.total_cmp(&y.first));
    found
}

fn lengths(path: &Path) -> Vec<(PathSeg, f64)> {
    path.segs().into_iter().map(|seg| (seg, seg.arclen(ACCURACY))).collect()
}

fn part(seg: &PathSeg, t: f64, length: f64) -> f64 {
    match seg {
        PathSeg::Line(_) => t * length,
        _ => seg.subsegment(0.0..t).arclen(ACCURACY),
    }
}

fn of_segs(a: &PathSeg, b: &PathSeg) -> Vec<(f64, f64)> {
    match (a, b) {
        (PathSeg::Line(a), PathSeg::Line(b)) => lines(*a, *b).into_iter().collect(),
        (a, b) => {
            let mut found = Vec::new();
            search(a, b, (0.0, 1.0), (0.0, 1.0), HALVINGS, &mut found);
            found
        }
    }
}

fn lines(a: Line, b: Line) -> Option<(f64, f64)> {
    let (u, v) = (a.p1 - a.p0, b.p1 - b.p0);
    let cross = u.cross(v);
    if cross.abs() < 1e-9 * u.hypot() * v.hypot() {
        return None;
    }
    let between = b.p0 - a.p0;
    let (t, s) = (between.cross(v) / cross, between.cross(u) / cross);
    let (slack_t, slack_s) = (1e-6 / u.hypot().max(1e-9), 1e-6 / v.hypot().max(1e-9));
    let on = |t: f64, slack: f64| (-slack..=1.0 + slack).contains(&t);
    (on(t, slack_t) && on(s, slack_s)).then(|| (t.clamp(0.0, 1.0), s.clamp(0.0, 1.0)))
}

fn search(a: &PathSeg, b: &PathSeg, ta: (f64, f64), tb: (f64, f64), left: u32, found: &mut Vec<(f64, f64)>) {
    if found.len() > 32 || !touch(hull(a, ta), hull(b, tb)) {
        return;
    }
    if left == 0 {
        if let Some(hit) = newton(a, b, ta.0.midpoint(ta.1), tb.0.midpoint(tb.1))
            && found.iter().all(|known| a.eval(known.0).distance(a.eval(hit.0)) > SAME)
        {
            found.push(hit);
        }
        return;
    }
    let (ma, mb) = (ta.0.midpoint(ta.1), tb.0.midpoint(tb.1));
    for half_a in [(ta.0, ma), (ma, ta.1)] {
        for half_b in [(tb.0, mb), (mb, tb.1)] {
            search(a, b, half_a, half_b, left - 1, found);
        }
    }
}

fn hull(seg: &PathSeg, range: (f64, f64)) -> Rect {
    let part = seg.subsegment(range.0..range.1);
    let points = match part {
        PathSeg::Line(line) => vec![line.p0, line.p1],
        PathSeg::Quad(quad) => vec![quad.p0, quad.p1, quad.p2],
        PathSeg::Cubic(cubic) => vec![cubic.p0, cubic.p1, cubic.p2, cubic.p3],
    };
    points.iter().fold(Rect::from_points(part.start(), part.end()), |rect, p| rect.union_pt(*p)).inflate(1e-6, 1e-6)
}

fn touch(a: Rect, b: Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

fn newton(a: &PathSeg, b: &PathSeg, mut t: f64, mut u: f64) -> Option<(f64, f64)> {
    for _ in 0..24 {
        let gap = b.eval(u) - a.eval(t);
        if gap.hypot() < 1e-10 {
            break;
        }
        let (da, db) = (deriv(a, t), deriv(b, u));
        let cross = da.cross(db);
        if cross.abs() < 1e-12 {
            return None;
        }
        t += gap.cross(db) / cross;
        u += gap.cross(da) / cross;
        if !(-0.5..=1.5).contains(&t) || !(-0.5..=1.5).contains(&u) {
            return None;
        }
    }
    let near = |t: f64| (-1e-6..=1.0 + 1e-6).contains(&t);
    let hit = near(t) && near(u) && a.eval(t).distance(b.eval(u)) < 1e-6;
    hit.then(|| (t.clamp(0.0, 1.0), u.clamp(0.0, 1.0)))
}

fn deriv(seg: &PathSeg, t: f64) -> Vec2 {
    match seg {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
    }
}

/// Whether a closed outline of straight pieces crosses or touches itself away from its corners; the place where it does.
#[must_use]
pub fn crosses_itself(points: &[Point]) -> Option<Point> {
    let n = points.len();
    let mut sides: Vec<(usize, Line)> = (0..n).map(|i| (i, Line::new(points[i], points[(i + 1) % n]))).collect();
    sides.retain(|(_, side)| side.p0.distance(side.p1) > 1e-6);
    let count = sides.len();
    let mut order: Vec<usize> = (0..count).collect();
    let left = |i: usize| sides[i].1.p0.x.min(sides[i].1.p1.x);
    let right = |i: usize| sides[i].1.p0.x.max(sides[i].1.p1.x);
    order.sort_by(|a, b| left(*a).total_cmp(&left(*b)).then(a.cmp(b)));
    for (at, &i) in order.iter().enumerate() {
        for &j in &order[at + 1..] {
            if left(j) > right(i) + 1e-9 {
                break;
            }
            let apart = i.abs_diff(j);
            if apart == 1 || apart == count - 1 {
                continue;
            }
            let (a, b) = (sides[i].1, sides[j].1);
            if !touch(a.bounding_box(), b.bounding_box()) {
                continue;
            }
            if let Some((t, _)) = lines(a, b) {
                return Some(a.eval(t));
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::curve;

    /// Closed form: the line y = 30 meets a circle of radius 50 at x = 40.
    #[test]
    fn line_and_circle() {
        let circle =
            curve::arc(Point::ZERO, 50.0, 0.0, std::f64::consts::PI, Point::new(50.0, 0.0), Point::new(-50.0, 0.0));
        let line = Path::straight(&[Point::new(-100.0, 30.0), Point::new(100.0, 30.0)]);
        let found = crossings(&line, &circle);
        assert_eq!(found.len(), 2);
        assert!((found[0].at.x + 40.0).abs() < 1e-3 && (found[1].at.x - 40.0).abs() < 1e-3, "{found:?}");
        assert!((found[1].first - 140.0).abs() < 1e-3);
    }

    /// Closed form: two circles of radius 50 whose centres are 60 apart cross 40 off the line of centres.
    #[test]
    fn circle_and_circle() {
        let half = |x: f64| {
            let (a, b) = (Point::new(x + 50.0, 0.0), Point::new(x - 50.0, 0.0));
            curve::arc(Point::new(x, 0.0), 50.0, 0.0, std::f64::consts::PI, a, b)
        };
        let found = crossings(&half(0.0), &half(60.0));
        assert_eq!(found.len(), 1);
        assert!(found[0].at.distance(Point::new(30.0, 40.0)) < 1e-3);
    }

    #[test]
    fn bow_ties_are_seen() {
        let p = |x: f64, y: f64| Point::new(x, y);
        assert!(crosses_itself(&[p(0.0, 0.0), p(10.0, 10.0), p(10.0, 0.0), p(0.0, 10.0)]).is_some());
        assert!(crosses_itself(&[p(0.0, 0.0), p(10.0, 0.0), p(10.0, 10.0), p(0.0, 10.0)]).is_none());
    }
}
