use std::collections::BTreeMap;

use super::CLOSURES;
use crate::reckon::{Answer, Given, InputFault, Outcome, parse_value};

fn ask(values: &[(&str, &str)]) -> Result<Answer, InputFault> {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| {
            (name.to_string(), parse_value(CLOSURES.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
        })
        .collect();
    CLOSURES.answer(Given::check(&CLOSURES, values).unwrap())
}

fn inches(answer: &Answer, name: &str) -> Vec<f64> {
    match answer.get(name) {
        Some(Outcome::List(list)) => list.iter().map(|quantity| quantity.value / 25.4).collect(),
        Some(Outcome::One(one)) => vec![one.value / 25.4],
        other => panic!("{name}: {other:?}"),
    }
}

fn near(found: &[f64], wanted: &[f64]) {
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
}

/// Hooks and eyes at a waist 1 1/4 in apart, set 1/4 in from the edge. Read: *The New Dressmaker*, 1921, p. 112.
/// On 8 in: 7 1/2 usable, closed form ceil(7.5 / 1.25) + 1 = 7.
#[test]
fn hooks() {
    let found = ask(&[("opening", "8 in")]).unwrap();
    assert_eq!(found.one("count").unwrap().value, 7.0);
    near(&inches(&found, "at"), &[0.25, 1.5, 2.75, 4.0, 5.25, 6.5, 7.75]);
    near(&inches(&found, "gaps"), &[1.25; 6]);
}

/// Buttonholes divide the distance equally. Read: *The New Dressmaker*, 1921, p. 117.
#[test]
fn buttons_divide_equally() {
    let found =
        ask(&[("kind", "buttons"), ("opening", "10 1/2 in"), ("first", "1 in"), ("last", "1/2 in"), ("gap", "2 in")])
            .unwrap();
    near(&inches(&found, "gaps"), &[1.8; 5]);
}

/// 40 lignes = 1 in. Read: *Dictionary of Dry Goods*. Buttonhole = diameter + thickness.
#[test]
fn buttonhole() {
    let found = ask(&[("kind", "buttons"), ("opening", "10 in"), ("lignes", "30"), ("thickness", "1/8 in")]).unwrap();
    near(&inches(&found, "button"), &[0.75]);
    near(&inches(&found, "buttonhole"), &[0.875]);
}

#[test]
fn fixed_places_come_first() {
    let found = ask(&[("opening", "15 in"), ("fixed", "12 1/2 in, 4 in")]).unwrap();
    let at = inches(&found, "at");
    for place in [0.25, 4.0, 12.5, 14.75] {
        assert!(at.iter().any(|found| (found - place).abs() < 1e-9), "{place}: {at:?}");
    }
    // 3 3/4, 8 1/2 and 2 1/4 in at most 1 1/4 apart: 3, 7 and 2 gaps.
    assert_eq!(at.len(), 13);
    assert!(inches(&found, "gaps").iter().all(|gap| *gap <= 1.25 + 1e-9));
}

#[test]
fn fixed_places_outside_are_refused() {
    assert_eq!(ask(&[("opening", "8 in"), ("fixed", "9 in")]).unwrap_err().input, "fixed");
    assert_eq!(ask(&[("opening", "1/4 in")]).unwrap_err().input, "opening");
}

/// Criss-cross: each eyelet pair to the next is crossed twice, the start once straight (closed form).
#[test]
fn lace() {
    let found = ask(&[
        ("kind", "eyelets"),
        ("opening", "12 1/2 in"),
        ("gap", "4 in"),
        ("laced_gap", "2 in"),
        ("from_edge", "1/2 in"),
        ("lace_tail", "10 in"),
    ])
    .unwrap();
    // Four pairs, 4 in apart, 3 in across: six diagonals of 5 in.
    near(&inches(&found, "lace"), &[6.0 * 5.0 + 3.0 + 20.0]);
}

/// ASTM F1816, EN 14682: no cords at hood and neck of children's clothing.
#[test]
fn no_cord_for_a_child() {
    let found = ask(&[("kind", "eyelets"), ("opening", "8 in"), ("child", "yes")]).unwrap();
    assert!(found.advice.iter().any(|advice| advice.code == "cord-on-child"));
}
