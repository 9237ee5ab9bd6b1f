//! The seams a strip runs along, added up.

use super::given::InputFault;
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Count, Length, Show};

/// More seams than this are a slip.
const MOST_RUNS: usize = 1000;

/// Writes the sum of a list of lengths and how many there are, with the sum in words.
///
/// # Errors
/// Where the list is empty or absurdly long.
pub(super) fn total_run(work: &mut Work, list: &str, sum: &str, count: &str) -> Result<(), Stop> {
    let seams = work.lengths(list);
    if seams.is_empty() {
        return Err(InputFault::new(list, "this list is empty").help("name at least one seam").into());
    }
    if seams.len() > MOST_RUNS {
        return Err(InputFault::new(list, "more than a thousand seams").into());
    }
    let rule = match seams.len() {
        1..=6 => seams.iter().map(|seam| both(*seam, Show::LENGTH)).collect::<Vec<_>>().join(" + "),
        many => format!("the sum of all {many}"),
    };
    work.put(sum, seams.iter().copied().sum::<Length>(), rule);
    work.put(count, Count(seams.len() as u64), "one for each seam");
    Ok(())
}
