//! The order in which numbers, construction entries and pieces need each other.

use std::collections::BTreeMap;

use serde::Serialize;

use super::garment::Garment;
use crate::fault::{Code, Fault, Place, Route};

/// Something with a name that is worked out for each size.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub enum Item {
    /// A named number.
    Number(String),
    /// A construction entry.
    Construction(String),
    /// A piece.
    Piece(String),
}

impl Item {
    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Item::Number(name) | Item::Construction(name) | Item::Piece(name) => name,
        }
    }

    /// Where it stands in the file.
    #[must_use]
    pub fn route(&self) -> Route {
        let top = Route::top();
        match self {
            Item::Number(name) => top.key("numbers").key(name.as_str()),
            Item::Construction(name) => top.key("construction").key(name.as_str()),
            Item::Piece(name) => top.key("pieces").key(name.as_str()),
        }
    }
}

/// Every item, each with the names its formulas use.
fn needs(garment: &Garment) -> Vec<(Item, Vec<String>)> {
    let heads = |names: Vec<&str>| names.into_iter().map(head).collect::<Vec<_>>();
    let numbers = garment.numbers.iter().map(|number| {
        let used = number.formulas.iter().flat_map(|(_, formula)| formula.names()).map(|(name, _)| name).collect();
        (Item::Number(number.name.clone()), heads(used))
    });
    let construction = garment.construction.iter().map(|entry| {
        let formulas = entry.formulas();
        let used = formulas.iter().flat_map(|(_, formula)| formula.names()).map(|(name, _)| name).collect();
        (Item::Construction(entry.name.clone()), heads(used))
    });
    let pieces = garment.shape.pieces.iter().map(|(name, piece)| {
        let used = crate::draft::names_used(piece);
        let used = used.iter().map(|(name, _)| name.as_str()).collect();
        (Item::Piece(name.clone()), heads(used))
    });
    numbers.chain(construction).chain(pieces).collect()
}

fn head(name: &str) -> String {
    name.split('.').next().unwrap_or(name).to_string()
}

/// Puts the items into an order in which each finds what it needs; rings are faults. What has no item (a
/// measurement, a cloth, a misspelt name) is not ordered here.
pub(super) fn order(garment: &Garment, faults: &mut Vec<Fault>) -> Vec<Item> {
    let all = needs(garment);
    let index: BTreeMap<&str, usize> = all.iter().enumerate().map(|(at, (item, _))| (item.name(), at)).collect();
    let mut state = vec![Mark::New; all.len()];
    let mut done = Vec::new();
    let mut stack = Vec::new();
    for start in 0..all.len() {
        visit(start, &all, &index, &mut state, &mut stack, &mut done, faults);
    }
    done.into_iter().map(|at| all[at].0.clone()).collect()
}

#[derive(Clone, Copy, PartialEq)]
enum Mark {
    New,
    Open,
    Done,
}

fn visit(
    at: usize,
    all: &[(Item, Vec<String>)],
    index: &BTreeMap<&str, usize>,
    state: &mut [Mark],
    stack: &mut Vec<usize>,
    done: &mut Vec<usize>,
    faults: &mut Vec<Fault>,
) {
    match state[at] {
        Mark::Done => return,
        Mark::Open => {
            let from = stack.iter().position(|other| *other == at).unwrap_or(0);
            let ring: Vec<&str> = stack[from..].iter().map(|other| all[*other].0.name()).collect();
            let words =
                ring.iter().chain(ring.first()).map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" needs ");
            let fault = Fault::new(
                Code::Cycle,
                Place::Key(all[at].0.route()),
                format!("these need each other in a ring: {words}"),
            );
            faults.push(fault.help("break the ring: give one of them a value that does not depend on the others"));
            return;
        }
        Mark::New => {}
    }
    state[at] = Mark::Open;
    stack.push(at);
    for name in &all[at].1 {
        if let Some(&next) = index.get(name.as_str()) {
            // A piece may name its own edges; that is its own affair.
            if next != at || !matches!(all[at].0, Item::Piece(_)) {
                visit(next, all, index, state, stack, done, faults);
            }
        }
    }
    stack.pop();
    state[at] = Mark::Done;
    done.push(at);
}
