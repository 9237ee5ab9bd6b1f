//! A wing at the armhole, laid on before the sleeve is set in.

use kurbo::{Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{along, closed, length, line, polyline, pt, real, right_of, smooth, spread, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::Look;
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;
use super::piping::stitch_through;

/// A wing, or a row of tabs, at an armhole.
#[derive(Debug, Clone, PartialEq)]
pub struct WingFigure {
    /// Its length along the armhole.
    pub length: Measure,
    /// Its depth at the shoulder.
    pub depth: Measure,
    /// From the raw edge to the seam line.
    pub allowance: Measure,
    /// How many tabs it is cut in; none for a plain wing.
    pub tabs: Option<usize>,
    /// How far each end stops short of the underarm seam.
    pub free: Option<Measure>,
}

/// The wing basted to the armhole, and the layers of the seam in section.
///
/// # Errors
/// Where a length is nothing or not finite, or there are more than sixty tabs.
pub fn wing(input: &WingFigure, look: &Look) -> Drawn {
    sound(&[("length", input.length.length), ("depth", input.depth.length), ("allowance", input.allowance.length)])?;
    if input.tabs.is_some_and(|n| !(2..=60).contains(&n)) {
        return Err(Undrawable("expected two to sixty tabs".into()));
    }
    let mut s = Scene::new(look);
    s.uses(KeyEntry::SeamLine);
    // The armhole laid open, its underarm seam not yet sewn: the bodice all round it below, the opening above.
    let seam = smooth(&[
        pt(-30.0, -12.0),
        pt(-27.0, 5.0),
        pt(-15.0, 17.0),
        pt(0.0, 21.0),
        pt(15.0, 17.0),
        pt(27.0, 5.0),
        pt(30.0, -12.0),
    ]);
    let points = spread(&seam, 0.5);
    let out = |p: Point, d: Vec2, by: f64| p - right_of(d) * by;
    let total = length(&seam);
    let at = |t: f64| along(&seam, total * t);
    let raw: Vec<Point> = (0..=120)
        .map(|i| real(i) / 120.0)
        .map(|t| {
            let (p, d) = at(t);
            out(p, d, 4.0)
        })
        .collect();
    let mut body = raw.clone();
    body.extend([pt(45.0, -12.5), pt(45.0, 46.0), pt(-45.0, 46.0), pt(-45.0, -12.5)]);
    s.cloth(closed(&body), Up::Right, DOWN);
    for side in [-45.0, 45.0] {
        s.stroke(line(pt(side, -12.5), pt(side, 46.0)), Pen::THIN);
    }
    for (end, side) in [(raw.first(), -45.0), (raw.last(), 45.0)] {
        if let Some(end) = end {
            s.cut(line(*end, pt(side, -12.5)));
        }
    }
    s.stroke(smooth(&[pt(-45.0, 46.0), pt(-14.0, 46.8), pt(14.0, 45.3), pt(45.0, 46.0)]), Pen::THIN);
    s.cut(polyline(&raw));
    // The wing lies on it, its raw edge level with the raw edge of the armhole, its finished edge on the body.
    let (from, till) = (0.1, 0.9);
    let deep = |t: f64| 12.0 * ((t - from) / (till - from) * std::f64::consts::PI).sin().max(0.0).powf(0.6);
    let ts: Vec<f64> = (0..=96).map(|i| from + (till - from) * real(i) / 96.0).collect();
    let edge: Vec<Point> = ts
        .iter()
        .map(|t| {
            let (p, d) = at(*t);
            out(p, d, 4.0)
        })
        .collect();
    let fin: Vec<Point> = ts
        .iter()
        .map(|t| {
            let (p, d) = at(*t);
            out(p, d, -deep(*t))
        })
        .collect();
    let mut area = edge.clone();
    area.extend(fin.iter().rev());
    s.cloth(closed(&area), Up::Right, DOWN);
    s.cut(polyline(&edge));
    match input.tabs {
        None => s.fold(polyline(&fin)),
        Some(n) => {
            let n = whole(real(n), 2, 24);
            for i in 0..n {
                let step = (till - from) / real(n);
                let (a, b) = (from + step * (real(i) + 0.05), from + step * (real(i) + 0.95));
                let corner = |t: f64, by: f64| {
                    let (p, d) = at(t);
                    out(p, d, by)
                };
                s.fold(polyline(&[corner(a, -0.6), corner(a, -deep(a)), corner(b, -deep(b)), corner(b, -0.6)]));
            }
        }
    }
    s.seam_line(polyline(&points));
    let basting: Vec<Point> = (0..=46)
        .map(|i| from + (till - from) * real(i) / 46.0)
        .map(|t| {
            let (p, d) = at(t);
            out(p, d, 1.0)
        })
        .collect();
    s.uses(KeyEntry::HandStitch);
    s.running(&basting);
    let (top, d) = at(0.5);
    s.stroke(line(out(top, d, -12.6), out(top, d, -24.6)), Pen::SEAM);
    s.note(Side::Right, out(top, d, -20.0), "shoulder seam");
    s.note(Side::Above, out(top, d, 3.4), "raw edges level");
    let (p, d) = at(0.44);
    s.dim_line(out(p, d, -deep(0.44)), out(p, d, 0.0), 0.01);
    s.note(Side::Left, out(p, d, -deep(0.44) * 0.75), look.set(&input.depth));
    let (p, d) = at(0.26);
    s.note(
        Side::Left,
        out(p, d, -6.0),
        if input.tabs.is_some() { "tabs, right side up" } else { "wing, right side up" },
    );
    let (p, d) = at(0.17);
    s.note(Side::Left, out(p, d, 1.0), "basted just outside the seam line");
    let (p, d) = at(0.97);
    s.note(
        Side::Right,
        p - right_of(d) * 2.0,
        match &input.free {
            Some(free) => format!("free for {} to the underarm seam", look.set(free)),
            None => "free at the underarm".to_string(),
        },
    );
    s.note(Side::Right, pt(38.0, 41.0), "bodice, right side");
    section(&mut s, input, look, pt(0.0, 68.0));
    s.finish(words(input, look), Scale::NotToScale)
}

fn section(s: &mut Scene, input: &WingFigure, look: &Look, at: Point) {
    s.title(pt(at.x, at.y - 9.5), Anchor::Middle, "the seam in section, before it is turned");
    let (x, y) = (at.x, at.y);
    let lines = [(-26.0, 9.0, 3.0, false), (-14.0, 9.0, 0.0, true), (-26.0, 9.0, -3.0, true)];
    for (a, b, dy, right) in lines {
        s.section(&line(pt(x + a, y + dy), pt(x + b, y + dy)), Up::Right, right, (false, true));
    }
    s.fold(line(pt(x - 14.0, y - 0.75), pt(x - 14.0, y + 0.75)));
    stitch_through(s, pt(x, y - 4.6), pt(x, y + 4.6));
    s.dim(pt(x, y + 4.0), pt(x + 9.7, y + 4.0), 3.6, look.set(&input.allowance));
    s.note(Side::Right, pt(x + 9.0, y - 3.0), "sleeve, wrong side out");
    s.note(Side::Right, pt(x + 9.0, y), "wing");
    s.note(Side::Right, pt(x + 9.0, y + 3.0), "bodice, right side to the wing");
}

fn words(input: &WingFigure, look: &Look) -> Words {
    let what = input.tabs.map_or_else(|| "wing".to_string(), |n| format!("row of {n} tabs"));
    let free = input.free.as_ref();
    let caption = format!(
        "The {what} basted to the armhole: {} along it, {} deep at the shoulder. The sleeve goes on over it.",
        look.set(&input.length),
        look.set(&input.depth)
    );
    let alt = format!(
        "Above, the armhole of the bodice, right side up, laid open, its shoulder seam in the middle. The {what}, {} long and {} deep at the shoulder, lies on it right side up, \
         its raw edge level with the raw edge of the armhole, basted just outside the seam line; it dies away toward both ends{}. Below, a cut through the \
         seam: the bodice, right side up, the wing on it, and the sleeve on top, right side down, all stitched together {} from the raw edges.",
        look.say(&input.length),
        look.say(&input.depth),
        free.map_or_else(String::new, |m| format!(", which stop {} before the underarm seam", look.say(m))),
        look.say(&input.allowance)
    );
    Words { caption, alt }
}
