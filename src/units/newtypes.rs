//! The newtypes that functions take and return.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Div, Mul, Neg, Sub};

use serde::{Deserialize, Serialize};

use super::dim::{Dim, Quantity, kinds};

/// A quantity turned out to have another dimension than was asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WrongDim {
    /// The dimension asked for.
    pub expected: Dim,
    /// The dimension found.
    pub found: Dim,
}

impl fmt::Display for WrongDim {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "expected {}, but found {}", self.expected, self.found)
    }
}

impl std::error::Error for WrongDim {}

macro_rules! newtype {
    ($(#[$doc:meta])* $name:ident, $dim:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Nothing at all.
            pub const ZERO: $name = $name(0.0);

            /// Made from a value in the base unit.
            #[must_use]
            pub const fn from_base(value: f64) -> Self {
                $name(value)
            }

            /// The value in the base unit.
            #[must_use]
            pub const fn base(self) -> f64 {
                self.0
            }

            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                $name(self.0.min(other.0))
            }

            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                $name(self.0.max(other.0))
            }

            /// The size without the sign.
            #[must_use]
            pub fn abs(self) -> Self {
                $name(self.0.abs())
            }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = $name;
            fn neg(self) -> $name {
                $name(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = $name;
            fn mul(self, factor: f64) -> $name {
                $name(self.0 * factor)
            }
        }

        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, other: $name) -> $name {
                $name(self * other.0)
            }
        }

        impl Div<f64> for $name {
            type Output = $name;
            fn div(self, divisor: f64) -> $name {
                $name(self.0 / divisor)
            }
        }

        impl Div<$name> for $name {
            type Output = f64;
            fn div(self, other: $name) -> f64 {
                self.0 / other.0
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = $name>>(iter: I) -> $name {
                $name(iter.map(|item| item.0).sum())
            }
        }

        impl From<$name> for Quantity {
            fn from(value: $name) -> Quantity {
                Quantity::new(value.0, $dim)
            }
        }

        impl TryFrom<Quantity> for $name {
            type Error = WrongDim;
            fn try_from(quantity: Quantity) -> Result<$name, WrongDim> {
                if quantity.dim == $dim {
                    Ok($name(quantity.value))
                } else {
                    Err(WrongDim { expected: $dim, found: quantity.dim })
                }
            }
        }
    };
}

newtype!(
    /// A length; base unit millimetre.
    Length,
    kinds::LENGTH
);
newtype!(
    /// An angle; base unit radian.
    Angle,
    kinds::ANGLE
);
newtype!(
    /// A ratio or share; no unit.
    Ratio,
    kinds::NUMBER
);
newtype!(
    /// A mass; base unit gram.
    Mass,
    kinds::MASS
);
newtype!(
    /// An area; base unit square millimetre.
    Area,
    kinds::AREA
);
newtype!(
    /// A volume; base unit cubic millimetre (1000 of them make a millilitre).
    Volume,
    kinds::VOLUME
);
newtype!(
    /// The weight of a cloth; base unit gram per square millimetre.
    SheetMass,
    kinds::SHEET_MASS
);

/// A number of things.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Count(pub u64);

impl From<Count> for Quantity {
    #[allow(clippy::cast_precision_loss)]
    fn from(count: Count) -> Quantity {
        Quantity::number(count.0 as f64)
    }
}

impl Length {
    /// Exactly 25.4 mm (the international inch).
    pub const INCH: Length = Length(25.4);
    /// 36 inches, 914.4 mm.
    pub const YARD: Length = Length(914.4);

    /// From millimetres.
    #[must_use]
    pub const fn mm(value: f64) -> Length {
        Length(value)
    }

    /// From centimetres.
    #[must_use]
    pub fn cm(value: f64) -> Length {
        Length(value * 10.0)
    }

    /// From metres.
    #[must_use]
    pub fn metres(value: f64) -> Length {
        Length(value * 1000.0)
    }

    /// From inches.
    #[must_use]
    pub fn inches(value: f64) -> Length {
        Length(value * 25.4)
    }

    /// From yards.
    #[must_use]
    pub fn yards(value: f64) -> Length {
        Length(value * 914.4)
    }

    /// In millimetres.
    #[must_use]
    pub const fn to_mm(self) -> f64 {
        self.0
    }

    /// In centimetres.
    #[must_use]
    pub fn to_cm(self) -> f64 {
        self.0 / 10.0
    }

    /// In inches.
    #[must_use]
    pub fn to_inches(self) -> f64 {
        self.0 / 25.4
    }

    /// In yards.
    #[must_use]
    pub fn to_yards(self) -> f64 {
        self.0 / 914.4
    }
}

impl Mul<Length> for Length {
    type Output = Area;
    fn mul(self, other: Length) -> Area {
        Area(self.0 * other.0)
    }
}

impl Mul<SheetMass> for Area {
    type Output = Mass;
    fn mul(self, weight: SheetMass) -> Mass {
        Mass(self.0 * weight.0)
    }
}

impl Angle {
    /// From degrees.
    #[must_use]
    pub fn degrees(value: f64) -> Angle {
        Angle(value.to_radians())
    }

    /// In degrees.
    #[must_use]
    pub fn to_degrees(self) -> f64 {
        self.0.to_degrees()
    }
}
