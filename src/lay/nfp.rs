//! No-fit polygons: where one shape may not stand beside another.
//!
//! The no-fit polygon of `a` and `b` is the set of places `t` at which `b`, moved by `t`, overlaps `a`: the
//! Minkowski sum of `a` and `-b`. It is put together from what it consists of: the sweep of every edge
//! of `a` along every edge of `-b` (parallelograms), `a` itself carried by one corner of `-b` and `-b` carried
//! by one corner of `a`. Shapes without a hollow go the short way: their edges merged by direction.
//!
//! All shapes live on one fixed grid ([`GRID`] steps to the millimetre), so sums of corners are exact, and
//! a pair gives the same polygon whatever else is on the cloth. Only crossings of edges are rounded, to
//! a sixteenth of a step.

use crate::lay::geom::Point;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

/// Grid steps to a millimetre for the corners of shapes.
pub(crate) const GRID: f64 = 4096.0;

/// A corner in grid steps.
pub(crate) type Corner = [i64; 2];

/// Finer steps to a grid step, for crossings of edges.
const FINE: i64 = 16;

/// The outline on the grid, anticlockwise, no repeated and no straight corners, lower left of its box at the
/// origin, beginning at its least corner: equal for outlines that differ only in where they stand or begin.
pub(crate) fn on_grid(outline: &[Point]) -> Vec<Corner> {
    let snap = |v: f64| (v * GRID).round() as i64;
    let mut corners: Vec<Corner> = outline.iter().map(|p| [snap(p[0]), snap(p[1])]).collect();
    if twice_area(&corners) < 0 {
        corners.reverse();
    }
    // One at a time: of two equal corners each looks needless beside the other, and one must stay.
    let mut at = 0;
    let mut kept = 0;
    while corners.len() > 3 && kept < corners.len() {
        let n = corners.len();
        if turn(corners[(at + n - 1) % n], corners[at % n], corners[(at + 1) % n]) == 0 {
            corners.remove(at % n);
            at = (at % n + n - 2) % (n - 1);
            kept = 0;
        } else {
            at = (at + 1) % n;
            kept += 1;
        }
    }
    let low = [0, 1].map(|axis| corners.iter().map(|c| c[axis]).min().unwrap_or(0));
    for c in &mut corners {
        *c = [c[0] - low[0], c[1] - low[1]];
    }
    normal_start(&mut corners);
    corners
}

/// Begin at the least corner.
pub(crate) fn normal_start(corners: &mut [Corner]) {
    if let Some(least) = (0..corners.len()).min_by_key(|&i| corners[i]) {
        corners.rotate_left(least);
    }
}

/// Twice the signed area in square steps.
pub(crate) fn twice_area(corners: &[Corner]) -> i64 {
    let n = corners.len();
    (0..n)
        .map(|i| {
            let (a, b) = (corners[i], corners[(i + 1) % n]);
            a[0] * b[1] - b[0] * a[1]
        })
        .sum()
}

fn turn(a: Corner, b: Corner, c: Corner) -> i64 {
    cross([b[0] - a[0], b[1] - a[1]], [c[0] - b[0], c[1] - b[1]])
}

fn cross(u: Corner, v: Corner) -> i64 {
    u[0] * v[1] - u[1] * v[0]
}

/// Contours (outer ones anticlockwise, holes clockwise) of the no-fit polygon of two anticlockwise shapes, mm.
pub(crate) fn no_fit(a: &[Corner], b: &[Corner]) -> Vec<Vec<Point>> {
    let minus: Vec<Corner> = b.iter().map(|c| [-c[0], -c[1]]).collect();
    if is_convex(a) && is_convex(&minus) {
        let sum = convex_sum(a, &minus);
        return vec![sum.iter().map(|c| [c[0] as f64 / GRID, c[1] as f64 / GRID]).collect()];
    }
    let mut overlay = Overlay::<i64>::new(4 * a.len() * b.len() + a.len() + b.len());
    let mut add = |contour: &[Corner]| {
        let points: Vec<IntPoint<i64>> = contour.iter().map(|c| IntPoint::new(c[0] * FINE, c[1] * FINE)).collect();
        overlay.add_contour(&points, ShapeType::Subject);
    };
    add(&carried(a, minus[0]));
    add(&carried(&minus, a[0]));
    for (i, p) in a.iter().enumerate() {
        let u = difference(a[(i + 1) % a.len()], *p);
        for (j, q) in minus.iter().enumerate() {
            let v = difference(minus[(j + 1) % minus.len()], *q);
            let s = [p[0] + q[0], p[1] + q[1]];
            let (su, sv) = ([s[0] + u[0], s[1] + u[1]], [s[0] + v[0], s[1] + v[1]]);
            let far = [su[0] + v[0], su[1] + v[1]];
            match cross(u, v).signum() {
                1 => add(&[s, su, far, sv]),
                -1 => add(&[s, sv, far, su]),
                _ => {}
            }
        }
    }
    let to_mm = |v: i64| v as f64 / (GRID * FINE as f64);
    overlay
        .overlay(OverlayRule::Subject, FillRule::NonZero)
        .iter()
        .flatten()
        .map(|contour| contour.iter().map(|p| [to_mm(p.x), to_mm(p.y)]).collect())
        .collect()
}

fn difference(a: Corner, b: Corner) -> Corner {
    [a[0] - b[0], a[1] - b[1]]
}

fn carried(corners: &[Corner], by: Corner) -> Vec<Corner> {
    corners.iter().map(|c| [c[0] + by[0], c[1] + by[1]]).collect()
}

fn is_convex(corners: &[Corner]) -> bool {
    let n = corners.len();
    (0..n).all(|i| turn(corners[i], corners[(i + 1) % n], corners[(i + 2) % n]) > 0)
        && (1..n - 1).all(|i| turn(corners[0], corners[i], corners[i + 1]) > 0)
}

/// Minkowski sum of two shapes without hollows: their edges in the order of their directions.
fn convex_sum(a: &[Corner], b: &[Corner]) -> Vec<Corner> {
    let lowest = |c: &[Corner]| (0..c.len()).min_by_key(|&i| (c[i][1], c[i][0])).unwrap_or(0);
    let (sa, sb) = (lowest(a), lowest(b));
    let edge = |c: &[Corner], start: usize, i: usize| {
        let at = (start + i) % c.len();
        difference(c[(at + 1) % c.len()], c[at])
    };
    let mut here = [a[sa][0] + b[sb][0], a[sa][1] + b[sb][1]];
    let mut sum = Vec::with_capacity(a.len() + b.len());
    let (mut i, mut j) = (0, 0);
    while i < a.len() || j < b.len() {
        sum.push(here);
        let (u, v) = (edge(a, sa, i), edge(b, sb, j));
        let side = if i >= a.len() {
            -1
        } else if j >= b.len() {
            1
        } else {
            before(u, v)
        };
        if side >= 0 {
            here = [here[0] + u[0], here[1] + u[1]];
            i += 1;
        }
        if side <= 0 {
            here = [here[0] + v[0], here[1] + v[1]];
            j += 1;
        }
    }
    sum
}

/// 1 if direction `u` comes before `v` on the way round from the positive x axis, 0 if they agree.
fn before(u: Corner, v: Corner) -> i64 {
    let upper = |w: Corner| w[1] > 0 || (w[1] == 0 && w[0] > 0);
    match (upper(u), upper(v)) {
        (true, false) => 1,
        (false, true) => -1,
        _ => cross(u, v).signum(),
    }
}

#[cfg(test)]
mod tests {
    use super::{GRID, no_fit, on_grid};
    use crate::lay::geom::signed_area;

    fn area(contours: &[Vec<[f64; 2]>]) -> f64 {
        contours.iter().map(|c| signed_area(c)).sum()
    }

    /// Closed form: the sum of two rectangles is a rectangle of added sides.
    #[test]
    fn rectangles() {
        let a = on_grid(&[[10.0, 0.0], [40.0, 0.0], [40.0, 20.0], [10.0, 20.0]]);
        let b = on_grid(&[[0.0, 5.0], [0.0, 0.0], [7.0, 0.0], [7.0, 5.0]]);
        assert!((area(&no_fit(&a, &b)) - 37.0 * 25.0).abs() < 1e-9);
    }

    /// Closed form: area of a sum of convex shapes is A + B + 2 V, for a square s and the same square turned
    /// by 45 degrees (diagonal d): A = s², B = d²/2, mixed term 2 s d.
    #[test]
    fn square_and_diamond() {
        let square = on_grid(&[[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]]);
        let diamond = on_grid(&[[3.0, 0.0], [6.0, 3.0], [3.0, 6.0], [0.0, 3.0]]);
        assert!((area(&no_fit(&square, &diamond)) - (16.0 + 18.0 + 2.0 * 4.0 * 6.0)).abs() < 1e-9);
    }

    /// A square in a U-shape with room to spare leaves a hollow of (room - side) squared free places.
    #[test]
    fn hollow_keeps_its_free_places() {
        let frame = on_grid(&[
            [0.0, 0.0],
            [10.0, 0.0],
            [10.0, 10.0],
            [5.01, 10.0],
            [5.01, 8.0],
            [8.0, 8.0],
            [8.0, 2.0],
            [2.0, 2.0],
            [2.0, 8.0],
            [4.99, 8.0],
            [4.99, 10.0],
            [0.0, 10.0],
        ]);
        let small = on_grid(&[[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]]);
        let contours = no_fit(&frame, &small);
        assert_eq!(contours.len(), 2, "an outer contour and a hollow");
        assert!((area(&contours) - (14.0 * 14.0 - 2.0 * 2.0)).abs() < 1e-6);
    }

    #[test]
    fn repeated_and_straight_corners_go_and_no_others() {
        let plain = on_grid(&[[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]);
        let again = on_grid(&[
            [0.0, 0.0],
            [0.0, 0.0],
            [4.0, 0.0],
            [4.0, 0.0],
            [4.0, 0.0],
            [4.0, 1.0],
            [4.0, 3.0],
            [0.0, 3.0],
            [0.0, 2.0],
            [0.0, 0.0],
        ]);
        assert_eq!(plain.len(), 4);
        assert_eq!(plain, again);
    }

    #[test]
    fn the_same_outline_wherever_it_stands() {
        let a = on_grid(&[[0.0, 0.0], [2.0, 0.0], [3.0, 0.0], [3.0, 1.0]]);
        let b = on_grid(&[[13.0, 8.0], [13.0, 7.0], [12.0, 7.0], [10.0, 7.0]]);
        assert_eq!(a, b);
        assert_eq!(a[1][0], (3.0 * GRID) as i64);
    }
}
