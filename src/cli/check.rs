//! `furbelow check`.

use serde_json::json;

use super::args::CheckArgs;
use super::show::{show, to_json};
use super::{FAULTS, FINE, USAGE, complain, kept, say};
use crate::fault::Fault;
use crate::pipeline;

pub(super) fn run(args: &CheckArgs) -> u8 {
    let folders = match pipeline::find(&args.paths) {
        Ok(folders) => folders,
        Err(message) => {
            complain(&message);
            return USAGE;
        }
    };
    let store = kept();
    let mut bad = false;
    let mut reports = Vec::new();
    for folder in folders {
        let (source, checked) = pipeline::check_with(&folder, store.as_ref());
        bad |= checked.faults.iter().any(Fault::stops);
        if args.json {
            reports
                .push(json!({ "garment": folder.display().to_string(), "faults": to_json(&source, &checked.faults) }));
        } else {
            show(&source, &checked.faults);
            if !checked.faults.iter().any(Fault::stops) {
                say(&format!("{}: nothing in the way of a build", folder.display()));
            }
        }
    }
    if args.json {
        say(&serde_json::to_string_pretty(&reports).unwrap_or_default());
    }
    if bad { FAULTS } else { FINE }
}
