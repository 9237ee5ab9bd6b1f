//! `furbelow explain`.

use super::args::ExplainArgs;
use super::{FINE, USAGE, complain, say};
use crate::fault::{ALL_CODES, Code, did_you_mean};

pub(super) fn run(args: &ExplainArgs) -> u8 {
    let Some(name) = &args.code else {
        for code in ALL_CODES {
            say(&format!("{:<18} {}", code.name(), first_sentence(code.explain())));
        }
        return FINE;
    };
    let Some(code) = Code::named(name) else {
        let known: Vec<&str> = ALL_CODES.iter().map(|code| code.name()).collect();
        complain(&format!("no kind of fault is called `{name}`; {}", did_you_mean(name, &known)));
        return USAGE;
    };
    say(&format!("{}\n", code.name()));
    for line in code.explain().lines() {
        say(line.trim());
    }
    FINE
}

fn first_sentence(text: &str) -> String {
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match flat.find(['.', ':']) {
        Some(end) => flat[..end].to_string(),
        None => flat,
    }
}
