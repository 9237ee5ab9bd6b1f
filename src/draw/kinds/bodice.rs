//! Views of a bodice, front and back, from its own outlines.

use kurbo::{Affine, BezPath, Point, Shape, Vec2};

use super::super::figure::{Drawn, KeyEntry, Scale, Undrawable};
use super::super::geom::{closed, flat, line, pt, spread, steps};
use super::super::look::{Look, Paint};
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::many;
use super::piece::outline_box;
use super::skirt::View;

/// A bodice as it is worn, one half given; the other is its mirror image.
#[derive(Debug, Clone, PartialEq)]
pub struct BodiceView {
    /// What it is: `bodice`.
    pub name: String,
    /// Front or back.
    pub view: View,
    /// Outline of one half on its seam lines, closed, mm: the centre at x = 0, the other points at x above 0, y down.
    pub half: BezPath,
    /// Seams within the half.
    pub seams: Vec<BezPath>,
    /// Where the sleeve hangs from: the end of the shoulder, mm.
    pub shoulder: Option<Point>,
    /// Sleeve outline on its seam lines, laid flat, centre of its head at x = 0, y down from the head.
    pub sleeve: Option<BezPath>,
    /// Distances of buttons, hooks or lacing holes down the centre from the top of the half, mm; empty where it is closed.
    pub closures: Vec<f64>,
    /// Lower edge of the half, from the centre outward, where it is piped.
    pub piped: Option<BezPath>,
    /// Height of the drawing, mm.
    pub height: f64,
}

/// A bodice as it is worn.
///
/// # Errors
/// Where an outline encloses nothing or a place is not finite.
pub fn bodice_view(input: &BodiceView, look: &Look) -> Drawn {
    let area = outline_box(&input.half, "half a bodice")?;
    if !(15.0..=400.0).contains(&input.height) {
        return Err(Undrawable(format!("expected a drawing 15 to 400 mm high, but found {}", input.height)));
    }
    if input.closures.iter().any(|c| !c.is_finite()) || input.shoulder.is_some_and(|p| !p.is_finite()) {
        return Err(Undrawable("expected places at finite distances".into()));
    }
    let n = area.height() / input.height;
    let to = Affine::scale(1.0 / n) * Affine::translate((0.0, -area.y0));
    let flip = Affine::scale_non_uniform(-1.0, 1.0);
    let mut s = Scene::new(look);
    s.uses(KeyEntry::RightSide);
    if let (Some(sleeve), Some(shoulder)) = (&input.sleeve, input.shoulder) {
        outline_box(sleeve, "a sleeve")?;
        for mirror in [Affine::IDENTITY, flip] {
            hang(&mut s, sleeve, to * shoulder, n, mirror);
        }
    }
    let half = to * input.half.clone();
    if input.view == View::Front {
        back_neck(&mut s, &half);
    }
    for (mirror, dark) in [(Affine::IDENTITY, true), (flip, false)] {
        let path = mirror * half.clone();
        s.fill(path.clone(), Paint::Tint);
        shade(&mut s, &path, dark);
        for seam in &input.seams {
            let points = spread(&(mirror * (to * seam.clone())), 0.5);
            s.brush(&points, |t| 0.2 + 0.22 * (t * std::f64::consts::PI).sin());
        }
        outline(&mut s, &path);
    }
    creases(&mut s, &half);
    closures(&mut s, input, &half, n);
    piped(&mut s, input, to);
    s.finish(words(input), Scale::NotToScale)
}

/// The inside of the back, seen over the front neck.
fn back_neck(s: &mut Scene, half: &BezPath) {
    let points = flat(half, 0.03).concat();
    let on_centre = points.iter().filter(|p| p.x.abs() < 0.05).map(|p| p.y).fold(f64::INFINITY, f64::min);
    let Some(top) = points.iter().copied().min_by(|a, b| a.y.total_cmp(&b.y)) else { return };
    if !on_centre.is_finite() || on_centre - top.y < 2.0 {
        return;
    }
    let sag = (on_centre - top.y) * 0.28;
    let arc: Vec<Point> = steps(24)
        .map(|t| pt(top.x * (2.0 * t - 1.0), top.y + sag * (t * std::f64::consts::PI).sin().powf(0.8)))
        .collect();
    let mut area = arc.clone();
    area.extend([pt(top.x, on_centre), pt(-top.x, on_centre)]);
    s.fill(closed(&area), Paint::Pale);
    s.brush(&arc, |_| 0.4);
}

/// A piping along the lower edge of both halves.
fn piped(s: &mut Scene, input: &BodiceView, to: Affine) {
    let Some(edge) = &input.piped else { return };
    for mirror in [Affine::IDENTITY, Affine::scale_non_uniform(-1.0, 1.0)] {
        let mut upper = spread(&(mirror * (to * edge.clone())), 0.5);
        upper.sort_by(|a, b| a.x.total_cmp(&b.x));
        let lower = super::super::geom::beside(&upper, 1.0);
        s.fill(closed(&upper.iter().chain(lower.iter().rev()).copied().collect::<Vec<_>>()), Paint::White);
        s.brush(&upper, |_| 0.4);
        s.brush(&lower, |_| 0.4);
        for (p, q) in upper.iter().zip(&lower).skip(3).step_by(3) {
            s.stroke(line(*p + (*q - *p) * 0.25, *p + (*q - *p) * 0.75 + Vec2::new(0.45, 0.0)), Pen::TICK);
        }
    }
}

/// The side away from the light, and a soft modelling toward it.
fn shade(s: &mut Scene, path: &BezPath, dark: bool) {
    let area = path.bounding_box();
    let parts = flat(path, 0.02);
    let width = area.width() * if dark { 0.2 } else { 0.09 };
    // A strip along the outer edge, found row by row.
    let (mut outer, mut inner) = (Vec::new(), Vec::new());
    for t in steps(60) {
        let y = area.y0 + area.height() * (0.004 + 0.992 * t);
        let mut crossings: Vec<f64> = Vec::new();
        for part in &parts {
            for pair in part.windows(2) {
                let (a, b) = (pair[0], pair[1]);
                if (a.y > y) != (b.y > y) {
                    crossings.push(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
                }
            }
        }
        let side = crossings.iter().copied().max_by(|a, b| a.abs().total_cmp(&b.abs()));
        let near = crossings.iter().copied().min_by(|a, b| a.abs().total_cmp(&b.abs()));
        if let (Some(x), Some(near)) = (side, near) {
            outer.push(pt(x, y));
            let strip = (width * (0.4 + 0.6 * (t * std::f64::consts::PI).sin())).min((x - near).abs());
            inner.push(pt(x - strip * x.signum(), y));
        }
    }
    if outer.len() > 3 {
        s.fill(closed(&outer.iter().chain(inner.iter().rev()).copied().collect::<Vec<_>>()), Paint::Half);
    }
}

/// The outline, without the line down the centre.
fn outline(s: &mut Scene, path: &BezPath) {
    for part in flat(path, 0.03) {
        let mut run: Vec<Point> = Vec::new();
        let mut runs: Vec<Vec<Point>> = Vec::new();
        for pair in part.windows(2) {
            let central = pair[0].x.abs() < 0.05 && pair[1].x.abs() < 0.05;
            if central {
                if run.len() > 1 {
                    runs.push(std::mem::take(&mut run));
                }
                run.clear();
            } else {
                if run.is_empty() {
                    run.push(pair[0]);
                }
                run.push(pair[1]);
            }
        }
        if run.len() > 1 {
            runs.push(run);
        }
        for run in runs {
            s.brush(&run, |_| 0.55);
        }
    }
}

/// A few short lines at the waist, where cloth gives.
fn creases(s: &mut Scene, half: &BezPath) {
    let area = half.bounding_box();
    for (i, sign) in [(0.0, 1.0), (1.0, -1.0), (2.0, 1.0)] {
        let y = area.y0 + area.height() * (0.62 + 0.05 * i);
        let x = area.x1 * 0.66 * sign;
        let points: Vec<Point> =
            steps(8).map(|t| pt(x - sign * t * area.width() * 0.16, y + t * t * 1.6 - t * 1.0)).collect();
        s.brush(&points, |t| 0.26 * (1.0 - t) + 0.02);
    }
}

fn closures(s: &mut Scene, input: &BodiceView, half: &BezPath, n: f64) {
    let area = half.bounding_box();
    let top =
        flat(half, 0.03).concat().into_iter().filter(|p| p.x.abs() < 0.05).map(|p| p.y).fold(f64::INFINITY, f64::min);
    let low = flat(half, 0.03)
        .concat()
        .into_iter()
        .filter(|p| p.x.abs() < 0.05)
        .map(|p| p.y)
        .fold(f64::NEG_INFINITY, f64::max);
    if !top.is_finite() || input.closures.is_empty() {
        return;
    }
    s.stroke(line(pt(0.0, top), pt(0.0, low)), Pen::FOLD);
    for place in &input.closures {
        let y = top + place / n;
        if y < top || y > low || y > area.y1 {
            continue;
        }
        s.fill(super::super::geom::circle(pt(0.9, y), 0.75), Paint::White);
        s.stroke(super::super::geom::circle(pt(0.9, y), 0.75), Pen::THIN);
    }
}

/// How much of half a sleeve's girth is seen from in front, between a flat tube (1) and a round one (2 / pi).
const SEEN: f64 = 0.8;

/// The sleeve hung from the shoulder: folded round the arm, so half as wide as it lies flat, a little away from the body.
fn hang(s: &mut Scene, sleeve: &BezPath, shoulder: Point, n: f64, mirror: Affine) {
    let area = sleeve.bounding_box();
    let parts = flat(sleeve, 0.05);
    // Half the flat width row by row.
    let rows: Vec<(f64, f64)> = steps(90)
        .map(|t| area.y0 + area.height() * (0.001 + 0.998 * t))
        .filter_map(|y| {
            let crossings: Vec<f64> = parts
                .iter()
                .flat_map(|part| part.windows(2))
                .filter(|w| (w[0].y > y) != (w[1].y > y))
                .map(|w| w[0].x + (w[1].x - w[0].x) * (y - w[0].y) / (w[1].y - w[0].y))
                .collect();
            let (low, high) = crossings.iter().fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(*x), b.max(*x)));
            (high > low).then_some((y - area.y0, (high - low) / 2.0 * SEEN))
        })
        .collect();
    let widest = rows.iter().map(|r| r.1).fold(0.0, f64::max);
    let under = rows.iter().find(|r| r.1 > widest * 0.985).map_or(0.0, |r| r.0);
    let lean = -0.15;
    let place =
        Affine::translate(shoulder.to_vec2() + Vec2::new(-0.6, 0.0)) * Affine::rotate(lean) * Affine::scale(1.0 / n);
    let inner = |y: f64, w: f64| if y < under { 0.0 } else { (widest - w) * 0.42 };
    let set = |p: Point| mirror * (place * p);
    // Over the shoulder the head of the sleeve lies on the arm in one round line.
    let round =
        |y: f64, w: f64| if y < under { widest * (1.0 - (1.0 - y / under).powf(2.4)).max(0.0).powf(0.72) } else { w };
    let outer: Vec<Point> = rows.iter().map(|(y, w)| set(pt(inner(*y, *w) + round(*y, *w), *y))).collect();
    let inside: Vec<Point> = rows.iter().map(|(y, w)| set(pt(inner(*y, *w), *y))).collect();
    let (Some(top), Some(end), Some(low)) = (inside.first(), outer.last(), inside.last()) else { return };
    let hem: Vec<Point> =
        steps(12).map(|t| end.lerp(*low, t) + Vec2::new(0.0, 1.3 * (t * std::f64::consts::PI).sin())).collect();
    let mut body = outer.clone();
    body.extend(&hem);
    body.extend(inside.iter().rev());
    body.push(*top);
    // The gusset of shadow behind the armhole.
    s.fill(closed(&body), Paint::Tint);
    let right = outer.last().zip(inside.last()).is_some_and(|(a, b)| a.x > b.x);
    let dark = if right { &outer } else { &inside };
    let strip: Vec<Point> =
        dark.iter().zip(if right { &inside } else { &outer }).map(|(d, o)| d.lerp(*o, 0.24)).collect();
    s.fill(closed(&dark.iter().chain(strip.iter().rev()).copied().collect::<Vec<_>>()), Paint::Half);
    s.brush(&outer, |_| 0.55);
    s.brush(&inside, |_| 0.5);
    s.brush(&hem, |_| 0.5);
    // Creases at the bend of the elbow.
    let bend = rows.len() * 3 / 5;
    for i in 0..3 {
        let at = (bend + i * 3).min(rows.len() - 1);
        let (a, b) = (inside[at], outer[at]);
        let points: Vec<Point> = steps(8)
            .map(|t| a.lerp(b, t * (0.4 - 0.07 * super::super::geom::real(i))) + Vec2::new(0.0, -1.6 * t + 1.2 * t * t))
            .collect();
        s.brush(&points, |t| 0.3 * (1.0 - t) + 0.02);
    }
}

fn words(input: &BodiceView) -> Words {
    let side = if input.view == View::Front { "front" } else { "back" };
    let seams = if input.seams.is_empty() {
        String::new()
    } else {
        format!(
            " {} each side of the centre shape it.",
            super::super::words::capital(&many(input.seams.len(), "seam on", "seams on"))
        )
    };
    let sleeves = if input.sleeve.is_some() { " Sleeves hang from the armholes." } else { "" };
    let closing = if input.closures.is_empty() {
        " The centre is whole.".to_string()
    } else {
        format!(" It closes down the centre at {}.", many(input.closures.len(), "place", "places"))
    };
    Words {
        caption: format!("The {} from the {side}, drawn from its own pieces.", input.name),
        alt: format!(
            "The {} as it is worn, seen from the {side}, both halves alike.{seams}{sleeves}{closing}",
            input.name
        ),
    }
}
