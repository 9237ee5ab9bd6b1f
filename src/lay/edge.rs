//! Edges of no-fit polygons: how far, on which side, and where they cross.

use crate::lay::geom::Point;

#[derive(Debug, Clone, Copy)]
pub(crate) struct Edge {
    pub from: Point,
    pub along: Point,
    /// 1 / length².
    pub inverse: f64,
    /// Where it ends, and dx/dy.
    pub to_y: f64,
    pub slope: f64,
    /// Which side of the polygon its beginning and its end are on.
    pub ends: [Corner; 2],
}

/// What the polygon is at a corner, and so on which side of it lies what is nearest to the corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Corner {
    /// Convex: outside.
    Bulge,
    /// Inside.
    Hollow,
    /// Straight, or several corners in one place: must be looked at.
    Unsure,
}

impl Edge {
    #[inline]
    pub fn squared_distance(&self, p: Point) -> f64 {
        let d = [p[0] - self.from[0], p[1] - self.from[1]];
        let t = ((d[0] * self.along[0] + d[1] * self.along[1]) * self.inverse).clamp(0.0, 1.0);
        let e = [d[0] - t * self.along[0], d[1] - t * self.along[1]];
        e[0] * e[0] + e[1] * e[1]
    }

    /// Whether a point to which this is the nearest edge is inside; nothing where that must be looked at.
    #[inline]
    pub fn holds(&self, p: Point) -> Option<bool> {
        let d = [p[0] - self.from[0], p[1] - self.from[1]];
        let t = (d[0] * self.along[0] + d[1] * self.along[1]) * self.inverse;
        let end = if t <= 0.0 {
            self.ends[0]
        } else if t >= 1.0 {
            self.ends[1]
        } else {
            return Some(self.along[0] * d[1] - self.along[1] * d[0] > 0.0);
        };
        if end == Corner::Unsure { None } else { Some(end == Corner::Hollow) }
    }

    pub fn crosses(&self, p: Point) -> bool {
        (self.from[1] > p[1]) != (self.to_y > p[1]) && p[0] < self.from[0] + (p[1] - self.from[1]) * self.slope
    }

    /// Where the level `y` runs nearer than `gap` to this edge.
    pub fn band(&self, y: f64, gap: f64) -> Option<(f64, f64)> {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let to = [self.from[0] + self.along[0], self.to_y];
        for end in [self.from, to] {
            let dy = y - end[1];
            let rest = gap * gap - dy * dy;
            if rest > 0.0 {
                let reach = rest.sqrt();
                low = low.min(end[0] - reach);
                high = high.max(end[0] + reach);
            }
        }
        let per = gap * self.inverse.sqrt();
        let aside = [-self.along[1] * per, self.along[0] * per];
        let quad = [
            [self.from[0] + aside[0], self.from[1] + aside[1]],
            [to[0] + aside[0], to[1] + aside[1]],
            [to[0] - aside[0], to[1] - aside[1]],
            [self.from[0] - aside[0], self.from[1] - aside[1]],
        ];
        for i in 0..4 {
            let (a, b) = (quad[i], quad[(i + 1) % 4]);
            if (a[1] > y) != (b[1] > y) {
                let x = a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]);
                low = low.min(x);
                high = high.max(x);
            }
        }
        (low < high).then_some((low, high))
    }
}

/// Finds out what the polygon is at the ends of its edges; `ends` are those of each edge, in the same order.
pub(crate) fn mark_corners(edges: &mut [Edge], ends: &[(Point, Point)]) {
    let mut begins: Vec<(Point, usize)> = ends.iter().enumerate().map(|(e, (from, _))| (*from, e)).collect();
    let order = |a: &Point, b: &Point| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1]));
    begins.sort_by(|a, b| order(&a.0, &b.0));
    for (before, (_, to)) in ends.iter().enumerate() {
        let at = begins.partition_point(|b| order(&b.0, to).is_lt());
        let next = &begins[at..];
        let several = next.get(1).is_some_and(|b| b.0 == *to);
        let Some((_, after)) = next.first().filter(|b| b.0 == *to && !several) else { continue };
        let (u, v) = (edges[before].along, edges[*after].along);
        let cross = u[0] * v[1] - u[1] * v[0];
        let straight = cross * cross < 1e-12 * (u[0] * u[0] + u[1] * u[1]) * (v[0] * v[0] + v[1] * v[1]);
        let corner = match cross > 0.0 {
            _ if straight => Corner::Unsure,
            true => Corner::Bulge,
            false => Corner::Hollow,
        };
        edges[before].ends[1] = corner;
        edges[*after].ends[0] = corner;
    }
}
