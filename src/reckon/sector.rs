//! A piece cut from a ring: how it lies on a width of cloth.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::units::Length;

/// A part of a ring, with an allowance along both of its straight edges; bare millimetres and radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sector {
    /// The angle between its straight edges; a whole turn has none.
    pub angle: f64,
    /// The radius of the inner cut line.
    pub inner: f64,
    /// The radius of the outer cut line.
    pub outer: f64,
    /// The allowance outside each straight edge.
    pub edge: f64,
}

/// How a number of like sectors lie on the cloth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lay {
    /// How each is turned, in words.
    pub how: &'static str,
    /// Pieces side by side.
    pub across: f64,
    /// Cloth used, from the first to the last.
    pub length: Length,
}

/// A whole turn, less what arithmetic may be off by.
const WHOLE: f64 = 2.0 * PI - 1e-9;

/// Where the first edge points, from the angle between the two.
type Turn = fn(f64) -> f64;

/// The ways to turn a sector that keep its grain nameable, and where its first edge then points.
const TURNS: [(&str, Turn); 4] = [
    ("edge along selvage", |_| 0.0),
    ("edge across cloth", |_| FRAC_PI_2),
    ("middle along selvage", |angle| -angle / 2.0),
    ("middle across cloth", |angle| FRAC_PI_2 - angle / 2.0),
];

impl Sector {
    /// Whether it can be cut in one piece: a whole turn, or less by enough that its two edges do not run into
    /// each other with their allowances.
    #[must_use]
    pub fn is_one_piece(&self) -> bool {
        if self.angle >= WHOLE {
            return self.angle <= 2.0 * PI + 1e-9;
        }
        let gap = 2.0 * PI - self.angle;
        gap >= PI || 2.0 * self.inner * (gap / 2.0).sin() >= 2.0 * self.edge
    }

    /// Its extent along the cloth and across it, when its first edge points so.
    #[must_use]
    pub fn extent(&self, turn: f64) -> (f64, f64) {
        if self.angle >= WHOLE {
            return (2.0 * self.outer, 2.0 * self.outer);
        }
        let mut points = Vec::new();
        for (at, out) in [(turn, turn - FRAC_PI_2), (turn + self.angle, turn + self.angle + FRAC_PI_2)] {
            for radius in [self.inner, self.outer] {
                for edge in [0.0, self.edge] {
                    points.push((radius * at.cos() + edge * out.cos(), radius * at.sin() + edge * out.sin()));
                }
            }
        }
        // The outer line reaches furthest where it crosses the directions of the cloth.
        let mut quarter = (turn / FRAC_PI_2 - 1e-12).ceil();
        while quarter * FRAC_PI_2 <= turn + self.angle + 1e-12 {
            let at = quarter * FRAC_PI_2;
            points.push((self.outer * at.cos(), self.outer * at.sin()));
            quarter += 1.0;
        }
        let span = |pick: fn(&(f64, f64)) -> f64| {
            let (low, high) = points
                .iter()
                .map(pick)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
            high - low
        };
        (span(|point| point.0), span(|point| point.1))
    }

    /// The narrowest width of cloth it can be cut from.
    #[must_use]
    pub fn narrowest(&self) -> Length {
        let widths = TURNS.iter().map(|(_, turn)| self.extent(turn(self.angle)).1);
        Length::mm(widths.fold(f64::INFINITY, f64::min))
    }

    /// The shortest lay of so many of them on a width of cloth, in rows, all turned alike; `None` where one is
    /// wider than the cloth.
    #[must_use]
    pub fn lay(&self, pieces: f64, width: Length) -> Option<Lay> {
        if !self.is_one_piece() {
            return None;
        }
        let mut best: Option<Lay> = None;
        for (how, turn) in TURNS {
            let (along, across) = self.extent(turn(self.angle));
            let side_by_side = (width.base() / across + 1e-9).floor().min(pieces);
            if side_by_side < 1.0 {
                continue;
            }
            let length = Length::mm(along * (pieces / side_by_side - 1e-9).ceil());
            if best.is_none_or(|best| length.base() < best.length.base() - 1e-6) {
                let how = if self.angle >= WHOLE { "whole" } else { how };
                best = Some(Lay { how, across: side_by_side, length });
            }
        }
        best
    }
}
