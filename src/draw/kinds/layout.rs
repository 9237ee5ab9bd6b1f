//! Pieces laid on a cloth for cutting: the cloth as it lies on the table, to scale.

use kurbo::{BezPath, Point, Rect, Shape, Vec2};

use super::super::figure::{Anchor, Drawn, Label, LabelStyle, Measure, Scale};
use super::super::geom::{closed, cross, flat, line, pt, real, rect, whole};
use super::super::hand::Up;
use super::super::look::{Look, Paint};
use super::super::metric;
use super::super::pen::Pen;
use super::super::scene::{SIZE, Scene, Words};
use super::super::weave::inside;
use super::super::words::{scale_for, sound};
use crate::units::Systems;

/// How a cloth lies on the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spread {
    /// One layer.
    Open,
    /// Two layers, the fold along the lower edge.
    Lengthwise,
    /// Two layers, the fold at the left end.
    Crosswise,
    /// Both selvages folded to the middle: folds along the lower and the upper edge.
    Doubled,
}

/// A piece where it lies; mm, x along the cloth, y across it, upwards.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidShape {
    /// Its number.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// What is cut.
    pub outline: Vec<[f64; 2]>,
    /// The pattern within a block; may be empty.
    pub pattern: Vec<[f64; 2]>,
    /// The line a half pattern is turned over at, where it is opened out.
    pub opened_at: Option<([f64; 2], [f64; 2])>,
    /// Whether the pattern lies face down.
    pub face_down: bool,
    /// Whether its upper end is away from the beginning of the cloth.
    pub forward: bool,
    /// Whether it lies on the fold.
    pub on_fold: bool,
}

/// A section of cloth with what lies on it.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutFigure {
    /// The cloth, in words.
    pub cloth: String,
    /// How it lies.
    pub spread: Spread,
    /// Its length as it lies.
    pub length: Measure,
    /// Its usable width as it lies.
    pub width: Measure,
    /// Whether the cloth has a direction.
    pub one_way: bool,
    /// What lies on it.
    pub pieces: Vec<LaidShape>,
    /// The rectangle left over: its lower left corner, its length and width.
    pub spare: Option<([f64; 2], Measure, Measure)>,
    /// The paper it may take, mm.
    pub room: (f64, f64),
}

/// The cloth on the table, with the pieces on it.
///
/// # Errors
/// Where a length is nothing or not finite.
pub fn layout(input: &LayoutFigure, look: &Look) -> Drawn {
    sound(&[("length", input.length.length), ("width", input.width.length)])?;
    // As large as the paper allows: beyond 1 : 10 every whole number will do, as there is a ruler beside it.
    let need = (input.length.mm() / input.room.0).max(input.width.mm() / input.room.1);
    let n = if need > 10.0 { need.ceil() } else { scale_for(input.length.mm(), input.width.mm(), input.room) };
    let (long, high) = (input.length.mm() / n, input.width.mm() / n);
    let at = |p: &[f64; 2]| pt(p[0] / n, high - p[1] / n);
    let mut s = Scene::new(look);
    s.fill(rect(0.0, 0.0, long, high), Paint::Pale);
    if let Some((corner, along, across)) = &input.spare {
        spare(&mut s, at(corner), (along, across), n);
    }
    for shape in &input.pieces {
        let outline: Vec<Point> = shape.outline.iter().map(at).collect();
        piece(&mut s, shape, &outline, input.spread, high);
        if !shape.pattern.is_empty() && shape.opened_at.is_none() {
            s.stroke(closed(&shape.pattern.iter().map(at).collect::<Vec<_>>()), Pen::HIDDEN);
        }
        if let Some((a, b)) = &shape.opened_at {
            s.fold_line(line(at(a), at(b)));
        }
    }
    let flats: Vec<Vec<Vec<Point>>> = input
        .pieces
        .iter()
        .map(|shape| flat(&closed(&shape.outline.iter().map(at).collect::<Vec<_>>()), 0.1))
        .collect();
    // What no number may stand on: the edges of the pieces, selvages, ruler, the remnant.
    let mut lines: Vec<(Point, Point)> = Vec::new();
    for part in flats.iter().flatten() {
        lines.extend(part.windows(2).map(|pair| (pair[0], pair[1])));
    }
    let middle = if input.spread == Spread::Doubled { high / 2.0 } else { high };
    for y in [-0.8, 0.0, middle, high, high + 0.8, high + 6.4, high + 7.4] {
        lines.push((pt(-30.0, y), pt(long + 30.0, y)));
    }
    if let Some((corner, along, across)) = &input.spare {
        let (low, wide, tall) = (at(corner), along.mm() / n, across.mm() / n);
        for y in [low.y, low.y - tall] {
            lines.push((pt(low.x, y), pt(low.x + wide, y)));
        }
        for x in [low.x, low.x + wide, 0.0, long] {
            lines.push((pt(x, low.y), pt(x, low.y - tall)));
        }
    }
    edges(&mut s, input, long, high);
    ruler(&mut s, n, long, high);
    for shape in &input.pieces {
        let outline: Vec<Point> = shape.outline.iter().map(at).collect();
        name(&mut s, shape, &outline, &flats, &lines, input.one_way);
    }
    s.finish(words(input, look), Scale::OneTo(n))
}

/// The cloth of a piece and its cut edges; the edge on the fold is not cut.
fn piece(s: &mut Scene, shape: &LaidShape, outline: &[Point], spread: Spread, high: f64) {
    let up = if shape.face_down { Up::Wrong } else { Up::Right };
    s.cloth(closed(outline), up, Vec2::new(1.0, 0.0));
    let on_fold = |p: &Point| match spread {
        Spread::Open => false,
        Spread::Lengthwise => (p.y - high).abs() < 0.02,
        Spread::Crosswise => p.x.abs() < 0.02,
        Spread::Doubled => p.y.abs() < 0.02 || (p.y - high).abs() < 0.02,
    };
    let mut path = BezPath::new();
    for (i, a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        if shape.on_fold && on_fold(a) && on_fold(&b) {
            continue;
        }
        path.extend(line(*a, b));
    }
    s.uses(super::super::figure::KeyEntry::CutEdge);
    s.stroke(path, Pen { width: 0.5, ..Pen::CUT });
}

/// What is worth keeping.
fn spare(s: &mut Scene, corner: Point, (along, across): (&Measure, &Measure), n: f64) {
    let area = Rect::new(corner.x, corner.y - across.mm() / n, corner.x + along.mm() / n, corner.y);
    s.fill(area.to_path(0.1), Paint::White);
    s.stroke(area.to_path(0.1), Pen::HIDDEN);
    let sizes = format!("{}\nby {}", s.look.set(along), s.look.set(across));
    for text in [format!("left over\n{sizes}"), "left over".to_string()] {
        let (wide, tall) = (metric::width(&text, 7.0, LabelStyle::Plain), metric::height(&text, 7.0));
        if wide + 1.5 < area.width() && tall + 1.2 < area.height() {
            let y = area.center().y - tall / 2.0 + metric::ascent(7.0);
            let (x, style) = (area.center().x, LabelStyle::Plain);
            s.label(Label { x, y, anchor: Anchor::Middle, text, size_pt: 7.0, style, leader: None });
            return;
        }
    }
}

/// Selvages, fold and ends.
fn edges(s: &mut Scene, input: &LayoutFigure, long: f64, high: f64) {
    let selvage = |s: &mut Scene, y: f64, out: f64| {
        s.stroke(line(pt(0.0, y), pt(long, y)), Pen::THIN);
        s.stroke(line(pt(0.0, y + out), pt(long, y + out)), Pen::THIN);
    };
    let words = |s: &mut Scene, x: f64, y: f64, anchor: Anchor, text: String| {
        s.text(pt(x, y), anchor, LabelStyle::Plain, text);
    };
    if input.spread != Spread::Doubled {
        selvage(s, 0.0, -0.8);
    }
    let (above, below) = (-2.2, high + 4.0);
    let width = s.look.set(&input.width);
    let thick = Pen { width: 1.0, ..Pen::FOLD };
    match input.spread {
        Spread::Open => {
            selvage(s, high, 0.8);
            words(s, 0.0, above, Anchor::Start, "selvage".into());
            words(s, 0.0, below, Anchor::Start, "selvage".into());
        }
        Spread::Lengthwise => {
            s.stroke(line(pt(0.0, high), pt(long, high)), thick);
            words(s, 0.0, above, Anchor::Start, "both selvages".into());
            words(s, 0.0, below, Anchor::Start, "fold".into());
        }
        Spread::Doubled => {
            for y in [0.0, high] {
                s.stroke(line(pt(0.0, y), pt(long, y)), thick);
            }
            s.stroke(line(pt(0.0, high / 2.0), pt(long, high / 2.0)), Pen::HIDDEN);
            words(s, 0.0, above, Anchor::Start, "fold; the selvages meet in the middle".into());
            words(s, 0.0, below, Anchor::Start, "fold".into());
        }
        Spread::Crosswise => {
            selvage(s, high, 0.8);
            s.stroke(line(pt(0.0, 0.0), pt(0.0, high)), thick);
            words(s, 0.0, above, Anchor::Start, "selvage; the fold is at this end".into());
            words(s, 0.0, below, Anchor::Start, "selvage".into());
        }
    }
    let across = format!("usable width as it lies: {width}");
    let taken = metric::width("fold; the selvages meet in the middle", SIZE, LabelStyle::Plain);
    if long > taken + metric::width(&across, SIZE, LabelStyle::Plain) + 4.0 {
        words(s, long, above, Anchor::End, across);
    }
    s.stroke(line(pt(0.0, -0.8), pt(0.0, high + 0.8)), Pen::THIN);
    s.stroke(line(pt(long, -0.8), pt(long, high + 0.8)), Pen::HIDDEN);
}

/// A ruler along the cloth, from its beginning, in the first system.
fn ruler(s: &mut Scene, n: f64, long: f64, high: f64) {
    let metric_first = matches!(s.look.systems, Systems::MetricFirst | Systems::MetricOnly);
    let (unit, steps): (f64, [f64; 4]) =
        if metric_first { (10.0, [10.0, 20.0, 50.0, 100.0]) } else { (25.4, [6.0, 12.0, 18.0, 36.0]) };
    let step = steps.into_iter().find(|step| step * unit / n >= 11.0).unwrap_or(steps[3]);
    let y = high + 6.4;
    s.stroke(line(pt(0.0, y), pt(long, y)), Pen::MEASURE);
    let count = whole(long * n / (step * unit), 0, 400);
    let name = if metric_first { "cm" } else { "in" };
    for i in 0..=count {
        let x = real(i) * step * unit / n;
        if x > long + 1e-6 {
            break;
        }
        s.stroke(line(pt(x, y), pt(x, y + 1.4)), Pen::MEASURE);
        let anchor = if i == 0 { Anchor::Start } else { Anchor::Middle };
        let value = crate::units::decimal(real(i) * step, 0);
        let text = if i == 0 { format!("0 {name}") } else { value };
        let label = Label { x, y: y + 4.6, anchor, text, size_pt: 7.0, style: LabelStyle::Measure, leader: None };
        let room = metric::bounds(&label).inflate(0.6, 0.0);
        if !s.has_words(room) {
            s.label(label);
        }
    }
}

/// Whether a box lies within an outline.
fn holds(outline: &[Vec<Point>], area: Rect) -> bool {
    let steps = whole(area.width() / 1.5, 2, 60);
    let edge = (0..=steps).flat_map(|i| {
        let x = area.x0 + area.width() * real(i) / real(steps);
        [pt(x, area.y0), pt(x, area.center().y), pt(x, area.y1)]
    });
    let corner = |p: &Point| area.contains(*p);
    edge.into_iter().all(|p| inside(outline, p)) && !outline.iter().flatten().any(corner)
}

/// The number, the name where there is room, and the grain.
fn name(
    s: &mut Scene,
    shape: &LaidShape,
    outline: &[Point],
    others: &[Vec<Vec<Point>>],
    lines: &[(Point, Point)],
    one_way: bool,
) {
    let path = closed(outline);
    let polygon = flat(&path, 0.1);
    let bounds = path.bounding_box();
    let number = shape.number.to_string();
    let title = metric::wrap(&shape.name, 7.0, (bounds.width() * 0.7).max(12.0));
    let boxes = |middle: Point, with_title: bool, size: f64| {
        let wide = metric::width(&number, size, LabelStyle::Strong);
        let tall = metric::height(&number, size);
        let (title_wide, title_tall) = if with_title {
            (metric::width(&title, 7.0, LabelStyle::Plain), metric::height(&title, 7.0) + 0.6)
        } else {
            (0.0, 0.0)
        };
        let half = wide.max(title_wide) / 2.0;
        (Rect::new(middle.x - half, middle.y - tall / 2.0, middle.x + half, middle.y + tall / 2.0 + title_tall), tall)
    };
    let struck = shape.opened_at.is_some();
    for (with_title, size, arrow) in [
        (true, 10.0, true),
        (false, 10.0, true),
        (false, 8.0, true),
        (true, 8.0, false),
        (false, 8.0, false),
        (false, 7.0, false),
    ] {
        let mut best: Option<(f64, Point)> = None;
        for (i, j) in (1..24).flat_map(|i| (1..16).map(move |j| (i, j))) {
            let p = pt(bounds.x0 + bounds.width() * real(i) / 24.0, bounds.y0 + bounds.height() * real(j) / 16.0);
            let (area, _) = boxes(p, with_title, size);
            let area = if arrow {
                Rect::new(area.x0.min(p.x - 4.5), area.y0, area.x1.max(p.x + 4.5), area.y1 + 3.2)
            } else {
                area
            };
            // A line to fold at runs through the middle.
            let middle = bounds.center().y;
            if struck && area.inflate(0.0, 0.4).y0 < middle && area.inflate(0.0, 0.4).y1 > middle {
                continue;
            }
            let off = (area.center() - bounds.center()).hypot();
            if holds(&polygon, area.inflate(0.5, 0.15)) && best.is_none_or(|(least, _)| off < least) {
                best = Some((off, p));
            }
        }
        let Some((_, p)) = best else { continue };
        let (area, tall) = boxes(p, with_title, size);
        let y = area.y0 + metric::ascent(size);
        let strong = LabelStyle::Strong;
        s.label(Label { x: p.x, y, anchor: Anchor::Middle, text: number, size_pt: size, style: strong, leader: None });
        if with_title {
            let y = area.y0 + tall + 0.6 + metric::ascent(7.0);
            let style = LabelStyle::Plain;
            s.label(Label { x: p.x, y, anchor: Anchor::Middle, text: title, size_pt: 7.0, style, leader: None });
        }
        if arrow {
            grain(s, &polygon, pt(p.x, area.y1 + 1.8), shape.forward, one_way);
        } else {
            // Beside the number, where a narrow piece has room.
            let (from, to) = (area.x1 + 1.2, area.x1 + 9.0);
            let beside = Rect::new(from, p.y - 0.9, to, p.y + 0.9);
            if holds(&polygon, beside) {
                grain_line(s, pt(from, p.y), pt(to, p.y), shape.forward, one_way);
            }
        }
        return;
    }
    outside(s, others, lines, bounds, number);
}

/// The number of a piece too small for it: as near as there is room beside it, with a leader.
fn outside(s: &mut Scene, others: &[Vec<Vec<Point>>], lines: &[(Point, Point)], piece: Rect, number: String) {
    let target = piece.center();
    let half = (metric::width(&number, SIZE, LabelStyle::Plain) / 2.0 + 0.5, metric::height(&number, SIZE) / 2.0 + 0.4);
    let room = |p: Point| Rect::new(p.x - half.0, p.y - half.1, p.x + half.0, p.y + half.1);
    let free = |s: &Scene, p: Point| {
        let area = room(p);
        let corners = [pt(area.x0, area.y0), pt(area.x1, area.y0), pt(area.x0, area.y1), pt(area.x1, area.y1), p];
        let covered = others.iter().any(|other| {
            corners.iter().any(|c| inside(other, *c)) || other.iter().flatten().any(|c| area.contains(*c))
        });
        let way = (0..=20).map(|i| target.lerp(p, real(i) / 20.0));
        let mut words = way.map(|q| Rect::new(q.x - 0.4, q.y - 0.4, q.x + 0.4, q.y + 0.4));
        let sides =
            [(corners[0], corners[1]), (corners[2], corners[3]), (corners[0], corners[2]), (corners[1], corners[3])];
        let struck = lines.iter().any(|line| sides.iter().any(|side| cross(*line, *side)));
        !covered && !struck && !s.has_words(area.inflate(0.4, 0.2)) && !words.any(|spot| s.has_words(spot))
    };
    let reach = piece.width().max(piece.height()) / 2.0 + 20.0;
    let steps = whole(reach, 4, 80);
    // Straight up and down first: a leader across few pieces.
    let turns =
        [(0.0, -1.0), (0.0, 1.0), (0.5, -0.87), (-0.5, -0.87), (0.5, 0.87), (-0.5, 0.87), (1.0, 0.0), (-1.0, 0.0)];
    let tries = (3..=steps).flat_map(|d| turns.into_iter().map(move |(x, y)| Vec2::new(x, y) * real(d)));
    let at = tries.map(|by| target + by).find(|p| free(s, *p)).unwrap_or(pt(target.x, -8.0));
    s.pointer(at, Anchor::Middle, target, number);
}

/// The straight grain under the words, as long as the piece allows.
fn grain(s: &mut Scene, polygon: &[Vec<Point>], middle: Point, forward: bool, one_way: bool) {
    let mut half = 3.6;
    while half < 16.0
        && holds(polygon, Rect::new(middle.x - half - 2.5, middle.y - 1.0, middle.x + half + 2.5, middle.y + 1.0))
    {
        half += 1.0;
    }
    grain_line(s, pt(middle.x - half, middle.y), pt(middle.x + half, middle.y), forward, one_way);
}

/// On one-way cloth the arrow points to the upper end of the piece.
fn grain_line(s: &mut Scene, a: Point, b: Point, forward: bool, one_way: bool) {
    if !one_way {
        s.grain(a, b);
        return;
    }
    s.uses(super::super::figure::KeyEntry::Grain);
    s.stroke(line(a, b), Pen::GRAIN);
    let (tip, back) = if forward { (b, -2.4) } else { (a, 2.4) };
    let head = [tip + Vec2::new(back, 1.1), tip, tip + Vec2::new(back, -1.1)];
    s.stroke(super::super::geom::polyline(&head), Pen::GRAIN);
}

fn words(input: &LayoutFigure, look: &Look) -> Words {
    let spread = match input.spread {
        Spread::Open => "in one layer",
        Spread::Lengthwise => "folded along its length, the fold at the lower edge and both selvages at the upper",
        Spread::Crosswise => "folded across, the fold at the left end",
        Spread::Doubled => "with both selvages folded to the middle, a fold at the lower and at the upper edge",
    };
    let listed: Vec<String> = input
        .pieces
        .iter()
        .map(|piece| {
            let mut text = format!("{} {}", piece.number, piece.name);
            for (is, words) in [(piece.on_fold, " on the fold"), (piece.face_down, " face down")] {
                if is {
                    text.push_str(words);
                }
            }
            text
        })
        .collect();
    let left = input.spare.as_ref().map_or_else(String::new, |(_, along, across)| {
        format!(" A rectangle of {} by {} is left over.", look.say(along), look.say(across))
    });
    let caption = format!("{}, {} by {} as it lies.", input.cloth, look.set(&input.length), look.set(&input.width));
    let alt = format!(
        "{} laid out {spread}, {} long and {} wide as it lies. From the left end, in the order in which they begin: {}.{left} \
         The table beneath says how far each lies from the end and from the edge.",
        input.cloth,
        look.say(&input.length),
        look.say(&input.width),
        listed.join("; ")
    );
    Words { caption, alt }
}
