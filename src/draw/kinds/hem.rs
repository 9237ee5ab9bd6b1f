//! Hems: from the inside and in section.

use kurbo::{BezPath, Point};

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{line, polyline, pt, real, rect, rounded, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::Look;
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;

/// How a hem is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HemKind {
    /// Turned up once, its edge raw or overcast.
    Once,
    /// Turned under and up: no raw edge shows.
    Twice,
    /// Rolled between finger and thumb and whipped.
    Rolled,
}

/// A hem.
#[derive(Debug, Clone, PartialEq)]
pub struct HemFigure {
    /// How it is turned.
    pub kind: HemKind,
    /// Its finished depth.
    pub depth: Measure,
    /// What is turned under first; needed for a hem turned twice.
    pub turn: Option<Measure>,
    /// Sewn by hand, else by machine.
    pub by_hand: bool,
}

/// The hem from the inside beside its section.
///
/// # Errors
/// Where a length is nothing or not finite, or a hem turned twice has no first turn or one deeper than the hem.
pub fn hem(input: &HemFigure, look: &Look) -> Drawn {
    sound(&[("depth", input.depth.length)])?;
    let turn = match (input.kind, &input.turn) {
        (HemKind::Twice, Some(turn)) => {
            sound(&[("turn", turn.length)])?;
            if turn.mm() > input.depth.mm() {
                return Err(Undrawable(
                    "expected the first turn to be no deeper than the hem, but it is deeper".into(),
                ));
            }
            Some(turn)
        }
        (HemKind::Twice, None) => return Err(Undrawable("expected a first turn for a hem turned twice".into())),
        _ => None,
    };
    let mut s = Scene::new(look);
    let (wide, tall) = (34.0, 38.0);
    let deep = match input.kind {
        HemKind::Rolled => 2.6,
        HemKind::Once | HemKind::Twice => (input.depth.mm() * 0.45).clamp(9.0, 20.0),
    };
    inside_view(&mut s, input, (wide, tall), deep);
    let x = wide + 22.0;
    let drawn_turn = turn.map_or(0.0, |t| (deep * t.mm() / input.depth.mm()).clamp(3.5, deep - 2.5));
    let path = section_path(input.kind, x, tall, deep, drawn_turn);
    s.section(&path, Up::Right, false, (false, input.kind != HemKind::Rolled));
    section_stitch(&mut s, input, x, tall, deep);
    let layer = if input.kind == HemKind::Once { 2.0 } else { 4.2 };
    if input.kind == HemKind::Rolled {
        s.note(Side::Right, pt(x + 0.6, tall - 1.2), format!("roll {} thick", look.set(&input.depth)));
    } else {
        s.dim(pt(x + 0.8, tall + 0.6), pt(x + 0.8, tall - deep), 4.0, look.two(&input.depth));
    }
    if let Some(turn) = turn {
        let inner = x - layer - 0.8;
        s.dim(pt(inner, tall - deep + drawn_turn), pt(inner, tall - deep), -4.0, look.two(turn));
    }
    if input.by_hand && input.kind != HemKind::Rolled {
        magnified(&mut s, pt(wide * 0.62, tall - deep), pt(wide * 0.5, tall + 17.0), input.kind);
    }
    s.title(pt(wide / 2.0, -3.0), Anchor::Middle, "from the inside");
    s.title(pt(x, -3.0), Anchor::Middle, "in section");
    s.note(Side::Left, pt(0.5, tall * 0.3), "wrong side");
    if input.kind != HemKind::Rolled {
        s.note(Side::Left, pt(1.0, tall - deep * 0.4), "hem turned up");
    }
    s.note(Side::Left, pt(0.5, tall), if input.kind == HemKind::Rolled { "rolled edge" } else { "fold" });
    s.finish(words(input, turn, look), Scale::NotToScale)
}

fn inside_view(s: &mut Scene, input: &HemFigure, (wide, tall): (f64, f64), deep: f64) {
    let top = tall - deep;
    s.cloth(rect(0.0, 0.0, wide, top), Up::Wrong, DOWN);
    s.cloth(rect(0.0, top, wide, tall), Up::Right, DOWN);
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall)), Pen::THIN);
    }
    let edge = line(pt(0.0, top), pt(wide, top));
    if input.kind == HemKind::Once {
        s.cut(edge)
    } else {
        s.stroke(edge, Pen::FOLD)
    }
    s.fold(line(pt(0.0, tall), pt(wide, tall)));
    match (input.kind, input.by_hand) {
        (HemKind::Rolled, _) => {
            s.uses(KeyEntry::HandStitch);
            for i in 0..14 {
                let x = 1.2 + f64::from(i) * 2.35;
                s.stroke(line(pt(x, tall - 0.4), pt(x + 1.0, top - 0.9)), Pen::THREAD);
            }
        }
        (_, true) => {
            s.uses(KeyEntry::HandStitch);
            let n = whole(wide / 4.0, 4, 20);
            for i in 0..n {
                let x = wide * (real(i) + 0.3) / real(n);
                s.stroke(polyline(&[pt(x, top + 0.9), pt(x + 0.9, top - 0.9)]), Pen::THREAD);
                if i + 1 < n {
                    s.stroke(line(pt(x + 0.9, top - 0.9), pt(x + wide / real(n), top + 0.9)), Pen::THREAD_UNDER);
                }
            }
        }
        (_, false) => s.machine(line(pt(0.0, top + 1.4), pt(wide, top + 1.4))),
    }
    s.stroke(
        super::super::geom::smooth(&[pt(0.0, 0.0), pt(wide * 0.3, 0.7), pt(wide * 0.7, -0.6), pt(wide, 0.0)]),
        Pen::THIN,
    );
}

/// The stitch at four times its size: one thread of the garment, then through the edge of the hem.
fn magnified(s: &mut Scene, spot: Point, centre: Point, kind: HemKind) {
    let mut d = s.child();
    d.cloth(rect(-14.0, -14.0, 14.0, 1.0), Up::Wrong, DOWN);
    d.cloth(rect(-14.0, 1.0, 14.0, 14.0), Up::Right, DOWN);
    let edge = line(pt(-14.0, 1.0), pt(14.0, 1.0));
    if kind == HemKind::Once {
        d.cut(edge)
    } else {
        d.fold(edge)
    }
    for x in [-11.0, -3.0, 5.0] {
        d.stroke(line(pt(x, 4.0), pt(x + 3.2, -1.6)), Pen { width: 0.7, ..Pen::THREAD });
        d.stroke(line(pt(x + 3.2, -1.6), pt(x + 4.4, -1.6)), Pen { width: 0.7, ..Pen::THREAD });
        d.stroke(line(pt(x + 4.4, -1.6), pt(x + 8.0, 4.0)), Pen { width: 0.35, ..Pen::THREAD_UNDER });
    }
    s.lens(spot, 3.0, centre, 11.0, d);
    s.note(Side::Left, centre + kurbo::Vec2::new(-6.9, -1.8), "pick up one thread of the garment only");
}

fn section_path(kind: HemKind, x: f64, tall: f64, deep: f64, turn: f64) -> BezPath {
    let top = tall - deep;
    match kind {
        HemKind::Once => rounded(&[pt(x, 0.0), pt(x, tall), pt(x - 2.0, tall), pt(x - 2.0, top)], 1.0),
        HemKind::Twice => rounded(
            &[pt(x, 0.0), pt(x, tall), pt(x - 4.2, tall), pt(x - 4.2, top), pt(x - 2.1, top), pt(x - 2.1, top + turn)],
            1.05,
        ),
        HemKind::Rolled => {
            let centre = pt(x - 3.2, tall - 2.6);
            let mut points: Vec<Point> = vec![pt(x, 0.0), pt(x, tall * 0.4), pt(x, tall - 7.0)];
            for i in 0..=30 {
                let t = f64::from(i) / 30.0;
                let angle = t * std::f64::consts::TAU * 1.45;
                let r = 3.2 - 2.3 * t;
                points.push(centre + kurbo::Vec2::new(angle.cos(), angle.sin()) * r);
            }
            super::super::geom::smooth(&points)
        }
    }
}

fn section_stitch(s: &mut Scene, input: &HemFigure, x: f64, tall: f64, deep: f64) {
    let top = tall - deep;
    let left = if input.kind == HemKind::Once { x - 3.4 } else { x - 5.6 };
    match (input.kind, input.by_hand) {
        (HemKind::Rolled, _) => {
            let p = super::super::geom::smooth(&[
                pt(x + 0.2, tall - 7.4),
                pt(x - 3.0, tall - 8.4),
                pt(x - 6.6, tall - 5.5),
                pt(x - 6.9, tall - 2.0),
            ]);
            s.stroke(p, Pen::THREAD);
        }
        (_, true) => {
            let y = top + 1.0;
            let p = super::super::geom::smooth(&[
                pt(left, y + 0.6),
                pt(left + 0.4, y - 1.8),
                pt(x - 1.4, y - 2.6),
                pt(x - 0.1, y - 1.7),
            ]);
            s.stroke(p, Pen::THREAD);
        }
        (_, false) => super::piping::stitch_through(s, pt(left, top + 1.6), pt(x + 1.3, top + 1.6)),
    }
}

fn words(input: &HemFigure, turn: Option<&Measure>, look: &Look) -> Words {
    let sewn = if input.by_hand || input.kind == HemKind::Rolled { "by hand" } else { "by machine" };
    let deep = (look.set(&input.depth), look.say(&input.depth));
    match input.kind {
        HemKind::Once => Words {
            caption: format!("The hem turned up once, {} deep, sewn {sewn}.", deep.0),
            alt: format!(
                "Two drawings. From the inside: the lower edge is folded up once to the wrong side, so that a band {} deep shows the right \
                 side of the cloth; its upper edge is the cut edge, sewn down {sewn}. In section: the cloth comes down, turns at the fold, and \
                 ends after {}.",
                deep.1, deep.1
            ),
        },
        HemKind::Twice => {
            let first = turn.map_or_else(String::new, |t| look.set(t));
            let said = turn.map_or_else(String::new, |t| look.say(t));
            Words {
                caption: format!("The hem turned twice: {first} under, then {} up, sewn {sewn}.", deep.0),
                alt: format!(
                    "Two drawings. From the inside: a band {} deep lies on the wrong side, with a fold at its upper and at its lower edge; the \
                     upper fold is sewn down {sewn}. In section: the cloth comes down, turns up for {}, then turns under for {said}, so that \
                     the cut edge lies inside the hem.",
                    deep.1, deep.1
                ),
            }
        }
        HemKind::Rolled => Words {
            caption: format!("The rolled hem: the edge is rolled to {} and whipped.", deep.0),
            alt: format!(
                "Two drawings. From the inside: the edge is a narrow roll, {} thick, held by slanting stitches that go over it. In section: \
                 the cloth curls one and a half turns on itself, its cut edge in the middle of the roll, and a thread goes round the roll and \
                 catches the cloth beside it.",
                deep.1
            ),
        },
    }
}
