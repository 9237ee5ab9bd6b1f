//! A page of the manual for a technique, made from its definition, as Markdown.

use std::collections::BTreeMap;

use super::answer::{Answer, Outcome};
use super::given::{Given, InputFault, Value, kind_words, parse_value};
use super::technique::{Input, Kind, Need, Technique};
use super::text::{ROUNDS, command, in_order, outcome_words, rounds, value_words, working};
use super::words::way_printed;
use crate::formula::Env;
use crate::units::{Quantity, Systems};

/// The example knows no other names.
struct Nothing;

impl Env for Nothing {
    fn get(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn known(&self) -> Vec<String> {
        Vec::new()
    }
}

/// Works a technique's example through.
///
/// # Errors
/// Where the example does not satisfy the definition (a slip in the technique).
pub fn example(technique: &'static Technique) -> Result<Answer, Vec<InputFault>> {
    let mut values: BTreeMap<String, Value> = BTreeMap::new();
    for (name, text) in technique.example {
        let input = technique.input(name).ok_or_else(|| vec![InputFault::new(*name, "there is no such input")])?;
        values.insert((*name).to_string(), parse_value(input, text, &Nothing).map_err(|fault| vec![fault])?);
    }
    technique.answer(Given::check(technique, values)?).map_err(|fault| vec![fault])
}

/// The whole manual: every technique, with a list of them first.
#[must_use]
pub fn whole() -> String {
    let mut out = String::from(
        "# The techniques\n\nWhat `furbelow reckon` answers at the table, and what the `construction` entries of a garment file can \
         ask for. This file is made by the tool from the definitions of the techniques.\n\n",
    );
    for technique in super::TECHNIQUES {
        out.push_str(&format!("- [`{0}`](#{0}): {1}\n", technique.name, technique.summary));
    }
    for technique in super::TECHNIQUES {
        out.push_str(&format!("\n<a id=\"{}\"></a>\n\n", technique.name));
        out.push_str(page(technique).trim_end());
        out.push('\n');
    }
    out
}

/// The page of one technique.
#[must_use]
pub fn page(technique: &'static Technique) -> String {
    let mut out = format!("# {}\n\n`{}`: {}\n\n", technique.title, technique.name, technique.summary);
    for paragraph in technique.detail.split("\n\n") {
        out.push_str(&format!("{paragraph}\n\n"));
    }
    out.push_str(&needs(technique.inputs));
    out.push_str(&answers(technique));
    out.push_str(&worked(technique));
    out
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\u{a0}', " ")
}

fn needs(inputs: &[Input]) -> String {
    let mut out = "## What it needs\n\n".to_string();
    out.push_str(&inputs_table(inputs));
    for input in inputs {
        if let Kind::Rows(columns) = input.kind {
            let names: Vec<&str> = columns.iter().map(|column| column.name).collect();
            out.push_str(&format!(
                "Each row of `{}` has these; at the table they are written `{}`, \
                                   with commas between rows.\n\n",
                input.name,
                names.join(":")
            ));
            out.push_str(&inputs_table(columns));
        }
    }
    out
}

fn inputs_table(inputs: &[Input]) -> String {
    let mut out = "| Input | What it is | Takes | Left out |\n|---|---|---|---|\n".to_string();
    for input in inputs {
        let left_out = match input.need {
            Need::Required => "it must be given".to_string(),
            Need::Optional => "done without".to_string(),
            Need::Default(formula, why) => format!("`{formula}`: {why}"),
        };
        let takes = match input.kind {
            Kind::Rows(_) => "rows, see below".to_string(),
            kind => kind_words(kind),
        };
        out.push_str(&format!("| `{}` | {} | {} | {} |\n", input.name, cell(input.doc), cell(&takes), cell(&left_out)));
    }
    out.push('\n');
    out
}

fn answers(technique: &Technique) -> String {
    let mut out = "## What it answers\n\n| Result | What it is | Printed |\n|---|---|---|\n".to_string();
    for output in technique.outputs {
        let mut label = output.label.to_string();
        if !output.when.is_empty() {
            label.push_str(&format!(" ({})", output.when));
        }
        out.push_str(&format!("| `{}` | {} | {} |\n", output.name, cell(&label), way_printed(output.show)));
    }
    out.push('\n');
    out
}

fn worked(technique: &'static Technique) -> String {
    let mut out = format!("## Worked example\n\n```\n{}\n```\n\n", command(technique).replace('\u{a0}', " "));
    let answer = match example(technique) {
        Ok(answer) => answer,
        Err(faults) => {
            for fault in faults {
                out.push_str(&format!("The example does not work: {fault}\n\n"));
            }
            return out;
        }
    };
    let systems = Systems::ImperialFirst;
    if let Some(why) = &answer.out_of_reach {
        out.push_str(&format!("Out of reach: {why}.\n\n"));
    }
    out.push_str("| Result | |\n|---|---|\n");
    for (label, outcome, show) in in_order(&answer, technique) {
        if let Some(words) = outcome_words(outcome, show, systems) {
            out.push_str(&format!("| {} | {} |\n", cell(label), cell(&words)));
        }
    }
    out.push('\n');
    out.push_str(&tables(technique, &answer, systems));
    out.push_str("The working:\n\n");
    for line in &answer.working {
        out.push_str(&format!("- {}\n", working(line, systems).replace('\u{a0}', " ")));
    }
    if rounds(&answer.working) {
        out.push_str(&format!("\n{ROUNDS}\n"));
    }
    out.push('\n');
    if !answer.advice.is_empty() {
        out.push_str("Look out:\n\n");
        for advice in &answer.advice {
            out.push_str(&format!("- {}\n", advice.message));
        }
        out.push('\n');
    }
    out
}

fn tables(technique: &Technique, answer: &Answer, systems: Systems) -> String {
    let mut out = String::new();
    for (label, outcome, _) in in_order(answer, technique) {
        let Outcome::Table(table) = outcome else { continue };
        let heads: Vec<String> = table.columns.iter().map(|(head, _)| cell(head)).collect();
        out.push_str(&format!("Table: {label}\n\n| {} |\n|{}\n", heads.join(" | "), "---|".repeat(heads.len())));
        for row in &table.rows {
            let cells: Vec<String> = table
                .columns
                .iter()
                .zip(row)
                .map(|((_, show), value)| cell(&value_words(value, *show, systems)))
                .collect();
            out.push_str(&format!("| {} |\n", cells.join(" | ")));
        }
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{example, page};
    use crate::reckon::TECHNIQUES;

    #[test]
    fn every_page_has_its_inputs_outputs_and_example() {
        for technique in TECHNIQUES {
            let page = page(technique);
            for input in technique.inputs {
                assert!(page.contains(&format!("| `{}` | ", input.name)), "{}: {}", technique.name, input.name);
            }
            for output in technique.outputs {
                assert!(page.contains(&format!("| `{}` | ", output.name)), "{}: {}", technique.name, output.name);
            }
            assert!(!page.contains("does not work"), "{}: {:?}", technique.name, example(technique).err());
            assert!(page.contains("The working:"), "{}", technique.name);
        }
    }

    #[test]
    fn tables_of_markdown_have_even_rows() {
        for technique in TECHNIQUES {
            let mut columns = None;
            for line in page(technique).lines() {
                let bars = line.replace("\\|", "").matches('|').count();
                if !line.starts_with('|') {
                    columns = None;
                } else if let Some(before) = columns {
                    assert_eq!(bars, before, "{}: {line}", technique.name);
                } else {
                    columns = Some(bars);
                }
            }
        }
    }
}
