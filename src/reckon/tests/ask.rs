//! Asking a technique by the texts a maker would write.

use std::collections::BTreeMap;

use super::{Answer, Given, Outcome, Table, Technique, Value, parse_value};
use crate::formula::Env;
use crate::units::Quantity;

struct Nothing;

impl Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }
    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

/// The answer, or every fault in words.
pub fn try_ask(technique: &'static Technique, values: &[(&str, &str)]) -> Result<Answer, String> {
    let mut read = BTreeMap::new();
    for (name, text) in values {
        let input = technique.input(name).ok_or(format!("no input {name}"))?;
        read.insert((*name).to_string(), parse_value(input, text, &Nothing).map_err(|fault| fault.to_string())?);
    }
    let given = Given::check(technique, read)
        .map_err(|faults| faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))?;
    technique.answer(given).map_err(|fault| fault.to_string())
}

/// The answer.
pub fn ask(technique: &'static Technique, values: &[(&str, &str)]) -> Answer {
    try_ask(technique, values).unwrap_or_else(|fault| panic!("{}: {fault}", technique.name))
}

/// What is wrong with these values.
pub fn fault(technique: &'static Technique, values: &[(&str, &str)]) -> String {
    try_ask(technique, values).expect_err("these values should be refused")
}

/// A result in its base unit.
pub fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("no {name}")).value
}

/// A result in inches.
pub fn inches(answer: &Answer, name: &str) -> f64 {
    one(answer, name) / 25.4
}

/// A list in base units.
pub fn list(answer: &Answer, name: &str) -> Vec<f64> {
    match answer.get(name) {
        Some(Outcome::List(list)) => list.iter().map(|quantity| quantity.value).collect(),
        other => panic!("{name}: {other:?}"),
    }
}

/// A table.
pub fn table<'a>(answer: &'a Answer, name: &str) -> &'a Table {
    match answer.get(name) {
        Some(Outcome::Table(table)) => table,
        other => panic!("{name}: {other:?}"),
    }
}

/// One number in a table, by row and column, in its base unit.
pub fn cell(answer: &Answer, name: &str, row: usize, column: usize) -> f64 {
    match &table(answer, name).rows[row][column] {
        Value::Quantity(quantity) => quantity.value,
        other => panic!("{name} {row} {column}: {other:?}"),
    }
}

/// Whether this advice was given.
pub fn advised(answer: &Answer, code: &str) -> bool {
    answer.advice.iter().any(|advice| advice.code == code)
}

/// Out of reach, with proposals, the least change first.
pub fn assert_proposals(answer: &Answer, least: usize) {
    assert!(answer.out_of_reach.is_some(), "{answer:?}");
    assert!(answer.proposals.len() >= least, "{:?}", answer.proposals);
    assert!(answer.proposals.is_sorted_by(|a, b| a.cost <= b.cost));
}

/// Equal to within a billionth.
pub fn same(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

/// Equal to within a tolerance that the source has.
pub fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected} within {tolerance}");
}
