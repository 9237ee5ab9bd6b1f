//! What a technique answers.

use serde::{Deserialize, Serialize};
use serde_json::json;

use super::given::Value;
use crate::units::{Printed, Quantity, Show, Systems, print};

/// A result: one quantity, a list of them, words, or a table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Outcome {
    /// One quantity.
    One(Quantity),
    /// A list of quantities, shown alike.
    List(Vec<Quantity>),
    /// Words.
    Word(String),
    /// A table.
    Table(Table),
}

/// A table of a result: strips, positions, rows to let out.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Table {
    /// The heads of the columns, each with the way its numbers are shown.
    pub columns: Vec<(String, Show)>,
    /// The rows; each as long as `columns`.
    pub rows: Vec<Vec<Value>>,
}

/// One line of the working.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// The result it makes; empty for a remark.
    pub name: String,
    /// What the result is.
    pub label: String,
    /// The rule in words: `flat ÷ (2 × stitch)`.
    pub rule: String,
    /// The rule as a formula that can be worked again, where there is one: `flat / (2 * stitch)`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub formula: Option<String>,
    /// The rule with its numbers filled in, in inches and in centimetres.
    pub filled: Printed,
    /// The value, and how it is shown.
    pub value: Option<(Quantity, Show)>,
}

/// What a teacher at the maker's elbow would say.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Advice {
    /// A short name of the matter, in kebab-case: `join-at-centre-front`.
    pub code: String,
    /// The words.
    pub message: String,
}

/// A way to bring it within reach, worked through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Proposal {
    /// What to change, in words.
    pub change: String,
    /// The inputs to change, each as it would stand in the file.
    pub inputs: Vec<(String, String)>,
    /// The main results with that change.
    pub results: Vec<(String, Printed)>,
    /// How large the change is: the share of the old value it moves; the smallest comes first.
    pub cost: f64,
}

/// The answer of a technique.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The technique.
    pub technique: String,
    /// The inputs, defaults among them (`true`), in the order of the definition.
    pub inputs: Vec<(String, Value, Show, bool)>,
    /// The results, in the order they were worked out.
    pub results: Vec<(String, Outcome, Show)>,
    /// The working.
    pub working: Vec<Line>,
    /// Advice.
    pub advice: Vec<Advice>,
    /// Where it is out of reach: by how much, in words.
    pub out_of_reach: Option<String>,
    /// Ways to bring it within reach, the least change first.
    pub proposals: Vec<Proposal>,
}

impl Answer {
    /// A result by name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Outcome> {
        self.results.iter().find(|(result, ..)| result == name).map(|(_, outcome, _)| outcome)
    }

    /// A single quantity among the results, by name.
    #[must_use]
    pub fn one(&self, name: &str) -> Option<Quantity> {
        match self.get(name)? {
            Outcome::One(quantity) => Some(*quantity),
            _ => None,
        }
    }

    /// A result as printed in both systems; tables have none.
    #[must_use]
    pub fn printed(&self, name: &str) -> Option<Printed> {
        let (_, outcome, show) = self.results.iter().find(|(result, ..)| result == name)?;
        outcome_printed(outcome, *show)
    }

    /// The answer for programs: `{technique, inputs, results: {name: {value, unit, printed}}, working,
    /// warnings, out_of_reach, proposals}`. Values are in the base unit named beside them.
    #[must_use]
    pub fn to_json(&self, systems: Systems) -> serde_json::Value {
        let inputs: serde_json::Map<_, _> = self
            .inputs
            .iter()
            .map(|(name, value, show, assumed)| {
                let mut entry = value_json(value, *show, systems);
                entry["assumed"] = json!(assumed);
                (name.clone(), entry)
            })
            .collect();
        let results: serde_json::Map<_, _> = self
            .results
            .iter()
            .map(|(name, outcome, show)| {
                let entry = match outcome {
                    Outcome::One(quantity) => value_json(&Value::Quantity(*quantity), *show, systems),
                    Outcome::List(list) => value_json(&Value::List(list.clone()), *show, systems),
                    Outcome::Word(word) => json!({ "value": word, "unit": "", "printed": word }),
                    Outcome::Table(table) => table_json(table, systems),
                };
                (name.clone(), entry)
            })
            .collect();
        let working: Vec<_> = self
            .working
            .iter()
            .map(|line| {
                json!({
                    "name": line.name,
                    "label": line.label,
                    "rule": line.rule,
                    "filled": line.filled.terminal(systems_single(systems)),
                    "printed": line.value.map(|(quantity, show)| print(quantity, show).terminal(systems)),
                })
            })
            .collect();
        let proposals: Vec<_> = self
            .proposals
            .iter()
            .map(|proposal| {
                let results: serde_json::Map<_, _> =
                    proposal.results.iter().map(|(name, p)| (name.clone(), json!(p.terminal(systems)))).collect();
                let inputs: serde_json::Map<_, _> =
                    proposal.inputs.iter().map(|(name, text)| (name.clone(), json!(text))).collect();
                json!({ "change": proposal.change, "inputs": inputs, "results": results })
            })
            .collect();
        json!({
            "technique": self.technique,
            "inputs": inputs,
            "results": results,
            "working": working,
            "warnings": self.advice,
            "out_of_reach": self.out_of_reach,
            "proposals": proposals,
        })
    }
}

/// The working names its numbers in one system only: the first of the two.
fn systems_single(systems: Systems) -> Systems {
    match systems {
        Systems::ImperialFirst | Systems::ImperialOnly => Systems::ImperialOnly,
        Systems::MetricFirst | Systems::MetricOnly => Systems::MetricOnly,
    }
}

/// An outcome in print; a list is joined with commas, a table has no one line.
#[must_use]
pub(super) fn outcome_printed(outcome: &Outcome, show: Show) -> Option<Printed> {
    match outcome {
        Outcome::One(quantity) => Some(print(*quantity, show)),
        Outcome::Word(word) => Some(Printed { imperial: word.clone(), metric: word.clone(), plain: word.clone() }),
        Outcome::List(list) => {
            let all: Vec<Printed> = list.iter().map(|quantity| print(*quantity, show)).collect();
            let join =
                |pick: fn(&Printed) -> &String| all.iter().map(|p| pick(p).as_str()).collect::<Vec<_>>().join(", ");
            Some(Printed { imperial: join(|p| &p.imperial), metric: join(|p| &p.metric), plain: join(|p| &p.plain) })
        }
        Outcome::Table(_) => None,
    }
}

fn value_json(value: &Value, show: Show, systems: Systems) -> serde_json::Value {
    match value {
        Value::Quantity(quantity) => json!({
            "value": quantity.value,
            "unit": quantity.dim.unit(),
            "printed": print(*quantity, show).terminal(systems),
        }),
        Value::Flag(flag) => json!({ "value": flag, "unit": "", "printed": if *flag { "yes" } else { "no" } }),
        Value::Word(word) => json!({ "value": word, "unit": "", "printed": word }),
        Value::List(list) => json!({
            "value": list.iter().map(|quantity| quantity.value).collect::<Vec<_>>(),
            "unit": list.first().map_or(String::new(), |quantity| quantity.dim.unit()),
            "printed": list.iter().map(|q| print(*q, show).terminal(systems)).collect::<Vec<_>>(),
        }),
        Value::Rows(rows) => {
            let rows: Vec<serde_json::Map<_, _>> = rows
                .iter()
                .map(|row| {
                    row.iter()
                        .map(|(name, value)| {
                            let show = match value {
                                Value::Quantity(quantity) => Show::usual(*quantity),
                                _ => show,
                            };
                            (name.clone(), value_json(value, show, systems))
                        })
                        .collect()
                })
                .collect();
            json!({ "value": rows, "unit": "" })
        }
    }
}

fn table_json(table: &Table, systems: Systems) -> serde_json::Value {
    let rows: Vec<serde_json::Map<_, _>> = table
        .rows
        .iter()
        .map(|row| {
            table
                .columns
                .iter()
                .zip(row)
                .map(|((name, show), value)| (name.clone(), value_json(value, *show, systems)))
                .collect()
        })
        .collect();
    json!({ "value": rows, "unit": "" })
}
