//! Construction entries: a technique and what feeds each of its inputs.

use std::collections::BTreeMap;

use super::formulas::formula_fault;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::Formula;
use crate::reckon::{Input, Kind, Need, TECHNIQUES, Technique, technique};
use crate::shape::{Expr, GarmentShape, InputShape};

/// A construction entry with its formulas read.
#[derive(Clone)]
pub struct Construction {
    /// Its name.
    pub name: String,
    /// Its technique.
    pub technique: &'static Technique,
    /// What feeds each input.
    pub inputs: BTreeMap<String, Fed>,
    /// The swatch whose measurements feed the `swatch_` inputs.
    pub swatch: Option<String>,
    /// Where it stands.
    pub route: Route,
}

/// What feeds an input.
#[derive(Debug, Clone, PartialEq)]
pub enum Fed {
    /// A formula.
    Formula(Formula),
    /// Formulas, for a list.
    List(Vec<Formula>),
    /// Rows; each cell is a formula or a word.
    Rows(Vec<BTreeMap<String, Fed>>),
    /// A word, or yes or no.
    Word(String),
}

impl Construction {
    /// Every formula in it, with its route.
    #[must_use]
    pub fn formulas(&self) -> Vec<(Route, &Formula)> {
        let mut found = Vec::new();
        for (name, fed) in &self.inputs {
            collect(&self.route.key(name.as_str()), fed, &mut found);
        }
        found
    }
}

fn collect<'a>(route: &Route, fed: &'a Fed, found: &mut Vec<(Route, &'a Formula)>) {
    match fed {
        Fed::Formula(formula) => found.push((route.clone(), formula)),
        Fed::List(list) => found.extend(list.iter().enumerate().map(|(index, formula)| (route.index(index), formula))),
        Fed::Rows(rows) => {
            for (index, row) in rows.iter().enumerate() {
                for (key, cell) in row {
                    collect(&route.index(index).key(key.as_str()), cell, found);
                }
            }
        }
        Fed::Word(_) => {}
    }
}

pub(super) fn check_construction(shape: &GarmentShape, faults: &mut Vec<Fault>) -> Vec<Construction> {
    let home = Route::top().key("construction");
    shape
        .construction
        .iter()
        .filter_map(|(name, entry)| {
            let route = home.key(name.as_str());
            let technique = find_technique(entry.get("technique"), &route, faults)?;
            let mut inputs = BTreeMap::new();
            let mut swatch = None;
            for (key, value) in entry {
                let at = route.key(key.as_str());
                if key == "technique" {
                    continue;
                }
                if key == "swatch" && technique.input("swatch").is_none() {
                    swatch = find_swatch(shape, technique, value, &at, faults);
                    continue;
                }
                let Some(input) = technique.input(key) else {
                    let known: Vec<&str> = technique.inputs.iter().map(|input| input.name).collect();
                    let message = format!("`{}` has no input `{key}`", technique.name);
                    faults.push(Fault::new(Code::UnknownKey, Place::Key(at), message).help(did_you_mean(key, &known)));
                    continue;
                };
                if let Some(fed) = feed(input, value, &at, faults) {
                    inputs.insert(key.clone(), fed);
                }
            }
            missing_inputs(technique, entry, swatch.is_some(), &route, faults);
            Some(Construction { name: name.clone(), technique, inputs, swatch, route })
        })
        .collect()
}

fn find_technique(value: Option<&InputShape>, route: &Route, faults: &mut Vec<Fault>) -> Option<&'static Technique> {
    let known: Vec<&str> = TECHNIQUES.iter().map(|technique| technique.name).collect();
    match value {
        Some(InputShape::One(Expr(name))) => {
            let found = technique(name);
            if found.is_none() {
                let message = format!("no technique is called `{name}`");
                faults.push(
                    Fault::new(Code::UnknownName, route.key("technique"), message).help(did_you_mean(name, &known)),
                );
            }
            found
        }
        _ => {
            let fault = Fault::new(Code::MissingKey, Place::Key(route.clone()), "this entry names no technique");
            faults.push(fault.help("add `technique:` with one of those that `furbelow reckon` lists"));
            None
        }
    }
}

fn find_swatch(
    shape: &GarmentShape,
    technique: &Technique,
    value: &InputShape,
    at: &Route,
    faults: &mut Vec<Fault>,
) -> Option<String> {
    let known: Vec<&str> = shape.swatches.keys().map(String::as_str).collect();
    let InputShape::One(Expr(name)) = value else {
        faults.push(Fault::new(Code::WrongType, at, "expected the name of one swatch").help(did_you_mean("", &known)));
        return None;
    };
    if !technique.inputs.iter().any(|input| input.name.starts_with("swatch_")) {
        let message = format!("`{}` takes no swatch", technique.name);
        faults.push(Fault::new(Code::UnknownKey, Place::Key(at.clone()), message));
        return None;
    }
    if !shape.swatches.contains_key(name) {
        let message = format!("no swatch is called `{name}`");
        faults.push(Fault::new(Code::UnknownName, at, message).help(did_you_mean(name, &known)));
        return None;
    }
    Some(name.clone())
}

fn missing_inputs(
    technique: &Technique,
    entry: &indexmap::IndexMap<String, InputShape>,
    has_swatch: bool,
    route: &Route,
    faults: &mut Vec<Fault>,
) {
    for input in technique.inputs {
        let fed = entry.contains_key(input.name) || (has_swatch && input.name.starts_with("swatch_"));
        if input.need == Need::Required && !fed {
            let message = format!("`{}` needs `{}`", technique.name, input.name);
            let help = format!("add `{}:`, {}", input.name, input.doc);
            faults.push(Fault::new(Code::MissingKey, Place::Key(route.clone()), message).help(help));
        }
    }
}

fn feed(input: &Input, value: &InputShape, at: &Route, faults: &mut Vec<Fault>) -> Option<Fed> {
    let mut formula = |at: &Route, text: &str| match Formula::parse(text) {
        Ok(formula) => Some(formula),
        Err(fault) => {
            faults.push(formula_fault(at, &fault));
            None
        }
    };
    match (input.kind, value) {
        (Kind::Quantity(_) | Kind::Count, InputShape::One(expr)) => formula(at, expr.text()).map(Fed::Formula),
        (Kind::List(_), InputShape::One(expr)) => formula(at, expr.text()).map(|one| Fed::List(vec![one])),
        (Kind::List(_), InputShape::List(list)) => list
            .iter()
            .enumerate()
            .map(|(index, expr)| formula(&at.index(index), expr.text()))
            .collect::<Option<Vec<_>>>()
            .map(Fed::List),
        (Kind::Flag | Kind::Choice(_) | Kind::Words, InputShape::One(expr)) => Some(Fed::Word(expr.text().to_string())),
        (Kind::Rows(columns), InputShape::Rows(rows)) => {
            let mut all = Vec::new();
            for (index, row) in rows.iter().enumerate() {
                let mut cells = BTreeMap::new();
                for (key, expr) in row {
                    let cell_at = at.index(index).key(key.as_str());
                    let Some(column) = columns.iter().find(|column| column.name == key) else {
                        let known: Vec<&str> = columns.iter().map(|column| column.name).collect();
                        let message = format!("rows of `{}` have no `{key}`", input.name);
                        faults.push(
                            Fault::new(Code::UnknownKey, Place::Key(cell_at), message).help(did_you_mean(key, &known)),
                        );
                        continue;
                    };
                    if let Some(fed) = feed(column, &InputShape::One(expr.clone()), &cell_at, faults) {
                        cells.insert(key.clone(), fed);
                    }
                }
                all.push(cells);
            }
            Some(Fed::Rows(all))
        }
        (Kind::Rows(_), InputShape::List(list)) if list.is_empty() => Some(Fed::Rows(Vec::new())),
        (kind, _) => {
            let message = format!("expected {} for `{}`", crate::reckon::kind_words(kind), input.name);
            faults.push(Fault::new(Code::WrongType, at, message).help(format!("it is {}", input.doc)));
            None
        }
    }
}
