use std::collections::BTreeMap;

use super::DIP;
use crate::reckon::{Answer, Given, Outcome, Value, parse_value};

fn ask(values: &[(&str, &str)]) -> Result<Answer, crate::reckon::InputFault> {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| (name.to_string(), parse_value(DIP.input(name).unwrap(), text, &BTreeMap::new()).unwrap()))
        .collect();
    DIP.answer(Given::check(&DIP, values).unwrap())
}

fn shaped(shape: &str) -> Answer {
    ask(&[("width", "12 in"), ("depth", "3 in"), ("ratio", "6"), ("shape", shape)]).unwrap()
}

fn inches(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap().value / 25.4
}

/// Closed form: straight-sided, 12 in wide and 3 in deep, the seam is 13.4164 in; at 6 : 1, 80.498 in of skirt.
/// Its span alone would give 72 in, 2 yd (common practice).
#[test]
fn straight_sided() {
    let found = shaped("straight");
    assert!((inches(&found, "arc") - 13.4164).abs() < 5e-5);
    assert!((inches(&found, "arc") - 2.0 * 45f64.sqrt()).abs() < 1e-12);
    assert!((inches(&found, "flat") - 80.498).abs() < 5e-4);
    assert!((inches(&found, "span_flat") - 72.0).abs() < 1e-12);
    assert!(found.advice.iter().any(|advice| advice.code == "span-for-arc"));
}

/// Closed form: a straight-sided dip 10 in wide and 4 in deep is 12.81 in along the seam: 28 % more.
#[test]
fn ten_wide_four_deep() {
    let found = ask(&[("width", "10 in"), ("depth", "4 in"), ("ratio", "6")]).unwrap();
    assert!((inches(&found, "arc") - 12.81).abs() < 5e-3);
    assert!((found.one("longer").unwrap().value - 0.28).abs() < 2e-3);
}

/// Closed forms: half-cosine of the same size 13.6781 in; parabola 13.7735 in.
#[test]
fn curved() {
    assert!((inches(&shaped("half-cosine"), "arc") - 13.6781).abs() < 5e-5);
    let parabola = inches(&shaped("parabola"), "arc");
    assert!((parabola - 13.7735).abs() < 5e-5);
    // 6 √2 + 6 asinh(1): a parabola whose slope at the end is 1.
    assert!((parabola - (6.0 * 2f64.sqrt() + 6.0 * 1f64.asinh())).abs() < 1e-9);
}

#[test]
fn points_are_joined_straight() {
    let found = ask(&[
        ("width", "12 in"),
        ("depth", "3 in"),
        ("ratio", "6"),
        ("shape", "points"),
        ("points", "0 in:3 in, 2 in:2 in, 6 in:0 in"),
    ])
    .unwrap();
    assert!((inches(&found, "arc") - 2.0 * (5f64.sqrt() + 20f64.sqrt())).abs() < 1e-9);
    let Some(Outcome::Table(marks)) = found.get("marks") else { panic!() };
    // The second point lies √5 in along the seam; 16 in along the flat edge are 16/6 in along it, so
    // the rest falls 2 in in √20.
    let down: Vec<f64> = marks.rows.iter().map(|row| quantity(&row[1])).collect();
    assert!((down[8] - (2.0 - (16.0 / 6.0 - 5f64.sqrt()) * 2.0 / 20f64.sqrt())).abs() < 1e-9, "{down:?}");
    assert!((quantity(&marks.rows.last().unwrap()[0]) - inches(&found, "half_flat")).abs() < 1e-12);
}

fn quantity(value: &Value) -> f64 {
    match value {
        Value::Quantity(quantity) => quantity.value / 25.4,
        _ => panic!(),
    }
}

#[test]
fn marks_of_a_straight_dip_lie_on_a_straight_line() {
    let found = shaped("straight");
    let Some(Outcome::Table(marks)) = found.get("marks") else { panic!() };
    let half = inches(&found, "half_flat");
    for row in &marks.rows {
        let (out, down) = (quantity(&row[0]), quantity(&row[1]));
        assert!((down - 3.0 * (1.0 - out / half)).abs() < 1e-9, "{out}: {down}");
    }
}

#[test]
fn steep_edges_are_faced() {
    let steep = ask(&[("width", "4 in"), ("depth", "8 in"), ("ratio", "1 1/2")]).unwrap();
    assert!(steep.advice.iter().any(|advice| advice.code == "too-steep-to-fold"));
    assert!(!shaped("straight").advice.iter().any(|advice| advice.code == "too-steep-to-fold"));
}

#[test]
fn points_that_make_no_dip() {
    for points in [
        "0 in:3 in",
        "1 in:3 in, 6 in:0 in",
        "0 in:3 in, 5 in:1 in, 4 in:1/2 in, 6 in:0 in",
        "0 in:2 in, 6 in:0 in",
        "0 in:3 in, 6 in:1 in",
    ] {
        let fault =
            ask(&[("width", "12 in"), ("depth", "3 in"), ("ratio", "6"), ("shape", "points"), ("points", points)])
                .unwrap_err();
        assert_eq!(fault.input, "points", "{points}");
    }
}
