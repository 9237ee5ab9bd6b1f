//! `furbelow compare`.

use std::path::Path;

use super::args::{CompareArgs, PaperArg};
use super::show::show;
use super::{FAULTS, FINE, USAGE, complain, kept, say};
use crate::compare::{compare, text};
use crate::fault::{Code, Fault, Place};
use crate::pipeline::{self, NoSide, Wanted};
use crate::set::Paper;
use crate::write::whole;

pub(super) fn run(args: &CompareArgs) -> u8 {
    let store = kept();
    let papers = if args.numbers_only { Vec::new() } else { vec![Paper::A4, Paper::Letter] };
    let wanted = Wanted { papers, sizes: Vec::new(), sheets: Some(Vec::new()) };
    let mut sides = Vec::new();
    for named in [&args.old, &args.new] {
        match pipeline::side(named, &wanted, store.as_ref(), &|_| {}) {
            Ok(side) => sides.push(side),
            Err(NoSide::Words(words)) => {
                complain(&words);
                return USAGE;
            }
            Err(NoSide::Faults(source, faults)) => {
                show(&source, &faults);
                complain(&format!("{named} cannot be compared while it has faults"));
                return FAULTS;
            }
        }
    }
    let [old, new] = sides.as_slice() else { return USAGE };
    let comparison = compare(old, new);
    if args.json {
        say(&serde_json::to_string_pretty(&comparison).unwrap_or_default());
    } else {
        say(text(&comparison, new.account.systems).trim_end());
    }
    if let Some(path) = &args.pdf {
        let paper = match args.paper {
            PaperArg::Both | PaperArg::A4 => Paper::A4,
            PaperArg::Letter => Paper::Letter,
        };
        let written = pipeline::what_changed(&comparison, new, paper)
            .and_then(|document| put(path, &document.pdf).map_err(|fault| vec![fault]));
        if let Err(faults) = written {
            faults.iter().for_each(|fault| complain(&fault.message));
            return FAULTS;
        }
    }
    FINE
}

fn put(path: &Path, pdf: &[u8]) -> Result<(), Fault> {
    whole(path, pdf).map_err(|error| {
        Fault::new(Code::Output, Place::Nowhere, format!("cannot write `{}`: {error}", path.display()))
    })
}
