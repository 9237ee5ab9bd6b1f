//! How a number came about, back to swatch, body measurement and rule.

use std::collections::BTreeSet;

use serde::Serialize;

use super::named::{Named, Origin};
use super::sized::SizedGarment;
use crate::formula::Formula;
use crate::units::Systems;

/// One line of a chain of reasons.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// How far down the chain it stands.
    pub depth: usize,
    /// The number's name.
    pub name: String,
    /// Its value in print.
    pub value: String,
    /// The rule, in words.
    pub rule: String,
    /// The rule with its numbers filled in.
    pub filled: String,
}

/// The chain of reasons of a number, itself first; a number that stands in it twice is explained once.
#[must_use]
pub fn why(sized: &SizedGarment, name: &str, systems: Systems) -> Option<Vec<Reason>> {
    sized.names.named(name)?;
    let mut reasons = Vec::new();
    walk(sized, name, 0, systems, &mut BTreeSet::new(), &mut reasons);
    Some(reasons)
}

fn walk(
    sized: &SizedGarment,
    name: &str,
    depth: usize,
    systems: Systems,
    seen: &mut BTreeSet<String>,
    reasons: &mut Vec<Reason>,
) {
    let Some(named) = sized.names.named(name) else { return };
    if !seen.insert(name.to_string()) || depth > 40 {
        return;
    }
    let Rule { rule, filled, needs } = rule(sized, named, systems);
    reasons.push(Reason {
        depth,
        name: name.to_string(),
        value: named.printed().terminal(systems).replace('\u{a0}', " "),
        rule: rule.replace('\u{a0}', " "),
        filled: filled.replace('\u{a0}', " "),
    });
    for need in needs {
        walk(sized, &need, depth + 1, systems, seen, reasons);
    }
}

/// The rule a number follows, and the names it needs.
struct Rule {
    rule: String,
    filled: String,
    needs: Vec<String>,
}

fn rule(sized: &SizedGarment, named: &Named, systems: Systems) -> Rule {
    let print = |name: &str| Some(sized.names.named(name)?.printed().terminal(single(systems)));
    let (rule, filled, needs) = match &named.origin {
        Origin::Body => ("measured on the body, from the size table".to_string(), String::new(), Vec::new()),
        Origin::Written => ("as written in the garment file".to_string(), String::new(), Vec::new()),
        Origin::Finished { measurement } => {
            let (body, ease) = (format!("body.{measurement}"), format!("ease.{measurement}"));
            if sized.names.named(&ease).is_some() {
                let filled = format!("{} + {}", print(&body).unwrap_or_default(), print(&ease).unwrap_or_default());
                ("body + ease".to_string(), filled, vec![body, ease])
            } else {
                ("the body measurement; no ease".to_string(), String::new(), vec![body])
            }
        }
        Origin::Formula { text, names } => {
            let filled = Formula::parse(text).map(|formula| formula.filled(&print)).unwrap_or_default();
            let filled = if names.is_empty() { String::new() } else { filled };
            (text.clone(), filled, names.clone())
        }
        Origin::Technique { construction, technique, line, names } => {
            let (rule, filled) = match line {
                Some(line) => (line.rule.clone(), line.filled.terminal(single(systems))),
                None => (String::new(), String::new()),
            };
            let filled = if filled == rule { String::new() } else { filled };
            let mut needs = technique_needs(sized, construction, &rule);
            needs.extend(names.clone());
            (format!("{technique}: {rule}"), filled, needs)
        }
        Origin::Fed { construction, input, names } => {
            let assumed = sized
                .answers
                .get(construction)
                .is_some_and(|answer| answer.inputs.iter().any(|(name, _, _, assumed)| name == input && *assumed));
            let words = if assumed { "left out, so the usual value" } else { "fed to the technique" };
            (words.to_string(), String::new(), if assumed { Vec::new() } else { names.clone() })
        }
        Origin::Piece { piece, names } => {
            (format!("measured on the piece `{piece}`, along the seam line"), String::new(), names.clone())
        }
    };
    Rule { rule, filled, needs }
}

/// The names a number of a size is made from, at first hand.
#[must_use]
pub fn needs(sized: &SizedGarment, name: &str) -> Vec<String> {
    sized.names.named(name).map(|named| rule(sized, named, Systems::MetricOnly).needs).unwrap_or_default()
}

/// The other results of the same entry that a rule in words speaks of.
fn technique_needs(sized: &SizedGarment, construction: &str, rule: &str) -> Vec<String> {
    let Some(answer) = sized.answers.get(construction) else { return Vec::new() };
    let rule: String = format!(" {} ", rule.replace(|c: char| !c.is_alphanumeric(), " "));
    answer
        .results
        .iter()
        .filter(|(name, ..)| rule.contains(&format!(" {} ", name.replace('_', " "))))
        .map(|(name, ..)| format!("{construction}.{name}"))
        .collect()
}

fn single(systems: Systems) -> Systems {
    match systems {
        Systems::ImperialFirst | Systems::ImperialOnly => Systems::ImperialOnly,
        Systems::MetricFirst | Systems::MetricOnly => Systems::MetricOnly,
    }
}
