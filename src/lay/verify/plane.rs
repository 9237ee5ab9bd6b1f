//! Outlines in the plane, looked at directly.

use crate::lay::geom::Point;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

/// An outline where it lies.
pub(super) struct Placed {
    outline: Vec<Point>,
    pub low: Point,
    pub high: Point,
}

impl Placed {
    pub fn new(outline: Vec<Point>) -> Self {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for p in &outline {
            if !(p[0].is_finite() && p[1].is_finite()) {
                // Nowhere: a box that lies inside no cloth.
                return Self { outline, low: [f64::NEG_INFINITY; 2], high: [f64::INFINITY; 2] };
            }
            low = [low[0].min(p[0]), low[1].min(p[1])];
            high = [high[0].max(p[0]), high[1].max(p[1])];
        }
        Self { outline, low, high }
    }

    /// Whether the boxes alone show that the gap is kept.
    pub fn clear_of(&self, other: &Self, gap: f64) -> bool {
        (0..2).any(|k| self.low[k] >= other.high[k] + gap || other.low[k] >= self.high[k] + gap)
    }

    fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let n = self.outline.len();
        (0..n).map(move |i| (self.outline[i], self.outline[(i + 1) % n]))
    }

    /// Even-odd; on the outline itself either answer.
    fn holds(&self, p: Point) -> bool {
        let mut inside = false;
        for (a, b) in self.edges() {
            if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
                inside = !inside;
            }
        }
        inside
    }
}

/// Whether the overlap of two outlines is anywhere thicker than `tolerance`.
pub(super) fn overlaps(a: &Placed, b: &Placed, tolerance: f64) -> bool {
    enters(a, b, tolerance) || enters(b, a, tolerance) || common_is_thick(a, b, tolerance)
}

/// The least tolerance at which the outlines count as not overlapping, to a thousandth of itself, mm.
pub(super) fn depth(a: &Placed, b: &Placed) -> f64 {
    let (mut low, mut high) = (0.0, (a.high[0] - a.low[0]).max(a.high[1] - a.low[1]));
    while high - low > 1e-3 * high && high > 1e-9 {
        let middle = (low + high) / 2.0;
        if overlaps(a, b, middle) { low = middle } else { high = middle }
    }
    high
}

/// Whether the outline of `a` runs inside `b` farther than `tolerance` from the outline of `b`.
fn enters(a: &Placed, b: &Placed, tolerance: f64) -> bool {
    a.edges().any(|(p, q)| {
        let d = [q[0] - p[0], q[1] - p[1]];
        let far = |k: usize| p[k].max(q[k]) < b.low[k] || p[k].min(q[k]) > b.high[k];
        if far(0) || far(1) || d == [0.0, 0.0] {
            return false;
        }
        let mut cuts = vec![0.0, 1.0];
        let mut covered = Vec::new();
        for edge in b.edges() {
            cuts.extend(crossing((p, d), edge));
            covered.extend(near((p, d), edge, tolerance));
        }
        cuts.sort_by(f64::total_cmp);
        covered.sort_by(|x: &(f64, f64), y| x.0.total_cmp(&y.0));
        cuts.windows(2).any(|w| {
            let middle = (w[0] + w[1]) / 2.0;
            w[1] > w[0] && !is_covered(&covered, w[0], w[1]) && b.holds([p[0] + middle * d[0], p[1] + middle * d[1]])
        })
    })
}

/// Where along `p + t d`, `t` in 0 to 1, the segment is crossed.
fn crossing((p, d): (Point, Point), (a, b): (Point, Point)) -> Option<f64> {
    let e = [b[0] - a[0], b[1] - a[1]];
    let w = [a[0] - p[0], a[1] - p[1]];
    let cross = d[0] * e[1] - d[1] * e[0];
    if cross == 0.0 {
        return None;
    }
    let t = (w[0] * e[1] - w[1] * e[0]) / cross;
    let s = (w[0] * d[1] - w[1] * d[0]) / cross;
    ((0.0..=1.0).contains(&t) && (-1e-9..=1.0 + 1e-9).contains(&s)).then_some(t)
}

/// The interval of `t` for which `p + t d` is within `reach` of a segment (a convex region, so one interval).
fn near((p, d): (Point, Point), (a, b): (Point, Point), reach: f64) -> Option<(f64, f64)> {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    let dd = d[0] * d[0] + d[1] * d[1];
    for c in [a, b] {
        let w = [p[0] - c[0], p[1] - c[1]];
        let half = (w[0] * d[0] + w[1] * d[1]) / dd;
        let aside = (w[0] * d[1] - w[1] * d[0]) / dd.sqrt();
        let rest = reach * reach - aside * aside;
        if rest >= 0.0 {
            let r = (rest / dd).sqrt();
            low = low.min(-half - r);
            high = high.max(-half + r);
        }
    }
    let e = [b[0] - a[0], b[1] - a[1]];
    let length = (e[0] * e[0] + e[1] * e[1]).sqrt();
    if length > 0.0 {
        let u = [e[0] / length, e[1] / length];
        let w = [p[0] - a[0], p[1] - a[1]];
        let mut slab = (f64::NEG_INFINITY, f64::INFINITY);
        let ranges = [(w[0] * u[0] + w[1] * u[1], d[0] * u[0] + d[1] * u[1], 0.0, length), {
            (w[1] * u[0] - w[0] * u[1], d[1] * u[0] - d[0] * u[1], -reach, reach)
        }];
        for (from, per, least, most) in ranges {
            if per.abs() < 1e-15 * dd.sqrt() {
                if from < least || from > most {
                    slab = (1.0, 0.0);
                }
            } else {
                let (x, y) = ((least - from) / per, (most - from) / per);
                slab = (slab.0.max(x.min(y)), slab.1.min(x.max(y)));
            }
        }
        if slab.0 <= slab.1 {
            low = low.min(slab.0);
            high = high.max(slab.1);
        }
    }
    (low <= high).then_some((low, high))
}

/// Whether intervals, sorted by their beginning, leave nothing of `from..to` out.
fn is_covered(intervals: &[(f64, f64)], from: f64, to: f64) -> bool {
    let mut reached = from;
    for (a, b) in intervals {
        if *a > reached + 1e-9 {
            break;
        }
        reached = reached.max(*b);
    }
    reached >= to - 1e-9
}

/// Whether the common region has more area than a sliver `tolerance` thick all along its outline.
fn common_is_thick(a: &Placed, b: &Placed, tolerance: f64) -> bool {
    let common = a.outline.overlay(&b.outline, OverlayRule::Intersect, FillRule::NonZero);
    let (mut area, mut around) = (0.0, 0.0);
    for contour in common.iter().flatten() {
        let n = contour.len();
        for i in 0..n {
            let (p, q) = (contour[i], contour[(i + 1) % n]);
            area += (p[0] * q[1] - q[0] * p[1]) / 2.0;
            around += ((q[0] - p[0]).powi(2) + (q[1] - p[1]).powi(2)).sqrt();
        }
    }
    area.abs() > tolerance * around
}

/// The least distance between two outlines that do not overlap, mm.
pub(super) fn distance(a: &Placed, b: &Placed) -> f64 {
    let to_edge = |p: Point, (a, b): (Point, Point)| {
        let d = [b[0] - a[0], b[1] - a[1]];
        let dd = d[0] * d[0] + d[1] * d[1];
        let along = (p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1];
        let t = if dd > 0.0 { (along / dd).clamp(0.0, 1.0) } else { 0.0 };
        (a[0] + t * d[0] - p[0]).hypot(a[1] + t * d[1] - p[1])
    };
    let mut least = f64::INFINITY;
    for (one, two) in [(a, b), (b, a)] {
        for p in &one.outline {
            for edge in two.edges() {
                least = least.min(to_edge(*p, edge));
            }
        }
    }
    let cross = a.edges().any(|(p, q)| b.edges().any(|e| crossing((p, [q[0] - p[0], q[1] - p[1]]), e).is_some()));
    if cross { 0.0 } else { least }
}

#[cfg(test)]
mod tests {
    use super::{Placed, depth, distance, overlaps};

    fn rectangle(x: f64, y: f64, w: f64, h: f64) -> Placed {
        Placed::new(vec![[x, y], [x + w, y], [x + w, y + h], [x, y + h]])
    }

    /// Closed form: rectangles that share a strip of known thickness, cross, nest, coincide or touch.
    #[test]
    fn rectangles() {
        let a = rectangle(0.0, 0.0, 100.0, 50.0);
        for (b, deep) in [
            (rectangle(99.0, 0.0, 100.0, 50.0), 1.0),
            (rectangle(99.98, 10.0, 100.0, 20.0), 0.02),
            (rectangle(40.0, -20.0, 20.0, 100.0), 25.0),
            (rectangle(20.0, 20.0, 10.0, 10.0), 25.0),
        ] {
            assert!(overlaps(&a, &b, 0.01) && overlaps(&b, &a, 0.01));
            let found = depth(&a, &b);
            assert!((found - deep).abs() <= 0.002 * deep.max(1.0) + 1e-6, "{found} for {deep}");
        }
        assert!(overlaps(&a, &rectangle(0.0, 0.0, 100.0, 50.0), 0.01), "one on the other");
        assert!(!overlaps(&a, &rectangle(100.0, 0.0, 100.0, 50.0), 0.01), "side by side");
        assert!(!overlaps(&a, &rectangle(99.995, 0.0, 100.0, 50.0), 0.01), "within the tolerance");
        assert!((distance(&a, &rectangle(103.0, 54.0, 1.0, 1.0)) - 5.0).abs() < 1e-12, "3, 4, 5");
    }

    /// A corner that only pokes through: the depth is that of the corner.
    #[test]
    fn a_corner_that_pokes_through() {
        let a = rectangle(0.0, 0.0, 100.0, 50.0);
        let b = Placed::new(vec![[99.5, 25.0], [150.0, 20.0], [150.0, 30.0]]);
        assert!(overlaps(&a, &b, 0.4) && !overlaps(&a, &b, 0.6));
    }
}
