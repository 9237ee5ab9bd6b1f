//! A dip, as an edge of a flat piece.

use kurbo::Point;

use super::curve;
use super::desk::{Desk, Drawn};
use super::path::Path;
use crate::fault::{Place, Route};
use crate::shape::{DipLineShape, DipShape};

/// Cubic pieces in which a half of a curved dip is drawn: far nearer to the curve than the width of a pencil line.
const PIECES: u32 = 24;
/// How often the range of a search is halved.
const HALVINGS: u32 = 60;

/// A dip on flat cloth: how far the edge lies below the level, from the centre outward.
pub(super) enum Dip {
    /// By its line on the body.
    Line { line: DipLineShape, half: f64, depth: f64, ratio: f64, arc: f64 },
    /// By the depths marked on the cloth.
    Depths(Path),
}

impl Dip {
    pub(super) fn read(desk: &Desk, shape: &DipShape, route: &Route) -> Drawn<Dip> {
        if !shape.depths.is_empty() {
            return Dip::marks(desk, shape, route);
        }
        let (Some(width), Some(depth)) = (&shape.width, &shape.depth) else {
            let message = "a dip needs `width` and `depth`, or `depths`";
            return Err(desk.cannot(
                Place::Key(route.clone()),
                message,
                "give the width of the dip on the body and how deep it is",
            ));
        };
        let half = desk.positive(width, &route.key("width"), "the width of the dip")? / 2.0;
        let depth = desk.positive(depth, &route.key("depth"), "the depth of the dip")?;
        let ratio = match &shape.ratio {
            Some(ratio) => desk.number(ratio, &route.key("ratio"))?,
            None => 1.0,
        };
        if !(0.999..=60.0).contains(&ratio) {
            let message = format!("expected a ratio of flat to drawn-up, but found {ratio}");
            return Err(desk.cannot(route.key("ratio"), message, "1 is flat, 6 is usual for cartridge pleats"));
        }
        let line = shape.line;
        let arc = on_body(line, half, depth).length();
        Ok(Dip::Line { line, half, depth, ratio, arc })
    }

    fn marks(desk: &Desk, shape: &DipShape, route: &Route) -> Drawn<Dip> {
        let at = route.key("depths");
        let mut points = Vec::new();
        for (index, row) in shape.depths.iter().enumerate() {
            let row_at = at.index(index);
            let out = desk.mm(&row.out, &row_at.key("out"))?;
            let down = desk.mm(&row.down, &row_at.key("down"))?;
            if points.last().is_some_and(|last: &Point| out <= last.x) || (points.is_empty() && out.abs() > 1e-6) {
                let message = "the marks do not run outward from the centre";
                return Err(desk.cannot(&row_at, message, "begin with nothing out, and go further out with each"));
            }
            points.push(Point::new(out, down));
        }
        if points.len() < 2 {
            return Err(desk.cannot(&at, "one mark makes no dip", "begin at the centre and end at the level waist"));
        }
        Ok(Dip::Depths(curve::through(&points, None, None)))
    }

    /// How far out the dip reaches on the flat cloth, mm.
    pub(super) fn reach(&self) -> f64 {
        match self {
            Dip::Line { ratio, arc, .. } => ratio * arc,
            Dip::Depths(path) => path.end().x,
        }
    }

    /// One half of the dip on the flat cloth, from the centre (at x = 0) outward to the right.
    fn half(&self) -> Path {
        match self {
            Dip::Depths(path) => path.clone(),
            Dip::Line { line: DipLineShape::Straight, depth, .. } => {
                Path::straight(&[Point::new(0.0, *depth), Point::new(self.reach(), 0.0)])
            }
            Dip::Line { line, half, depth, ratio, arc } => {
                let body = on_body(*line, *half, *depth);
                let x_at = |u: f64| body.at(u / ratio).0.x.clamp(0.0, *half);
                let height = |u: f64| down(*line, *half, *depth, x_at(u));
                // d'(u) = y'(x) / (ratio √(1 + y'²)).
                let slope = |u: f64| {
                    let y = fall(*line, *half, *depth, x_at(u));
                    y / (ratio * y.hypot(1.0))
                };
                curve::plotted(0.0, ratio * arc, PIECES, height, slope)
            }
        }
    }

    /// An edge from x = 0 to `width`, with the centre of the dip at `centre`, level beyond the dip.
    pub(super) fn edge(&self, width: f64, centre: f64) -> Path {
        let (half, reach) = (self.half(), self.reach());
        let right = half.moved(kurbo::Affine::translate((centre, 0.0)));
        let left = half.moved(kurbo::Affine::new([-1.0, 0.0, 0.0, 1.0, centre, 0.0])).reversed();
        let mut whole = Path::default();
        if centre - reach > 0.0 {
            whole = Path::straight(&[Point::new(0.0, 0.0), Point::new(centre - reach, 0.0)]);
        }
        whole = whole.then(&left).then(&right);
        if centre + reach < width {
            whole = whole.then(&Path::straight(&[Point::new(centre + reach, 0.0), Point::new(width, 0.0)]));
        }
        clipped(&whole, width)
    }
}

/// The part of an edge between x = 0 and x = width. The edge runs steadily to the right.
fn clipped(edge: &Path, width: f64) -> Path {
    let at = |x: f64| {
        let (mut low, mut high) = (0.0, edge.length());
        for _ in 0..HALVINGS {
            let middle = low + (high - low) / 2.0;
            if edge.at(middle).0.x < x {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    };
    let from = if edge.start().x < -1e-9 { at(0.0) } else { 0.0 };
    let to = if edge.end().x > width + 1e-9 { at(width) } else { edge.length() };
    edge.slice(from, to)
}

/// The edge of a band that follows the dip itself, measured straight across.
pub(super) fn band_edge(line: DipLineShape, half: f64, depth: f64, width: f64, centre: f64) -> Path {
    let right = on_body(line, half, depth).moved(kurbo::Affine::translate((centre, 0.0)));
    let left = on_body(line, half, depth).moved(kurbo::Affine::new([-1.0, 0.0, 0.0, 1.0, centre, 0.0])).reversed();
    let mut whole = Path::default();
    if centre - half > 0.0 {
        whole = Path::straight(&[Point::new(0.0, 0.0), Point::new(centre - half, 0.0)]);
    }
    whole = whole.then(&left).then(&right);
    if centre + half < width {
        whole = whole.then(&Path::straight(&[Point::new(centre + half, 0.0), Point::new(width, 0.0)]));
    }
    clipped(&whole, width)
}

/// One half of the dip on the body, from the centre outward.
fn on_body(line: DipLineShape, half: f64, depth: f64) -> Path {
    match line {
        DipLineShape::Straight => Path::straight(&[Point::new(0.0, depth), Point::new(half, 0.0)]),
        line => curve::plotted(0.0, half, PIECES, |x| down(line, half, depth, x), |x| fall(line, half, depth, x)),
    }
}

fn down(line: DipLineShape, half: f64, depth: f64, x: f64) -> f64 {
    match line {
        DipLineShape::Straight => depth * (1.0 - x / half),
        DipLineShape::HalfCosine => depth / 2.0 * (1.0 + (std::f64::consts::PI * x / half).cos()),
        DipLineShape::Parabola => depth * (1.0 - (x / half).powi(2)),
    }
}

/// The slope, below nothing where the edge rises.
fn fall(line: DipLineShape, half: f64, depth: f64, x: f64) -> f64 {
    let turn = std::f64::consts::PI / half;
    match line {
        DipLineShape::Straight => -depth / half,
        DipLineShape::HalfCosine => -depth / 2.0 * turn * (turn * x).sin(),
        DipLineShape::Parabola => -2.0 * depth * x / (half * half),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Dip, closed form: straight-sided, 12 in wide 3 in deep, 13.4164 in along the seam; half-cosine 13.6781; parabola
    /// 13.7735.
    #[test]
    fn lengths_along_the_seam() {
        for (line, inches) in
            [(DipLineShape::Straight, 13.4164), (DipLineShape::HalfCosine, 13.6781), (DipLineShape::Parabola, 13.7735)]
        {
            let half = on_body(line, 6.0 * 25.4, 3.0 * 25.4).length() / 25.4;
            assert!((2.0 * half - inches).abs() < 1e-4, "{line:?}: {}", 2.0 * half);
        }
    }

    /// Closed form: at 6 : 1 the straight dip takes 80.498 in of flat cloth, and on it its edge is still straight.
    #[test]
    fn on_the_flat_cloth() {
        let (half, depth) = (6.0 * 25.4, 3.0 * 25.4);
        for line in [DipLineShape::Straight, DipLineShape::HalfCosine, DipLineShape::Parabola] {
            let arc = on_body(line, half, depth).length();
            let dip = Dip::Line { line, half, depth, ratio: 6.0, arc };
            let edge = dip.edge(3000.0, 1500.0);
            assert!((edge.start().y, edge.end().y) == (0.0, 0.0));
            let lowest = edge.at(edge.nearest(Point::new(1500.0, depth)).0).0;
            assert!(lowest.distance(Point::new(1500.0, depth)) < 1e-6, "{lowest:?}");
            if line == DipLineShape::Straight {
                assert!((2.0 * dip.reach() / 25.4 - 80.498).abs() < 1e-3);
            }
            // Drawn up six times, each step along the flat is a sixth of it along the seam, and as far down.
            let body = on_body(line, half, depth);
            for share in [0.1, 0.37, 0.5, 0.81] {
                let u = share * dip.reach();
                let (x, y) = (1500.0 + u, body.at(u / 6.0).0.y);
                let near = edge.nearest(Point::new(x, y)).1;
                assert!(near < 0.01, "{line:?} {share}: {near}");
            }
        }
    }

    #[test]
    fn a_panel_may_hold_only_a_part() {
        let arc = on_body(DipLineShape::Straight, 100.0, 50.0).length();
        let dip = Dip::Line { line: DipLineShape::Straight, half: 100.0, depth: 50.0, ratio: 4.0, arc };
        let edge = dip.edge(300.0, -100.0);
        assert!(edge.start().x.abs() < 1e-9 && (edge.end().x - 300.0).abs() < 1e-9);
        let expected = 50.0 * (1.0 - 100.0 / (4.0 * arc));
        assert!((edge.start().y - expected).abs() < 1e-6);
    }
}
