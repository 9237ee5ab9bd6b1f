//! Piping taken round a point.

use kurbo::{Point, Vec2};

use super::super::figure::{Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{closed, line, polyline, pt, right_of, smooth, unit};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;

/// Piping round the point of an edge.
#[derive(Debug, Clone, PartialEq)]
pub struct PipedPoint {
    /// What it is the point of: `bodice`, `waistband`.
    pub name: String,
    /// How far the edge drops to the point, over half its width.
    pub slope: f64,
    /// From the stitching to the raw edges.
    pub allowance: Measure,
    /// How far from the point the stitches are made shorter.
    pub short: Option<Measure>,
}

/// The piping stitched along one side, clipped at the point, and turned along the other.
///
/// # Errors
/// Where a length is nothing or not finite, or the slope is none.
pub fn piping_point(input: &PipedPoint, look: &Look) -> Drawn {
    sound(&[("allowance", input.allowance.length)])?;
    if !(0.02..=6.0).contains(&input.slope) {
        return Err(Undrawable(format!("expected an edge that drops to a point, but its slope is {}", input.slope)));
    }
    let mut s = Scene::new(look);
    s.uses(KeyEntry::MachineStitch);
    // As the point lies on the table: from the left down to it and up again.
    let slope = input.slope.clamp(0.3, 1.5);
    let reach = 34.0 / (1.0 + slope * slope).sqrt();
    let tip = pt(0.0, reach * slope);
    let (left, right) = (pt(-reach, 0.0), pt(reach, 0.0));
    let down = |from: Point, to: Point| {
        let n = right_of(unit(to - from));
        if n.y > 0.0 { n } else { -n }
    };
    let (n1, n2) = (down(left, tip), down(tip, right));
    let allowance = 7.0;
    let raw = [left + n1 * allowance, tip + Vec2::new(0.0, allowance / n1.y), right + n2 * allowance];
    // The garment, right side up.
    let top = -16.0;
    let area = [pt(raw[0].x, top), raw[0], raw[1], raw[2], pt(raw[2].x, top)];
    s.cloth(closed(&area), Up::Right, DOWN);
    s.stroke(polyline(&[area[1], area[0], area[4], area[3]]), Pen::THIN);
    s.cut(polyline(&[raw[0], raw[1], raw[2]]));
    // The strip: flat along both sides, its allowance cut to the stitching at the point, where it opens.
    let d1 = unit(tip - left);
    let d2 = unit(right - tip);
    let one = closed(&[left + n1 * allowance, tip + n1 * allowance + d1 * 0.2, tip + n1 * 0.8, left - n1 * 1.4]);
    let two = closed(&[tip + n2 * 0.8, tip + n2 * allowance - d2 * 0.2, right + n2 * allowance, right - n2 * 1.4]);
    let cord = |a: Point, b: Point, n: Vec2| [a - n * 2.2, b - n * 2.2, b + n * 0.1, a + n * 0.1];
    for (strip, n, a, b) in [(one, n1, left, tip), (two, n2, tip, right)] {
        s.cloth(strip, Up::Under, unit(b - a));
        let edge = if n == n1 {
            [a + n * allowance, b + n * allowance + d1 * 0.2]
        } else {
            [a + n * allowance - d2 * 0.2, b + n * allowance]
        };
        s.cut(line(edge[0], edge[1]));
        s.fill(closed(&cord(a, b, n)), Paint::White);
    }
    for end in [[left + n1 * allowance, left - n1 * 2.2], [right + n2 * allowance, right - n2 * 2.2]] {
        s.stroke(polyline(&end), Pen::THIN);
    }
    // Its cord runs round the point in one small bend.
    let bend = |by: f64| {
        let inner = tip - Vec2::new(0.0, by / n1.y);
        smooth(&[
            left - n1 * by,
            left.lerp(tip, 0.5) - n1 * by,
            inner - d1 * 3.0,
            inner + Vec2::new(0.0, 0.7),
            inner + d2 * 3.0,
            tip.lerp(right, 0.5) - n2 * by,
            right - n2 * by,
        ])
    };
    s.fold(bend(2.2));
    s.stroke(bend(0.1), Pen::THIN);
    s.machine(polyline(&[left + n1 * 0.9, tip + Vec2::new(0.0, 0.9 / n1.y), right + n2 * 0.9]));
    s.fill(super::super::geom::circle(tip + Vec2::new(0.0, 0.9 / n1.y), 0.7), Paint::Ink);
    for (a, n, d) in [(tip, n1, d1), (tip, n2, -d2)] {
        s.stroke(line(a + n * 1.4, a + n * allowance + d * 0.2), Pen::FOLD);
    }
    s.callout(
        "A",
        left.lerp(tip, 0.42) - n1 * 8.5,
        "stitch down to the point, the last stitches short; stop with the needle down",
    );
    s.callout(
        "B",
        tip + Vec2::new(0.0, allowance / n1.y + 6.0),
        "clip the allowance of the piping once, up to the needle: it opens",
    );
    s.callout(
        "C",
        tip.lerp(right, 0.58) - n2 * 8.5,
        "turn the work, lay the piping along the other side, and stitch on",
    );
    s.arrow(&[left.lerp(tip, 0.16) - n1 * 5.0, left.lerp(tip, 0.36) - n1 * 5.0]);
    s.arrow(&[tip.lerp(right, 0.64) - n2 * 5.0, tip.lerp(right, 0.84) - n2 * 5.0]);
    s.note(
        Side::Left,
        left.lerp(tip, 0.3) + n1 * 4.4,
        format!("raw edges level, {} from the stitching", look.set(&input.allowance)),
    );
    s.note(Side::Right, tip.lerp(right, 0.72) - n2 * 1.1, "piping, its cord toward the garment");
    s.note(Side::Above, pt(reach * 0.2, top + 4.0), format!("{}, right side up", input.name));
    let short = input.short.as_ref();
    let caption = format!(
        "The piping taken round the point of the {}: clipped once, and turned.{}",
        input.name,
        short.map_or_else(String::new, |m| format!(" Short stitches for {} each side of it.", look.set(m)))
    );
    let alt = format!(
        "The point of the {}, right side up, point down. The piping lies along both sides of it, its cord toward the garment, raw edges level, stitched {} from \
         them. At the point its allowance is clipped once, as far as the stitching, and opens like a wedge, so that the cord can turn in one small bend.{}",
        input.name,
        look.say(&input.allowance),
        short.map_or_else(String::new, |m| format!(
            " For {} each side of the point the stitches are short.",
            look.say(m)
        ))
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
