//! The swatch, flat and drawn up, with where to measure: one scale for both.

use kurbo::{Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale};
use super::super::geom::{line, pt, real, rect, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::Look;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{scale_for, sound};
use super::fullness::gathered;

/// A swatch as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct SwatchFigure {
    /// Width before drawing up.
    pub flat: Measure,
    /// Width drawn up as tight as it goes.
    pub tight: Measure,
    /// Width let out as far as it still looks right.
    pub eased: Option<Measure>,
    /// Length of a stitch.
    pub stitch: Measure,
    /// What is stacked, in words: `wool folded over cotton flannel`.
    pub layers: String,
}

/// Flat and drawn up, to one scale.
///
/// # Errors
/// Where a length is nothing or not finite, or the drawn-up width is not less than the flat one.
pub fn swatch(input: &SwatchFigure, look: &Look) -> Drawn {
    let mut lengths = vec![("flat", input.flat.length), ("tight", input.tight.length), ("stitch", input.stitch.length)];
    lengths.extend(input.eased.as_ref().map(|e| ("eased", e.length)));
    sound(&lengths)?;
    let shorter = |m: &Measure| m.mm() < input.flat.mm();
    if !shorter(&input.tight) || input.eased.as_ref().is_some_and(|e| !shorter(e) || e.mm() < input.tight.mm()) {
        return Err(super::super::figure::Undrawable(
            "expected the swatch drawn up to be narrower than flat, and eased to be wider than tight".into(),
        ));
    }
    let n = scale_for(input.flat.mm(), 1.0, (80.0, 100.0));
    let (flat, tall) = (input.flat.mm() / n, 20.0);
    let mut s = Scene::new(look);
    s.cut_cloth(rect(0.0, 0.0, flat, tall), Up::Wrong, DOWN);
    s.uses(KeyEntry::GatherThread);
    for row in 0..3 {
        let y = 4.5 + 4.0 * f64::from(row);
        let steps = whole(flat / 1.5, 6, 60);
        let points: Vec<Point> = (0..=steps).map(|i| pt(1.5 + (flat - 3.0) * real(i) / real(steps), y)).collect();
        s.knot(pt(1.5, y));
        s.running(&points);
        s.tail(pt(flat - 1.5, y), Vec2::new(1.0, 0.1), 8.0);
    }
    s.dim(pt(0.0, -0.6), pt(flat, -0.6), -3.5, format!("flat: {}", look.set(&input.flat)));
    let y = tall + 17.0;
    let tight = input.tight.mm() / n;
    let folds = |wide: f64| whole(wide / 1.15, 5, 30);
    let named = |what: &str, m: &Measure| format!("{what}: {}", look.set(m));
    // Each drawn-up swatch has the width of its cloth or of its label, whichever is more.
    let taken = |wide: f64, text: &str| wide.max(super::super::metric::width(text, 8.0, LabelStyle::Measure));
    let label = named("tight", &input.tight);
    let room = taken(tight, &label);
    let x = if input.eased.is_some() { room / 2.0 } else { flat * 0.5 };
    drawn_up(&mut s, pt(x, y), tight, tall, folds(tight));
    let mut end = (x + tight / 2.0, x + room / 2.0);
    s.dim_line(pt(x - tight / 2.0, y + 4.5), pt(x + tight / 2.0, y + 4.5), -8.0);
    s.text(pt(x, y - 5.4), Anchor::Middle, LabelStyle::Measure, label);
    if let Some(eased) = &input.eased {
        let wide = eased.mm() / n;
        let label = named("eased", eased);
        let second = x + room / 2.0 + 9.0 + taken(wide, &label) / 2.0;
        drawn_up(&mut s, pt(second, y), wide, tall, folds(wide));
        s.dim_line(pt(second - wide / 2.0, y + 4.5), pt(second + wide / 2.0, y + 4.5), -8.0);
        end = (second + wide / 2.0, second + taken(wide, &label) / 2.0);
        s.text(pt(second, y - 5.4), Anchor::Middle, LabelStyle::Measure, label);
    }
    s.note_room = 20.0;
    let words = pt((end.0 + 9.0).max(end.1 + 1.0), y + 16.5);
    s.pointer(words, Anchor::Start, pt(end.0 - 0.6, y + 10.9), "measure along the rows, not at the foot");
    let ratio = input.flat.mm() / input.tight.mm();
    let eased = |say: &dyn Fn(&Measure) -> String| {
        input
            .eased
            .as_ref()
            .map_or_else(String::new, |e| format!(" and {} let out as far as it still looks right", say(e)))
    };
    let caption = format!(
        "The swatch of {}: {} flat, {} drawn up tight{}.",
        input.layers,
        look.set(&input.flat),
        look.set(&input.tight),
        eased(&|m| look.set(m))
    );
    let alt = format!(
        "Above, the swatch of {} lies flat, {} wide, with three rows of stitches {} long, knots at the left and tails at the \
         right. Below, the same swatch is drawn up, {} wide at its tightest{}, drawn to the same scale. Flat goes into \
         tight {ratio:.2} times. The width is measured along the rows of stitches.",
        input.layers,
        look.say(&input.flat),
        look.say(&input.stitch),
        look.say(&input.tight),
        eased(&|m| look.say(m))
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// Cloth drawn up to a width, its head at `y`.
fn drawn_up(s: &mut Scene, head: Point, wide: f64, tall: f64, folds: usize) {
    let (left, y) = (head.x - wide / 2.0, head.y);
    gathered(s, pt(left, y), wide, tall, folds, 0.35);
    for row in 0..3 {
        let at = y + 4.5 + 4.0 * f64::from(row) * 0.8;
        s.stroke(line(pt(left, at), pt(left + wide, at)), Pen::THREAD);
        s.knot(pt(left - 0.3, at));
        s.tail(pt(left + wide, at), Vec2::new(1.0, 0.1), 6.0);
    }
}
