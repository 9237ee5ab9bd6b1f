//! Gathering threads fastened for good: tied in pairs with a flat knot.

use kurbo::{Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, Scale};
use super::super::geom::{circle, line, pt, real, rect, smooth};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many};

/// Which threads are tied together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TiedPairs {
    /// The thread of one half to that of the same row in the other half.
    Halves,
    /// Two rows of one end.
    Rows,
}

/// Rows of threads to be fastened.
#[derive(Debug, Clone, PartialEq)]
pub struct TiedThreads {
    /// How many rows.
    pub rows: usize,
    /// Which are tied together.
    pub pairs: TiedPairs,
    /// Where, in words: `centre front`.
    pub place: String,
}

/// Pleats from the wrong side with their threads tied, and the knot near by.
///
/// # Errors
/// Where there are no rows or more than twelve, or rows tied in twos are of an odd number.
pub fn tied_threads(input: &TiedThreads, look: &Look) -> Drawn {
    counted("rows", input.rows, if input.pairs == TiedPairs::Rows { 2 } else { 1 }, 12)?;
    let mut s = Scene::new(look);
    s.uses(KeyEntry::GatherThread);
    let gap = 7.0_f64.min(34.0 / real(input.rows));
    let tall = gap * (real(input.rows) + 0.9) + 6.0;
    let halves = input.pairs == TiedPairs::Halves;
    let (wide, slit) = (30.0, if halves { 7.0 } else { 0.0 });
    let heights: Vec<f64> = (0..input.rows).map(|i| gap * (real(i) + 0.9)).collect();
    pleats(&mut s, 0.0, wide, tall);
    if halves {
        pleats(&mut s, wide + slit, wide, tall);
    }
    let edge = wide;
    for (i, y) in heights.iter().enumerate() {
        let across = |s: &mut Scene, a: f64, b: f64| s.stroke(line(pt(a, *y), pt(b, *y)), Pen::THREAD);
        across(&mut s, 0.0, edge);
        if halves {
            across(&mut s, edge + slit, edge + slit + wide);
            flat_knot(&mut s, pt(edge + slit / 2.0, *y), slit / 2.0, 0.62);
        } else if i % 2 == 1 {
            let above = y - gap;
            let out = edge + 6.0;
            let mid = pt(out, y - gap / 2.0);
            s.stroke(smooth(&[pt(edge, above), pt(edge + 3.0, above + 0.4), mid]), Pen::THREAD);
            s.stroke(smooth(&[pt(edge, *y), pt(edge + 3.0, y - 0.4), mid]), Pen::THREAD);
            s.fill(circle(mid, 0.9), Paint::Ink);
            s.tail(mid, Vec2::new(1.0, 0.5), 5.0);
            s.tail(mid, Vec2::new(1.0, -0.5), 5.0);
        } else if i + 1 == input.rows {
            // An odd row is fastened by itself.
            s.fill(circle(pt(edge + 1.0, *y), 0.9), Paint::Ink);
            s.tail(pt(edge + 1.0, *y), Vec2::new(1.0, 0.2), 6.0);
        }
    }
    let right = if halves { edge + slit + wide } else { edge + 12.0 };
    let knot_row = heights.get(input.rows / 2).copied().unwrap_or(gap);
    let spot = if halves {
        pt(edge + slit / 2.0, knot_row)
    } else {
        pt(edge + 6.0, heights.get(1).copied().unwrap_or(gap) - gap / 2.0)
    };
    magnified(&mut s, spot, pt(right + 22.0, tall * 0.42));
    if halves {
        s.note(Side::Below, pt(edge + slit / 2.0, tall - 0.2), input.place.clone());
    }
    s.note(Side::Left, pt(2.0, tall * 0.3), "pleats, wrong side");
    s.note(Side::Left, pt(4.0, heights.last().copied().unwrap_or(gap)), "rows stay in");
    words(s, input)
}

/// Narrow pleats seen from behind, cloth that goes on below.
fn pleats(s: &mut Scene, x: f64, wide: f64, tall: f64) {
    s.cloth(rect(x, 0.0, x + wide, tall), Up::Right, DOWN);
    let count = 12;
    for i in 0..=count {
        let at = x + wide * real(i) / real(count);
        if i > 0 && i < count {
            let shade = [pt(at, 1.4), pt(at, tall * 0.6), pt(at + 0.1, tall)];
            s.swell(&shade, |t| 1.1 * (1.0 - 0.6 * t), Paint::Shade);
            s.brush(&shade, |t| 0.26 * (1.0 - 0.5 * t));
        }
        if i < count {
            let next = at + wide / real(count);
            s.stroke(smooth(&[pt(at, 1.4), pt(at.midpoint(next), 0.0), pt(next, 1.4)]), Pen::FOLD);
        }
    }
    for side in [x, x + wide] {
        s.stroke(line(pt(side, 1.2), pt(side, tall)), Pen::FOLD);
    }
}

/// Two threads tied flat, their ends going off.
fn flat_knot(s: &mut Scene, at: Point, reach: f64, k: f64) {
    for sign in [-1.0, 1.0] {
        s.stroke(line(at + Vec2::new(sign * reach, 0.0), at + Vec2::new(sign * 1.2 * k, 0.0)), Pen::THREAD);
        s.stroke(smooth(&[at, at + Vec2::new(sign * 1.2, 1.2) * k, at + Vec2::new(sign * 2.6, 3.0) * k]), Pen::THREAD);
    }
    s.fill(circle(at, 1.3 * k), Paint::Ink);
}

/// The flat knot open: two loops, each thread leaves beside itself.
fn magnified(s: &mut Scene, spot: Point, centre: Point) {
    let look = s.look;
    let mut z = Scene::new(&look);
    z.fill(circle(pt(0.0, 0.0), 12.0), Paint::White);
    let rope = |z: &mut Scene, points: &[Point], paint: Paint| {
        z.stroke(smooth(points), Pen { class: "rope", width: 2.0, ..Pen::THIN });
        z.stroke(smooth(points), Pen { class: "rope", width: 1.4, paint, ..Pen::THIN });
    };
    let left = [
        pt(-13.0, -1.7),
        pt(-5.0, -1.8),
        pt(1.0, -3.0),
        pt(4.2, -1.6),
        pt(4.2, 1.6),
        pt(1.0, 3.0),
        pt(-5.0, 1.8),
        pt(-10.0, 3.6),
    ];
    let right: Vec<Point> = left.iter().map(|p| pt(-p.x, p.y)).collect();
    rope(&mut z, &left, Paint::White);
    rope(&mut z, &right, Paint::Tint);
    // Where the left thread lies over again: the upper crossing at the right, the lower at the left.
    for over in [[pt(-3.6, -1.9), pt(-2.2, -2.2), pt(0.2, -2.85)], [pt(3.2, 2.4), pt(1.0, 3.0), pt(-1.6, 2.5)]] {
        let short = [over[0].lerp(over[1], 0.5), over[1], over[1].lerp(over[2], 0.6)];
        z.stroke(smooth(&short), Pen { class: "rope", width: 2.0, ..Pen::THIN });
        z.stroke(smooth(&over), Pen { class: "rope", width: 1.4, paint: Paint::White, ..Pen::THIN });
    }
    s.note_room = 36.0;
    s.lens(spot, 2.4, centre, 11.0, z);
    s.pointer(
        centre + Vec2::new(0.0, 16.5),
        Anchor::Middle,
        centre + Vec2::new(0.0, 3.4),
        "a flat knot:\neach end leaves\nbeside its own thread",
    );
}

fn words(s: Scene, input: &TiedThreads) -> Drawn {
    let rows = many(input.rows, "row", "rows");
    let (caption, how) = match input.pairs {
        TiedPairs::Halves => (
            format!(
                "{} tied at the {}: each thread of one half to the same row of the other.",
                capital(&rows),
                input.place
            ),
            format!(
                "At the {} two halves meet. The thread of each row on the left is tied to the thread of the same row on the right.",
                input.place
            ),
        ),
        TiedPairs::Rows => (
            format!("{} tied in twos at the {}.", capital(&rows), input.place),
            format!(
                "At the {} the threads come out at the end of their rows and are tied together in twos, each row with the next.",
                input.place
            ),
        ),
    };
    let alt = format!(
        "Pleats from the wrong side, drawn up on {rows} of thread. {how} A magnified circle shows the flat knot: two loops through each other, each end leaving \
         beside its own thread. The pleats are not pulled together by it."
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
