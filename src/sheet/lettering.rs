//! Words on placed pieces: labels, notes, and the names of sizes along their lines. Upright, and never over a line.

use kurbo::{BezPath, ParamCurveNearest, PathSeg, Point, Rect, Shape, Vec2};

use super::clear::Clear;
use super::drawing::{Drawing, Kind};
use super::face::{Face, pt};
use super::page::{Item, Pen, Sizes, text_box};

/// Sizes of the type of a label, from the one it should have to the smallest: its first line and the others, points.
const LABELS: [(f64, f64); 4] = [(13.0, 9.5), (11.0, 8.5), (9.5, 7.5), (8.0, 7.0)];
/// The type of notes and of the names of sizes, points.
const NOTE: f64 = 7.0;
/// Room about words, mm.
const ROOM: f64 = 0.5;
/// How far apart the names of a size stand along its line, mm.
const EVERY: f64 = 160.0;
/// A note farther from its place than this gets a leader, mm.
const NEAR: f64 = 7.0;

/// Lines of words that stand together.
#[derive(Debug, Clone)]
pub struct Block {
    lines: Vec<(String, Face, f64)>,
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
}

impl Block {
    /// A label in one of the sizes of its type.
    #[must_use]
    pub fn label(words: &[String], step: usize, boldness: f64) -> Block {
        let (first, rest) = LABELS.get(step).copied().unwrap_or(LABELS[LABELS.len() - 1]);
        let lines: Vec<(String, Face, f64)> = words
            .iter()
            .enumerate()
            .map(|(index, text)| {
                let (face, size) = if index == 0 { (Face::Bold, first) } else { (Face::Regular, rest) };
                (text.clone(), face, pt(size) * boldness)
            })
            .collect();
        let width = lines.iter().map(|(text, face, em)| face.width(text, *em)).fold(0.0, f64::max);
        let height = lines.iter().map(|(.., em)| em * 1.3).sum();
        Block { lines, width, height }
    }

    /// The smallest it can be.
    #[must_use]
    pub fn smallest(words: &[String], boldness: f64) -> Block {
        Block::label(words, LABELS.len() - 1, boldness)
    }

    /// Drawn with its upper left corner at a place.
    #[must_use]
    pub fn items(&self, corner: Point) -> Vec<Item> {
        let mut y = corner.y;
        self.lines
            .iter()
            .map(|(text, face, em)| {
                let at = Point::new(corner.x, y + em * 1.0);
                y += em * 1.3;
                Item::Text { at, text: text.clone(), face: *face, em: *em, grey: 0.0, sizes: Sizes::ALWAYS }
            })
            .collect()
    }
}

/// Whether a point lies in a shape (even-odd).
fn inside(shape: &[Point], p: Point) -> bool {
    let next = shape.iter().cycle().skip(1);
    let crossings = shape
        .iter()
        .zip(next)
        .filter(|(a, b)| (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x);
    crossings.count() % 2 == 1
}

/// Where a box of that size can stand inside the piece in all its sizes: the place nearest to its label point.
fn room_inside(drawing: &Drawing, clear: &Clear, width: f64, height: f64) -> Option<Point> {
    let bounds = drawing.bounds();
    let step = (width.min(height) / 2.0).clamp(3.0, 15.0);
    let mut best: Option<(f64, Point)> = None;
    let mut y = bounds.y0;
    while y + height <= bounds.y1 {
        let mut x = bounds.x0;
        while x + width <= bounds.x1 {
            let rect = Rect::new(x, y, x + width, y + height);
            let far = rect.center().distance(drawing.label);
            if best.is_none_or(|(least, _)| far < least)
                && drawing.outlines.iter().all(|shape| inside(shape, rect.center()))
                && clear.is_free(rect.inflate(1.0, 1.0))
            {
                best = Some((far, Point::new(x, y)));
            }
            x += step;
        }
        y += step;
    }
    best.map(|(_, corner)| corner)
}

/// The lines of a piece as obstacles.
pub fn obstacles(drawing: &Drawing, clear: &mut Clear) {
    drawing.strokes.iter().for_each(|stroke| clear.line(&stroke.path));
}

/// Where the label must stand beside the piece, because it has no room within; none where it has.
#[must_use]
pub fn label_beside(drawing: &Drawing, boldness: f64) -> Option<Rect> {
    let mut clear = Clear::default();
    obstacles(drawing, &mut clear);
    let block = Block::smallest(&drawing.words, boldness);
    if room_inside(drawing, &clear, block.width, block.height).is_some() {
        return None;
    }
    let bounds = drawing.bounds();
    let (width, height) = (block.width + 2.0, block.height + 2.0);
    // Along the longer side, where it adds least.
    let right = (bounds.width() + 6.0 + width) * bounds.height().max(height);
    let below = bounds.width().max(width) * (bounds.height() + 6.0 + height);
    let corner =
        if right < below { Point::new(bounds.x1 + 6.0, bounds.y0) } else { Point::new(bounds.x0, bounds.y1 + 6.0) };
    Some(Rect::from_origin_size(corner, (width, height)))
}

/// The label of a placed piece: within it, as large as it fits, or in the box kept for it beside, with a leader.
pub fn label(drawing: &Drawing, beside: Option<Rect>, clear: &mut Clear, boldness: f64) -> Vec<Item> {
    if let Some(rect) = beside {
        let block = Block::smallest(&drawing.words, boldness);
        let corner = rect.origin() + Vec2::new(1.0, 1.0);
        let mut items = block.items(corner);
        let centre = drawing.bounds().center();
        let on_box = Point::new(centre.x.clamp(rect.x0, rect.x1), centre.y.clamp(rect.y0, rect.y1));
        let cut = drawing.strokes.iter().filter(|stroke| stroke.kind == Kind::Cut);
        if let Some(to) = nearest(cut.map(|stroke| &stroke.path), on_box) {
            items.push(leader(on_box, to + (centre - to) * 0.08));
        }
        clear.words(rect);
        return items;
    }
    for step in 0..LABELS.len() {
        let block = Block::label(&drawing.words, step, boldness);
        if let Some(corner) = room_inside(drawing, clear, block.width, block.height) {
            clear.words(Rect::from_origin_size(corner, (block.width, block.height)));
            return block.items(corner);
        }
    }
    // The tile lines have taken the room that was there: they may cross it.
    let mut own = Clear::default();
    obstacles(drawing, &mut own);
    let block = Block::smallest(&drawing.words, boldness);
    let corner = room_inside(drawing, &own, block.width, block.height);
    let corner = corner.unwrap_or(drawing.label - Vec2::new(block.width, block.height) / 2.0);
    clear.words(Rect::from_origin_size(corner, (block.width, block.height)));
    block.items(corner)
}

fn leader(from: Point, to: Point) -> Item {
    let mut path = BezPath::new();
    path.move_to(from);
    path.line_to(to);
    Item::Stroke { path, pen: Pen::solid(0.18), sizes: Sizes::ALWAYS, tag: None }
}

fn nearest<'a>(paths: impl Iterator<Item = &'a BezPath>, point: Point) -> Option<Point> {
    let mut best: Option<(f64, Point)> = None;
    for path in paths {
        for seg in path.segments() {
            let near = seg.nearest(point, 1e-3);
            if best.is_none_or(|(least, _)| near.distance_sq < least) {
                best = Some((near.distance_sq, kurbo::ParamCurve::eval(&seg, near.t)));
            }
        }
    }
    best.map(|(_, at)| at)
}

/// Notes, each as near to its place as there is room; one that finds none is left out.
pub fn notes(drawing: &Drawing, clear: &mut Clear, boldness: f64) -> Vec<Item> {
    let em = pt(NOTE) * boldness;
    let mut items = Vec::new();
    for note in &drawing.notes {
        let width = Face::Regular.width(&note.text, em);
        if let Some((at, far)) = beside(note.at, width, em, clear, 30.0 * boldness) {
            let rect = text_box(at, width, em);
            if far > NEAR * boldness {
                let from = Point::new(note.at.x.clamp(rect.x0, rect.x1), note.at.y.clamp(rect.y0, rect.y1));
                items.push(leader(from, from + (note.at - from) * 0.94));
            }
            clear.words(rect.inflate(ROOM, ROOM));
            let text = note.text.clone();
            items.push(Item::Text { at, text, face: Face::Regular, em, grey: 0.0, sizes: Sizes::ALWAYS });
        }
    }
    items
}

/// Where words can stand near a place: the beginning of their base line, and how far the words are from the place.
pub fn beside(place: Point, width: f64, em: f64, clear: &Clear, reach: f64) -> Option<(Point, f64)> {
    let mut radius = 1.0;
    while radius < reach {
        for turn in 0..16 {
            let (sin, cos) = (f64::from(turn) * std::f64::consts::TAU / 16.0).sin_cos();
            // The box stands off from the place on the side it lies on.
            let centre = place + Vec2::new(cos * (width / 2.0 + radius), sin * (em / 2.0 + radius));
            let at = Point::new(centre.x - width / 2.0, centre.y + em * 0.27);
            if clear.is_free(text_box(at, width, em).inflate(ROOM, ROOM)) {
                return Some((at, radius));
            }
        }
        radius += 1.5;
    }
    None
}

/// The names of the sizes along their cut lines: in a gap of the line where no other line is near, else beside it with a
/// leader.
pub fn size_names(drawing: &Drawing, names: &[String], frames: &Clear, clear: &mut Clear, boldness: f64) -> Vec<Item> {
    let mut lines = Clear::default();
    drawing.strokes.iter().enumerate().for_each(|(index, stroke)| lines.line_of(&stroke.path, index));
    let em = pt(NOTE) * boldness;
    let mut items = Vec::new();
    let cuts: Vec<usize> =
        (0..drawing.strokes.len()).filter(|at| matches!(drawing.strokes[*at].kind, Kind::Cut)).collect();
    let mut order = cuts.clone();
    // Shared lines last: they have the most room and the longest names.
    order.sort_by_key(|at| drawing.strokes[*at].sizes.len());
    for at in order {
        let stroke = &drawing.strokes[at];
        if stroke.sizes.is_empty() || names.len() < 2 {
            continue;
        }
        let text = size_list(stroke.sizes, names);
        let width = Face::Bold.width(&text, em);
        let length = stroke.path.perimeter(0.01);
        let mut along = (length / 2.0)
            .min(25.0 + 11.0 * stroke.sizes.first().map_or(0.0, |first| f64::from(u32::try_from(first).unwrap_or(0))));
        let mut told = 0;
        while along < length {
            let centre = point_at(&stroke.path, along);
            let start = Point::new(centre.x - width / 2.0, centre.y + em * 0.27);
            let rect = text_box(start, width, em).inflate(ROOM, ROOM * 0.4);
            let fits = lines.no_lines_but(rect, Some(at)) && frames.is_free(rect) && clear.no_words(rect);
            if fits {
                items.push(Item::Fill { path: rect.to_path(0.1), grey: 1.0, sizes: stroke.sizes });
                items.push(Item::Text {
                    at: start,
                    text: text.clone(),
                    face: Face::Bold,
                    em,
                    grey: 0.0,
                    sizes: stroke.sizes,
                });
                clear.words(rect);
                told += 1;
                along += EVERY * boldness;
            } else {
                along += 5.0;
            }
        }
        if told == 0 && length > 12.0 {
            let place = point_at(&stroke.path, length / 2.0);
            if let Some((at, _)) = beside(place, width, em, clear, 40.0 * boldness) {
                let rect = text_box(at, width, em);
                let from = Point::new(place.x.clamp(rect.x0, rect.x1), place.y.clamp(rect.y0, rect.y1));
                items.push(leader(from, place));
                clear.words(rect.inflate(ROOM, ROOM));
                items.push(Item::Text { at, text, face: Face::Bold, em, grey: 0.0, sizes: stroke.sizes });
            }
        }
    }
    items
}

fn point_at(path: &BezPath, along: f64) -> Point {
    use kurbo::{ParamCurve, ParamCurveArclen};
    let mut left = along;
    let mut last = Point::ZERO;
    for seg in path.segments() {
        let length = seg.arclen(0.01);
        if left <= length {
            return match seg {
                PathSeg::Line(line) => line.eval(left / length.max(1e-9)),
                _ => seg.eval(seg.inv_arclen(left, 0.01)),
            };
        }
        left -= length;
        last = seg.end();
    }
    last
}

/// Sizes in few words: `12`, `6 8 10`, `6 to 14`, `all sizes`.
#[must_use]
pub fn size_list(sizes: Sizes, names: &[String]) -> String {
    let list: Vec<usize> = sizes.iter().filter(|index| *index < names.len()).collect();
    if list.len() == names.len() || list.is_empty() {
        return "all sizes".to_string();
    }
    let name = |index: usize| names.get(index).map_or("", String::as_str);
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for index in list {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == index => *last = index,
            _ => runs.push((index, index)),
        }
    }
    let words: Vec<String> = runs
        .into_iter()
        .map(|(from, to)| match to - from {
            0 => name(from).to_string(),
            1 => format!("{} {}", name(from), name(to)),
            _ => format!("{} to {}", name(from), name(to)),
        })
        .collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_in_words() {
        let names: Vec<String> = ["6", "8", "10", "12"].map(String::from).to_vec();
        let set = |list: &[usize]| list.iter().fold(Sizes::ALWAYS, |all, index| all.and(Sizes::one(*index)));
        assert_eq!(size_list(set(&[1]), &names), "8");
        assert_eq!(size_list(set(&[0, 1]), &names), "6 8");
        assert_eq!(size_list(set(&[0, 1, 2]), &names), "6 to 10");
        assert_eq!(size_list(set(&[0, 2, 3]), &names), "6 10 12");
        assert_eq!(size_list(set(&[0, 1, 2, 3]), &names), "all sizes");
    }
}
