//! Work round curves: piping clipped, a sleeve set into its armhole.

use kurbo::{Affine, BezPath, Point, Shape};

use super::super::figure::{Drawn, Measure, Scale, Undrawable};
use super::super::geom::{along, beside, closed, length, line, polyline, pt, real, right_of, spread, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{many, scale_for, sound};

/// Piping laid round a curved edge.
#[derive(Debug, Clone, PartialEq)]
pub struct PipedCurve {
    /// What edge it is: `armhole`.
    pub name: String,
    /// The seam line, mm; the cloth at its left hand as it runs.
    pub seam: BezPath,
    /// From seam to raw edge.
    pub allowance: Measure,
    /// Distance of the clips along the curve.
    pub clips: Measure,
    /// Paper the curve may take, mm.
    pub room: (f64, f64),
}

/// Piping pinned round a curve, its allowance clipped, to scale.
///
/// # Errors
/// Where the curve is empty or a length is nothing or not finite.
pub fn piping_clipped(input: &PipedCurve, look: &Look) -> Drawn {
    sound(&[("allowance", input.allowance.length), ("clips", input.clips.length)])?;
    let area = input.seam.bounding_box();
    if input.seam.is_empty() || !input.seam.is_finite() || area.width().max(area.height()) <= 0.0 {
        return Err(Undrawable("expected a curve to lay the piping on, but it is empty".into()));
    }
    let n = scale_for(area.width(), area.height(), input.room);
    let seam = Affine::scale(1.0 / n) * input.seam.clone();
    let points = spread(&seam, 0.6);
    let allowance = (input.allowance.mm() / n).clamp(3.0, 9.0);
    let mut s = Scene::new(look);
    let (raw, inner) = (beside(&points, allowance), beside(&points, -13.0));
    let cloth: Vec<Point> = raw.iter().chain(inner.iter().rev()).copied().collect();
    s.cloth(closed(&cloth), Up::Right, DOWN);
    s.stroke(polyline(&inner), Pen::THIN);
    for (a, b) in [(raw.first(), inner.first()), (raw.last(), inner.last())].into_iter().filter_map(|(a, b)| a.zip(b)) {
        s.stroke(line(*a, *b), Pen::THIN);
    }
    s.cut(polyline(&raw));
    let cord = beside(&points, -1.6);
    let strip: Vec<Point> = raw.iter().chain(cord.iter().rev()).copied().collect();
    s.cloth(closed(&strip), Up::Under, DOWN);
    s.cut(polyline(&raw));
    s.stroke(polyline(&cord), Pen::FOLD);
    s.stroke(polyline(&beside(&points, -0.1)), Pen::THIN);
    s.machine(polyline(&beside(&points, 0.5)));
    let total = length(&seam);
    let count = whole(length(&input.seam) / input.clips.mm(), 2, 60);
    let mut last = pt(0.0, 0.0);
    for i in 0..count {
        let (p, d) = along(&seam, total * (real(i) + 0.5) / real(count));
        let out = right_of(d);
        let (tip, wide) = (p + out * 1.3, d * 0.9);
        let rim = p + out * (allowance + 0.45);
        s.fill(closed(&[tip, rim + wide, rim - wide]), Paint::White);
        s.stroke(polyline(&[rim + wide, tip, rim - wide]), Pen::THIN);
        if i == count / 2 {
            last = tip + out * (allowance * 0.4);
        }
    }
    let centre = area.center().to_vec2() / n;
    let out = last.to_vec2() - centre;
    let side = super::together::facing(out);
    s.note(side, last, format!("clips {} apart, almost to the stitching", look.set(&input.clips)));
    let (p, _) = along(&seam, total * 0.12);
    let (_, d) = along(&seam, total * 0.12);
    let toward = |p: Point| super::together::facing(p.to_vec2() - centre);
    s.note(toward(p), p - right_of(d) * 9.0, format!("{}, right side up", input.name));
    let (p, d) = along(&seam, total * 0.85);
    s.note(toward(p), p - right_of(d) * 1.0, "piping, cord toward the garment");
    let caption = format!(
        "The piping round the {}: clipped every {}, so that its raw edge can spread or close along the curve.",
        input.name,
        look.set(&input.clips)
    );
    let alt = format!(
        "The {} lies right side up. The piping follows its curve, the cord toward the garment, raw edges level, stitched {} from the edge. {} are cut into the \
         allowance of the piping, {} apart, from the raw edge almost to the stitching; where the curve needs it they open.",
        input.name,
        look.say(&input.allowance),
        super::super::words::capital(&many(count, "clip", "clips")),
        look.say(&input.clips)
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// A sleeve head and the armhole it is set into.
#[derive(Debug, Clone, PartialEq)]
pub struct SleeveSet {
    /// Seam line of the sleeve head from back to front, mm.
    pub head: BezPath,
    /// Seam line of the armhole laid open, from back to front, mm.
    pub armhole: BezPath,
    /// Points that meet: name, distance along the head, distance along the armhole.
    pub meets: Vec<(String, Measure, Measure)>,
    /// How much longer the head is.
    pub ease: Measure,
    /// Between which two points of `meets` it is eased, by their places in the list.
    pub eased: (usize, usize),
}

/// Sleeve head and armhole, one scale, with the points that meet.
///
/// # Errors
/// Where a curve is empty, a length is not finite, or fewer than two points meet.
pub fn sleeve_set(input: &SleeveSet, look: &Look) -> Drawn {
    if !input.ease.mm().is_finite() {
        return Err(Undrawable("expected an ease of some length".into()));
    }
    let (a, b) = (input.head.bounding_box(), input.armhole.bounding_box());
    let bad = |p: &BezPath| p.is_empty() || !p.is_finite() || length(p) <= 0.0;
    if bad(&input.head) || bad(&input.armhole) || input.meets.len() < 2 {
        return Err(Undrawable("expected two curves with at least two points that meet".into()));
    }
    if input.meets.iter().any(|(_, x, y)| !x.mm().is_finite() || !y.mm().is_finite()) {
        return Err(Undrawable("expected points at finite distances along the curves".into()));
    }
    let n = scale_for(a.width().max(b.width()), a.height() + b.height(), (84.0, 60.0));
    let to = Affine::scale(1.0 / n);
    let mut s = Scene::new(look);
    let head = Affine::translate((-a.center().x / n, -a.y1 / n)) * (to * input.head.clone());
    let hole = Affine::translate((-b.center().x / n, -b.y0 / n + 13.0)) * (to * input.armhole.clone());
    let (hp, ap) = (spread(&head, 0.5), spread(&hole, 0.5));
    let mut area = hp.clone();
    let low = a.height() * 0.0 + 6.0;
    area.extend([hp.last().map_or(pt(0.0, 0.0), |p| pt(p.x, low)), hp.first().map_or(pt(0.0, 0.0), |p| pt(p.x, low))]);
    s.cloth(closed(&area), Up::Wrong, DOWN);
    s.named(head.clone(), Pen { width: 0.5, ..Pen::SEAM }, "head");
    let mut body = ap.clone();
    let deep = b.height() / n + 22.0;
    body.extend([
        ap.last().map_or(pt(0.0, 0.0), |p| pt(p.x, deep)),
        ap.first().map_or(pt(0.0, 0.0), |p| pt(p.x, deep)),
    ]);
    s.cloth(closed(&body), Up::Right, DOWN);
    s.named(hole.clone(), Pen { width: 0.5, ..Pen::SEAM }, "armhole");
    s.uses(super::super::figure::KeyEntry::SeamLine);
    let scale = |m: &Measure| m.mm() / n;
    for (i, (name, x, y)) in input.meets.iter().enumerate() {
        let ((p, d), (q, e)) = (along(&head, scale(x)), along(&hole, scale(y)));
        for (p, d, sign) in [(p, d, -1.0), (q, e, -1.0)] {
            let out = right_of(d) * sign;
            s.fill(closed(&[p, p + out * 2.2 + d * 0.8, p + out * 2.2 - d * 0.8]), Paint::Ink);
        }
        let letter = char::from(b'A' + u8::try_from(i.min(25)).unwrap_or(25)).to_string();
        s.callout(&letter, p - right_of(d) * 5.4, name.clone());
        s.callout(&letter, q + right_of(e) * 5.2, "");
    }
    if let (Some(from), Some(till)) = (input.meets.get(input.eased.0), input.meets.get(input.eased.1)) {
        let (from, till) = (scale(&from.1), scale(&till.1));
        let mut row = Vec::new();
        let count = whole((till - from).abs() / 1.3, 4, 120);
        for i in 0..=count {
            let (p, d) = along(&head, from + (till - from) * real(i) / real(count));
            row.push(p + right_of(d) * 1.5);
        }
        s.uses(super::super::figure::KeyEntry::GatherThread);
        s.running(&row);
        if let Some(first) = row.first() {
            s.knot(*first);
        }
        if let Some(at) = row.get(row.len() * 2 / 3) {
            s.note(Side::Right, *at, format!("eased in: {}", look.set(&input.ease)));
        }
    }
    s.note(Side::Left, pt(hp.first().map_or(0.0, |p| p.x) + 2.0, low - 1.6), "sleeve, wrong side");
    s.note(Side::Left, pt(ap.first().map_or(0.0, |p| p.x) + 1.0, deep - 2.0), "armhole laid open, right side");
    let list: Vec<&str> = input.meets.iter().map(|(name, _, _)| name.as_str()).collect();
    let caption = format!(
        "The sleeve head and its armhole, to one scale: letters meet, and {} of ease lies between them at the top.",
        look.set(&input.ease)
    );
    let alt = format!(
        "Above, the head of the sleeve; below, the armhole laid open, to the same scale. {} are marked on both and meet when the sleeve is set in: {}. The head is \
         {} longer than the armhole; a row of small running stitches at the top, between two of the marks, draws that ease in.",
        super::super::words::capital(&many(input.meets.len(), "point", "points")),
        list.join(", "),
        look.say(&input.ease)
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}
