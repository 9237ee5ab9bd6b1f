use std::collections::BTreeMap;

use super::BIAS_STRIPS;
use crate::reckon::{Answer, Given, Outcome, parse_value};

fn ask(values: &[(&str, &str)]) -> Answer {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| {
            (name.to_string(), parse_value(BIAS_STRIPS.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
        })
        .collect();
    BIAS_STRIPS.answer(Given::check(&BIAS_STRIPS, values).unwrap()).unwrap()
}

fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("{name}")).value
}

/// Selvage length for a strip, inches and eighths. Read: Baldt, *Clothing for Women*, 1916, ch. XXII; within
/// 0.08 in of the closed form w √2.
#[test]
fn along_the_selvage() {
    for (strip, inches, eighths) in [
        (0.5, 0.0, 6.0),
        (1.0, 1.0, 3.0),
        (1.5, 2.0, 1.0),
        (2.0, 2.0, 6.0),
        (2.5, 3.0, 4.0),
        (3.0, 4.0, 2.0),
        (3.5, 5.0, 0.0),
        (4.0, 5.0, 5.0),
        (4.5, 6.0, 3.0),
        (5.0, 7.0, 1.0),
        (5.5, 7.0, 6.0),
    ] {
        let text = format!("{strip} in");
        let found = one(&ask(&[("strip", &text), ("width", "44 in"), ("height", "44 in")]), "along_selvage") / 25.4;
        let read: f64 = inches + eighths / 8.0;
        assert!((found - read).abs() < 0.08, "{strip}: {found}");
        assert!((found - strip * 2f64.sqrt()).abs() < 1e-12);
    }
}

/// 36 in square, 2 in strips: area rule 648 in = 18 yd (read: several quilting leaflets); exact continuous
/// method without seam loss: 12 rounds, 610.9 in (closed form 12 × 36 √2).
#[test]
fn thirty_six_inch_square() {
    let found =
        ask(&[("strip", "2 in"), ("width", "36 in"), ("height", "36 in"), ("join", "0 in"), ("method", "continuous")]);
    assert!((one(&found, "area_rule") / 25.4 - 648.0).abs() < 1e-9);
    assert_eq!(one(&found, "rounds"), 12.0);
    assert!((one(&found, "continuous") / 25.4 - 610.9).abs() < 0.05);
    assert!((one(&found, "length") / 25.4 - 12.0 * 36.0 * 2f64.sqrt()).abs() < 1e-9);
}

/// 500 × 2.5 cm from cloth 86 wide, shortest strip 10 cm: 15.12 cm; 96 × 20 cm in 2 cm strips: 934.79 cm. Read:
/// National Instructional Media Institute, *Dress Making, Trade Practical vol. 2*, p. 220 (it rounds the leg of
/// the waste corner, 10 / √2, to 7.1 cm).
#[test]
fn area_and_corners() {
    let found =
        ask(&[("strip", "2.5 cm"), ("width", "86 cm"), ("height", "20 cm"), ("need", "500 cm"), ("shortest", "10 cm")]);
    assert!((one(&found, "height_needed") / 10.0 - 15.12).abs() < 0.01);
    let found = ask(&[("strip", "2 cm"), ("width", "96 cm"), ("height", "20 cm"), ("shortest", "10 cm")]);
    assert!((one(&found, "less_corners") / 10.0 - 934.79).abs() < 0.3);
    assert!((one(&found, "less_corners") / 10.0 - (96.0 * 20.0 - 50.0) / 2.0).abs() < 1e-9);
    // What can really be cut is less than either rule says.
    assert!(one(&found, "all_length") < one(&found, "less_corners"));
    assert!(one(&found, "all_length") > 0.9 * one(&found, "less_corners"));
}

#[test]
fn strips_join_into_the_run() {
    let found = ask(&[("strip", "1 1/2 in"), ("width", "44 in"), ("height", "12 in"), ("need", "5 yd")]);
    assert_eq!(found.out_of_reach, None);
    let Some(Outcome::Table(list)) = found.get("list") else { panic!() };
    assert_eq!(list.rows.len() as f64, one(&found, "strips"));
    // The full strips run from selvage-side edge to selvage-side edge: 12 √2 in.
    let usable = |row: &Vec<crate::reckon::Value>| match &row[2] {
        crate::reckon::Value::Quantity(quantity) => quantity.value / 25.4,
        _ => panic!(),
    };
    assert!((usable(&list.rows[0]) - 12.0 * 2f64.sqrt()).abs() < 1e-9);
    assert!(one(&found, "joined") / 914.4 >= 5.0);
    let sum: f64 = list.rows.iter().map(usable).sum();
    let joins = one(&found, "joins");
    assert!((one(&found, "joined") / 25.4 - (sum - joins * 0.5 * 2f64.sqrt() - 1.5)).abs() < 1e-9);
}

#[test]
fn joins_keep_clear_of_the_centre_front() {
    let base = [("strip", "1 in"), ("width", "44 in"), ("height", "20 in"), ("need", "3 yd")];
    let free = ask(&base);
    let Some(Outcome::List(joins)) = free.get("joins_at") else { panic!() };
    // Put the centre front exactly on the first join.
    let place = format!("{} mm", joins[0].value);
    let kept = ask(&[&base[..], &[("avoid", place.as_str())]].concat());
    assert!(one(&kept, "trim_first") > 0.0);
    let Some(Outcome::List(moved)) = kept.get("joins_at") else { panic!() };
    assert!(moved.iter().all(|join| (join.value - joins[0].value).abs() >= 2.0 * 25.4 - 1e-3), "{moved:?}");
}

#[test]
fn too_small_a_rectangle() {
    let found = ask(&[("strip", "1 1/2 in"), ("width", "20 in"), ("height", "20 in"), ("need", "7 yd")]);
    assert!(found.out_of_reach.is_some());
    assert!(found.proposals.iter().any(|proposal| proposal.change.contains("high")), "{:#?}", found.proposals);
}

#[test]
fn no_strip_at_all() {
    let found = ask(&[("strip", "3 in"), ("width", "5 in"), ("height", "4 in"), ("need", "1 yd")]);
    assert_eq!(one(&found, "all_strips"), 0.0);
    assert!(found.out_of_reach.is_some());
}
