//! Small words that messages are made of.

use crate::units::{Direction, Printed, Quantity, Show, Style, Systems, decimal, print};

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

/// How a kind of number is printed, for the manual: `in to the nearest 1/8, cm to 0.1`.
#[must_use]
pub fn way_printed(show: Show) -> String {
    let way = match show.direction {
        Direction::Up => "rounded up to",
        Direction::Down => "rounded down to",
        Direction::Nearest => "to the nearest",
    };
    let parts = show.parts;
    match show.style {
        Style::Length => format!("in and cm, {way} 1/{parts} in and 0.1 cm"),
        Style::Small => format!("in and mm, {way} 1/{parts} in and 0.5 mm"),
        Style::Cloth => format!("yd and m, {way} 1/{parts} yd and 0.1 m"),
        Style::Thread => format!("yd and m, {way} whole yards and metres"),
        Style::Count => "a whole number, exact".to_string(),
        Style::Ratio => "a ratio to 1".to_string(),
        Style::Number => "a number".to_string(),
        Style::Percent => "per cent, to 0.1 %".to_string(),
        Style::Angle => "degrees, to 0.1".to_string(),
        Style::Mass => format!("oz and g, {way} 1/{parts} oz and 1 g"),
        Style::SheetMass => "oz/yd² and g/m²".to_string(),
        Style::Volume => format!("ml or l, {way} 1 ml"),
        Style::Area => format!("sq yd and m², {way} 0.1"),
    }
}

/// How far the printed number may be from the exact one before the working shows more of it.
const COARSE: f64 = 5e-4;
/// How far a printed result may be from the exact one before it would mislead.
const MISLEADING: f64 = 0.02;
/// So many marks of the ruler a small thing must have before a fraction says enough of it.
const FEW_MARKS: f64 = 6.0;

/// A quantity for the working: as printed, or in decimals where printing would round so much that the line
/// could not be checked by hand: `0.08333 in` for a pitch that prints as `3/32 in`.
#[must_use]
pub fn precise(quantity: Quantity, show: Show) -> Printed {
    finer(quantity, show, &|exact, steps| {
        if (steps - steps.round()).abs() <= COARSE * steps.abs() { None } else { Some(figures(exact, 4.0)) }
    })
}

/// A quantity for a result: as printed, or in decimals for what is so small that no fraction of a ruler says
/// it: `0.0833 in` for a pitch.
#[must_use]
pub fn honest(quantity: Quantity, show: Show) -> Printed {
    if !matches!(show.style, Style::Small) {
        return print(quantity, show);
    }
    finer(quantity, show, &|exact, steps| {
        let off = (steps - steps.round()).abs() > MISLEADING * steps.abs();
        if off && steps.abs() < FEW_MARKS { Some(figures(exact, 3.0)) } else { None }
    })
}

/// As printed, but in each system with the number that `better` gives for the exact one and its marks.
fn finer(quantity: Quantity, show: Show, better: &dyn Fn(f64, f64) -> Option<String>) -> Printed {
    let printed = print(quantity, show);
    let (imperial, metric) = match show.style {
        Style::Length => (("in", 25.4), ("cm", 10.0, 0.1)),
        Style::Small => (("in", 25.4), ("mm", 1.0, 0.5)),
        Style::Cloth | Style::Thread => (("yd", 914.4), ("m", 1000.0, 0.1)),
        _ => return printed,
    };
    let one = |unit: &str, factor: f64, mark: f64| {
        let exact = quantity.value / factor;
        better(exact, exact / mark).map(|number| format!("{number}\u{a0}{unit}"))
    };
    let decimals = one(imperial.0, imperial.1, 1.0 / f64::from(show.parts.max(1)));
    Printed {
        imperial: decimals.clone().unwrap_or(printed.imperial),
        plain: decimals.unwrap_or(printed.plain),
        metric: one(metric.0, metric.1, metric.2).unwrap_or(printed.metric),
    }
}

/// A number in so many figures, without idle noughts.
fn figures(value: f64, count: f64) -> String {
    let before = value.abs().max(1e-9).log10().floor();
    let mut places = 0_u8;
    while before + f64::from(places) < count - 1.0 && places < 9 {
        places += 1;
    }
    let text = decimal(value, usize::from(places));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
}

#[cfg(test)]
mod tests {
    use super::{both, honest, plural, precise};
    use crate::units::{Length, Show};

    #[test]
    fn the_working_can_be_checked_by_hand() {
        let pitch = precise(Length::inches(2.0 / 24.0).into(), Show::SMALL);
        assert_eq!((pitch.plain.as_str(), pitch.metric.as_str()), ("0.08333\u{a0}in", "2.117\u{a0}mm"));
        let exact = precise(Length::inches(0.25).into(), Show::SMALL);
        assert_eq!(exact.plain, "1/4 in");
        assert_eq!(precise(Length::inches(80.498).into(), Show::LENGTH).plain, "80 1/2 in");
        assert_eq!(precise(Length::ZERO.into(), Show::LENGTH).plain, "0 in");
    }

    #[test]
    fn results_keep_their_fractions_where_a_ruler_has_them() {
        let pitch = honest(Length::inches(2.0 / 24.0).into(), Show::SMALL);
        assert_eq!((pitch.plain.as_str(), pitch.metric.as_str()), ("0.0833\u{a0}in", "2.12\u{a0}mm"));
        assert_eq!(honest(Length::inches(0.25).into(), Show::SMALL).metric, "6.4\u{a0}mm");
        assert_eq!(honest(Length::inches(0.913).into(), Show::FINE).plain, "15/16 in");
    }

    #[test]
    fn words() {
        assert_eq!(both(Length::inches(2.625), Show::LENGTH), "2 5/8 in (6.7 cm)");
        assert_eq!(
            (plural(1.0, "pleat", "pleats"), plural(4.0, "pleat", "pleats")),
            ("1 pleat".into(), "4 pleats".into())
        );
    }
}
