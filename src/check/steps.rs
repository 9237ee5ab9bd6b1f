//! Steps: identities, pieces named, figures asked for.

use std::collections::BTreeMap;

use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::GarmentShape;

use super::names::is_name;

/// How many steps a booklet may have.
const MAX_STEPS: usize = 200;

pub(super) fn check_steps(shape: &GarmentShape, faults: &mut Vec<Fault>) {
    let home = Route::top().key("steps");
    if shape.steps.is_empty() {
        faults.push(
            Fault::new(Code::MissingKey, &home, "a garment needs at least one step").help("add one under `steps`"),
        );
    }
    if shape.steps.len() > MAX_STEPS {
        let message = format!("expected at most {MAX_STEPS} steps, but found {}", shape.steps.len());
        faults.push(Fault::new(Code::TooMuch, &home, message).help("split the garment into two"));
    }
    let known: Vec<&str> = shape.pieces.keys().map(String::as_str).collect();
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (index, step) in shape.steps.iter().enumerate() {
        let route = home.index(index);
        if let Some(id) = &step.id {
            if !is_name(id) {
                let message = format!("`{id}` is not a name");
                faults.push(
                    Fault::new(Code::BadName, route.key("id"), message)
                        .help("letters, digits and underscores, beginning with a letter"),
                );
            }
            if let Some(first) = seen.insert(id, index) {
                let fault = Fault::new(Code::BadName, route.key("id"), format!("two steps are called `{id}`"));
                faults.push(
                    fault.also(home.index(first).key("id"), "the other one").help("give one of them another name"),
                );
            }
        }
        if step.title.trim().is_empty() {
            faults.push(
                Fault::new(Code::BadValue, route.key("title"), "this step has no title")
                    .help("say what is done, in a few words"),
            );
        }
        if step.prose.trim().is_empty() {
            faults.push(
                Fault::new(Code::BadValue, Place::Key(route.key("prose")), "this step has no words")
                    .help("say how it is done, or leave the step out"),
            );
        }
        for (at, piece) in step.pieces.iter().enumerate() {
            if !shape.pieces.contains_key(piece) {
                let message = format!("no piece is called `{piece}`");
                let place: Place = route.key("pieces").index(at).into();
                faults.push(Fault::new(Code::UnknownName, place, message).help(did_you_mean(piece, &known)));
            }
        }
    }
}
