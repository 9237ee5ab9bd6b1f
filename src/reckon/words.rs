//! Small words that messages are made of.

use crate::units::{Quantity, Show, Systems, print};

/// A quantity in both systems, for a message: `2 5/8 in (6.7 cm)`.
#[must_use]
pub fn both(quantity: impl Into<Quantity>, show: Show) -> String {
    print(quantity.into(), show).terminal(Systems::ImperialFirst).replace('\u{a0}', " ")
}

/// A count with its noun: `1 pleat`, `4 pleats`.
#[must_use]
pub fn plural(count: f64, one: &str, many: &str) -> String {
    let noun = if (count - 1.0).abs() < 1e-9 { one } else { many };
    format!("{count:.0} {noun}")
}
