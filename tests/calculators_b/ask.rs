//! Asking a technique by the texts a maker would write, and reading what it answers.

use std::collections::BTreeMap;

use furbelow::formula::Env;
use furbelow::reckon::{Answer, Given, Outcome, Table, Technique, Value, parse_value, technique};
use furbelow::units::Quantity;

struct Nothing;

impl Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }
    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

pub fn known(name: &str) -> &'static Technique {
    technique(name).unwrap_or_else(|| panic!("no technique {name}"))
}

pub fn ask(name: &str, values: &[(&str, String)]) -> Answer {
    let technique = known(name);
    let read: BTreeMap<String, Value> = values
        .iter()
        .map(|(input, text)| {
            let definition = technique.input(input).unwrap_or_else(|| panic!("{name} has no input {input}"));
            (
                (*input).to_string(),
                parse_value(definition, text, &Nothing).unwrap_or_else(|fault| panic!("{text}: {fault}")),
            )
        })
        .collect();
    let given = Given::check(technique, read).unwrap_or_else(|faults| panic!("{name} {values:?}: {faults:?}"));
    technique.answer(given).unwrap_or_else(|fault| panic!("{name} {values:?}: {fault}"))
}

pub fn mm(value: f64) -> String {
    format!("{value} mm")
}

pub fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("no {name}")).value
}

pub fn table<'a>(answer: &'a Answer, name: &str) -> &'a Table {
    match answer.get(name) {
        Some(Outcome::Table(table)) => table,
        other => panic!("{name}: {other:?}"),
    }
}

pub fn list(answer: &Answer, name: &str) -> Vec<f64> {
    match answer.get(name) {
        Some(Outcome::List(list)) => list.iter().map(|quantity| quantity.value).collect(),
        other => panic!("{name}: {other:?}"),
    }
}

pub fn number(value: &Value) -> Option<f64> {
    match value {
        Value::Quantity(quantity) => Some(quantity.value),
        _ => None,
    }
}

pub fn word(value: &Value) -> &str {
    match value {
        Value::Word(word) => word,
        other => panic!("{other:?}"),
    }
}

pub fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1.0)
}

/// Every proposal, its inputs read back from their text, is within reach and gives the results shown.
pub fn proposals_hold(name: &str, values: &[(&str, String)], answer: &Answer) {
    for proposal in &answer.proposals {
        let mut changed: BTreeMap<&str, String> = values.iter().cloned().collect();
        for (input, text) in &proposal.inputs {
            changed.insert(known(name).input(input).expect("a proposal names an input").name, text.clone());
        }
        let changed: Vec<(&str, String)> = changed.into_iter().collect();
        let again = ask(name, &changed);
        assert!(again.out_of_reach.is_none(), "{name}: {proposal:?} is out of reach: {:?}", again.out_of_reach);
        for (result, printed) in &proposal.results {
            assert_eq!(again.printed(result).as_ref(), Some(printed), "{name}: {proposal:?}");
        }
    }
}
