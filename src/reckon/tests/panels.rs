use std::collections::BTreeMap;

use super::PANELS;
use crate::reckon::{Answer, Given, Outcome, Value, parse_value};
use crate::units::parse_literal;

fn ask(values: &[(&str, &str)]) -> Answer {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| {
            (name.to_string(), parse_value(PANELS.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
        })
        .collect();
    PANELS.answer(Given::check(&PANELS, values).unwrap()).unwrap()
}

/// The widths of all panels as they are printed, read again.
fn printed(answer: &Answer, column: usize) -> Vec<f64> {
    let Some(Outcome::Table(table)) = answer.get("widths") else { panic!() };
    let read = |row: &Vec<Value>| match &row[column] {
        Value::Word(word) => parse_literal(word).unwrap().value,
        other => panic!("{other:?}"),
    };
    table.rows.iter().map(read).collect()
}

fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap().value
}

/// 236 cm from cloth 90 wide with 2 of seam: 3 strips. Read: National Instructional Media Institute (Govt of
/// India), *Dress Making, Trade Practical vol. 2*, pp. 202-205. The 2 cm are the two allowances of a join.
#[test]
fn three_strips() {
    let found = ask(&[("cloth_width", "90 cm"), ("selvage", "0 cm"), ("join", "1 cm"), ("flat", "236 cm")]);
    assert_eq!(one(&found, "count"), 3.0);
    // Closed form: 3 x (90 - 2) = 264.
    assert!((one(&found, "available") - 2640.0).abs() < 1e-9);
}

/// 179 in of flat cloth (read: research.fibergeek.com, 2010) takes five widths of 45 in cloth: closed form
/// ceil(179 / (45 - 1 - 1 1/4)).
#[test]
fn five_widths() {
    assert_eq!(one(&ask(&[("cloth_width", "45 in"), ("flat", "179 in")]), "count"), 5.0);
}

#[test]
fn widths_make_the_whole_in_both_rulers() {
    let found = ask(&[("cloth_width", "45 in"), ("flat", "130 1/8 in"), ("opening", "1 in"), ("panels", "4")]);
    let total = one(&found, "total_cut");
    let inches = printed(&found, 1);
    assert_eq!(inches.len(), 4);
    assert!((inches.iter().sum::<f64>() - total).abs() < 1e-9);
    assert!(inches.iter().all(|width| ((width / 3.175).round() - width / 3.175).abs() < 1e-9));
    let metric = printed(&found, 2);
    assert!((metric.iter().sum::<f64>() - total.ceil()).abs() < 1e-9);
    assert!(metric.iter().all(|width| (width.round() - width).abs() < 1e-9));
}

#[test]
fn whole_panels_stay_whole() {
    let found = ask(&[("cloth_width", "115 cm"), ("selvage", "1 cm"), ("panels", "3")]);
    assert_eq!(printed(&found, 2), vec![one(&found, "usable"); 3]);
    assert!((one(&found, "widest") - 1130.0).abs() < 1e-9);
    assert!(one(&found, "offcut").abs() < 1e-9);
}

#[test]
fn too_few_panels_is_out_of_reach() {
    let found = ask(&[
        ("cloth_width", "45 in"),
        ("flat", "4 yd"),
        ("panels", "3"),
        ("other_widths", "54 in, 60 in"),
        ("length", "40 in"),
    ]);
    let why = found.out_of_reach.unwrap();
    assert!(why.contains("15 3/4 in"), "{why}");
    let changes: Vec<&str> = found.proposals.iter().map(|proposal| proposal.change.as_str()).collect();
    assert_eq!(changes.len(), 3, "{changes:?}");
    assert!(changes[0].contains("make do with 128 1/4 in"), "{changes:?}");
    assert!(changes[1].contains("54 in") && changes[2].contains("60 in"), "{changes:?}");
    let plain = ask(&[("cloth_width", "45 in"), ("flat", "4 yd"), ("panels", "3")]);
    assert!(plain.proposals.iter().any(|proposal| proposal.change.starts_with("4 panels instead of 3")));
}

#[test]
fn even_panels_put_a_join_at_the_centre_front() {
    let coded = |panels: &str| {
        ask(&[("cloth_width", "45 in"), ("panels", panels)])
            .advice
            .iter()
            .any(|advice| advice.code == "join-at-centre-front")
    };
    assert!(coded("4") && !coded("3"));
    let open = ask(&[("cloth_width", "45 in"), ("panels", "4"), ("ring", "no")]);
    assert_eq!((one(&open, "joins"), open.advice.len()), (3.0, 0));
}
