//! Lengths and places in messages.

use crate::units::{Angle, Length, Show, print};

/// A length in both systems, for messages: `4 mm (5/32 in)`.
pub(crate) fn mm(value: f64) -> String {
    let inches = print(Length::mm(value).into(), Show::SMALL).plain;
    if value.abs() < 100.0 {
        format!("{} mm ({inches})", crate::units::decimal(value, 1))
    } else {
        format!("{} cm ({inches})", crate::units::decimal(value / 10.0, 1))
    }
}

/// An angle in degrees.
pub(crate) fn degrees(radians: f64) -> String {
    format!("{} degrees", crate::units::decimal(Angle::from_base(radians).to_degrees(), 1))
}
