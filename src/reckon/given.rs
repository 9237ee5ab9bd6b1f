//! The values given to a technique, checked against its inputs.

use std::collections::BTreeMap;
use std::fmt;

use serde::{Deserialize, Serialize};

use super::technique::{Bounds, Input, Kind, Need, Technique};
use crate::fault::did_you_mean;
use crate::formula::{Env, Formula};
use crate::units::{Dim, Quantity, kinds};

/// A value of an input.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Value {
    /// A quantity, or a count as a bare number.
    Quantity(Quantity),
    /// Yes or no.
    Flag(bool),
    /// A word.
    Word(String),
    /// A list of quantities.
    List(Vec<Quantity>),
    /// Rows of a table.
    Rows(Vec<BTreeMap<String, Value>>),
}

/// What is wrong with an input.
#[derive(Debug, Clone, PartialEq)]
pub struct InputFault {
    /// The input; empty where it is about the technique as a whole.
    pub input: String,
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    pub help: Option<String>,
}

impl InputFault {
    /// A fault of an input.
    #[must_use]
    pub fn new(input: impl Into<String>, message: impl Into<String>) -> InputFault {
        InputFault { input: input.into(), message: message.into(), help: None }
    }

    /// With the remedy.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> InputFault {
        self.help = Some(help.into());
        self
    }
}

impl fmt::Display for InputFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.input.is_empty() { f.write_str(&self.message) } else { write!(f, "`{}`: {}", self.input, self.message) }
    }
}

impl std::error::Error for InputFault {}

/// The longest length a garment can have in it: a kilometre.
const LONGEST: f64 = 1e6;
/// The smallest number there is to speak of, in any base unit; below it, divisions run out of bounds.
const LEAST: f64 = 1e-9;
/// The largest count.
const MOST: f64 = 1e6;

/// Checked inputs of a technique, defaults filled in.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    values: BTreeMap<String, Value>,
    assumed: Vec<String>,
}

impl Given {
    /// Checks values against a technique's inputs and fills in the defaults.
    ///
    /// # Errors
    /// All at once: unknown inputs, missing ones, wrong dimensions, values out of bounds.
    pub fn check(technique: &Technique, values: BTreeMap<String, Value>) -> Result<Given, Vec<InputFault>> {
        check_row(technique.inputs, values).map(|(values, assumed)| Given { values, assumed })
    }

    /// The value of an input.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.values.get(name)
    }

    /// Whether the value is the default.
    #[must_use]
    pub fn is_assumed(&self, name: &str) -> bool {
        self.assumed.iter().any(|assumed| assumed == name)
    }

    /// The values without the assumed ones, for working the technique again with a change.
    pub(super) fn explicit(&self) -> BTreeMap<String, Value> {
        let mut values = self.values.clone();
        values.retain(|name, _| !self.is_assumed(name));
        values
    }
}

type Checked = (BTreeMap<String, Value>, Vec<String>);

fn check_row(inputs: &[Input], values: BTreeMap<String, Value>) -> Result<Checked, Vec<InputFault>> {
    let mut faults = Vec::new();
    let mut good = BTreeMap::new();
    for (name, value) in values {
        let Some(input) = inputs.iter().find(|input| input.name == name) else {
            let known: Vec<&str> = inputs.iter().map(|input| input.name).collect();
            faults.push(InputFault::new(&name, "there is no such input").help(did_you_mean(&name, &known)));
            continue;
        };
        match check_value(input, value) {
            Ok(value) => {
                good.insert(name, value);
            }
            Err(more) => faults.extend(more),
        }
    }
    let mut assumed = Vec::new();
    for input in inputs {
        if good.contains_key(input.name) || faults.iter().any(|fault| fault.input == input.name) {
            continue;
        }
        match input.need {
            Need::Optional => {}
            Need::Required => {
                faults.push(InputFault::new(input.name, "this input is missing").help(format!("it is {}", input.doc)));
            }
            Need::Default(text, _) => match default_value(input, text, &good) {
                Some(value) => match check_value(input, value) {
                    Ok(value) => {
                        assumed.push(input.name.to_string());
                        good.insert(input.name.to_string(), value);
                    }
                    Err(more) => faults.extend(more.into_iter().map(|fault| {
                        fault.help(format!("left out, it is `{text}`; with these inputs that has no sense"))
                    })),
                },
                // A default that needs a missing input: the missing one is reported already.
                None if !faults.is_empty() => {}
                None => faults.push(
                    InputFault::new(input.name, "this input is missing")
                        .help(format!("left out, it is `{text}`, and that needs inputs which are not given")),
                ),
            },
        }
    }
    if faults.is_empty() { Ok((good, assumed)) } else { Err(faults) }
}

struct Values<'a>(&'a BTreeMap<String, Value>);

impl Env for Values<'_> {
    fn get(&self, name: &str) -> Option<Quantity> {
        match self.0.get(name)? {
            Value::Quantity(quantity) => Some(*quantity),
            _ => None,
        }
    }
    fn known(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}

fn default_value(input: &Input, text: &str, values: &BTreeMap<String, Value>) -> Option<Value> {
    match input.kind {
        Kind::Quantity(_) | Kind::Count => {
            Some(Value::Quantity(Formula::parse(text).ok()?.eval(&Values(values)).ok()?))
        }
        _ => parse_value(input, text, &Values(values)).ok(),
    }
}

fn check_value(input: &Input, value: Value) -> Result<Value, Vec<InputFault>> {
    let one = |fault: Result<Value, InputFault>| fault.map_err(|fault| vec![fault]);
    match (input.kind, value) {
        (Kind::Quantity(dim), Value::Quantity(quantity)) => {
            one(check_quantity(input, dim, quantity).map(Value::Quantity))
        }
        (Kind::Count, Value::Quantity(quantity)) => one(check_count(input, quantity).map(Value::Quantity)),
        (Kind::Flag, value @ Value::Flag(_)) | (Kind::Words, value @ Value::Word(_)) => Ok(value),
        (Kind::Choice(words), Value::Word(word)) => {
            if words.contains(&word.as_str()) {
                return Ok(Value::Word(word));
            }
            let message = format!("expected one of {}, but found `{word}`", quoted(words));
            one(Err(InputFault::new(input.name, message).help(did_you_mean(&word, words))))
        }
        (Kind::List(dim), Value::List(list)) => {
            let (good, bad): (Vec<_>, Vec<_>) =
                list.into_iter().map(|quantity| check_quantity(input, dim, quantity)).partition(Result::is_ok);
            if bad.is_empty() {
                Ok(Value::List(good.into_iter().filter_map(Result::ok).collect()))
            } else {
                Err(bad.into_iter().filter_map(Result::err).collect())
            }
        }
        (Kind::List(dim), Value::Quantity(quantity)) => {
            one(check_quantity(input, dim, quantity).map(|quantity| Value::List(vec![quantity])))
        }
        (Kind::Rows(columns), Value::Rows(rows)) => {
            let mut good = Vec::new();
            let mut faults = Vec::new();
            for (index, row) in rows.into_iter().enumerate() {
                match check_row(columns, row) {
                    Ok((values, _)) => good.push(values),
                    Err(more) => faults.extend(more.into_iter().map(|fault| InputFault {
                        message: format!("row {}, `{}`: {}", index + 1, fault.input, fault.message),
                        input: input.name.to_string(),
                        help: fault.help,
                    })),
                }
            }
            if faults.is_empty() { Ok(Value::Rows(good)) } else { Err(faults) }
        }
        (kind, _) => {
            let message = format!("expected {}", kind_words(kind));
            one(Err(InputFault::new(input.name, message).help(format!("it is {}", input.doc))))
        }
    }
}

fn quoted(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// What a kind of input takes, for messages.
pub(crate) fn kind_words(kind: Kind) -> String {
    match kind {
        Kind::Quantity(dim) => dim.to_string(),
        Kind::Count => "a whole number".to_string(),
        Kind::Flag => "`yes` or `no`".to_string(),
        Kind::Choice(words) => format!("one of {}", quoted(words)),
        Kind::List(dim) => format!("a list, each entry {dim}"),
        Kind::Words => "words".to_string(),
        Kind::Rows(columns) => {
            let names: Vec<&str> = columns.iter().map(|column| column.name).collect();
            format!("a list of rows with {}", quoted(&names))
        }
    }
}

fn check_quantity(input: &Input, dim: Dim, quantity: Quantity) -> Result<Quantity, InputFault> {
    let fault = |message: String| Err(InputFault::new(input.name, message).help(format!("it is {}", input.doc)));
    if quantity.dim != dim {
        return fault(format!("expected {dim}, but found {}", quantity.dim));
    }
    let value = quantity.value;
    if !value.is_finite() {
        return fault("expected a finite number".to_string());
    }
    if dim == kinds::LENGTH && value.abs() > LONGEST {
        return fault("this length is more than a kilometre; no garment has it".to_string());
    }
    if value.abs() > 1e12 {
        return fault("this number is larger than any a garment has".to_string());
    }
    if value != 0.0 && value.abs() < LEAST {
        return fault("this is next to nothing; write 0 where nothing is meant".to_string());
    }
    match input.bounds {
        Bounds::NotNegative if value < 0.0 => {
            fault("expected nothing or more, but found less than nothing".to_string())
        }
        Bounds::Positive if value <= 0.0 => fault("expected more than nothing".to_string()),
        Bounds::Share if !(0.0..1.0).contains(&value) => {
            fault("expected a share from 0 up to, but not, 1 (100 %)".to_string())
        }
        Bounds::AtLeastOne if value < 1.0 => fault("expected a ratio of at least 1".to_string()),
        _ => Ok(quantity),
    }
}

fn check_count(input: &Input, quantity: Quantity) -> Result<Quantity, InputFault> {
    let quantity = check_quantity(input, kinds::NUMBER, quantity)?;
    if (quantity.value - quantity.value.round()).abs() > 1e-9 {
        return Err(InputFault::new(input.name, format!("expected a whole number, but found {}", quantity.value)));
    }
    if quantity.value > MOST {
        return Err(InputFault::new(input.name, format!("expected at most {MOST}, but found {}", quantity.value)));
    }
    Ok(Quantity::number(quantity.value.round()))
}

/// Reads one value as it stands in a file or on the command line: a formula for a quantity, formulas
/// with commas for a list, `a:b:c, d:e:f` for rows.
///
/// # Errors
/// Where the text cannot be read as what the input takes.
pub fn parse_value(input: &Input, text: &str, env: &dyn Env) -> Result<Value, InputFault> {
    let quantity = |text: &str| {
        Formula::parse(text.trim()).and_then(|formula| formula.eval(env)).map_err(|fault| InputFault {
            input: input.name.to_string(),
            message: format!("`{}`: {fault}", text.trim()),
            help: fault.help().map(ToString::to_string),
        })
    };
    match input.kind {
        Kind::Quantity(_) | Kind::Count => quantity(text).map(Value::Quantity),
        Kind::List(_) => text.split(',').map(quantity).collect::<Result<_, _>>().map(Value::List),
        Kind::Flag => match text.trim() {
            "yes" | "true" => Ok(Value::Flag(true)),
            "no" | "false" => Ok(Value::Flag(false)),
            other => Err(InputFault::new(input.name, format!("expected `yes` or `no`, but found `{other}`"))),
        },
        Kind::Choice(_) | Kind::Words => Ok(Value::Word(text.trim().to_string())),
        Kind::Rows(columns) => {
            let row = |text: &str| {
                let cells: Vec<&str> = text.split(':').collect();
                if cells.len() > columns.len() {
                    let message = format!("row `{}` has more than {} values", text.trim(), columns.len());
                    return Err(InputFault::new(input.name, message));
                }
                columns
                    .iter()
                    .zip(cells)
                    .filter(|(_, cell)| !cell.trim().is_empty())
                    .map(|(column, cell)| Ok((column.name.to_string(), parse_value(column, cell, env)?)))
                    .collect::<Result<BTreeMap<_, _>, InputFault>>()
            };
            text.split(',').map(row).collect::<Result<_, _>>().map(Value::Rows)
        }
    }
}
