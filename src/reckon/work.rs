//! The sheet a calculator works on.

use std::collections::BTreeMap;

use super::answer::{Advice, Answer, Line, Outcome, Proposal, Table, outcome_printed};
use super::given::{Given, InputFault, Value};
use super::technique::{Input, Kind, Technique};
use super::words::precise;
use crate::formula::{Env, Formula, FormulaFault};
use crate::units::{
    Angle, Area, Count, Length, Mass, Printed, Quantity, Ratio, SheetMass, Show, Volume, decimal, parse_literal, print,
};

/// Why a calculator stops without an answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Stop {
    /// An input contradicts another, or has no sense.
    Input(InputFault),
    /// A rule has no value for these inputs (a division by zero, most often).
    Rule(FormulaFault),
}

impl From<InputFault> for Stop {
    fn from(fault: InputFault) -> Stop {
        Stop::Input(fault)
    }
}

impl From<FormulaFault> for Stop {
    fn from(fault: FormulaFault) -> Stop {
        Stop::Rule(fault)
    }
}

/// How many proposals an answer keeps.
const MOST_PROPOSALS: usize = 3;

/// The sheet: inputs above, results and working below.
pub struct Work {
    technique: &'static Technique,
    given: Given,
    answer: Answer,
    /// Whether proposals are wanted; not while one is being worked through.
    propose: bool,
}

impl Env for Work {
    fn get(&self, name: &str) -> Option<Quantity> {
        if let Some(quantity) = self.answer.one(name) {
            return Some(quantity);
        }
        match self.given.get(name)? {
            Value::Quantity(quantity) => Some(*quantity),
            _ => None,
        }
    }

    fn known(&self) -> Vec<String> {
        let results = self.answer.results.iter().map(|(name, ..)| name.clone());
        results.chain(self.technique.inputs.iter().map(|input| input.name.to_string())).collect()
    }
}

impl Work {
    pub(super) fn run(technique: &'static Technique, given: Given, propose: bool) -> Result<Answer, InputFault> {
        let inputs = technique
            .inputs
            .iter()
            .filter_map(|input| {
                let value = given.get(input.name)?.clone();
                Some((input.name.to_string(), value, input.show, given.is_assumed(input.name)))
            })
            .collect();
        let answer = Answer {
            technique: technique.name.to_string(),
            inputs,
            results: Vec::new(),
            working: Vec::new(),
            advice: Vec::new(),
            out_of_reach: None,
            proposals: Vec::new(),
        };
        let mut work = Work { technique, given, answer, propose };
        match (technique.work)(&mut work) {
            Ok(()) => {
                let proposals = &mut work.answer.proposals;
                proposals.sort_by(|a, b| a.cost.total_cmp(&b.cost));
                proposals.truncate(MOST_PROPOSALS);
                Ok(work.answer)
            }
            Err(Stop::Input(fault)) => Err(fault),
            Err(Stop::Rule(fault)) => Err(InputFault::new("", format!("{}: {fault}", technique.title.to_lowercase()))),
        }
    }

    // ---- inputs ------------------------------------------------------------------------------

    /// Whether an input was given or has a default.
    #[must_use]
    pub fn has(&self, name: &str) -> bool {
        self.given.get(name).is_some()
    }

    /// A quantity among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or no quantity (a slip in the definition).
    pub fn quantity(&self, name: &str) -> Result<Quantity, Stop> {
        match self.given.get(name) {
            Some(Value::Quantity(quantity)) => Ok(*quantity),
            _ => Err(InputFault::new(name, "this input is missing").into()),
        }
    }

    /// Whether an input was given by the maker, and is not its default.
    #[must_use]
    pub fn is_given(&self, name: &str) -> bool {
        self.has(name) && !self.given.is_assumed(name)
    }

    /// A single quantity among the results so far.
    ///
    /// # Errors
    /// Where it has not been written (a slip in the technique, or a result that is not always there).
    pub fn result(&self, name: &str) -> Result<Quantity, Stop> {
        self.answer.one(name).ok_or_else(|| InputFault::new("", format!("`{name}` is not worked out here")).into())
    }

    fn typed<T: TryFrom<Quantity, Error = crate::units::WrongDim>>(&self, name: &str) -> Result<T, Stop> {
        T::try_from(self.quantity(name)?).map_err(|wrong| InputFault::new(name, wrong.to_string()).into())
    }

    /// A length among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn length(&self, name: &str) -> Result<Length, Stop> {
        self.typed(name)
    }

    /// A length that may be left out.
    #[must_use]
    pub fn maybe_length(&self, name: &str) -> Option<Length> {
        self.length(name).ok()
    }

    /// A bare number among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn ratio(&self, name: &str) -> Result<Ratio, Stop> {
        self.typed(name)
    }

    /// An angle among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn angle(&self, name: &str) -> Result<Angle, Stop> {
        self.typed(name)
    }

    /// A mass among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn mass(&self, name: &str) -> Result<Mass, Stop> {
        self.typed(name)
    }

    /// An area among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn area(&self, name: &str) -> Result<Area, Stop> {
        self.typed(name)
    }

    /// A volume among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn volume(&self, name: &str) -> Result<Volume, Stop> {
        self.typed(name)
    }

    /// The weight of a cloth among the inputs.
    ///
    /// # Errors
    /// Where the input is missing or of another dimension.
    pub fn sheet_mass(&self, name: &str) -> Result<SheetMass, Stop> {
        self.typed(name)
    }

    /// A whole number among the inputs.
    ///
    /// # Errors
    /// Where the input is missing.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub fn count(&self, name: &str) -> Result<Count, Stop> {
        Ok(Count(self.quantity(name)?.value.max(0.0).round() as u64))
    }

    /// A yes or no; no where it was left out.
    #[must_use]
    pub fn flag(&self, name: &str) -> bool {
        matches!(self.given.get(name), Some(Value::Flag(true)))
    }

    /// A word; empty where it was left out.
    #[must_use]
    pub fn word(&self, name: &str) -> &str {
        match self.given.get(name) {
            Some(Value::Word(word)) => word,
            _ => "",
        }
    }

    /// A list of lengths; empty where it was left out.
    #[must_use]
    pub fn lengths(&self, name: &str) -> Vec<Length> {
        match self.given.get(name) {
            Some(Value::List(list)) => list.iter().filter_map(|quantity| Length::try_from(*quantity).ok()).collect(),
            _ => Vec::new(),
        }
    }

    /// The rows of a table; empty where it was left out.
    #[must_use]
    pub fn rows(&self, name: &str) -> &[BTreeMap<String, Value>] {
        match self.given.get(name) {
            Some(Value::Rows(rows)) => rows,
            _ => &[],
        }
    }

    // ---- results -----------------------------------------------------------------------------

    fn output(&self, name: &str) -> (Show, &'static str) {
        match self.technique.output(name) {
            Some(output) => (output.show, output.label),
            None => panic!("{} writes `{name}`, which it does not declare", self.technique.name),
        }
    }

    /// Works a result out by a rule over inputs and earlier results, and records the working.
    ///
    /// # Errors
    /// Where the rule has no value, or does not yield what the output declares.
    ///
    /// # Panics
    /// Where the technique does not declare the output (a slip in its definition).
    pub fn reckon(&mut self, name: &str, rule: &str) -> Result<Quantity, Stop> {
        let formula = Formula::parse(rule)?;
        let value = formula.eval(self)?;
        let (show, label) = self.output(name);
        let filled = self.filled(&formula);
        self.answer.working.push(Line {
            name: name.to_string(),
            label: label.to_string(),
            rule: formula.worded(),
            formula: Some(formula.text().to_string()),
            filled,
            value: Some((value, show)),
        });
        self.store(name, Outcome::One(value), show);
        Ok(value)
    }

    fn filled(&self, formula: &Formula) -> Printed {
        let show_name = |pick: fn(Printed) -> String| {
            move |name: &str| {
                let value = Env::get(self, name)?;
                Some(pick(precise(value, self.show_of(name, value))))
            }
        };
        Printed {
            imperial: formula.filled(&show_name(|printed| printed.imperial)),
            metric: formula.filled(&show_name(|printed| printed.metric)),
            plain: formula.filled(&show_name(|printed| printed.plain)),
        }
    }

    fn show_of(&self, name: &str, value: Quantity) -> Show {
        self.technique
            .output(name)
            .map(|output| output.show)
            .or_else(|| self.technique.input(name).map(|input: &Input| input.show))
            .unwrap_or_else(|| Show::usual(value))
    }

    /// Writes a result that no formula gives, with the rule in words.
    ///
    /// # Panics
    /// Where the technique does not declare the output (a slip in its definition).
    pub fn put(&mut self, name: &str, value: impl Into<Quantity>, rule: impl Into<String>) {
        let value = value.into();
        let (show, label) = self.output(name);
        let rule = rule.into();
        self.answer.working.push(Line {
            name: name.to_string(),
            label: label.to_string(),
            filled: Printed { imperial: rule.clone(), metric: rule.clone(), plain: rule.clone() },
            rule,
            formula: None,
            value: Some((value, show)),
        });
        self.store(name, Outcome::One(value), show);
    }

    /// Writes a result that is a list, with the rule in words.
    ///
    /// # Panics
    /// Where the technique does not declare the output (a slip in its definition).
    pub fn put_list<T: Into<Quantity>>(&mut self, name: &str, list: Vec<T>, rule: impl Into<String>) {
        let (show, _) = self.output(name);
        self.store(name, Outcome::List(list.into_iter().map(Into::into).collect()), show);
        self.say(name, rule);
    }

    /// Writes a result that is a word.
    ///
    /// # Panics
    /// Where the technique does not declare the output (a slip in its definition).
    pub fn put_word(&mut self, name: &str, word: impl Into<String>) {
        let (show, _) = self.output(name);
        self.store(name, Outcome::Word(word.into()), show);
    }

    /// Writes a result that is a table.
    ///
    /// # Panics
    /// Where the technique does not declare the output (a slip in its definition).
    pub fn put_table(&mut self, name: &str, table: Table) {
        let (show, _) = self.output(name);
        self.store(name, Outcome::Table(table), show);
    }

    fn store(&mut self, name: &str, outcome: Outcome, show: Show) {
        self.answer.results.retain(|(result, ..)| result != name);
        self.answer.results.push((name.to_string(), outcome, show));
    }

    /// A remark in the working.
    pub fn say(&mut self, name: &str, remark: impl Into<String>) {
        let remark = remark.into();
        let label = self.technique.output(name).map_or("", |output| output.label);
        self.answer.working.push(Line {
            name: String::new(),
            label: label.to_string(),
            filled: Printed { imperial: remark.clone(), metric: remark.clone(), plain: remark.clone() },
            rule: remark,
            formula: None,
            value: None,
        });
    }

    /// What a teacher at the maker's elbow would say; `code` is a short name in kebab-case.
    pub fn advise(&mut self, code: &str, message: impl Into<String>) {
        self.answer.advice.push(Advice { code: code.to_string(), message: message.into() });
    }

    // ---- out of reach ------------------------------------------------------------------------

    /// Says that what is asked cannot be had, and by how much.
    pub fn out_of_reach(&mut self, message: impl Into<String>) {
        self.answer.out_of_reach = Some(message.into());
    }

    /// Tries the technique with some inputs changed; where that is within reach, it becomes a
    /// proposal. `cost` says how large the change is, as a share of the old value; `shown` names the
    /// results to show with it. Returns whether it helped.
    pub fn propose(&mut self, change: &str, inputs: &[(&str, Value)], cost: f64, shown: &[&str]) -> bool {
        if !self.propose {
            return false;
        }
        let mut values = self.given.explicit();
        for (name, value) in inputs {
            values.insert((*name).to_string(), value.clone());
        }
        let Ok(given) = Given::check(self.technique, values) else { return false };
        let Ok(answer) = Work::run(self.technique, given, false) else { return false };
        if answer.out_of_reach.is_some() {
            return false;
        }
        let results = shown
            .iter()
            .filter_map(|name| {
                let (_, outcome, show) = answer.results.iter().find(|(result, ..)| result == name)?;
                Some(((*name).to_string(), outcome_printed(outcome, *show)?))
            })
            .collect();
        let inputs = inputs.iter().map(|(name, value)| ((*name).to_string(), self.written(name, value))).collect();
        self.answer.proposals.push(Proposal { change: change.to_string(), inputs, results, cost });
        true
    }

    /// A value as it would stand in the garment file.
    fn written(&self, name: &str, value: &Value) -> String {
        match value {
            Value::Quantity(quantity) => written_quantity(*quantity, self.show_of(name, *quantity)),
            Value::Flag(flag) => if *flag { "yes" } else { "no" }.to_string(),
            Value::Word(word) => word.clone(),
            Value::List(list) => {
                let all: Vec<String> = list.iter().map(|q| written_quantity(*q, Show::usual(*q))).collect();
                all.join(", ")
            }
            Value::Rows(rows) => {
                let Some(Kind::Rows(columns)) = self.technique.input(name).map(|input| input.kind) else {
                    return String::new();
                };
                let cell = |row: &BTreeMap<String, Value>, column: &Input| match row.get(column.name) {
                    Some(Value::Quantity(quantity)) => written_quantity(*quantity, column.show),
                    Some(Value::Word(word)) => word.clone(),
                    _ => String::new(),
                };
                let row = |row: &BTreeMap<String, Value>| {
                    columns.iter().map(|column| cell(row, column)).collect::<Vec<_>>().join(":")
                };
                rows.iter().map(row).collect::<Vec<_>>().join(", ")
            }
        }
    }
}

/// A quantity as it would stand in the garment file: as printed where that says it exactly, else in
/// decimals of its base unit, so that what is copied out is what was worked through.
fn written_quantity(quantity: Quantity, show: Show) -> String {
    let printed = print(quantity, show);
    for text in [printed.plain, printed.metric] {
        let text = text.replace("\u{a0}:\u{a0}1", "").replace('\u{a0}', " ");
        let same = |read: Quantity| {
            read.dim == quantity.dim && (read.value - quantity.value).abs() <= 1e-9 * quantity.value.abs().max(1.0)
        };
        if parse_literal(&text).is_ok_and(same) {
            return text;
        }
    }
    let unit = quantity.dim.unit();
    let number = decimal(quantity.value, 4);
    if unit.is_empty() { number } else { format!("{number} {unit}") }
}
