//! Properties of lengths and formulas.

use std::collections::BTreeMap;

use furbelow::formula::{Env, Formula};
use furbelow::units::{Length, Quantity, Show, Systems, kinds, parse_literal, print};
use proptest::prelude::{Strategy, any, prop, prop_assert, prop_assert_eq, proptest};

struct Table(BTreeMap<String, Quantity>);

impl Env for Table {
    fn get(&self, name: &str) -> Option<Quantity> {
        self.0.get(name).copied()
    }

    fn known(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}

fn table() -> Table {
    Table(BTreeMap::from([("waist".to_string(), Quantity::mm(660.0)), ("n".to_string(), Quantity::number(12.0))]))
}

/// Formulas of lengths, with the value they have when worked out by Rust's own arithmetic.
fn lengths() -> impl Strategy<Value = (String, f64)> {
    let leaf = proptest::prelude::prop_oneof![
        (1u32..400).prop_map(|mm| (format!("{mm} mm"), f64::from(mm))),
        (1u32..64).prop_map(|n| (format!("{n}/8 in"), f64::from(n) / 8.0 * 25.4)),
        (1u32..40, 1u32..8)
            .prop_map(|(whole, n)| (format!("{whole} {n}/8 in"), (f64::from(whole) + f64::from(n) / 8.0) * 25.4)),
        proptest::prelude::Just(("waist".to_string(), 660.0)),
    ];
    leaf.prop_recursive(4, 32, 2, |inner| {
        proptest::prelude::prop_oneof![
            (inner.clone(), inner.clone()).prop_map(|(a, b)| (format!("({} + {})", a.0, b.0), a.1 + b.1)),
            (inner.clone(), inner.clone()).prop_map(|(a, b)| (format!("({} - {})", a.0, b.0), a.1 - b.1)),
            (inner.clone(), 1u32..9).prop_map(|(a, n)| (format!("{} * {n}", a.0), a.1 * f64::from(n))),
            (inner.clone(), 1u32..9).prop_map(|(a, n)| (format!("{} / {n}", a.0), a.1 / f64::from(n))),
            (inner.clone(), inner).prop_map(|(a, b)| (format!("max({}, {})", a.0, b.0), a.1.max(b.1))),
        ]
    })
}

proptest! {
    /// The evaluator agrees with Rust's own arithmetic.
    #[test]
    fn formulas_of_lengths((text, expected) in lengths()) {
        let found = Formula::parse(&text).unwrap().eval(&table()).unwrap();
        prop_assert_eq!(found.dim, kinds::LENGTH);
        prop_assert!((found.value - expected).abs() <= 1e-9 * expected.abs().max(1.0), "{}: {} and {}", text, found.value, expected);
    }

    /// Any text is read or refused; the bytes of a fault lie within the text, on character borders.
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,60}") {
        match Formula::parse(&text).and_then(|formula| formula.eval(&table())) {
            Ok(quantity) => prop_assert!(quantity.value.is_finite()),
            Err(fault) => prop_assert!(text.get(fault.at.clone()).is_some(), "{:?} of {:?}", fault.at, text),
        }
    }

    /// The same from words that formulas are made of.
    #[test]
    fn words_of_formulas(words in prop::collection::vec(prop::sample::select(vec![
        "waist", "n", "1", "3/8 in", "2.5 cm", "+", "-", "*", "/", "^", "(", ")", ",", "min", "if", "<", "round", "0", "%", "\"", "½",
    ]), 0..14)) {
        let text = words.join(" ");
        match Formula::parse(&text).and_then(|formula| formula.eval(&table())) {
            Ok(quantity) => prop_assert!(quantity.value.is_finite()),
            Err(fault) => prop_assert!(text.get(fault.at.clone()).is_some()),
        }
    }

    /// What is printed in eighths of an inch is read back within half an eighth, and in centimetres within half a millimetre.
    #[test]
    fn printed_lengths_are_read_back(mm in 0.0f64..20_000.0) {
        let printed = print(Length::mm(mm).into(), Show::LENGTH);
        let inches = parse_literal(&printed.plain).unwrap();
        prop_assert!((inches.value - mm).abs() <= 25.4 / 16.0 + 1e-4);
        let typeset = parse_literal(&printed.imperial.replace('\u{a0}', " ")).unwrap();
        prop_assert!((typeset.value - inches.value).abs() < 1e-9);
        let metric = parse_literal(&printed.metric.replace('\u{a0}', " ")).unwrap();
        prop_assert!((metric.value - mm).abs() <= 0.5 + 1e-4);
    }

    /// Up never gives less than the exact value, down never more, both by less than one step.
    #[test]
    fn directions_hold(mm in 0.0f64..20_000.0) {
        let up = print(Length::mm(mm).into(), Show::LENGTH_UP);
        let down = print(Length::mm(mm).into(), Show::LENGTH_DOWN);
        let value = |text: &str| parse_literal(&text.replace('\u{a0}', " ")).unwrap().value;
        for (up, down, step) in [(&up.plain, &down.plain, 25.4 / 8.0), (&up.metric, &down.metric, 1.0)] {
            prop_assert!(value(up) >= mm - 1e-6 * step && value(up) < mm + step);
            prop_assert!(value(down) <= mm + 1e-6 * step && value(down) > mm - step);
        }
    }

    /// A literal in any unit is the same length as its millimetres.
    #[test]
    fn units_agree(n in 1u32..1000) {
        let value = |unit: &str| parse_literal(&format!("{n} {unit}")).unwrap().value;
        prop_assert!((value("yd") - value("in") * 36.0).abs() < 1e-6);
        prop_assert!((value("m") - value("cm") * 100.0).abs() < 1e-6);
    }

    /// Names of any kind are found or named in the fault, never taken for another.
    #[test]
    fn unknown_names_are_named(name in "[a-z][a-z_]{1,12}", _seed in any::<u8>()) {
        let fault = Formula::parse(&format!("{name}x9 + 1 in")).and_then(|formula| formula.eval(&table()));
        let wanted = format!("{name}x9");
        let fault = fault.unwrap_err().to_string();
        prop_assert!(fault.contains(&wanted), "{}", fault);
    }
}

/// Both systems, always, in the order asked for. The form `2 5/8 in (6.7 cm)` is common practice in British and
/// American sewing books, no source.
#[test]
fn systems() {
    let printed = print(Length::inches(2.625).into(), Show::LENGTH);
    let plain = |systems| printed.terminal(systems).replace('\u{a0}', " ");
    assert_eq!(plain(Systems::ImperialFirst), "2 5/8 in (6.7 cm)");
    assert_eq!(plain(Systems::MetricFirst), "6.7 cm (2 5/8 in)");
    assert_eq!(plain(Systems::ImperialOnly), "2 5/8 in");
    assert_eq!(plain(Systems::MetricOnly), "6.7 cm");
}
