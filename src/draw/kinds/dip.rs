//! The dip: how the curve of a waist that comes to a point lies on the flat panel, stretched by the fullness.

use kurbo::Point;

use crate::units::{Length, Ratio};

use super::super::figure::{Anchor, Drawn, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{along, closed, length, line, polyline, pt, real, smooth};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{counted, scale_for, sound};

/// A dipped waist seam and the straight panel it is laid on.
#[derive(Debug, Clone, PartialEq)]
pub struct DipFigure {
    /// The seam of the band or bodice from the centre outward: distance from the centre, and drop below the level waist.
    /// The first drop is the deepest.
    pub seam: Vec<(Length, Length)>,
    /// Depth of the dip at the centre.
    pub depth: Measure,
    /// Half the width of the dip, straight across.
    pub span: Measure,
    /// Half the dip along its curve.
    pub arc: Measure,
    /// Half the dip on the flat panel.
    pub stretched: Measure,
    /// Cloth a unit of seam.
    pub ratio: Ratio,
    /// Allowance above the seam line on the panel.
    pub allowance: Measure,
    /// What the panel meets: `waistband`, `bodice`.
    pub meets: String,
}

/// The seam and the panel, both to one scale, with stations that will meet.
///
/// # Errors
/// Where a length is nothing or not finite, the seam has fewer than two points or runs backward, or the ratio is below 1.
pub fn dip(input: &DipFigure, look: &Look) -> Drawn {
    sound(&[
        ("depth", input.depth.length),
        ("span", input.span.length),
        ("arc", input.arc.length),
        ("stretched", input.stretched.length),
        ("allowance", input.allowance.length),
    ])?;
    counted("seam", input.seam.len(), 2, 10_000)?;
    let ratio = input.ratio.base();
    if !ratio.is_finite() || !(1.0..=40.0).contains(&ratio) {
        return Err(Undrawable(format!("expected a ratio from 1 to 40, but found {ratio}")));
    }
    let points: Vec<Point> = input.seam.iter().map(|(x, y)| pt(x.to_mm(), y.to_mm())).collect();
    if points.iter().any(|p| !p.is_finite()) || points.windows(2).any(|w| w[1].x < w[0].x) {
        return Err(Undrawable("expected a seam that runs outward from the centre, but it turns back".into()));
    }
    // Distance along the seam at each of its points.
    let mut arc = vec![0.0];
    for pair in points.windows(2) {
        arc.push(arc.last().copied().unwrap_or(0.0) + pair[0].distance(pair[1]));
    }
    let total = arc.last().copied().unwrap_or(0.0);
    let drop = points.iter().map(|p| p.y).fold(0.0, f64::max);
    let flat_wide = total * ratio;
    let n = scale_for(flat_wide * 1.08, drop * 2.0 + 260.0, (124.0, 90.0));
    let mut s = Scene::new(look);
    let seam = polyline(&points.iter().map(|p| pt(p.x / n, p.y / n)).collect::<Vec<_>>());
    let flat: Vec<Point> = points.iter().zip(&arc).map(|(p, u)| pt(u * ratio / n, p.y / n)).collect();
    let band_height = 9.0;
    draw_band(&mut s, &seam, band_height);
    let gap = drop / n + 24.0;
    let shift = kurbo::Affine::translate((0.0, gap));
    let lower = shift * polyline(&flat);
    draw_panel(
        &mut s,
        &flat,
        gap,
        (flat_wide / n + (flat_wide * 0.06 / n).max(7.0), (drop / n + 14.0).max(20.0)),
        input.allowance.mm() / n,
    );
    s.named(lower.clone(), Pen { width: 0.35, ..Pen::SEAM }, "stretched");
    s.uses(super::super::figure::KeyEntry::SeamLine);
    let numbered = stations(&mut s, &seam, &lower);
    let end = points.last().copied().unwrap_or_default();
    s.dim(
        pt(0.0, -band_height),
        pt(end.x / n, -band_height),
        -3.5,
        format!("{} straight across,\n{} along the curve", look.set(&input.span), look.set(&input.arc)),
    );
    s.dim(pt(0.0, drop / n), pt(0.0, 0.0), -6.0, look.two(&input.depth));
    s.dim(pt(0.0, gap + drop / n), pt(0.0, gap), -6.0, look.two(&input.depth));
    let foot = gap + (drop / n + 14.0).max(20.0);
    s.dim(pt(flat_wide / n, foot + 0.8), pt(0.0, foot + 0.8), -4.0, look.set(&input.stretched));
    let beside = end.x / n + 14.0;
    s.note_room = 34.0;
    s.pointer(
        pt(beside, -band_height * 0.6),
        Anchor::Start,
        pt(end.x / n + 3.0, -band_height * 0.6),
        format!("{}, right side", input.meets),
    );
    s.note_room = 27.0;
    s.note(Side::Right, pt(flat_wide / n + 4.5, gap + 9.0), "skirt panel, wrong side");
    s.note(
        Side::Right,
        pt(flat_wide / n + 5.5, gap - input.allowance.mm() / n),
        format!("cut here: {} above the seam line", look.set(&input.allowance)),
    );
    s.text(pt(-1.0, foot + 3.4), Anchor::End, LabelStyle::Plain, "centre");
    let times = super::super::render::number((ratio * 100.0).round() / 100.0);
    let caption = format!(
        "The dip laid on the flat panel: every distance along the seam is taken {times} times, the drop stays as it is. \
         {} on the {} meets its like on the panel.",
        if numbered { "Each number" } else { "Counted from the centre, each point" },
        input.meets
    );
    let alt = format!(
        "Above, half of the {} from the centre outward: its seam dips {} at the centre and is level {} further out, {} along the \
         curve. Below, to the same scale, the flat skirt panel: the same drop of {} at the centre, but the curve runs out over \
         {} before it is level, {times} times as far along. The panel is cut {} above that line. Five points{} stand on \
         both curves at equal parts of the seam; each meets its like when the skirt is drawn up. The hem of the panel stays straight.",
        input.meets,
        look.say(&input.depth),
        look.say(&input.span),
        look.say(&input.arc),
        look.say(&input.depth),
        look.say(&input.stretched),
        look.say(&input.allowance),
        if numbered { ", numbered from the centre," } else { "" }
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

fn draw_band(s: &mut Scene, seam: &kurbo::BezPath, height: f64) {
    let points = super::super::geom::spread(seam, 0.5);
    let end = points.last().copied().unwrap_or_default();
    let mut area = points.clone();
    area.push(pt(end.x + 8.0, end.y));
    area.push(pt(end.x + 8.0, -height));
    area.push(pt(0.0, -height));
    s.cloth(closed(&area), Up::Right, DOWN);
    s.fold(line(pt(0.0, -height), pt(end.x + 8.0, -height)));
    s.stroke(line(pt(end.x + 8.0, -height), pt(end.x + 8.0, end.y)), Pen::THIN);
    s.fold_line(line(pt(0.0, -height), pt(0.0, points.first().map_or(0.0, |p| p.y))));
    s.named(seam.clone(), Pen { width: 0.35, ..Pen::SEAM }, "seam");
    s.stroke(line(end, pt(end.x + 8.0, end.y)), Pen { width: 0.35, ..Pen::SEAM });
}

fn draw_panel(s: &mut Scene, flat: &[Point], top: f64, (wide, tall): (f64, f64), allowance: f64) {
    let cut: Vec<Point> =
        super::super::geom::beside(flat, -allowance).into_iter().map(|p| pt(p.x.max(0.0), p.y + top)).collect();
    let first = flat.first().copied().unwrap_or_default();
    let last = flat.last().copied().unwrap_or_default();
    let mut edge = vec![pt(0.0, first.y + top - allowance)];
    edge.extend(cut.iter().skip(1));
    edge.push(pt(wide, last.y + top - allowance));
    let mut area = edge.clone();
    area.push(pt(wide, top + tall));
    area.push(pt(0.0, top + tall));
    s.cloth(closed(&area), Up::Wrong, DOWN);
    s.cut(polyline(&edge));
    s.fold_line(line(pt(0.0, first.y + top - allowance), pt(0.0, top + tall)));
    s.stroke(line(pt(wide, last.y + top - allowance), pt(wide, top + tall)), Pen::THIN);
    s.stroke(
        smooth(&[
            pt(0.0, top + tall),
            pt(wide * 0.3, top + tall - 0.6),
            pt(wide * 0.7, top + tall + 0.6),
            pt(wide, top + tall),
        ]),
        Pen::THIN,
    );
    s.mark(line(pt(0.0, last.y + top), pt(last.x, last.y + top)));
    s.stroke(line(last + kurbo::Vec2::new(0.0, top), pt(wide, last.y + top)), Pen { width: 0.35, ..Pen::SEAM });
}

/// Five points at equal parts of both curves, numbered where there is room; whether there was.
fn stations(s: &mut Scene, seam: &kurbo::BezPath, lower: &kurbo::BezPath) -> bool {
    let total = length(seam);
    let marks: Vec<Point> = (0..5).map(|i| along(seam, total * real(i) / 4.0).0).collect();
    // Equal parts of the seam are equal parts of x on the stretched curve.
    let end = lower.elements().last().and_then(kurbo::PathEl::end_point).unwrap_or_default();
    let stretched: Vec<Point> = (0..5).map(|i| at_x(lower, end.x * real(i) / 4.0)).collect();
    let numbers = beyond(&marks, 3.7);
    let below: Vec<Point> = beyond(&stretched, 3.9).into_iter().map(|p| pt(p.x.max(1.9), p.y)).collect();
    let seam_points = super::super::geom::spread(seam, 0.3);
    let boxed = |p: &Point| kurbo::Rect::from_center_size(*p, (2.4, 3.1));
    let apart = |list: &[Point]| list.windows(2).all(|w| boxed(&w[0]).intersect(boxed(&w[1])).area() <= 0.0);
    let clear = numbers.iter().all(|p| !seam_points.iter().any(|q| boxed(p).contains(*q)));
    let room = clear && apart(&numbers) && apart(&below) && numbers.iter().all(|p| p.x > 1.3);
    for (points, words) in [(&marks, &numbers), (&stretched, &below)] {
        for (i, (p, word)) in points.iter().zip(words).enumerate() {
            s.fill(super::super::geom::circle(*p, 0.75), Paint::White);
            s.stroke(super::super::geom::circle(*p, 0.75), Pen::THIN);
            if room {
                s.text_mid(*word, Anchor::Middle, LabelStyle::Strong, format!("{}", i + 1));
            }
        }
    }
    room
}

/// Places for words beyond points, away from the cloth above; those of the last clear the level line it lies on.
fn beyond(points: &[Point], far: f64) -> Vec<Point> {
    let last = points.len().saturating_sub(1);
    let shift = away(points) * far;
    let level = kurbo::Vec2::new(shift.x, shift.y.max(3.5));
    points.iter().enumerate().map(|(i, p)| *p + if i == last { level } else { shift }).collect()
}

/// The direction away from the cloth above a seam, square to its chord.
fn away(points: &[Point]) -> kurbo::Vec2 {
    let (Some(a), Some(b)) = (points.first(), points.last()) else { return DOWN };
    super::super::geom::right_of(super::super::geom::unit(*b - *a))
}

/// Where a polyline passes over `x`.
fn at_x(path: &kurbo::BezPath, x: f64) -> Point {
    for part in super::super::geom::flat(path, 0.01) {
        for pair in part.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if x >= a.x - 1e-9 && x <= b.x + 1e-9 {
                let t = if b.x - a.x > 1e-9 { (x - a.x) / (b.x - a.x) } else { 0.0 };
                return a.lerp(b, t);
            }
        }
    }
    path.elements().last().and_then(kurbo::PathEl::end_point).unwrap_or_default()
}
