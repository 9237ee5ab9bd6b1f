//! The top edge of a skirt folded over, with or without a second cloth in the fold.

use kurbo::Vec2;

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale};
use super::super::geom::{line, pt, real, rect, rounded, smooth};
use super::super::hand::{DOWN, Up};
use super::super::look::Look;
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;

/// A top edge that is folded to the wrong side before it is pleated.
#[derive(Debug, Clone, PartialEq)]
pub struct FoldOver {
    /// From the cut edge to the fold.
    pub depth: Measure,
    /// The cloth laid in the fold, in words: `flannel`.
    pub stay: Option<String>,
}

/// Before and after, from the wrong side, and a cut through the fold.
///
/// # Errors
/// Where the depth is nothing or not finite.
pub fn fold_over(input: &FoldOver, look: &Look) -> Drawn {
    sound(&[("depth", input.depth.length)])?;
    let mut s = Scene::new(look);
    let (wide, tall, deep) = (30.0, 34.0, 10.0);
    let stay = input.stay.as_deref();
    // Before: wrong side up, the stay along the top, the line to fold on.
    before(&mut s, wide, tall, deep, stay.is_some());
    s.dim(pt(wide, 0.0), pt(wide, deep), -3.4, look.two(&input.depth));
    s.title(pt(wide / 2.0, -5.0), Anchor::Middle, "chalked");
    s.note(Side::Left, pt(1.5, deep), "line to fold on");
    s.note(
        Side::Left,
        pt(3.0, 0.3),
        if stay.is_some() { "both cut edges overcast together" } else { "cut edge, overcast" },
    );
    let low = tall - 5.0;
    s.note(Side::Left, pt(5.0, low), "wrong side");
    if let Some(name) = stay {
        s.note(Side::Left, pt(6.0, 17.0), name.to_string());
    }
    // After.
    let x = wide + 31.0;
    after(&mut s, x, wide, tall, deep);
    s.title(pt(x + wide / 2.0, -5.0), Anchor::Middle, "folded");
    s.arrow(&[pt(wide + 17.0, deep + 14.0), pt(wide + 26.0, deep + 14.0)]);
    // In section.
    let (c, top, half) = (x + wide + 13.0, 1.0, if stay.is_some() { 2.3 } else { 1.3 });
    s.title(pt(c, -5.0), Anchor::Middle, "in section");
    if stay.is_some() {
        let inner = rounded(
            &[pt(c + 0.75, tall * 0.66), pt(c + 0.75, top + 1.7), pt(c - 0.75, top + 1.7), pt(c - 0.75, deep + top)],
            0.7,
        );
        s.section_of(&inner, Up::Under, true, (true, true), 1.1);
    }
    let cloth =
        rounded(&[pt(c + half, tall), pt(c + half, top), pt(c - half, top), pt(c - half, deep + top)], half.min(1.6));
    s.section(&cloth, Up::Right, true, (false, true));
    s.dim(pt(c + half + 0.9, top - 0.7), pt(c + half + 0.9, deep + top), -3.0, look.two(&input.depth));
    s.note(Side::Below, pt(c + half, tall - 4.0), "right side outward");
    let with = stay.map_or_else(String::new, |name| format!(", {name} and all"));
    let caption = format!("The top folded {} to the wrong side{with}.", look.set(&input.depth));
    let inside = stay.map_or_else(String::new, |name| format!(" The {name} lies along the top and is folded with it."));
    let alt = format!(
        "Three drawings. First, the wrong side of the cloth at its top edge, which is overcast; a line is chalked {} below it.{inside} Second, the top is folded \
         down to the wrong side on that line, so that a band shows the right side and the fold is the upper edge. Third, in section: the cloth comes up, turns over at \
         the fold and comes down again for {}{}.",
        look.say(&input.depth),
        look.say(&input.depth),
        stay.map_or_else(String::new, |name| format!(", with the {name} inside"))
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

fn overcast(s: &mut Scene, x: f64, y: f64, wide: f64, sign: f64) {
    s.uses(KeyEntry::HandStitch);
    let mut at = x + 1.2;
    while at < x + wide - 0.6 {
        s.stroke(line(pt(at, y + sign * 0.5), pt(at + 1.0, y - sign * 1.6)), Pen { width: 0.3, ..Pen::THREAD });
        at += 1.7;
    }
}

fn before(s: &mut Scene, wide: f64, tall: f64, deep: f64, stay: bool) {
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Wrong, DOWN);
    if stay {
        s.cloth(rect(0.0, 0.0, wide, 22.0), Up::Under, DOWN);
        s.cut(line(pt(0.0, 22.0), pt(wide, 22.0)));
    }
    s.cut(line(pt(0.0, 0.0), pt(wide, 0.0)));
    overcast(s, 0.0, 0.0, wide, -1.0);
    s.fold_line(line(pt(0.0, deep), pt(wide, deep)));
    frame(s, 0.0, wide, tall);
}

fn after(s: &mut Scene, x: f64, wide: f64, tall: f64, deep: f64) {
    s.cloth(rect(x, 0.0, x + wide, tall), Up::Wrong, DOWN);
    s.cloth(rect(x, 0.0, x + wide, deep), Up::Right, DOWN);
    s.fold(line(pt(x, 0.0), pt(x + wide, 0.0)));
    s.cut(line(pt(x, deep), pt(x + wide, deep)));
    overcast(s, x, deep, wide, 1.0);
    for i in 0..3 {
        let at = pt(x + 5.0 + 10.0 * real(i), deep * 0.5 + 4.2);
        s.pin(at + Vec2::new(0.0, 1.6), Vec2::new(0.0, -1.0), 7.0);
    }
    frame(s, x, wide, tall);
}

/// Sides and foot of a piece of cloth that goes on.
fn frame(s: &mut Scene, x: f64, wide: f64, tall: f64) {
    for side in [x, x + wide] {
        s.stroke(line(pt(side, 0.0), pt(side, tall)), Pen::THIN);
    }
    let foot = [pt(x, tall), pt(x + wide * 0.3, tall + 0.7), pt(x + wide * 0.7, tall - 0.6), pt(x + wide, tall)];
    s.stroke(smooth(&foot), Pen::THIN);
}
