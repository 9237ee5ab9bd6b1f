//! Points, boxes and areas. Everything in millimetres.

/// A point or a vector, `[x, y]`, millimetres.
pub type Point = [f64; 2];

/// A box with its sides along the axes, millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Lower left corner.
    pub min: Point,
    /// Upper right corner.
    pub max: Point,
}

impl Bounds {
    /// The smallest box around the points; of no points, an empty box at the origin.
    #[must_use]
    pub fn of(points: &[Point]) -> Self {
        let Some(first) = points.first() else { return Self { min: [0.0; 2], max: [0.0; 2] } };
        let mut bounds = Self { min: *first, max: *first };
        for p in points {
            bounds.min = [bounds.min[0].min(p[0]), bounds.min[1].min(p[1])];
            bounds.max = [bounds.max[0].max(p[0]), bounds.max[1].max(p[1])];
        }
        bounds
    }

    /// Extent along x.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.max[0] - self.min[0]
    }

    /// Extent along y.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.max[1] - self.min[1]
    }
}

/// Area of a closed outline, mm²: positive when it runs anticlockwise (y upwards).
#[must_use]
pub fn signed_area(outline: &[Point]) -> f64 {
    let Some(last) = outline.last() else { return 0.0 };
    let mut twice = 0.0;
    let mut a = last;
    for b in outline {
        twice += a[0] * b[1] - b[0] * a[1];
        a = b;
    }
    twice / 2.0
}

/// The outline moved by a vector, millimetres.
#[must_use]
pub fn moved(outline: &[Point], by: Point) -> Vec<Point> {
    outline.iter().map(|p| [p[0] + by[0], p[1] + by[1]]).collect()
}
