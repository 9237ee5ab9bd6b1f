//! The marking grid for rows of even stitches, at true size where it fits.

use kurbo::Vec2;

use super::super::figure::{Drawn, Measure, Scale};
use super::super::geom::{line, polyline, pt, real, rect, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, scale_for, sound};

/// Rows and guide lines to be marked before stitching.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkingGrid {
    /// How many rows.
    pub rows: usize,
    /// Length of a stitch, from dot to dot.
    pub stitch: Measure,
    /// Distance between rows.
    pub row_gap: Measure,
    /// Distance of the first row from the top edge.
    pub first: Measure,
    /// An upright guide line every so many stitches.
    pub guide_every: usize,
    /// Whether the top edge is a fold (else it is raw).
    pub folded: bool,
}

/// The wrong side of the cloth with rows, dots, guide lines, and the rows partly stitched.
///
/// # Errors
/// Where a length is nothing or not finite, or there are no rows or more than 40.
pub fn marking_grid(input: &MarkingGrid, look: &Look) -> Drawn {
    sound(&[("stitch", input.stitch.length), ("row_gap", input.row_gap.length), ("first", input.first.length)])?;
    counted("rows", input.rows, 1, 40)?;
    counted("guide_every", input.guide_every, 1, 200)?;
    let shown = input.rows.min(6);
    let tall = input.first.mm() + input.row_gap.mm() * (real(shown) - 1.0) + input.row_gap.mm() * 0.8;
    let n = scale_for(input.stitch.mm() * 7.0, tall, (66.0, 70.0));
    let (stitch, gap, first) = (input.stitch.mm() / n, input.row_gap.mm() / n, input.first.mm() / n);
    let cols = whole(62.0 / stitch, 7, 40) - 1;
    let (left, right) = (0.0, stitch * (real(cols) + 1.4));
    let bottom = tall / n;
    let mut s = Scene::new(look);
    let cloth = rect(left, 0.0, right, bottom);
    s.cloth(cloth, Up::Wrong, DOWN);
    let torn: Vec<_> =
        (0..=24).map(|i| pt(right * f64::from(i) / 24.0, bottom + if i % 2 == 0 { 0.0 } else { 0.7 })).collect();
    s.stroke(polyline(&torn), super::super::pen::Pen::THIN);
    s.cut(line(pt(left, 0.0), pt(left, bottom)));
    s.stroke(line(pt(right, 0.0), pt(right, bottom)), super::super::pen::Pen::THIN);
    let top = line(pt(left, 0.0), pt(right, 0.0));
    if input.folded {
        s.fold(top)
    } else {
        s.cut(top)
    }
    let x = |i: usize| stitch * (real(i) + 0.7);
    for i in (0..=cols).step_by(input.guide_every) {
        s.mark(line(pt(x(i), 1.0), pt(x(i), bottom - 0.8)));
    }
    let stitched = cols / 2;
    for row in 0..shown {
        let y = first + gap * real(row);
        s.mark(line(pt(left + 0.8, y), pt(right - 0.8, y)));
        for i in 0..=cols {
            s.fill(super::super::geom::circle(pt(x(i), y), 0.45), Paint::Ink);
        }
        s.uses(super::super::figure::KeyEntry::HandStitch);
        s.uses(super::super::figure::KeyEntry::GatherThread);
        let points: Vec<_> = (0..=stitched).map(|i| pt(x(i), y)).collect();
        s.knot(pt(x(0), y));
        s.running(&points);
    }
    let y0 = first;
    let end = pt(x(stitched), y0);
    let tip = end + Vec2::new(15.0_f64.min(right - end.x - 1.0).max(6.0), -first.min(5.0) * 0.7);
    let eye = s.needle(tip, tip - end, 11.0);
    s.stroke(super::super::geom::smooth(&[end, end + Vec2::new(1.0, -0.4), eye]), super::super::pen::Pen::THREAD);
    dims(&mut s, input, look, (stitch, gap, first), (cols, shown, right, bottom));
    let more = if input.rows > shown {
        format!(" The first {shown} of {} rows are drawn.", input.rows)
    } else {
        String::new()
    };
    let rows = many(input.rows, "row", "rows");
    let edge = if input.folded { "fold" } else { "top edge" };
    let caption = format!(
        "The marking grid on the wrong side: {rows} of dots {} apart, the dots of all rows exactly above each other.{more}",
        look.set(&input.stitch)
    );
    let alt = format!(
        "The wrong side of the cloth, its {edge} at the top. {} of dots run across it. The first row lies {} below the \
         {edge}; the rows are {} apart. Along a row the dots are {} apart, and the dots of every row stand straight below \
         those of the first. An upright guide line is drawn every {} stitches. In the left half the rows are already \
         stitched: the thread starts with a knot, lies on the cloth from one dot to the next, then under it to the next \
         dot, and all rows go over and under at the same places.{more}",
        capital(&rows),
        look.say(&input.first),
        look.say(&input.row_gap),
        look.say(&input.stitch),
        input.guide_every
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

fn dims(
    s: &mut Scene,
    input: &MarkingGrid,
    look: &Look,
    (stitch, gap, first): (f64, f64, f64),
    (cols, shown, right, bottom): (usize, usize, f64, f64),
) {
    s.dim(pt(0.0, first), pt(0.0, 0.0), -5.0, look.two(&input.first));
    if shown > 1 {
        let lift = if (first + gap) / 2.0 < 8.0 { 1 } else { 0 };
        let row = real(lift.min(shown - 2));
        let (a, b) = (first + gap * (row + 1.0), first + gap * row);
        if f64::midpoint(a, b) - first / 2.0 > 8.0 {
            s.dim(pt(0.0, a), pt(0.0, b), -5.0, look.two(&input.row_gap));
        } else {
            s.dim(pt(right, a), pt(right, b), 5.0, look.two(&input.row_gap));
        }
    }
    let x = |i: usize| stitch * (real(i) + 0.7);
    let last_guide = (0..=cols).step_by(input.guide_every).last().unwrap_or(0);
    let at = if last_guide < 4 { cols.saturating_sub(2) } else { 1 };
    s.dim(pt(x(at), bottom), pt(x(at + 1), bottom), 4.5, look.set(&input.stitch));
    let guide =
        pt(x(last_guide), first + gap * (real(shown) - 1.0) + (bottom - first - gap * (real(shown) - 1.0)) * 0.6);
    let every = match input.guide_every {
        1 => "guide line at every stitch".to_string(),
        n => format!("guide line every {n} stitches"),
    };
    s.note(Side::Below, guide, every);
    s.note(Side::Above, pt(right * 0.25, first * 0.45), "wrong side up");
    let words = if input.folded { "fold" } else { "cut edge" };
    s.note(Side::Above, pt(right * 0.75, 0.0), words);
}
