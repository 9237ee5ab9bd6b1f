//! `furbelow why`.

use serde_json::json;

use super::args::WhyArgs;
use super::show::show;
use super::{FAULTS, FINE, USAGE, complain, kept, say};
use crate::fault::{Fault, did_you_mean};
use crate::pipeline;
use crate::size::{Reason, why};

pub(super) fn run(args: &WhyArgs) -> u8 {
    let (source, checked) = pipeline::check_with(&args.path, kept().as_ref());
    let Some(build) = checked.build.filter(|_| !checked.faults.iter().any(Fault::stops)) else {
        show(&source, &checked.faults);
        return FAULTS;
    };
    let sizes: Vec<&str> = build.sizes.iter().map(|sized| sized.size.as_str()).collect();
    if let Some(size) = &args.size
        && !sizes.contains(&size.as_str())
    {
        complain(&format!("there is no size `{size}`; sizes are {}", sizes.join(", ")));
        return USAGE;
    }
    let mut answers = Vec::new();
    for sized in build.sizes.iter().filter(|sized| args.size.as_ref().is_none_or(|size| *size == sized.size)) {
        let Some(reasons) = why(sized, &args.name, build.systems) else {
            let known: Vec<String> = sized.names.0.keys().cloned().collect();
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            complain(&format!("nothing is called `{}`; {}", args.name, did_you_mean(&args.name, &known)));
            return USAGE;
        };
        if args.json {
            answers.push(json!({ "size": sized.size, "reasons": reasons }));
        } else {
            say(&format!("Size {}", sized.size));
            for reason in &reasons {
                say(&line(reason));
            }
            say("");
        }
    }
    if args.json {
        say(&serde_json::to_string_pretty(&answers).unwrap_or_default());
    }
    FINE
}

fn line(reason: &Reason) -> String {
    let indent = "  ".repeat(reason.depth + 1);
    let rule =
        if reason.filled.is_empty() { reason.rule.clone() } else { format!("{} = {}", reason.rule, reason.filled) };
    format!("{indent}{} = {}\n{indent}    {rule}", reason.name, reason.value)
}
