//! Dimensions and the quantity that carries one.

use std::fmt;

use serde::{Deserialize, Serialize};

/// The dimension of a quantity, as exponents of length, mass and angle.
///
/// A bare number (a count, a ratio, a share) has all exponents zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub struct Dim {
    /// Exponent of length (1 a length, 2 an area, 3 a volume).
    pub length: i8,
    /// Exponent of mass.
    pub mass: i8,
    /// Exponent of angle.
    pub angle: i8,
}

/// The dimensions that have a name of their own.
pub mod kinds {
    use super::Dim;

    /// A bare number: count, ratio, share.
    pub const NUMBER: Dim = Dim { length: 0, mass: 0, angle: 0 };
    /// A length, in millimetres.
    pub const LENGTH: Dim = Dim { length: 1, mass: 0, angle: 0 };
    /// An area, in square millimetres.
    pub const AREA: Dim = Dim { length: 2, mass: 0, angle: 0 };
    /// A volume, in cubic millimetres.
    pub const VOLUME: Dim = Dim { length: 3, mass: 0, angle: 0 };
    /// A mass, in grams.
    pub const MASS: Dim = Dim { length: 0, mass: 1, angle: 0 };
    /// The weight of a cloth, in grams per square millimetre.
    pub const SHEET_MASS: Dim = Dim { length: -2, mass: 1, angle: 0 };
    /// An angle, in radians.
    pub const ANGLE: Dim = Dim { length: 0, mass: 0, angle: 1 };
}

impl Dim {
    /// The dimension of a product.
    #[must_use]
    pub const fn times(self, other: Dim) -> Dim {
        Dim {
            length: self.length.saturating_add(other.length),
            mass: self.mass.saturating_add(other.mass),
            angle: self.angle.saturating_add(other.angle),
        }
    }

    /// The dimension of a quotient.
    #[must_use]
    pub const fn over(self, other: Dim) -> Dim {
        Dim {
            length: self.length.saturating_sub(other.length),
            mass: self.mass.saturating_sub(other.mass),
            angle: self.angle.saturating_sub(other.angle),
        }
    }

    /// The dimension of a square root, where there is one.
    #[must_use]
    pub const fn root(self) -> Option<Dim> {
        if self.length % 2 != 0 || self.mass % 2 != 0 || self.angle % 2 != 0 {
            return None;
        }
        Some(Dim { length: self.length / 2, mass: self.mass / 2, angle: self.angle / 2 })
    }

    /// Whether this is a bare number.
    #[must_use]
    pub const fn is_number(self) -> bool {
        self.length == 0 && self.mass == 0 && self.angle == 0
    }

    /// The unit the value is kept in: `mm`, `mm2`, `g` ...
    #[must_use]
    pub fn unit(self) -> String {
        let mut parts = Vec::new();
        for (name, power) in [("g", self.mass), ("rad", self.angle), ("mm", self.length)] {
            match power {
                0 => {}
                1 => parts.push(name.to_string()),
                n => parts.push(format!("{name}{n}")),
            }
        }
        parts.join(" ")
    }
}

impl fmt::Display for Dim {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = match *self {
            kinds::NUMBER => "a bare number",
            kinds::LENGTH => "a length",
            kinds::AREA => "an area",
            kinds::VOLUME => "a volume",
            kinds::MASS => "a mass",
            kinds::SHEET_MASS => "a weight of cloth",
            kinds::ANGLE => "an angle",
            other => return write!(f, "a quantity in {}", other.unit()),
        };
        f.write_str(name)
    }
}

/// A value together with its dimension: millimetres, grams and radians and what is made of them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Quantity {
    /// The value in the base units.
    pub value: f64,
    /// What it is a value of.
    pub dim: Dim,
}

impl Quantity {
    /// A bare number.
    #[must_use]
    pub const fn number(value: f64) -> Self {
        Quantity { value, dim: kinds::NUMBER }
    }

    /// A length in millimetres.
    #[must_use]
    pub const fn mm(value: f64) -> Self {
        Quantity { value, dim: kinds::LENGTH }
    }

    /// A value of any dimension, in base units.
    #[must_use]
    pub const fn new(value: f64, dim: Dim) -> Self {
        Quantity { value, dim }
    }
}
