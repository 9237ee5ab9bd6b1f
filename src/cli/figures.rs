//! `furbelow figures`: the contact sheet of all kinds of figure.

use super::args::FiguresArgs;
use super::{FINE, say};
use crate::book::KINDS;
use crate::draw::{Ask, sheet_page};

pub(super) fn run(args: &FiguresArgs) -> u8 {
    let asks: Vec<Ask<'_>> =
        KINDS.iter().map(|kind| Ask { kind: kind.name, about: kind.doc, inputs: kind.inputs }).collect();
    say(sheet_page(&asks, args.grey).trim_end());
    FINE
}
