//! Weaves: sparse ticks that tell the sides of cloth apart without colour.

use kurbo::{BezPath, Point, Rect, Shape, Vec2};

use super::geom::{flat, pt, real, right_of, unit, whole};

/// How an area is ticked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weave {
    /// The wrong side: short ticks along the grain.
    Along,
    /// An under cloth: ticks across the grain, in pairs of rows.
    Across,
    /// Interlining: dots.
    Interlining,
}

/// The ticks of an area, each inside it and clear of the boxes. A dot is a tick of no length.
pub(crate) fn ticks(area: &BezPath, weave: Weave, along: Vec2, boxes: &[Rect]) -> Vec<(Point, Point)> {
    let bounds = area.bounding_box();
    if !bounds.is_finite() || bounds.width() > 2_000.0 || bounds.height() > 2_000.0 {
        return Vec::new();
    }
    let outline = flat(area, 0.05);
    let along = unit(along);
    let across = right_of(along);
    let small = bounds.width().min(bounds.height()) < 14.0;
    let (step, gap, size) = match (weave, small) {
        (Weave::Along, false) => (6.4, 3.6, 1.6),
        (Weave::Along, true) => (3.8, 1.9, 1.3),
        (Weave::Across, false) => (4.2, 4.0, 1.6),
        (Weave::Across, true) => (2.4, 2.1, 1.1),
        (Weave::Interlining, false) => (2.6, 2.3, 0.0),
        (Weave::Interlining, true) => (1.9, 1.7, 0.0),
    };
    let dir = if weave == Weave::Across { across } else { along };
    let corners =
        [pt(bounds.x0, bounds.y0), pt(bounds.x1, bounds.y0), pt(bounds.x1, bounds.y1), pt(bounds.x0, bounds.y1)];
    let origin = corners[0];
    let range = |axis: Vec2| {
        corners.iter().map(|c| (*c - origin).dot(axis)).fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)))
    };
    let ((u0, u1), (v0, v1)) = (range(along), range(across));
    let (rows, cols) = (whole((v1 - v0) / gap, 0, 900), whole((u1 - u0) / step, 0, 900));
    let mut out = Vec::new();
    for row in 0..=rows {
        let shift = if row % 2 == 0 { 0.25 } else { 0.75 };
        for col in 0..=cols {
            let p = origin + along * (u0 + (real(col) + shift) * step) + across * (v0 + (real(row) + 0.5) * gap);
            let (a, b) = (p - dir * (size / 2.0), p + dir * (size / 2.0));
            let clear = 0.55;
            let near = [a - dir * clear, b + dir * clear, p + right_of(dir) * clear, p - right_of(dir) * clear];
            let hidden = boxes.iter().any(|r| r.contains(a) || r.contains(b) || r.contains(p));
            if !hidden && near.iter().all(|q| inside(&outline, *q)) {
                out.push((a, b));
            }
        }
    }
    out
}

/// Whether a point is inside closed polylines (even-odd).
pub(crate) fn inside(outline: &[Vec<Point>], p: Point) -> bool {
    let mut odd = false;
    for part in outline {
        for pair in part.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x {
                odd = !odd;
            }
        }
    }
    odd
}
