//! Working the sizes out.

use std::collections::BTreeMap;

use indexmap::IndexMap;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use serde::{Deserialize, Serialize};

use super::named::{Named, Names, Origin};
use crate::check::{Construction, Fed, Garment, Item, Size};
use crate::draft::{self, Files, Piece, Texts};
use crate::fault::{Code, Fault, Place, Route};
use crate::formula::{Env, Formula};
use crate::reckon::{Answer, Given, Outcome, Value};
use crate::units::{Quantity, Show, kinds};

/// One size of a garment: every number, every answer, every piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SizedGarment {
    /// The size's name.
    pub size: String,
    /// Every number with a name.
    pub names: Names,
    /// The answers of the techniques, by construction entry.
    pub answers: IndexMap<String, Answer>,
    /// The pieces.
    pub pieces: IndexMap<String, Piece>,
}

/// Works all sizes out; imported pieces come from the texts of `drawings`. Faults that are the same in several sizes become one, which names them.
///
/// # Errors
/// All faults of all sizes, warnings among them.
pub fn size_all(garment: &Garment, drawings: &Texts) -> (Vec<SizedGarment>, Vec<Fault>) {
    let worked: Vec<(SizedGarment, Vec<Fault>)> =
        garment.sizes.par_iter().map(|size| Sizing::run(garment, drawings, size)).collect();
    let mut sized = Vec::new();
    let mut by_size = Vec::new();
    for (one, faults) in worked {
        by_size.extend(faults.into_iter().map(|fault| (one.size.clone(), fault)));
        sized.push(one);
    }
    (sized, merge(by_size, garment.sizes.len()))
}

/// The same fault in several sizes is one fault that names the sizes.
pub(crate) fn merge(faults: Vec<(String, Fault)>, sizes: usize) -> Vec<Fault> {
    let mut merged: Vec<(Fault, Vec<String>)> = Vec::new();
    for (size, fault) in faults {
        let words = apart_from_numbers(&apart_from_size(&fault.message, &size));
        let same = merged.iter_mut().find(|(other, sizes)| {
            other.code == fault.code
                && other.place == fault.place
                && !sizes.contains(&size)
                && sizes
                    .first()
                    .is_some_and(|first| apart_from_numbers(&apart_from_size(&other.message, first)) == words)
        });
        match same {
            Some((_, list)) => list.push(size),
            None => merged.push((fault, vec![size])),
        }
    }
    merged
        .into_iter()
        .map(|(mut fault, list)| {
            if list.len() < sizes {
                let noun = if list.len() == 1 { "size" } else { "sizes" };
                fault.message = format!("{} (in {noun} {})", fault.message, list.join(", "));
            }
            fault
        })
        .collect()
}

/// A message without the name of its size, where that stands as a word of its own.
fn apart_from_size(message: &str, size: &str) -> String {
    let mut rest = message;
    let mut out = String::with_capacity(message.len());
    while let Some(at) = rest.find(size).filter(|_| !size.is_empty()) {
        let (before, after) = (&rest[..at], &rest[at + size.len()..]);
        out.push_str(before);
        if out.ends_with(char::is_alphanumeric) || after.starts_with(char::is_alphanumeric) {
            out.push_str(size);
        }
        rest = after;
    }
    out + rest
}

/// A message without its numbers: what differs from size to size.
fn apart_from_numbers(message: &str) -> String {
    message.chars().filter(|c| !(c.is_numeric() || matches!(c, '.' | '/' | ' '))).collect()
}

struct Sizing<'a> {
    garment: &'a Garment,
    drawings: &'a Texts,
    size: &'a Size,
    names: Names,
    answers: IndexMap<String, Answer>,
    pieces: BTreeMap<String, Piece>,
    faults: Vec<Fault>,
    /// Items that failed; what needs them is not reported again.
    failed: Vec<String>,
}

impl<'a> Sizing<'a> {
    fn run(garment: &'a Garment, drawings: &'a Texts, size: &'a Size) -> (SizedGarment, Vec<Fault>) {
        let mut sizing = Sizing {
            garment,
            drawings,
            size,
            names: Names::default(),
            answers: IndexMap::new(),
            pieces: BTreeMap::new(),
            faults: Vec::new(),
            failed: Vec::new(),
        };
        sizing.measurements();
        sizing.cloths();
        for item in &garment.order {
            match item {
                Item::Number(name) => sizing.number(name),
                Item::Construction(name) => sizing.construction(name),
                Item::Piece(name) => sizing.piece(name),
            }
        }
        let mut pieces = IndexMap::new();
        for name in garment.shape.pieces.keys() {
            if let Some(piece) = sizing.pieces.remove(name) {
                pieces.insert(name.clone(), piece);
            }
        }
        let sized = SizedGarment { size: size.name.clone(), names: sizing.names, answers: sizing.answers, pieces };
        (sized, sizing.faults)
    }

    fn measurements(&mut self) {
        for (name, list) in &self.garment.body {
            if let Some(length) = list.get(self.size.index) {
                let words = name.replace('_', " ");
                self.names.put(format!("body.{name}"), *length, format!("body {words}"), Origin::Body);
            }
        }
        let only_body = self.names.clone();
        for (name, list) in &self.garment.body {
            let Some(body) = list.get(self.size.index) else { continue };
            let mut finished = Quantity::from(*body);
            if let Some((route, formula)) = self.garment.ease.get(name)
                && let Some(ease) = self.eval(route, formula, &only_body)
            {
                if ease.dim == kinds::LENGTH {
                    finished.value += ease.value;
                    let origin = formula_origin(formula);
                    self.names.put(format!("ease.{name}"), ease, format!("ease of {}", name.replace('_', " ")), origin);
                } else {
                    let message = format!("expected a length of ease, but found {}", ease.dim);
                    let help = "write a unit behind the number: `2 cm`";
                    self.faults.push(Fault::new(Code::FormulaDimension, route, message).help(help));
                }
            }
            let words = name.replace('_', " ");
            self.names.put(name.clone(), finished, words, Origin::Finished { measurement: name.clone() });
        }
    }

    fn cloths(&mut self) {
        for cloth in &self.garment.cloths {
            if let Some(&narrowest) = cloth.widths.first() {
                let title = &cloth.title;
                self.names.put(
                    format!("{}.width", cloth.name),
                    narrowest,
                    format!("width of {title}"),
                    Origin::Written,
                );
                let washed = narrowest * (1.0 - cloth.shrinks_across.base());
                self.names.put(
                    format!("{}.washed", cloth.name),
                    washed,
                    format!("washed width of {title}"),
                    Origin::Written,
                );
                let label = format!("usable width of {title}");
                self.names.put(format!("{}.usable", cloth.name), cloth.usable(narrowest), label, Origin::Written);
            }
            if let Some(weight) = cloth.weight {
                self.names.put(
                    format!("{}.weight", cloth.name),
                    weight,
                    format!("weight of {}", cloth.title),
                    Origin::Written,
                );
            }
            let along = Quantity::from(cloth.shrinks_along);
            self.names.put(format!("{}.shrinks_along", cloth.name), along, "shrinkage along", Origin::Written);
            let across = Quantity::from(cloth.shrinks_across);
            self.names.put(format!("{}.shrinks_across", cloth.name), across, "shrinkage across", Origin::Written);
            for name in ["shrinks_along", "shrinks_across"] {
                if let Some(named) = self.names.0.get_mut(&format!("{}.{name}", cloth.name)) {
                    named.show = Show::PERCENT;
                }
            }
        }
        for swatch in &self.garment.swatches {
            let mut put = |part: &str, quantity: Quantity, show: Show, label: &str| {
                let named =
                    Named { quantity, show, label: format!("{}: {label}", swatch.title), origin: Origin::Written };
                self.names.0.insert(format!("{}.{part}", swatch.name), named);
            };
            put("flat", swatch.flat.into(), Show::FINE, "flat width");
            put("tight", swatch.tight.into(), Show::FINE, "width drawn up tight");
            if let Some(eased) = swatch.eased {
                put("eased", eased.into(), Show::FINE, "width eased out");
            }
            put("stitch", swatch.stitch.into(), Show::SMALL, "stitch");
            put("ratio", Quantity::number(swatch.flat / swatch.tight), Show::RATIO, "ratio drawn up tight");
        }
    }

    fn eval(&mut self, route: &Route, formula: &Formula, env: &dyn Env) -> Option<Quantity> {
        match formula.eval(env) {
            Ok(quantity) => match absurd(quantity) {
                None => Some(quantity),
                Some(message) => {
                    self.faults.push(
                        Fault::new(Code::Absurd, route, message)
                            .help("check the units and the measurements it is made of"),
                    );
                    None
                }
            },
            Err(fault) => {
                // What failed has been reported already; what needs it is not to blame.
                let blames = |name: &str| {
                    self.failed.iter().any(|failed| name == failed || name.starts_with(&format!("{failed}.")))
                };
                if !formula.names().iter().any(|(name, _)| blames(name)) {
                    self.faults.push(crate::check::formula_fault(route, &fault));
                }
                None
            }
        }
    }

    fn number(&mut self, name: &str) {
        let found = self.garment.numbers.iter().find(|number| number.name == name);
        let Some((route, formula)) = found.and_then(|number| number.formula(self.size)) else {
            self.failed.push(name.to_string());
            return;
        };
        let names = std::mem::take(&mut self.names);
        let value = self.eval(route, formula, &names);
        self.names = names;
        match value {
            Some(quantity) => self.names.put(name, quantity, name.replace('_', " "), formula_origin(formula)),
            None => self.failed.push(name.to_string()),
        }
    }

    fn construction(&mut self, name: &str) {
        let Some(entry) = self.garment.construction.iter().find(|entry| entry.name == name) else { return };
        let names = self.names.clone();
        let before = self.faults.len();
        let mut values = BTreeMap::new();
        let mut failed = false;
        for (input, fed) in &entry.inputs {
            match self.fed(&entry.route.key(input.as_str()), entry, input, fed, &names) {
                Some(value) => {
                    values.insert(input.clone(), value);
                }
                None => failed = true,
            }
        }
        if let Some(swatch) = entry.swatch.as_deref().and_then(|name| self.garment.swatch(name)) {
            let mut feed = |part: &str, length: crate::units::Length| {
                let input = format!("swatch_{part}");
                if entry.technique.input(&input).is_some() {
                    values.entry(input).or_insert(Value::Quantity(length.into()));
                }
            };
            feed("flat", swatch.flat);
            feed("tight", swatch.tight);
            if let Some(eased) = swatch.eased {
                feed("eased", eased);
            }
            feed("stitch", swatch.stitch);
        }
        if failed || self.faults.len() > before {
            self.failed.push(name.to_string());
            return;
        }
        let answer = match Given::check(entry.technique, values) {
            Ok(given) => entry.technique.answer(given).map_err(|fault| vec![fault]),
            Err(faults) => Err(faults),
        };
        match answer {
            Ok(answer) => self.keep_answer(entry, answer),
            Err(faults) => {
                for fault in faults {
                    let place = if entry.inputs.contains_key(&fault.input) {
                        Place::Value(entry.route.key(fault.input.as_str()))
                    } else {
                        Place::Key(entry.route.clone())
                    };
                    let found = Fault::new(Code::BadValue, place, fault.to_string());
                    self.faults.push(match fault.help {
                        Some(help) => found.help(help),
                        None => found,
                    });
                }
                self.failed.push(name.to_string());
            }
        }
    }

    fn keep_answer(&mut self, entry: &Construction, answer: Answer) {
        if let Some(words) = &answer.out_of_reach {
            let fault =
                Fault::new(Code::Reach, Place::Key(entry.route.clone()), format!("{}: {words}", entry.technique.title));
            let ways: Vec<String> = answer
                .proposals
                .iter()
                .map(|proposal| {
                    let inputs: Vec<String> =
                        proposal.inputs.iter().map(|(name, text)| format!("`{name}: {text}`")).collect();
                    format!("{} ({})", proposal.change, inputs.join(", "))
                })
                .collect();
            self.faults.push(if ways.is_empty() {
                fault
            } else {
                fault.help(format!("nearest ways: {}", ways.join("; or ")))
            });
        }
        for advice in &answer.advice {
            let place = Place::Key(entry.route.clone());
            let message = format!("{}: {}", entry.technique.title, advice.message);
            self.faults.push(Fault::warning(Code::Advice, place, message).label(advice.code.clone()));
        }
        let names: Vec<String> = entry
            .formulas()
            .iter()
            .flat_map(|(_, formula)| formula.names())
            .map(|(name, _)| name.to_string())
            .collect();
        for (result, outcome, show) in &answer.results {
            let Outcome::One(quantity) = outcome else { continue };
            let line = answer.working.iter().find(|line| line.name == *result).cloned().map(Box::new);
            let label = entry
                .technique
                .output(result)
                .map_or_else(|| result.replace('_', " "), |output| output.label.to_string());
            let origin = Origin::Technique {
                construction: entry.name.clone(),
                technique: answer.technique.clone(),
                line,
                names: names.clone(),
            };
            let named = Named { quantity: *quantity, show: *show, label, origin };
            self.names.0.insert(format!("{}.{result}", entry.name), named);
        }
        for (input, value, show, _) in &answer.inputs {
            let name = format!("{}.{input}", entry.name);
            let (Value::Quantity(quantity), false) = (value, self.names.0.contains_key(&name)) else { continue };
            let origin = Origin::Fed { construction: entry.name.clone(), input: input.clone(), names: names.clone() };
            let named = Named { quantity: *quantity, show: *show, label: input.replace('_', " "), origin };
            self.names.0.insert(name, named);
        }
        self.answers.insert(entry.name.clone(), answer);
    }

    fn fed(&mut self, route: &Route, entry: &Construction, input: &str, fed: &Fed, names: &Names) -> Option<Value> {
        let input = entry.technique.input(input)?;
        match fed {
            Fed::Formula(formula) => self.eval(route, formula, names).map(Value::Quantity),
            Fed::List(list) => {
                let all: Vec<Option<Quantity>> = list
                    .iter()
                    .enumerate()
                    .map(|(index, formula)| self.eval(&route.index(index), formula, names))
                    .collect();
                all.into_iter().collect::<Option<Vec<_>>>().map(Value::List)
            }
            Fed::Word(word) => self.word(route, input, word),
            Fed::Rows(rows) => {
                let crate::reckon::Kind::Rows(columns) = input.kind else { return None };
                let mut all = Vec::new();
                let mut good = true;
                for (index, row) in rows.iter().enumerate() {
                    let mut cells = BTreeMap::new();
                    for (key, cell) in row {
                        let at = route.index(index).key(key.as_str());
                        let column = columns.iter().find(|column| column.name == key)?;
                        let value = match cell {
                            Fed::Formula(formula) => self.eval(&at, formula, names).map(Value::Quantity),
                            Fed::Word(word) => self.word(&at, column, word),
                            Fed::List(_) | Fed::Rows(_) => None,
                        };
                        match value {
                            Some(value) => {
                                cells.insert(key.clone(), value);
                            }
                            None => good = false,
                        }
                    }
                    all.push(cells);
                }
                good.then_some(Value::Rows(all))
            }
        }
    }

    fn word(&mut self, route: &Route, input: &crate::reckon::Input, word: &str) -> Option<Value> {
        match crate::reckon::parse_value(input, word, &Names::default()) {
            Ok(value) => Some(value),
            Err(fault) => {
                let found = Fault::new(Code::BadValue, route, fault.message.clone());
                self.faults.push(match fault.help {
                    Some(help) => found.help(help),
                    None => found,
                });
                None
            }
        }
    }

    fn piece(&mut self, name: &str) {
        let Some(shape) = self.garment.shape.pieces.get(name) else { return };
        let used = draft::names_used(shape);
        let blames =
            |used: &str| self.failed.iter().any(|failed| used == failed || used.starts_with(&format!("{failed}.")));
        if used.iter().any(|(name, _)| blames(name)) {
            self.failed.push(name.to_string());
            return;
        }
        let route = Route::top().key("pieces").key(name);
        let files = Files { texts: self.drawings, size: &self.size.name };
        match draft::draft_with(name, shape, &route, &self.names, &self.pieces, files) {
            Ok(piece) => {
                let names: Vec<String> = used.into_iter().map(|(name, _)| name).collect();
                for (measure, quantity) in piece.measures() {
                    let label = measure.replace(['.', '_'], " ");
                    let origin = Origin::Piece { piece: name.to_string(), names: names.clone() };
                    self.names.put(measure, quantity, label, origin);
                }
                self.pieces.insert(name.to_string(), piece);
            }
            Err(faults) => {
                self.faults.extend(faults);
                self.failed.push(name.to_string());
            }
        }
    }
}

fn formula_origin(formula: &Formula) -> Origin {
    let names = formula.names().iter().map(|(name, _)| (*name).to_string()).collect();
    Origin::Formula { text: formula.text().to_string(), names }
}

/// A length of more than a kilometre, a number past all counting.
fn absurd(quantity: Quantity) -> Option<String> {
    let limit = if quantity.dim == kinds::LENGTH { 1e6 } else { 1e12 };
    let amount = match quantity.dim {
        _ if quantity.value.abs() <= limit => return None,
        kinds::LENGTH if quantity.value.abs() < 1e12 => format!("{:.1} km", quantity.value / 1e6),
        dim => format!("{:.1e} {}", quantity.value, dim.unit()),
    };
    Some(format!("this comes to {}, which no garment has", amount.trim_end()))
}
