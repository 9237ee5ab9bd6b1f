use std::collections::BTreeMap;

use super::{answer, inputs, list};
use crate::reckon::manual::example;
use crate::reckon::{Given, TECHNIQUES, parse_value, technique};
use crate::units::Systems;

const ALL: [Systems; 4] = [Systems::ImperialFirst, Systems::MetricFirst, Systems::ImperialOnly, Systems::MetricOnly];

fn inside(text: &str, what: &str) {
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{what}: {} columns\n{line}", line.chars().count());
        assert!(!line.contains('\u{a0}'), "{what}: {line}");
        assert_eq!(line.trim_end(), line, "{what}");
    }
}

#[test]
fn everything_fits_eighty_columns() {
    inside(&list(), "list");
    for technique in TECHNIQUES {
        inside(&inputs(technique), technique.name);
        let found = example(technique).unwrap_or_else(|faults| panic!("{}: {faults:?}", technique.name));
        for systems in ALL {
            inside(&answer(&found, technique, systems), technique.name);
        }
    }
}

#[test]
fn the_list_names_every_technique_and_the_inputs_every_input() {
    for technique in TECHNIQUES {
        assert!(list().contains(technique.name));
        let text = inputs(technique);
        for input in technique.inputs {
            assert!(text.contains(&format!("\n  {} (", input.name)), "{}: {}", technique.name, input.name);
        }
    }
}

#[test]
fn both_systems_stand_in_the_results() {
    let technique = technique("cartridge-pleats").unwrap();
    let text = answer(&example(technique).unwrap(), technique, Systems::ImperialFirst);
    assert!(text.contains("144 in (365.8 cm)"), "{text}");
    let text = answer(&example(technique).unwrap(), technique, Systems::MetricFirst);
    assert!(text.contains("365.8 cm (144 in)"), "{text}");
}

#[test]
fn out_of_reach_comes_first_with_its_ways_out() {
    let technique = technique("cartridge-pleats").unwrap();
    let values: BTreeMap<_, _> = technique
        .example
        .iter()
        .map(|(name, text)| {
            let text = if *name == "seam" { "21 in" } else { text };
            (name.to_string(), parse_value(technique.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
        })
        .collect();
    let found = technique.answer(Given::check(technique, values).unwrap()).unwrap();
    let text = answer(&found, technique, Systems::ImperialFirst);
    inside(&text, "out of reach");
    assert!(text.find("Out of reach").unwrap() < text.find("Results").unwrap());
    assert!(text.contains("  1. "), "{text}");
}
