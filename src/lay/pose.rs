//! The ways a piece may be turned on the cloth.

use crate::lay::geom::Point;
use serde::{Deserialize, Serialize};
use std::f64::consts::FRAC_1_SQRT_2;

/// How a piece lies: turned over or not, then turned by eighths of a full turn.
///
/// Only eighths occur on cloth (grain, cross grain, bias), so every pose is an exact matrix of 0, 1 and
/// one constant; no sine is ever computed and layouts come out the same on every machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub struct Pose {
    /// Whether the piece is first turned over its own x axis: `(x, y)` to `(x, -y)`.
    pub over: bool,
    /// Anticlockwise turn afterwards, in eighths of a full turn (45 degrees each), 0 to 7.
    pub eighths: u8,
}

impl Pose {
    /// As drafted.
    pub const AS_DRAFTED: Self = Self { over: false, eighths: 0 };

    /// A turn without turning over; `degrees` must be a multiple of 45.
    ///
    /// Returns nothing for any other angle.
    #[must_use]
    pub fn turned(degrees: i32) -> Option<Self> {
        if degrees % 45 != 0 {
            return None;
        }
        u8::try_from((degrees / 45).rem_euclid(8)).ok().map(|eighths| Self { over: false, eighths })
    }

    /// The turn in degrees, anticlockwise.
    #[must_use]
    pub fn degrees(self) -> i32 {
        i32::from(self.eighths % 8) * 45
    }

    /// Where a point of the piece comes to lie.
    #[must_use]
    pub fn apply(self, p: Point) -> Point {
        let [x, y] = if self.over { [p[0], -p[1]] } else { p };
        let half = |a: f64| a * FRAC_1_SQRT_2;
        match self.eighths % 8 {
            0 => [x, y],
            1 => [half(x - y), half(x + y)],
            2 => [-y, x],
            3 => [half(-x - y), half(x - y)],
            4 => [-x, -y],
            5 => [half(y - x), half(-x - y)],
            6 => [y, -x],
            _ => [half(x + y), half(y - x)],
        }
    }

    /// The whole outline in this pose.
    #[must_use]
    pub fn outline(self, outline: &[Point]) -> Vec<Point> {
        outline.iter().map(|p| self.apply(*p)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::Pose;

    /// Closed form: a turn by 45 k degrees is the matrix of cos and sin.
    #[test]
    fn turns_agree_with_cosine_and_sine() {
        for degrees in (-360..=720).step_by(45) {
            let pose = Pose::turned(degrees).expect("a multiple of 45");
            let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
            let [x, y] = pose.apply([3.0, 5.0]);
            assert!((x - (3.0 * cos - 5.0 * sin)).abs() < 1e-12, "{degrees}");
            assert!((y - (3.0 * sin + 5.0 * cos)).abs() < 1e-12, "{degrees}");
        }
        assert_eq!(Pose::turned(30), None);
    }

    #[test]
    fn turning_over_keeps_the_grain() {
        let over = Pose { over: true, eighths: 0 };
        assert_eq!(over.apply([1.0, 0.0]), [1.0, 0.0]);
        assert_eq!(over.apply([2.0, 3.0]), [2.0, -3.0]);
    }
}
