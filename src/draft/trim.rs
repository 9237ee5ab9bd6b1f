//! Allowances that run into each other: the union of the piece and its strips.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use kurbo::Point;

use super::offset::{NoCutLine, Side};
use super::path::Path;

/// How near straight pieces keep to curves where trimming needs them, mm.
const FLAT: f64 = 0.01;
/// Crumbs and slits smaller than this are none, mm².
const CRUMB: f64 = 0.5;

/// The outline about a piece, a strip of allowance along each of its edges, and the corners between them.
pub(super) fn by_union(sides: &[Side], lines: &[Path], wedges: Vec<Vec<Point>>) -> Result<Path, NoCutLine> {
    if sides.iter().any(|side| side.width < 0.0) {
        return Err(NoCutLine::FallsApart);
    }
    let mut shapes: Vec<Vec<[f64; 2]>> = Vec::new();
    let body: Vec<Point> = sides.iter().flat_map(|side| side.path.flat(FLAT)).collect();
    shapes.push(corners(&body));
    let n = sides.len();
    for i in 0..n {
        if sides[i].width <= 0.0 {
            continue;
        }
        let mut strip = sides[i].path.flat(FLAT);
        strip.extend(lines[i].flat(FLAT).into_iter().rev());
        shapes.push(corners(&strip));
    }
    shapes.extend(wedges.iter().map(|wedge| corners(wedge)).filter(|wedge| wedge.len() > 2));
    for shape in &mut shapes {
        if area(shape) < 0.0 {
            shape.reverse();
        }
    }
    let mut union = shapes.simplify_shape_as::<i64>(FillRule::NonZero);
    union.retain(|shape| shape.first().is_some_and(|outer| area(outer).abs() > CRUMB));
    let [shape] = union.as_slice() else {
        return Err(if union.is_empty() { NoCutLine::Nothing } else { NoCutLine::FallsApart });
    };
    if shape.iter().skip(1).any(|hole| area(hole).abs() > CRUMB) {
        return Err(NoCutLine::FallsApart);
    }
    let Some(outer) = shape.first() else { return Err(NoCutLine::Nothing) };
    let mut points: Vec<Point> = outer.iter().map(|[x, y]| Point::new(*x, *y)).collect();
    if area(outer) < 0.0 {
        points.reverse();
    }
    if let Some(first) = points.first().copied() {
        points.push(first);
    }
    Ok(Path::straight(&points))
}

fn corners(points: &[Point]) -> Vec<[f64; 2]> {
    let mut corners: Vec<[f64; 2]> = Vec::with_capacity(points.len());
    for p in points {
        if corners.last().is_none_or(|last| (last[0] - p.x).hypot(last[1] - p.y) > 1e-6) {
            corners.push([p.x, p.y]);
        }
    }
    corners
}

fn area(points: &[[f64; 2]]) -> f64 {
    let n = points.len();
    (0..n).map(|i| points[i][0] * points[(i + 1) % n][1] - points[(i + 1) % n][0] * points[i][1]).sum::<f64>() / 2.0
}
