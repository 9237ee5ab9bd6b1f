//! Printing: both systems, real fractions, and a direction of rounding for each kind of number.
//!
//! Cloth and thread are rounded up, bones down, cut sizes to the nearest, counts are exact.

use serde::{Deserialize, Serialize};

use super::dim::{Quantity, kinds};
use super::number::{Fraction, decimal};

/// Which way a printed number may differ from the exact one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Direction {
    /// Never less than the exact value (cloth, thread).
    Up,
    /// Never more than the exact value (bones).
    Down,
    /// To the nearest (cut sizes).
    Nearest,
}

/// In what shape a quantity is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Style {
    /// Inches with fractions, and centimetres to 0.1.
    Length,
    /// Inches with fractions, and millimetres to 0.1: for stitches and other small things, whose errors add up.
    Small,
    /// Yards to 1/8, and metres to 0.1: cloth, ribbon, cord as bought.
    Cloth,
    /// Yards and metres in whole numbers: thread.
    Thread,
    /// A whole number of things.
    Count,
    /// A ratio, `6.2 : 1`.
    Ratio,
    /// A bare number with two decimals where it has any.
    Number,
    /// A share, `8.3 %`.
    Percent,
    /// Degrees.
    Angle,
    /// Ounces to 1/8 and grams.
    Mass,
    /// Ounces a square yard and grams a square metre.
    SheetMass,
    /// Fluid measure: litres, or millilitres below one litre.
    Volume,
    /// Square yards and square metres.
    Area,
}

/// How one kind of number is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Show {
    /// The shape.
    pub style: Style,
    /// The direction of rounding.
    pub direction: Direction,
    /// The finest part of an inch (or yard, or ounce): 8 or 16 or, for stitches, 32.
    pub parts: u32,
}

impl Show {
    /// A cut or finished size: to the nearest eighth of an inch and millimetre.
    pub const LENGTH: Show = Show { style: Style::Length, direction: Direction::Nearest, parts: 8 };
    /// A length that must suffice: rounded up.
    pub const LENGTH_UP: Show = Show { style: Style::Length, direction: Direction::Up, parts: 8 };
    /// A length that must not be exceeded (a bone): rounded down.
    pub const LENGTH_DOWN: Show = Show { style: Style::Length, direction: Direction::Down, parts: 8 };
    /// A size at the scale of pleats: to the nearest sixteenth.
    pub const FINE: Show = Show { style: Style::Length, direction: Direction::Nearest, parts: 16 };
    /// A stitch or a pitch: to the nearest 1/32 in and 0.1 mm.
    pub const SMALL: Show = Show { style: Style::Small, direction: Direction::Nearest, parts: 32 };
    /// Cloth as bought: up to 1/8 yard and 0.1 m.
    pub const CLOTH: Show = Show { style: Style::Cloth, direction: Direction::Up, parts: 8 };
    /// Thread: up to whole yards and metres.
    pub const THREAD: Show = Show { style: Style::Thread, direction: Direction::Up, parts: 1 };
    /// A number of things.
    pub const COUNT: Show = Show { style: Style::Count, direction: Direction::Nearest, parts: 1 };
    /// A ratio of fullness.
    pub const RATIO: Show = Show { style: Style::Ratio, direction: Direction::Nearest, parts: 1 };
    /// A bare number.
    pub const NUMBER: Show = Show { style: Style::Number, direction: Direction::Nearest, parts: 1 };
    /// A share in hundredths.
    pub const PERCENT: Show = Show { style: Style::Percent, direction: Direction::Nearest, parts: 1 };
    /// An angle in degrees.
    pub const ANGLE: Show = Show { style: Style::Angle, direction: Direction::Nearest, parts: 1 };
    /// A mass that must suffice.
    pub const MASS: Show = Show { style: Style::Mass, direction: Direction::Up, parts: 8 };
    /// The weight of a cloth.
    pub const SHEET_MASS: Show = Show { style: Style::SheetMass, direction: Direction::Nearest, parts: 8 };
    /// A volume.
    pub const VOLUME: Show = Show { style: Style::Volume, direction: Direction::Up, parts: 1 };
    /// An area.
    pub const AREA: Show = Show { style: Style::Area, direction: Direction::Up, parts: 1 };

    /// The usual way to show a quantity whose kind was not said.
    #[must_use]
    pub fn usual(quantity: Quantity) -> Show {
        match quantity.dim {
            kinds::LENGTH => Show::LENGTH,
            kinds::AREA => Show::AREA,
            kinds::VOLUME => Show::VOLUME,
            kinds::MASS => Show::MASS,
            kinds::SHEET_MASS => Show::SHEET_MASS,
            kinds::ANGLE => Show::ANGLE,
            _ if quantity.dim.is_number() && (quantity.value - quantity.value.round()).abs() < 1e-9 => Show::COUNT,
            _ => Show::NUMBER,
        }
    }
}

/// Which systems are printed, and which comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Systems {
    /// `2 5/8 in (6.7 cm)`
    #[default]
    ImperialFirst,
    /// `6.7 cm (2 5/8 in)`
    MetricFirst,
    /// `2 5/8 in`
    ImperialOnly,
    /// `6.7 cm`
    MetricOnly,
}

/// One number in print. Where a quantity has no two systems (a count, a ratio) both are the same.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Printed {
    /// Inches, yards, ounces, with real fractions: `2⅝ in`.
    pub imperial: String,
    /// Centimetres, metres, grams: `6.7 cm`.
    pub metric: String,
    /// The imperial form in plain characters: `2 5/8 in`.
    pub plain: String,
}

impl Printed {
    fn one(text: String) -> Printed {
        Printed { imperial: text.clone(), plain: text.clone(), metric: text }
    }

    /// Whether the two systems differ at all.
    #[must_use]
    pub fn has_two(&self) -> bool {
        self.imperial != self.metric
    }

    /// Set in type: `2⅝ in (6.7 cm)`.
    #[must_use]
    pub fn typeset(&self, systems: Systems) -> String {
        self.join(&self.imperial, systems)
    }

    /// For a terminal: `2 5/8 in (6.7 cm)`.
    #[must_use]
    pub fn terminal(&self, systems: Systems) -> String {
        self.join(&self.plain, systems)
    }

    fn join(&self, imperial: &str, systems: Systems) -> String {
        if !self.has_two() {
            return imperial.to_string();
        }
        match systems {
            Systems::ImperialFirst => format!("{imperial} ({})", self.metric),
            Systems::MetricFirst => format!("{} ({imperial})", self.metric),
            Systems::ImperialOnly => imperial.to_string(),
            Systems::MetricOnly => self.metric.clone(),
        }
    }
}

/// A billionth of a step: what arithmetic may be off by without moving a rounding up or down.
const SLACK: f64 = 1e-7;

fn steps(value: f64, step: f64, direction: Direction) -> f64 {
    let exact = value / step;
    match direction {
        Direction::Up => (exact - SLACK).ceil(),
        Direction::Down => (exact + SLACK).floor(),
        Direction::Nearest => (exact + SLACK).round(),
    }
}

#[allow(clippy::cast_possible_truncation)]
fn fraction(value: f64, step: f64, parts: u32, direction: Direction) -> Fraction {
    Fraction::of(steps(value, step / f64::from(parts), direction) as i64, u64::from(parts))
}

fn trimmed(value: f64, places: usize) -> String {
    let text = decimal(value, places);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
}

/// Prints a quantity in both systems.
#[must_use]
pub fn print(quantity: Quantity, show: Show) -> Printed {
    let value = quantity.value;
    let Show { style, direction, parts } = show;
    let two = |fraction: Fraction, unit: &str, metric: String| Printed {
        imperial: format!("{}\u{a0}{unit}", fraction.typeset()),
        plain: format!("{} {unit}", fraction.plain()),
        metric,
    };
    match style {
        Style::Length => {
            let cm = steps(value, 1.0, direction) / 10.0;
            two(fraction(value, 25.4, parts, direction), "in", format!("{}\u{a0}cm", decimal(cm, 1)))
        }
        Style::Small => {
            let tenths = steps(value, 0.1, direction) / 10.0;
            two(fraction(value, 25.4, parts, direction), "in", format!("{}\u{a0}mm", trimmed(tenths, 1)))
        }
        Style::Cloth => {
            let metres = steps(value, 100.0, direction) / 10.0;
            two(fraction(value, 914.4, parts, direction), "yd", format!("{}\u{a0}m", decimal(metres, 1)))
        }
        Style::Thread => {
            let metres = steps(value, 1000.0, direction);
            two(fraction(value, 914.4, 1, direction), "yd", format!("{}\u{a0}m", decimal(metres, 0)))
        }
        Style::Count => Printed::one(decimal(value, 0)),
        Style::Ratio => Printed::one(format!("{}\u{a0}:\u{a0}1", trimmed(value, 2))),
        Style::Number => Printed::one(trimmed(value, 2)),
        Style::Percent => Printed::one(format!("{}\u{a0}%", trimmed(value * 100.0, 1))),
        Style::Angle => Printed::one(format!("{}°", trimmed(value.to_degrees(), 1))),
        Style::Mass => {
            let grams = steps(value, 1.0, direction);
            two(fraction(value, 28.349_523_125, parts, direction), "oz", format!("{}\u{a0}g", decimal(grams, 0)))
        }
        Style::SheetMass => {
            let ounces = value * 914.4 * 914.4 / 28.349_523_125;
            let imperial = format!("{}\u{a0}oz/yd²", trimmed(ounces, 1));
            let metric = format!("{}\u{a0}g/m²", decimal(value * 1e6, 0));
            Printed { plain: imperial.clone(), imperial, metric }
        }
        Style::Volume => {
            let ml = steps(value, 1e3, direction);
            let text = if ml >= 1000.0 {
                format!("{}\u{a0}l", trimmed(steps(value, 1e5, direction) / 10.0, 1))
            } else {
                format!("{}\u{a0}ml", decimal(ml, 0))
            };
            Printed::one(text)
        }
        Style::Area => {
            let yards = steps(value / (914.4 * 914.4), 0.1, direction) / 10.0;
            let metres = steps(value / 1e6, 0.1, direction) / 10.0;
            let imperial = format!("{}\u{a0}sq\u{a0}yd", decimal(yards, 1));
            Printed { plain: imperial.clone(), imperial, metric: format!("{}\u{a0}m²", decimal(metres, 1)) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::newtypes::Length;
    use super::*;

    #[test]
    fn both_systems_and_real_fractions() {
        let printed = print(Length::mm(66.7).into(), Show::LENGTH);
        assert_eq!(printed.terminal(Systems::ImperialFirst), "2 5/8 in (6.7\u{a0}cm)");
        assert_eq!(printed.typeset(Systems::MetricFirst), "6.7\u{a0}cm (2⅝\u{a0}in)");
    }

    #[test]
    fn cloth_goes_up_and_bones_go_down() {
        let cloth = print(Length::yards(2.01).into(), Show::CLOTH);
        assert_eq!(cloth.plain, "2 1/8 yd");
        assert_eq!(cloth.metric, "1.9\u{a0}m");
        let bone = print(Length::inches(9.99).into(), Show::LENGTH_DOWN);
        assert_eq!(bone.plain, "9 7/8 in");
    }

    #[test]
    fn exact_values_are_not_pushed_on() {
        assert_eq!(print(Length::yards(3.0).into(), Show::CLOTH).plain, "3 yd");
        assert_eq!(print((Length::inches(0.1) * 10.0).into(), Show::LENGTH_UP).plain, "1 in");
        assert_eq!(print((Length::inches(0.1) * 10.0).into(), Show::LENGTH_DOWN).plain, "1 in");
    }
}
