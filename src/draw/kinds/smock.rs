//! Smocking: the grid, the rows drawn up, tied off, let out, and pulled to a point.

use kurbo::{Point, Vec2};

use super::super::figure::{Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{circle, closed, lerp, line, polyline, pt, real, rect, smooth, soft, steps};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, sound};

/// How far the smocking has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SmockStage {
    /// Dots marked on the flat cloth.
    Grid,
    /// Rows drawn up.
    DrawnUp,
    /// Threads tied off in pairs.
    Tied,
    /// Rows let out by different amounts, to shape the panel.
    LetOut,
    /// Rows pulled down to a point at the centre.
    Pointed,
}

/// A smocked panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Smocking {
    /// How far it has come.
    pub stage: SmockStage,
    /// How many rows.
    pub rows: usize,
    /// Distance between dots.
    pub stitch: Measure,
    /// Distance between rows.
    pub row_gap: Measure,
    /// Width flat.
    pub flat: Measure,
    /// Length of each row when done, first at the top; one length serves for all.
    pub lengths: Vec<Measure>,
    /// How far the centre is pulled down; for [`SmockStage::Pointed`].
    pub drop: Option<Measure>,
}

/// A smocked panel at one stage of its work.
///
/// # Errors
/// Where a length is nothing or not finite, rows are not 2 to 40, no row length is given, or a point has no drop.
pub fn smocking(input: &Smocking, look: &Look) -> Drawn {
    let mut lengths =
        vec![("stitch", input.stitch.length), ("row_gap", input.row_gap.length), ("flat", input.flat.length)];
    lengths.extend(input.lengths.iter().map(|l| ("lengths", l.length)));
    lengths.extend(input.drop.iter().map(|d| ("drop", d.length)));
    sound(&lengths)?;
    counted("rows", input.rows, 2, 40)?;
    let Some(first) = input.lengths.first() else {
        return Err(Undrawable("expected a length for the rows, but found none".into()));
    };
    let last = input.lengths.last().unwrap_or(first);
    let mut s = Scene::new(look);
    let rows = input.rows.min(6);
    match input.stage {
        SmockStage::Grid => grid(&mut s, input, look, rows),
        SmockStage::DrawnUp | SmockStage::Tied => straight(&mut s, input, look, rows, first),
        SmockStage::LetOut => {
            let longest = first.mm().max(last.mm());
            let (top, foot) = (50.0 * first.mm() / longest, 50.0 * last.mm() / longest);
            panel(&mut s, rows, top.max(12.0), foot.max(12.0), 0.0);
            s.dim(pt(-top / 2.0, -1.4), pt(top / 2.0, -1.4), -3.5, look.set(first));
            let low = 5.0 + 6.0 * (real(rows) - 1.0);
            s.note(Side::Right, pt(foot / 2.0, low), format!("last row let out to {}", look.set(last)));
            s.note(Side::Left, pt(-top / 2.0, 5.0), "first row stays tight");
        }
        SmockStage::Pointed => {
            let Some(drop) = &input.drop else {
                return Err(Undrawable("expected how far the point is pulled down, but found nothing".into()));
            };
            let deep = (50.0 * drop.mm() / first.mm()).clamp(3.0, 26.0);
            panel(&mut s, rows, 50.0, 50.0, deep);
            s.mark(line(pt(-25.0, 5.0), pt(25.0, 5.0)));
            s.dim(pt(26.5, 5.0 + deep), pt(26.5, 5.0), 4.5, look.two(drop));
            let low = 5.0 + 6.0 * (real(rows) - 1.0) + deep + 13.0;
            s.arrow(&[pt(0.0, low + 2.0), pt(0.0, low + 11.0)]);
            s.note(Side::Left, pt(-12.5, 5.0 + deep * 0.5), "each row slants to the point");
            s.note(Side::Left, pt(-25.0, 5.0), "ends of the rows stay level");
        }
    }
    s.finish(words(input, look, first, last), Scale::NotToScale)
}

fn grid(s: &mut Scene, input: &Smocking, look: &Look, rows: usize) {
    let step = 5.4;
    let gap = (step * input.row_gap.mm() / input.stitch.mm()).clamp(4.5, 11.0);
    let (wide, tall) = (step * 12.0, gap * (real(rows) + 0.4));
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Wrong, DOWN);
    s.stroke(rect(0.0, 0.0, wide, tall), Pen::THIN);
    s.cut(line(pt(0.0, 0.0), pt(wide, 0.0)));
    for row in 0..rows {
        let y = gap * (real(row) + 0.7);
        s.mark(line(pt(1.0, y), pt(wide - 1.0, y)));
        for i in 0..12 {
            s.fill(circle(pt(step * (f64::from(i) + 0.5), y), 0.5), Paint::Ink);
        }
    }
    s.dim(pt(step * 3.5, tall - 0.2), pt(step * 4.5, tall - 0.2), 4.0, look.set(&input.stitch));
    s.dim(pt(0.0, gap * 1.7), pt(0.0, gap * 0.7), -4.5, look.two(&input.row_gap));
    s.note(Side::Right, pt(wide - 0.4, gap * 0.4), "wrong side up");
}

fn straight(s: &mut Scene, input: &Smocking, look: &Look, rows: usize, first: &Measure) {
    panel(s, rows, 50.0, 50.0, 0.0);
    s.dim(pt(-25.0, -1.4), pt(25.0, -1.4), -3.5, look.set(first));
    for row in 0..rows {
        let y = 5.0 + 6.0 * real(row);
        if input.stage == SmockStage::DrawnUp {
            s.tail(pt(25.0, y), Vec2::new(1.0, 0.1), 12.0);
        } else if row % 2 == 1 {
            let above = y - 6.0;
            let tie = pt(29.0, (y + above) / 2.0);
            s.stroke(smooth(&[pt(25.0, above), pt(27.5, above + 1.0), tie]), Pen::THREAD);
            s.stroke(smooth(&[pt(25.0, y), pt(27.5, y - 1.0), tie]), Pen::THREAD);
            s.fill(circle(tie, 0.95), Paint::Ink);
            s.stroke(polyline(&[tie, tie + Vec2::new(3.2, -1.2)]), Pen::THREAD);
            s.stroke(polyline(&[tie, tie + Vec2::new(3.2, 1.2)]), Pen::THREAD);
        } else if row + 1 == rows {
            s.knot(pt(25.4, y));
        }
    }
    if input.stage == SmockStage::DrawnUp {
        s.note(Side::Left, pt(-25.4, 5.0), "knots");
        s.note(
            Side::Right,
            pt(36.6, 5.0 + 6.0 * (real(rows) - 1.0) + 1.2),
            "pull all rows together, a little at a time",
        );
    } else {
        s.note(Side::Right, pt(29.9, 8.0), "two threads, one knot");
    }
}

/// Narrow pleats held by rows; `top` and `foot` wide, the middle pulled down by `deep`.
fn panel(s: &mut Scene, rows: usize, top: f64, foot: f64, deep: f64) {
    s.uses(KeyEntry::RightSide);
    s.uses(KeyEntry::GatherThread);
    let held = 5.0 + 6.0 * (real(rows) - 1.0);
    let tall = held + 13.0;
    let count = 21;
    let drop = |u: f64| deep * (1.0 - u.abs());
    let width = |y: f64| {
        let inner = lerp(top, foot, ((y - 5.0) / (held - 5.0).max(1.0)).clamp(0.0, 1.0));
        inner * (1.0 + 0.3 * soft((y - held) / (tall - held)))
    };
    let at = |u: f64, y: f64| pt(u * width(y) / 2.0, y + drop(u));
    let side = |u: f64| steps(30).map(move |t| at(u, tall * t));
    let mut area: Vec<Point> = side(-1.0).collect();
    area.extend(steps(20).map(|t| at(-1.0 + 2.0 * t, tall)));
    area.extend(side(1.0).rev());
    area.extend(steps(20).rev().map(|t| at(-1.0 + 2.0 * t, 0.0)));
    s.fill(closed(&area), Paint::Tint);
    for i in 0..count {
        let (a, b) = (-1.0 + 2.0 * real(i) / real(count), -1.0 + 2.0 * (real(i) + 1.0) / real(count));
        let shade: Vec<Point> = side(b).chain(side(lerp(b, a, 0.4)).rev()).collect();
        s.fill(closed(&shade), Paint::Half);
        let points: Vec<Point> = side(b).collect();
        if i + 1 < count {
            s.brush(&points, |t| 0.3 - 0.14 * soft(t));
        }
    }
    for u in [-1.0, 1.0] {
        s.brush(&side(u).collect::<Vec<_>>(), |_| 0.5);
    }
    s.brush(&steps(40).map(|t| at(-1.0 + 2.0 * t, 0.0)).collect::<Vec<_>>(), |_| 0.7);
    s.brush(&steps(40).map(|t| at(-1.0 + 2.0 * t, tall)).collect::<Vec<_>>(), |_| 0.3);
    for row in 0..rows {
        let y = 5.0 + 6.0 * real(row);
        for i in 0..=count {
            let u = -1.0 + 2.0 * real(i) / real(count);
            let half = 0.4 / real(count);
            s.stroke(line(at((u - half).max(-1.0), y), at((u + half).min(1.0), y)), Pen::THREAD);
        }
        s.knot(at(-1.0, y) - Vec2::new(0.3, 0.0));
    }
}

fn words(input: &Smocking, look: &Look, first: &Measure, last: &Measure) -> Words {
    let rows = many(input.rows, "row", "rows");
    let (set, say) = (|m: &Measure| look.set(m), |m: &Measure| look.say(m));
    let (caption, alt) = match input.stage {
        SmockStage::Grid => (
            format!("The smocking grid on the wrong side: {rows} of dots, {} apart along the row.", set(&input.stitch)),
            format!(
                "The wrong side of the flat cloth, {} wide, with {rows} of dots. Along a row the dots are {} apart; the rows are {} apart. The dots of \
                 all rows stand straight above each other.",
                say(&input.flat),
                say(&input.stitch),
                say(&input.row_gap)
            ),
        ),
        SmockStage::DrawnUp => (
            format!("The rows drawn up, from {} to {}.", set(&input.flat), set(first)),
            format!(
                "The panel drawn up by its {rows}: flat {} wide, it now measures {}. Narrow upright pleats stand close together, held by the threads; \
                 knots at the left, loose tails at the right, below the last row the cloth opens.",
                say(&input.flat),
                say(first)
            ),
        ),
        SmockStage::Tied => (
            format!("The threads tied off in pairs at {}.", set(first)),
            format!(
                "The panel drawn up to {}. At the right the thread of each odd row is tied to the thread of the row below it, one knot for two \
                 threads, close to the cloth, ends cut short. There are {rows}.",
                say(first)
            ),
        ),
        SmockStage::LetOut => (
            format!("The rows let out: the first {}, the last {}.", set(first), set(last)),
            format!(
                "The panel with its {rows} let out one after another. The first row at the top measures {}, the last one {}; the rows between change \
                 evenly, so that the panel widens like a fan and the pleats spread with it.",
                say(first),
                say(last)
            ),
        ),
        SmockStage::Pointed => {
            let d = input.drop.as_ref();
            (
                format!("The rows pulled down to a point by {}.", d.map_or_else(String::new, set)),
                format!(
                    "The smocked panel, {} wide, {rows}. Its middle is pulled down by {} while the ends of the rows stay level, so that each row runs \
                     slanting from both sides to a point in the middle. A dotted line shows where the first row ran before.",
                    say(first),
                    d.map_or_else(String::new, say)
                ),
            )
        }
    };
    Words { caption: capital(&caption), alt }
}
