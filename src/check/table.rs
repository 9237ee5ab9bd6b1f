//! The size table.

use std::collections::BTreeMap;

use indexmap::IndexMap;

use super::garment::Size;
use super::names::MAX_SIZES;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::Formula;
use crate::shape::{Expr, SizesShape};
use crate::units::{Length, Quantity, kinds, parse_literal, unit};

/// The table as read: sizes, body measurements (one length a size), and ease formulas.
pub(super) struct Table {
    pub(super) sizes: Vec<Size>,
    pub(super) body: IndexMap<String, Vec<Length>>,
    pub(super) ease: BTreeMap<String, (Route, Formula)>,
}

pub(super) fn check_table(shape: &SizesShape, faults: &mut Vec<Fault>) -> Table {
    let home = Route::top().key("sizes");
    let sizes = check_sizes(shape, &home, faults);
    let factor = match unit(&shape.unit) {
        Some(unit) if unit.dim == kinds::LENGTH => unit.factor,
        _ => {
            let message = format!("expected a unit of length, but found `{}`", shape.unit);
            faults.push(Fault::new(Code::BadValue, home.key("unit"), message).help("write `cm`, `in` or `mm`"));
            10.0
        }
    };
    let mut body = IndexMap::new();
    for (name, list) in &shape.measurements {
        let route = home.key("measurements").key(name.as_str());
        if let Some(lengths) = check_measurement(shape, &route, name, list, factor, sizes.len(), faults) {
            body.insert(name.clone(), lengths);
        }
    }
    let known: Vec<&str> = shape.measurements.keys().map(String::as_str).collect();
    let mut ease = BTreeMap::new();
    for (name, expr) in &shape.ease {
        let route = home.key("ease").key(name.as_str());
        if !shape.measurements.contains_key(name) {
            let message = format!("ease is given for `{name}`, which is not measured");
            let place = Place::Key(route.clone());
            faults.push(Fault::new(Code::UnknownName, place, message).help(did_you_mean(name, &known)));
        }
        match super::formulas::parse_at(&route, expr) {
            Ok(formula) => {
                ease.insert(name.clone(), (route, formula));
            }
            Err(fault) => faults.push(fault),
        }
    }
    for (index, name) in shape.not_growing.iter().enumerate() {
        if !shape.measurements.contains_key(name) {
            let route = home.key("not_growing").index(index);
            let message = format!("`{name}` is not measured");
            faults.push(Fault::new(Code::UnknownName, route, message).help(did_you_mean(name, &known)));
        }
    }
    for name in shape.how.keys() {
        if !shape.measurements.contains_key(name) {
            let place = Place::Key(home.key("how").key(name.as_str()));
            let message = format!("`{name}` is not measured");
            faults.push(Fault::new(Code::UnknownName, place, message).help(did_you_mean(name, &known)));
        }
    }
    Table { sizes, body, ease }
}

fn check_sizes(shape: &SizesShape, home: &Route, faults: &mut Vec<Fault>) -> Vec<Size> {
    let route = home.key("names");
    if shape.names.is_empty() {
        faults.push(
            Fault::new(Code::Sizes, &route, "the size table has no sizes").help("name at least one: `names: [M]`"),
        );
    }
    if shape.names.len() > MAX_SIZES {
        let message = format!("expected at most {MAX_SIZES} sizes, but found {}", shape.names.len());
        faults.push(Fault::new(Code::TooMuch, &route, message).help("sell the pattern in two ranges"));
    }
    let mut sizes: Vec<Size> = Vec::new();
    for (index, name) in shape.names.iter().take(MAX_SIZES).enumerate() {
        let name = name.text().trim().to_string();
        let good = !name.is_empty()
            && name.chars().count() <= 12
            && name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '+' | '.' | '_'));
        if !good {
            let message = format!("`{name}` cannot be the name of a size");
            let help =
                "a size's name is at most 12 letters, digits, `-`, `+`, `.` or `_`: it becomes part of file names";
            faults.push(Fault::new(Code::Sizes, route.index(index), message).help(help));
        } else if sizes.iter().any(|size| size.name == name) {
            let message = format!("size `{name}` stands twice");
            faults
                .push(Fault::new(Code::Sizes, route.index(index), message).help("each size once, the smallest first"));
        }
        sizes.push(Size { name, index });
    }
    sizes
}

fn check_measurement(
    shape: &SizesShape,
    route: &Route,
    name: &str,
    list: &[Expr],
    factor: f64,
    sizes: usize,
    faults: &mut Vec<Fault>,
) -> Option<Vec<Length>> {
    let count = list.len();
    if sizes == 0 {
        return None;
    }
    if count != sizes && count != 1 {
        let message = format!("expected {sizes} values for `{name}`, one for each size, but found {count}");
        faults.push(
            Fault::new(Code::Sizes, route, message)
                .help("give one value a size, in the order of `names`; one value stands for all"),
        );
        return None;
    }
    let mut lengths = Vec::new();
    for (index, expr) in list.iter().enumerate() {
        let at = route.index(index);
        match parse_literal(expr.text()) {
            Ok(quantity) => match to_length(quantity, factor) {
                Some(length) => lengths.push(length),
                None => {
                    let message = format!("expected a length of the body, but found `{}`", expr.text());
                    let help =
                        "a body measurement is more than nothing and less than 4 m; check the number and `sizes.unit`";
                    faults.push(Fault::new(Code::Absurd, at, message).help(help));
                }
            },
            Err(fault) => faults.push(
                Fault::new(Code::BadValue, at, fault.to_string()).help("write a number, or a number with its unit"),
            ),
        }
    }
    if lengths.len() != count {
        return None;
    }
    if !shape.not_growing.iter().any(|other| other == name) {
        for index in 1..lengths.len() {
            if lengths[index] < lengths[index - 1] {
                let before = &shape.names[index - 1].0;
                let message = format!("`{name}` of size {} is smaller than of size {before}", shape.names[index].0);
                let help = format!("check the number; if it is meant, add `{name}` to `sizes.not_growing`");
                faults.push(Fault::warning(Code::Grading, route.index(index), message).help(help));
            }
        }
    }
    if count == 1 {
        lengths = vec![lengths[0]; sizes.max(1)];
    }
    Some(lengths)
}

/// A bare number is in the table's unit.
fn to_length(quantity: Quantity, factor: f64) -> Option<Length> {
    let mm = match quantity.dim {
        kinds::LENGTH => quantity.value,
        kinds::NUMBER => quantity.value * factor,
        _ => return None,
    };
    (mm > 0.0 && mm < 4000.0).then(|| Length::mm(mm))
}
