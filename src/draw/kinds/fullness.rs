//! Gathering rows and what they hold: rows flat and drawn up, ruffles on an edge.

use kurbo::{Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{closed, lerp, line, pt, quirk, real, rect, soft, steps, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, sound};

/// Cloth falling from a gathered head at `at`, `wide` by `tall`; `flare` is how much wider it is at the foot.
/// The folds are uneven, as gathers are, and rise from the head and from the hem.
pub(crate) fn gathered(s: &mut Scene, at: Point, wide: f64, tall: f64, folds: usize, flare: f64) {
    let folds = folds.max(3);
    let x = |u: f64, t: f64| at.x + wide / 2.0 + (u - 0.5) * wide * (1.0 + flare * soft(t));
    // Uneven places of the valleys between folds.
    let places: Vec<f64> = (0..=folds)
        .map(|i| {
            let even = real(i) / real(folds);
            if i == 0 || i == folds { even } else { even + quirk(i, 3) * 0.28 / real(folds) }
        })
        .collect();
    let deep = (wide / real(folds) * 0.32).clamp(0.5, 1.7);
    let mut hem = Vec::new();
    for pair in places.windows(2) {
        for t in steps(8) {
            hem.push(pt(
                x(lerp(pair[0], pair[1], t), 1.0),
                at.y + tall + (t * std::f64::consts::PI).sin() * deep - deep * 0.5,
            ));
        }
    }
    let mut outline: Vec<Point> = vec![pt(x(0.0, 0.0), at.y), pt(x(1.0, 0.0), at.y)];
    outline.extend(steps(12).skip(1).map(|t| pt(x(1.0, t), at.y + (tall - deep * 0.5) * t)));
    outline.extend(hem.iter().rev());
    outline.extend(steps(12).rev().map(|t| pt(x(0.0, t), at.y + (tall - deep * 0.5) * t)));
    s.uses(KeyEntry::RightSide);
    s.fill(closed(&outline), Paint::Tint);
    for i in 1..=folds {
        let width = places[i] - places[i - 1];
        let top = 0.1 + 0.3 * (quirk(i, 11) + 1.0) / 2.0;
        let band = |share: f64| -> Vec<Point> {
            let edge = steps(14).map(|t| lerp(top, 1.0, t)).map(|t| pt(x(places[i], t), at.y + tall * t - deep * 0.5));
            let inner = steps(14).rev().map(|k| {
                let t = lerp(top, 1.0, k);
                pt(
                    x(places[i] - width * share * k, t),
                    at.y + tall * t - deep * 0.5
                        + soft((t - 0.92) * 12.5) * deep * (share * std::f64::consts::PI).sin(),
                )
            });
            edge.chain(inner).collect()
        };
        s.fill(closed(&band(0.5)), Paint::Half);
        s.fill(closed(&band(0.22)), Paint::Shade);
    }
    let heavy = (wide / real(folds) * 0.19).clamp(0.16, 0.42);
    for i in 1..folds {
        let from_head = 0.22 + 0.4 * (quirk(i, 5) + 1.0) / 2.0;
        let head: Vec<Point> = steps(16).map(|k| k * from_head).map(|t| pt(x(places[i], t), at.y + tall * t)).collect();
        s.brush(&head, |t| heavy * (1.0 - t) + 0.03);
        let from_hem = 0.3 + 0.35 * (quirk(i, 6) + 1.0) / 2.0;
        let foot: Vec<Point> =
            steps(16).map(|k| 1.0 - k * from_hem).map(|t| pt(x(places[i], t), at.y + tall * t - deep * 0.5)).collect();
        s.brush(&foot, |t| heavy * (1.0 - t) + 0.03);
        let short = (places[i] + places[i - 1]) / 2.0;
        let pucker: Vec<Point> =
            steps(10).map(|k| k * (0.1 + 0.08 * quirk(i, 9))).map(|t| pt(x(short, t), at.y + tall * t)).collect();
        s.brush(&pucker, |t| heavy * 0.7 * (1.0 - t) + 0.03);
    }
    for side in [0.0, 1.0] {
        let edge: Vec<Point> = steps(14).map(|t| pt(x(side, t), at.y + (tall - deep * 0.5) * t)).collect();
        s.brush(&edge, |_| 0.5);
    }
    s.brush(&hem, |_| 0.5);
}

/// Rows of gathering.
#[derive(Debug, Clone, PartialEq)]
pub struct GatherRows {
    /// How many rows.
    pub rows: usize,
    /// Distance between rows.
    pub row_gap: Measure,
    /// Distance of the first row from the cut edge.
    pub first: Measure,
    /// Width flat.
    pub flat: Measure,
    /// Width drawn up.
    pub drawn: Measure,
}

fn shorter(flat: &Measure, drawn: &Measure) -> Result<(), Undrawable> {
    if drawn.mm() < flat.mm() {
        Ok(())
    } else {
        Err(Undrawable("expected the drawn-up width to be less than the flat one, but it is not".into()))
    }
}

/// Gathering rows before and after drawing up, widths in true proportion.
///
/// # Errors
/// Where a length is nothing or not finite, or drawn up is not less than flat.
pub fn gather_rows(input: &GatherRows, look: &Look) -> Drawn {
    sound(&[
        ("row_gap", input.row_gap.length),
        ("first", input.first.length),
        ("flat", input.flat.length),
        ("drawn", input.drawn.length),
    ])?;
    shorter(&input.flat, &input.drawn)?;
    counted("rows", input.rows, 1, 12)?;
    let mut s = Scene::new(look);
    let (wide, tall) = (66.0, 24.0);
    let rows = input.rows.min(4);
    let gap = (5.0 * input.row_gap.mm() / input.first.mm()).clamp(3.0, 5.0);
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Right, DOWN);
    s.cut(line(pt(0.0, 0.0), pt(wide, 0.0)));
    s.cut(line(pt(0.0, 0.0), pt(0.0, tall)));
    s.cut(line(pt(wide, 0.0), pt(wide, tall)));
    s.fold(line(pt(0.0, tall), pt(wide, tall)));
    s.uses(KeyEntry::GatherThread);
    let y = |row: usize| 5.0 + gap * real(row);
    for row in 0..rows {
        let points: Vec<Point> = (0..=40).map(|i| pt(1.5 + (wide - 3.0) * f64::from(i) / 40.0, y(row))).collect();
        s.knot(pt(1.5, y(row)));
        s.running(&points);
        s.tail(pt(wide - 1.5, y(row)), Vec2::new(1.0, 0.12), 9.0);
    }
    s.dim(pt(0.0, -0.5), pt(wide, -0.5), -3.0, look.set(&input.flat));
    s.dim(pt(0.0, 5.0), pt(0.0, 0.0), -4.5, look.two(&input.first));
    if rows > 1 {
        let apart = format!("rows {} apart", look.set(&input.row_gap));
        s.pointer(pt(10.0, tall + 5.4), Anchor::Middle, pt(6.0, y(rows - 1)), apart);
    }
    let share = (input.drawn.mm() / input.flat.mm()).clamp(0.12, 0.95);
    let narrow = wide * share;
    let left = (wide - narrow) / 2.0;
    let top = tall + if rows > 1 { 20.0 } else { 16.0 };
    gathered(&mut s, pt(left, top), narrow, tall, whole(narrow / 2.6, 4, 24), 0.18);
    s.cut(line(pt(left, top), pt(left + narrow, top)));
    for row in 0..rows {
        let at = top + y(row);
        s.stroke(line(pt(left, at), pt(left + narrow, at)), Pen::THREAD);
        s.knot(pt(left - 0.2, at));
        s.tail(pt(left + narrow, at), Vec2::new(1.0, 0.12), 11.0);
    }
    let a = left + narrow + 14.0;
    s.arrow(&[pt(a, top + y(rows - 1) / 2.0 + 2.5), pt(a + 10.0, top + y(rows - 1) / 2.0 + 2.5)]);
    s.dim(pt(left, top - 0.5), pt(left + narrow, top - 0.5), -3.0, look.set(&input.drawn));
    let ratio = input.flat.mm() / input.drawn.mm();
    let caption = format!(
        "{} of stitches, then drawn up from {} to {}.",
        capital(&many(input.rows, "row", "rows")),
        look.set(&input.flat),
        look.set(&input.drawn)
    );
    let alt = format!(
        "Above, the flat edge, {} wide, right side up, with {} of stitches: the first {} below the cut edge, rows {} apart. \
         Every thread is knotted at the left and hangs free at the right. Below, the threads are pulled to the right all \
         together and the same edge measures {}, {ratio:.2} times shorter; small soft folds fall from it, spread evenly.",
        look.say(&input.flat),
        many(input.rows, "row", "rows"),
        look.say(&input.first),
        look.say(&input.row_gap),
        look.say(&input.drawn)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// A ruffle or flounce and the edge it is sewn to.
#[derive(Debug, Clone, PartialEq)]
pub struct Ruffle {
    /// What it is called: `flounce`.
    pub name: String,
    /// Length of the strip, flat.
    pub flat: Measure,
    /// Length of the edge it is drawn up to.
    pub edge: Measure,
    /// Its depth, finished.
    pub depth: Measure,
    /// Into how many equal parts strip and edge are marked.
    pub parts: usize,
}

impl Ruffle {
    fn check(&self) -> Result<(), Undrawable> {
        sound(&[("flat", self.flat.length), ("edge", self.edge.length), ("depth", self.depth.length)])?;
        shorter(&self.flat, &self.edge)?;
        counted("parts", self.parts, 2, 32)
    }
}

/// The strip and its edge, both marked in equal parts, mark to go to mark. Lengths in true proportion.
///
/// # Errors
/// Where a length is nothing or not finite, the strip is not longer than its edge, or parts are not 2 to 32.
pub fn ruffle_marks(input: &Ruffle, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let wide = 84.0;
    let short = wide * (input.edge.mm() / input.flat.mm()).clamp(0.15, 0.95);
    let left = (wide - short) / 2.0;
    s.cloth(rect(left, 0.0, left + short, 15.0), Up::Right, DOWN);
    s.cut(line(pt(left, 15.0), pt(left + short, 15.0)));
    for x in [left, left + short] {
        s.stroke(line(pt(x, 0.0), pt(x, 15.0)), Pen::THIN);
    }
    let top = 33.0;
    s.cloth(rect(0.0, top, wide, top + 13.0), Up::Right, DOWN);
    s.cut(line(pt(0.0, top), pt(wide, top)));
    s.cut(line(pt(0.0, top), pt(0.0, top + 13.0)));
    s.cut(line(pt(wide, top), pt(wide, top + 13.0)));
    s.fold(line(pt(0.0, top + 13.0), pt(wide, top + 13.0)));
    let shown = input.parts.min(8);
    for i in 0..=shown {
        let t = real(i) / real(shown);
        let (a, b) = (pt(left + short * t, 15.0), pt(wide * t, top));
        s.pin(a + Vec2::new(0.0, -5.0), DOWN, 5.0);
        s.pin(b + Vec2::new(0.0, 5.0), -DOWN, 5.0);
        s.stroke(line(a + Vec2::new(0.0, 0.9), b - Vec2::new(0.0, 0.9)), Pen::HIDDEN);
    }
    s.dim(pt(left, 0.0), pt(left + short, 0.0), -3.5, format!("edge: {}", look.set(&input.edge)));
    s.dim(pt(wide, top + 13.4), pt(0.0, top + 13.4), -4.0, format!("{}: {}", input.name, look.set(&input.flat)));
    let parts = if input.parts > shown { format!(" (the drawing shows {shown})") } else { String::new() };
    let caption = format!(
        "Edge and {} each marked in {}{parts}; mark is pinned to mark.",
        input.name,
        many(input.parts, "part", "equal parts")
    );
    let alt = format!(
        "At the top the edge, {} long; below it the {} strip, {} long and {} deep. Both are marked with pins in {} equal \
         parts{parts}. A broken line joins each pin of the edge with the same pin of the strip: those two are pinned together, \
         and the strip is drawn up between them.",
        look.say(&input.edge),
        input.name,
        look.say(&input.flat),
        look.say(&input.depth),
        input.parts
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// The ruffle sewn to its edge, right side.
///
/// # Errors
/// As for [`ruffle_marks`].
pub fn ruffle_sewn(input: &Ruffle, look: &Look) -> Drawn {
    input.check()?;
    let mut s = Scene::new(look);
    let wide = 62.0;
    let deep = 27.0;
    s.cloth(rect(0.0, 0.0, wide, 20.0), Up::Right, DOWN);
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, 20.0)), Pen::THIN);
    }
    let ratio = input.flat.mm() / input.edge.mm();
    gathered(&mut s, pt(0.0, 20.0), wide, deep, whole(wide * ratio / 5.6, 6, 30), 0.12);
    s.fold(line(pt(0.0, 20.0), pt(wide, 20.0)));
    s.machine(line(pt(0.0, 18.6), pt(wide, 18.6)));
    s.dim(pt(wide * 1.06, 20.0 + deep), pt(wide * 1.06, 20.0), 3.0, look.two(&input.depth));
    s.note(Side::Left, pt(0.6, 18.6), "stitched from the right side, seam allowances pressed up");
    s.note(Side::Left, pt(4.0, 30.0), input.name.clone());
    let caption =
        format!("The {} sewn on: {} of it on {} of edge.", input.name, look.set(&input.flat), look.set(&input.edge));
    let alt = format!(
        "The right side of the finished edge. The {} hangs from it, {} deep, in soft uneven folds that begin at the seam and open \
         toward its lower edge; {} of strip are held in by {} of edge, {ratio:.2} to 1. Above the seam a row of machine \
         stitches holds the seam allowances, which are pressed up, away from the folds.",
        input.name,
        look.say(&input.depth),
        look.say(&input.flat),
        look.say(&input.edge)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
