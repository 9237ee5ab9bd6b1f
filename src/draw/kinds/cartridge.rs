//! Cartridge pleats: stitched, drawn up, from above, in section, and sewn to their edge.

use kurbo::{BezPath, Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale};
use super::super::geom::{circle, closed, lerp, line, polyline, pt, quirk, real, rect, smooth, soft, steps};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, sound};

/// The numbers of cartridge pleats.
#[derive(Debug, Clone, PartialEq)]
pub struct CartridgePleats {
    /// Length of a stitch, which is the depth of a pleat.
    pub stitch: Measure,
    /// Rows of stitching.
    pub rows: usize,
    /// Distance between rows.
    pub row_gap: Measure,
    /// Seam length a pleat takes.
    pub pitch: Measure,
    /// How many pleats.
    pub pleats: u64,
    /// Flat width of the run that is pleated.
    pub flat: Measure,
    /// The same drawn up.
    pub drawn: Measure,
}

impl CartridgePleats {
    fn check(&self) -> Result<(), super::super::figure::Undrawable> {
        sound(&[
            ("stitch", self.stitch.length),
            ("row_gap", self.row_gap.length),
            ("pitch", self.pitch.length),
            ("flat", self.flat.length),
            ("drawn", self.drawn.length),
        ])?;
        counted("rows", self.rows, 1, 40)
    }

    /// Pitch and depth as drawn: the true proportion, held where tubes can still be seen.
    fn tube(&self, pitch: f64) -> (f64, f64) {
        (pitch, pitch * (self.stitch.mm() / self.pitch.mm()).clamp(1.1, 4.5))
    }
}

/// An even wave of upright loops from `left`, crests at `top`; round both ends.
pub(crate) fn loops(left: f64, top: f64, count: usize, pitch: f64, depth: f64) -> BezPath {
    let r = pitch / 4.0;
    let k = r * 0.5523;
    let (high, low) = (top + r, top + depth - r);
    let mut path = BezPath::new();
    path.move_to(pt(left, top + depth));
    for i in 0..count {
        let x = left + pitch * real(i);
        path.curve_to(pt(x + k, low + r), pt(x + r, low + k), pt(x + r, low));
        path.line_to(pt(x + r, high));
        path.curve_to(pt(x + r, high - k), pt(x + 2.0 * r - k, top), pt(x + 2.0 * r, top));
        path.curve_to(pt(x + 2.0 * r + k, top), pt(x + 3.0 * r, high - k), pt(x + 3.0 * r, high));
        path.line_to(pt(x + 3.0 * r, low));
        path.curve_to(pt(x + 3.0 * r, low + k), pt(x + 4.0 * r - k, low + r), pt(x + 4.0 * r, low + r));
    }
    path
}

/// The rows stitched in the flat cloth, all over and under at the same places, threads hanging loose.
///
/// # Errors
/// Where a length is nothing or not finite, or the rows are none or more than 40.
pub fn cartridge_stitched(input: &CartridgePleats, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let rows = input.rows.min(5);
    let (wide, step, gap) = (62.0, 5.2, (5.2 * input.row_gap.mm() / input.stitch.mm()).clamp(5.0, 9.0));
    let tall = 7.0 + gap * (real(rows) - 1.0) + 12.0;
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Wrong, DOWN);
    s.fold(line(pt(0.0, 0.0), pt(wide, 0.0)));
    s.cut(line(pt(0.0, 0.0), pt(0.0, tall)));
    s.cut(line(pt(wide, 0.0), pt(wide, tall)));
    s.stroke(
        smooth(&[pt(0.0, tall), pt(wide * 0.3, tall + 0.8), pt(wide * 0.65, tall - 0.6), pt(wide, tall)]),
        Pen::THIN,
    );
    s.uses(KeyEntry::HandStitch);
    s.uses(KeyEntry::GatherThread);
    for row in 0..rows {
        let y = 7.0 + gap * real(row);
        let points: Vec<Point> = (0..=10).map(|i| pt(5.0 + step * f64::from(i), y)).collect();
        s.knot(pt(5.0, y));
        s.running(&points);
        s.stroke(line(pt(5.0 + step * 10.0, y), pt(wide, y)), Pen::THREAD);
        s.tail(pt(wide, y), Vec2::new(1.0, 0.05), 13.0);
    }
    let (a, b) = (pt(5.0 + step * 2.0, tall - 5.0), pt(5.0 + step * 3.0, tall - 5.0));
    s.dim(a, b, 0.01, look.set(&input.stitch));
    s.note(Side::Below, pt(4.8, 7.4 + gap * (real(rows) - 1.0)), "knots all at one side");
    s.note(Side::Above, pt(wide * 0.5, 0.0), "fold");
    s.note(Side::Below, pt(wide + 8.0, 7.0 + gap * (real(rows) - 1.0) + 1.4), "tails long enough to hold");
    let line = many(input.rows, "row", "rows");
    let caption = format!(
        "{} of even stitches, {} each. Where one row is over the cloth, every row is over it.",
        capital(&line),
        look.set(&input.stitch)
    );
    let alt = format!(
        "The wrong side of the flat cloth, folded edge at the top. {} of hand stitches run across, {} apart. Each stitch is \
         {} long. The stitches stand straight below each other: all rows go over the cloth together and under it \
         together. Each thread has a knot at the left and a loose tail at the right. The cloth is {} wide in all.",
        capital(&line),
        look.say(&input.row_gap),
        look.say(&input.stitch),
        look.say(&input.flat)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// The pleats drawn up, from the right side: tubes that open toward the hem.
///
/// # Errors
/// As for [`cartridge_stitched`].
pub fn cartridge_drawn_up(input: &CartridgePleats, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let (count, pitch, tall) = (11_usize, 3.6, 46.0);
    let wide = pitch * real(count);
    tubes(&mut s, count, pitch, tall);
    s.uses(KeyEntry::RightSide);
    s.uses(KeyEntry::GatherThread);
    let rows = input.rows.min(4);
    let gap = 5.0;
    for row in 0..rows {
        let y = 5.0 + gap * real(row);
        let mut over = BezPath::new();
        for i in 0..count - 1 {
            let x = pitch * (real(i) + 1.0);
            over.extend(line(pt(x - 0.55, y), pt(x + 0.55, y)));
        }
        s.stroke(over, Pen::THREAD);
        s.knot(pt(-0.4, y));
        s.stroke(line(pt(wide - 0.2, y), pt(wide + 1.6, y)), Pen::THREAD);
    }
    wind(&mut s, pt(wide + 1.6, 5.0), gap, rows);
    s.dim(pt(0.0, -1.0), pt(wide, -1.0), -3.5, look.set(&input.drawn));
    s.note_room = 18.0;
    s.pointer(
        pt(-4.6, 5.0 + gap * (real(rows) - 1.0)),
        Anchor::End,
        pt(-0.9, 5.0 + gap * (real(rows) - 1.0)),
        "knots hold this side",
    );
    s.note_room = 24.0;
    s.note(Side::Right, pt(wide + 8.7, 9.5), "threads wound round a pin in a figure of eight");
    s.note(Side::Right, pt(wide * 1.1, tall - 5.0), "the pleats open toward the hem");
    let caption = format!(
        "Drawn up: {} stand side by side in {}, all of one height, like organ pipes.",
        many(usize::try_from(input.pleats).unwrap_or(usize::MAX), "pleat", "pleats"),
        look.set(&input.drawn)
    );
    let alt = format!(
        "The drawn-up cloth from its right side. The top edge, flat {} wide, now measures {}. It stands in {} narrow upright \
         tubes of one height and one width, each taking {} of the edge. At the top the tubes are tight together; further \
         down, below the last row, they open softly and grow wider. The knots lie at the left; at the right the threads \
         are wound round a pin.",
        look.say(&input.flat),
        look.say(&input.drawn),
        input.pleats,
        look.say(&input.pitch)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// Upright tubes from the front: round heads, light from the left, opening downward.
pub(crate) fn tubes(s: &mut Scene, count: usize, pitch: f64, tall: f64) {
    let wide = pitch * real(count);
    let spread_at = |t: f64| 1.0 + 0.42 * soft((t - 0.3) / 0.7).powf(1.3);
    let x = |u: f64, t: f64| wide / 2.0 + (u * pitch - wide / 2.0) * spread_at(t);
    let foot = |i: usize| tall + quirk(i, 7) * 0.5;
    let mut outline = vec![];
    for i in 0..count {
        for t in steps(8) {
            let u = real(i) + t;
            outline.push(pt(x(u, 0.0), -((t * std::f64::consts::PI).sin().max(0.0).sqrt()) * 1.25));
        }
    }
    let right: Vec<Point> = steps(20).skip(1).map(|t| pt(x(real(count), t), tall * t)).collect();
    outline.extend(&right);
    let mut hem = vec![];
    for i in (0..count).rev() {
        for t in steps(8).rev() {
            hem.push(pt(x(real(i) + t, 1.0), foot(i) + (t * std::f64::consts::PI).sin() * 1.5));
        }
    }
    outline.extend(&hem);
    outline.extend(steps(20).rev().map(|t| pt(x(0.0, t), tall * t)));
    s.fill(closed(&outline), Paint::Tint);
    for i in 0..count {
        let flank = |share: f64| -> Vec<Point> {
            let edge =
                steps(24).map(|t| pt(x(real(i) + 1.0, t), tall * t + if t >= 1.0 { foot(i) - tall } else { 0.0 }));
            let inner = steps(24).rev().map(|t| {
                let dip = (share * std::f64::consts::PI).sin() * 1.5 * soft((t - 0.9) * 10.0);
                pt(x(real(i) + 1.0 - share * (0.8 + 0.2 * t), t), tall * t + dip)
            });
            edge.chain(inner).collect()
        };
        s.fill(closed(&flank(0.42)), Paint::Half);
        s.fill(closed(&flank(0.2)), Paint::Shade);
    }
    for i in 0..=count {
        let points: Vec<Point> = steps(30).map(|t| pt(x(real(i), t), (tall - 0.2) * t)).collect();
        if i == 0 || i == count {
            s.brush(&points, |_| 0.5);
        } else {
            s.brush(&points, |t| 0.5 - 0.3 * (t * std::f64::consts::PI).sin());
        }
    }
    for i in 0..count {
        let head: Vec<Point> = steps(12)
            .map(|t| pt(x(real(i) + t, 0.0), -((t * std::f64::consts::PI).sin().max(0.0).sqrt()) * 1.25))
            .collect();
        s.brush(&head, |_| 0.5);
    }
    s.brush(&hem, |_| 0.5);
    s.uses(KeyEntry::FoldedEdge);
}

/// Threads wound round a pin.
fn wind(s: &mut Scene, at: Point, gap: f64, rows: usize) {
    let deep = gap * (real(rows) - 1.0);
    let centre = at + Vec2::new(6.5, deep / 2.0);
    for row in 0..rows {
        let y = at.y + gap * real(row);
        s.stroke(
            smooth(&[pt(at.x, y), lerp_point(pt(at.x, y), centre, 0.6), centre + Vec2::new(0.4, 0.0)]),
            Pen::THREAD,
        );
    }
    for sign in [1.0, -1.0] {
        let eight = smooth(&[
            centre + Vec2::new(0.0, 3.4),
            centre + Vec2::new(1.7 * sign, 1.9),
            centre,
            centre + Vec2::new(-1.7 * sign, -1.9),
            centre + Vec2::new(0.0, -3.4),
        ]);
        s.stroke(eight, Pen::THREAD);
    }
    s.pin(centre + Vec2::new(0.0, -5.2), Vec2::new(0.0, 1.0), 11.0);
}

fn lerp_point(a: Point, b: Point, t: f64) -> Point {
    pt(lerp(a.x, b.x, t), lerp(a.y, b.y, t))
}

/// The drawn-up top edge seen from above: a row of narrow loops.
///
/// # Errors
/// As for [`cartridge_stitched`].
pub fn cartridge_above(input: &CartridgePleats, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let (pitch, depth) = input.tube(5.2);
    let count = 9;
    let path = loops(0.0, 0.0, count, pitch, depth);
    s.section_of(&path, Up::Right, false, (true, true), 0.9);
    let y = depth * 0.5;
    let wide = pitch * real(count);
    s.stroke(line(pt(-2.0, y), pt(wide + 1.5, y)), Pen::THREAD);
    s.uses(KeyEntry::GatherThread);
    s.knot(pt(-2.2, y));
    s.tail(pt(wide + 1.5, y), Vec2::new(1.0, 0.2), 11.0);
    let a = pt(pitch * 2.5, 0.0);
    s.dim(a, a + Vec2::new(pitch, 0.0), -4.0, look.set(&input.pitch));
    s.dim(pt(wide + 1.0, depth + 0.5), pt(wide + 1.0, -0.5), 14.0, look.two(&input.stitch));
    s.note(Side::Above, pt(pitch * 6.5, -0.5), "outer crests: these are sewn to the band");
    s.note(Side::Below, pt(pitch * 3.0, depth + 0.5), "inner crests hang free");
    s.note(Side::Below, pt(pitch * 0.5, depth * 0.8), "wrong side inside");
    let caption = format!(
        "From above the edge is a row of narrow loops, {} deep. Each outer crest takes {} of the seam.",
        look.set(&input.stitch),
        look.set(&input.pitch)
    );
    let alt = format!(
        "Looking straight down on the drawn-up edge. The cloth runs to and fro in narrow loops like a folded strip, each loop \
         {} deep; from one outer crest to the next is {}. The gathering thread runs straight through all the loops at half \
         their depth. The crests at the top of the picture, on the right side of the cloth, will be sewn to the band; those \
         at the bottom stay free.",
        look.say(&input.stitch),
        look.say(&input.pitch)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// The pleats in section against the band: an even wave whose crests touch the seam.
///
/// # Errors
/// As for [`cartridge_stitched`].
pub fn cartridge_section(input: &CartridgePleats, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let (pitch, depth) = input.tube(6.4);
    let count = 7;
    let wide = pitch * real(count);
    let path = loops(0.0, 0.0, count, pitch, depth);
    let band = line(pt(-5.0, -1.6), pt(wide + 5.0, -1.6));
    s.section_of(&band, Up::Right, true, (false, false), 1.6);
    s.section_of(&path, Up::Right, false, (false, false), 1.3);
    for i in 0..count {
        let x = pitch * (real(i) + 0.5);
        s.stroke(smooth(&[pt(x - 0.5, -2.9), pt(x + 0.7, -1.2), pt(x, 1.3)]), Pen::THREAD);
        s.fill(circle(pt(x - 0.5, -2.9), 0.4), Paint::Ink);
    }
    s.uses(KeyEntry::HandStitch);
    let a = pt(pitch * 1.5, -2.4);
    s.dim(a, a + Vec2::new(pitch, 0.0), -4.5, look.set(&input.pitch));
    s.dim(pt(0.0, depth + 0.6), pt(0.0, -0.6), -6.5, look.two(&input.stitch));
    s.note(Side::Right, pt(wide + 4.4, -1.9), "band");
    s.note(Side::Above, pt(pitch * 5.0 + pitch * 0.5 - 0.4, -3.2), "one stitch a pleat");
    s.note(Side::Right, pt(wide - pitch * 0.5, depth * 0.5), "skirt, in section");
    let caption = format!(
        "In section: an even wave. Every crest touches the band and is held by a stitch of its own; a pleat takes {}.",
        look.set(&input.pitch)
    );
    let alt = format!(
        "A cut through band and pleats, seen from above. The band is a straight line at the top, its right side toward the pleats. The skirt runs below it in an \
         even wave, {} deep. Each outer crest just touches the band and is sewn to it by one stitch; the crests are {} \
         apart. The inner crests hang free, {} away from the band. There are {} pleats in all.",
        look.say(&input.stitch),
        look.say(&input.pitch),
        look.say(&input.stitch),
        input.pleats
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// The pleats sewn to the edge of the band one by one, with the path of the needle.
///
/// # Errors
/// As for [`cartridge_stitched`].
pub fn cartridge_sewn(input: &CartridgePleats, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let (pitch, depth) = input.tube(7.5);
    let (count, sewn) = (7_usize, 3_usize);
    let wide = pitch * real(count);
    let band = rect(-4.0, -14.0, wide + 4.0, -0.6);
    s.cloth(band, Up::Right, DOWN);
    s.fold(line(pt(-4.0, -0.6), pt(wide + 4.0, -0.6)));
    s.stroke(polyline(&[pt(-4.0, -0.6), pt(-4.0, -14.0)]), Pen::THIN);
    s.stroke(polyline(&[pt(wide + 4.0, -0.6), pt(wide + 4.0, -14.0)]), Pen::THIN);
    let path = loops(0.0, 0.0, count, pitch, depth);
    s.section_of(&path, Up::Right, false, (false, false), 1.2);
    s.uses(KeyEntry::HandStitch);
    let (up, crest) = (-2.6, 1.6);
    let at = |i: usize| pitch * (real(i) + 0.5);
    s.knot(pt(at(0) - 0.9, up));
    for i in 0..=sewn {
        let x = at(i);
        s.stroke(line(pt(x - 0.9, up), pt(x + 0.9, crest)), Pen::THREAD);
        if i < sewn {
            let under = [pt(x + 0.9, crest), pt(lerp(x, at(i + 1), 0.5), (up + crest) / 2.0), pt(at(i + 1) - 0.9, up)];
            s.stroke(polyline(&under), Pen::THREAD_UNDER);
        }
    }
    let out = pt(at(sewn) + 0.9, crest);
    let next = pt(at(sewn + 1) - 0.9, up);
    s.stroke(polyline(&[out, next]), Pen::THREAD_UNDER);
    let point = next + Vec2::new(7.0, -7.0);
    let eye = s.needle(point, Vec2::new(1.0, -0.9), 12.0);
    s.stroke(smooth(&[next, next + Vec2::new(-0.6, -1.0), eye + Vec2::new(-0.6, -0.6), eye]), Pen::THREAD);
    let far = at(sewn + 2);
    s.arrow(&[pt(far + 2.0, -8.5), pt(far + 12.0, -8.5)]);
    s.callout("A", pt(at(2) - 0.9, up - 5.4), "out of the band, a thread or two above its edge");
    s.stroke(line(pt(at(2) - 0.9, up - 3.1), pt(at(2) - 0.9, up - 0.7)), Pen::LEADER);
    s.callout("B", pt(at(1), depth + 5.0), "down through the outer crest of the pleat, never through its depth");
    s.stroke(line(pt(at(1), depth + 2.7), pt(at(1) + 0.55, crest + 1.0)), Pen::LEADER);
    s.callout("C", pt(at(sewn), depth + 5.0), "on to the next pleat, drawing the stitch snug");
    s.stroke(line(pt(at(sewn), depth + 2.7), pt(at(sewn) + 0.55, crest + 1.0)), Pen::LEADER);
    s.note(Side::Left, pt(-3.6, -7.0), "band, right side");
    s.note(Side::Left, pt(0.3, depth - 0.8), "pleats, from above");
    let title = look.set(&input.pitch);
    s.dim(pt(at(sewn + 2), -14.2), pt(at(sewn + 3), -14.2), -3.5, title);
    let caption = format!(
        "One stitch a pleat: out of the band (A), down through the crest (B), on to the next (C). {} to a pleat.",
        look.set(&input.pitch)
    );
    let alt = format!(
        "The band lies at the top with its folded edge toward the pleats, which are seen from above as loops. A strong thread \
         begins with a knot in the band and whips over edge and crest, one slanting stitch a pleat; between stitches it \
         runs hidden. Three pleats are sewn, the needle stands in the fourth. From crest to crest is {}; {} pleats are \
         sewn in all.",
        look.say(&input.pitch),
        input.pleats
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
