//! Outlines of pieces made ready for the cloth: opened out, blocked, tested for being their own mirror image.

use crate::lay::geom::{Bounds, Point, signed_area};

/// An outline drawn upright (straight grain along +y) in the frame of the cloth (grain along +x): a quarter
/// turn clockwise. Lengths unchanged.
#[must_use]
pub fn grain_from_up(outline: &[Point]) -> Vec<Point> {
    outline.iter().map(|p| [p[1], -p[0]]).collect()
}

/// Two ends of the edge that begins at a corner.
pub(super) fn edge(outline: &[Point], from: usize) -> Option<(Point, Point)> {
    let a = outline.get(from)?;
    Some((*a, outline[(from + 1) % outline.len()]))
}

/// A point mirrored in the line through `a` and `b`.
pub(super) fn mirrored(p: Point, (a, b): (Point, Point)) -> Point {
    let d = [b[0] - a[0], b[1] - a[1]];
    let w = [p[0] - a[0], p[1] - a[1]];
    let t = (w[0] * d[0] + w[1] * d[1]) / (d[0] * d[0] + d[1] * d[1]);
    [2.0 * (a[0] + t * d[0]) - p[0], 2.0 * (a[1] + t * d[1]) - p[1]]
}

/// How far the outline reaches over the line of its fold edge to the other side, mm; 0 when it does not.
pub(super) fn over_the_fold(outline: &[Point], fold: (Point, Point)) -> f64 {
    let (a, b) = fold;
    let d = [b[0] - a[0], b[1] - a[1]];
    let length = (d[0] * d[0] + d[1] * d[1]).sqrt();
    let side = if signed_area(outline) >= 0.0 { 1.0 } else { -1.0 };
    outline.iter().map(|p| -side * (d[0] * (p[1] - a[1]) - d[1] * (p[0] - a[0])) / length).fold(0.0, f64::max)
}

/// A half opened out along its fold edge: the whole outline, without the fold.
pub(super) fn opened(outline: &[Point], from: usize) -> Vec<Point> {
    let n = outline.len();
    let Some(fold) = edge(outline, from) else { return outline.to_vec() };
    // From the end of the fold edge all the way round to its beginning, then the mirror image back.
    let half: Vec<Point> = (1..=n).map(|k| outline[(from + k) % n]).collect();
    let mut whole = half.clone();
    whole.extend(half.iter().rev().map(|p| mirrored(*p, fold)));
    let mut clean: Vec<Point> = Vec::with_capacity(whole.len());
    for p in whole {
        if clean.last().is_none_or(|q| apart(p, *q) > NOTHING) {
            clean.push(p);
        }
    }
    while clean.len() > 1 && apart(clean[0], clean[clean.len() - 1]) <= NOTHING {
        clean.pop();
    }
    clean
}

/// Corners nearer than this are one corner, mm.
const NOTHING: f64 = 1e-6;

fn apart(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).abs().max((a[1] - b[1]).abs())
}

/// The block around an outline, with a margin on every side except, for a half, that of its fold edge.
pub(super) fn block(outline: &[Point], margin: f64, fold: Option<(Point, Point)>) -> Vec<Point> {
    let Bounds { min, max } = Bounds::of(outline);
    let mut low = [min[0] - margin, min[1] - margin];
    let mut high = [max[0] + margin, max[1] + margin];
    if let Some((a, b)) = fold {
        let axis = usize::from((a[0] - b[0]).abs() > (a[1] - b[1]).abs());
        if a[axis] - min[axis] < max[axis] - a[axis] { low[axis] = a[axis] } else { high[axis] = a[axis] }
    }
    vec![low, [high[0], low[1]], high, [low[0], high[1]]]
}

/// Whether an outline is its own mirror image in the line along x through its middle, to a twentieth of a
/// millimetre.
pub(super) fn is_symmetric(outline: &[Point]) -> bool {
    let bounds = Bounds::of(outline);
    let twice = bounds.min[1] + bounds.max[1];
    outline.iter().all(|p| to_outline([p[0], twice - p[1]], outline) < ALIKE)
}

const ALIKE: f64 = 0.05;

fn to_outline(p: Point, outline: &[Point]) -> f64 {
    let n = outline.len();
    (0..n)
        .map(|i| {
            let (a, b) = (outline[i], outline[(i + 1) % n]);
            let d = [b[0] - a[0], b[1] - a[1]];
            let dd = d[0] * d[0] + d[1] * d[1];
            let t = if dd > 0.0 { ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / dd } else { 0.0 };
            let t = t.clamp(0.0, 1.0);
            let e = [a[0] + t * d[0] - p[0], a[1] + t * d[1] - p[1]];
            (e[0] * e[0] + e[1] * e[1]).sqrt()
        })
        .fold(f64::INFINITY, f64::min)
}

/// The upper half of a symmetric outline, and its edge along the middle line; nothing if the middle line
/// leaves the outline in between, so that the half would fall apart.
pub(super) fn upper_half(outline: &[Point]) -> Option<(Vec<Point>, (Point, Point))> {
    let bounds = Bounds::of(outline);
    let middle = (bounds.min[1] + bounds.max[1]) / 2.0;
    let n = outline.len();
    let above = |p: Point| p[1] > middle + NOTHING;
    let mut half = Vec::with_capacity(n);
    let mut ends = Vec::new();
    for i in 0..n {
        let (a, b) = (outline[i], outline[(i + 1) % n]);
        if above(a) {
            half.push(a);
        }
        if above(a) != above(b) {
            let t = ((middle - a[1]) / (b[1] - a[1])).clamp(0.0, 1.0);
            let at = [a[0] + t * (b[0] - a[0]), middle];
            half.push(at);
            ends.push(at);
        }
    }
    if let [a, b] = ends[..] { Some((half, (a, b))) } else { None }
}

#[cfg(test)]
mod tests {
    use super::{block, edge, is_symmetric, opened, over_the_fold, upper_half};
    use crate::lay::geom::signed_area;

    const HALF: [[f64; 2]; 4] = [[0.0, 0.0], [100.0, 0.0], [100.0, 40.0], [20.0, 60.0]];

    /// Closed form: the whole has twice the area of the half, and its own half is the half again.
    #[test]
    fn opened_and_halved_again() {
        let whole = opened(&HALF, 0);
        assert_eq!(whole.len(), 6);
        assert!((signed_area(&whole).abs() - 2.0 * signed_area(&HALF).abs()).abs() < 1e-9);
        assert!(is_symmetric(&whole));
        assert!((signed_area(&upper_half(&whole).expect("one half").0).abs() - signed_area(&HALF).abs()).abs() < 1e-9);
        assert!(!is_symmetric(&HALF));
    }

    #[test]
    fn a_fold_edge_has_everything_on_one_side() {
        let fold = edge(&HALF, 0).expect("an edge");
        assert!(over_the_fold(&HALF, fold) < 1e-12);
        let crooked = [[0.0, 0.0], [100.0, 0.0], [100.0, 40.0], [50.0, -7.0]];
        assert!((over_the_fold(&crooked, fold) - 7.0).abs() < 1e-9);
    }

    #[test]
    fn a_block_has_no_margin_at_the_fold() {
        let corners = block(&HALF, 10.0, edge(&HALF, 0));
        assert_eq!(corners, vec![[-10.0, 0.0], [110.0, 0.0], [110.0, 70.0], [-10.0, 70.0]]);
    }
}
