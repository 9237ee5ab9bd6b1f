//! What holds of every calculator, whatever it reckons.

use std::collections::BTreeMap;

use furbelow::formula::{Env, Formula};
use furbelow::reckon::manual::example;
use furbelow::reckon::{
    Answer, Given, Input, Kind, Need, Outcome, TECHNIQUES, Technique, Value, parse_value, technique,
};
use furbelow::units::{Dim, Quantity, Systems, kinds};
use proptest::prelude::{Just, ProptestConfig, Strategy, any, prop_oneof};
use proptest::test_runner::TestRunner;

/// The names an answer's rules can see.
struct Sheet<'a>(&'a Answer);

impl Env for Sheet<'_> {
    fn get(&self, name: &str) -> Option<Quantity> {
        self.0.one(name).or_else(|| {
            self.0.inputs.iter().find(|(input, ..)| input == name).and_then(|(_, value, ..)| match value {
                Value::Quantity(quantity) => Some(*quantity),
                _ => None,
            })
        })
    }

    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

struct Nothing;

impl Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

fn worked(technique: &'static Technique) -> Answer {
    example(technique).unwrap_or_else(|faults| panic!("{}: {faults:?}", technique.name))
}

fn finite(value: &Value) -> bool {
    match value {
        Value::Quantity(quantity) => quantity.value.is_finite(),
        Value::List(list) => list.iter().all(|quantity| quantity.value.is_finite()),
        Value::Rows(rows) => rows.iter().flat_map(BTreeMap::values).all(finite),
        Value::Flag(_) | Value::Word(_) => true,
    }
}

fn all_finite(answer: &Answer) -> bool {
    answer.results.iter().all(|(_, outcome, _)| match outcome {
        Outcome::One(quantity) => quantity.value.is_finite(),
        Outcome::List(list) => list.iter().all(|quantity| quantity.value.is_finite()),
        Outcome::Word(_) => true,
        Outcome::Table(table) => table.rows.iter().flatten().all(finite),
    })
}

#[test]
fn definitions_are_whole() {
    let snake =
        |name: &str| !name.is_empty() && name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
    for found in TECHNIQUES {
        let name = found.name;
        assert_eq!(TECHNIQUES.iter().filter(|other| other.name == name).count(), 1, "{name} is there twice");
        assert_eq!(technique(name).unwrap().title, found.title);
        assert!(!found.title.is_empty() && found.summary.ends_with('.') && found.detail.len() > 100, "{name}");
        assert!(!found.detail.contains("  "), "{name}: two spaces in its manual");
        let mut seen: Vec<&str> = Vec::new();
        let columns = found.inputs.iter().flat_map(|input| match input.kind {
            Kind::Rows(columns) => columns,
            _ => &[],
        });
        for input in found.inputs.iter().chain(columns.clone()) {
            assert!(snake(input.name) && !input.doc.is_empty(), "{name}: {}", input.name);
            if let Need::Default(formula, why) = input.need {
                assert!(
                    !formula.is_empty() && !why.is_empty(),
                    "{name}: {} has a default without a reason",
                    input.name
                );
            }
        }
        for input in found.inputs {
            assert!(!seen.contains(&input.name), "{name}: {} twice", input.name);
            seen.push(input.name);
        }
        for output in found.outputs {
            assert!(snake(output.name) && !output.label.is_empty(), "{name}: {}", output.name);
            assert!(!seen.contains(&output.name), "{name}: {} hides an input, or is there twice", output.name);
            seen.push(output.name);
        }
    }
}

#[test]
fn every_example_writes_what_it_declares() {
    for technique in TECHNIQUES {
        let answer = worked(technique);
        assert_eq!(answer.out_of_reach, None, "{}", technique.name);
        assert!(all_finite(&answer), "{}", technique.name);
        for output in technique.outputs {
            assert!(
                answer.get(output.name).is_some() || !output.when.is_empty(),
                "{}: `{}` is not written, and it is not said when it is",
                technique.name,
                output.name
            );
        }
    }
}

#[test]
fn every_rule_worked_again_gives_its_value() {
    let mut rules = 0;
    for technique in TECHNIQUES {
        let answer = worked(technique);
        assert!(!answer.working.is_empty(), "{} shows no working", technique.name);
        for line in &answer.working {
            let (Some(rule), Some((value, _))) = (&line.formula, line.value) else { continue };
            let again = Formula::parse(rule).unwrap().eval(&Sheet(&answer)).unwrap();
            assert_eq!(again.dim, value.dim, "{}: {rule}", technique.name);
            let hair = 1e-12 * value.value.abs().max(1e-9);
            assert!((again.value - value.value).abs() <= hair, "{}: {rule}: {again:?} {value:?}", technique.name);
            rules += 1;
        }
    }
    assert!(rules > 4 * TECHNIQUES.len(), "most results come from a rule: {rules}");
}

#[test]
fn every_working_names_its_numbers_in_both_systems() {
    for technique in TECHNIQUES {
        for line in worked(technique).working.iter().filter(|line| line.formula.is_some()) {
            let words: Vec<&str> = line.filled.metric.split([' ', '\u{a0}', '(', ')']).collect();
            let inches = words.iter().any(|word| ["in", "yd", "oz"].contains(word));
            assert!(!inches, "{}: {}", technique.name, line.filled.metric);
        }
    }
}

#[test]
fn json_has_its_shape() {
    for technique in TECHNIQUES {
        let name = technique.name;
        let json = worked(technique).to_json(Systems::ImperialFirst);
        let keys: Vec<&String> = json.as_object().unwrap().keys().collect();
        assert_eq!(
            keys,
            ["technique", "inputs", "results", "working", "warnings", "out_of_reach", "proposals"],
            "{name}"
        );
        assert_eq!(json["technique"], name);
        for (result, entry) in json["results"].as_object().unwrap() {
            let entry = entry.as_object().unwrap();
            assert!(entry.contains_key("value") && entry.contains_key("unit"), "{name}: {result}");
            if !entry["value"].is_array() || entry.contains_key("printed") {
                assert!(entry.contains_key("printed"), "{name}: {result}");
            }
        }
        for line in json["working"].as_array().unwrap() {
            assert!(line["rule"].is_string() && line["filled"].is_string(), "{name}");
        }
        for warning in json["warnings"].as_array().unwrap() {
            assert!(warning["code"].is_string() && warning["message"].is_string(), "{name}");
        }
        for entry in json["inputs"].as_object().unwrap().values() {
            assert!(entry["assumed"].is_boolean(), "{name}");
        }
    }
}

#[test]
fn an_input_that_is_not_there_or_has_no_sense_is_a_fault() {
    for technique in TECHNIQUES {
        let name = technique.name;
        let good: BTreeMap<String, Value> = technique
            .example
            .iter()
            .map(|(name, text)| {
                ((*name).to_string(), parse_value(technique.input(name).unwrap(), text, &Nothing).unwrap())
            })
            .collect();
        let mut more = good.clone();
        more.insert("frobnicate".to_string(), Value::Flag(true));
        assert!(Given::check(technique, more).unwrap_err().iter().any(|fault| fault.input == "frobnicate"), "{name}");
        for input in technique.inputs {
            if input.need == Need::Required {
                let mut less = good.clone();
                less.remove(input.name);
                assert!(
                    Given::check(technique, less).unwrap_err().iter().any(|fault| fault.input == input.name),
                    "{name}: {}",
                    input.name
                );
            }
            if let Kind::Quantity(dim) = input.kind {
                for (value, dim) in [(f64::NAN, dim), (f64::INFINITY, dim), (1.0, Dim { mass: 3, ..dim })] {
                    let mut bad = good.clone();
                    bad.insert(input.name.to_string(), Value::Quantity(Quantity::new(value, dim)));
                    assert!(Given::check(technique, bad).is_err(), "{name}: {} takes {value}", input.name);
                }
            }
        }
    }
}

/// Any number with any unit, with a liking for those at the edge of sense.
fn quantity() -> impl Strategy<Value = Quantity> {
    let value = prop_oneof![
        Just(0.0),
        Just(-1.0),
        Just(1.0),
        Just(1e-9),
        Just(1e-310),
        Just(1e6),
        Just(1e12),
        0.0..10.0,
        0.0..2000.0,
        -50.0..50.0,
        (0_u32..40).prop_map(f64::from),
        any::<f64>(),
    ];
    let dim = prop_oneof![
        8 => Just(kinds::LENGTH),
        8 => Just(kinds::NUMBER),
        1 => Just(kinds::AREA),
        1 => Just(kinds::MASS),
        1 => Just(kinds::SHEET_MASS),
        1 => Just(kinds::ANGLE),
    ];
    (value, dim).prop_map(|(value, dim)| Quantity::new(value, dim))
}

/// A value for an input: of its own kind for the most part.
fn value(input: &Input) -> proptest::strategy::BoxedStrategy<Value> {
    let own = |dim: Dim| quantity().prop_map(move |found| Quantity::new(found.value, dim));
    let word = prop_oneof![
        Just(String::new()),
        Just("wool folded + lining".to_string()),
        Just("wool".to_string()),
        "[a-z+:, 0-9]{0,20}",
    ];
    let right = match input.kind {
        Kind::Quantity(dim) => own(dim).prop_map(Value::Quantity).boxed(),
        Kind::Count => (0_u32..3000).prop_map(|count| Value::Quantity(Quantity::number(f64::from(count)))).boxed(),
        Kind::Flag => any::<bool>().prop_map(Value::Flag).boxed(),
        Kind::Choice(words) => proptest::sample::select(words).prop_map(|word| Value::Word(word.to_string())).boxed(),
        Kind::List(dim) => proptest::collection::vec(own(dim), 0..6).prop_map(Value::List).boxed(),
        Kind::Words => word.clone().prop_map(Value::Word).boxed(),
        Kind::Rows(columns) => {
            let row = columns
                .iter()
                .map(|column| (Just(column.name.to_string()), value(column)))
                .collect::<Vec<_>>()
                .prop_map(|cells| cells.into_iter().collect::<BTreeMap<_, _>>());
            proptest::collection::vec(row, 0..5).prop_map(Value::Rows).boxed()
        }
    };
    let wrong = prop_oneof![
        quantity().prop_map(Value::Quantity),
        any::<bool>().prop_map(Value::Flag),
        word.prop_map(Value::Word),
        proptest::collection::vec(quantity(), 0..4).prop_map(Value::List),
        Just(Value::Rows(Vec::new())),
    ];
    prop_oneof![12 => right, 1 => wrong].boxed()
}

/// Whatever is given: a fault or a finite answer, and never a panic. Most inputs stay as in the example,
/// so that the calculators are reached and not only the check before them.
#[test]
fn nothing_that_is_given_makes_a_calculator_panic() {
    for technique in TECHNIQUES {
        let good: Vec<(String, Value)> = technique
            .example
            .iter()
            .map(|(name, text)| {
                ((*name).to_string(), parse_value(technique.input(name).unwrap(), text, &Nothing).unwrap())
            })
            .collect();
        let inputs: Vec<_> = technique
            .inputs
            .iter()
            .map(|input| {
                let kept = good.iter().find(|(name, _)| name == input.name).map(|(_, value)| value.clone());
                let found = match kept {
                    Some(kept) => prop_oneof![
                        20 => Just(Some(kept)),
                        3 => value(input).prop_map(Some),
                        1 => Just(None),
                    ]
                    .boxed(),
                    None => prop_oneof![12 => Just(None), 1 => value(input).prop_map(Some)].boxed(),
                };
                (Just(input.name.to_string()), found)
            })
            .collect();
        let config = ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() };
        let mut runner = TestRunner::new(config);
        let mut answered = 0_u32;
        let counted = std::cell::Cell::new(0_u32);
        runner
            .run(&inputs, |cells| {
                let values: BTreeMap<String, Value> =
                    cells.into_iter().filter_map(|(name, value)| Some((name, value?))).collect();
                let given = match Given::check(technique, values) {
                    Ok(given) => given,
                    Err(faults) => {
                        proptest::prop_assert!(
                            !faults.is_empty() && faults.iter().all(|fault| !fault.message.is_empty())
                        );
                        return Ok(());
                    }
                };
                match technique.answer(given) {
                    Ok(answer) => {
                        counted.set(counted.get() + 1);
                        proptest::prop_assert!(all_finite(&answer), "{}: {:#?}", technique.name, answer.results);
                        let text = furbelow::reckon::text::answer(&answer, technique, Systems::MetricFirst);
                        proptest::prop_assert!(!text.is_empty());
                        proptest::prop_assert!(answer.to_json(Systems::MetricFirst).is_object());
                    }
                    Err(fault) => proptest::prop_assert!(!fault.message.is_empty()),
                }
                Ok(())
            })
            .unwrap_or_else(|failure| panic!("{}: {failure}", technique.name));
        answered += counted.get();
        assert!(answered > 5, "{}: only {answered} of 400 were answered at all", technique.name);
    }
}
