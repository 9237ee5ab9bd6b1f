//! `furbelow reckon`.

use std::collections::BTreeMap;

use super::args::ReckonArgs;
use super::{FAULTS, FINE, USAGE, complain, say};
use crate::fault::did_you_mean;
use crate::formula::Env;
use crate::reckon::{Given, InputFault, TECHNIQUES, Technique, Value, manual, parse_value, technique, text};
use crate::units::{Quantity, Systems};

/// At the table there are no other names.
struct Nothing;

impl Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

pub(super) fn run(args: &ReckonArgs) -> u8 {
    let systems = if args.metric { Systems::MetricFirst } else { Systems::ImperialFirst };
    let Some(name) = &args.technique else {
        if args.manual {
            say(manual::whole().trim_end());
            return FINE;
        }
        say(text::list().trim_end());
        return FINE;
    };
    let Some(technique) = technique(name) else {
        let known: Vec<&str> = TECHNIQUES.iter().map(|technique| technique.name).collect();
        complain(&format!("no technique is called `{name}`; {}", did_you_mean(name, &known)));
        return USAGE;
    };
    if args.manual {
        say(manual::page(technique).trim_end());
        return FINE;
    }
    if args.values.is_empty() {
        say(text::inputs(technique).trim_end());
        return FINE;
    }
    let given = match read_values(technique, &args.values) {
        Ok(given) => given,
        Err(faults) => {
            for fault in faults {
                complain(&fault.to_string());
                if let Some(help) = fault.help {
                    complain(&format!("  {help}"));
                }
            }
            complain(&format!("`furbelow reckon {name}` lists what it needs"));
            return USAGE;
        }
    };
    match technique.answer(given) {
        Ok(answer) => {
            if args.json {
                say(&serde_json::to_string_pretty(&answer.to_json(systems)).unwrap_or_default());
            } else {
                say(text::answer(&answer, technique, systems).trim_end());
            }
            if answer.out_of_reach.is_some() { FAULTS } else { FINE }
        }
        Err(fault) => {
            complain(&fault.to_string());
            if let Some(help) = fault.help {
                complain(&format!("  {help}"));
            }
            FAULTS
        }
    }
}

fn read_values(technique: &Technique, texts: &[String]) -> Result<Given, Vec<InputFault>> {
    let mut values: BTreeMap<String, Value> = BTreeMap::new();
    let mut faults = Vec::new();
    for text in texts {
        let Some((name, value)) = text.split_once('=') else {
            faults.push(InputFault::new("", format!("expected `name=value`, but found `{text}`")));
            continue;
        };
        let name = name.trim().replace('-', "_");
        let Some(input) = technique.input(&name) else {
            let known: Vec<&str> = technique.inputs.iter().map(|input| input.name).collect();
            faults.push(InputFault::new(&name, "there is no such input").help(did_you_mean(&name, &known)));
            continue;
        };
        match parse_value(input, value, &Nothing) {
            Ok(value) if values.contains_key(&name) => {
                faults.push(InputFault::new(&name, format!("this input is given twice ({value:?} the second time)")));
            }
            Ok(value) => {
                values.insert(name, value);
            }
            Err(fault) => faults.push(fault),
        }
    }
    match Given::check(technique, values) {
        Ok(given) if faults.is_empty() => Ok(given),
        Ok(_) => Err(faults),
        Err(more) => {
            // An input that could not be read is not also missing.
            let read: Vec<String> = faults.iter().map(|fault| fault.input.clone()).collect();
            faults.extend(more.into_iter().filter(|fault| !read.contains(&fault.input)));
            Err(faults)
        }
    }
}
