//! Sleeves as they hang, and wings over their heads.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::super::figure::Undrawable;
use super::super::geom::{beside, closed, flat, length, polyline, pt, real, spread, steps};
use super::super::look::Paint;
use super::super::pen::Pen;
use super::super::scene::Scene;
use super::piece::outline_box;

/// How much of half a sleeve's girth is seen from in front, between a flat tube (1) and a round one (2 / pi).
const SEEN: f64 = 0.72;
/// How far the arm leans out from the body.
const LEAN: f64 = -0.15;

/// One height of a sleeve: how far below its head, how wide it is seen, how far its middle has moved from that of the head.
struct Row {
    y: f64,
    wide: f64,
    bend: f64,
}

/// Left and right of an outline at a height.
fn across(parts: &[Vec<Point>], y: f64) -> Option<(f64, f64)> {
    let crossings = parts
        .iter()
        .flat_map(|part| part.windows(2))
        .filter(|w| (w[0].y > y) != (w[1].y > y))
        .map(|w| w[0].x + (w[1].x - w[0].x) * (y - w[0].y) / (w[1].y - w[0].y));
    let (low, high) = crossings.fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(x), b.max(x)));
    (high > low).then_some((low, high))
}

/// The rows of a sleeve: the widths of its pieces, wrists level, add up to its girth.
fn rows(pieces: &[BezPath]) -> Result<Vec<Row>, Undrawable> {
    let Some(first) = pieces.first() else { return Ok(Vec::new()) };
    let area = outline_box(first, "a sleeve")?;
    let mut parts = Vec::new();
    for piece in pieces {
        let own = outline_box(piece, "a sleeve")?;
        parts.push((flat(piece, 0.05), own.y1 - area.y1));
    }
    let mut rows = Vec::new();
    let mut start = None;
    for t in steps(110) {
        let y = area.y0 + area.height() * (0.001 + 0.998 * t);
        let Some((low, high)) = parts.first().and_then(|(part, _)| across(part, y)) else { continue };
        let more: f64 =
            parts.iter().skip(1).filter_map(|(part, lift)| across(part, y + lift)).map(|(a, b)| b - a).sum();
        let middle = f64::midpoint(low, high);
        let from = *start.get_or_insert(middle);
        rows.push(Row { y: y - area.y0, wide: (high - low + more) / 2.0 * SEEN, bend: (middle - from).abs() * 0.6 });
    }
    // A slanting wrist ends where its shorter side does.
    let full = rows.iter().find(|r| r.y > area.height() * 0.92).map_or(0.0, |r| r.wide);
    while rows.len() > 8 && rows.last().is_some_and(|r| r.wide < full * 0.9) {
        rows.pop();
    }
    Ok(rows)
}

/// The armhole a sleeve hangs from, on paper.
pub(crate) struct Armhole {
    /// The end of the shoulder.
    pub(crate) tip: Point,
    /// The seam from the shoulder down.
    pub(crate) seam: Vec<Point>,
    /// The underarm, on the silhouette.
    pub(crate) under: Point,
}

/// The sleeve hung from its armhole: folded round the arm, so half as wide as it lies flat, a little away from the body.
pub(crate) fn hang(
    s: &mut Scene,
    pieces: &[BezPath],
    hole: &Armhole,
    n: f64,
    mirror: Affine,
) -> Result<(), Undrawable> {
    let rows = rows(pieces)?;
    let widest = rows.iter().map(|r| r.wide).fold(0.0, f64::max);
    let deep = rows.iter().find(|r| r.wide > widest * 0.985).map_or(0.0, |r| r.y);
    let base = rows.iter().find(|r| r.y >= deep).map_or(0.0, |r| r.bend);
    let (mut outer, mut inside, mut seam) = (Vec::new(), Vec::new(), Vec::new());
    let turn = Affine::translate(hole.under.to_vec2()) * Affine::rotate(LEAN);
    if !rows.is_empty() {
        inside.push(mirror * (hole.tip + Vec2::new(-0.5, 0.0)));
        outer.push(mirror * hole.tip);
    }
    for r in &rows {
        let (a, b) = if r.y < deep {
            // Over the shoulder the head of the sleeve lies on the arm in one round line that goes on from the shoulder.
            let t = r.y / deep;
            let y = hole.tip.y + (hole.under.y - hole.tip.y) * t;
            let round = 0.62 * (1.0 - (1.0 - t).powi(2)).sqrt() + 0.38 * (t * std::f64::consts::FRAC_PI_2).sin();
            let edge = hole.seam.iter().find(|p| p.y >= y).unwrap_or(&hole.under).x;
            let far = turn * pt(widest / n, 0.0);
            (
                pt(edge.min(hole.under.x) - 0.5, y),
                pt(hole.tip.x + (far.x - hole.tip.x) * round, y + (far.y - hole.under.y) * t),
            )
        } else {
            let x = (widest - r.wide) * 0.42 - (r.bend - base).max(0.0);
            (turn * pt(x / n, (r.y - deep) / n), turn * pt((x + r.wide) / n, (r.y - deep) / n))
        };
        inside.push(mirror * a);
        outer.push(mirror * b);
        if r.y > deep * 0.8 {
            // The hind seam of two pieces is seen a little inside the outer line.
            seam.push(mirror * b.lerp(a, 0.15));
        }
    }
    let (Some(top), Some(end), Some(low)) = (inside.first(), outer.last(), inside.last()) else { return Ok(()) };
    let hem: Vec<Point> =
        steps(12).map(|t| end.lerp(*low, t) + Vec2::new(0.0, 1.3 * (t * std::f64::consts::PI).sin())).collect();
    let mut body = outer.clone();
    body.extend(&hem);
    body.extend(inside.iter().rev());
    body.push(*top);
    s.fill(closed(&body), Paint::Tint);
    let right = end.x > low.x;
    let (dark, light) = if right { (&outer, &inside) } else { (&inside, &outer) };
    let strip: Vec<Point> = dark.iter().zip(light).map(|(d, o)| d.lerp(*o, 0.24)).collect();
    s.fill(closed(&dark.iter().chain(strip.iter().rev()).copied().collect::<Vec<_>>()), Paint::Half);
    if pieces.len() > 1 {
        s.brush(&seam, |t| 0.2 + 0.14 * (t * std::f64::consts::PI).sin());
    }
    s.brush(&outer, |_| 0.55);
    s.brush(&inside, |_| 0.5);
    s.brush(&hem, |_| 0.5);
    creases(s, &inside, &outer);
    Ok(())
}

/// Creases at the bend of the elbow.
fn creases(s: &mut Scene, inside: &[Point], outer: &[Point]) {
    let bend = inside.len() * 11 / 20;
    for i in 0..3 {
        let at = (bend + i * 3).min(inside.len().saturating_sub(1));
        let (Some(a), Some(b)) = (inside.get(at), outer.get(at)) else { continue };
        let points: Vec<Point> =
            steps(8).map(|t| a.lerp(*b, t * (0.4 - 0.07 * real(i))) + Vec2::new(0.0, -1.6 * t + 1.2 * t * t)).collect();
        s.brush(&points, |t| 0.3 * (1.0 - t) + 0.02);
    }
}

/// A wing: a crescent that stands out over the head of the sleeve, from before the shoulder down the armhole.
pub(crate) fn wing(s: &mut Scene, armhole: &[Point], depth: f64, mirror: Affine) {
    let path = polyline(armhole);
    let reach = length(&path) * 0.62;
    let inner: Vec<Point> = spread(&path, 0.4)
        .into_iter()
        .scan((0.0, None::<Point>), |(gone, last), p| {
            *gone += last.map_or(0.0, |q: Point| (p - q).hypot());
            *last = Some(p);
            Some((*gone, p))
        })
        .take_while(|(gone, _)| *gone <= reach)
        .map(|(_, p)| p)
        .collect();
    if inner.len() < 4 {
        return;
    }
    // Widest at the shoulder, dying away toward the underarm; it stands up a little at its outer edge.
    let out = beside(&inner, -1.0);
    let last = real(inner.len() - 1);
    let outer: Vec<Point> = inner
        .iter()
        .zip(&out)
        .enumerate()
        .map(|(i, (p, q))| {
            let t = real(i) / last;
            let deep = depth * (1.0 - t.powf(1.7)).max(0.0).powf(0.75) * 0.92;
            let side = if (*q - *p).x >= 0.0 { *q - *p } else { *p - *q };
            *p + side * deep + Vec2::new(0.0, -deep * 0.16)
        })
        .collect();
    let turned = |points: &[Point]| points.iter().map(|p| mirror * *p).collect::<Vec<_>>();
    let (inner, outer) = (turned(&inner), turned(&outer));
    let mut area = inner.clone();
    area.extend(outer.iter().rev());
    s.fill(closed(&area), Paint::Tint);
    let shadow: Vec<Point> = inner.iter().zip(&outer).map(|(p, q)| p.lerp(*q, 0.3)).collect();
    s.fill(closed(&inner.iter().chain(shadow.iter().rev()).copied().collect::<Vec<_>>()), Paint::Half);
    s.brush(&outer, |_| 0.55);
    s.brush(&inner, |_| 0.4);
    if let (Some(a), Some(b)) = (inner.first(), outer.first()) {
        s.stroke(polyline(&[*a, *b]), Pen::FOLD);
    }
}
