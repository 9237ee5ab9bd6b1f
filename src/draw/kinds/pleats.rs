//! Flat pleats and tucks, from the front and in section.

use kurbo::{BezPath, Point};

use super::super::figure::{Anchor, Drawn, Measure, Scale, Undrawable};
use super::super::geom::{closed, line, pt, real, rect, rounded};
use super::super::hand::Up;
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, sound};
use super::piping::stitch_through;

/// How cloth is folded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PleatKind {
    /// All one way.
    Knife,
    /// Two folds turned away from each other.
    Box,
    /// Two folds that meet.
    Inverted,
    /// A fold stitched along its foot.
    Tuck,
}

/// Flat pleats or tucks.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatPleats {
    /// How they are folded.
    pub kind: PleatKind,
    /// Knife, box and inverted pleats: what shows of one. Tucks: the gap from one seam to the next.
    pub visible: Measure,
    /// Depth of a fold.
    pub depth: Measure,
    /// How many.
    pub count: usize,
}

/// Pleats from the front over their section.
///
/// # Errors
/// Where a length is nothing or not finite, or the pleats are none or more than 1000.
pub fn flat_pleats(input: &FlatPleats, look: &Look) -> Drawn {
    sound(&[("visible", input.visible.length), ("depth", input.depth.length)])?;
    counted("count", input.count, 1, 1000)?;
    if input.kind == PleatKind::Tuck && input.depth.mm() > input.visible.mm() * 4.0 {
        return Err(Undrawable(
            "expected tucks that do not bury each other, but they are far deeper than their gap".into(),
        ));
    }
    let shown = input.count.min(if input.kind == PleatKind::Knife { 4 } else { 3 });
    let pitch = match input.kind {
        PleatKind::Knife => 16.0,
        PleatKind::Box | PleatKind::Inverted | PleatKind::Tuck => 22.0,
    };
    let most = match input.kind {
        PleatKind::Knife => pitch * 0.96,
        PleatKind::Box | PleatKind::Inverted => pitch * 0.46,
        PleatKind::Tuck => pitch * 0.8,
    };
    let deep = (pitch * input.depth.mm() / input.visible.mm()).clamp(4.0, most);
    let mut s = Scene::new(look);
    let wide = pitch * real(shown);
    front(&mut s, input.kind, shown, pitch, deep);
    let y = 46.0;
    let right = input.kind != PleatKind::Inverted;
    s.section(&section_path(input.kind, shown, pitch, deep, y), Up::Right, !right, (false, false));
    if input.kind == PleatKind::Tuck {
        for i in 0..shown {
            let x = 6.0 + pitch * real(i) + 1.6;
            stitch_through(&mut s, pt(x, y - 5.8), pt(x, y - 0.6));
        }
        s.dim(pt(6.0, y - 5.2), pt(6.0 + deep + 0.75, y - 5.2), -3.6, look.set(&input.depth));
        s.dim(pt(6.0, y + 1.4), pt(6.0 + pitch, y + 1.4), 4.0, look.set(&input.visible));
    } else if input.kind == PleatKind::Knife {
        s.dim(pt(pitch, y - 1.4), pt(pitch * 2.0, y - 1.4), -4.0, look.set(&input.visible));
        s.dim(pt(pitch * 2.0 - deep, y + 6.2), pt(pitch * 2.0, y + 6.2), 4.0, look.set(&input.depth));
    } else {
        let low = y + 5.6;
        s.dim(pt(pitch, y - 1.6), pt(pitch * 2.0, y - 1.6), -4.0, look.set(&input.visible));
        s.dim(pt(pitch * 2.0 - deep, low), pt(pitch * 2.0, low), 4.0, look.set(&input.depth));
    }
    s.note(Side::Right, pt(wide - 1.0, 16.0), "right side");
    s.title(pt(wide / 2.0, -3.0), Anchor::Middle, "from the front");
    s.title(pt(-2.0, y + 1.0), Anchor::End, "in section");
    s.finish(words(input, look), Scale::NotToScale)
}

fn front(s: &mut Scene, kind: PleatKind, shown: usize, pitch: f64, deep: f64) {
    let (wide, tall) = (pitch * real(shown), 30.0);
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Right, super::super::hand::DOWN);
    let shade = |s: &mut Scene, a: f64, b: f64, paint| {
        s.fill(closed(&[pt(a, 0.0), pt(b, 0.0), pt(b + (b - a) * 0.6, tall), pt(a, tall)]), paint);
    };
    for i in 0..shown {
        let x = pitch * real(i);
        match kind {
            PleatKind::Knife => {
                if i > 0 {
                    shade(s, x, x + 1.6, Paint::Shade);
                    s.fold(line(pt(x, 0.0), pt(x, tall)));
                }
                if deep < pitch * 0.97 {
                    s.stroke(line(pt(x + pitch - deep, 0.0), pt(x + pitch - deep, tall)), Pen::HIDDEN);
                }
            }
            PleatKind::Box => {
                if i > 0 {
                    shade(s, x - 0.2, x + 1.2, Paint::Shade);
                    s.fold(line(pt(x - 0.4, 0.0), pt(x - 0.9, tall)));
                    s.fold(line(pt(x + 0.4, 0.0), pt(x + 0.9, tall)));
                }
                for hidden in [x + deep, x + pitch - deep] {
                    s.stroke(line(pt(hidden, 0.0), pt(hidden, tall)), Pen::HIDDEN);
                }
            }
            PleatKind::Inverted => {
                let mid = x + pitch / 2.0;
                shade(s, mid - 0.3, mid + 0.8, Paint::Shade);
                s.fold(line(pt(mid - 0.3, 0.0), pt(mid - 0.9, tall)));
                s.fold(line(pt(mid + 0.3, 0.0), pt(mid + 0.9, tall)));
                for hidden in [mid - deep, mid + deep] {
                    s.stroke(line(pt(hidden, 0.0), pt(hidden, tall)), Pen::HIDDEN);
                }
            }
            PleatKind::Tuck => {
                let a = x + 6.0;
                s.fill(rect(a, 0.0, (a + deep).min(wide), tall), Paint::Half);
                s.fold(line(pt((a + deep).min(wide), 0.0), pt((a + deep).min(wide), tall)));
                s.machine(line(pt(a + 1.0, 0.0), pt(a + 1.0, tall)));
            }
        }
    }
    s.cut(line(pt(0.0, 0.0), pt(wide, 0.0)));
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall)), Pen::THIN);
    }
    s.stroke(line(pt(0.0, tall), pt(wide, tall)), Pen::THIN);
    if kind != PleatKind::Tuck {
        s.machine(line(pt(0.4, 3.0), pt(wide - 0.4, 3.0)));
    }
}

fn section_path(kind: PleatKind, shown: usize, pitch: f64, deep: f64, y: f64) -> BezPath {
    let mut points: Vec<Point> = Vec::new();
    match kind {
        PleatKind::Knife => {
            points.push(pt(0.0, y + 2.0));
            for i in 1..=shown {
                let x = pitch * real(i);
                points.extend([pt(x, y), pt(x, y + 1.9), pt(x - deep, y + 3.2), pt(x - deep, y + 5.2)]);
            }
            points.push(pt(pitch * real(shown) + 4.0, y + 4.4));
        }
        PleatKind::Box | PleatKind::Inverted => {
            let flip = if kind == PleatKind::Box { 1.0 } else { 0.0 };
            points.push(pt(0.0, y + (1.0 - flip) * 4.2));
            for i in 1..=shown {
                let x = pitch * real(i);
                if kind == PleatKind::Box {
                    points.extend([pt(x - 0.85, y), pt(x - 0.85, y + 2.1)]);
                    if i < shown {
                        points.extend([
                            pt(x - deep, y + 2.1),
                            pt(x - deep, y + 4.2),
                            pt(x + deep, y + 4.2),
                            pt(x + deep, y + 2.1),
                            pt(x + 0.85, y + 2.1),
                            pt(x + 0.85, y),
                        ]);
                    } else {
                        points.extend([pt(x - deep, y + 2.1), pt(x - deep, y + 4.2), pt(x + 4.0, y + 4.2)]);
                    }
                }
            }
            if kind == PleatKind::Inverted {
                points.clear();
                points.push(pt(0.0, y));
                for i in 0..shown {
                    let m = pitch * (real(i) + 0.5);
                    points.extend([
                        pt(m - 0.85, y),
                        pt(m - 0.85, y + 2.1),
                        pt(m - deep, y + 2.1),
                        pt(m - deep, y + 4.2),
                        pt(m + deep, y + 4.2),
                        pt(m + deep, y + 2.1),
                        pt(m + 0.85, y + 2.1),
                        pt(m + 0.85, y),
                    ]);
                }
                points.push(pt(pitch * real(shown), y));
            }
        }
        PleatKind::Tuck => {
            points.push(pt(0.0, y));
            for i in 0..shown {
                let x = 6.0 + pitch * real(i);
                points.extend([
                    pt(x, y),
                    pt(x, y - 4.2),
                    pt(x + deep, y - 4.2),
                    pt(x + deep, y - 2.1),
                    pt(x + 1.9, y - 2.1),
                    pt(x + 1.9, y),
                ]);
            }
            points.push(pt(pitch * real(shown) + 6.0, y));
        }
    }
    rounded(&points, 1.0)
}

fn words(input: &FlatPleats, look: &Look) -> Words {
    let (v, d) =
        ((look.set(&input.visible), look.say(&input.visible)), (look.set(&input.depth), look.say(&input.depth)));
    let (one, more, form) = match input.kind {
        PleatKind::Knife => ("knife pleat", "knife pleats", "every fold is turned the same way and lies over the next"),
        PleatKind::Box => (
            "box pleat",
            "box pleats",
            "two folds are turned away from each other, and behind them the folds of neighbours meet",
        ),
        PleatKind::Inverted => (
            "inverted pleat",
            "inverted pleats",
            "two folds meet in the middle of each pleat, and the depth lies behind them",
        ),
        PleatKind::Tuck => ("tuck", "tucks", "each is a fold stitched along its foot and laid to one side"),
    };
    let count = many(input.count, one, more);
    let shows = if input.kind == PleatKind::Tuck { "from seam to seam" } else { "showing" };
    Words {
        caption: format!("{}: {} {shows}, folds {} deep.", capital(&count), v.0, d.0),
        alt: format!(
            "Above, the {more} from the right side; below, the same cut across. In {count}, {form}. Of each, {} is {shows}; each fold is {} deep.",
            v.1, d.1
        ),
    }
}
