//! The page for buyers of an earlier edition.

use crate::compare::{Comparison, Side, notice};
use crate::fault::Fault;
use crate::set::{Job, Paper, SetDocument};

/// How many lines a list of the page may have, tried in this order until all is on one page.
const LINES: [usize; 8] = [40, 28, 20, 14, 10, 7, 4, 2];

/// The page "What changed", with as much on it as one page holds.
///
/// # Errors
/// What setting it finds wrong.
pub fn what_changed(comparison: &Comparison, new: &Side, paper: Paper) -> Result<SetDocument, Vec<Fault>> {
    let set = |lines| Job::notice(&notice(comparison, &new.account, lines), paper)?.typeset()?.finish();
    let [first, rest @ ..] = LINES;
    let mut document = set(first)?;
    for lines in rest {
        if document.pages <= 1 {
            break;
        }
        document = set(lines)?;
    }
    Ok(document)
}
