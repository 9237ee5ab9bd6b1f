//! Showing faults.

use std::io::IsTerminal;

use serde_json::{Value, json};

use super::complain;
use crate::fault::{Fault, locate_json, render_human};
use crate::source::Source;

/// Shows faults and warnings on standard error, the faults first, and a line that counts them.
pub(super) fn show(source: &Source, faults: &[Fault]) {
    let colours = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let (stop, warn): (Vec<&Fault>, Vec<&Fault>) = faults.iter().partition(|fault| fault.stops());
    for fault in stop.iter().chain(&warn) {
        complain(&render_human(fault, source, colours));
        complain("");
    }
    if !faults.is_empty() {
        complain(&format!("{}, {}", count(stop.len(), "fault"), count(warn.len(), "warning")));
    }
}

/// `1 fault`, `3 warnings`.
pub(super) fn count(number: usize, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

/// Faults as JSON.
pub(super) fn to_json(source: &Source, faults: &[Fault]) -> Value {
    json!(faults.iter().map(|fault| locate_json(fault, source)).collect::<Vec<_>>())
}
