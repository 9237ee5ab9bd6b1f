//! Marks of a ruler, and cells of a row: what several techniques need beside their formulas.

use std::collections::BTreeMap;

use super::given::Value;
use crate::units::{Length, Quantity};

/// Down to a mark of a ruler that divides the inch in so many parts. What is proposed must be cut, so
/// it falls on a mark.
#[must_use]
pub fn down(length: Length, parts: f64) -> Length {
    let mark = Length::INCH / parts;
    mark * (length / mark + 1e-7).floor()
}

/// Up to a mark of a ruler that divides the inch in so many parts.
#[must_use]
pub fn up(length: Length, parts: f64) -> Length {
    let mark = Length::INCH / parts;
    mark * (length / mark - 1e-7).ceil()
}

/// Down to a ten-thousandth of a millimetre: what a value is written to where it falls on no mark, so that
/// what is copied out is what was worked through.
#[must_use]
pub fn written(length: Length) -> Length {
    Length::mm((length.base() * 1e4 + 1e-3).floor() / 1e4)
}

/// A length as the value of an input.
#[must_use]
pub fn value(length: Length) -> Value {
    Value::Quantity(length.into())
}

/// A bare number as the value of an input or of a cell.
#[must_use]
pub fn number(number: f64) -> Value {
    Value::Quantity(Quantity::number(number))
}

/// A length in a row; `None` where it was left out.
#[must_use]
pub fn length_in(row: &BTreeMap<String, Value>, name: &str) -> Option<Length> {
    match row.get(name) {
        Some(Value::Quantity(quantity)) => Length::try_from(*quantity).ok(),
        _ => None,
    }
}

/// A bare number in a row; `None` where it was left out.
#[must_use]
pub fn number_in(row: &BTreeMap<String, Value>, name: &str) -> Option<f64> {
    match row.get(name) {
        Some(Value::Quantity(quantity)) if quantity.dim.is_number() => Some(quantity.value),
        _ => None,
    }
}

/// A word in a row; empty where it was left out.
#[must_use]
pub fn word_in<'a>(row: &'a BTreeMap<String, Value>, name: &str) -> &'a str {
    match row.get(name) {
        Some(Value::Word(word)) => word,
        _ => "",
    }
}

/// The whole numbers from 0 up to, but not, `end`, as bare numbers.
pub fn count_to(end: f64) -> impl Iterator<Item = f64> {
    std::iter::successors(Some(0.0), |n| Some(n + 1.0)).take_while(move |n| *n < end - 0.5)
}
