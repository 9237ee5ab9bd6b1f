//! Names: their form, and that no two things have the same.

use std::collections::BTreeMap;

use crate::fault::{Code, Fault, Place, Route};
use crate::shape::GarmentShape;

/// How many sizes a garment may have.
pub const MAX_SIZES: usize = 24;
/// How many names a part of the file may have.
const MAX_NAMES: usize = 1000;
/// How long a name may be.
const MAX_NAME: usize = 48;
/// Words that formulas use themselves.
const RESERVED: [&str; 5] = ["body", "ease", "size", "if", "not"];

/// Whether a name is letters, digits and underscores, beginning with a letter.
#[must_use]
pub fn is_name(name: &str) -> bool {
    let mut chars = name.chars();
    chars.next().is_some_and(char::is_alphabetic)
        && chars.all(|c| c.is_alphanumeric() || c == '_')
        && name.len() <= MAX_NAME
}

/// Checks the names of everything a formula can see. False where there are too many to go on with.
pub(super) fn check_names(shape: &GarmentShape, faults: &mut Vec<Fault>) -> bool {
    let mut few = true;
    let top = Route::top();
    let mut seen: BTreeMap<&str, Route> = BTreeMap::new();
    let sections: [(&str, Vec<&String>); 6] = [
        ("measurements", shape.sizes.measurements.keys().collect()),
        ("cloths", shape.cloths.keys().collect()),
        ("swatches", shape.swatches.keys().collect()),
        ("numbers", shape.numbers.keys().collect()),
        ("construction", shape.construction.keys().collect()),
        ("pieces", shape.pieces.keys().collect()),
    ];
    for (section, names) in sections {
        let home = if section == "measurements" { top.key("sizes").key(section) } else { top.key(section) };
        if names.len() > MAX_NAMES {
            let message = format!("expected at most {MAX_NAMES} names under `{section}`, but found {}", names.len());
            faults.push(Fault::new(Code::TooMuch, Place::Key(home), message).help("split the garment into two"));
            few = false;
            continue;
        }
        for name in names {
            let route = home.key(name.as_str());
            let place = Place::Key(route.clone());
            if !is_name(name) {
                let message = format!("`{name}` is not a name");
                let help = "a name is letters, digits and underscores, begins with a letter, and has at most 48 characters: `skirt_panel`";
                faults.push(Fault::new(Code::BadName, place, message).help(help));
                continue;
            }
            if RESERVED.contains(&name.as_str()) {
                let message = format!("`{name}` is a word that formulas use themselves");
                faults.push(Fault::new(Code::BadName, place, message).help("choose another name"));
                continue;
            }
            if let Some(first) = seen.get(name.as_str()) {
                let message = format!("two things are called `{name}`");
                let fault = Fault::new(Code::BadName, place, message).also(Place::Key(first.clone()), "the other one");
                faults.push(fault.help("formulas name both alike: give one of them another name"));
                continue;
            }
            seen.insert(name, route);
        }
    }
    few
}
