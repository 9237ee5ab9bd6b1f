//! Techniques and answers as text for a terminal of 80 columns.

use std::collections::BTreeMap;

use super::TECHNIQUES;
use super::answer::{Answer, Line, Outcome, Proposal, Table};
use super::given::{Value, kind_words};
use super::technique::{Input, Kind, Need, Technique};
use super::text_wrap::{entry, rows, wrap};
use super::words::{honest, precise, way_printed};
use crate::units::{Show, Systems, print};

/// Every technique with its one sentence.
#[must_use]
pub fn list() -> String {
    let mut out = String::new();
    let width = TECHNIQUES.iter().map(|technique| technique.name.len()).max().unwrap_or(0);
    for technique in TECHNIQUES {
        out.push_str(&entry(&format!("{:width$}  ", technique.name), technique.summary, 0));
    }
    out.push_str("\n`furbelow reckon TECHNIQUE` lists what a technique needs.\n");
    out
}

/// What a technique needs and what it answers.
#[must_use]
pub fn inputs(technique: &Technique) -> String {
    let mut out = format!("{}\n", technique.title);
    out.push_str(&wrap(technique.summary, 0, 0));
    out.push_str("\nNeeds\n");
    for input in technique.inputs {
        out.push_str(&input_text(input, 2));
    }
    out.push_str("\nAnswers\n");
    let width = technique.outputs.iter().map(|output| output.name.len()).max().unwrap_or(0);
    for output in technique.outputs {
        let mut words = format!("{}; {}", output.label, way_printed(output.show));
        if !output.when.is_empty() {
            words.push_str(&format!("; {}", output.when));
        }
        out.push_str(&entry(&format!("  {:width$}  ", output.name), &words, 0));
    }
    out.push_str("\nFor example\n");
    out.push_str(&entry("  ", &command(technique), 2));
    out
}

fn input_text(input: &Input, indent: usize) -> String {
    let need = match input.need {
        Need::Required => String::new(),
        Need::Optional => ", may be left out".to_string(),
        Need::Default(formula, _) => format!(", left out it is {formula}"),
    };
    let mut out = wrap(&format!("{} ({}{need})", input.name, kind_words(input.kind)), indent, indent + 4);
    let mut doc = input.doc.to_string();
    if let Need::Default(_, why) = input.need {
        doc.push_str(&format!(". Default: {why}"));
    }
    out.push_str(&wrap(&doc, indent + 4, indent + 4));
    if let Kind::Rows(columns) = input.kind {
        let names: Vec<&str> = columns.iter().map(|column| column.name).collect();
        out.push_str(&wrap(&format!("rows as {}, with commas between rows:", names.join(":")), indent + 4, indent + 4));
        for column in columns {
            out.push_str(&input_text(column, indent + 6));
        }
    }
    out
}

/// The command that works the example; its gaps do not break inside a value of ordinary length.
pub(super) fn command(technique: &Technique) -> String {
    let mut out = format!("furbelow reckon {}", technique.name);
    for (name, value) in technique.example {
        let value = if value.len() > 40 { (*value).to_string() } else { value.replace(' ', "\u{a0}") };
        let quotes = if value.chars().all(|c| c.is_ascii_alphanumeric() || "-_.".contains(c)) { "" } else { "'" };
        out.push_str(&format!(" {name}={quotes}{value}{quotes}"));
    }
    out
}

/// An answer: results, working, warnings, and what to do where it is out of reach.
#[must_use]
pub fn answer(answer: &Answer, technique: &Technique, systems: Systems) -> String {
    let mut out = format!("{}\n", technique.title);
    if let Some(why) = &answer.out_of_reach {
        out.push_str("\nOut of reach\n");
        out.push_str(&wrap(why, 2, 2));
        out.push_str(&proposals(&answer.proposals, technique, systems));
    }
    out.push_str("\nFrom\n");
    out.push_str(&rows(&given(answer, technique, systems)));
    out.push_str("\nResults\n");
    out.push_str(&results(answer, technique, systems));
    if !answer.working.is_empty() {
        out.push_str("\nWorking\n");
        for line in &answer.working {
            out.push_str(&wrap(&working(line, systems), 2, 6));
        }
        if rounds(&answer.working) {
            out.push_str(&wrap(ROUNDS, 2, 2));
        }
    }
    if !answer.advice.is_empty() {
        out.push_str("\nLook out\n");
        for advice in &answer.advice {
            out.push_str(&entry("  - ", &advice.message, 0));
        }
    }
    out
}

/// What the working's words for rounding mean.
pub(super) const ROUNDS: &str = "(floor: rounded down, ceil: rounded up, round: to the nearest; to a whole number, or \
                                 to a multiple of the second number.)";

/// Whether the working rounds anywhere.
pub(super) fn rounds(working: &[Line]) -> bool {
    working.iter().any(|line| ["floor(", "ceil(", "round("].iter().any(|word| line.rule.contains(word)))
}

fn given(answer: &Answer, technique: &Technique, systems: Systems) -> Vec<(String, String)> {
    answer
        .inputs
        .iter()
        .map(|(name, value, show, assumed)| {
            let mut words = match (value, technique.input(name).map(|input| input.kind)) {
                (Value::Rows(rows), Some(Kind::Rows(columns))) => {
                    rows.iter().map(|row| row_words(row, columns, systems)).collect::<Vec<_>>().join("; ")
                }
                (value, _) => value_words(value, *show, systems),
            };
            if *assumed {
                words.push_str(" (by default)");
            }
            (name.replace('_', " "), words)
        })
        .collect()
}

fn row_words(row: &BTreeMap<String, Value>, columns: &[Input], systems: Systems) -> String {
    let cell = |column: &Input| {
        let words = value_words(row.get(column.name)?, column.show, systems);
        Some(if matches!(column.kind, Kind::Words) {
            words
        } else {
            format!("{} {words}", column.name.replace('_', " "))
        })
    };
    columns.iter().filter_map(cell).collect::<Vec<_>>().join(", ")
}

/// A value in words.
pub(super) fn value_words(value: &Value, show: Show, systems: Systems) -> String {
    match value {
        Value::Quantity(quantity) => honest(*quantity, show).terminal(systems),
        Value::Flag(flag) => if *flag { "yes" } else { "no" }.to_string(),
        Value::Word(word) => word.clone(),
        Value::List(list) if list.is_empty() => "none".to_string(),
        Value::List(list) => {
            list.iter().map(|quantity| honest(*quantity, show).terminal(systems)).collect::<Vec<_>>().join(", ")
        }
        Value::Rows(rows) => format!("{} rows", rows.len()),
    }
}

/// The results in the order of the definition, each with its label and the way it is shown.
pub(super) fn in_order<'a>(answer: &'a Answer, technique: &Technique) -> Vec<(&'static str, &'a Outcome, Show)> {
    let find = |name: &str| answer.results.iter().find(|(result, ..)| result == name);
    technique
        .outputs
        .iter()
        .filter_map(|output| find(output.name).map(|(_, outcome, show)| (output.label, outcome, *show)))
        .collect()
}

/// A result in one line; a table has none.
pub(super) fn outcome_words(outcome: &Outcome, show: Show, systems: Systems) -> Option<String> {
    match outcome {
        Outcome::One(quantity) => Some(value_words(&Value::Quantity(*quantity), show, systems)),
        Outcome::List(list) => Some(value_words(&Value::List(list.clone()), show, systems)),
        Outcome::Word(word) => Some(word.clone()),
        Outcome::Table(_) => None,
    }
}

fn results(answer: &Answer, technique: &Technique, systems: Systems) -> String {
    let mut out = String::new();
    let mut plain: Vec<(String, String)> = Vec::new();
    for (label, outcome, show) in in_order(answer, technique) {
        match (outcome, outcome_words(outcome, show, systems)) {
            (Outcome::Table(found), _) => {
                out.push_str(&rows(&plain));
                plain.clear();
                let gap = if out.is_empty() { "" } else { "\n" };
                out.push_str(&format!("{gap}  {}\n{}\n", capital(label), table(found, systems)));
            }
            (_, Some(words)) => plain.push((label.to_string(), words)),
            _ => {}
        }
    }
    out.push_str(&rows(&plain));
    format!("{}\n", out.trim_end().replace("\n\n\n", "\n\n"))
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

/// One line of the working: what, by which rule, with which numbers, makes how much.
pub(super) fn working(line: &Line, systems: Systems) -> String {
    let label = if line.label.is_empty() { String::new() } else { format!("{}: ", line.label) };
    let single = match systems {
        Systems::ImperialFirst | Systems::ImperialOnly => Systems::ImperialOnly,
        Systems::MetricFirst | Systems::MetricOnly => Systems::MetricOnly,
    };
    let filled = line.filled.terminal(single);
    let Some((value, show)) = line.value else { return format!("{label}{}", line.rule) };
    let printed = print(value, show).terminal(systems);
    let exact = precise(value, show).terminal(single);
    let value = if printed.starts_with(&exact) { printed } else { format!("{exact}, printed {printed}") };
    // A rule that is one name, or words, is not said twice.
    let plain = line.formula.as_ref().is_none_or(|rule| rule.chars().all(|c| c.is_alphanumeric() || c == '_'));
    if plain { format!("{label}{} = {value}", line.rule) } else { format!("{label}{} = {filled} = {value}", line.rule) }
}

fn proposals(proposals: &[Proposal], technique: &Technique, systems: Systems) -> String {
    if proposals.is_empty() {
        return wrap("No single change that was tried brings it within reach.", 2, 2);
    }
    let mut out = "\nWhat would make it work, the least change first\n".to_string();
    for (number, proposal) in proposals.iter().enumerate() {
        out.push_str(&entry(&format!("  {}. ", number + 1), &proposal.change, 0));
        let inputs: Vec<String> =
            proposal.inputs.iter().map(|(name, text)| format!("{name} = {}", text.replace(' ', "\u{a0}"))).collect();
        out.push_str(&wrap(&format!("with {}", inputs.join(", ")), 5, 7));
        let results: Vec<String> = proposal
            .results
            .iter()
            .map(|(name, printed)| {
                let label = technique.output(name).map_or(name.as_str(), |output| output.label);
                format!("{label} {}", printed.terminal(systems))
            })
            .collect();
        out.push_str(&wrap(&format!("then {}", results.join(", ")), 5, 7));
    }
    out
}

/// A table within 80 columns: both systems in each cell, else the table once in each system, else rows as
/// sentences.
fn table(table: &Table, systems: Systems) -> String {
    let fits = |text: &String| text.lines().all(|line| line.chars().count() <= super::text_wrap::COLUMNS);
    let whole = grid(table, systems);
    if fits(&whole) {
        return whole;
    }
    let (first, second) = match systems {
        Systems::ImperialFirst => (Systems::ImperialOnly, Some(Systems::MetricOnly)),
        Systems::MetricFirst => (Systems::MetricOnly, Some(Systems::ImperialOnly)),
        only => (only, None),
    };
    let mut out = grid(table, first);
    if let Some(second) = second {
        out = format!("{out}\n{}", grid(table, second));
    }
    if fits(&out) {
        return out;
    }
    table
        .rows
        .iter()
        .map(|row| {
            let cells: Vec<String> = table
                .columns
                .iter()
                .zip(row)
                .map(|((name, show), value)| format!("{name} {}", value_words(value, *show, systems)))
                .collect();
            entry("  - ", &cells.join(", "), 0)
        })
        .collect()
}

fn grid(table: &Table, systems: Systems) -> String {
    let heads = table.columns.iter().map(|(name, _)| name.clone()).collect();
    let body = table.rows.iter().map(|row| {
        table
            .columns
            .iter()
            .zip(row)
            .map(|((_, show), value)| value_words(value, *show, systems))
            .collect::<Vec<String>>()
    });
    let all: Vec<Vec<String>> = std::iter::once(heads).chain(body).collect();
    let widths: Vec<usize> = (0..table.columns.len())
        .map(|at| all.iter().filter_map(|row| row.get(at)).map(|cell| cell.chars().count()).max().unwrap_or(0))
        .collect();
    let words =
        |at: usize| table.rows.first().and_then(|row| row.get(at)).is_some_and(|value| matches!(value, Value::Word(_)));
    let mut out = String::new();
    for row in &all {
        let cells: Vec<String> = row
            .iter()
            .zip(&widths)
            .enumerate()
            .map(|(at, (cell, width))| {
                let width = *width;
                if words(at) { format!("{cell:<width$}") } else { format!("{cell:>width$}") }
            })
            .collect();
        out.push_str(format!("  {}", cells.join("  ")).replace('\u{a0}', " ").trim_end());
        out.push('\n');
    }
    out
}

#[cfg(test)]
#[path = "tests/text.rs"]
mod tests;
