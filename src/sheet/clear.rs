//! Where words can stand without a line through them.

use std::collections::BTreeMap;

use kurbo::{BezPath, PathEl, Point, Rect};

/// The size of a field of the look-up, mm.
const FIELD: f64 = 20.0;

/// A straight piece of a line, and its owner.
type Side = (Point, Point, usize);

/// Everything words must not touch.
#[derive(Debug, Clone, Default)]
pub struct Clear {
    sides: BTreeMap<(i32, i32), Vec<Side>>,
    boxes: Vec<Rect>,
}

#[allow(clippy::cast_possible_truncation)]
fn field(value: f64) -> i32 {
    (value / FIELD).floor() as i32
}

impl Clear {
    /// Adds a line.
    pub fn line(&mut self, path: &BezPath) {
        self.line_of(path, usize::MAX);
    }

    /// Adds a line with an owner, who may write over it.
    pub fn line_of(&mut self, path: &BezPath, owner: usize) {
        let (mut start, mut at) = (Point::ZERO, Point::ZERO);
        let mut sides = Vec::new();
        kurbo::flatten(path.elements().iter().copied(), 0.2, |element| match element {
            PathEl::MoveTo(p) => (start, at) = (p, p),
            PathEl::LineTo(p) => {
                sides.push((at, p));
                at = p;
            }
            PathEl::ClosePath => sides.push((at, start)),
            _ => {}
        });
        for (a, b) in sides {
            self.side_of(a, b, owner);
        }
    }

    /// Adds a straight line.
    pub fn side(&mut self, a: Point, b: Point) {
        self.side_of(a, b, usize::MAX);
    }

    fn side_of(&mut self, a: Point, b: Point, owner: usize) {
        let steps = (a.distance(b) / FIELD).ceil().max(1.0);
        let mut step = 0.0;
        while step < steps {
            // A piece of the line no longer than a field lies in the fields of its two ends' box.
            let (p, q) = (a.lerp(b, step / steps), a.lerp(b, (step + 1.0) / steps));
            for x in field(p.x.min(q.x))..=field(p.x.max(q.x)) {
                for y in field(p.y.min(q.y))..=field(p.y.max(q.y)) {
                    self.sides.entry((x, y)).or_default().push((p, q, owner));
                }
            }
            step += 1.0;
        }
    }

    /// Adds a box of words.
    pub fn words(&mut self, rect: Rect) {
        self.boxes.push(rect);
    }

    /// Whether no words stand in a box; lines may.
    #[must_use]
    pub fn no_words(&self, rect: Rect) -> bool {
        self.boxes.iter().all(|other| rect.intersect(*other).area() < 1e-9)
    }

    /// Whether nothing touches a box.
    #[must_use]
    pub fn is_free(&self, rect: Rect) -> bool {
        self.no_words(rect) && self.no_lines_but(rect, None)
    }

    /// Whether no line touches a box, but for those of one owner.
    #[must_use]
    pub fn no_lines_but(&self, rect: Rect, owner: Option<usize>) -> bool {
        for x in field(rect.x0)..=field(rect.x1) {
            for y in field(rect.y0)..=field(rect.y1) {
                if let Some(sides) = self.sides.get(&(x, y))
                    && sides.iter().any(|(a, b, of)| Some(*of) != owner && touches(rect, *a, *b))
                {
                    return false;
                }
            }
        }
        true
    }
}

/// Whether a straight line has a point in a box (the clipping rule of Liang and Barsky).
fn touches(rect: Rect, a: Point, b: Point) -> bool {
    let (d, mut from, mut to) = (b - a, 0.0f64, 1.0f64);
    for (p, q) in [(-d.x, a.x - rect.x0), (d.x, rect.x1 - a.x), (-d.y, a.y - rect.y0), (d.y, rect.y1 - a.y)] {
        if p.abs() < 1e-12 {
            if q < 0.0 {
                return false;
            }
        } else if p < 0.0 {
            from = from.max(q / p);
        } else {
            to = to.min(q / p);
        }
    }
    from <= to
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_words_are_in_the_way() {
        let mut clear = Clear::default();
        clear.side(Point::new(0.0, 0.0), Point::new(300.0, 150.0));
        assert!(!clear.is_free(Rect::new(198.0, 98.0, 202.0, 102.0)));
        assert!(clear.is_free(Rect::new(198.0, 102.0, 202.0, 106.0)));
        clear.words(Rect::new(0.0, 100.0, 20.0, 110.0));
        assert!(!clear.is_free(Rect::new(15.0, 105.0, 30.0, 108.0)));
        assert!(clear.is_free(Rect::new(20.0, 105.0, 30.0, 108.0)), "side by side is not over each other");
    }
}
