//! Cartridge pleats sewn to an edge that is not level: the point of a bodice, a dipped band.

use kurbo::{BezPath, Point, Vec2};

use crate::units::Length;

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{
    along, beside, circle, closed, length, line, polyline, pt, real, right_of, smooth, spread, whole,
};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{scale_for, sound};

/// Pleats and the shaped edge they are sewn to.
#[derive(Debug, Clone, PartialEq)]
pub struct ShapedSeam {
    /// Half the edge from the centre outward: distance straight across, and drop below its highest place.
    pub edge: Vec<(Length, Length)>,
    /// Length of that half along the seam.
    pub arc: Measure,
    /// How far it drops.
    pub depth: Measure,
    /// Seam length of one pleat.
    pub pitch: Measure,
    /// Pleats on that half.
    pub pleats: u64,
    /// What the edge belongs to: `bodice`, `waistband`.
    pub meets: String,
    /// Whether the edge is piped.
    pub piped: bool,
}

/// How long the pleats are drawn, mm.
const FALL: f64 = 12.0;

/// The edge to scale, with the pleats that hang from it, sewn on from the centre outward; one place magnified.
///
/// # Errors
/// Where a length is nothing or not finite, or the edge has no width.
pub fn pleats_to_shaped_edge(input: &ShapedSeam, look: &Look) -> Drawn {
    sound(&[("arc", input.arc.length), ("pitch", input.pitch.length), ("depth", input.depth.length)])?;
    let raw: Vec<Point> = input.edge.iter().map(|(x, y)| pt(x.to_mm(), y.to_mm())).collect();
    let (wide, deep) = raw.iter().fold((0.0_f64, 0.0_f64), |(a, b), p| (a.max(p.x), b.max(p.y)));
    if raw.len() < 2 || !raw.iter().all(|p| p.is_finite() && p.x >= -1e-6) || wide <= 0.0 || wide > 1e5 || deep > 1e5 {
        return Err(Undrawable("expected an edge from the centre outward, but found none".into()));
    }
    let n = scale_for(wide * 2.0, deep, (66.0, 44.0));
    let half: Vec<Point> = raw.iter().map(|p| pt(p.x / n, p.y / n)).collect();
    let mut s = Scene::new(look);
    s.uses(KeyEntry::HandStitch);
    s.note_room = 46.0;
    let path = polyline(&half);
    let total = length(&path);
    // As many tubes as can be told apart; the caption says how many there are.
    let tubes = whole(total / 1.9, 6, u64_usize(input.pleats.max(6)));
    let both: Vec<Point> = half.iter().rev().map(|p| pt(-p.x, p.y)).chain(half.iter().skip(1).copied()).collect();
    cloth(&mut s, &both);
    for sign in [-1.0, 1.0] {
        let turned: Vec<Point> = half.iter().map(|p| pt(p.x * sign, p.y)).collect();
        hanging(&mut s, &polyline(&turned), tubes, sign);
    }
    upper(&mut s, &both, input.piped);
    s.named(path.clone(), Pen { width: 0.5, ..Pen::FOLD }, "seam");
    stitches(&mut s, &path, tubes);
    let left = polyline(&half.iter().map(|p| pt(-p.x, p.y)).collect::<Vec<_>>());
    stitches(&mut s, &left, tubes);
    marks(&mut s, input, look, &path);
    magnified(&mut s, input, look, &path);
    s.finish(words(input, look), Scale::OneTo(n))
}

fn u64_usize(value: u64) -> usize {
    usize::try_from(value).unwrap_or(usize::MAX)
}

/// The pleated cloth below the edge.
fn cloth(s: &mut Scene, edge: &[Point]) {
    let (Some(first), Some(last)) = (edge.first(), edge.last()) else { return };
    let low = lowest(edge);
    let mut area = edge.to_vec();
    area.extend([pt(last.x + 3.0, low), pt(first.x - 3.0, low)]);
    s.cloth(closed(&area), Up::Right, DOWN);
}

/// Where the drawing of the pleats leaves off.
fn lowest(edge: &[Point]) -> f64 {
    edge.iter().map(|p| p.y).fold(0.0, f64::max) + FALL
}

/// Tubes that hang straight down, whatever way the edge runs.
fn hanging(s: &mut Scene, edge: &BezPath, tubes: usize, sign: f64) {
    let total = length(edge);
    let low = lowest(&spread(edge, 1.0));
    for i in 0..tubes {
        let (a, _) = along(edge, total * real(i) / real(tubes));
        let (b, _) = along(edge, total * (real(i) + 1.0) / real(tubes));
        let lean = sign * 3.0 * (real(i) + 1.0) / real(tubes);
        let drop = low - b.y;
        // The shadow between two tubes, soft at its foot.
        let groove: Vec<Point> =
            (0..=10).map(|k| real(k) / 10.0).map(|t| pt(b.x + lean * t * t, b.y + 0.4 + drop * t)).collect();
        let strong = if i % 3 == 0 { 1.0 } else { 0.72 };
        s.swell(&groove, |t| (0.95 * strong) * (1.0 - t).powf(0.7), Paint::Shade);
        let until: Vec<Point> = groove.iter().take(if i % 2 == 0 { 11 } else { 8 }).copied().collect();
        s.brush(&until, |t| 0.26 * (1.0 - t).powf(0.6) + 0.02);
        // The round head of the tube, under the edge.
        let mid = a.midpoint(b);
        s.stroke(smooth(&[pt(a.x, a.y + 0.9), pt(mid.x, mid.y + 0.35), pt(b.x, b.y + 0.9)]), Pen::TICK);
    }
}

/// The finished cloth above the edge.
fn upper(s: &mut Scene, edge: &[Point], piped: bool) {
    let (Some(first), Some(last)) = (edge.first(), edge.last()) else { return };
    let top = -13.0;
    let (left, right) = (pt(first.x - 1.5, top), pt(last.x + 1.5, top));
    let mut area = edge.to_vec();
    area.extend([right, left]);
    s.cloth(closed(&area), Up::Right, DOWN);
    s.stroke(polyline(&[*first, left, right, *last]), Pen::THIN);
    if piped {
        let roll = beside(edge, -1.2);
        s.fill(closed(&edge.iter().chain(roll.iter().rev()).copied().collect::<Vec<_>>()), Paint::White);
        s.stroke(polyline(&roll), Pen::THIN);
    }
    s.fold(polyline(edge));
}

/// One stitch a pleat: over the edge, into the head of the tube.
fn stitches(s: &mut Scene, edge: &BezPath, tubes: usize) {
    let total = length(edge);
    for i in 0..tubes {
        let (p, _) = along(edge, total * (real(i) + 0.5) / real(tubes));
        s.stroke(line(p + Vec2::new(0.25, -0.75), p + Vec2::new(-0.25, 1.1)), Pen::THREAD);
    }
}

/// Letters at the centre, the half and the end of the half edge, and which way to sew.
fn marks(s: &mut Scene, input: &ShapedSeam, look: &Look, edge: &BezPath) {
    let total = length(edge);
    let (point, _) = along(edge, 0.0);
    let (end, _) = along(edge, total);
    let (middle, d) = along(edge, total / 2.0);
    let out = -right_of(d) * if right_of(d).y > 0.0 { 1.0 } else { -1.0 };
    s.callout("A", point + Vec2::new(0.0, -6.0), "the centre: begin here, once to each side");
    s.callout("B", middle + out * 5.0, "halfway along the edge meets halfway along the pleats");
    s.callout("C", end + Vec2::new(-4.0, -6.0), "the end of the half edge meets the end of its pleats");
    for at in [point, middle, end] {
        s.fill(circle(at, 0.7), Paint::Ink);
    }
    if input.depth.mm() > 0.5 && point.y > 3.0 {
        let x = -end.x - 4.0;
        s.dim(pt(x, point.y), pt(x, 0.0), -1.0, look.two(&input.depth));
    }
    let from = -middle.x;
    s.arrow(&[
        pt(from * 0.35, point.y * 0.62 + along(edge, total * 0.35).0.y * 0.38 - 9.5),
        pt(from * 1.25, along(edge, total * 0.65).0.y - 8.0),
    ]);
}

/// A piece of the slanting edge near by: tubes hang straight, the distance is taken along the edge.
fn magnified(s: &mut Scene, input: &ShapedSeam, look: &Look, edge: &BezPath) {
    let total = length(edge);
    let (spot, d) = along(edge, total * 0.28);
    let (far, _) = along(edge, total);
    let big = 13.0;
    let centre = pt((far.x - 6.0).max(spot.x + 6.0), lowest(&spread(edge, 1.0)) + big + 2.0);
    let own = s.look;
    let mut z = Scene::new(&own);
    let step = 6.4;
    let at = |k: f64| pt(d.x * k * step, d.y * k * step - 1.5);
    // The finished edge above, the tubes below.
    z.fill(circle(pt(0.0, 0.0), big), Paint::Tint);
    for i in -4..4 {
        let (a, b) = (at(f64::from(i)), at(f64::from(i) + 1.0));
        let mid = a.midpoint(b);
        let groove = [b + Vec2::new(0.0, 1.6), b + Vec2::new(0.0, 30.0)];
        z.swell(&groove, |_| 1.5, Paint::Shade);
        z.stroke(line(groove[0], groove[1]), Pen::FOLD);
        let head = smooth(&[pt(a.x + 0.5, a.y + 2.4), pt(mid.x, mid.y + 0.7), pt(b.x - 0.5, b.y + 2.4)]);
        z.stroke(head, Pen::FOLD);
    }
    let (lo, hi) = (at(-4.0), at(4.0));
    z.fill(closed(&[lo, hi, pt(hi.x, -40.0), pt(lo.x, -40.0)]), Paint::Tint);
    z.stroke(line(lo, hi), Pen::FOLD);
    for i in -4..4 {
        let mid = at(f64::from(i) + 0.5);
        z.stroke(line(mid + Vec2::new(0.7, -1.7), mid + Vec2::new(-0.4, 2.6)), Pen { width: 0.55, ..Pen::THREAD });
    }
    let (p, q) = (at(-0.5), at(0.5));
    let n = -right_of(d) * if right_of(d).y > 0.0 { 1.0 } else { -1.0 };
    z.dim_line(p + n * 1.2, q + n * 1.2, if (right_of(q - p)).dot(n) > 0.0 { 3.2 } else { -3.2 });
    s.lens(spot, 2.6, centre, big, z);
    let target = centre + at(0.0).to_vec2() + n * 4.4;
    let x = centre.x - big - 4.0;
    s.pointer(
        pt(x, centre.y - 3.5),
        Anchor::End,
        target,
        format!("one pleat: {}\nalong the edge", look.set(&input.pitch)),
    );
    s.pointer(
        pt(x, centre.y + 7.0),
        Anchor::End,
        centre + Vec2::new(-4.0, 9.0),
        "the tubes hang straight,\nalso where the edge slants",
    );
    s.text(pt(-far.x * 0.98, -8.6), Anchor::Start, LabelStyle::Plain, format!("{}, right side", input.meets));
}

fn words(input: &ShapedSeam, look: &Look) -> Words {
    let caption = format!(
        "The pleats sewn to the edge of the {}: {} pleats on the {} of half the edge, measured along it. Fewer are drawn.",
        input.meets,
        input.pleats,
        look.set(&input.arc)
    );
    let alt = format!(
        "The lower edge of the {}, right side up, drops {} to a point in the middle; both halves are alike. The pleated skirt hangs from it, its tubes \
         straight down wherever the edge slants. Half the edge is {} long, measured along it, and takes {} pleats, one every {} along the edge, each held by one stitch \
         over the edge. An arrow shows the sewing go from the centre outward. A magnified circle shows four tubes on the slanting edge with their stitches.",
        input.meets,
        look.say(&input.depth),
        look.say(&input.arc),
        input.pleats,
        look.say(&input.pitch)
    );
    Words { caption, alt }
}
