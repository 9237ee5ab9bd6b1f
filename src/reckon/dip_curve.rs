//! The line of a dip: its depth, its slope and its length along itself.

use crate::units::{Angle, Length, Ratio};

/// One half of a dip, from the centre (deepest) outward to the level waist; the other is its mirror.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Curve {
    /// A straight line from the point to the waist.
    Straight { half: Length, depth: Length },
    /// Half a wave of the cosine: level at the point and where it meets the waist.
    HalfCosine { half: Length, depth: Length },
    /// A parabola with its apex at the point.
    Parabola { half: Length, depth: Length },
    /// Straight from point to point, from the centre outward.
    Points(Vec<(Length, Length)>),
}

/// How often the range of a search is halved: far below a thread's breadth, and always ends.
const HALVINGS: u32 = 60;
/// Pieces in which an integral is taken, each by Gauss's five points.
const PIECES: u32 = 64;
/// Nodes and weights of Gauss-Legendre quadrature of order five on [-1, 1]
/// (Abramowitz and Stegun, *Handbook of Mathematical Functions*, table 25.4).
const GAUSS: [(f64, f64); 5] = [
    (0.0, 0.568_888_888_888_888_9),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

impl Curve {
    fn half(&self) -> f64 {
        match self {
            Curve::Straight { half, .. } | Curve::HalfCosine { half, .. } | Curve::Parabola { half, .. } => half.base(),
            Curve::Points(points) => points.last().map_or(0.0, |point| point.0.base()),
        }
    }

    /// Depth below the level waist, `x` from the centre.
    fn depth(&self, x: f64) -> f64 {
        match self {
            Curve::Straight { half, depth } => depth.base() * (1.0 - x / half.base()),
            Curve::HalfCosine { half, depth } => {
                depth.base() / 2.0 * (1.0 + (std::f64::consts::PI * x / half.base()).cos())
            }
            Curve::Parabola { half, depth } => depth.base() * (1.0 - (x / half.base()).powi(2)),
            Curve::Points(points) => points
                .windows(2)
                .find_map(|pair| match pair {
                    [(x0, y0), (x1, y1)] if x <= x1.base() => {
                        Some(y0.base() + (y1.base() - y0.base()) * (x - x0.base()) / (x1.base() - x0.base()))
                    }
                    _ => None,
                })
                .unwrap_or(0.0),
        }
    }

    /// How fast it rises towards the waist.
    fn slope(&self, x: f64) -> f64 {
        match self {
            Curve::Straight { half, depth } => depth.base() / half.base(),
            Curve::HalfCosine { half, depth } => {
                let turn = std::f64::consts::PI / half.base();
                depth.base() / 2.0 * turn * (turn * x).sin()
            }
            Curve::Parabola { half, depth } => 2.0 * depth.base() * x / half.base().powi(2),
            Curve::Points(points) => points
                .windows(2)
                .find_map(|pair| match pair {
                    [(x0, y0), (x1, y1)] if x <= x1.base() => Some((y0.base() - y1.base()) / (x1.base() - x0.base())),
                    _ => None,
                })
                .unwrap_or(0.0),
        }
    }

    /// Length along the line from the centre to `x`. Straight lines and the parabola by closed form,
    /// the cosine by quadrature (its length is an elliptic integral).
    fn length_to(&self, x: f64) -> f64 {
        match self {
            Curve::Straight { .. } => x * self.slope(0.0).hypot(1.0),
            Curve::Parabola { half, depth } => {
                let k = 2.0 * depth.base() / half.base().powi(2);
                let t = k * x;
                (t * t.hypot(1.0) + t.asinh()) / (2.0 * k)
            }
            Curve::HalfCosine { .. } => {
                let piece = x / f64::from(PIECES);
                let sum: f64 = (0..PIECES)
                    .flat_map(|index| GAUSS.iter().map(move |node| (index, node)))
                    .map(|(index, (at, weight))| {
                        weight * self.slope(piece * (f64::from(index) + (at + 1.0) / 2.0)).hypot(1.0)
                    })
                    .sum();
                sum * piece / 2.0
            }
            Curve::Points(points) => points
                .windows(2)
                .map(|pair| match pair {
                    [(x0, y0), (x1, y1)] if x > x0.base() => {
                        let share = ((x - x0.base()) / (x1.base() - x0.base())).min(1.0);
                        share * (x1.base() - x0.base()).hypot(y1.base() - y0.base())
                    }
                    _ => 0.0,
                })
                .sum(),
        }
    }

    /// Length along the line from the centre to where it meets the waist.
    pub(super) fn length(&self) -> Length {
        Length::from_base(self.length_to(self.half()))
    }

    /// Depth at a place measured along the line from the centre.
    pub(super) fn depth_along(&self, along: Length) -> Length {
        let (mut low, mut high) = (0.0, self.half());
        for _ in 0..HALVINGS {
            let middle = low + (high - low) / 2.0;
            if self.length_to(middle) < along.base() {
                low = middle;
            } else {
                high = middle;
            }
        }
        Length::from_base(self.depth(low + (high - low) / 2.0).max(0.0))
    }

    /// The steepest slope of the line laid out on the flat cloth: `y' / (ratio √(1 + y'²))`.
    pub(super) fn steepest(&self, ratio: Ratio) -> Angle {
        let on_flat = |slope: f64| (slope / slope.hypot(1.0) / ratio.base()).atan();
        let steepest = match self {
            Curve::Straight { .. } => self.slope(0.0),
            Curve::Parabola { .. } => self.slope(self.half()),
            Curve::HalfCosine { .. } => self.slope(self.half() / 2.0),
            Curve::Points(points) => points.iter().map(|point| self.slope(point.0.base()).abs()).fold(0.0, f64::max),
        };
        Angle::from_base(on_flat(steepest))
    }
}
