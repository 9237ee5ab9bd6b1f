//! Units and literals: a number followed by a unit.

use std::fmt;

use super::dim::{Dim, Quantity, kinds};
use super::number::parse_number;

/// A unit: its dimension and how many base units it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// What it measures.
    pub dim: Dim,
    /// Base units in one of it. Inch, yard, ounce and pound are the international ones (exact by
    /// definition, 1959).
    pub factor: f64,
}

const GRAMS_PER_OUNCE: f64 = 28.349_523_125;
const MM2_PER_YD2: f64 = 914.4 * 914.4;

/// The names of all units, for messages.
pub const UNIT_NAMES: &[&str] = &[
    "mm", "cm", "m", "in", "\"", "ft", "yd", "g", "kg", "oz", "lb", "g/m2", "gsm", "oz/yd2", "deg", "°", "ml", "l",
    "cm2", "m2", "in2", "yd2", "%",
];

/// The unit of that name.
#[must_use]
pub fn unit(name: &str) -> Option<Unit> {
    let (dim, factor) = match name {
        "mm" => (kinds::LENGTH, 1.0),
        "cm" => (kinds::LENGTH, 10.0),
        "m" => (kinds::LENGTH, 1000.0),
        "in" | "inch" | "inches" | "\"" | "″" => (kinds::LENGTH, 25.4),
        "ft" => (kinds::LENGTH, 304.8),
        "yd" | "yds" => (kinds::LENGTH, 914.4),
        "g" => (kinds::MASS, 1.0),
        "kg" => (kinds::MASS, 1000.0),
        "oz" => (kinds::MASS, GRAMS_PER_OUNCE),
        "lb" => (kinds::MASS, GRAMS_PER_OUNCE * 16.0),
        "g/m2" | "gsm" => (kinds::SHEET_MASS, 1e-6),
        "oz/yd2" => (kinds::SHEET_MASS, GRAMS_PER_OUNCE / MM2_PER_YD2),
        "deg" | "°" => (kinds::ANGLE, std::f64::consts::PI / 180.0),
        "ml" => (kinds::VOLUME, 1e3),
        "l" => (kinds::VOLUME, 1e6),
        "cm2" => (kinds::AREA, 100.0),
        "m2" => (kinds::AREA, 1e6),
        "in2" => (kinds::AREA, 25.4 * 25.4),
        "yd2" => (kinds::AREA, MM2_PER_YD2),
        "%" => (kinds::NUMBER, 0.01),
        _ => return None,
    };
    Some(Unit { dim, factor })
}

/// Why a text is not a literal.
#[derive(Debug, Clone, PartialEq)]
pub enum LiteralFault {
    /// It does not begin with a number.
    NoNumber,
    /// What follows the number is not a unit we know.
    UnknownUnit(String),
}

impl fmt::Display for LiteralFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LiteralFault::NoNumber => f.write_str("expected a number with a unit, such as `5/8 in` or `1.5 cm`"),
            LiteralFault::UnknownUnit(name) => {
                write!(f, "`{name}` is not a unit; units are {}", UNIT_NAMES.join(", "))
            }
        }
    }
}

impl std::error::Error for LiteralFault {}

/// Reads one literal, the whole of `text`: `5/8 in`, `1 3/8 in`, `2 1/2"`, `1.5 cm`, `-3 mm`, `12`.
///
/// # Errors
/// Where there is no number or the unit is unknown.
pub fn parse_literal(text: &str) -> Result<Quantity, LiteralFault> {
    let text = text.trim();
    let (sign, rest) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text),
    };
    let (value, taken) = parse_number(rest).ok_or(LiteralFault::NoNumber)?;
    let name = rest[taken..].trim();
    if name.is_empty() {
        return Ok(Quantity::number(sign * value));
    }
    let unit = unit(name).ok_or_else(|| LiteralFault::UnknownUnit(name.to_string()))?;
    Ok(Quantity::new(sign * value * unit.factor, unit.dim))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_as_makers_write_them() {
        for (text, mm) in [
            ("5/8 in", 15.875),
            ("1 3/8 in", 34.925),
            ("2 1/2\"", 63.5),
            ("1.5 cm", 15.0),
            ("12 mm", 12.0),
            ("4 yd", 3657.6),
            ("2⅝ in", 66.675),
        ] {
            let found = parse_literal(text).unwrap();
            assert_eq!(found.dim, kinds::LENGTH, "{text}");
            assert!((found.value - mm).abs() < 1e-9, "{text}: {}", found.value);
        }
    }

    /// 1 oz/yd2 = 33.9057 g/m2: exact conversion of the avoirdupois ounce and the international yard.
    #[test]
    fn ounces_a_square_yard() {
        let found = parse_literal("1 oz/yd2").unwrap();
        assert!((found.value * 1e6 - 33.9057).abs() < 5e-5);
    }

    #[test]
    fn unknown_unit_is_named() {
        assert_eq!(parse_literal("3 furlong"), Err(LiteralFault::UnknownUnit("furlong".into())));
        assert_eq!(parse_literal("wide"), Err(LiteralFault::NoNumber));
    }
}
