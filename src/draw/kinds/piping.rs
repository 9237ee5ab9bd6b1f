//! Piping in section: made, with or without a cord, and in its seam.

use kurbo::{BezPath, Point, Vec2};

use super::super::figure::{Drawn, Measure, Scale};
use super::super::geom::{circle, line, polyline, pt, smooth};
use super::super::hand::Up;
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;

/// The numbers of a piping.
#[derive(Debug, Clone, PartialEq)]
pub struct PipingFigure {
    /// Diameter of the cord; none for flat piping.
    pub cord: Option<Measure>,
    /// What shows of a flat piping beyond the seam; used where there is no cord.
    pub reveal: Option<Measure>,
    /// From stitching to cut edges.
    pub allowance: Measure,
    /// Width the strip is cut.
    pub strip: Measure,
}

impl PipingFigure {
    fn check(&self) -> Result<(), super::super::figure::Undrawable> {
        let mut lengths = vec![("allowance", self.allowance.length), ("strip", self.strip.length)];
        lengths.extend(self.cord.iter().map(|c| ("cord", c.length)));
        lengths.extend(self.reveal.iter().map(|c| ("reveal", c.length)));
        sound(&lengths)
    }

    /// Radius of the cord as drawn, the allowance as drawn 17 mm.
    fn radius(&self) -> Option<f64> {
        self.cord.as_ref().map(|c| (c.mm() / 2.0 * 17.0 / self.allowance.mm()).clamp(2.2, 5.5))
    }

    fn shown(&self) -> f64 {
        self.reveal.as_ref().map_or(4.0, |r| (r.mm() * 17.0 / self.allowance.mm()).clamp(2.5, 9.0))
    }
}

/// The strip folded round the cord (or on itself), its tip to the right of `at`, raw ends at `left`.
fn wrapped(at: Point, left: f64, radius: Option<f64>, shown: f64) -> BezPath {
    let half = 0.9;
    match radius {
        Some(r) => {
            let big = r + 0.95;
            let centre = at + Vec2::new(r + 0.6, 0.0);
            let mut points =
                vec![pt(left, at.y - half), pt((left + at.x) / 2.0, at.y - half), pt(at.x - big * 0.55, at.y - half)];
            for i in 0..=14 {
                let angle = (-128.0 + 256.0 * f64::from(i) / 14.0_f64).to_radians();
                points.push(centre + Vec2::new(angle.cos(), angle.sin()) * big);
            }
            points.extend([
                pt(at.x - big * 0.55, at.y + half),
                pt((left + at.x) / 2.0, at.y + half),
                pt(left, at.y + half),
            ]);
            smooth(&points)
        }
        None => {
            let mut path = polyline(&[pt(left, at.y - half), pt(at.x + shown, at.y - half)]);
            let tip = at.x + shown;
            path.curve_to(pt(tip + 1.2, at.y - half), pt(tip + 1.2, at.y + half), pt(tip, at.y + half));
            path.line_to(pt(left, at.y + half));
            path
        }
    }
}

fn cord(s: &mut Scene, centre: Point, r: f64) {
    s.fill(circle(centre, r), Paint::White);
    s.stroke(circle(centre, r), Pen::THIN);
    for i in 0..3 {
        let angle = f64::from(i) * std::f64::consts::TAU / 3.0 - 0.5;
        let p = centre + Vec2::new(angle.cos(), angle.sin()) * (r * 0.48);
        s.stroke(circle(p, r * 0.4), Pen::THIN);
    }
}

/// A stitch through layers in section: the thread with a bar at each face.
pub(crate) fn stitch_through(s: &mut Scene, a: Point, b: Point) {
    let d = super::super::geom::unit(b - a);
    let n = super::super::geom::right_of(d) * 1.1;
    s.stroke(line(a, b), Pen::THREAD);
    s.stroke(line(a - n, a + n), Pen::THREAD);
    s.stroke(line(b - n, b + n), Pen::THREAD);
}

/// The piping made, in section.
///
/// # Errors
/// Where a length is nothing or not finite.
pub fn piping_section(input: &PipingFigure, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let left = -17.0;
    let r = input.radius();
    if let Some(r) = r {
        cord(&mut s, pt(r + 0.6, 0.0), r);
    }
    s.section(&wrapped(pt(0.0, 0.0), left, r, input.shown()), Up::Right, false, (true, true));
    stitch_through(&mut s, pt(-1.4, -2.1), pt(-1.4, 2.1));
    let tip = r.map_or(input.shown() + 0.9, |r| 2.0 * r + 2.3);
    s.dim(pt(left, -1.8), pt(-1.4, -1.8), -5.0, look.set(&input.allowance));
    s.note(
        Side::Below,
        pt(-1.4, 2.2),
        "stitched close up to the cord"
            .replace("close up to the cord", if r.is_some() { "close to the cord" } else { "through both layers" }),
    );
    if let (Some(r), Some(c)) = (r, &input.cord) {
        s.note(Side::Right, pt(r + 0.6, 0.0), format!("cord {}", look.set(c)));
    } else if let Some(c) = &input.reveal {
        s.note(Side::Right, pt(tip - 1.2, 0.3), format!("fold; {} of it will show", look.set(c)));
    }
    s.note(Side::Left, pt(left + 0.3, 1.0), format!("strip cut {} wide on the bias", look.set(&input.strip)));
    let what = input.cord.as_ref().map_or_else(
        || "folded in half, without a cord".to_string(),
        |c| format!("wrapped round a cord {} thick", look.set(c)),
    );
    let caption = format!(
        "The piping in section: a bias strip {} wide, {what}, stitched {} from its edges.",
        look.set(&input.strip),
        look.set(&input.allowance)
    );
    let alt = format!(
        "A cut through the piping. A bias strip {} wide is {}, right side outward. Its two raw edges lie together at the left. A row of \
         machine stitching goes through both layers {} from the raw edges{}",
        look.say(&input.strip),
        input.cord.as_ref().map_or_else(
            || format!(
                "folded in half; its fold will show{}",
                input.reveal.as_ref().map_or_else(String::new, |r| format!(" {}", look.say(r)))
            ),
            |c| format!("wrapped round a cord {} thick", look.say(c))
        ),
        look.say(&input.allowance),
        if r.is_some() { ", close beside the cord." } else { "." }
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// The piping in its seam, in section, right side of the garment at the right.
///
/// # Errors
/// Where a length is nothing or not finite.
pub fn piping_in_seam(input: &PipingFigure, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let left = -17.0;
    let r = input.radius();
    if let Some(r) = r {
        cord(&mut s, pt(r + 0.6, 0.0), r);
    }
    s.section(&wrapped(pt(0.0, 0.0), left, r, input.shown()), Up::Right, false, (true, true));
    let off = 2.7;
    let turn = r.map_or(1.2, |r| (r * 0.35).min(1.6));
    for sign in [-1.0, 1.0] {
        let path = smooth(&[
            pt(0.6, 24.0 * sign),
            pt(0.6, 14.0 * sign),
            pt(0.4, (off + r.unwrap_or(0.6) + turn) * sign),
            pt(-1.6, (off + 0.25) * sign),
            pt(-5.0, off * sign),
            pt(-10.0, off * sign),
            pt(left, off * sign),
        ]);
        s.section(&path, Up::Right, sign > 0.0, (false, true));
    }
    stitch_through(&mut s, pt(-2.6, -4.2), pt(-2.6, 4.2));
    let tip = r.map_or(input.shown() + 0.5, |r| 2.0 * r + 1.8);
    s.note(
        Side::Right,
        pt(tip, 0.0),
        if r.is_some() { "the cord stands out of the seam" } else { "the fold shows beyond the seam" },
    );
    s.note(Side::Right, pt(1.2, -18.0), "one piece, right side outward");
    s.note(Side::Right, pt(1.2, 18.0), "the other piece");
    s.dim(pt(left, 3.6), pt(-2.6, 3.6), 6.5, look.two(&input.allowance));
    s.note(Side::Left, pt(-2.9, -3.6), "seam stitched just inside the first stitching");
    let caption = "The piping in its seam: the seam is stitched a thread closer to the cord than the piping was."
        .replace("the cord", if r.is_some() { "the cord" } else { "the fold" });
    let alt = format!(
        "A cut through the seam, outside of the garment at the right. The two pieces come from above and below, turn inward and lie \
         on both sides of the piping strip, all four raw edges together at the left, {} from the stitching. {} shows outside, \
         between the pieces. One row of machine stitching goes through all layers.",
        look.say(&input.allowance),
        input.cord.as_ref().map_or_else(
            || "The folded edge of the strip".to_string(),
            |c| format!("The cord, {} thick in its strip,", look.say(c))
        )
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
